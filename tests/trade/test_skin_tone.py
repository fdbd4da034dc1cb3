"""Skin readings and the estimate of an ink on a tone."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.trade.refusal import Refusal
from generator.trade.skin_tone import ink_on_skin, skin_class, typology_angle

swatches = st.integers(0, 0xFFFFFF).map(lambda number: f"#{number:06x}")
LIGHTEST_FIRST = ["very light", "light", "intermediate", "tan", "brown", "dark"]


@given(st.floats(0, 100), st.floats(0.1, 60))
def test_every_reading_has_a_class(lightness: float, b: float) -> None:
    assert skin_class(typology_angle(lightness, b)) in LIGHTEST_FIRST


@given(st.floats(-90, 90), st.floats(-90, 90))
def test_a_larger_angle_is_never_a_darker_class(one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert LIGHTEST_FIRST.index(skin_class(high)) <= LIGHTEST_FIRST.index(skin_class(low))


@pytest.mark.parametrize(
    ("lightness", "b", "argument"),
    [(-1, 10, "lightness"), (101, 10, "lightness"), (math.nan, 10, "lightness"), (60, 0, "b"), (60, -3, "b")],
)
def test_numbers_that_are_no_reading(lightness: float, b: float, argument: str) -> None:
    with pytest.raises(Refusal, match=r"^(b|lightness): ") as refused:
        typology_angle(lightness, b)
    assert refused.value.argument == argument


@pytest.mark.parametrize("angle", [-91, 91, math.nan, math.inf])
def test_an_angle_that_is_none(angle: float) -> None:
    with pytest.raises(Refusal, match=r"^angle: "):
        skin_class(angle)


@given(swatches)
def test_nothing_seen_through_skin_is_lighter_than_the_skin(ink: str) -> None:
    assert ink_on_skin(ink, "#b98a6c", 10).lightness_change <= 1e-9


@given(swatches)
def test_white_is_never_promised_to_show(skin: str) -> None:
    found = ink_on_skin("#ffffff", skin, 1)
    assert found.difference == pytest.approx(0, abs=1e-6)
    assert found.seen == ink_on_skin(skin, "#ffffff", 1).seen


def test_black_stands_out_less_the_darker_the_tone() -> None:
    differences = [ink_on_skin("#000000", tone, 10).difference for tone in ("#f1d3bd", "#b98a6c", "#4a2f22")]
    assert differences == sorted(differences, reverse=True)


def test_the_words_stay_an_estimate_and_point_to_healed_photos() -> None:
    quiet = ink_on_skin("#ffd800", "#6b4630", 20).words
    clear = ink_on_skin("#000000", "#f1d3bd", 20).words
    assert "quietly" in quiet
    assert "clearly" in clear
    for words in (quiet, clear):
        assert "estimated" in words
        assert "healed photos" in words
        assert "problem" not in words


@pytest.mark.parametrize("limit", [-1, math.nan])
def test_a_limit_that_is_none(limit: float) -> None:
    with pytest.raises(Refusal, match=r"^quiet_below: "):
        ink_on_skin("#000", "#c58c6b", limit)


def test_a_swatch_that_is_none() -> None:
    with pytest.raises(Refusal, match=r"^swatch: "):
        ink_on_skin("black", "#c58c6b", 10)
