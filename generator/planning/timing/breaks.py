"""Where the breaks of a sitting fall.

They are placed at the slow end of the time that is booked, as it is printed, because nobody knows beforehand how quick
it goes: so no stretch of work is longer than the limit even then, and the rows of a sheet add up to no more. A sitting
begins rested, and has no break after its last step.

There are as few breaks as the limit allows. Each comes between two steps where that costs no break more, as late as may
be; else a step is broken off: one that is longer than the limit when the time is up, a shorter one near its middle. At
a quicker pace a break comes at the same share of its step, earlier by the clock. These breaks are taken however quick
the work goes, so the marks in the order, the sum, the clock and the gloves on the tray all count the same ones.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator
from typing import NamedTuple

# Minutes: what is left of a share of a step that was rounded to nine digits makes no break.
_DECIMALS, _ROUNDING = 5, 1e-5


class Pauses(NamedTuple):
    """The breaks of one step: whether one comes before it, and after how many minutes of it the others come."""

    before: bool
    within: tuple[float, ...]

    @property
    def number(self) -> int:
        return self.before + len(self.within)


def breaks_in(minutes: float, between: float) -> int:
    """How many breaks so many minutes of work need."""
    return max(0, math.ceil(round(minutes / between, _DECIMALS)) - 1)


def pauses(minutes: Iterable[float], between: float) -> list[Pauses]:
    """The breaks of each step of a sitting, all in minutes."""
    ends = list(itertools.accumulate(minutes))
    places = list(_places(ends, between))
    return [
        Pauses(
            any(abs(at - begins) <= _ROUNDING for at in places) and begins > 0,
            tuple(at - begins for at in places if begins + _ROUNDING < at < end - _ROUNDING),
        )
        for begins, end in itertools.pairwise((0.0, *ends))
    ]


def _places(ends: list[float], between: float) -> Iterator[float]:
    """The minutes of work after which there is a break, of steps that end after these."""
    whole, at = ends[-1] if ends else 0.0, 0.0
    for left in range(breaks_in(whole, between), 0, -1):
        # What follows has to fit between the breaks that are left.
        earliest, latest = max(at, whole - left * between), at + between
        fits = [end for end in ends[:-1] if max(earliest, at + 2 * _ROUNDING) - _ROUNDING <= end <= latest + _ROUNDING]
        at = fits[-1] if fits else _broken_off(ends, at, earliest, latest)
        yield at


def _broken_off(ends: list[float], at: float, earliest: float, latest: float) -> float:
    """Where the step is broken off that goes on from the earliest to the latest minute for a break."""
    begins = max(at, max((end for end in ends if end <= earliest), default=0.0))
    end = next(end for end in ends if end > latest - _ROUNDING)
    return latest if end - begins > latest - at else min(max((begins + end) / 2, earliest), latest)


def working_room(chair: float, between: float, pause: float) -> float:
    """The minutes of work that fit into so many in the chair, together with the breaks that they make due."""
    breaks = range(math.ceil(chair / between) + 1)
    return max(min((number + 1) * between, chair - number * pause) for number in breaks)
