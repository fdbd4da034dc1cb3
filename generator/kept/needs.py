"""What a job takes from the shelf, with how each number came about, as it is kept: JSON of texts and numbers.

A formula is kept by its module and its name; only one of the program's own is found again.
"""

from __future__ import annotations

import datetime
import importlib
import inspect
import json
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from functools import cache
from typing import Any

from generator.planning.computed import Computed, Named, Operand, Recorded
from generator.planning.supplies.restock import JobNeeds, Need

_ROOMS = ("generator.trade.", "generator.planning.")


def kept_needs(needs: JobNeeds) -> str:
    """The needs as they are kept; nothing where a number rests on what JSON cannot hold."""
    try:
        taken = tuple((need.family, need.entry, _operand(need.amount)) for need in needs.needs)
    except _CannotBeKept:
        return ""
    whole = needs.job, str(needs.title), needs.date.isoformat(), needs.goes_ahead, needs.state, taken
    return json.dumps(whole, ensure_ascii=False, separators=(",", ":"))


def needs_again(kept: str) -> JobNeeds | None:
    """The needs that `kept_needs` wrote; None for anything else."""
    try:
        job, title, day, goes_ahead, state, taken = json.loads(kept)
        needs = tuple(Need(family, entry, _computed(amount)) for family, entry, amount in map(_listed, taken))
        return JobNeeds(job, title, datetime.date.fromisoformat(day), goes_ahead, state, needs)
    except (ValueError, TypeError, AttributeError, ImportError):
        return None


class _CannotBeKept(Exception):
    """A value that is no text and no number."""


def _operand(value: Operand) -> tuple[object, ...]:
    if isinstance(value, Recorded):
        said = str(value.where), str(value.source), str(value.text)
        return "recorded", value.low, value.high, value.kind, *said, value.default
    if isinstance(value, Named):
        return "named", _plain(value.value), str(value.said), str(value.where), str(value.source), value.default
    inputs = tuple((name, _operand(operand)) for name, operand in value.inputs)
    module, name = value.function.__module__, value.function.__name__
    if _named(module, name) is not value.function:
        raise _CannotBeKept
    return "computed", value.low, value.high, value.kind, module, name, inputs


def _plain(value: Any) -> object:
    """A text, a number, or several of them with what they are together; without where it was written."""
    kind = type(value)
    if value is None or isinstance(value, bool):
        return value
    if kind is tuple:
        return "", "", tuple(map(_plain, value))
    if isinstance(value, tuple) or is_dataclass(value):
        if _named(kind.__module__, kind.__name__) is not kind:
            raise _CannotBeKept
        parts = value if isinstance(value, tuple) else [getattr(value, field.name) for field in fields(kind)]
        return kind.__module__, kind.__name__, tuple(map(_plain, parts))
    for plain in (str, int, float):
        if isinstance(value, plain):
            return plain(value)
    raise _CannotBeKept


def _again(kept: object) -> object:
    if not isinstance(kept, tuple | list):
        return kept
    module, name, values = kept
    inner = tuple(map(_again, _listed(values)))
    if not name:
        return inner
    kind = _named(module, name)
    if not (inspect.isclass(kind) and (hasattr(kind, "_fields") or is_dataclass(kind))):
        raise TypeError
    made: object = kind(*inner)
    return made


def _computed(kept: object) -> Computed:
    found = _value(kept)
    if not isinstance(found, Computed):
        raise TypeError
    return found


def _value(kept: object) -> Operand:
    kind, *rest = _listed(kept)
    if kind == "recorded":
        return Recorded(*rest)
    if kind == "named":
        value, *about = rest
        return Named(_again(value), *about)
    low, high, of, module, name, inputs = rest
    function = _named(module, name)
    if kind != "computed" or not inspect.isfunction(function):
        raise ValueError
    return Computed(low, high, of, function, tuple(_inputs(inputs)))


def _inputs(kept: object) -> Iterator[tuple[str, Operand]]:
    for name, operand in map(_listed, _listed(kept)):
        yield name, _value(operand)


@cache
def _named(module: str, name: str) -> Any:
    """The formula or the kind of this name, where the program has one there."""
    return getattr(importlib.import_module(module), name, None) if module.startswith(_ROOMS) else None


def _listed(kept: object) -> Any:
    if not isinstance(kept, tuple | list):
        raise TypeError
    return kept
