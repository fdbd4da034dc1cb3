"""What a job takes from the shelf, as it is kept: how much of what, and how each number came about as JSON.

The second is needed of the nearest jobs alone and is long, so that it is a text until somebody asks. A formula is kept
by its module and its name; only one of the program's own is found again.
"""

from __future__ import annotations

import importlib
import inspect
import json
from collections.abc import Iterator, Sequence
from dataclasses import fields, is_dataclass
from functools import cache
from typing import Any, NamedTuple

from generator.planning.computed import Computed, Named, Operand, Recorded, add
from generator.planning.supplies.restock import JobNeeds, Need
from generator.press.sheet.summary import JobSummary

_ROOMS = ("generator.trade.", "generator.planning.")


class Taken(NamedTuple):
    """How much a job takes of one entry of the records."""

    family: str
    entry: str
    low: float
    high: float
    kind: str


def taken_by(needs: JobNeeds) -> tuple[Taken, ...]:
    """How much a job takes of what."""
    amounts = ((need.family, need.entry, need.amount) for need in needs.needs)
    return tuple(Taken(family, entry, made.low, made.high, made.kind) for family, entry, made in amounts)


def kept_needs(needs: JobNeeds) -> str:
    """How each number came about; nothing where one rests on what JSON cannot hold."""
    try:
        amounts = tuple(_operand(need.amount) for need in needs.needs)
    except _CannotBeKept:
        return ""
    return json.dumps(amounts, ensure_ascii=False, separators=(",", ":"))


def needs_again(summary: JobSummary, taken: Sequence[Taken], kept: str) -> JobNeeds:
    """The needs of the job of a summary. kept: what `kept_needs` wrote; with anything else they are brief."""
    amounts = _amounts(kept)
    if brief := len(amounts) != len(taken):
        amounts = [Computed(each.low, each.high, each.kind, add, ()) for each in taken]
    needs = tuple(Need(each.family, each.entry, amount) for each, amount in zip(taken, amounts, strict=True))
    return JobNeeds(summary.id, summary.title, summary.date, summary.goes_ahead, summary.state, needs, brief)


def _amounts(kept: str) -> list[Computed]:
    try:
        return [_computed(amount) for amount in _listed(json.loads(kept))]
    except (ValueError, TypeError, AttributeError, ImportError):
        return []


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
