"""Breaks between steps and within long ones, and how much work a sitting holds."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.planning.timing.breaks import pauses, pauses_of, working_room
from generator.planning.timing.day import BREAK, WORK, days_of
from tests.planning.demo import JOBS, RECORDS, demo

MINUTES = st.lists(st.floats(0.5, 400), min_size=1, max_size=12)


@pytest.mark.parametrize(
    ("minutes", "before", "within"),
    [
        ([30, 30], [False, False], [(), ()]),
        ([30, 50], [False, True], [(), ()]),  # a short step is not cut: the break comes before it
        ([75, 75], [False, True], [(), ()]),
        ([150], [False], [(75,)]),
        ([160, 40], [False, False], [(75, 150), ()]),
        ([50, 100, 20], [False, False, True], [(), (25,), ()]),  # a long one is broken off when the time is up
        ([30, 45], [False, False], [(), ()]),  # one that fills the time to the minute fits
        ([30, 75], [False, True], [(), ()]),  # and one as long as the limit is not cut
        ([75, 160], [False, True], [(), (75, 150)]),  # nobody begins a long one when the time is up already
    ],
)
def test_where_breaks_fall(minutes: list[float], before: list[bool], within: list[tuple[float, ...]]) -> None:
    found = list(pauses(minutes, 75))
    assert [one.before for one in found] == before and [one.within for one in found] == within


@pytest.mark.parametrize(
    ("since", "minutes", "before", "within"),
    [
        (30, 45 + 1e-5, False, ()),  # what nine digits of a share leave over makes no break
        (30, 45 + 1.005e-5, True, ()),
        (30, 75 + 1e-5, True, ()),
        (30, 75 + 1.005e-5, False, (45,)),
        (0, 75.0003, False, ()),  # a fiftieth of a second too long
        (0, 75.003, False, (75,)),  # a fifth of a second: a break
    ],
)
def test_what_rounding_leaves_over_makes_no_break(
    since: float, minutes: float, before: bool, within: tuple[float, ...]
) -> None:
    found = pauses_of(since, minutes, 75)
    assert (found.before, found.within) == (before, within)
    assert found.number == before + len(within)


@pytest.mark.parametrize(
    ("chair", "since", "room"),
    [
        (60, 0, 60),  # no break is due
        (75, 0, 75),
        (80, 0, 75),  # 5 minutes more would make a break of 10 due
        (100, 0, 90),  # 75, a break, 15
        (240, 0, 220),  # 75, 75 and 70 with two breaks
        (100, 60, 90),  # 15, a break, 75
        (100, 75, 80),  # a break first, 75, another, 5
        (0, 0, 0),
    ],
)
def test_how_much_work_fits_into_the_chair(chair: float, since: float, room: float) -> None:
    assert working_room(chair, 75, 10, since) == room


@given(MINUTES)
def test_nobody_works_longer_than_from_break_to_break(minutes: list[float]) -> None:
    since = 0.0
    for each, found in zip(minutes, pauses(minutes, 75), strict=True):
        since = 0.0 if found.before else since
        begun = 0.0
        for at in found.within:
            assert since + at - begun == pytest.approx(75)
            since, begun = 0.0, at
        since += each - begun
        assert since <= 75 + 1e-6 and since == pytest.approx(found.since)


@given(st.floats(20, 500), st.floats(0, 75))
def test_the_room_of_a_sitting_is_filled_and_not_passed(chair: float, since: float) -> None:
    room = working_room(chair, 75, 10, since)
    (found,) = pauses([room + since], 75)
    assert room + found.number * 10 <= chair + 1e-6
    (more,) = pauses([room + since + 0.5], 75)
    assert room + 0.5 + more.number * 10 > chair - 10


@pytest.mark.parametrize("name", JOBS)
def test_the_day_by_the_clock_agrees_with_the_ranges_and_the_longest_sitting(name: str) -> None:
    plan = demo(name)
    if plan.work is None:
        return
    longest = min(RECORDS.studio.limits.sitting.low, plan.job.longest.low if plan.job.longest else 1e9)
    for day in days_of(RECORDS, plan.job, plan.work.steps, plan.work.sittings):
        table = day.timetable
        broken = [s.minutes for s in day.stretches if s.kind == BREAK]
        worked = sum(s.minutes for s in day.stretches if s.kind == WORK)
        assert table.breaks.low == sum(broken) == table.breaks.high, "breaks shown and breaks in the sum"
        assert table.working.low <= worked <= table.working.high + 1e-6
        assert worked + sum(broken) <= longest + 1e-6
        assert len(broken) >= len(table.breaks_after)
