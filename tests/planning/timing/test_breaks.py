"""Breaks between steps and within long ones."""

from __future__ import annotations

import itertools
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.planning.timing.breaks import breaks_in, pauses
from generator.planning.timing.day import BREAK, REST, WORK, days_of
from generator.press.sheet.contents import sheet_of
from tests.planning.demo import JOBS, RECORDS, demo

MINUTES = st.lists(st.floats(0.5, 400), min_size=1, max_size=12)


@pytest.mark.parametrize(
    ("minutes", "before", "within"),
    [
        ([30, 30], [False, False], [(), ()]),
        ([30, 50], [False, True], [(), ()]),  # a break comes between two steps where that costs none more
        ([75, 75], [False, True], [(), ()]),
        ([150], [False], [(75,)]),
        ([160, 40], [False, False], [(75, 150), ()]),  # a long one is broken off when the time is up
        ([50, 100, 20], [False, True, False], [(), (75,), ()]),
        ([20, 20, 30, 30], [False, False, False, True], [(), (), (), ()]),  # as late as may be
        ([40, 40, 40], [False, False, False], [(), (20,), ()]),  # between steps it would be two breaks
        ([40, 40, 65], [False, False, False], [(), (30,), ()]),  # near the middle, so that the rest fits: 70 and 75
        ([70, 10, 68], [False, False, False], [(), (5,), ()]),
        ([30, 45], [False, False], [(), ()]),  # one that fills the time to the minute fits
        ([30, 75], [False, True], [(), ()]),
        # 75 min are not longer than the limit: broken off in the middle of minutes 10 to 85, which is 47.5.
        ([10, 75, 1], [False, False, False], [(), (37.5,), ()]),
        # The middle of minutes 40 to 115 is 77.5, when the time is up: at 75.
        ([40, 75, 1], [False, False, False], [(), (35,), ()]),
        # The first three are 75 min, which a sum of floats misses by its last bit: 75.00000000000001.
        ([27.6, 37.2, 10.2, 30], [False, False, False, True], [(), (), (), ()]),
        ([75, 0, 75], [False, False, True], [(), (), ()]),  # a step of no minutes adds no break
        ([75, 160], [False, True], [(), (75, 150)]),  # nobody begins a long one when the time is up already
        ([], [], []),
    ],
)
def test_where_breaks_fall(minutes: list[float], before: list[bool], within: list[tuple[float, ...]]) -> None:
    found = pauses(minutes, 75)
    assert [one.before for one in found] == before and [one.within for one in found] == within


@pytest.mark.parametrize(
    ("minutes", "breaks"),
    [
        (75.0000001, 0),  # the tenth digit of the share
        (75.000001, 1),  # the ninth: a break
        (0, 0),
        (150, 1),
        (151, 2),
    ],
)
def test_what_rounding_leaves_over_makes_no_break(minutes: float, breaks: int) -> None:
    assert breaks_in(minutes, 75) == breaks == sum(found.number for found in pauses([minutes], 75))


@given(MINUTES)
def test_nobody_works_longer_than_from_break_to_break_and_no_break_is_one_too_many(minutes: list[float]) -> None:
    since = 0.0
    placed = pauses(minutes, 75)
    for each, found in zip(minutes, placed, strict=True):
        since = 0.0 if found.before else since
        begun = 0.0
        for at in found.within:
            assert 0 < since + at - begun <= 75 + 1e-3
            since, begun = 0.0, at
        since += each - begun
        assert since <= 75 + 1e-3
    assert sum(found.number for found in placed) == breaks_in(sum(minutes), 75)


def test_the_rows_that_are_printed_between_two_breaks_add_up_to_no_more_than_the_limit() -> None:
    """Of all jobs with a sheet; the row of a step that is broken off counts from one break to the next by its share."""
    longest = {}
    for name in JOBS:
        made = demo(name)
        if made.work is None:
            continue
        table, numbers = made.work.at_hand.timetable, [stint.number for stint, _ in made.work.at_hand.numbered]
        rows = [row for row in sheet_of(RECORDS, made).rows if not row.is_break]
        printed = [float(re.findall(r"[\d.]+", row.minutes)[-1]) for row in rows]
        placed = pauses(printed, 75)
        assert len(printed) == len(numbers)
        after = tuple(before for before, found in zip([0, *numbers], placed, strict=False) if found.before)
        assert after == table.breaks_after
        within = tuple(n for n, found in zip(numbers, placed, strict=True) for _ in found.within)
        assert within == table.breaks_within
        since, most = 0.0, 0.0
        for minutes, found in zip(printed, placed, strict=True):
            since = 0.0 if found.before else since
            for begins, end in itertools.pairwise((0.0, *found.within, minutes)):
                since = end - begins if begins else since + end
                most = max(most, since)
        longest[name] = most
    assert max(longest.values()) > 70 and all(0 < most <= 75 for most in longest.values()), longest


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
        rested = sum(s.minutes for s in day.stretches if s.kind == REST)
        assert table.rests.low == rested == table.rests.high
        assert worked + sum(broken) + rested <= longest + 1e-6
        assert len(broken) >= len(table.breaks_after)
