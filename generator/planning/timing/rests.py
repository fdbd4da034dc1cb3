"""How long a part of the skin has been worked when a step ends, where it rests, and how long everybody waits for it.

The minutes worked on a part are added up along the order, at the slow end as with breaks, until it has rested for as
long as the limit says: while other parts are worked, or in a break that is long enough. Where the sum would pass the
limit, the part rests. Another part is worked meanwhile; where none is left, the next break is made as long as the rest,
or there is one more, and those minutes are booked.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import NamedTuple

from generator.planning.timing.breaks import Pauses, pauses
from generator.quantities import significant


class Wait(NamedTuple):
    """So many minutes after `at` of a step, in which nobody works because the part rests."""

    at: float
    minutes: float


class Spell(NamedTuple):
    """One step on a part, all in minutes.

    rested: since the part was last worked, None where it was not. worked: from its last rest to the end of the step.
    rests: how far into the step the part rests, 0 for before it. waits: what the rests add to the breaks.
    """

    rested: float | None
    worked: float
    rests: tuple[float, ...]
    waits: tuple[Wait, ...] = ()

    @property
    def waited(self) -> float:
        return sum(wait.minutes for wait in self.waits)


class RestLimits(NamedTuple):
    """Minutes: the most that a part is worked without a rest, how long that is, and how long a break is."""

    most: float
    rest: float
    pause: float


@lru_cache(maxsize=256)  # of one sitting asked for again by its plan, its clock and its day
def course(
    worked: tuple[tuple[str, float], ...], between: float, limits: RestLimits
) -> tuple[tuple[Pauses, Spell], ...]:
    """The breaks of each step of a sitting, which begins rested, and where its part rests."""
    placed = pauses((minutes for _, minutes in worked), between)
    return tuple(zip(placed, spells(worked, placed, limits), strict=True))


class _Left(NamedTuple):
    """What is left of a sitting from one step on: minutes on other parts, and on this one until the next break."""

    others: float
    until_break: tuple[float, ...]


def spells(worked: Sequence[tuple[str, float]], placed: Sequence[Pauses], limits: RestLimits) -> Iterator[Spell]:
    """Each step, given with its part and its minutes, and with its breaks."""
    now = used = 0.0
    ended: dict[str, float] = {}
    summed: dict[str, float] = {}
    for number, ((part, minutes), breaks) in enumerate(zip(worked, placed, strict=True)):
        left = _left(worked, placed, number)
        now += limits.pause * breaks.before
        rested = significant(now - ended[part]) if part in ended else None
        needed, since = _rests(summed.get(part, 0.0), rested, minutes, breaks, (left, limits))
        waits = []
        for at, rest in needed:
            # Each minute of other parts is worked in one rest only.
            meanwhile = min(max(0.0, left.others - used), rest)
            used += meanwhile
            waits += [Wait(at, rest - meanwhile)] if rest > meanwhile else []
        now += minutes + limits.pause * len(breaks.within) + sum(wait.minutes for wait in waits)
        ended[part], summed[part] = now, since
        yield Spell(rested, since, tuple(at for at, _ in needed), tuple(waits))


def _rests(
    since: float, rested: float | None, minutes: float, breaks: Pauses, around: tuple[_Left, RestLimits]
) -> tuple[list[tuple[float, float]], float]:
    """After how many minutes of a step its part rests and for how much longer than a break; minutes since the last."""
    left, limits = around
    found: list[tuple[float, float]] = []
    if rested is None or rested >= limits.rest:
        since = 0.0
    elif since:
        # What fits after a rest is not cut; nor does a part rest soon after a break in which it could have rested.
        fits = minutes <= limits.most < significant(since + minutes)
        if fits or (breaks.before and _too_long(since, left, 0, limits)):
            found.append((0.0, limits.rest - rested))
            since = 0.0
    at = 0.0
    for place, end in enumerate((*breaks.within, minutes)):
        if place and limits.pause >= limits.rest:
            since = 0.0
        elif place and _too_long(since, left, place, limits):
            found.append((at, limits.rest - limits.pause))
            since = 0.0
        while significant(since + end - at) > limits.most:
            at += limits.most - since
            found.append((at, limits.rest))
            since = 0.0
        since, at = since + end - at, end
    return found, since


def _too_long(since: float, left: _Left, place: int, limits: RestLimits) -> bool:
    """Whether a part that is the last one would be worked too long before the next break."""
    return not left.others and significant(since + left.until_break[place]) > limits.most


def _left(worked: Sequence[tuple[str, float]], placed: Sequence[Pauses], number: int) -> _Left:
    part, minutes = worked[number]
    others = sum(more for other, more in worked[number:] if other != part)
    within = placed[number].within
    until = [end - begins for begins, end in zip((0.0, *within), (*within, minutes), strict=True)]
    for (_, more), breaks in zip(worked[number + 1 :], placed[number + 1 :], strict=True):
        if breaks.before:
            break
        until[-1] += breaks.within[0] if breaks.within else more
        if breaks.within:
            break
    return _Left(others, tuple(until))
