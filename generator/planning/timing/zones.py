"""How long each part of a plan has been worked when a step ends, and where it rests."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from generator.planning.computed import Recorded, counted, recorded
from generator.planning.timing.breaks import Pauses
from generator.planning.timing.rests import Spell, course
from generator.planning.timing.rounding import slow_ends
from generator.planning.timing.sittings import Visit, rest_limits
from generator.planning.working.steps import Step
from generator.quantities import significant
from generator.records.families import Records


@dataclass(frozen=True, slots=True)
class ZoneStep:
    """One step on its part, by its number in the piece.

    rested: since the part was last worked, None where it was not. worked: from its last rest to the end of the step.
    Both are sums of printed rows, to the minute: a part is said to have worked no less, and to have rested no more.
    rests: how far into the step the part rests, 0 for before it, and for how long each time. waited: what of that is
    booked, because no other part is worked meanwhile.
    """

    step: int
    part: str
    rested: Recorded | None
    worked: Recorded
    rests: tuple[Recorded, ...]
    rest: Recorded
    waited: Recorded


def course_of(records: Records, steps: Iterable[Step]) -> tuple[tuple[Pauses, Spell], ...]:
    """The breaks of each step of a sitting and where its part rests, at the slow end."""
    return course(slow_ends(steps), records.studio.limits.break_after.low, rest_limits(records))


def zones_of(records: Records, visit: Visit) -> tuple[ZoneStep, ...]:
    """Each step of a sitting."""
    limits = records.studio.limits

    def minutes(number: float) -> Recorded:
        return counted(significant(number), limits.zone_worked, "duration")

    return tuple(
        ZoneStep(
            number,
            str(step.part.id),
            None if spell.rested is None else minutes(math.floor(spell.rested)),
            minutes(math.ceil(significant(spell.worked))),
            tuple(map(minutes, spell.rests)),
            recorded(limits.zone_rest),
            counted(significant(spell.waited), limits.zone_rest, "duration"),
        )
        for number, step, (_, spell) in zip(
            visit.step_numbers, visit.steps, course_of(records, visit.steps), strict=True
        )
    )
