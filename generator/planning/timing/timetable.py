"""How long the day is: setting up, stencil, work, breaks, wrap."""

from __future__ import annotations

import datetime
from dataclasses import dataclass

from generator.planning.computed import Computed, Recorded, Value, compute, counted, recorded, total
from generator.planning.timing.breaks import pauses
from generator.planning.working.steps import Step
from generator.quantities import Quantity
from generator.records.families import Records
from generator.records.jobs import Job
from generator.trade import clock


@dataclass(frozen=True, slots=True)
class AtPace:
    """The same day at the artist's own pace; steps for which no pace is known keep their plain estimate."""

    working: Computed
    breaks: Computed
    chair: Computed
    whole: Computed
    sittings: Computed


@dataclass(frozen=True, slots=True)
class Timetable:
    """The parts of the day in minutes, as ranges; `chair` is from the first line to the last, breaks included.

    breaks_after: numbers of the steps, from 1, after which a break comes at the latest; breaks_within: of those
    that are broken off because they are longer than the time between two breaks. done_between: when the day
    ends, the first of several where the piece takes more than one sitting. learned: None where no step has a
    learned time; breaks, tray and `done_between` rest on the plain estimates either way.
    """

    set_up: Recorded
    stencil: Recorded
    dry: Recorded
    working: Computed
    breaks: Computed
    wrap: Recorded
    chair: Computed
    whole: Computed
    sittings: Value
    breaks_after: tuple[int, ...]
    breaks_within: tuple[int, ...]
    done_between: tuple[datetime.datetime, datetime.datetime]
    learned: AtPace | None = None


def timetable_of(records: Records, job: Job, steps: tuple[Step, ...]) -> Timetable:
    """The timetable of a job whose steps are known."""
    limits = records.studio.limits
    longest = longest_sitting(records, job)
    placed = tuple(pauses((_middle(step) for step in steps), limits.break_after.low))
    printed = counted(sum(found.number for found in placed), limits.break_after)

    def day(minutes: list[Value]) -> AtPace:
        working = total(minutes, "duration")
        needed = compute(clock.breaks_needed, "number", working_minutes=working, between=recorded(limits.break_after))
        number = compute(breaks_taken, "number", needed=needed, placed=printed)
        breaks = compute(break_minutes, "duration", number=number, length=recorded(limits.break_length))
        chair = total([working, breaks], "duration")
        before: list[Value] = [recorded(limits.stencil), recorded(limits.stencil_dry)]
        whole = total([*before, chair, recorded(limits.clean_and_wrap)], "duration")
        sittings = compute(clock.sittings, "number", total_minutes=chair, longest_sitting=longest)
        return AtPace(working, breaks, chair, whole, sittings)

    plain = day([step.minutes for step in steps])
    learned = None
    if any(step.minutes_learned is not None for step in steps):
        learned = day([step.minutes_learned or step.minutes for step in steps])
    begins = datetime.datetime.combine(job.date, job.start)
    around = plain.whole.low - plain.chair.low
    ends = tuple(
        begins + datetime.timedelta(minutes=round(around + min(minutes, longest.low)))
        for minutes in (plain.chair.low, plain.chair.high)
    )
    return Timetable(
        recorded(limits.set_up),
        recorded(limits.stencil),
        recorded(limits.stencil_dry),
        plain.working,
        plain.breaks,
        recorded(limits.clean_and_wrap),
        plain.chair,
        plain.whole,
        plain.sittings,
        tuple(number for number, found in enumerate(placed) if found.before),
        tuple(number for number, found in enumerate(placed, 1) if found.within),
        (ends[0], ends[1]),
        learned,
    )


def longest_agreed(records: Records, job: Job) -> Quantity:
    """The studio's longest sitting, or the client's where that is shorter."""
    house = records.studio.limits.sitting
    return job.longest if job.longest is not None and job.longest.low < house.low else house


def longest_sitting(records: Records, job: Job) -> Recorded:
    """The same as an operand."""
    return recorded(longest_agreed(records, job))


def _middle(step: Step) -> float:
    return (step.minutes.low + step.minutes.high) / 2


def breaks_taken(needed: float, placed: float) -> float:
    """max(needed, placed): the breaks that the order shows are taken, however quick the work goes."""
    return max(needed, placed)


def break_minutes(number: float, length: float) -> float:
    """number · length: all breaks together."""
    return number * length
