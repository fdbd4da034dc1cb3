"""Where the breaks of a sitting fall.

They are placed at the slow end of the time that is booked, because nobody knows beforehand how quick it goes: so no
stretch of work is longer than the limit even then. A sitting begins rested. A step that fits between two breaks is not
cut: where it would run past the limit, the break comes before it. A step that is longer than the limit is broken off
when the time is up, counted from the last break; at a quicker pace that is the same share of the step, earlier by the
clock. There is no break after the last step of a sitting. These breaks are taken however quick the work goes, so the
marks in the order, the sum, the clock and the gloves on the tray all count the same ones.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import NamedTuple

# Minutes: what is left of a share of a step that was rounded to nine digits makes no break.
_DECIMALS, _ROUNDING = 5, 1e-5


class Pauses(NamedTuple):
    """The breaks of one step: whether one comes before it, and after how many minutes of it the others come.

    since: minutes worked from the last break to the end of the step.
    """

    before: bool
    within: tuple[float, ...]
    since: float

    @property
    def number(self) -> int:
        return self.before + len(self.within)


def pauses_of(since: float, minutes: float, between: float) -> Pauses:
    """The breaks of a step of so many minutes, begun so many minutes after the last break."""
    left = round(between - since, _DECIMALS)
    fits, uncut = minutes <= left + _ROUNDING, minutes <= between + _ROUNDING
    before = left <= 0 or (uncut and not fits)
    if before:
        since = 0.0
    number = max(0, math.ceil(round((since + minutes) / between, _DECIMALS)) - 1)
    within = tuple((place + 1) * between - since for place in range(number))
    return Pauses(before, within, since + minutes - number * between)


def pauses(minutes: Iterable[float], between: float) -> Iterator[Pauses]:
    """The breaks of one step after the other, from the first of a sitting on; all in minutes."""
    since = 0.0
    for each in minutes:
        found = pauses_of(since, each, between)
        since = found.since
        yield found


def working_room(chair: float, between: float, pause: float, since: float = 0.0) -> float:
    """The minutes of work that fit into so many in the chair, together with the breaks that they make due."""
    breaks = range(math.ceil((chair + since) / between) + 1)
    return max(min((number + 1) * between - since, chair - number * pause) for number in breaks)
