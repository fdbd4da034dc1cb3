"""How long the day is: setting up, stencil, work, breaks, rests, wrap.

There is one time, the one that is booked: at the artist's own pace where finished jobs have taught it, else the plain
estimate. Breaks, sittings, tray and the end of the day rest on it. The plain one is shown beside it to compare.

A pace is measured with going over included: `passes` is a limit printed in the order and no factor of the time.
"""

from __future__ import annotations

import datetime
from dataclasses import dataclass, fields, replace

from generator.planning.computed import Computed, Recorded, Value, compute, counted, recorded, total
from generator.planning.timing.rounding import rows_printed
from generator.planning.timing.sittings import Sitting, Visit, longest_agreed, split_into_sittings, visit_of
from generator.planning.timing.zones import course_of
from generator.planning.working.steps import Step
from generator.quantities import significant
from generator.records.families import Records
from generator.records.jobs import Job
from generator.trade import clock


@dataclass(frozen=True, slots=True)
class Times:
    """Minutes of work, of breaks, from the first line to the last, and of all visits; how many breaks and sittings.

    rests: what is waited besides the breaks because a part rests and no other is left. chair: with both.
    """

    working: Computed
    breaks: Computed
    break_count: Computed
    rests: Computed
    chair: Computed
    whole: Computed
    sittings: Value


@dataclass(frozen=True, slots=True)
class Timetable(Times):
    """The same with the other parts of the day in minutes, as ranges.

    stencil and dry: None where no sitting has a stencil; clean_skin: what is done instead, None where each has one.
    breaks_after: numbers of the steps, from 1, after which there is a break; breaks_within: of those that are broken
    off, each as often as that happens. Both together are `break_count`. done_between: when the day of the job ends, by
    the minutes that its rows print. plain: the times by the plain estimates, None where no step has a learned time. A
    whole piece of several sittings has the sums over all of them.
    """

    set_up: Recorded
    stencil: Recorded | None
    dry: Recorded | None
    clean_skin: Recorded | None
    wrap: Recorded
    breaks_after: tuple[int, ...]
    breaks_within: tuple[int, ...]
    done_between: tuple[datetime.datetime, datetime.datetime]
    plain: Times | None = None


def timetable_of(records: Records, job: Job, steps: tuple[Step, ...], sittings: tuple[Sitting, ...]) -> Timetable:
    """The timetable of a whole piece whose steps are known, over all its sittings."""
    plain = None
    if (unlearned := _unlearned(steps)) is not None:
        split = split_into_sittings(records, job, unlearned)
        plain = _times(records, job, [visit_of(unlearned, sitting) for sitting in split])
    booked = [visit_of(steps, sitting) for sitting in sittings]
    return _timetable(records, job, booked, _times(records, job, booked), plain)


def timetable_of_sitting(records: Records, job: Job, visit: Visit) -> Timetable:
    """The timetable of one sitting of a longer piece."""

    def alone(steps: tuple[Step, ...]) -> Times:
        return replace(_times(records, job, [visit._replace(steps=steps)]), sittings=counted(1, job.date))

    unlearned = _unlearned(visit.steps)
    plain = None if unlearned is None else alone(unlearned)
    return _timetable(records, job, [visit], alone(visit.steps), plain)


def _unlearned(steps: tuple[Step, ...]) -> tuple[Step, ...] | None:
    """The steps by the plain estimates; None where no step has a learned time."""
    if all(step.minutes_learned is None for step in steps):
        return None
    return tuple(replace(step, minutes_learned=None) for step in steps)


def _times(records: Records, job: Job, visits: list[Visit]) -> Times:
    """The sums over all visits, each of them with its own breaks, its own wrap, and its own stencil if it has one."""
    limits, longest = records.studio.limits, longest_agreed(records, job)
    between = recorded(limits.break_after)
    counts: list[Value] = []
    waits: list[Value] = []
    around: list[Value] = []
    for visit in visits:
        minutes = total([step.booked for step in visit.steps], "duration")
        needed = compute(clock.breaks_needed, "number", working_minutes=minutes, between=between)
        course = course_of(records, visit.steps)
        placed = counted(sum(found.number for found, _ in course), limits.break_after)
        waited = sum(spell.waited for _, spell in course)
        waits.append(counted(significant(waited), limits.zone_rest, "duration"))
        counts.append(compute(breaks_taken, "number", needed=needed, placed=placed))
        before = [limits.stencil, limits.stencil_dry] if visit.stencil else [limits.clean_skin]
        around += [recorded(each) for each in (*before, limits.clean_and_wrap)]
    count = total(counts, "number")
    working = total([step.booked for visit in visits for step in visit.steps], "duration")
    breaks = compute(break_minutes, "duration", number=count, length=recorded(limits.break_length))
    rests = total(waits, "duration")
    chair = total([working, breaks, rests] if rests.high else [working, breaks], "duration")
    needed = compute(clock.sittings, "number", total_minutes=chair, longest_sitting=recorded(longest))
    split = counted(len(visits), longest)
    return Times(
        working,
        breaks,
        count,
        rests,
        chair,
        total([*around, chair], "duration"),
        compute(sittings_planned, "number", needed=needed, split=split),
    )


def _timetable(records: Records, job: Job, visits: list[Visit], times: Times, plain: Times | None) -> Timetable:
    limits = records.studio.limits
    after: list[int] = []
    within: list[int] = []
    for visit in visits:
        for place, (found, _) in enumerate(course_of(records, visit.steps)):
            after += [visit.step_numbers[place - 1]] * found.before
            within += [visit.step_numbers[place]] * len(found.within)
    at_hand = visits[min(job.sitting, len(visits)) - 1]
    today = times if visits == [at_hand] else _times(records, job, [at_hand])
    # The work as its rows are printed, and what is not work.
    quick, slow = rows_printed(step.booked for step in at_hand.steps)
    quick += today.whole.low - today.working.low
    slow += today.whole.high - today.working.high
    begins = datetime.datetime.combine(job.date, job.start)
    stencils = [visit.stencil for visit in visits]
    return Timetable(
        **{field.name: getattr(times, field.name) for field in fields(times)},
        set_up=recorded(limits.set_up),
        stencil=recorded(limits.stencil) if any(stencils) else None,
        dry=recorded(limits.stencil_dry) if any(stencils) else None,
        clean_skin=None if all(stencils) else recorded(limits.clean_skin),
        wrap=recorded(limits.clean_and_wrap),
        breaks_after=tuple(after),
        breaks_within=tuple(within),
        done_between=(
            begins + datetime.timedelta(minutes=round(quick)),
            begins + datetime.timedelta(minutes=round(slow)),
        ),
        plain=plain,
    )


def breaks_taken(needed: float, placed: float) -> float:
    """max(needed, placed): the breaks that the order shows are taken, however quick the work goes."""
    return max(needed, placed)


def break_minutes(number: float, length: float) -> float:
    """number · length: all breaks together."""
    return number * length


def sittings_planned(needed: float, split: float) -> float:
    """max(needed, split): a sitting ends between two steps, and within its limit at the slow end of what is booked."""
    return max(needed, split)
