"""Two demo jobs recalculated by hand, and what holds for every job: breaks, sums, tray, clock, the artist's pace."""

from __future__ import annotations

import datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.origins import Origin
from generator.planning.computed import Named, compute
from generator.planning.plan import JobPlan, Work, plan
from generator.planning.timing.day import BREAK, REST, WORK, days_of
from generator.planning.timing.learning import Learned, Lesson
from generator.planning.timing.sittings import visit_of
from generator.planning.timing.timetable import timetable_of_sitting
from tests.planning.demo import JOBS, RECORDS, Written, demo, job_of, simple, written
from tests.planning.random_jobs import parts
from tests.planning.test_permissiveness import often

LIMITS = RECORDS.studio.limits


def as_it_is(value: float) -> float:
    return value


def at_a_factor(factor: float) -> Learned:
    """Every artist with the same factor for every technique."""
    made = compute(as_it_is, "number", value=Named(factor, f"{factor}", Origin(("jobs",))))
    pairs = [(artist, technique) for artist in RECORDS.people for technique in RECORDS.techniques]
    return {pair: Lesson(*pair, (), made) for pair in pairs}


def work_at(job: Written, factor: float | None) -> tuple[JobPlan, Work | None]:
    made, report = plan(RECORDS, job_of(job), {} if factor is None else at_a_factor(factor))
    assert made is not None and not report
    return made, made.work


def test_low_water_by_hand() -> None:
    """300 mm and 700 mm of lines at 1.5–2.5 cm a minute, 6 cm² packed at 0.3–0.6, 5 cm² washed at 0.25–0.6.

    Lines 30/2.5 = 12 to 30/1.5 = 20 min, and 70/2.5 = 28 to 70/1.5 = 46.67 min; wash 5/0.6 = 8.33 to 5/0.25 = 20 min;
    black 6/0.6 = 10 to 6/0.3 = 20 min. Printed slow ends: 20, 47, 20 and 20, 107 in all: one break, after the lines,
    as 67 and 40 hold and 87 would not. Work 58.33–106.67 min, in the chair 68.33–116.67, with 20 + 15 min before and
    15 min after 118.33–166.67. From 13:00 that ends at 14:58 to 15:47.
    """
    work = demo("low-water").work
    assert work is not None
    minutes = sorted((round(step.minutes.low, 2), round(step.minutes.high, 2)) for step in work.steps)
    assert minutes == [(8.33, 20), (10, 20), (12, 20), (28, 46.67)]
    table = work.timetable
    assert (table.working.low, table.working.high) == pytest.approx((58.3333333, 106.6666667))
    assert table.breaks_after == (2,) and table.breaks_within == () and table.break_count.low == 1
    assert (table.chair.low, table.chair.high) == pytest.approx((68.3333333, 116.6666667))
    assert (table.whole.low, table.whole.high) == pytest.approx((118.3333333, 166.6666667))
    assert [at.time() for at in table.done_between] == [datetime.time(14, 58), datetime.time(15, 47)]


def test_gear_band_by_hand() -> None:
    """Two rails of 300 mm and gears of 900 mm at 1.5–2.5 cm a minute, 15 cm² of black and 10 cm² of wash.

    Slow: 20, 60, 20, 15/0.3 = 50 and 10/0.25 = 40 min, 190 in all; quick: 12, 36, 12, 25 and 10/0.6 = 16.67, 101.67.
    That is printed as 12, 36, 12, 25 and 16, which are 101.
    Two breaks: 190 is more than 150. The first after 40 to 75 min of work, but no step ends there: 20 and 60 are 80, so
    the step of 60 is broken off at its middle, after 50. The second after 115 to 125, in the step that goes from 100 to
    150: at its middle, 125. In the chair 121.67–210 min. From 11:00, 50 min more, by what is printed: 13:51 to 15:20.
    """
    work = demo("gear-band").work
    assert work is not None
    assert sorted(round(step.minutes.high) for step in work.steps) == [20, 20, 40, 50, 60]
    table = work.timetable
    assert (table.working.low, table.working.high) == pytest.approx((101.6666667, 190))
    assert table.break_count.low == table.break_count.high == 2 and len(work.sittings) == 1
    assert (table.chair.low, table.chair.high) == pytest.approx((121.6666667, 210))
    assert [at.time() for at in table.done_between] == [datetime.time(13, 51), datetime.time(15, 20)]


def holds(made: JobPlan, work: Work) -> None:
    """No stretch is too long at the slow end; sum, marks, clock and tray count the same breaks."""
    between, longest = LIMITS.break_after.low, LIMITS.sitting.low
    counted = worked = 0.0
    for day in days_of(RECORDS, made.job, work.steps, work.sittings):
        table = timetable_of_sitting(RECORDS, made.job, visit_of(work.steps, day.sitting))
        marks = len(table.breaks_after) + len(table.breaks_within)
        breaks = [s for s in day.stretches if s.kind == BREAK]
        assert len(breaks) == marks == table.break_count.low == table.break_count.high
        assert table.breaks.high == pytest.approx(marks * LIMITS.break_length.low)
        assert sum(s.minutes for s in day.stretches if s.kind == REST) == table.rests.high
        assert table.chair.high <= longest + 1e-5
        # The clock is at the middle: each stretch again at the slow end of its step.
        slow = {stint.number: step.booked for stint, step in zip(day.sitting.stints, day.steps, strict=True)}
        since = 0.0
        for stretch in day.stretches:
            if stretch.kind in (BREAK, REST):
                since = 0.0
            elif stretch.kind == WORK:
                booked = slow[stretch.step]
                since += stretch.minutes * booked.high / ((booked.low + booked.high) / 2)
                assert since <= between + 1e-4, "nobody works on without a break"
        counted += marks
        worked += table.working.high
    assert counted == work.timetable.break_count.high
    assert worked == pytest.approx(work.timetable.working.high)
    (gloves,) = (c.number for c in work.tray.supplies if c.supply.id == "gloves")
    # Six steps of hygiene take new gloves, one of them only where a stencil is placed.
    stencils = [day.timetable.stencil is not None for day in days_of(RECORDS, made.job, work.steps, work.sittings)]
    # What else interrupts the sitting at hand is done in its breaks, as far as there are any.
    today = work.at_hand.timetable.break_count.high
    besides = 5 * len(work.sittings) + sum(stencils) + max(0, made.job.interruptions - today)
    assert gloves.low == gloves.high == counted + besides


@pytest.mark.parametrize("name", JOBS)
@pytest.mark.parametrize("factor", [None, 0.8, 1.3, 2.0])
def test_breaks_of_the_demo_hold_at_any_pace(name: str, factor: float | None) -> None:
    made, work = work_at(written(name), factor)
    if work is not None:
        holds(made, work)


@often
@given(parts(), st.sampled_from([None, 0.5, 0.83, 1.27, 2.0]))
def test_breaks_of_random_jobs_hold_at_any_pace(found: list[Written], factor: float | None) -> None:
    made, work = work_at(simple(size="200 mm x 200 mm", parts=found), factor)
    assert work is not None
    holds(made, work)


@often
@given(parts(), st.sampled_from([1.2, 1.7, 2.0]))
def test_a_learned_factor_moves_everything(found: list[Written], factor: float) -> None:
    job = simple(size="200 mm x 200 mm", parts=found)
    (_, plain), (_, slow) = work_at(job, None), work_at(job, factor)
    assert plain is not None and slow is not None
    assert slow.timetable.working.high == pytest.approx(plain.timetable.working.high * factor)
    assert len(slow.sittings) >= len(plain.sittings)
    # Where another sitting begins there is no break.
    pauses = [work.timetable.break_count.high + len(work.sittings) for work in (slow, plain)]
    assert pauses[0] >= pauses[1]
    assert slow.timetable.whole.high > plain.timetable.whole.high
    if len(slow.sittings) == 1:
        # By the minutes that are printed, which a short line need not change.
        assert slow.timetable.done_between[1] >= plain.timetable.done_between[1]
    assert slow.timetable.plain is not None and slow.timetable.plain.whole == plain.timetable.whole
    assert slow.timetable.plain.sittings == plain.timetable.sittings
