"""Estimates read as estimates, everywhere; nothing else is rounded by it."""

from __future__ import annotations

import datetime
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.origins import Origin
from generator.planning.computed import Recorded, compute, counted, recorded, total
from generator.planning.timing.rounding import clock_rounded_out, rounded_out
from generator.planning.timing.timetable import break_minutes
from generator.press.drawings.day import days_drawn
from generator.press.sheet.contents import sheet_of
from generator.press.words.estimates import ends_shown, is_estimate
from generator.quantities import written as quantity
from generator.records.reading import read_records
from generator.trade import clock
from tests.learned import learn_from
from tests.planning.demo import CONTENT, JOBS, RECORDS, Written, job_of, planned, simple, written
from tests.planning.demo import plan as plan_of
from tests.planning.random_jobs import parts
from tests.planning.test_permissiveness import often

LEARNED = learn_from(CONTENT, read_records(CONTENT))[0]


@pytest.mark.parametrize(
    ("low", "high", "shown"),
    [
        (15.2, 25.3, (15, 26)),
        (2.7, 5.4, (2, 6)),
        (0.34, 0.67, (1, 1)),
        (0.9, 1.2, (1, 2)),
        (58.9, 60.0, (58, 60)),
        (61, 61.5, (60, 65)),
        (97.3, 176.2, (95, 180)),
        (12, 20, (12, 20)),
        (41, 41, (41, 41)),
        (63, 63, (65, 65)),
    ],
)
def test_minutes(low: float, high: float, shown: tuple[float, float]) -> None:
    assert rounded_out(low, high, "duration") == pytest.approx(shown)


@pytest.mark.parametrize(("low", "high", "shown"), [(1.32, 2.64, (1.3, 2.7)), (0.243, 0.481, (0.24, 0.49))])
def test_millilitres(low: float, high: float, shown: tuple[float, float]) -> None:
    assert rounded_out(low, high, "volume") == pytest.approx(shown)


@given(st.floats(0.01, 2000), st.floats(1, 4))
def test_nothing_is_promised_that_was_not_estimated(low: float, wide: float) -> None:
    shown = rounded_out(low, low * wide, "duration")
    assert shown[1] >= low * wide - 1e-5 * wide and (wide == 1 or shown[0] <= max(1, low) + 1e-5)
    for end in shown:
        assert end % 5 == 0 if end > 60 else float(f"{end:.2g}") == pytest.approx(end)


def test_times_by_the_clock() -> None:
    first, last = datetime.datetime(2027, 5, 12, 12, 39), datetime.datetime(2027, 5, 12, 13, 51)
    assert [f"{at:%H:%M}" for at in clock_rounded_out(first, last)] == ["12:35", "13:55"]
    even = datetime.datetime(2027, 5, 12, 12, 40)
    assert clock_rounded_out(even, even) == (even, even)


def test_a_recorded_value_is_no_estimate() -> None:
    limit = Recorded(97, 97, "duration", Origin(("studio", "limits", "sitting")))
    assert not is_estimate(limit) and ends_shown(total([limit], "duration")) == (97, 97)


@often
@given(parts())
def test_printed_rows_add_up_to_a_total_that_is_no_less_than_the_estimate(found: list[Written]) -> None:
    made = planned(simple(size="200 mm x 200 mm", parts=found))
    assert made.work is not None
    table, steps = made.work.at_hand.timetable, made.work.at_hand.steps
    rows = [ends_shown(step.booked) for step in steps]
    assert all(
        1 <= low <= high and high >= step.booked.high - 1e-5 for (low, high), step in zip(rows, steps, strict=True)
    )
    worked = tuple(map(sum, zip(*rows, strict=True)))
    assert ends_shown(table.working) == worked and worked[1] >= table.working.high - 1e-5
    # Breaks of 10 min and rests, as they are printed, then all that lies before and behind the work.
    chair = tuple(end + ends_shown(table.breaks)[0] + table.rests.high for end in worked)
    assert ends_shown(table.chair) == chair
    around = [each for each in (table.stencil, table.dry, table.clean_skin, table.wrap) if each is not None]
    day = tuple(end + sum(each.low for each in around) for end in chair)
    assert ends_shown(table.whole) == day
    begins = datetime.datetime.combine(made.job.date, made.job.start)
    assert table.done_between == tuple(begins + datetime.timedelta(minutes=end) for end in day)


@pytest.mark.parametrize(("length", "number", "breaks"), [("12 min", 6, 72), ("10 min", 7, 70)])
def test_breaks_are_counted_and_not_estimated(length: str, number: int, breaks: int) -> None:
    minutes = compute(clock.line_minutes, "duration", length=counted(9000, ""), pace=counted(20, ""))
    count = compute(clock.breaks_needed, "number", working_minutes=minutes, between=counted(450 / (number + 1), ""))
    made = compute(break_minutes, "duration", number=count, length=recorded(quantity(length)))
    assert not is_estimate(made) and ends_shown(made) == (breaks, breaks)


@pytest.mark.parametrize("name", JOBS)
def test_every_estimate_of_a_demo_job(name: str) -> None:
    made, _ = plan_of(RECORDS, job_of(written(name)), LEARNED)
    assert made is not None
    if made.work is None:
        return
    sheet = sheet_of(RECORDS, made)
    said = [row.minutes for row in sheet.rows if not row.is_break]
    (worked,) = (pair.value for pair in sheet.times if pair.label == "work")
    found = [re.findall(r"\d+", text) for text in (*said, re.split(r"\smin", worked)[0])]
    *rows, whole = [(int(ends[0]), int(ends[-1])) for ends in found]
    assert tuple(map(sum, zip(*rows, strict=True))) == whole, "an artist adds up the rows"
    for text in said:
        for number in re.findall(r"\d+(?:\.\d+)?", text):
            minutes = float(number)
            assert minutes % 5 == 0 if minutes > 60 else len(number.replace(".", "").strip("0")) <= 2, text
    for pair in sheet.times:
        if pair.label == "end":
            assert all(int(minute) % 5 == 0 for minute in re.findall(r":(\d\d)", pair.value))
    for picture in days_drawn(RECORDS, made, made.work):
        assert all(int(minute) % 5 == 0 for line in picture.said for minute in re.findall(r"\d\d:(\d\d)", line))
