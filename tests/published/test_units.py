"""Conversions of people's units against published factors."""

import pint
import pytest

from generator.quantities import from_canonical, parse, significant, to_canonical
from generator.units import KINDS, UNITS
from tests.published.printed import Document, Printed

SP_811 = Document("Guide for the Use of the SI, SP 811", "National Institute of Standards and Technology", 2008)
NIST, CELSIUS = SP_811.table("Appendix B.8", "B"), SP_811.at("Appendix B, degrees Fahrenheit", "B")
BIPM = Document("The International System of Units, 8th edition", "International Bureau of Weights and Measures", 2014)
SI = BIPM.table("Table 6")
SHIPPING = Document(
    "49 CFR 171.10, units of measure", "Pipeline and Hazardous Materials Safety Administration", 2025
).table("conversion factors", "B")
PINT_DEGREES = Document("Pint 0.24, temperature conversion", "The Pint developers", 2024).at("examples")
PINT_SPEED = Document("Pint 0.24, tutorial", "The Pint developers", 2024).at("converting to different units")
# The copies that were read name no year.
CSS = Document("CSS Values and Units Module Level 4", "World Wide Web Consortium", None).table("5.2, absolute lengths")
FTC = Document("16 CFR 500.19, conversion of SI metric quantities", "Federal Trade Commission", None).table("chart")
LETHAL_RATES = Document("Tables of lethal rates", "several pages", None).at("121.11 °C is 250 °F", "B")

BOIL, FREEZE = CELSIUS("100"), CELSIUS("0")
WARMER, WARMER_FAHRENHEIT = PINT_DEGREES("12.300"), PINT_DEGREES("22.140")


@pytest.mark.parametrize("printed", [CSS("2.54"), FTC("2.54")])
def test_an_inch_is_exact(printed: Printed) -> None:
    assert to_canonical(1, "in") == to_canonical(printed.number, "cm") == 25.4


def test_sixteen_ounces_are_a_pound() -> None:
    assert POUND.agrees(to_canonical(16, "oz") / to_canonical(1, "kg"))


POUND = NIST("0.4535924")


@pytest.mark.parametrize(("fahrenheit", "celsius"), [(32, FREEZE), (212, BOIL), (250, LETHAL_RATES("121.11"))])
def test_fahrenheit(fahrenheit: float, celsius: Printed) -> None:
    assert celsius.agrees(to_canonical(fahrenheit, "°F"))
    assert from_canonical(to_canonical(fahrenheit, "°F"), "°F") == pytest.approx(fahrenheit)


def test_a_difference_of_temperature_has_no_zero_point() -> None:
    difference = to_canonical(WARMER.number, "Δ°C")
    assert difference == WARMER.number
    assert WARMER_FAHRENHEIT.agrees(from_canonical(difference, "Δ°F"))


@pytest.mark.parametrize(
    ("value", "unit", "shown", "printed"),
    [
        (1, "in", "m", NIST("2.54E-02")),
        (1, "ft", "m", NIST("3.048E-01")),
        (1, "fl oz", "L", NIST("2.957353E-02")),
        (1, "oz", "kg", NIST("2.834952E-02")),
        (1, "min", "s", SI("60")),
        (1, "h", "min", SI("60")),
        (1, "h", "s", SI("3600")),
        (1, "L", "mL", SI("1000")),
        (25.4, "°C", "°F", PINT_DEGREES("77.720")),
        (180_000, "mm/min", "in/min", PINT_SPEED("7086.61417")),
        (1, "in", "cm", SHIPPING("2.540000")),
        (1, "ft", "m", SHIPPING("0.3048000")),
        (1, "cm", "in", SHIPPING("0.3937008")),
        (1, "m", "ft", SHIPPING("3.280840")),
        (1, "mm", "in", SHIPPING("0.03937008")),
        (1, "in", "mm", SHIPPING("25.40000")),
        # Its 0.03527397 oz to the gram is off in the last digit, and not checked.
        (1, "oz", "g", SHIPPING("28.34952")),
        (1, "mL", "fl oz", SHIPPING("0.03381402")),
        (1, "fl oz", "mL", SHIPPING("29.57353")),
        (1, "ft", "cm", FTC("30.48")),
        (1, "in²", "cm²", FTC("6.4516")),
        (1, "fl oz", "mL", FTC("29.5735")),
        (1, "oz", "g", FTC("28.3495")),
        (1, "mm", "in", FTC("0.039370")),
        (1, "cm", "in", FTC("0.393701")),
        (1, "m", "ft", FTC("3.28084")),
        (1, "cm²", "in²", FTC("0.155000")),
        (1, "mL", "fl oz", FTC("0.0338140")),
        (1, "g", "oz", FTC("0.0352740")),
    ],
)
def test_published_factors_both_ways(value: float, unit: str, shown: str, printed: Printed) -> None:
    assert printed.agrees(from_canonical(to_canonical(value, unit), shown))
    read = parse(f"{value} {unit.removeprefix('Δ')}", (KIND[unit],), None, spans=False)
    assert getattr(read, "value", None) == to_canonical(value, unit)


KIND = {unit: kind for unit, (kind, _) in UNITS.items()}


# Each unit as a library of units calls it, and the canonical unit of its kind.
CALLED = {
    "mm": "millimeter",
    "cm": "centimeter",
    "m": "meter",
    "µm": "micrometer",
    "in": "inch",
    "ft": "foot",
    "mm²": "millimeter**2",
    "cm²": "centimeter**2",
    "in²": "inch**2",
    "mm/s": "millimeter/second",
    "cm/s": "centimeter/second",
    "in/s": "inch/second",
    "Hz": "1/second",
    "strokes/s": "1/second",
    "strokes/min": "1/minute",
    "V": "volt",
    "s": "second",
    "min": "minute",
    "h": "hour",
    "days": "day",
    "weeks": "week",
    "months": "month",
    "years": "year",
    "%": "percent",
    "°C": "degree_Celsius",
    "°F": "degree_Fahrenheit",
    "K": "kelvin",
    "Δ°C": "delta_degree_Celsius",
    "Δ°F": "delta_degree_Fahrenheit",
    "mL": "milliliter",
    "L": "liter",
    "fl oz": "US_fluid_ounce",
    "gal": "US_liquid_gallon",
    "mg": "milligram",
    "g": "gram",
    "kg": "kilogram",
    "oz": "ounce",
    "m/s²": "meter/second**2",
    "mm/min": "millimeter/minute",
    "cm/min": "centimeter/minute",
    "in/min": "inch/minute",
    "mm²/min": "millimeter**2/minute",
    "cm²/min": "centimeter**2/minute",
    "in²/min": "inch**2/minute",
    "mL/mm²": "milliliter/millimeter**2",
    "mL/cm²": "milliliter/centimeter**2",
    "mL/in²": "milliliter/inch**2",
    "mg/mL": "milligram/milliliter",
    "°": "degree",
    "dpi": "1/inch",
    "lx": "lux",
}


def test_every_factor_is_the_one_of_a_library_of_units() -> None:
    """Pint, whose definitions follow CODATA and NIST; to nine digits, with the zero points of the temperatures."""
    # A drop is common practice and nobody's definition: twenty are a millilitre.
    assert CALLED.keys() == UNITS.keys() - {"drops"}
    assert to_canonical(20, "drops") == 1
    registry = pint.get_application_registry()
    wrong = []
    for unit, (kind, _) in ((unit, of) for unit, of in UNITS.items() if unit in CALLED):
        for number in (0.0, 1.0, 137.5):
            there = registry.Quantity(number, CALLED[unit])
            expected = there.to(CALLED[KINDS[kind][1]]).magnitude
            back = from_canonical(to_canonical(number, unit), unit)
            if (to_canonical(number, unit), back) != (significant(expected), pytest.approx(number, abs=1e-6)):
                wrong.append(f"{number} {unit}: {to_canonical(number, unit)}, expected {expected}")
    assert wrong == []
