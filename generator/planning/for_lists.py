"""What one plan leaves for the lists of the studio: what it takes from the shelf, and what a recall has to know.

A list is about several clients, and what it says of one is the same whatever that one answered: a job counts as if its
client could touch everything, and of two articles of which one is taken, each from none to all. So enough is ordered.
Which one is laid out, its sheet says.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from generator.planning.computed import Computed, compute, counted, recorded
from generator.planning.plan import JobPlan
from generator.planning.supplies.restock import GROUPINGS, INKS, SUPPLIES, JobNeeds, Need
from generator.planning.supplies.tracing import JobLots
from generator.planning.supplies.tray import bottle_of, one_of_two, pieces
from generator.records.families import Records
from generator.records.jobs import Job


def needs_of(records: Records, plan: JobPlan) -> JobNeeds | None:
    """What a job takes from the shelf; None for what is finished and has taken it, not worked, or without a day."""
    job = plan.job
    if job.finished is not None or job.not_worked is not None or not job.has_a_day:
        return None
    return JobNeeds(
        str(job.id), job.title, job.date, plan.work is not None, plan.state.listed, tuple(_needs(records, plan))
    )


def _needs(records: Records, plan: JobPlan) -> Iterator[Need]:
    if plan.work is None:
        return
    tray, pairs = plan.work.at_hand.tray, one_of_two(records)
    each = {str(one.supply.id): one for article in tray.supplies for one in (article, article.or_else) if one}

    # In the order of the records, because that of a tray rests on its client's answers.
    used = [each[name] for name in records.supplies if name in each]
    for article in used:
        number: Computed = article.number
        if (at := pairs.get(str(article.supply.id))) is not None:
            number = compute(none_or_all, "number", number=number, taken=replace(counted(1, at), low=0.0))
        yield Need(SUPPLIES, str(article.supply.id), number)
    one = counted(1, plan.job.origin_at("parts"))
    for supply in (article.supply for article in used if article.supply.by_grouping):
        by_grouping = compute(pieces, "number", number=one, each=recorded(supply.amount))
        yield from (Need(GROUPINGS, grouping, by_grouping) for grouping in tray.groupings)
    # What a wash takes is counted at the bottle that it is mixed of.
    for poured in tray.inks:
        if poured.ink.mixed is None:
            yield Need(INKS, str(poured.ink.id), poured.millilitres)


def none_or_all(number: float, taken: float) -> float:
    """number · taken: of two articles of which one is taken, nothing or all of it."""
    return number * taken


class StepSet(NamedTuple):
    """What one step is worked with, by ids; dial and passes as the sheet prints them. bottle: what its ink is mixed of.

    part: its letter and id.
    """

    number: int
    technique: str
    part: str
    grouping: str
    machine: str
    dial: str
    ink: str
    bottle: str
    passes: str


def lots_of(records: Records, plan: JobPlan) -> JobLots | None:
    """What a job leaves behind; also of one that may not go ahead, because its day may still come.

    None for one that is not worked on its day.
    """
    if plan.job.not_worked is not None:
        return None
    worked_with = [
        (number, str(step.setting.grouping.id), str(bottle_of(records, step.ink).id))
        for number, step in enumerate(plan.steps, 1)
    ]
    return _lots(records, plan.job, worked_with)


def lots_of_worked(records: Records, job: Job, steps: Sequence[StepSet]) -> JobLots:
    """What a job leaves behind whose steps were kept as they were planned."""
    return _lots(records, job, [(step.number, step.grouping, step.bottle) for step in steps])


def _lots(records: Records, job: Job, planned: Sequence[tuple[int, str, str]]) -> JobLots:
    """What was used takes the place of what was planned."""
    done = None if job.finished is None else job.finished.as_corrected
    other = {} if done is None else {one.number: one for one in done.steps}
    groupings: dict[str, None] = {}
    bottles: dict[str, None] = {}
    for number, grouping, bottle in planned:
        one = other.get(number)
        needle = grouping if one is None or one.needle is None else str(one.needle)
        used = bottle if one is None or one.ink is None else str(bottle_of(records, records.inks[one.ink]).id)
        groupings[needle] = bottles[used] = None
    return JobLots(
        str(job.id),
        str(job.client),
        job.date if done is None else done.on,
        done is not None,
        () if done is None else tuple(str(lot) for lot in done.lots_used),
        () if done is None else tuple((str(one.grouping), str(done.corrected(one.lot))) for one in done.cartridges),
        tuple(bottles),
        tuple(groupings),
        tuple((str(one.ink), str(one.lot)) for look in job.healed for one in look.reactions),
    )
