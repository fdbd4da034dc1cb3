"""The classes of the typology angle against the published ones."""

import pytest

from generator.trade.skin_tone import skin_class
from tests.published.printed import Document, Printed

CHARDON = Document(
    "Skin colour typology and suntanning pathways, International Journal of Cosmetic Science 13, 191–208",
    "Chardon, Cretois and Hourseau",
    1991,
).at("classes of the angle", "B")


@pytest.mark.parametrize(
    ("border", "below", "above"),
    [
        (CHARDON("55"), "light", "very light"),
        (CHARDON("41"), "intermediate", "light"),
        (CHARDON("28"), "tan", "intermediate"),
        (CHARDON("10"), "brown", "tan"),
        (CHARDON("-30"), "dark", "brown"),
    ],
)
def test_borders_of_the_classes(border: Printed, below: str, above: str) -> None:
    assert skin_class(border.number - 0.05) == below
    assert skin_class(border.number + 0.05) == above
    # "> 55", "< -30" in print; 41, 28 and 10 follow the first.
    assert skin_class(border.number) == ("brown" if border.literal == "-30" else below)
