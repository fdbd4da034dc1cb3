"""A0 and F0, which are heat over time, and a logged hold, against published examples."""

import math

import pytest

from generator.trade.sterilization import Sample, a0, f0, hold_against_cycle
from tests.published.printed import Document, Printed
from tests.published.test_disinfection import CDC_2008

EFHSS = Document(
    "Questions and Answers Q00473, Disinfection temperature", "European Forum for Hospital Sterile Supply", 2004
).at("answer of 25 May")
HBV = Document(
    "The heat stability of hepatitis B virus, Frontiers in Cellular and Infection Microbiology 10, 32",
    "Steinmann, Steinmann and Steinmann",
    2020,
).at("abstract")
F0 = Document("F0 value calculation", "Pharmacalculation", 2023).at("examples")
TABLE_7 = CDC_2008.table("Table 7")
# The copies that were read name no year.
REICHERT = Document("Lethal rates after Reichert", "a table on another page", None).table("figures truncated", "B")
CSC = Document("Principles of Medical Device Decontamination", "Central Sterilising Club", None).table("Table 10.2")
OTHER_REFERENCE = Document("Fo value", "an upload on a page of documents", None).at("example")

ENOUGH, FLOOR = EFHSS("600"), EFHSS("65")


# The same input, by what the answer prints: minutes at a temperature.
@pytest.mark.parametrize(("temperature", "minutes"), [(80, EFHSS("10")), (90, EFHSS("1")), (70, EFHSS("100"))])
def test_a0_of_600(temperature: float, minutes: Printed) -> None:
    assert ENOUGH.agrees(a0([Sample(minutes.number * 60, temperature)]))


def test_a0_is_the_seconds_at_eighty_degrees() -> None:
    assert ENOUGH.agrees(a0([Sample(ENOUGH.number, 80)]))


def test_a0_counts_only_above_65_degrees() -> None:
    assert a0([Sample(600, FLOOR.number - 0.5)]) == 0
    assert a0([Sample(600, FLOOR.number)]) == 0
    assert a0([Sample(600, FLOOR.number + 0.5)]) > 0


@pytest.mark.parametrize(("minutes", "printed"), [(5, HBV("3000")), (10, HBV("6000"))])
def test_a0_at_ninety_degrees(minutes: float, printed: Printed) -> None:
    assert printed.agrees(a0([Sample(minutes * 60, 90)]))


@pytest.mark.parametrize(
    ("temperature", "minutes", "reference", "printed"),
    [(121.1, 30, 121.1, F0("30")), (110, 30, 121.1, F0("2.33")), (111, 15, 121, OTHER_REFERENCE("1.5"))],
)
def test_f0(temperature: float, minutes: float, reference: float, printed: Printed) -> None:
    assert printed.agrees(f0([Sample(minutes, temperature)], reference, z=10))


@pytest.mark.parametrize(
    ("temperature", "rate"), [(110, REICHERT("0.077")), (121, REICHERT("0.974")), (126, REICHERT("3.082"))]
)
def test_lethal_rates(temperature: float, rate: Printed) -> None:
    # The reference is 250 °F, printed as 121.11 °C; with the rounded figure 126 °C would read 3.083.
    computed = f0([Sample(1, temperature)], reference=(250 - 32) / 1.8, z=10)
    digit = 2 * rate.tolerance
    assert rate.agrees(math.floor(computed / digit) * digit)


# Temperature, minutes; the upper limits 124, 129 and 137 °C are HTM 01-01 from memory, 132 °C is given the band of
# 3 °C that the others have.
CYCLES = [
    (121, TABLE_7("30"), 124),  # gravity, wrapped instruments
    (132, TABLE_7("15"), 135),  # the same
    (132, TABLE_7("25"), 135),  # gravity, textile packs
    (132, TABLE_7("4"), 135),  # dynamic air removal
    (134, CSC("3"), 137),
    (126, CSC("10"), 129),
    (121, CSC("15"), 124),
]


@pytest.mark.parametrize(("temperature", "minutes", "upper_limit"), CYCLES)
def test_holds_of_published_cycles(temperature: float, minutes: Printed, upper_limit: float) -> None:
    hold = int(minutes.literal)
    full = [Sample(1, 100), *[Sample(1, temperature + 1)] * hold, Sample(1, 100)]
    found = hold_against_cycle(full, temperature, hold, upper_limit)
    assert minutes.agrees(found.minutes)
    assert found.long_enough
    assert not found.over_the_band
    assert not hold_against_cycle(full[2:], temperature, hold, upper_limit).long_enough
    hot = [*full[:2], Sample(0.5, upper_limit + 0.1), *full[2:]]
    assert hold_against_cycle(hot, temperature, hold, upper_limit).over_the_band
