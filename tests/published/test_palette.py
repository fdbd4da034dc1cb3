"""Families of hue and blends against named colours and published differences."""

import pytest

from generator.trade import palette
from generator.trade.colour import Lab, lab
from generator.trade.palette import colour_weight, deep_red, evenness, hue_family
from tests.published.printed import Document, Printed
from tests.published.test_colour import POLAR, TABLE_1

W3C = Document("CSS Color Module Level 4", "World Wide Web Consortium", 2022).table("named colours")
ANCHORS = {
    W3C("#ff0000"): "red",
    W3C("#ffa500"): "orange",
    W3C("#ffff00"): "yellow",
    W3C("#008000"): "green",
    W3C("#40e0d0"): "turquoise",
    W3C("#00bfff"): "deepskyblue",
    W3C("#0000ff"): "blue",
    W3C("#800080"): "purple",
    W3C("#ff1493"): "deeppink",
}
STEPS = TABLE_1("27.1492"), TABLE_1("4.3065")


def test_families_are_anchored_on_named_colours() -> None:
    names = {swatch.literal: name for swatch, name in ANCHORS.items()}
    assert set(names) == set(palette._ANCHORS)
    for swatch, family in palette._ANCHORS.items():
        assert names[swatch].endswith(family) or (family, names[swatch]) == ("blue", "deepskyblue")


# The family is what their name says, and for gold, navy, orchid and silver what anybody would say.
@pytest.mark.parametrize(
    ("name", "swatch", "family"),
    [
        ("darkred", W3C("#8b0000"), "red"),
        ("darkorange", W3C("#ff8c00"), "orange"),
        ("gold", W3C("#ffd700"), "yellow"),
        ("forestgreen", W3C("#228b22"), "green"),
        ("mediumturquoise", W3C("#48d1cc"), "turquoise"),
        ("royalblue", W3C("#4169e1"), "blue"),
        ("skyblue", W3C("#87ceeb"), "blue"),
        ("navy", W3C("#000080"), "blue"),
        ("mediumorchid", W3C("#ba55d3"), "purple"),
        ("hotpink", W3C("#ff69b4"), "pink"),
        ("silver", W3C("#c0c0c0"), "neutral"),
    ],
)
def test_named_colours_fall_in_their_family(name: str, swatch: Printed, family: str) -> None:
    assert hue_family(lab(swatch.literal), neutral_below=5) == family, name


def test_the_steps_of_a_blend_are_published_differences() -> None:
    # Pairs 17 and 16 of the table share their first colour.
    found = evenness([Lab(73, 25, -18), Lab(50, 2.5, 0), Lab(50, 0, -2.5)], jump_from=2)
    assert all(printed.agrees(step) for printed, step in zip(STEPS, found.steps, strict=True))
    assert found.jumps == (0,)


# The named colours whose name says a dark red, and dark ones that are none.
DARK_REDS = [W3C("#8b0000"), W3C("#800000"), W3C("#a52a2a"), W3C("#b22222")]
NO_DARK_REDS = {
    "darkmagenta": W3C("#8b008b"),
    "indigo": W3C("#4b0082"),
    "darkgreen": W3C("#006400"),
    "navy": W3C("#000080"),
    "saddlebrown": W3C("#8b4513"),
    "dimgray": W3C("#696969"),
    "crimson": W3C("#dc143c"),
}


def test_the_dark_reds_of_the_web_are_deep_reds_and_no_other_dark_colour_is() -> None:
    assert all(deep_red(lab(swatch.literal), 40, 30) for swatch in DARK_REDS)
    assert not [name for name, swatch in NO_DARK_REDS.items() if deep_red(lab(swatch.literal), 40, 30)]


CHROMA = POLAR("59.12425901")


def test_the_weight_of_a_published_colour() -> None:
    weight = colour_weight(Lab(41.52787529, 52.63858304, 26.92317922), 1)
    assert weight == pytest.approx(CHROMA.number, abs=1e-7)
