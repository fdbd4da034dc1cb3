"""Quantities: what people write, what parsers elsewhere make of it, conversions, and what is shown."""

from __future__ import annotations

import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.quantities import (
    Mistake,
    Quantity,
    end_as_typed,
    from_canonical,
    in_both,
    parse,
    shown,
    shown_in,
    significant,
    to_canonical,
    within,
    written,
)
from generator.units import CHOICES, DECIMALS, KINDS, OWN_UNITS, READ_AS, SPELLINGS, SYSTEMS, UNITS, bands

EVERY_KIND = tuple(KINDS)


def read(text: str, *kinds: str, spans: bool = True) -> Quantity:
    parsed = parse(text, kinds or EVERY_KIND, None, spans)
    assert isinstance(parsed, Quantity), parsed
    return parsed


def mistake(text: str, *kinds: str, spans: bool = True) -> Mistake:
    parsed = parse(text, kinds or EVERY_KIND, None, spans)
    assert isinstance(parsed, Mistake), parsed
    for repair in parsed.repairs:
        assert isinstance(parse(repair, kinds or EVERY_KIND, None, spans), Quantity), repair
    return parsed


# What unit parsers read wrongly and silently, each as its own case.


def test_a_needle_label_is_not_a_quantity() -> None:  # elsewhere 7 ronnalitres
    assert mistake("7RL", "volume").code == "Q204"
    assert mistake("7RL", "length").code == "Q204"


def test_a_decimal_comma_is_not_nothing() -> None:  # elsewhere 0 mm
    found = mistake("0,30 mm", "length")
    assert (found.code, found.repairs) == ("Q205", ("0.30 mm",))


def test_a_decimal_comma_is_not_left_out() -> None:  # elsewhere 15 mm
    found = mistake("1,5 mm", "length")
    assert (found.code, found.repairs) == ("Q205", ("1.5 mm",))


def test_a_comma_before_three_digits_is_said_to_have_two_meanings() -> None:
    assert mistake("1,500 mm", "length").repairs == ("1.500 mm", "1500 mm")
    assert mistake("0,500 mm", "length").repairs == ("0.500 mm",)


def test_a_range_with_a_dash_is_not_a_difference() -> None:  # elsewhere 0.075 mm
    for text in ("0.25–0.30 mm", "0.25-0.30 mm", "0.25 - 0.30 mm", "0.25 to 0.30 mm", "0.25 mm – 0.30 mm"):
        assert (read(text, "length").low, read(text, "length").high) == (0.25, 0.3)


def test_a_comparison_is_not_a_value() -> None:  # elsewhere 5 mm
    found = mistake("≥5 mm", "length")
    assert (found.code, found.repairs) == ("Q210", ("5 mm",))


@pytest.mark.parametrize("hedge", ["<", "> ", "≤", "~", "≈ ", "±", "about ", "ca. ", "up to ", "at least ", "max "])
def test_every_hedge_is_taken_off_in_the_repair(hedge: str) -> None:
    assert mistake(f"{hedge}5 mm", "length").repairs == ("5 mm",)


def test_c_is_not_coulomb() -> None:  # elsewhere 20 coulomb
    found = mistake("20 C", "temperature")
    assert (found.code, found.repairs) == ("Q204", ("20 °C",))


def test_pt_is_not_a_pint() -> None:
    assert mistake("1 pt", "volume").code == "Q204"
    assert mistake("1 pt", "length").code == "Q204"


def test_fl_oz_is_one_unit() -> None:  # elsewhere femtolitre-ounces
    assert read("1 fl oz", "volume").value == pytest.approx(29.5735, abs=5e-5)


@pytest.mark.parametrize("text", ["nan mm", "NaN mm", "inf mm", "-inf mm", ".nan mm", "1e3 mm", "0x10 mm"])
def test_what_is_not_a_plain_number_is_refused(text: str) -> None:
    assert mistake(text, "length").code == "Q209"


def test_revolutions_are_not_strokes() -> None:  # elsewhere 628 Hz, in radians
    found = mistake("6000 rpm", "frequency")
    assert (found.code, found.repairs) == ("Q204", ("6000 strokes/min", "6000 Hz"))
    assert read("6000 strokes/min", "frequency").value == 100
    assert read("6000 strokes/min", "frequency") == read("100 Hz", "frequency")


def test_degrees_celsius_are_read() -> None:  # elsewhere an error about offset units
    assert read("20 °C", "temperature").value == 20
    assert read("68 °F", "temperature") == read("20 °C", "temperature")
    assert mistake("20 degC", "temperature").code == "Q204"


# The grammar.


def test_a_missing_unit_is_never_guessed() -> None:
    assert mistake("4", "length").repairs == ("4 mm",)
    assert mistake("95", "frequency", "voltage").repairs == ("95 Hz", "95 V")
    assert mistake("90–100", "frequency").repairs == ("90–100 Hz",)


def test_another_kind_of_unit() -> None:
    assert mistake("4 Hz", "length").code == "Q203"
    assert mistake("4 mm – 5 Hz", "length", "frequency").code == "Q203"


def test_a_range_needs_a_place_for_one() -> None:
    found = mistake("2–4 mm", "length", spans=False)
    assert (found.code, found.repairs) == ("Q207", ("2 mm", "4 mm"))


def test_a_range_that_runs_backwards() -> None:
    assert mistake("4–2 mm", "length").repairs == ("2–4 mm",)
    assert mistake("1 cm – 5 mm", "length").repairs == ("5 mm – 1 cm",)


def test_a_range_may_end_where_it_begins() -> None:
    assert (read("2–2 mm", "length").low, read("2–2 mm", "length").high) == (2, 2)


def test_the_middle_of_a_range_and_the_unit_of_its_kind() -> None:
    found = read("2–5 cm", "length")
    assert (found.low, found.middle, found.high, found.unit) == (20, 35, 50, "mm")
    assert read("20 °C", "temperature").middle == 20


def test_a_space_stands_before_the_unit() -> None:
    assert mistake("4mm", "length").repairs == ("4 mm",)


@pytest.mark.parametrize(
    "text", ["", "mm", "four mm", "4 4 mm", "4.5.6 mm", "+4 mm", "1/2 mm", "1-1/2 in", "1/0 in", "4;5 mm", "–", "4 –"]
)
def test_what_is_no_number_with_a_unit(text: str) -> None:
    assert mistake(text, "length").code in ("Q201", "Q204")


def test_a_fraction_is_offered_as_a_decimal() -> None:
    assert mistake("1/4 mm", "length").repairs == ("0.25 mm",)
    assert mistake("2-3/8 in", "length").repairs == ("2.375 in",)


def test_groups_of_thousands_are_offered_in_one_piece() -> None:
    assert mistake("1 500 mm", "length").repairs == ("1500 mm",)


def test_capitals_are_offered_as_the_unit_they_resemble() -> None:
    assert mistake("95 HZ", "frequency").repairs == ("95 Hz",)
    assert mistake("4 MM", "length").repairs == ("4 mm",)
    assert mistake("90–95 HZ", "frequency").repairs == ("90–95 Hz",)


@pytest.mark.parametrize("space", ["\u00a0", "\u202f", "\u2009", "  ", "\t"])
def test_any_space_is_a_space(space: str) -> None:
    assert read(f"4{space}mm", "length").value == 4


@pytest.mark.parametrize("dash", "-‐‑–—−")
def test_any_dash_is_a_dash(dash: str) -> None:
    assert (read(f"2{dash}4 mm", "length").low, read(f"2{dash}4 mm", "length").high) == (2, 4)


def test_a_minus_is_kept() -> None:
    assert read("−5 °C", "temperature").value == -5
    assert (read("-5–3 °C", "temperature").low, read("-5–3 °C", "temperature").high) == (-5, 3)


@pytest.mark.parametrize("spelling", SPELLINGS)
def test_other_spellings_are_units_of_the_list(spelling: str) -> None:
    assert read(f"2 {spelling}") == read(f"2 {SPELLINGS[spelling]}")


@given(st.text(max_size=30))
def test_no_text_makes_it_fail(text: str) -> None:
    for spans in (True, False):
        parsed = parse(text, EVERY_KIND, None, spans)
        if isinstance(parsed, Quantity):
            assert parsed.low <= parsed.high
        else:
            assert all(isinstance(parse(r, EVERY_KIND, None, spans), Quantity) for r in parsed.repairs)


@given(st.from_regex(r"-?\d{1,3}[.,]?\d{0,2} ?(-|–| to |)\d{0,3} ?(mm|Hz|V|cm|rpm|)", fullmatch=True))
def test_what_resembles_a_quantity_is_one_or_is_explained(text: str) -> None:
    parsed = parse(text, ("length", "frequency"), None, True)
    assert isinstance(parsed, Quantity) or (parsed.message and parsed.help and parsed.found == f"“{text}”")


def test_what_the_program_writes_itself_has_to_be_right() -> None:
    with pytest.raises(ValueError, match="4 parsecs"):
        written("4 parsecs")


# Conversions.


@pytest.mark.parametrize("unit", UNITS)
@given(number=st.floats(1e-3, 1e6))
def test_conversions_round_trip(unit: str, number: float) -> None:
    assert from_canonical(to_canonical(number, unit), unit) == pytest.approx(number, rel=1e-7, abs=1e-6)


PUBLISHED = [
    (1, "in", 25.4, "mm", "NIST SP 811 and CSS Values and Units: exactly 25.4 mm"),
    (1, "ft", 304.8, "mm", "NIST SP 811: exactly 0.3048 m"),
    (1, "in²", 645.16, "mm²", "NIST SP 811: exactly 6.4516 E-04 m²"),
    (212, "°F", 100, "°C", "NIST SP 811: (°F − 32)/1.8"),
    (32, "°F", 0, "°C", "NIST SP 811: (°F − 32)/1.8"),
    (1, "fl oz", 29.57353, "mL", "NIST SP 811: 2.957353 E-05 m³"),
    (1, "oz", 28.34952, "g", "NIST SP 811: 2.834952 E-02 kg"),
    (6000, "strokes/min", 100, "Hz", "a minute has sixty seconds"),
    (2, "years", 24, "months", "the calendar"),
    (4, "weeks", 28, "days", "the calendar"),
]


@pytest.mark.parametrize(("number", "unit", "value", "canonical", "source"), PUBLISHED)
def test_published_conversions(number: float, unit: str, value: float, canonical: str, source: str) -> None:
    assert KINDS[UNITS[unit][0]][1] == canonical
    assert to_canonical(number, unit) == pytest.approx(value, rel=2e-7), source


def test_both_systems_give_the_same_value() -> None:
    assert read("1 in") == read("25.4 mm") == read("2.54 cm")
    assert read("0.013 in") == read("0.3302 mm")
    assert read("1 in/min") == read("2.54 cm/min")
    assert read("1 in²") == read("6.4516 cm²")


@given(st.integers(1, 99_999))
def test_thousandths_of_an_inch_are_exact_after_nine_digits(thousandths: int) -> None:
    inches = read(f"{thousandths / 1000:.3f} in").value
    assert inches == read(f"{thousandths * 254 / 10000:.4f} mm").value


def test_canonical_units_are_units_of_their_kind_and_every_kind_is_shown() -> None:
    for kind, (_, unit) in KINDS.items():
        assert UNITS[unit][0] == READ_AS.get(kind, kind)
        assert to_canonical(1, unit) == 1
        for shows in (*SYSTEMS.values(), *({kind: choice} for choice in CHOICES.get(kind, ()))):
            fitting = bands(kind, shows)
            assert {UNITS[unit][0] for _, unit in fitting} == {READ_AS.get(kind, kind)}
            for steps in (fitting, *(DECIMALS[unit] for _, unit in fitting)):
                assert steps[-1][0] == math.inf
                assert [s[0] for s in steps] == sorted(s[0] for s in steps)


def test_nine_digits_are_kept() -> None:
    assert significant(1.23456789) == significant(1.234567891) == 1.23456789


# A difference of temperature has no zero point.


@pytest.mark.parametrize(
    ("celsius", "fahrenheit"),
    [("10 °C", "18 °F"), ("5 °C", "9 °F"), ("0.5 °C", "0.9 °F"), ("100 °C", "180 °F"), ("−10 °C", "−18 °F")],
)
def test_a_difference_of_temperature_converts_as_one(celsius: str, fahrenheit: str) -> None:
    """NIST SP 811, Appendix B.8: an interval of 1 °C is one of 1.8 °F and of 1 K."""
    found = read(celsius, "temperature difference")
    assert found == read(fahrenheit, "temperature difference") == read(celsius.replace("°C", "K"))
    assert in_both(found.low, found.high, found.kind, "metric").replace("\u00a0", " ") == f"{celsius} ({fahrenheit})"
    assert in_both(found.low, found.high, found.kind, "imperial").replace("\u00a0", " ") == f"{fahrenheit} ({celsius})"


def test_a_difference_of_temperature_is_shown_to_a_tenth() -> None:
    assert shown(3.4567, 3.4567, "temperature difference", "metric") == "3.5\u00a0°C"
    assert shown(3.4567, 3.4567, "temperature difference", "imperial") == "6.2\u00a0°F"


def test_a_field_of_differences_says_its_units_as_people_write_them() -> None:
    found = mistake("10", "temperature difference")
    assert found.repairs == ("10 °C",)
    assert mistake("10°C", "temperature difference").repairs == ("10 °C",)
    assert mistake("5–8 °C", "temperature difference", spans=False).repairs == ("5 °C", "8 °C")
    assert "Δ" not in mistake("10 mm", "temperature difference").help
    assert mistake("4 K", "temperature").code == "Q203"


# What is shown.


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("121.1 °C", "121.1 °C (250 °F)"),
        ("121.11 °C", "121.11 °C (250 °F)"),
        ("95.5 Hz", "95.5 Hz"),
        ("24.25 mm", "24.25 mm (15/16 in)"),
        ("240.5 mm", "240.5 mm (9 7/16 in)"),
        ("10.25–24.5 mm", "10.25–24.5 mm (3/8–15/16 in)"),
        ("0.013 in", "0.33 mm (0.013 in)"),
        ("33.8 fl oz", "1000 mL (33.8 fl oz)"),
        ("33.81 fl oz", "1000 mL (33.81 fl oz)"),
        ("5710 strokes/min", "5710 strokes/min"),
        ("1.25 L", "1250 mL (42.3 fl oz)"),
        ("6.55 V", "6.55 V"),
        ("12.5 %", "12.5 %"),
        ("0 cm", "0 mm"),
        # Four decimals more than usual are shown; what would take more stays as it was written.
        ("0.0123456 cm", "0.123456 mm"),
        ("0.01234567 cm", "0.01234567 cm"),
    ],
)
def test_what_was_typed_loses_no_digit(text: str, words: str) -> None:
    found = read(text)
    assert in_both(found.low, found.high, found.kind, "metric", text).replace("\u00a0", " ") == words


def test_a_unit_of_both_systems_loses_no_digit_in_either() -> None:
    assert {shown(95.5, 95.5, "frequency", of, "95.5 Hz") for of in ("metric", "imperial")} == {"95.5\u00a0Hz"}


@pytest.mark.parametrize(
    ("text", "metric", "imperial"),
    [
        ("0.35 mm", "0.35 mm", "0.35 mm"),
        ("3.5 mm", "3.5 mm", "3.5 mm"),
        ("4 mm", "4 mm", "4 mm"),
        ("0.999 mm", "1 mm", "1 mm"),
        ("130 mm", "130 mm", "5 1/8 in"),
        ("2–4 mm", "2–4 mm", "2–4 mm"),
        ("20 °C", "20 °C", "68 °F"),
        ("-5 °C", "−5 °C", "23 °F"),
        ("1 fl oz", "30 mL", "1 fl oz"),
        ("168 g", "168 g", "5.9 oz"),
        ("12 cm²", "12 cm²", "1.9 in²"),
        ("95 Hz", "95 Hz", "95 Hz"),
        ("6.5 V", "6.5 V", "6.5 V"),
        ("0.5 %", "0.5 %", "0.5 %"),
        ("0.30 mm", "0.30 mm", "0.30 mm"),
        ("4 h", "240 min", "240 min"),
    ],
)
def test_shown_in_both_systems_as_the_trade_rounds(text: str, metric: str, imperial: str) -> None:
    quantity = read(text)
    for system, expected in (("metric", metric), ("imperial", imperial)):
        assert shown(quantity.low, quantity.high, quantity.kind, system).replace("\u00a0", " ") == expected


@pytest.mark.parametrize(
    ("typed", "shown_as"),
    [
        # Just below and just above each limit of the table, with more decimals than are shown.
        ("0.3456 0.9944 1.0444 19.444 20.444 mm", "0.35 0.99 1 19.4 20"),
        ("0.3456 20.4567 cm", "0.3 20.5"),
        ("0.06666 0.09944 0.10066 1.9444 2.0666 in", "0.067 0.099 0.10 1.94 2.1"),
        ("0.3456 9.9444 10.444 cm²", "0.3 9.9 10"),
        ("0.3456 0.9944 1.0666 in²", "0.35 0.99 1.1"),
        ("0.3456 19.444 20.444 mm/s", "0.3 19.4 20"),
        ("0.3456 20.4567 in/s", "0.35 20.46"),
        ("36.6666 °C", "36.7"),
        ("98.6666 °F", "98.7"),
        ("0.3456 0.9944 1.0444 19.444 20.444 mL", "0.35 0.99 1 19.4 20"),
        ("0.06666 0.09944 0.10066 1.9444 2.0666 fl oz", "0.067 0.099 0.1 1.94 2.1"),
        ("0.3456 20.4567 gal", "0.35 20.46"),
        ("0.3456 19.444 20.444 g", "0.3 19.4 20"),
        ("0.06666 0.09944 0.10066 2.0666 oz", "0.067 0.099 0.1 2.1"),
        ("0.3456 20.4567 cm/min", "0.3 20.5"),
        ("0.3456 20.4567 in/min", "0.3 20.5"),
        ("0.3456 20.4567 cm²/min", "0.35 20.46"),
        ("0.3456 20.4567 in²/min", "0.35 20.46"),
        ("0.3456 20.4567 mL/cm²", "0.346 20.457"),
        ("0.3456 20.4567 mL/in²", "0.35 20.46"),
        ("95.4567 Hz", "95"),
        ("6.5456 V", "6.5"),
        ("0.3456 0.9944 1.0444 9.9444 10.444 min", "0.35 0.99 1 9.9 10"),
        ("3.4567 days", "3"),
        ("3.4567 months", "3"),
        ("0.34567 0.99444 1.00666 9.9944 10.444 %", "0.346 0.994 1.01 9.99 10"),
        ("2.5456 m/s²", "2.5"),
        ("3.4567 mg/mL", "3"),
        ("3.4567 °", "3"),
        ("203.4567 dpi", "203"),
        ("1000.4567 lx", "1000"),
    ],
)
def test_how_many_decimals_each_unit_is_shown_with(typed: str, shown_as: str) -> None:
    numbers = re.findall(r"[\d.]+ ", typed)
    unit = typed.removeprefix("".join(numbers))
    # Inches are shown in decimals where they are no body and no paper; a tape has its own table.
    kind = {"in": "needle length"}.get(unit, UNITS[unit][0])
    found = [read(number + unit, kind) for number in numbers]
    words = [shown_in(unit, one.low, one.high, one.kind).replace("\u00a0", "") for one in found]
    assert [word.removesuffix(unit) for word in words] == shown_as.split()


def test_number_and_unit_are_never_parted_at_the_end_of_a_line() -> None:
    assert shown(4, 4, "length", "metric") == "4\u00a0mm"
    assert shown(35, 35, "angle", "metric") == "35°"


def test_the_other_system_stands_beside_the_first() -> None:
    assert in_both(8, 8, "length", "metric").replace("\u00a0", " ") == "8 mm (5/16 in)"
    assert in_both(8, 8, "length", "imperial").replace("\u00a0", " ") == "5/16 in (8 mm)"
    assert in_both(4, 4, "length", "imperial").replace("\u00a0", " ") == "4 mm"
    assert in_both(95, 95, "frequency", "imperial").replace("\u00a0", " ") == "95 Hz"


def test_a_range_that_rounds_to_one_value_is_shown_as_one() -> None:
    assert shown(100.2, 100.3, "length", "metric") == "100\u00a0mm"
    assert shown(-0.02, -0.02, "temperature", "metric") == "0\u00a0°C"


@pytest.mark.parametrize(
    ("low", "high", "kind", "system", "words"),
    [
        (50, 120, "area rate", "metric", "0.5–1.2 cm²/min"),
        (5, 10, "hand speed", "imperial", "0.20–0.39 in/s"),
        (5.5, 11, "hand speed", "metric", "5.5–11 mm/s"),
        (0.3, 0.3, "length", "metric", "0.30 mm"),
        (0.3, 0.35, "length", "metric", "0.30–0.35 mm"),
        (0.8, 1.2, "length", "metric", "0.8–1.2 mm"),
        (0.05, 0.05, "share", "metric", "0.05 %"),
        (2, 4, "length", "metric", "2–4 mm"),
        # From 20 mm on none is shown, and the upper end decides.
        (12.3, 19.5, "length", "metric", "12.3–19.5 mm"),
        (12.3, 20, "length", "metric", "12–20 mm"),
    ],
)
def test_the_ends_of_a_range_look_even(low: float, high: float, kind: str, system: str, words: str) -> None:
    """Below one both ends carry as many decimals; from one on no nought is kept. A needle stays 0.30 mm."""
    assert shown(low, high, kind, system).replace("\u00a0", " ") == words


# What an American studio reads and shows.


@pytest.mark.parametrize(
    ("text", "kind", "words"),
    [
        # A needle, a stroke and a hang-out are in millimetres, however they were typed.
        ("0.35 mm", "needle length", "0.35 mm"),
        ("3.5 mm", "needle length", "3.5 mm"),
        ("12 mm", "needle length", "12 mm"),
        # Body and paper in the parts of a tape; what is smaller than they can tell is in millimetres.
        ("6.3 mm", "length", "6.3 mm"),
        ("6.4 mm", "length", "1/4 in"),
        ("100 mm", "length", "3 15/16 in"),
        # 11.94 inches in sixteenths, 12.31 in eighths.
        ("303.2 mm", "length", "11 15/16 in"),
        ("312.7 mm", "length", "12 1/4 in"),
        ("90–140 mm", "length", "3 9/16–5 1/2 in"),
        ("5 1/8 in", "length", "5 1/8 in"),
        ("5.125 in", "length", "5 1/8 in"),
        ("3/32 in", "length", "3/32 in"),
        ("1/8–1/4 in", "length", "1/8–1/4 in"),
        ("5 1/8 to 5 3/4 in", "length", "5 1/8–5 3/4 in"),
        ("5.3 in", "length", "5.3 in"),
        # A 64th has six decimals, and of 100 inches and one the last of them in millimetres are not kept.
        ("5.078125 in", "length", "5 5/64 in"),
        ("100 1/64 in", "length", "100 1/64 in"),
        # From 12 inches on a tape shows eighths, and the upper end decides: 3.94 inches are 3 7/8.
        ("100–304.8 mm", "length", "3 7/8–12 in"),
        ("0–130 mm", "length", "0–5 1/8 in"),
        ("3 ft", "length", "3 ft"),
        # Volumes in what the measure shows.
        ("0.25 mL", "volume", "5 drops"),
        ("4 drops", "volume", "4 drops"),
        ("2.5 drops", "volume", "2.5 drops"),
        ("40 drops", "volume", "2 mL"),
        ("1 mL", "volume", "1 mL"),
        ("14.5 mL", "volume", "14.5 mL"),
        ("15.5 mL", "volume", "0.52 fl oz"),
        ("1 fl oz", "volume", "1 fl oz"),
        ("0.25 fl oz", "volume", "0.25 fl oz"),
        ("0.5 gal", "volume", "0.5 gal"),
        ("1/2 gal", "volume", "1/2 gal"),
        ("1 L", "volume", "33.8 fl oz"),
    ],
)
def test_an_imperial_studio_shows_each_kind_in_the_units_of_the_trade(text: str, kind: str, words: str) -> None:
    """Common practice; an inch is 25.4 mm and a fluid ounce 29.57353 mL (NIST SP 811)."""
    found = read(text, kind)
    assert shown(found.low, found.high, found.kind, "imperial", text).replace("\u00a0", " ") == words


@pytest.mark.parametrize(
    ("own", "low", "kind", "words"),
    [
        ({"length": "cm"}, 320, "length", "32 cm"),
        ({"length": "cm"}, 9.5, "length", "9.5 mm"),
        ({"length": "cm"}, 10, "length", "1 cm"),
        ({"length": "cm"}, 10.4, "length", "1 cm"),
        ({"needle length": "in"}, 0.35, "needle length", "0.014 in"),
        ({"volume": "mL"}, 0.25, "volume", "0.25 mL"),
        ({"volume": "drops"}, 0.25, "volume", "5 drops"),
        ({"volume": "drops"}, 1000, "volume", "1000 mL"),
        ({"temperature": "°C"}, 121.1, "temperature", "121.1 °C"),
    ],
)
def test_each_kind_can_be_shown_in_another_unit(own: dict[str, str], low: float, kind: str, words: str) -> None:
    assert shown(low, low, kind, {**SYSTEMS["imperial"], **own}).replace("\u00a0", " ") == words
    assert in_both(low, low, kind, {**SYSTEMS["metric"], **own}).replace("\u00a0", " ").startswith(words)


def test_the_sets_are_made_of_what_a_studio_may_choose() -> None:
    assert {kind for kinds in OWN_UNITS.values() for kind in kinds} <= set(CHOICES)
    for shows in SYSTEMS.values():
        assert all(shows[kind] in choices for kind, choices in CHOICES.items())
    assert SYSTEMS["metric"]["needle length"] == SYSTEMS["imperial"]["needle length"] == "mm"


def test_gallons_are_read() -> None:
    """NIST SP 811: a gallon of the United States is 3.785412 E-03 m³, which is 128 fluid ounces."""
    assert read("1 gal", "volume").value == pytest.approx(3785.412, abs=5e-4)
    assert read("1 gallon", "volume") == read("128 fl oz", "volume")
    assert read("2 gallons", "volume") == read("2 gal", "volume")


@pytest.mark.parametrize("ounces", ["oz", "ounce", "ounces", "oz.", "fl. oz."])
def test_ounces_of_a_volume_are_offered_as_fluid_ounces(ounces: str) -> None:
    found = mistake(f"4 {ounces}", "volume")
    assert found.repairs == ("4 fl oz",)
    assert mistake(f"4–8 {ounces}", "volume").repairs == ("4–8 fl oz",)


def test_a_half_behind_a_dash_is_asked_about() -> None:
    """1-1/2 may be one and a half, or the end of a range."""
    assert mistake("1-1/2 in", "length").repairs == ("1.5 in",)


@pytest.mark.parametrize(
    ("value", "end", "inside"),
    [
        # 10–20 mm is shown as 3/8–13/16 in, which are 9.525 mm and 20.6375 mm.
        (9.525, 10, True),
        (20.6375, 20, True),
        (10, 10, True),
        (20, 20, True),
        (15, 15, True),
        (9.52, 9.52, False),
        (20.64, 20.64, False),
    ],
)
def test_the_end_of_a_range_may_be_typed_as_it_is_shown(value: float, end: float, inside: bool) -> None:
    assert (end_as_typed(value, 10, 20, "length"), within(value, 10, 20, "length")) == (end, inside)
