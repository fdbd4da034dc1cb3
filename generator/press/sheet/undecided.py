"""How many values of a plan nobody of this studio has decided."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Mapping

from pydantic import BaseModel

from generator.origins import Origin, origin_of
from generator.planning.plan import JobPlan
from generator.records.decisions import undecided
from generator.records.families import Records
from generator.records.jobs import Job


def count_undecided(records: Records, plan: JobPlan) -> int:
    """How many of the entries that the plan rests on are suggestions."""
    open_ = {(each.family, each.id) for each in undecided(records)}
    return len(open_ & set(_entries(plan, set()))) if open_ else 0


def _entries(value: object, seen: set[int]) -> Iterator[tuple[str, str]]:
    """The family and the id of every entry whose values are inside; the job itself is no value of the house."""
    if isinstance(value, Job) or id(value) in seen:
        return
    origin = value if isinstance(value, Origin) else origin_of(value)
    if origin.keys:
        family, *keys = origin.keys
        yield family, "" if family == "studio" or not keys else keys[0]
    inside: list[object] = []
    if isinstance(value, BaseModel):
        inside = [getattr(value, name) for name in type(value).model_fields]
    elif dataclasses.is_dataclass(value):
        inside = [getattr(value, field.name) for field in dataclasses.fields(value)]
    elif isinstance(value, tuple | list):
        inside = list(value)
    elif isinstance(value, Mapping):
        inside = list(value.values())
    if inside:
        seen.add(id(value))
    for item in inside:
        yield from _entries(item, seen)
