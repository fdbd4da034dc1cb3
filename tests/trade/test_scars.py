"""Scars: the wound's date, months, and the scale."""

import math
from datetime import date, timedelta

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from generator.trade.refusal import Refusal
from generator.trade.scars import (
    added_over_scar,
    earliest_date_by_age,
    maturity_months,
    scar_scale_total,
)

days = st.dates(date(1950, 1, 1), date(2050, 12, 31))


@pytest.mark.parametrize(
    ("wound", "on", "months"),
    [
        (date(2017, 6, 30), date(2018, 6, 29), 11),
        (date(2017, 6, 30), date(2018, 6, 30), 12),
        (date(2023, 1, 31), date(2023, 2, 27), 0),
        (date(2023, 1, 31), date(2023, 2, 28), 1),
        (date(2024, 2, 29), date(2025, 2, 28), 12),
        (date(2020, 2, 29), date(2021, 2, 27), 11),
        (date(2024, 5, 12), date(2024, 5, 12), 0),
    ],
)
def test_whole_months(wound: date, on: date, months: int) -> None:
    assert maturity_months(wound, on) == months


@given(days, st.integers(0, 240))
def test_the_earliest_day_is_the_first_with_that_age(day: date, months: int) -> None:
    earliest = earliest_date_by_age(day, months)
    assert maturity_months(day, earliest) >= months
    if months:
        assert maturity_months(day, earliest - timedelta(days=1)) < months


@given(days, days)
def test_a_later_day_never_has_a_younger_scar(day: date, on: date) -> None:
    assume(on >= day)
    assert maturity_months(day, on) <= maturity_months(day, on + timedelta(days=1))


def test_a_wound_after_the_day() -> None:
    with pytest.raises(Refusal, match=r"^wound: "):
        maturity_months(date(2026, 5, 31), date(2026, 5, 30))


@pytest.mark.parametrize("months", [-1, 120_000])
def test_a_waiting_time_that_is_none(months: int) -> None:
    with pytest.raises(Refusal, match=r"^months: "):
        earliest_date_by_age(date(2020, 5, 31), months)


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


def test_a_quarter_over_a_scar_adds_a_quarter() -> None:
    assert added_over_scar(20, 0.25) == 5


@pytest.mark.parametrize("share", [-0.1, 1.1, math.nan])
def test_no_share_is_more_than_all(share: float) -> None:
    with pytest.raises(Refusal, match=r"^share: "):
        added_over_scar(20, share)
