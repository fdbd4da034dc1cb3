"""What a span of days takes from the shelf, and what has to be ordered so that the reserve stays.

Only planned, unfinished jobs that may go ahead count; the others are listed as left out, because what they need
is not known before they are cleared. Of each job only what it takes stays behind. The need is a range like every
estimate; the larger end is what is ordered for.

An order stops at a job that cannot be read. What nobody counted (`shelf`) is asked, never guessed.
"""

from __future__ import annotations

import datetime
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import NamedTuple

from generator.grouped import grouped
from generator.how_many import how_many
from generator.planning.computed import Computed, Recorded, Value, compute, counted, recorded, total
from generator.quantities import Quantity
from generator.records.families import Records
from generator.records.inks import Ink
from generator.records.needles import Grouping
from generator.records.supplies import Bottles, Boxes, Supply
from generator.trade import dates, supplies

SUPPLIES, GROUPINGS, INKS = "supplies", "groupings", "inks"


class Span(NamedTuple):
    """From the first to the last day, both included."""

    first: datetime.date
    last: datetime.date

    def holds(self, day: datetime.date) -> bool:
        return self.first <= day <= self.last


class Need(NamedTuple):
    """What one job takes of one entry of the records. amount: without inputs where the job is `brief`."""

    family: str
    entry: str
    amount: Computed


@dataclass(frozen=True, slots=True)
class JobNeeds:
    """One unfinished job. `needs` is empty for one that may not go ahead; `state` is what lists say of it.

    brief: whether it is only known how much it takes, and not how that came about.
    """

    job: str
    title: str
    date: datetime.date
    goes_ahead: bool
    state: str
    needs: tuple[Need, ...]
    brief: bool = False


@dataclass(frozen=True, slots=True)
class Line:
    """One entry of the records over the span. Without a count of the shelf there is no order, only the question."""

    family: str
    entry: str
    name: str
    counted_in: str
    need: Value
    stock: Recorded | None = None
    reserve: Recorded | None = None
    pack: Recorded | None = None
    order: Computed | None = None


@dataclass(frozen=True, slots=True)
class Restock:
    """The totals of a span, in the order of the records."""

    span: Span
    lines: tuple[Line, ...]
    counted: tuple[JobNeeds, ...]
    left_out: tuple[JobNeeds, ...]


def span_ahead(records: Records, first: datetime.date) -> Span:
    """From a day on for as long as the studio plans ahead."""
    return Span(first, dates.add_weeks(first, int(records.studio.limits.plan_ahead.low) // 7))


def restock(records: Records, span: Span, jobs: Iterable[JobNeeds]) -> Restock:
    """The totals over the jobs whose day lies in the span, against stock and reserve."""
    within = sorted((job for job in jobs if span.holds(job.date)), key=lambda job: (job.date, job.job))
    counted = tuple(job for job in within if job.goes_ahead)
    taken: _Taken = grouped(((need.family, need.entry), (job, need.amount)) for job in counted for need in job.needs)
    left_out = tuple(job for job in within if not job.goes_ahead)
    return Restock(span, tuple(_lines(records, taken)), counted, left_out)


# By family and entry each job that takes of it, and how much; one with an ink neat and in a wash stands there twice.
_Taken = dict[tuple[str, str], list[tuple[JobNeeds, Computed]]]


def _lines(records: Records, taken: _Taken) -> Iterator[Line]:
    """Everything that is counted on the shelf, and what is taken without being counted."""
    # What each grouping has a box of its own for is counted there.
    articles = [supply for supply in records.supplies.values() if not supply.by_grouping]
    on_shelf: list[tuple[str, Supply | Grouping | Ink, str, str, str, Supply | Boxes | Bottles | None]] = [
        *((SUPPLIES, supply, supply.name, supply.counted_in, "number", supply) for supply in articles),
        *((GROUPINGS, one, one.label, "cartridge", "number", one.shelf) for one in records.groupings.values()),
        *((INKS, ink, ink.name, "bottle", "volume", ink.shelf) for ink in records.inks.values()),
    ]
    for family, entry, name, counted_in, kind, shelf in on_shelf:
        found = taken.get((family, entry.id), [])
        # Nobody orders what has an end and is not taken before it.
        if not found and (shelf is None or entry.until is not None):
            continue
        need = _sum(found, kind, records.studio.limits.plan_ahead)
        if shelf is None:
            yield Line(family, str(entry.id), name, counted_in, need)
            continue
        pack = recorded(shelf.bottle if isinstance(shelf, Bottles) else shelf.pack)
        stock, reserve = recorded(shelf.stock), recorded(shelf.reserve)
        order = compute(supplies.packs_to_order, "number", need=need, stock=stock, reserve=reserve, pack=pack)
        yield Line(family, str(entry.id), name, counted_in, need, stock, reserve, pack, order)


def _sum(taken: list[tuple[JobNeeds, Computed]], kind: str, nothing: Quantity) -> Value:
    """All that is taken, by job; later jobs, of which only that is known, together."""
    if not taken:
        return counted(0, nothing, kind)
    names: Counter[str] = Counter()
    inputs = []
    for job, amount in taken:
        if not job.brief:
            names[job.job] += 1
            inputs.append((job.job if names[job.job] == 1 else f"{job.job}, {names[job.job]}", amount))
    if later := [(job, amount) for job, amount in taken if job.brief]:
        many = len({job.job for job, _ in later})
        together = replace(total([amount for _, amount in later], kind), inputs=())
        inputs.append((how_many(many, "later job"), together))
    return replace(total([amount for _, amount in taken], kind), inputs=tuple(inputs))
