"""Dates of follow-up, expiry, retention and review."""

from collections.abc import Callable
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.trade.dates import (
    add_months,
    add_weeks,
    next_review,
    next_sitting_earliest,
    opened_ink_expiry,
    overdue,
    retention_end,
    touch_up_window,
)
from generator.trade.refusal import Refusal

days = st.dates(date(1990, 1, 1), date(2090, 12, 31))
counts = st.integers(0, 120)


@pytest.mark.parametrize(
    ("start", "months", "later"),
    [
        (date(2027, 1, 31), 1, date(2027, 2, 28)),
        (date(2028, 1, 31), 1, date(2028, 2, 29)),
        (date(2028, 2, 29), 12, date(2029, 2, 28)),
        (date(2027, 12, 15), 1, date(2028, 1, 15)),
        (date(2027, 5, 12), 0, date(2027, 5, 12)),
    ],
)
def test_months_end_where_the_month_ends(start: date, months: int, later: date) -> None:
    assert add_months(start, months) == later
    assert next_review(start, months) == later


@given(days, counts)
def test_weeks_keep_the_day_of_the_week(start: date, weeks: int) -> None:
    later = add_weeks(start, weeks)
    assert later - start == timedelta(days=7 * weeks)
    assert later.weekday() == start.weekday()
    assert next_sitting_earliest(start, weeks) == later


@given(days, counts, counts)
def test_more_months_never_end_earlier(start: date, one: int, other: int) -> None:
    low, high = sorted((one, other))
    assert add_months(start, low) <= add_months(start, high)


@given(days, counts, counts)
def test_the_touch_up_opens_before_it_closes(done: date, first: int, last: int) -> None:
    first, last = sorted((first, last))
    window = touch_up_window(done, first, last)
    assert done <= window.opens <= window.closes


def test_a_touch_up_that_closes_before_it_opens() -> None:
    with pytest.raises(Refusal, match=r"^last_weeks: "):
        touch_up_window(date(2027, 5, 12), 8, 6)


@given(days, counts, days)
def test_the_earlier_of_opened_and_printed(opened: date, life: int, printed: date) -> None:
    expiry = opened_ink_expiry(opened, life, printed)
    assert expiry in (printed, add_months(opened, life))
    assert expiry <= printed


def test_records_of_a_leap_day() -> None:
    assert retention_end(date(2028, 2, 29), 3) == date(2031, 2, 28)
    assert retention_end(date(2028, 2, 29), 4) == date(2032, 2, 29)


@given(days)
def test_overdue_the_day_after(due: date) -> None:
    assert not overdue(due, due)
    assert overdue(due, due + timedelta(days=1))
    assert not overdue(due, due - timedelta(days=1))


RULES: dict[str, Callable[[int], object]] = {
    "months": lambda amount: add_months(date(2027, 5, 12), amount),
    "weeks": lambda amount: add_weeks(date(2027, 5, 12), amount),
    "life_months": lambda amount: opened_ink_expiry(date(2027, 5, 12), amount, date(2028, 1, 1)),
    "years": lambda amount: retention_end(date(2027, 5, 12), amount),
    "first_weeks": lambda amount: touch_up_window(date(2027, 5, 12), amount, max(8, amount)),
    "last_weeks": lambda amount: touch_up_window(date(2027, 5, 12), 0, amount),
}


@pytest.mark.parametrize("argument", [name for name in RULES if name != "last_weeks"])
@pytest.mark.parametrize("amount", [-1, 10_000_000, 10**12])
def test_times_that_are_none(argument: str, amount: int) -> None:
    with pytest.raises(Refusal, match=r"^(first_weeks|life_months|months|weeks|years): ") as refused:
        RULES[argument](amount)
    assert refused.value.argument == argument


def test_a_touch_up_beyond_the_calendar() -> None:
    with pytest.raises(Refusal, match=r"^last_weeks: ") as refused:
        RULES["last_weeks"](10_000_000)
    assert refused.value.argument == "last_weeks"
