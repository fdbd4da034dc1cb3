"""What a job names, or would be worked with, and that is not here any more on its day.

A job of an earlier day keeps what it names. Of a finished job nothing is proposed to be changed but the end itself.
"""

from __future__ import annotations

from collections.abc import Iterator

from generator.diagnostics import Diagnostic, Place
from generator.planning.supplies.tray import bottle_of
from generator.planning.working.steps import Step
from generator.records.ended import Ended, is_over, not_here
from generator.records.families import Records
from generator.records.jobs import Job
from generator.records.quoting import name_of
from generator.records.record import Entry
from generator.records.references import references


def ended_in_job(records: Records, job: Job) -> Iterator[Diagnostic]:
    """References of a job to what is over on its day."""
    for reference in references(job):
        entry = records.family(reference.family).get(reference)
        until: Ended | None = getattr(entry, "until", None)
        if entry is not None and until is not None and is_over(until, job.date):
            yield _over(job, reference.family, entry, until, reference.place, "")


def ended_by_default(records: Records, job: Job, steps: tuple[Step, ...]) -> Iterator[Diagnostic]:
    """What the studio's own records choose for the job, and is over on its day."""
    seen: set[tuple[str, str]] = set()
    for step in steps:
        setting, ink = step.setting, records.inks[step.ink.id]
        for family, entry in (
            ("machines", setting.machine),
            ("groupings", setting.grouping),
            ("inks", ink),
            ("inks", bottle_of(records, ink)),
        ):
            key = (family, str(entry.id))
            if entry.until is not None and is_over(entry.until, job.date) and key not in seen:
                seen.add(key)
                chosen_by = (setting.technique, records.people[job.artist], records.studio, ink)
                found = (r for by in chosen_by for r in references(by) if (r.family, str(r)) == key)
                place = next((reference.place for reference in found), entry.id.place)
                yield _over(job, family, entry, entry.until, place, f", and job `{job.id}` would be worked with it")


def _over(job: Job, family: str, entry: Entry, until: Ended, place: Place, more: str) -> Diagnostic:
    first = "name another one, or" if job.finished is None else "the job is finished and stays as it was written;"
    return Diagnostic(
        "J623",
        place,
        found=f"“{entry.id}”",
        expected=f"what is here on {job.date.isoformat()}",
        help=f"{first} mend `until` of `{entry.id}` in {family}.yml",
        says=f"{name_of(entry)}, {not_here(until)}{more}",
    )
