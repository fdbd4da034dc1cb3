"""Mixes and concentrations against worked examples of public bodies."""

import pytest

from generator.trade.disinfection import (
    dissolved_strength,
    mix_for,
    mixed_strength,
    powder_for,
    powder_per_litre,
)
from tests.published.printed import Printed

CDC_E = "CDC, Best Practices for Environmental Cleaning, 2019, Appendix E"
CDC_2008 = "CDC, Guideline for Disinfection and Sterilization in Healthcare Facilities, 2008"
WHO_G = "WHO, Infection prevention and control of acute respiratory infections, 2014, Annex G"
PPM = 10_000  # parts per million in one per cent
KANSAS = "Kansas Department of Health and Environment"


@pytest.mark.parametrize(
    ("product", "desired", "parts"),
    [
        (3.5, 0.5, Printed("6", f"{CDC_E}, example 1", "A")),
        (5, 0.1, Printed("49", f"{CDC_E}, example 3", "A")),
    ],
)
def test_parts_of_water(product: float, desired: float, parts: Printed) -> None:
    mix = mix_for(1000, product, desired)
    assert mix.water / mix.product == pytest.approx(float(parts.literal))


def test_grams_of_powder() -> None:
    assert Printed("14.3", f"{CDC_E}, example 2", "A").agrees(powder_per_litre(35, 0.5))


def test_a_measured_mix_holds_the_published_share() -> None:
    """The two examples of CDC, Appendix E, with a jug and a scale: 1 + 6 in a litre, and 14.3 g in a litre."""
    ounce, litre = 29.5735295625, 1000
    for product_step, water_step in ((1, 1), (0.1 * ounce, 0.1 * ounce)):
        mix = mix_for(litre, 3.5, 0.5, product_step, water_step)
        assert 0.5 <= mixed_strength(3.5, *mix) <= 0.51
        assert mix.product >= litre / 7 and mix.product + mix.water <= litre
    powder = powder_for(litre, 35, 0.5, 0.1, 1)
    assert Printed("14.3", f"{CDC_E}, example 2", "A").agrees(powder.powder)
    assert Printed("14.3", f"{CDC_E}, example 2", "A").agrees(powder_for(litre, 35, 0.5).powder)
    assert powder.water == litre
    assert dissolved_strength(35, *powder) == pytest.approx(0.5005)


@pytest.mark.parametrize(("strength", "parts"), [(5, (1, 99)), (2.5, (2, 98))])
def test_parts_that_make_a_twentieth_of_a_per_cent(strength: float, parts: tuple[int, int]) -> None:
    percent = mixed_strength(strength, *parts)
    assert Printed("0.05", WHO_G, "A").agrees(percent)
    assert Printed("500", WHO_G, "A").agrees(percent * PPM)


def test_an_ounce_in_a_gallon() -> None:
    # 128 fluid ounces to the gallon. The print counts the ounce as part of the gallon: 410; on top of it
    # the same ounce gives 407. That is the difference a bare "1:128" hides.
    assert Printed("410", KANSAS, "A").agrees(mixed_strength(5.25, 1, 127) * PPM)
    assert not Printed("410", KANSAS, "A").agrees(mixed_strength(5.25, 1, 128) * PPM)


@pytest.mark.parametrize(("strength", "ppm"), [(5.25, "525"), (6.15, "615")])
def test_household_bleach_one_in_a_hundred(strength: float, ppm: str) -> None:
    assert Printed(ppm, f"{CDC_2008}, small spills", "B").agrees(mixed_strength(strength, 1, 99) * PPM)


def test_household_bleach_one_in_five_hundred() -> None:
    # "more than 100 ppm", Table 1 (A).
    for strength in (5.25, 6.15):
        assert mixed_strength(strength, 1, 499) * PPM > 100
