"""How an estimate of minutes or millilitres is rounded before it is shown: two significant figures at most.

Its lower end is rounded down and its upper end up, minutes to whole ones and above an hour to five; one value alone is
rounded up, and nothing that is worked takes 0 minutes. Whoever adds up the rows of a sheet finds its sums: breaks,
rests, sittings, the end of the day and what is booked of it count the minutes of a step as they are printed, and a sum
is printed as that of its printed rows, to the minute (`press/words/estimates.py`). So no sum is below the exact slow
end. A time by the clock is to five minutes.
"""

from __future__ import annotations

import datetime
import math
from collections.abc import Iterable

from generator.planning.computed import Computed, Value
from generator.planning.working.steps import Step

_HOUR, CLOCK_STEP = 60, 5


def rounded_out(low: float, high: float, kind: str) -> tuple[float, float]:
    """The ends of an estimate in minutes or mL, the lower rounded down and the upper up."""
    upper = _to_step(high, kind, up=True)
    if low == high:
        return upper, upper
    lower = _to_step(low, kind, up=False)
    return (1.0 if kind == "duration" and lower == 0 < low else lower), upper


def ends_printed(value: Value) -> tuple[float, float]:
    """The ends of minutes that a row prints: what is recorded has its own, what was estimated is rounded."""
    return rounded_out(value.low, value.high, value.kind) if isinstance(value, Computed) else (value.low, value.high)


def rows_printed(rows: Iterable[Value]) -> tuple[float, float]:
    """What the printed minutes of some rows add up to."""
    low, high = map(sum, zip(*map(ends_printed, rows), strict=True))
    return low, high


def minutes_up(minutes: float) -> float:
    """Minutes as the slow end of an estimate is printed."""
    return _to_step(minutes, "duration", up=True)


def minutes_down(minutes: float) -> float:
    """The most minutes that are printed and are no more than these."""
    return _to_step(minutes, "duration", up=False)


def middle_rounded(minutes: float) -> float:
    """The middle of an estimate as it is printed: two significant figures, and never coarser than five minutes.

    It promises nothing, so it is rounded to the nearest, and a ratio to it can be followed.
    """
    step = min(10.0 ** (math.floor(math.log10(minutes)) - 1), CLOCK_STEP)
    return round(round(minutes / step) * step, 9)


def clock_rounded_out(first: datetime.datetime, last: datetime.datetime) -> tuple[datetime.datetime, datetime.datetime]:
    """Two estimated times by the clock in steps of five minutes, the first one down and the last one up."""
    step = datetime.timedelta(minutes=CLOCK_STEP)

    def beyond(at: datetime.datetime) -> datetime.timedelta:
        return (at - datetime.datetime.combine(at.date(), datetime.time())) % step

    return first - beyond(first), last + (-beyond(last)) % step


def slow_ends(steps: Iterable[Step]) -> tuple[tuple[str, float], ...]:
    """The part of each step, and its minutes at the slow end of what is booked, as the sheet prints them."""
    return tuple((str(step.part.id), minutes_up(step.booked.high)) for step in steps)


def _to_step(number: float, kind: str, up: bool) -> float:
    if number <= 0:
        return number
    if kind == "duration":
        # A decimal of a minute is read at arm's length as whole ones.
        step = CLOCK_STEP if number > _HOUR else 1.0
    else:
        step = 10.0 ** (math.floor(math.log10(number)) - 1)
    # Six decimals, so that the last bits of a float do not add a step.
    steps = round(number / step, 6)
    return round((math.ceil(steps) if up else math.floor(steps)) * step, 9)
