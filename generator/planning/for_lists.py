"""What one plan leaves for the lists of the studio: what it takes from the shelf, and what a recall has to know."""

from __future__ import annotations

from collections.abc import Iterator

from generator.planning.computed import compute, counted, recorded
from generator.planning.plan import JobPlan
from generator.planning.supplies.restock import GROUPINGS, INKS, SUPPLIES, JobNeeds, Need
from generator.planning.supplies.tracing import JobLots
from generator.planning.supplies.tray import bottle_of, pieces
from generator.planning.working.steps import order_of_work
from generator.records.families import Records


def needs_of(records: Records, plan: JobPlan) -> JobNeeds | None:
    """What a job takes from the shelf; None for a finished one, which has taken it already."""
    job = plan.job
    if job.finished is not None:
        return None
    return JobNeeds(str(job.id), job.title, job.date, plan.work is not None, plan.state.listed, tuple(_needs(plan)))


def _needs(plan: JobPlan) -> Iterator[Need]:
    if plan.work is None:
        return
    tray = plan.work.at_hand.tray
    for article in tray.supplies:
        # What stays off the tray because of an allergy is not used up.
        if not article.instead:
            yield Need(SUPPLIES, str(article.supply.id), article.number)
    by_grouping = [c.supply for c in tray.supplies if c.supply.by_grouping and not c.instead]
    for supply in by_grouping:
        each = recorded(supply.amount)
        for grouping in tray.groupings:
            one = counted(1, plan.job.origin_at("parts"))
            yield Need(GROUPINGS, grouping, compute(pieces, "number", number=one, each=each))
    # What a wash takes is counted at the bottle that it is mixed of.
    for poured in tray.inks:
        if poured.ink.mixed is None:
            yield Need(INKS, str(poured.ink.id), poured.millilitres)


def lots_of(records: Records, plan: JobPlan) -> JobLots:
    """What a job leaves behind; also of one that may not go ahead, because its day may still come."""
    job, done = plan.job, plan.job.finished
    steps = plan.work.steps if plan.work is not None else order_of_work(records, job, plan.scars).steps
    bottles = dict.fromkeys(bottle_of(records, step.ink).id for step in steps)
    return JobLots(
        str(job.id),
        str(job.client),
        job.date if done is None else done.on,
        done is not None,
        () if done is None else tuple(str(lot) for lot in done.lots),
        () if done is None else tuple((str(one.grouping), str(one.lot)) for one in done.cartridges),
        tuple(records.inks[bottle].id for bottle in bottles),
        tuple(dict.fromkeys(step.setting.grouping.id for step in steps)),
    )
