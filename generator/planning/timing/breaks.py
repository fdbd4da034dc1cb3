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

import bisect
import itertools
import math
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from generator.quantities import significant


class Pauses(NamedTuple):
    """The breaks of one step: whether one comes before it, and after how many minutes of it the others come."""

    before: bool
    within: tuple[float, ...]

    @property
    def number(self) -> int:
        return self.before + len(self.within)


def breaks_in(minutes: float, between: float) -> int:
    """How many breaks so many minutes of work need."""
    return max(0, math.ceil(significant(minutes / between)) - 1)


def pauses(minutes: Iterable[float], between: float) -> list[Pauses]:
    """The breaks of each step of a sitting, all in minutes."""
    bounds = [0.0, *(significant(end) for end in itertools.accumulate(minutes))]
    places = list(_places(bounds, between))
    found: list[Pauses] = []
    for begins, end in itertools.pairwise(bounds):
        here = [significant(at - begins) for at in places if begins <= at < end]
        found.append(Pauses(0.0 in here, tuple(at for at in here if at)))
    return found


def _places(bounds: list[float], between: float) -> Iterator[float]:
    """The minutes of work after which there is a break, of steps that begin and end at these."""
    whole, at = bounds[-1], 0.0
    for left in range(breaks_in(whole, between), 0, -1):
        # What follows has to fit between the breaks that are left.
        earliest, latest = significant(whole - left * between), significant(at + between)
        # The step in which the time is up, or that begins then.
        place = bisect.bisect(bounds, latest)
        begins, end = bounds[place - 1], bounds[place]
        if begins >= earliest:
            at = begins
        elif significant(end - begins) > between:
            at = latest
        else:
            at = min(max((begins + end) / 2, earliest), latest)
        yield at
