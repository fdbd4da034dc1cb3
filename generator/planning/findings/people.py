"""Whether the artist may do the piece."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from generator.planning.findings.verdict import About, Finding
from generator.planning.working.steps import Step
from generator.records.families import Records
from generator.records.jobs import Job


def people_findings(records: Records, job: Job, steps: tuple[Step, ...]) -> Iterator[Finding]:
    person, site = records.people[job.artist], records.sites[job.place]
    barred = sorted({s.setting.technique.id for s in steps} - set(person.may))
    if barred:
        yield About("artist", person.origin_at("may"), records.studio).wait(
            f"{person.name} is not cleared for {', '.join(barred)}.", "Give the piece to someone who is."
        )
    if person.role != "artist":
        for where, says, anywhere in (
            ("a client's piece", records.studio.limits.apprentice_pieces, True),
            (site.name, site.apprentice, False),
        ):
            said = f"{person.name} is an {person.role}; for {where} the studio says: {says}."
            yield _watched(records, job, says, said, anywhere)
        alone = sorted({s.setting.technique.id for s in steps if not s.setting.technique.may_apprentice})
        if alone:
            yield About("artist", records.techniques[alone[0]].origin_at("may_apprentice"), records.studio).wait(
                f"Not for an apprentice: {', '.join(alone)}.", "Let an artist do these steps."
            )


def where_all_is_clear(records: Records, job: Job, found: Iterable[Finding]) -> Iterator[Finding]:
    """Somebody who is no artist works on clear skin, and where nothing but they themselves asks for care."""
    person = records.people[job.artist]
    there = ["a scar"] if job.scars else []
    there += ["an existing tattoo"] if job.existing_tattoos else []
    remedy = "Give the piece to an artist."
    others = [finding for finding in found if finding.about != "artist"]
    if any(finding.level == "care" for finding in others):
        remedy = remedy if there else "Clear the points that ask for care, or give the piece to an artist."
        there.append("a point that asks for care")
    elif any(finding.asks for finding in others):
        remedy = remedy if there else "Have the open questions answered, or give the piece to an artist."
        there.append("a question that nobody has answered")
    if person.role != "artist" and there:
        reason = f"Not for an {person.role}: there is {', and '.join(there)}."
        yield About("artist", person.origin_at("role"), records.studio).wait(reason, remedy)


def _watched(records: Records, job: Job, says: str, reason: str, anywhere: bool) -> Finding:
    """What a piece by somebody who is no artist asks.

    anywhere: whether it is asked of any piece, which authority and insurer answer; one place is decided by the artist
    who is named and watches. Nobody supervises their own work.
    """
    about = About("artist", says)
    if says in ("no", "never"):
        return about.wait(reason, "Give the piece to an artist.")
    if anywhere and says == "ask":
        answer = "write their answer as `apprentice_pieces` into studio.yml"
        return about.look_up(reason, f"Ask authority and insurer, and {answer}.")
    if job.supervisor is None:
        return about.look_up(reason, "Let an artist decide and watch the whole time, and write who into the job.")
    name = records.people[job.supervisor].name
    if job.supervisor == job.artist or records.people[job.supervisor].role != "artist":
        return about.wait(reason, f"{name} cannot supervise it: let an artist decide and watch the whole time.")
    return about.care(reason, f"Have {name} watch the whole time.")
