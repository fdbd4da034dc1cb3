"""Whether the artist may do the piece."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from generator.origins import origin_of
from generator.planning.findings.verdict import Finding, Level
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
        for where, says, anywhere in (
            ("a client's piece", records.studio.limits.apprentice_pieces, True),
            (site.name, site.apprentice, False),
        ):
            level, remedy, asks = _watched(records, job, says, anywhere)
            yield Finding(
                level,
                f"{person.name} is an {person.role}; for {where} the studio says: {says}.",
                remedy,
                "artist",
                origin_of(says),
                asks=asks,
                looked_up=asks,
            )
        alone = sorted({s.setting.technique.id for s in steps if not s.setting.technique.may_apprentice})
        if alone:
            yield Finding(
                "wait",
                f"Not for an apprentice: {', '.join(alone)}.",
                "Let an artist do these steps.",
                "artist",
                records.techniques[alone[0]].origin_at("may_apprentice").resting_on(house),
            )


def where_all_is_clear(records: Records, job: Job, found: Iterable[Finding]) -> Iterator[Finding]:
    """Somebody who is no artist works on clear skin, and where nothing but they themselves asks for care."""
    person = records.people[job.artist]
    care = any(finding.level == "care" and finding.about != "artist" for finding in found)
    found_there = {"a scar": bool(job.scars), "an existing tattoo": bool(job.existing_tattoos)}
    found_there["a point that asks for care"] = care
    there = [what for what, is_there in found_there.items() if is_there]
    if person.role != "artist" and there:
        yield Finding(
            "wait",
            f"Not for an {person.role}: there is {', and '.join(there)}.",
            "Clear the points that ask for care, or give the piece to an artist."
            if there == ["a point that asks for care"]
            else "Give the piece to an artist.",
            "artist",
            person.origin_at("role").resting_on(records.studio.source),
        )


def _watched(records: Records, job: Job, says: str, anywhere: bool) -> tuple[Level, str, bool]:
    """What a piece by somebody who is no artist asks: its level, its remedy, whether nobody has answered it yet.

    anywhere: whether it is asked of any piece, which authority and insurer answer; one place is decided by the artist
    who is named and watches. Nobody supervises their own work.
    """
    if says in ("no", "never"):
        return "wait", "Give the piece to an artist.", False
    if anywhere and says == "ask":
        return "wait", "Ask authority and insurer, and write their answer as `apprentice_pieces` into studio.yml.", True
    if job.supervisor is None:
        return "wait", "Let an artist decide and watch the whole time, and write who into the job.", True
    name = records.people[job.supervisor].name
    if job.supervisor == job.artist or records.people[job.supervisor].role != "artist":
        return "wait", f"{name} cannot supervise it: let an artist decide and watch the whole time.", False
    return "care", f"Have {name} watch the whole time.", False
