"""Whether the artist may do the piece."""

from __future__ import annotations

from collections.abc import Iterator

from generator.origins import origin_of
from generator.planning.findings.verdict import Finding
from generator.planning.working.steps import Step
from generator.records.families import Records
from generator.records.jobs import Job


def people_findings(records: Records, job: Job, steps: tuple[Step, ...]) -> Iterator[Finding]:
    person, site = records.people[job.artist], records.sites[job.place]
    house = records.studio.source
    barred = sorted({s.setting.technique.id for s in steps} - set(person.may))
    if barred:
        yield Finding(
            "wait",
            f"{person.name} is not cleared for {', '.join(barred)}.",
            "Give the piece to someone who is.",
            "artist",
            person.origin_at("may").resting_on(house),
        )
    if person.role != "artist":
        for where, says in (
            ("a client's piece", records.studio.limits.apprentice_pieces),
            (site.name, site.apprentice),
        ):
            supervised = says == "supervised"
            yield Finding(
                "care" if supervised else "wait",
                f"{person.name} is an {person.role}; for {where} the studio says: {says}.",
                "Have an artist watch the whole time." if supervised else "Let an artist decide, or do the piece.",
                "artist",
                origin_of(says),
            )
        alone = sorted({s.setting.technique.id for s in steps if not s.setting.technique.may_apprentice})
        if alone:
            yield Finding(
                "wait",
                f"{', '.join(alone)} is not for an apprentice.",
                "Let an artist do these steps.",
                "artist",
                records.techniques[alone[0]].origin_at("may_apprentice").resting_on(house),
            )
