"""How long each part has been worked when a step ends, and where it rests.

Skin that is worked for long swells, and takes no more ink however clean the hand. So the minutes worked on a part are
added up along the order, at the slow end as with breaks, until it has rested for as long as the studio's limit says:
while other parts are worked, or in a break that is long enough. Where the sum would pass the limit, the part rests.
Such a rest is not in the time that is booked: where there is another part, that one is worked meanwhile.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from generator.planning.computed import Recorded, counted, recorded
from generator.planning.timing.breaks import Pauses, pauses
from generator.planning.timing.sittings import Visit
from generator.quantities import significant
from generator.records.families import Records

# Minutes: what is left of a share of a step that was rounded makes no rest.
_ROUNDING = 1e-5


class Spell(NamedTuple):
    """One step on a part, all in minutes.

    rested: since the part was last worked, None where it was not. worked: from its last rest to the end of the step.
    rests: how far into the step the part rests, 0 for before it.
    """

    rested: float | None
    worked: float
    rests: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class ZoneStep:
    """The same of a plan: the step by its number in the piece, the part, and for how long it rests each time."""

    step: int
    part: str
    rested: Recorded | None
    worked: Recorded
    rests: tuple[Recorded, ...]
    rest: Recorded


def zones_of(records: Records, visit: Visit) -> tuple[ZoneStep, ...]:
    """Each step of a sitting, which begins rested."""
    limits = records.studio.limits
    slow = [step.booked.high for step in visit.steps]
    worked = zip((str(step.part.id) for step in visit.steps), slow, strict=True)
    placed = tuple(pauses(slow, limits.break_after.low))
    found = spells(worked, placed, limits.break_length.low, (limits.zone_worked.low, limits.zone_rest.low))

    def minutes(number: float) -> Recorded:
        return counted(significant(number), limits.zone_worked, "duration")

    return tuple(
        ZoneStep(
            number,
            str(step.part.id),
            None if spell.rested is None else minutes(spell.rested),
            minutes(spell.worked),
            tuple(map(minutes, spell.rests)),
            recorded(limits.zone_rest),
        )
        for number, step, spell in zip(visit.step_numbers, visit.steps, found, strict=True)
    )


def spells(
    worked: Iterable[tuple[str, float]], placed: Sequence[Pauses], pause: float, limits: tuple[float, float]
) -> Iterator[Spell]:
    """Each step, given with its part and its minutes, and with its breaks of `pause` minutes.

    limits: the most minutes that a part is worked without a rest, and how long a rest is.
    """
    most, rest = limits
    now = 0.0
    left: dict[str, float] = {}
    summed: dict[str, float] = {}
    for (part, minutes), breaks in zip(worked, placed, strict=True):
        now += pause * breaks.before
        rested = now - left[part] if part in left else None
        since = summed[part] if rested is not None and rested < rest else 0.0
        rests = []
        # What fits after a rest is not cut.
        if since and since + minutes > most + _ROUNDING and minutes <= most + _ROUNDING:
            rests.append(0.0)
            since = 0.0
        at = 0.0
        for end in (*breaks.within, minutes):
            if at and pause >= rest:
                since = 0.0
            while since + end - at > most + _ROUNDING:
                at += most - since
                rests.append(at)
                since = 0.0
            since, at = since + end - at, end
        now += minutes + pause * len(breaks.within)
        left[part], summed[part] = now, since
        yield Spell(rested, since, tuple(rests))
