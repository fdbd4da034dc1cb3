"""Quantities typed in a sentence: what is found, and above all what is not."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.press.manual.number_words import meant, typed_numbers, typed_quantities
from generator.quantities import written

TYPED = {
    "Wait 15 min.": "15 min",
    "cut 5mm off": "5mm",
    "for 10–15 min at least": "10–15 min",
    "about 1/2 in.": "1/2 in",
    "10 to 15 minutes": "10 to 15 minutes",
    "a 24-hour watch": "24-hour",
    "at 121 °C": "121 °C",
    "5 % of it": "5 %",
    "5% of it": "5%",
    "at 45° to it": "45°",
    "in 2 L of water": "2 L",
    "7.5 V on the dial": "7.5 V",
    "0.35 mm": "0.35 mm",
    "30 s, wet": "30 s",
    "1,000 lx": "1,000 lx",
    "½ inch": "½ inch",
    "1 1/2 inches": "1 1/2 inches",
    "5 in wide": "5 in",
    "100 mm x 140 mm": "100 mm",
    "−18 °C": "−18 °C",
    "3 more days": "3 more days",
    "500 ppm": "500 ppm",
    "keep 5\u00a0mm away": "5\u00a0mm",
    "wait 15\nminutes": "15\nminutes",
    "5700 strokes/min": "5700 strokes/min",
    "Two minutes, wet": "Two minutes",
    "a two-minute wait": "two-minute",
    "twenty millimetres": "twenty millimetres",
    "twenty-five minutes": "twenty-five minutes",
    "ten degrees": "ten degrees",
    "fifty per cent": "fifty per cent",
    "two or three days": "two or three days",
    "two to three weeks": "two to three weeks",
    "two full minutes": "two full minutes",
    "a hundred millimetres": "a hundred millimetres",
    "one year later": "one year",
    "one minute": "one minute",
    "three feet away": "three feet",
    "two mm": "two mm",
    "ten percent": "ten percent",
    "a dozen weeks": "a dozen weeks",
    "hold it one second.": "one second",
    "wait for one day": "one day",
    "a few minutes": "a few minutes",
    "the first few minutes": "few minutes",
    "several days": "several days",
    "a couple of weeks": "a couple of weeks",
    "a few more hours": "a few more hours",
    "an hour": "an hour",
    "within an hour of it": "an hour",
    "It takes an hour": "an hour",
    "half a litre": "half a litre",
    "half a day": "half a day",
    "one and a half hours": "one and a half hours",
    "two and a half minutes": "two and a half minutes",
    "half an hour": "half an hour",
    "three quarters of an hour": "three quarters of an hour",
    "keep it a week": "a week",
    "It stays a month": "a month",
    "after a day": "a day",
    "a metre away": "a metre",
    "a good minute": "a good minute",
    "the first two hours": "two hours",
    "two seconds": "two seconds",
    "a ten-second count": "ten-second",
}

HARMLESS = (
    "in the first minute",
    "the needle 1207RL",
    "and 1015CM",
    "one line",
    "three ways",
    "two people",
    "by EN 17169",
    "SPF 30 in the sun",
    "SPF 30",
    "on 2026-11-09",
    "11:00",
    "step 3 in the list",
    "1 in 10",
    "in the 1990s",
    "page 12",
    "the order of a day",
    "a day that suits",
    "set a day",
    "one day you will",
    "words a minute",
    "strokes a minute",
    "once a week",
    "twice a day",
    "three times a day",
    "a second step",
    "a second look",
    "to a second, safe place",
    "one second thought",
    "two second steps",
    "the minute it dries",
    "a foot of the table",
    "one foot on the pedal",
    "both feet",
    "two feet",
    "to a degree",
    "one degree or another",
    "every day",
    "daily",
    "for hours",
    "weeks later",
    "some minutes",
    "three quarters full",
    "half the water",
    "half a stop",
    "1 + 9 parts",
    "1:10",
    "two pairs",
    "A4",
    "A 5",
    "M1",
    "12 pieces",
    "in two",
    "for two in the room",
    "on an hour that suits",
    "an instant",
    "an inspector",
    "5 metal trays",
    "3 hooks",
    "2 machines",
    "ten inks",
    "7 weaved",
    "two daily",
    "4 sterile caps",
    "10 gloves",
    "5 minor",
    "table 7",
    "a dozen caps",
    "twelves",
    "a hundred",
    "nine ticks",
    "a weekday",
    "hours a day",
    "one in ten",
    "3D",
    "2 x 3",
    "40+",
    "a yearly review",
    "one yearly",
    "V 5",
    "mm",
    "s",
)


def test_a_typed_quantity_is_found() -> None:
    wrong = []
    for text, words in TYPED.items():
        found = typed_quantities(text)
        if not found or found[0][0] != words:
            wrong.append((text, words, found))
    assert wrong == []


@pytest.mark.parametrize(
    ("words", "record"),
    [
        ("5mm", "5 mm"),
        ("10 to 15 minutes", "10–15 min"),
        ("24-hour", "24 h"),
        ("1 1/2 inches", "1.5 in"),
        ("fifty per cent", "50 %"),
        ("two or three days", "2–3 days"),
        ("half an hour", "0.5 h"),
        ("two and a half minutes", "2.5 min"),
        ("a week", "1 weeks"),
        ("a hundred and twenty seconds", "120 s"),
        ("twenty-five minutes", "25 min"),
        ("ten degrees", "10 °C"),
        ("5700 strokes/min", "5700 strokes/min"),
        ("twenty-five square centimetres", "25 cm²"),
        ("500 ml", "500 mL"),
        ("−18 °C", "-18 °C"),
    ],
)
def test_what_is_meant_is_what_a_record_would_hold(words: str, record: str) -> None:
    assert meant(words) == written(record)


@pytest.mark.parametrize("words", ["a few minutes", "several days", "1,000 lx", "500 ppm", "", "minutes"])
def test_what_is_open_is_not_guessed(words: str) -> None:
    assert meant(words) is None


COUNTED = {
    "Fill them to two thirds.": "two thirds",
    "a bin that is three quarters full": "three quarters",
    "three-quarters full": "three-quarters",
    "a third of the bag": "a third",
    "when it is half full": "half full",
    "Two cases on one lot": "Two cases",
    "gone over twice": "twice",
    "rinse it three times": "three times",
    "at most 3 of them": "3",
    "two passes at most": "two passes",
    "1.5 of it": "1.5",
    "nine tenths full": "nine tenths",
    "three fourths full": "three fourths",
    "a tenth of the bag": "a tenth",
    "¾ full": "¾",
    "3/4 of the bag": "3/4",
    "gone over 2x": "2x",
    "two strong colours carry a piece": "two strong colours",
    "counted over twenty sittings": "twenty sittings",
    "two lots at once": "two lots",
    "a dozen cartridges": "a dozen cartridges",
    "gone over once": "once",
    "gone over no more than once": "once",
    "once only": "once only",
}
UNCOUNTED = (
    "step 3 in the list",
    "page 12",
    "SPF 30",
    "by EN 17169",
    "ISO 11140-1",
    "C.I. 77266",
    "1207RL",
    "on 2026-11-09",
    "at 11:00",
    "a third person",
    "a second look",
    "once",
    "at once",
    "more than once",
    "only once the skin is dry",
    "half of a stop",
    "two ways",
    "15 min",
    "half an hour",
    "in the 1990s",
)


def test_a_count_is_found_where_nothing_is_measured() -> None:
    found = {
        text: [typed[0] for typed in typed_numbers(text)[len(typed_quantities(text)) :]]
        for text in (*COUNTED, *UNCOUNTED)
    }
    assert found == {text: [words] for text, words in COUNTED.items()} | {text: [] for text in UNCOUNTED}


@given(st.text(alphabet="0123456789 aeinorstuhmµ°%½/.,–-\n", max_size=40))
def test_no_text_raises_and_what_is_found_stands_there(text: str) -> None:
    found = typed_quantities(text)
    assert all(each[0] in text for each in found)
    assert all(first.end() <= second.start() for first, second in pairwise(found))
    assert all(meant(each[0]) is None or meant(each[0]) for each in found)


def test_words_without_one_are_left_alone() -> None:
    assert {text: found for text in HARMLESS if (found := typed_quantities(text))} == {}
