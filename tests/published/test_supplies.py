"""Ink and gloves against published and common figures."""

import pytest

from generator.trade.supplies import glove_pairs, ink_caps, ink_millilitres, ink_millilitres_by_pigment
from tests.published.printed import Printed

ENGEL = "Engel et al., Contact Dermatitis 2008;58:228-233, abstract: mg pigment per cm² of skin"
PRACTICE = "common practice of the trade, no published source"

# mg/cm² to g/mm².
TO_CANONICAL = 1e-3 / 100


@pytest.mark.parametrize(
    ("pigment", "milligrams"),
    [
        (Printed("0.60", ENGEL, "A"), "30"),
        (Printed("2.53", ENGEL, "A"), "126.5"),
        (Printed("9.42", ENGEL, "A"), "471"),
    ],
)
def test_ink_that_holds_the_published_pigment(pigment: Printed, milligrams: str) -> None:
    # 50 cm² of skin; an ink of 100 mg/mL, so millilitres are milligrams over a hundred.
    volume = ink_millilitres_by_pigment(50 * 100, float(pigment.literal) * TO_CANONICAL, 0.1)
    assert Printed(milligrams, "arithmetic on the published mean and range", "C").agrees(volume * 100)


def test_the_published_range_spans_more_than_a_factor_of_ten() -> None:
    volumes = [ink_millilitres_by_pigment(5000, float(m) * TO_CANONICAL, 0.1) for m in ("0.60", "9.42")]
    assert volumes[1] / volumes[0] > 10


def test_house_rate_and_caps() -> None:
    # 0.1 mL/cm² on 50 cm² is 5 mL: six caps of 0.9 mL.
    volume = ink_millilitres(50 * 100, 0.1 / 100)
    assert Printed("5.0", "arithmetic", "C").agrees(volume)
    assert ink_caps([volume], 0.9) == 6


def test_gloves_of_half_a_day() -> None:
    # 4 to 8 pairs in half a day; breaks each 60 to 90 min, and stencil, final clean and break-down.
    low, high = Printed("4", PRACTICE, "P"), Printed("8", PRACTICE, "P")
    for breaks in (2, 3):
        assert float(low.literal) <= glove_pairs(breaks + 3, people=1) <= float(high.literal)
