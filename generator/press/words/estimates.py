"""How an estimate is shown: as one. Two significant figures at most, and rounded so that it never promises too much.

What rests on a pace or on the house's rate of ink is an estimate: minutes and millilitres. Its lower end is rounded
down and its upper end up, minutes to whole ones and above an hour to five; one value alone is rounded up. Settings,
recorded values, counts and `plan --json` keep their digits, and every sum is made of exact values before it is shown.
"""

from __future__ import annotations

import datetime
import math

from generator.planning.computed import Computed, Operand, Value
from generator.trade import clock, supplies

_ESTIMATES = (clock.line_minutes, clock.area_minutes, supplies.ink_millilitres)
_KINDS = ("duration", "volume")
_HOUR, CLOCK_STEP = 60, 5


def is_estimate(value: Operand) -> bool:
    """Whether a number of minutes or millilitres rests on a pace or on the rate of ink."""
    return isinstance(value, Computed) and value.kind in _KINDS and _rests_on_one(value)


def _rests_on_one(value: Operand) -> bool:
    if not isinstance(value, Computed):
        return False
    return value.function in _ESTIMATES or any(_rests_on_one(inner) for _, inner in value.inputs)


def ends_shown(value: Value) -> tuple[float, float]:
    """The two ends as they are shown; those of a value that is no estimate are its own."""
    return rounded_out(value.low, value.high, value.kind) if is_estimate(value) else (value.low, value.high)


def rounded_out(low: float, high: float, kind: str) -> tuple[float, float]:
    """The ends of an estimate in minutes or mL, the lower rounded down and the upper up."""
    upper = _to_step(high, kind, up=True)
    return (upper if low == high else _to_step(low, kind, up=False)), upper


def _to_step(number: float, kind: str, up: bool) -> float:
    if number <= 0:
        return number
    step = 10.0 ** (math.floor(math.log10(number)) - 1)
    if kind == "duration":
        step = CLOCK_STEP if number > _HOUR else 1.0 if number >= 1 else step
    # Six decimals, so that the last bits of a float do not add a step.
    steps = round(number / step, 6)
    return round((math.ceil(steps) if up else math.floor(steps)) * step, 9)


def clock_rounded_out(first: datetime.datetime, last: datetime.datetime) -> tuple[datetime.datetime, datetime.datetime]:
    """Two estimated times by the clock in steps of five minutes, the first one down and the last one up."""
    step = datetime.timedelta(minutes=CLOCK_STEP)

    def beyond(at: datetime.datetime) -> datetime.timedelta:
        return (at - datetime.datetime.combine(at.date(), datetime.time())) % step

    return first - beyond(first), last + (-beyond(last)) % step


def clock_rounded(at: datetime.datetime) -> datetime.datetime:
    """An estimated time by the clock, to the nearest five minutes."""
    return clock_rounded_out(at + datetime.timedelta(minutes=CLOCK_STEP / 2), at)[0]
