"""A piece that is longer than a sitting: which steps are worked in which, and on which day at the earliest.

A sitting is filled at the slow end of the time that is booked, as it is printed, breaks and rests included: so it
keeps to its limit even then.

A job is one sitting of its piece and lists the whole piece. Steps, timetable and tray of a plan are those of the
piece; `Work.at_hand` holds those of the day. A sitting ends between two steps; only a step that no sitting could hold
is parted.
"""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from generator.origins import NOWHERE, Origin
from generator.planning.computed import Answered, Computed, Value, compute, counted
from generator.planning.timing.coming_back import next_sitting
from generator.planning.timing.rests import RestLimits, course
from generator.planning.timing.rounding import minutes_down, minutes_up, slow_ends
from generator.planning.working.steps import LINES, Step
from generator.quantities import Quantity, significant
from generator.records.families import Records
from generator.records.jobs import Job

# A part, and minutes of work on it.
_Worked = tuple[str, float]


@dataclass(frozen=True, slots=True)
class Stint:
    """One step of the order, or the share of it that is worked in one sitting. `number` counts from 1."""

    number: int
    share: float


@dataclass(frozen=True, slots=True)
class Sitting:
    """One sitting of the piece. earliest: the first day on which it may be; None for those that are over.

    touch_up: whether it goes over healed work again.
    rested: how the earliest day of one that comes later was calculated. longest: where the length stands that no
    sitting is longer than.
    """

    number: int
    earliest: datetime.date | None
    stints: tuple[Stint, ...]
    rested: Answered[datetime.date] | None = None
    longest: Origin = NOWHERE
    touch_up: bool = False


def longest_agreed(records: Records, job: Job) -> Quantity:
    """The studio's longest sitting, or the client's where that is shorter."""
    house = records.studio.limits.sitting
    return job.longest if job.longest is not None and job.longest.low < house.low else house


def split_into_sittings(records: Records, job: Job, steps: tuple[Step, ...]) -> tuple[Sitting, ...]:
    """All sittings of the piece in order, each within the longest one at the slow end of what is booked.

    A sitting ends between two steps; only a step that no sitting could hold is parted. A job that is at a later
    sitting than the piece should have needed is at the last of them.
    """
    longest = longest_agreed(records, job)
    filled = _fill(slow_ends(steps), longest.low, records.studio.limits.break_after.low, rest_limits(records))
    today = min(job.sitting, len(filled))
    made: list[Sitting] = []
    for number, stints in enumerate(filled, 1):
        rested = next_sitting(records, job, made[-1].earliest or job.date) if number > today else None
        day = rested.answer if rested else job.date if number == today else None
        made.append(Sitting(number, day, tuple(stints), rested, longest.origin, job.touch_up))
    return tuple(made)


def rest_limits(records: Records) -> RestLimits:
    """How long a part is worked and rests, and how long a break is, in minutes."""
    limits = records.studio.limits
    return RestLimits(limits.zone_worked.low, limits.zone_rest.low, limits.break_length.low)


def _fill(worked: Sequence[_Worked], longest: float, between: float, limits: RestLimits) -> list[list[Stint]]:
    """The steps by sittings; in none are work, breaks and rests together longer than the longest."""
    sittings: list[list[Stint]] = [[]]
    filled: list[_Worked] = []

    def fits(*more: _Worked) -> bool:
        return _chair((*filled, *more), between, limits) <= longest

    for number, (part, whole) in enumerate(worked, 1):
        left = 1.0
        while not fits((part, todo := minutes_up(whole * left))):
            # Only a step that no sitting could hold is parted, and none is begun for less than a break's length.
            if _chair(((part, whole),), between, limits) > longest:
                printed = dict.fromkeys(map(minutes_down, range(int(min(longest, todo)), 0, -1)))
                some = next((minutes for minutes in printed if fits((part, minutes))), 0.0)
                if some > limits.pause or not filled:
                    sittings[-1].append(Stint(number, significant(some / whole)))
                    left -= some / whole
            sittings.append([])
            filled = []
        sittings[-1].append(Stint(number, significant(left)))
        filled.append((part, todo))
    return [stints for stints in sittings if stints]


def _chair(worked: tuple[_Worked, ...], between: float, limits: RestLimits) -> float:
    """Minutes of work, of its breaks, and of what everybody waits while a part rests."""
    rested = sum(limits.pause * found.number + spell.waited for found, spell in course(worked, between, limits))
    return significant(sum(minutes for _, minutes in worked) + rested)


class Visit(NamedTuple):
    """What is worked in one sitting, which has this `number` in the piece; its steps with their numbers."""

    number: int
    steps: tuple[Step, ...]
    step_numbers: tuple[int, ...]
    touch_up: bool = False

    @property
    def stencil(self) -> bool:
        """Whether a stencil is placed. A later sitting needs one where lines are run, and where a part has none.

        The edge of a part without lines was only ever the stencil's. In a touch-up it is in the skin: there a stencil
        is for lines alone.
        """
        if self.touch_up:
            return any(step.section == LINES for step in self.steps)
        return self.number == 1 or any(step.section == LINES or not step.part.lines for step in self.steps)


def visit_of(steps: tuple[Step, ...], sitting: Sitting) -> Visit:
    """A sitting with its steps, each with its share."""
    numbers = tuple(stint.number for stint in sitting.stints)
    return Visit(sitting.number, worked_in(steps, sitting), numbers, sitting.touch_up)


def worked_in(steps: tuple[Step, ...], sitting: Sitting) -> tuple[Step, ...]:
    """The steps of the piece that are worked in a sitting, each with its share."""
    return tuple(
        steps[stint.number - 1] if stint.share == 1 else _part_of(sitting, steps[stint.number - 1], stint)
        for stint in sitting.stints
    )


def _part_of(sitting: Sitting, step: Step, stint: Stint) -> Step:
    share = counted(stint.share, sitting.longest)

    def some(value: Value) -> Computed:
        return compute(share_of, value.kind, value=value, share=share)

    learned = None if step.minutes_learned is None else some(step.minutes_learned)
    return replace(step, amount=some(step.amount), minutes=some(step.minutes), minutes_learned=learned)


def share_of(value: float, share: float) -> float:
    """value · share: what is worked of a step in one sitting."""
    return value * share
