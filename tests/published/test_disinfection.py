"""Mixes and concentrations against worked examples of public bodies."""

import pytest

from generator.trade.disinfection import (
    dissolved_strength,
    mix_for,
    mixed_strength,
    powder_for,
    powder_per_litre,
)
from tests.published.printed import Document, Printed

CDC_E = Document("Best Practices for Environmental Cleaning", "Centers for Disease Control and Prevention", 2019)
BLEACH, POWDER = CDC_E.at("Appendix E, example 1"), CDC_E.at("Appendix E, example 2")
CONCENTRATE = CDC_E.at("Appendix E, example 3")
CDC_2008 = Document(
    "Guideline for Disinfection and Sterilization in Healthcare Facilities",
    "Centers for Disease Control and Prevention",
    2008,
)
SPILLS, LOW_LEVEL = CDC_2008.at("recommendations, small spills", "B"), CDC_2008.table("Table 1")
WHO_G = Document(
    "Infection prevention and control of acute respiratory infections", "World Health Organization", 2014
).table("Annex G, Table G.1")
HAND_RUB = Document("WHO Guidelines on Hand Hygiene in Health Care", "World Health Organization", 2009).at(
    "chapter 12, formulation I", "B"
)
TEXTBOOK = Document("General, Organic, and Biological Chemistry: Structures of Life, 5th edition", "Pearson", 2016).at(
    "exercise 9.63", "B"
)
# The page that was read names no year.
KANSAS = Document("Disinfecting water wells", "Kansas Department of Health and Environment", None).at("example")
PPM = 10_000  # parts per million in one per cent

GRAMS, SHARE = POWDER("14.3"), POWDER("0.0143")
PERCENT, PARTS_PER_MILLION, NEAT = WHO_G("0.05"), WHO_G("500"), WHO_G("50000")
OUNCE = KANSAS("410")
AT_LEAST = LOW_LEVEL("100")


@pytest.mark.parametrize(("product", "desired", "parts"), [(3.5, 0.5, BLEACH("6")), (5, 0.1, CONCENTRATE("49"))])
def test_parts_of_water(product: float, desired: float, parts: Printed) -> None:
    mix = mix_for(1000, product, desired)
    assert mix.water / mix.product == pytest.approx(parts.number)


def test_grams_of_powder() -> None:
    assert GRAMS.agrees(powder_per_litre(35, 0.5))
    assert SHARE.agrees(powder_per_litre(35, 0.5) / 1000)


def test_a_measured_mix_holds_the_published_share() -> None:
    """The two examples of CDC, Appendix E, with a jug and a scale: 1 + 6 in a litre, and 14.3 g in a litre."""
    ounce, litre = 29.5735295625, 1000
    for product_step, water_step in ((1, 1), (0.1 * ounce, 0.1 * ounce)):
        mix = mix_for(litre, 3.5, 0.5, product_step, water_step)
        assert 0.5 <= mixed_strength(3.5, *mix) <= 0.51
        assert mix.product >= litre / 7 and mix.product + mix.water <= litre
    powder = powder_for(litre, 35, 0.5, 0.1, 1)
    assert GRAMS.agrees(powder.powder)
    assert GRAMS.agrees(powder_for(litre, 35, 0.5).powder)
    assert powder.water == litre
    assert dissolved_strength(35, *powder) == pytest.approx(0.5005)


@pytest.mark.parametrize(("strength", "parts"), [(5, (1, 99)), (2.5, (2, 98))])
def test_parts_that_make_a_twentieth_of_a_per_cent(strength: float, parts: tuple[int, int]) -> None:
    percent = mixed_strength(strength, *parts)
    assert PERCENT.agrees(percent)
    assert PARTS_PER_MILLION.agrees(percent * PPM)
    assert NEAT.agrees(mixed_strength(5, 1, 0) * PPM)


def test_an_ounce_in_a_gallon() -> None:
    # 128 fluid ounces to the gallon. The print counts the ounce as part of the gallon: 410; on top of it
    # the same ounce gives 407. That is the difference a bare "1:128" hides.
    assert OUNCE.agrees(mixed_strength(5.25, 1, 127) * PPM)
    assert not OUNCE.agrees(mixed_strength(5.25, 1, 128) * PPM)


@pytest.mark.parametrize(("strength", "ppm"), [(5.25, SPILLS("525")), (6.15, SPILLS("615"))])
def test_household_bleach_one_in_a_hundred(strength: float, ppm: Printed) -> None:
    assert ppm.agrees(mixed_strength(strength, 1, 99) * PPM)


def test_household_bleach_one_in_five_hundred() -> None:
    # "More than 100 ppm".
    for strength in (5.25, 6.15):
        assert mixed_strength(strength, 1, 499) * PPM > AT_LEAST.number


# Millilitres of the neat liquid in 10 litres.
@pytest.mark.parametrize(
    ("strength", "millilitres", "percent"), [(96, 8333, HAND_RUB("80")), (3, 417, HAND_RUB("0.125"))]
)
def test_what_a_hand_rub_holds(strength: float, millilitres: float, percent: Printed) -> None:
    assert percent.agrees(mixed_strength(strength, millilitres, 10_000 - millilitres))


@pytest.mark.parametrize(
    ("strength", "millilitres", "filled_up_to", "percent"),
    [(10.0, 25, 100, TEXTBOOK("2.5")), (50.0, 15, 250, TEXTBOOK("3.0"))],
)
def test_a_solution_that_is_filled_up(strength: float, millilitres: int, filled_up_to: int, percent: Printed) -> None:
    assert percent.agrees(mixed_strength(strength, millilitres, filled_up_to - millilitres))
