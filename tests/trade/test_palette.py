"""Families of hue, strong colours, blends and the order of laying."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.trade.colour import Lab, chroma, lab
from generator.trade.palette import (
    NEUTRAL,
    colour_weight,
    deep_red,
    evenness,
    hue_families,
    hue_family,
    laying_order,
    strong_colours,
)
from generator.trade.refusal import Refusal

INKS = {
    name: lab(swatch)
    for name, swatch in {
        "black": "#141414",
        "rust": "#8b3a1a",
        "brick": "#b2412a",
        "amber": "#ffbf00",
        "sky": "#87ceeb",
        "plum": "#5a2a4a",
        "sand": "#e6dccb",
        "white": "#ffffff",
    }.items()
}


def test_a_blend_of_one_colour_counts_once() -> None:
    assert hue_families(INKS, neutral_below=12) == {
        NEUTRAL: ("black", "sand", "white"),
        "red": ("rust", "brick"),
        "orange": ("amber",),
        "blue": ("sky",),
        "purple": ("plum",),
    }


def test_pure_grey_is_neutral_even_without_a_limit() -> None:
    assert hue_family(Lab(50, 0, 0), neutral_below=0) == NEUTRAL


def test_the_limit_itself_is_not_neutral() -> None:
    assert hue_family(Lab(50, 3, 4), neutral_below=5) != NEUTRAL
    assert hue_family(Lab(50, 3, 4), neutral_below=5.001) == NEUTRAL


@given(st.floats(0, 150))
def test_strong_are_those_from_the_limit_on(limit: float) -> None:
    strong = strong_colours(INKS, limit)
    assert set(strong) == {name for name, ink in INKS.items() if chroma(ink) >= limit}
    assert list(strong) == [name for name in INKS if name in strong]


@pytest.mark.parametrize("limit", [-1, math.nan, math.inf])
def test_a_limit_of_chroma_that_is_none(limit: float) -> None:
    with pytest.raises(Refusal, match=r"^chroma_from: ") as refused:
        strong_colours(INKS, limit)
    assert refused.value.argument == "chroma_from"
    with pytest.raises(Refusal, match=r"^neutral_below: ") as refused:
        hue_family(INKS["rust"], limit)
    assert refused.value.argument == "neutral_below"


def test_the_step_that_jumps() -> None:
    blend = [Lab(lightness, 0, 0) for lightness in (20, 30, 40, 80, 90)]
    found = evenness(blend, jump_from=1.5)
    assert len(found.steps) == 4
    assert found.jumps == (2,)


@given(st.lists(st.floats(0, 100), min_size=2, max_size=6))
def test_no_more_jumps_than_steps(lightnesses: list[float]) -> None:
    found = evenness([Lab(lightness, 0, 0) for lightness in lightnesses], jump_from=1.5)
    assert len(found.steps) == len(lightnesses) - 1
    assert all(found.steps[number] == max(found.steps) for number in found.jumps[:1] if len(found.jumps) == 1)
    assert len(found.jumps) < max(2, len(found.steps))


def test_a_single_step_never_jumps() -> None:
    assert evenness([lab("#000"), lab("#fff")], jump_from=1).jumps == ()


def test_equal_steps_do_not_jump() -> None:
    assert evenness([Lab(50, 0, 0)] * 4, jump_from=1).jumps == ()


@pytest.mark.parametrize("blend", [[], [lab("#000")]])
def test_one_colour_is_no_blend(blend: list[Lab]) -> None:
    with pytest.raises(Refusal, match=r"^blend: "):
        evenness(blend, jump_from=1.5)


@pytest.mark.parametrize("factor", [0.9, math.nan, math.inf])
def test_a_factor_that_is_none(factor: float) -> None:
    with pytest.raises(Refusal, match=r"^jump_from: "):
        evenness([lab("#000"), lab("#fff")], factor)


def test_black_washes_colours_from_dark_to_light_white_last() -> None:
    inks = [("white", 100), ("colour", 80), ("wash", 60), ("colour", 30), ("black", 5), ("wash", 40)]
    assert sorted(inks, key=lambda ink: laying_order(*ink)) == [
        ("black", 5),
        ("wash", 40),
        ("wash", 60),
        ("colour", 30),
        ("colour", 80),
        ("white", 100),
    ]


@pytest.mark.parametrize(("kind", "lightness"), [("grey", 50), ("", 50), ("colour", 101), ("colour", math.nan)])
def test_an_ink_that_has_no_place(kind: str, lightness: float) -> None:
    with pytest.raises(Refusal, match=r"^(kind|lightness): "):
        laying_order(kind, lightness)


@pytest.mark.parametrize(
    ("swatch", "deep"),
    [
        ("#8b0000", True),  # W3C darkred
        ("#722f37", True),  # wine: between the anchors of pink and red, and dark
        ("#5c0a1e", True),
        ("#7a1f3d", True),
        ("#ff0000", False),  # bright: a strong colour by its chroma
        ("#ff1493", False),
        ("#660033", False),  # nearer to purple
        ("#553c2b", False),  # a brown
        ("#3a3638", False),  # hardly a colour
    ],
)
def test_deep_reds(swatch: str, deep: bool) -> None:
    assert deep_red(lab(swatch), 40, 30) == deep


@given(st.floats(0, 100), st.floats(0, 150))
def test_a_deep_red_is_dark_and_has_the_chroma_asked_for(darker: float, vivid: float) -> None:
    for ink in INKS.values():
        if deep_red(ink, darker, vivid):
            assert ink.lightness < darker and math.hypot(ink.a, ink.b) >= vivid


def test_weight_is_chroma_times_area() -> None:
    assert colour_weight(Lab(50, 30, 40), 200) == 10_000 and colour_weight(Lab(50, 0, 0), 200) == 0
    for wrong in (-1, math.nan, math.inf):
        with pytest.raises(Refusal, match=r"^area: "):
            colour_weight(Lab(50, 30, 40), wrong)
    for limits in ((-1, 30), (40, -1), (math.nan, 30)):
        with pytest.raises(Refusal, match=r"^(darker_than|vivid_from): "):
            deep_red(Lab(50, 30, 40), *limits)
