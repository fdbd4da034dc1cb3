"""Colours: numbers, differences and refusals."""

import math
from functools import cache
from types import ModuleType

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from generator.trade.colour import Lab, chroma, difference, hue, lab
from generator.trade.refusal import Refusal

swatches = st.integers(0, 0xFFFFFF).map(lambda number: f"#{number:06x}")
labs = st.builds(Lab, st.floats(0, 100), st.floats(-100, 100), st.floats(-100, 100))


# Loaded when it is asked: it takes as long to load as all that is tested here.
@cache
def reference() -> ModuleType:
    import colour

    return colour


@given(swatches)
def test_lab_agrees_with_another_library(swatch: str) -> None:
    rgb = [int(swatch[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    white = reference().CCS_ILLUMINANTS["CIE 1931 2 Degree Standard Observer"]["D65"]
    expected = reference().XYZ_to_Lab(reference().sRGB_to_XYZ(np.array(rgb)), white)
    assert lab(swatch) == pytest.approx(tuple(expected), abs=0.05)


def test_short_and_long_writing_are_one_colour() -> None:
    assert lab("#fa0") == lab("#FFAA00")


@pytest.mark.parametrize("text", ["red", "ff0000", "#ff00", "#ff00000", "#gg0000", "", "#ff0000 ", "#ff0000\n"])
def test_a_swatch_that_is_none(text: str) -> None:
    with pytest.raises(Refusal, match=r"^swatch: ") as refused:
        lab(text)
    assert refused.value.argument == "swatch"
    assert "#rrggbb" in refused.value.remedy


@given(labs)
def test_chroma_and_hue_lead_back_to_a_and_b(colour: Lab) -> None:
    assume(chroma(colour) > 1e-6)
    angle = math.radians(hue(colour))
    assert chroma(colour) * math.cos(angle) == pytest.approx(colour.a, abs=1e-9)
    assert chroma(colour) * math.sin(angle) == pytest.approx(colour.b, abs=1e-9)


@given(labs)
def test_hue_stays_below_a_full_turn(colour: Lab) -> None:
    assume((colour.a, colour.b) != (0, 0))
    assert 0 <= hue(colour) < 360


def test_hue_a_hair_below_the_full_turn_is_zero() -> None:
    assert hue(Lab(50, 10, -1e-20)) == 0


def test_a_grey_has_no_hue() -> None:
    with pytest.raises(Refusal, match=r"^colour: "):
        hue(lab("#808080")._replace(a=0.0, b=0.0))


@given(labs, labs)
def test_difference_is_the_same_both_ways(first: Lab, second: Lab) -> None:
    assert difference(first, second) == pytest.approx(difference(second, first), abs=1e-9)
    assert difference(first, first) == pytest.approx(0, abs=1e-9)


@given(labs, labs)
def test_difference_agrees_with_another_library(first: Lab, second: Lab) -> None:
    # Near opposite hues the published formula jumps from one branch to another.
    assume(min(chroma(first), chroma(second)) > 0.01)
    # The formula turns hues with 1.5 a at the most, so both ends of that are kept off the branch.
    for stretch in (1.0, 1.5):
        turns = [math.degrees(math.atan2(each.b, stretch * each.a)) for each in (first, second)]
        assume(abs(abs(turns[0] - turns[1]) - 180) > 25)
    expected = reference().delta_E(np.array(first), np.array(second), method="CIE 2000")
    assert difference(first, second) == pytest.approx(float(expected), abs=1e-6)


@pytest.mark.parametrize(
    "colour", [Lab(math.nan, 0, 0), Lab(50, math.inf, 0), Lab(-1, 0, 0), Lab(101, 0, 0), Lab(50, 0, math.nan)]
)
def test_numbers_that_are_no_colour(colour: Lab) -> None:
    for question in (chroma, hue, lambda found: difference(found, Lab(50, 0, 0))):
        with pytest.raises(Refusal, match=r"^(colour|first): "):
            question(colour)
