"""One sitting by the clock: what begins when, breaks included; at the middle of what is booked, or at one of its ends.

The breaks are those of `breaks`, which places them at the slow end: each comes at the same share of its step.
"""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterator
from typing import NamedTuple

from generator.planning.computed import Value
from generator.planning.timing.rounding import slow_ends
from generator.planning.timing.sittings import Sitting, visit_of
from generator.planning.timing.timetable import Timetable, timetable_of_sitting
from generator.planning.timing.zones import course_of
from generator.planning.working.steps import Step
from generator.records.families import Records
from generator.records.jobs import Job

SET_UP, STENCIL, DRYING, SKIN = "set-up", "stencil", "drying", "shaving and cleaning the skin"
WORK, BREAK, REST, WRAP = "work", "break", "rest of the part", "clean and wrap"


class Stretch(NamedTuple):
    """Something that is done without a pause. `step` is the number of the step in the whole order, 0 for none."""

    kind: str
    begins: datetime.datetime
    ends: datetime.datetime
    minutes: float
    step: int = 0


class DayByClock(NamedTuple):
    """A sitting by the clock, with the ranges that it was calculated from."""

    sitting: Sitting
    steps: tuple[Step, ...]
    timetable: Timetable
    stretches: tuple[Stretch, ...]


def days_of(
    records: Records, job: Job, steps: tuple[Step, ...], sittings: tuple[Sitting, ...]
) -> tuple[DayByClock, ...]:
    """Every sitting of the piece, each begun at the hour of the job: no other is on file."""
    return tuple(day for sitting in sittings for day in by_clock(records, job, steps, sitting, _middle))


def by_clock(
    records: Records, job: Job, steps: tuple[Step, ...], sitting: Sitting, *taken: Callable[[Value], float]
) -> Iterator[DayByClock]:
    """One sitting of a piece, once for each of `taken`: how many minutes are counted of a time that is a range."""
    visit = visit_of(steps, sitting)
    day = DayByClock(sitting, visit.steps, timetable_of_sitting(records, job, visit), ())
    for each in taken:
        yield day._replace(stretches=_stretches(records, job, day, each))


def _stretches(records: Records, job: Job, day: DayByClock, taken: Callable[[Value], float]) -> tuple[Stretch, ...]:
    sitting, worked, table, _ = day
    seated = datetime.datetime.combine(sitting.earliest or job.date, job.start)
    parts = [
        (SET_UP, taken(table.set_up), 0),
        *(
            (kind, taken(value), 0)
            for kind, value in ((STENCIL, table.stencil), (DRYING, table.dry), (SKIN, table.clean_skin))
            if value is not None
        ),
        *_in_the_chair(records, worked, sitting, taken),
        (WRAP, taken(table.wrap), 0),
    ]
    made, after = [], -taken(table.set_up)  # set up before the client comes
    for kind, minutes, step in parts:
        begins, ends = (seated + datetime.timedelta(minutes=at) for at in (after, after + minutes))
        made.append(Stretch(kind, begins, ends, minutes, step))
        after += minutes
    return tuple(made)


def _in_the_chair(
    records: Records, steps: tuple[Step, ...], sitting: Sitting, taken: Callable[[Value], float]
) -> Iterator[tuple[str, float, int]]:
    """Work, breaks and rests, where the timetable puts them; what is too long for one go is broken off in time."""
    limits = records.studio.limits
    for stint, step, (_, longest), (found, spell) in zip(
        sitting.stints, steps, slow_ends(steps), course_of(records, steps), strict=True
    ):
        whole, done = taken(step.booked), 0.0
        stops = [(0.0, BREAK, limits.break_length.low)] if found.before else []
        stops += [(place, BREAK, limits.break_length.low) for place in found.within]
        stops += [(wait.at, REST, wait.minutes) for wait in spell.waits]
        for place, kind, minutes in sorted(stops):
            at = place / longest * whole
            if at > done:
                yield WORK, at - done, stint.number
            yield kind, minutes, 0
            done = at
        yield WORK, whole - done, stint.number


def _middle(value: Value) -> float:
    return (value.low + value.high) / 2
