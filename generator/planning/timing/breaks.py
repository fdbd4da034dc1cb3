"""Where the breaks of a sitting fall: between two steps, or within one that is longer than the time between breaks."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import NamedTuple


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
    """The breaks of a step of so many minutes, begun so many minutes after the last break.

    A step that fits between two breaks is not cut: the break comes before it. A longer one is broken off when
    the time is up.
    """
    if minutes <= between:
        before = since > 0 and since + minutes > between
        return Pauses(before, (), minutes if before else since + minutes)
    number = max(0, math.ceil(round((since + minutes) / between, 9)) - 1)
    within = tuple((place + 1) * between - since for place in range(number))
    return Pauses(False, within, since + minutes - number * between)


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
