"""Conversions of people's units against published factors, and the texts that unit parsers misread."""

import pint
import pytest

from generator.quantities import Mistake, from_canonical, parse, significant, to_canonical
from generator.units import KINDS, UNITS
from tests.published.printed import Printed

NIST = "NIST SP 811, 2008, Appendix B"
CSS = "W3C, CSS Values and Units: 1in = 96px = 25.4mm = 72pt"


def test_an_inch_is_exact() -> None:
    assert to_canonical(1, "in") == float(Printed("25.4", NIST, "B").literal)
    assert to_canonical(1, "in") == float(Printed("25.4", CSS, "A").literal)


def test_fluid_ounce() -> None:
    assert Printed("29.5735", NIST, "B").agrees(to_canonical(1, "fl oz"))


def test_sixteen_ounces_are_a_pound() -> None:
    assert Printed("0.4535924", NIST, "B").agrees(to_canonical(16, "oz") / to_canonical(1, "kg"))


@pytest.mark.parametrize(
    ("fahrenheit", "celsius"),
    [
        (32, Printed("0.00", NIST + ": °C = (°F − 32)/1.8", "B")),
        (212, Printed("100.00", NIST + ": °C = (°F − 32)/1.8", "B")),
        (250, Printed("121.11", "tables of lethal rates: 121.11 °C is 250 °F", "B")),
    ],
)
def test_fahrenheit(fahrenheit: float, celsius: Printed) -> None:
    assert celsius.agrees(to_canonical(fahrenheit, "°F"))
    assert from_canonical(to_canonical(fahrenheit, "°F"), "°F") == pytest.approx(fahrenheit)


def test_strokes_are_not_revolutions() -> None:
    assert Printed("100", "6000 strokes a minute are 100 a second, not 628 (radians)", "C").agrees(
        to_canonical(6000, "strokes/min")
    )


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("7RL", "volume"),  # seven ronnalitres
        ("0,30 mm", "length"),  # nothing
        ("1,5 mm", "length"),  # fifteen
        ("≥5 mm", "length"),  # five
        ("20 C", "temperature"),  # coulomb
        ("1 pt", "volume"),  # a pint
        ("nan mm", "length"),
        ("6000 rpm", "frequency"),  # radians
    ],
)
def test_what_unit_parsers_read_wrongly_in_silence_is_a_mistake_here(text: str, kind: str) -> None:
    assert isinstance(parse(text, (kind,), None, spans=True), Mistake)


def test_a_range_with_a_dash_is_a_range_and_a_fluid_ounce_a_volume() -> None:
    thickness = parse("0.25–0.30 mm", ("length",), None, spans=True)
    assert not isinstance(thickness, Mistake)
    assert (thickness.low, thickness.high) == (0.25, 0.3)
    ounce = parse("1 fl oz", ("volume",), None, spans=False)
    assert not isinstance(ounce, Mistake)
    assert Printed("29.5735", NIST, "B").agrees(ounce.value)


RULE = "Federal Trade Commission, 16 CFR 500.19, chart of conversion factors, read in a copy that names no year"
GUIDE = "NIST SP 811, 2008, Appendix B, as quoted by others"


@pytest.mark.parametrize(
    ("value", "unit", "shown", "printed"),
    [
        (1, "in", "cm", Printed("2.54", RULE, "A")),
        (1, "ft", "cm", Printed("30.48", RULE, "A")),
        (1, "in²", "cm²", Printed("6.4516", RULE, "A")),
        (1, "fl oz", "mL", Printed("29.5735", RULE, "A")),
        (1, "oz", "g", Printed("28.3495", RULE, "A")),
        (1, "mm", "in", Printed("0.039370", RULE, "A")),
        (1, "cm", "in", Printed("0.393701", RULE, "A")),
        (1, "m", "ft", Printed("3.28084", RULE, "A")),
        (1, "cm²", "in²", Printed("0.155000", RULE, "A")),
        (1, "mL", "fl oz", Printed("0.0338140", RULE, "A")),
        (1, "g", "oz", Printed("0.0352740", RULE, "A")),
        (1, "ft", "m", Printed("0.3048", GUIDE, "B")),
        (1, "fl oz", "mL", Printed("29.57353", GUIDE, "B")),
        (1, "h", "s", Printed("3600", GUIDE, "B")),
        (1, "in", "m", Printed("0.0254", GUIDE, "B")),
    ],
)
def test_published_factors_both_ways(value: float, unit: str, shown: str, printed: Printed) -> None:
    assert printed.agrees(from_canonical(to_canonical(value, unit), shown))


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
    assert CALLED.keys() == UNITS.keys()
    registry = pint.get_application_registry()
    wrong = []
    for unit, (kind, _) in UNITS.items():
        for number in (0.0, 1.0, 137.5):
            there = registry.Quantity(number, CALLED[unit])
            expected = there.to(CALLED[KINDS[kind][1]]).magnitude
            back = from_canonical(to_canonical(number, unit), unit)
            if (to_canonical(number, unit), back) != (significant(expected), pytest.approx(number, abs=1e-6)):
                wrong.append(f"{number} {unit}: {to_canonical(number, unit)}, expected {expected}")
    assert wrong == []
