"""Dates against published intervals and the practice of the trade."""

from datetime import date

import pytest

from generator.trade.dates import (
    add_weeks,
    next_review,
    next_sitting_earliest,
    opened_ink_expiry,
    overdue,
    retention_end,
    touch_up_window,
)

DONE = date(2027, 5, 12)


@pytest.mark.parametrize(
    ("years", "end"),
    [
        (2, date(2029, 5, 12)),  # client records, a UK council and New York City (A)
        (
            3,
            date(2030, 5, 12),
        ),  # client records, NEHA model code 2024 §6.5 (A); training, 29 CFR 1910.1030 (h) (B)
        (30, date(2057, 5, 12)),  # medical record after employment, 29 CFR 1910.1030 (h) (B)
    ],
)
def test_retention(years: int, end: date) -> None:
    assert retention_end(DONE, years) == end
    assert not overdue(end, end)


def test_the_exposure_control_plan_is_reviewed_yearly() -> None:
    # 29 CFR 1910.1030 (c)(1)(iv), at least yearly (B).
    assert next_review(DONE, 12) == date(2028, 5, 12)


def test_a_weekly_spore_test() -> None:
    # CDC dental infection control guidelines, MMWR 2003;52(RR-17), at least weekly (B).
    assert add_weeks(DONE, 1) == date(2027, 5, 19)


@pytest.mark.parametrize(
    ("first", "last", "opens", "closes"),
    [
        (6, 8, date(2027, 6, 23), date(2027, 7, 7)),  # common practice (P)
        (8, 12, date(2027, 7, 7), date(2027, 8, 4)),  # on scars or heavy colour, common practice (P)
    ],
)
def test_touch_up(first: int, last: int, opens: date, closes: date) -> None:
    assert touch_up_window(DONE, first, last) == (opens, closes)


def test_the_same_skin_again() -> None:
    # At least 4 weeks, common practice (P); healed about 1 month after the work by biopsy,
    # Int J Dermatol 1987;26:453-8, abstract (A).
    assert next_sitting_earliest(DONE, 4) == date(2027, 6, 9)


def test_opened_ink() -> None:
    # The earlier of the two, common practice (P).
    assert opened_ink_expiry(DONE, 12, date(2029, 1, 31)) == date(2028, 5, 12)
    assert opened_ink_expiry(DONE, 12, date(2027, 8, 31)) == date(2027, 8, 31)
