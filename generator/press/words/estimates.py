"""How an estimate is shown: as one, rounded so that it never promises too much.

What rests on a pace or on the house's rate of ink is an estimate: minutes and millilitres. Settings, recorded values,
counts, what is multiplied by a count, and `plan --json` keep their digits.

A sum of minutes is the sum of what its parts are shown as, to the minute: an artist adds up the rows by hand and must
find what is printed below them. It is not rounded once more. Rows are rounded outwards, so the sum is never below the
exact slow end. Rows that share what is left over, so that an exact sum comes out, would have to be rounded otherwise on
each page, and breaks and the end of the day already count the printed rows.
"""

from __future__ import annotations

import datetime

from generator.planning.computed import Computed, Named, Operand, Value, add
from generator.planning.timing.rounding import CLOCK_STEP, clock_rounded_out, rounded_out
from generator.trade import clock, supplies

_ESTIMATES = (clock.line_minutes, clock.area_minutes, supplies.ink_millilitres)
_KINDS = ("duration", "volume")


def is_estimate(value: Operand) -> bool:
    """Whether a number of minutes or millilitres rests on a pace or on the rate of ink."""
    return isinstance(value, Computed) and value.kind in _KINDS and _rests_on_one(value)


def _rests_on_one(value: Operand) -> bool:
    # A count, such as that of breaks, is whole.
    if not isinstance(value, Computed) or value.kind == "number":
        return False
    return value.function in _ESTIMATES or any(_rests_on_one(inner) for _, inner in value.inputs)


def ends_shown(value: Value) -> tuple[float, float]:
    """The two ends as they are shown; those of a value that is no estimate are its own."""
    return _rows_added(value) if is_estimate(value) else (value.low, value.high)


def _rows_added(value: Value) -> tuple[float, float]:
    if isinstance(value, Computed) and value.function is add and value.kind == "duration":
        parts = [part for _, part in value.inputs if not isinstance(part, Named)]
        shown = [_rows_added(part) if is_estimate(part) else (part.low, part.high) for part in parts]
        return sum(low for low, _ in shown), sum(high for _, high in shown)
    return rounded_out(value.low, value.high, value.kind)


def in_hours(minutes: float) -> str:
    """Minutes in hours and minutes, because nobody plans a day in hundreds of minutes."""
    hours, rest = divmod(round(minutes), 60)
    parts = [f"{hours}\u00a0h"] if hours else []
    return " ".join([*parts, f"{rest}\u00a0min"] if rest or not hours else parts)


def ends_by_the_clock(value: Value) -> tuple[float, float]:
    """The two ends where no rows are shown beside them: rounded out to the steps of the clock."""
    low, high = ends_shown(value)
    return low // CLOCK_STEP * CLOCK_STEP, -(-high // CLOCK_STEP) * CLOCK_STEP


def clock_rounded(at: datetime.datetime) -> datetime.datetime:
    """An estimated time by the clock, to the nearest five minutes."""
    return clock_rounded_out(at + datetime.timedelta(minutes=CLOCK_STEP / 2), at)[0]
