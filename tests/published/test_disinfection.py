"""Mixes and concentrations against worked examples of public bodies."""

import pytest

from generator.trade.disinfection import (
    BareRatio,
    contact_time,
    dissolved_strength,
    mix_for,
    mixed_strength,
    parts_water,
    percent_from_ppm,
    powder_for,
    powder_per_litre,
    ppm_from_percent,
    written_mix,
)
from tests.published.printed import Printed

CDC_E = "CDC, Best Practices for Environmental Cleaning, 2019, Appendix E"
CDC_2008 = "CDC, Guideline for Disinfection and Sterilization in Healthcare Facilities, 2008"
WHO_G = "WHO, Infection prevention and control of acute respiratory infections, 2014, Annex G"
KANSAS = "Kansas Department of Health and Environment"
APPENDIX_13 = "Regulation (EU) 2020/2081, Annex XVII entry 75, Appendix 13"


@pytest.mark.parametrize(
    ("product", "desired", "parts"),
    [
        (3.5, 0.5, Printed("6", f"{CDC_E}, example 1", "A")),
        (5, 0.1, Printed("49", f"{CDC_E}, example 3", "A")),
    ],
)
def test_parts_of_water(product: float, desired: float, parts: Printed) -> None:
    computed = parts_water(product, desired)
    assert parts.agrees(computed)
    assert computed == pytest.approx(float(parts.literal))
    mix = mix_for(1000, product, desired)
    assert parts.agrees(mix.water / mix.product)


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


@pytest.mark.parametrize(("strength", "written"), [(5, "1 + 99"), (2.5, "2 + 98")])
def test_parts_that_make_a_twentieth_of_a_per_cent(strength: float, written: str) -> None:
    percent = mixed_strength(strength, *written_mix(written))
    assert Printed("0.05", WHO_G, "A").agrees(percent)
    assert Printed("500", WHO_G, "A").agrees(ppm_from_percent(percent))


def test_an_ounce_in_a_gallon() -> None:
    # 128 fluid ounces to the gallon. The print counts the ounce as part of the gallon: 410; on top of it
    # the same ounce gives 407. That is the difference a bare "1:128" hides.
    assert Printed("410", KANSAS, "A").agrees(ppm_from_percent(mixed_strength(5.25, 1, 127)))
    assert not Printed("410", KANSAS, "A").agrees(ppm_from_percent(mixed_strength(5.25, 1, 128)))


@pytest.mark.parametrize(("strength", "ppm"), [(5.25, "525"), (6.15, "615")])
def test_household_bleach_one_in_a_hundred(strength: float, ppm: str) -> None:
    assert Printed(ppm, f"{CDC_2008}, small spills", "B").agrees(ppm_from_percent(mixed_strength(strength, 1, 99)))


def test_household_bleach_one_in_five_hundred() -> None:
    # "more than 100 ppm", Table 1 (A).
    for strength in (5.25, 6.15):
        assert ppm_from_percent(mixed_strength(strength, 1, 499)) > 100


@pytest.mark.parametrize("ratio", ["1:100", "1:10"])
def test_ratios_that_public_bodies_read_in_two_ways(ratio: str) -> None:
    # WHO Annex G: 1:100 means 1 + 99 (A). Oregon health licensing office: 1:10 means 1 + 10 (A, archived).
    whole = int(ratio.split(":")[1])
    with pytest.raises(BareRatio) as refused:
        written_mix(ratio)
    assert f"'1 + {whole - 1}'" in refused.value.expected
    assert f"'1 + {whole}'" in refused.value.expected


def test_the_label_comes_before_the_published_tables() -> None:
    # Wiping at least 10 min, immersion 30 min (WHO Annex G, Table G.1, A);
    # at least 1 min (CDC 2008, Table 1, A).
    for table in (10, 30, 1):
        assert contact_time(5, table) == (5, "label")
        assert contact_time(None, table) == (table, "table")


# Per cent by weight and the mg/kg beside it; B in a translation, A where a second paper agrees.
@pytest.mark.parametrize(
    ("substances", "percent", "milligrams", "sure"),
    [
        ("Hg, Cd, Co, Cr(VI)", 0.00005, "0.5", "A"),
        ("Sb, As", 0.00005, "0.5", "B"),
        ("Ni", 0.0005, "5", "A"),
        ("Pb", 0.00007, "0.7", "A"),
        ("Se", 0.0002, "2", "B"),
        ("Ba soluble", 0.05, "500", "B"),
        ("Cu soluble", 0.025, "250", "B"),
        ("Zn soluble", 0.2, "2000", "B"),
        ("benzo[a]pyrene", 0.0000005, "0.005", "A"),
        ("each classified PAH", 0.00005, "0.5", "A"),
        ("each listed aromatic amine", 0.0005, "5", "B"),
    ],
)
def test_limits_of_inks(substances: str, percent: float, milligrams: str, sure: str) -> None:
    limit = Printed(milligrams, f"{APPENDIX_13}: {substances}", sure)
    assert limit.agrees(ppm_from_percent(percent))
    assert ppm_from_percent(percent) == pytest.approx(float(milligrams))
    assert percent_from_ppm(float(milligrams)) == pytest.approx(percent)
