"""What sittings of one day want at once: a sentence and a way out, on both sheets and on the day's page.

A clash is a care: somebody looks at the day, and publishing goes on. Sittings are called by their jobs, never by a
client.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from generator.diagnostics import Diagnostic
from generator.how_many import how_many
from generator.origins import Origin
from generator.planning.findings.verdict import About, Finding, Said
from generator.planning.timing.clashes import Clash, cleaning_between
from generator.planning.timing.rounding import clock_rounded_out
from generator.quantities import shown
from generator.records.families import Records
from generator.records.jobs import Job

# So many are said for one person or thing; a day with more of them is mended from its own page.
_MOST = 3


def said_of(records: Records, clash: Clash) -> Said:
    """A clash as it is printed."""
    begins, ends = clock_rounded_out(clash.begins, clash.ends)
    if clash.kind != "machine":
        begins = clash.begins  # a set-up begins when the job says, and is no estimate
    jobs, times = _listed(clash.jobs), f"{begins:%H:%M}–{ends:%H:%M}"
    if clash.kind == "person":
        name = records.people[clash.what].name
        return Said(
            f"{name} is needed by {jobs} at once, {times} if it goes slowly.",
            "Move one of them, or give it to somebody else.",
        )
    if clash.kind == "turn-round":
        return _too_soon(records, clash)
    if clash.kind == "chair":
        return Said(
            f"{len(clash.jobs)} sittings and {how_many(records.studio.chairs or 0, 'chair')}: {jobs}, {times}.",
            "Move one of them to another time.",
        )
    if clash.kind == "machine":
        machine = records.machines[clash.what]
        return Said(
            f"{machine.name}: {jobs} may need it at once, {times}; {machine.count} here.",
            "Agree on who has it first, or choose another machine for one of them.",
        )
    person, taken = records.people[clash.what], clash.amount
    reached = shown(taken, taken, "acceleration", records.studio.shows)
    return Said(
        f"{person.name}: {jobs} together bring {reached} into the hand, which is at the action value or above.",
        "Change to a calmer machine, move one of them, or stop earlier; numbness comes before any table.",
    )


def _too_soon(records: Records, clash: Clash) -> Said:
    needed = cleaning_between(records).minutes
    # The first client leaves when the day's page says so.
    _, leaves = clock_rounded_out(clash.begins, clash.begins)
    between = max(0.0, (clash.ends - leaves).total_seconds() / 60)
    first, second = clash.jobs
    of = f"{records.people[clash.what].name}: " if clash.what else ""
    later = -int(-(needed - between) // 1)
    return Said(
        f"{of}{between:.0f}\u00a0min between {first} and {second} if it goes slowly; cleaning and airing take "
        f"{needed:.0f}\u00a0min.",
        f"Let the client of {second} come {later}\u00a0min later, or keep another clean station for it.",
    )


def clash_findings(records: Records, job: Job, clashes: Sequence[Clash]) -> Iterator[Finding]:
    """What the sitting of a job wants at once with others of its day."""
    for clash in _some(clashes):
        said = said_of(records, clash)
        yield About("start", _by(records, job, clash)).care(said.reason, said.remedy)


def _some(clashes: Sequence[Clash]) -> Iterator[Clash]:
    number: Counter[tuple[str, str]] = Counter()
    for clash in clashes:
        number[clash.kind, clash.what] += 1
        if number[clash.kind, clash.what] <= _MOST:
            yield clash


def _by(records: Records, job: Job, clash: Clash) -> Origin:
    """What has to be there once for each of them; where it is counted or decided."""
    studio = records.studio
    if clash.kind == "machine":
        return records.machines[clash.what].origin_at("count")
    if clash.kind == "chair":
        return studio.origin_at("chairs").resting_on(studio.source)
    if clash.kind == "turn-round":
        return studio.limits.origin_at("turn_round").resting_on(studio.source)
    return job.origin_at("start").resting_on(studio.source)


def clash_reminders(records: Records, job: Job, clashes: Sequence[Clash]) -> Iterator[Diagnostic]:
    """The same at the line of the job where its time is written."""
    for clash in _some(clashes):
        said = said_of(records, clash)
        yield Diagnostic(
            "J650",
            job.start.place,
            found=f"“{job.start:%H:%M}”",
            expected="a time at which people, chairs and machines are free, and stations clean",
            help=said.remedy[:1].lower() + said.remedy[1:].rstrip("."),
            says=f"{job.date.isoformat()}: {said.reason.rstrip('.')}",
        )


def _listed(jobs: Sequence[str]) -> str:
    return " and ".join([", ".join(jobs[:-1]), jobs[-1]]) if len(jobs) > 1 else jobs[0]
