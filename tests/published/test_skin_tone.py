"""The typology angle and its classes against published readings."""

import pytest

from generator.trade.skin_tone import ink_on_skin, skin_class, typology_angle
from tests.published.printed import Printed

READING = "L*, b* published, angle computed"
CHARDON = "classes after Chardon 1991, quoted"


@pytest.mark.parametrize(
    ("lightness", "b", "angle", "name"),
    [
        (64.15, 18.34, Printed("37.65", READING, "C"), "intermediate"),
        (49.4, 12.3, Printed("-2.79", READING, "C"), "brown"),
    ],
)
def test_readings(lightness: float, b: float, angle: Printed, name: str) -> None:
    computed = typology_angle(lightness, b)
    assert angle.agrees(computed)
    assert skin_class(computed) == name


@pytest.mark.parametrize(
    ("border", "below", "above"),
    [
        (Printed("55", CHARDON, "B"), "light", "very light"),
        (Printed("41", CHARDON, "B"), "intermediate", "light"),
        (Printed("28", CHARDON, "B"), "tan", "intermediate"),
        (Printed("10", CHARDON, "B"), "brown", "tan"),
        (Printed("-30", CHARDON, "B"), "dark", "brown"),
    ],
)
def test_borders_of_the_classes(border: Printed, below: str, above: str) -> None:
    angle = float(border.literal)
    assert skin_class(angle - 0.05) == below
    assert skin_class(angle + 0.05) == above
    # "> 55", "< -30" in print; 41, 28 and 10 follow the first.
    assert skin_class(angle) == ("brown" if border.literal == "-30" else below)


def test_one_class_is_finer_than_the_spread_of_one_skin() -> None:
    # Common practice: a tone varies by 4 in L* and 3 in b* inside one measured class, which spans three.
    corners = [(64.15 + up, 18.34 + yellow) for up in (-4, 4) for yellow in (-3, 3)]
    assert len({skin_class(typology_angle(*corner)) for corner in corners}) == 3


def test_multiply_in_linear_light() -> None:
    # W3C Compositing and Blending Level 1: multiply is the product of both; the curve of sRGB is that of
    # IEC 61966-2-1, ((c + 0.055) / 1.055) ** 2.4.
    light = ((0xBC / 255 + 0.055) / 1.055) ** 2.4
    seen = round(255 * (1.055 * (light * light) ** (1 / 2.4) - 0.055))
    assert ink_on_skin("#bcbcbc", "#bcbcbc", 1).seen == f"#{seen:02x}{seen:02x}{seen:02x}"
