"""How many values of a plan nobody of this studio has decided."""

from __future__ import annotations

from collections.abc import Iterator

from generator.origins import Origin, origin_of
from generator.planning.plan import JobPlan
from generator.press.explained.everything_in import everything_in
from generator.records.decisions import undecided
from generator.records.families import Records


def count_undecided(records: Records, plan: JobPlan) -> int:
    """How many of the entries that the plan rests on are suggestions."""
    open_ = {(each.family, each.id) for each in undecided(records)}
    return len(open_ & set(_entries(plan))) if open_ else 0


def _entries(plan: JobPlan) -> Iterator[tuple[str, str]]:
    """The family and the id of every entry whose values are inside; the job itself is no value of the house."""
    for value in everything_in(plan, {id(plan.job)}):
        origin = value if isinstance(value, Origin) else origin_of(value)
        if origin.keys:
            family, *keys = origin.keys
            yield family, "" if family == "studio" or not keys else keys[0]
