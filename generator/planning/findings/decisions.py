"""What nobody of this studio has decided and no sheet can do without: contact times, screening, scar rules, ages."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from generator.planning.findings.verdict import About, Finding
from generator.records.decisions import undecided
from generator.records.families import Records
from generator.records.jobs import Job


def decision_findings(records: Records, job: Job) -> Iterator[Finding]:
    """One wait for each thing that is still a suggestion; what is finished is a record, and waits for nothing."""
    if job.finished is not None:
        return
    for called, number in Counter(each.stops for each in undecided(records) if each.stops).items():
        yield About("studio", records.studio.origin_at("must_be_decided")).wait(
            f"Not decided here yet: {called} ({number}).",
            "Let somebody of this studio read and decide them, with name and day.",
        )
