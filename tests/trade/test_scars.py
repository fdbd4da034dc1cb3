"""Scars: the wound's date, months, and the scale."""

import math
from datetime import date, timedelta

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from generator.trade.refusal import Refusal
from generator.trade.scars import (
    Wound,
    added_over_scar,
    earliest_date_by_age,
    maturity_months,
    scar_scale_total,
    wound_day,
)

days = st.dates(date(1950, 1, 1), date(2050, 12, 31))


@given(days)
def test_a_month_only_counts_from_its_last_day(day: date) -> None:
    whole, month = Wound(day.year, day.month, day.day), Wound(day.year, day.month)
    assert wound_day(whole) == day
    assert wound_day(month) >= day
    assert (wound_day(month) + timedelta(days=1)).day == 1
    later = date(2060, 6, 15)
    assert maturity_months(month, later) <= maturity_months(whole, later)


@pytest.mark.parametrize(
    ("wound", "on", "months"),
    [
        (Wound(2017, 6), date(2018, 6, 29), 11),
        (Wound(2017, 6), date(2018, 6, 30), 12),
        (Wound(2023, 1, 31), date(2023, 2, 27), 0),
        (Wound(2023, 1, 31), date(2023, 2, 28), 1),
        (Wound(2024, 2, 29), date(2025, 2, 28), 12),
        (Wound(2020, 2), date(2021, 2, 27), 11),
        (Wound(2024, 5, 12), date(2024, 5, 12), 0),
    ],
)
def test_whole_months(wound: Wound, on: date, months: int) -> None:
    assert maturity_months(wound, on) == months


@given(days, st.integers(0, 240))
def test_the_earliest_day_is_the_first_with_that_age(day: date, months: int) -> None:
    wound = Wound(day.year, day.month, day.day)
    earliest = earliest_date_by_age(wound, months)
    assert maturity_months(wound, earliest) >= months
    if months:
        assert maturity_months(wound, earliest - timedelta(days=1)) < months


@given(days, days)
def test_a_later_day_never_has_a_younger_scar(day: date, on: date) -> None:
    assume(on >= day)
    wound = Wound(day.year, day.month, day.day)
    assert maturity_months(wound, on) <= maturity_months(wound, on + timedelta(days=1))


def test_a_wound_after_the_day() -> None:
    with pytest.raises(Refusal, match=r"^wound: "):
        maturity_months(Wound(2026, 5), date(2026, 5, 30))


@pytest.mark.parametrize("wound", [Wound(2021, 13), Wound(2021, 0), Wound(0, 5), Wound(2023, 2, 29), Wound(2023, 2, 0)])
def test_a_wound_date_that_is_none(wound: Wound) -> None:
    with pytest.raises(Refusal, match=r"^wound: "):
        wound_day(wound)


@pytest.mark.parametrize("months", [-1, 120_000])
def test_a_waiting_time_that_is_none(months: int) -> None:
    with pytest.raises(Refusal, match=r"^months: "):
        earliest_date_by_age(Wound(2020, 5), months)


@given(st.integers(0, 2), st.integers(0, 3), st.integers(0, 5), st.integers(0, 3))
def test_the_total_adds_up(pigmentation: int, vascularity: int, pliability: int, height: int) -> None:
    total = scar_scale_total(pigmentation, vascularity, pliability, height)
    assert total == pigmentation + vascularity + pliability + height


@pytest.mark.parametrize(
    ("scores", "item"),
    [
        ((3, 0, 0, 0), "pigmentation"),
        ((0, 4, 0, 0), "vascularity"),
        ((0, 0, 6, 0), "pliability"),
        ((0, 0, 0, 4), "height"),
        ((-1, 0, 0, 0), "pigmentation"),
        ((0, 1.5, 0, 0), "vascularity"),
        ((0, 0, math.nan, 0), "pliability"),
    ],
)
def test_scores_off_the_scale_name_the_form(scores: tuple[int, int, int, int], item: str) -> None:
    with pytest.raises(Refusal, match=r"^(height|pigmentation|pliability|vascularity): ") as refused:
        scar_scale_total(*scores)
    assert refused.value.argument == item
    assert "Sullivan 1990" in refused.value.expected
    assert "Baryza 1995" in refused.value.remedy


@given(st.floats(0, 200), st.floats(0, 1))
def test_a_share_over_a_scar_adds_that_share(slower: float, share: float) -> None:
    added = added_over_scar(slower, share)
    assert 0 <= added <= slower and added_over_scar(slower, 1) == slower and added_over_scar(slower, 0) == 0


@pytest.mark.parametrize("share", [-0.1, 1.1, math.nan])
def test_no_share_is_more_than_all(share: float) -> None:
    with pytest.raises(Refusal, match=r"^share: "):
        added_over_scar(20, share)
