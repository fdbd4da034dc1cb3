"""What a job takes from the shelf, as it is kept: how much of what. How each number came about is planned again.

That is asked of the nearest jobs alone; of the others how much is enough.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from generator.planning.computed import Computed, add
from generator.planning.for_lists import needs_of
from generator.planning.plan import JobPlan
from generator.planning.supplies.restock import JobNeeds, Need
from generator.press.sheet.summary import JobSummary
from generator.records.families import Records


class Taken(NamedTuple):
    """How much a job takes of one entry of the records."""

    family: str
    entry: str
    low: float
    high: float
    kind: str


def taken_by(needs: Sequence[Need]) -> tuple[Taken, ...]:
    """How much is taken of what."""
    return tuple(Taken(n.family, n.entry, n.amount.low, n.amount.high, n.amount.kind) for n in needs)


def needs_again(records: Records, summary: JobSummary, taken: tuple[Taken, ...], plan: JobPlan | None) -> JobNeeds:
    """The needs of the job of a summary. Brief without a plan, or where it takes something else by now."""
    again = None if plan is None else needs_of(records, plan)
    needs = () if again is None else again.needs
    if brief := taken_by(needs) != taken:
        needs = tuple(Need(t.family, t.entry, Computed(t.low, t.high, t.kind, add, ())) for t in taken)
    return JobNeeds(summary.id, summary.title, summary.date, summary.goes_ahead, summary.state, needs, brief)
