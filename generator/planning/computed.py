"""Numbers that know how they came about.

A recorded value knows its record and source; a computed one knows the formula and what went into it. A
setting is one point; only estimates carry ranges, and a range is taken at the corners of its inputs.
"""

from __future__ import annotations

import inspect
import itertools
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Generic, TypeVar

from generator.origins import Origin, origin_of
from generator.quantities import Quantity, shown, significant
from generator.units import KINDS, Shows

Answer_co = TypeVar("Answer_co", covariant=True)


@dataclass(frozen=True, slots=True)
class Recorded:
    """A value that is written in a record. text: how the record has it, so that no digit of it is lost where it is
    shown.
    """

    low: float
    high: float
    kind: str
    origin: Origin
    text: str = field(default="", compare=False)


@dataclass(frozen=True, slots=True)
class Named:
    """Something that is no number, such as a name or a list of measured points."""

    value: object
    said: str
    origin: Origin


@dataclass(frozen=True, slots=True)
class Computed:
    """A computed value: the function that gave it, and its inputs by parameter name."""

    low: float
    high: float
    kind: str
    function: Callable[..., object]
    inputs: tuple[tuple[str, Operand], ...]


@dataclass(frozen=True, slots=True)
class Answered(Generic[Answer_co]):
    """What a formula gave that is no number, such as a day: the function that gave it, and its inputs by name."""

    answer: Answer_co
    function: Callable[..., Answer_co]
    inputs: tuple[tuple[str, Operand], ...]


# What a plan is as JSON.
Data = Mapping[str, "Data"] | Sequence["Data"] | str | float | bool | None
Operand = Recorded | Named | Computed
Value = Recorded | Computed


def recorded(value: Quantity | float) -> Recorded:
    """A quantity or a number without a unit as an operand; it knows from which field it was read."""
    if isinstance(value, Quantity):
        return Recorded(value.low, value.high, value.kind, value.origin, value.text)
    return counted(value, value)


def counted(number: float, of: object, kind: str = "number") -> Recorded:
    """A number that was counted in, or read out of, a value of a record or the `Origin` of one."""
    return Recorded(number, number, kind, origin_of(of))


def named(value: object, of: object, said: str = "") -> Named:
    """Something that is no number, taken from a value of a record or the `Origin` of one; `said` in its own words."""
    return Named(value, said or str(value), origin_of(of))


def text_of(value: Value) -> str:
    """How a record has it; nothing for what was computed."""
    return value.text if isinstance(value, Recorded) else ""


def value_shown(value: Value | Quantity, shows: Shows) -> str:
    """A value in the units that a studio shows; one of a record with every digit that was written."""
    text = "" if isinstance(value, Computed) else value.text
    return shown(value.low, value.high, value.kind, shows, text)


def compute(function: Callable[..., float], kind: str, /, **inputs: Operand) -> Computed:
    """Apply a formula of the trade to operands.

    Ranges are combined corner by corner: every formula used here is monotone in each of its inputs.
    Raises what the formula raises; a `Refusal` is turned into a diagnostic by whoever knows the record.
    """
    ends = [(o.value,) if isinstance(o, Named) else {o.low, o.high} for o in inputs.values()]
    results = [function(**dict(zip(inputs, corner, strict=True))) for corner in itertools.product(*ends)]
    low = high = significant(min(results))
    if len(results) > 1:
        high = significant(max(results))
    return Computed(low, high, kind, function, tuple(inputs.items()))


def answer(function: Callable[..., Answer_co], /, **inputs: Operand) -> Answered[Answer_co]:
    """Apply a formula whose answer is no number; of a range its lower end. Raises what the formula raises."""
    return Answered(function(**values_of(inputs)), function, tuple(inputs.items()))


def values_of(inputs: Mapping[str, Operand]) -> dict[str, object]:
    """What a formula takes: operands as they are calculated with, a range by its lower end."""
    return {name: o.value if isinstance(o, Named) else o.low for name, o in inputs.items()}


def total(values: Sequence[Value], kind: str) -> Computed:
    """The sum of values of one kind."""
    return Computed(
        significant(sum(v.low for v in values)),
        significant(sum(v.high for v in values)),
        kind,
        add,
        tuple((f"part {n}", v) for n, v in enumerate(values, 1)),
    )


def add(*parts: float) -> float:
    """The sum of the parts."""
    return sum(parts)


def with_added_share(value: float, share: float) -> float:
    """value · (1 + share / 100): such as slower work over a scar."""
    return value * (1 + share / 100)


def rectangle(width: float, height: float) -> float:
    """width · height"""
    return width * height


def formula_name(function: Callable[..., object]) -> str:
    """Where a formula is, such as `trade.motion.spacing`."""
    return f"{function.__module__.removeprefix('generator.')}.{function.__name__}"


def explained(value: Operand) -> dict[str, Data]:
    """The value with its unit, formula, inputs and source, all the way down, for `plan --json`."""
    if isinstance(value, Named):
        return {"value": value.said, **_origin(value)}
    number: dict[str, Data] = (
        {"value": value.low} if value.low == value.high else {"low": value.low, "high": value.high}
    )
    number["unit"] = KINDS[value.kind][1] if value.kind in KINDS else ""  # canonical; none for plain numbers
    if isinstance(value, Recorded):
        return {**number, **_origin(value)}
    return {**number, **explained_by(value)}


def explained_by(value: Computed | Answered[object]) -> dict[str, Data]:
    """The formula of a computed value, what it answers, its inputs and their sources."""
    return {
        "formula": formula_name(value.function),
        "answers": (inspect.getdoc(value.function) or "").partition("\n")[0],
        "inputs": {name: explained(operand) for name, operand in value.inputs},
        "source": sorted(sources_of(value)),
    }


def _origin(value: Recorded | Named) -> dict[str, Data]:
    """The record of a value and its source; only one that is not written there says that it is a default."""
    at = value.origin
    return {"record": at.path, "source": at.source, **({"default": True} if at.default else {})}


def sources_of(value: Operand | Answered[object]) -> set[str]:
    """The ids of all sources that a value rests on."""
    if isinstance(value, Recorded | Named):
        return {value.origin.source} if value.origin.source else set()
    return set().union(*(sources_of(operand) for _, operand in value.inputs))
