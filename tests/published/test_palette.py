"""Families of hue and blends against named colours and published differences."""

import pytest

from generator.trade.colour import Lab, lab
from generator.trade.palette import colour_weight, deep_red, evenness, hue_family
from tests.published.printed import Printed

SHARMA = "Sharma, Wu, Dalal 2005, Table 1, in public test data"


# Swatches of the W3C named colours (CSS Color Module Level 4); the family is what their name says, and for
# gold, navy, orchid and silver what anybody would say.
@pytest.mark.parametrize(
    ("name", "swatch", "family"),
    [
        ("darkred", "#8b0000", "red"),
        ("darkorange", "#ff8c00", "orange"),
        ("gold", "#ffd700", "yellow"),
        ("forestgreen", "#228b22", "green"),
        ("mediumturquoise", "#48d1cc", "turquoise"),
        ("royalblue", "#4169e1", "blue"),
        ("skyblue", "#87ceeb", "blue"),
        ("navy", "#000080", "blue"),
        ("mediumorchid", "#ba55d3", "purple"),
        ("hotpink", "#ff69b4", "pink"),
        ("silver", "#c0c0c0", "neutral"),
    ],
)
def test_named_colours_fall_in_their_family(name: str, swatch: str, family: str) -> None:
    assert hue_family(lab(swatch), neutral_below=5) == family, name


def test_the_steps_of_a_blend_are_published_differences() -> None:
    # Pairs 17 and 16 of the table share their first colour.
    found = evenness([Lab(73, 25, -18), Lab(50, 2.5, 0), Lab(50, 0, -2.5)], jump_from=2)
    assert Printed("27.1492", SHARMA, "A").agrees(found.steps[0])
    assert Printed("4.3065", SHARMA, "A").agrees(found.steps[1])
    assert found.jumps == (0,)


def test_the_dark_reds_of_the_web_are_deep_reds_and_no_other_dark_colour_is() -> None:
    # W3C, CSS Color Module Level 4: the named colours whose name says a dark red, and dark ones that are none.
    for name, swatch in (("darkred", "#8b0000"), ("maroon", "#800000"), ("brown", "#a52a2a"), ("firebrick", "#b22222")):
        assert deep_red(lab(swatch), 40, 30), name
    for name, swatch in (
        ("darkmagenta", "#8b008b"),
        ("indigo", "#4b0082"),
        ("darkgreen", "#006400"),
        ("navy", "#000080"),
        ("saddlebrown", "#8b4513"),
        ("dimgray", "#696969"),
        ("crimson", "#dc143c"),
    ):
        assert not deep_red(lab(swatch), 40, 30), name


def test_the_weight_of_a_published_colour() -> None:
    # Chroma of (34.78467, 28.15159, 3.024663) is 28.31361 in a public image library's test data.
    assert Printed("28.31361", "public image library's test data", "A").agrees(
        colour_weight(Lab(34.78467, 28.15159, 3.024663), 1)
    )
