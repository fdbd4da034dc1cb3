"""How long it takes: sums, ranges, breaks, sittings."""

from __future__ import annotations

import dataclasses
import datetime
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.planning.computed import Computed, Value, total
from generator.planning.plan import Work
from generator.planning.timing.rounding import rounded_out
from generator.planning.timing.sittings import Visit, split_into_sittings, visit_of
from generator.planning.timing.timetable import Timetable, timetable_of, timetable_of_sitting
from generator.planning.working.steps import Step
from tests.planning.demo import JOBS, RECORDS, Written, demo, job_of, part, planned, scar, simple, steps_of, written
from tests.planning.random_jobs import parts
from tests.planning.test_permissiveness import often

LIMITS = RECORDS.studio.limits


def timetable(job: Written) -> tuple[Timetable, tuple[Step, ...]]:
    steps = steps_of(job)
    return timetable_of(RECORDS, job_of(job), steps, split_into_sittings(RECORDS, job_of(job), steps)), steps


def filled(area: str, **changes: object) -> Written:
    block = part("block", focal="yes", lines=None, colours=[{"ink": "black-line", "area": area}])
    return simple(parts=[block], **changes)


def work_of(job: Written) -> Work:
    work = planned(job).work
    assert work is not None
    return work


def sums(job: Written, table: Timetable, steps: tuple[Step, ...]) -> None:
    around = 0.0
    for sitting in split_into_sittings(RECORDS, job_of(job), steps):
        visit = visit_of(steps, sitting)
        # A later sitting without lines has no stencil; what has no lines at all needs one.
        stencil = sitting.number == 1 or not all(s.section != "lines" and s.part.lines for s in visit.steps)
        around += LIMITS.stencil.low + LIMITS.stencil_dry.low if stencil else LIMITS.clean_skin.low
        around += LIMITS.clean_and_wrap.low
    for end in ("low", "high"):

        def of(value: Value, end: str = end) -> float:
            return float(getattr(value, end))

        assert of(table.working) == pytest.approx(sum(of(step.minutes) for step in steps))
        assert of(table.chair) == pytest.approx(of(table.working) + of(table.breaks) + of(table.rests))
        assert of(table.whole) == pytest.approx(of(table.chair) + around)
        shown = len(table.breaks_after) + len(table.breaks_within)
        assert of(table.break_count) == shown and of(table.breaks) == pytest.approx(shown * LIMITS.break_length.low)
        assert of(table.sittings) >= max(1, math.ceil(round(of(table.chair) / LIMITS.sitting.low, 9)))


@pytest.mark.parametrize("name", JOBS)
def test_totals_of_the_demo_jobs_are_sums(name: str) -> None:
    sums(written(name), *timetable(written(name)))


@often
@given(parts())
def test_totals_of_random_jobs_are_sums_and_ranges_keep_their_order(found: list[Written]) -> None:
    job = simple(size="200 mm x 200 mm", parts=found)
    table, steps = timetable(job)
    sums(job, table, steps)
    values: list[Value] = [table.working, table.breaks, table.chair, table.whole, table.sittings]
    values += [value for step in steps for value in (step.minutes, step.amount, step.setting.spacing)]
    assert all(0 <= value.low <= value.high for value in values)
    assert table.done_between[0] <= table.done_between[1]


@pytest.mark.parametrize(("length", "low", "high"), [("300 mm", 12, 20), ("600–900 mm", 24, 60)])
def test_lining_by_the_clock(length: str, low: float, high: float) -> None:
    # 1.5–2.5 cm a minute: the shortest line at the fastest rate, the longest at the slowest.
    (step,) = steps_of(simple(parts=[part("lamp", lines=[{"needle": "1207RL", "length": length}])]))
    assert (step.minutes.low, step.minutes.high) == (low, high)


def test_the_speed_of_the_hand_is_no_pace() -> None:
    (step,) = steps_of(simple())
    hand = step.setting.technique.hand_speed
    assert step.minutes.low > 5 * 300 / hand.low / 60


@pytest.mark.parametrize(
    ("area", "breaks"),
    [
        # Packing at 0.3–0.6 cm² a minute; by the slow end a break after each 75 minutes but the last.
        ("22.5 cm²", 0),  # 37.5–75 min
        ("24 cm²", 1),  # 40–80 min
        ("45 cm²", 1),  # 75–150 min
        ("46 cm²", 2),  # 77–153 min
    ],
)
def test_breaks(area: str, breaks: int) -> None:
    table, _ = timetable(filled(area))
    assert table.breaks.low == table.breaks.high == 10 * breaks and table.break_count.low == breaks


def test_one_sitting_of_a_longer_piece_has_its_own_breaks() -> None:
    # 100 and 120 min at the slow end: a break within each, wherever in the piece they are worked.
    colours = [{"ink": "black-line", "area": "30 cm²"}, {"ink": "rust", "area": "36 cm²"}]
    job = simple(parts=[part("block", focal="yes", lines=None, colours=colours)])
    steps = steps_of(job)
    table = timetable_of_sitting(RECORDS, job_of(job), Visit(3, steps, (1, 2)))
    assert (table.breaks_after, table.breaks_within) == ((), (1, 2)) and table.plain is None
    assert (table.sittings.low, table.sittings.high) == (1, 1)
    # Learned at half the pace, twice the minutes; beside them stand those of the records.
    slow = tuple(dataclasses.replace(step, minutes_learned=total([step.minutes] * 2, "duration")) for step in steps)
    learned = timetable_of_sitting(RECORDS, job_of(job), Visit(3, slow, (1, 2)))
    assert (learned.working.low, learned.working.high) == (220, 440) and learned.plain is not None
    assert (learned.plain.working.low, learned.plain.working.high) == (110, 220)
    assert (learned.plain.sittings.low, learned.plain.chair.high) == (1, table.chair.high)


def test_a_break_comes_before_the_step_that_would_run_past_it() -> None:
    # Three steps of 50 min at the slow end, then a small one.
    areas = {"black-line": "15 cm²", "deep-blue": "15 cm²", "rust": "15 cm²", "sand": "1 cm²"}
    colours = [{"ink": ink, "area": area} for ink, area in areas.items()]
    block = part("block", focal="yes", lines=None, colours=colours)
    table, steps = timetable(simple(parts=[block]))
    assert [round(s.minutes.high, 1) for s in steps] == [50, 50, 50, 3.3]
    assert table.breaks_after == (1, 2) and table.breaks_within == ()


@often
@given(parts())
def test_no_stretch_is_longer_than_from_break_to_break(found: list[Written]) -> None:
    work = work_of(simple(size="200 mm x 200 mm", parts=found))
    table, steps = work.at_hand.timetable, work.at_hand.steps
    slow = [rounded_out(0, step.booked.high, "duration")[1] for step in steps]
    # As few as the limit allows, of the minutes that are printed; by the clock: test_worked_by_hand.
    assert len(table.breaks_after) + len(table.breaks_within) == max(0, math.ceil(round(sum(slow) / 75, 6)) - 1)
    assert len(steps) not in table.breaks_after, "no break after the last step"
    assert table.chair.high <= LIMITS.sitting.low + 1e-6


# A scar of 20 × 4 mm with 2 mm of margin all round, in a part of 40 × 40 mm: a bar and two half discs of radius 4 mm.
SHARE = (20 * 8 + math.pi * 4**2) / 1600


@pytest.mark.parametrize(
    ("wound", "slower"),
    [("2017-06", 25), ("2025-10", 25)],
)
def test_work_over_a_scar_is_slower(wound: str, slower: float) -> None:
    ground, lamp = part("ground", role="filler", detail="broad"), part("lamp", (60, 60, 30, 30), focal="yes")
    over = scar(**{"from": ["30 mm", "40 mm"], "to": ["50 mm", "40 mm"]}, wound=wound)
    with_scar = steps_of(simple(parts=[ground, lamp], scars=[over]))
    without = steps_of(simple(parts=[ground, lamp]))
    for slow, quick in zip(with_scar, without, strict=True):
        share = 1 + SHARE * slower / 100 if slow.part.id == "ground" else 1
        assert slow.minutes.low == pytest.approx(quick.minutes.low * share, rel=1e-4)
        assert slow.minutes.high == pytest.approx(quick.minutes.high * share, rel=1e-4)


def test_a_scar_that_is_still_open_is_worked_as_if_the_worst_held() -> None:
    ground, lamp = part("ground", role="filler", detail="broad"), part("lamp", (60, 60, 30, 30), focal="yes")
    ends = {"from": ["30 mm", "40 mm"], "to": ["50 mm", "40 mm"]}
    known = steps_of(simple(parts=[ground, lamp], scars=[scar(**ends)]))
    unknown = steps_of(simple(parts=[ground, lamp], scars=[scar(**ends, type=None)]))
    slow, quick = (next(s for s in steps if s.part.id == "ground") for steps in (unknown, known))
    # Sunken skin would be gone over once, and 30 % slower instead of 25 %.
    assert [over.passes.low for over in (*slow.over, *quick.over) if over.passes] == [1, 2]
    assert slow.minutes.high == pytest.approx(quick.minutes.high * (1 + 0.3 * SHARE) / (1 + 0.25 * SHARE), rel=1e-4)


def test_each_of_two_scars_slows_its_own_share_and_the_slower_one_where_they_lie_on_each_other() -> None:
    ground, lamp = part("ground", role="filler", detail="broad"), part("lamp", (60, 60, 30, 30), focal="yes")

    def minutes(*others: int) -> float:
        old = scar(**{"from": ["30 mm", "30 mm"], "to": ["50 mm", "30 mm"]})
        sunken = [
            scar(**{"from": ["30 mm", f"{down} mm"], "to": ["50 mm", f"{down} mm"]}, id="s2", type="sunken")
            for down in others
        ]
        for scars in ([old, *sunken], [*sunken, old]):
            slow = next(s for s in steps_of(simple(parts=[ground, lamp], scars=scars)) if s.part.id == "ground")
        return slow.minutes.high

    # 300 mm at 1.5 cm a minute; the old scar is worked 25 % more slowly, the sunken one 30 %.
    assert minutes() == pytest.approx(20 * (1 + SHARE * 0.25), rel=1e-4)
    assert minutes(50) == pytest.approx(20 * (1 + SHARE * (0.25 + 0.3)), rel=1e-4)
    assert minutes(30) == pytest.approx(20 * (1 + SHARE * 0.3), rel=1e-4)


def test_a_long_first_step_has_no_break_before_it() -> None:
    table, _ = timetable(filled("60 cm²", size="200 mm x 200 mm"))  # 200 min at the slow end
    assert table.breaks_after == () and table.breaks_within == (1, 1)


@pytest.mark.parametrize(("area", "sittings"), [("150 cm²", 3), ("100 cm²", 2)])  # 250–500 and 167–333 min of packing
def test_more_than_one_sitting_is_said_and_the_day_ends_with_the_first(area: str, sittings: int) -> None:
    made = planned(filled(area, size="200 mm x 200 mm"))
    assert made.work is not None
    table = made.work.timetable
    # 200 min of slow work and two breaks as long as a rest fill the 240 min of a sitting; the last has what is left.
    assert table.sittings.low == table.sittings.high == sittings
    assert any(f"planned in {sittings}" in f.reason and f.level == "care" for f in made.findings)
    # 11:00, stencil 20 and drying 15 min, four hours, wrap 15 min.
    assert table.done_between[1] == datetime.datetime(2027, 5, 12, 15, 50)


def test_the_demo_day() -> None:
    work = demo("keepers-lantern").work
    assert work is not None
    first, last = work.timetable.done_between
    begins = datetime.datetime(2027, 5, 19, 10, 30)
    # Whoever adds up the printed rows comes to the end.
    around = work.timetable.whole.low - work.timetable.working.low
    rows = [rounded_out(step.booked.low, step.booked.high, "duration") for step in work.steps]
    printed = [around + sum(ends) for ends in zip(*rows, strict=True)]
    assert [(end - begins).seconds / 60 for end in (first, last)] == pytest.approx(printed)


@pytest.mark.parametrize("name", ["diving-bell", "sextant", "signal-box"])
def test_a_finished_job_took_what_was_estimated(name: str) -> None:
    # The demo's own log, to the minute: actual times within a quarter of the estimate.
    job = job_of(written(name))
    assert job.finished is not None
    steps = steps_of(written(name))
    for worked in job.finished.worked:
        low = sum(s.minutes.low for s in steps if s.setting.technique.id == worked.technique)
        high = sum(s.minutes.high for s in steps if s.setting.technique.id == worked.technique)
        assert low * 0.75 - 1 <= worked.took.low <= high * 1.25 + 1, worked.technique


def test_minutes_say_how_they_came_about() -> None:
    (step,) = steps_of(simple())
    assert isinstance(step.minutes, Computed) and dict(step.minutes.inputs)["length"] is step.amount


@often
@given(parts(), st.integers(1, 12))
def test_interruptions_beyond_the_breaks_cost_gloves_and_no_time(found: list[Written], interruptions: int) -> None:
    calm = work_of(simple(size="200 mm x 200 mm", parts=found))
    busy = work_of(simple(size="200 mm x 200 mm", parts=found, interruptions=str(interruptions)))
    assert calm.timetable == busy.timetable
    pairs = [next(c.number for c in w.tray.supplies if c.supply.id == "gloves") for w in (calm, busy)]
    # Those of later sittings are not expected.
    more = max(0, interruptions - calm.at_hand.timetable.break_count.high)
    assert pairs[1].low - pairs[0].low == pairs[1].high - pairs[0].high == more
