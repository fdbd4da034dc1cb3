"""Values that carry their origin are otherwise as ever, and keep it where they are copied or stored."""

from __future__ import annotations

import copy
import json
import pickle
import re
from typing import Annotated, Any

import pytest
from pydantic import TypeAdapter
from pydantic_core import PydanticCustomError

from generator.diagnostics import Place
from generator.origins import NOWHERE, Origin, origin_of
from generator.quantities import written
from generator.records.client import Answer
from generator.records.days import Clock, Date, Day, DayOrMonth, Hour
from generator.records.fields import Choice, Count, Measure, Number, OrUnknown, Pair, Pattern, Swatch, YesNo
from generator.records.kind import Kind, parts_of
from generator.records.located import Text
from generator.records.noted import Ratio, Whole, Word, noted

AT = Origin(("machines", "kettle", "strokes", "0"), "house")
VALUES: tuple[Any, ...] = (
    7,
    0.25,
    "#aabbcc",
    Hour(11, 30),
    Date(2027, 5, 12),
    written("3.5 mm"),
)
READ: tuple[tuple[str, Kind[Any]], ...] = (
    ("3", Count()),
    ("0.5", Number(0, 1, "`0.5`")),
    ("#AABBCC", Swatch()),
    ("11:30", Clock()),
    ("2027-05-12", Day()),
    ("2027-05", DayOrMonth()),
    ("flat", Choice(("flat", "raised"))),
    ("4", OrUnknown(Count())),
)


@pytest.mark.parametrize("value", VALUES, ids=str)
def test_a_value_with_its_origin_is_equal_and_keeps_it(value: Any) -> None:
    made = noted(value, AT)
    assert made == value and hash(made) == hash(value) and isinstance(made, type(value))
    for again in (made, copy.copy(made), copy.deepcopy(made), pickle.loads(pickle.dumps(made))):
        assert again == value and type(again) is type(made) and origin_of(again) == AT


def test_numbers_and_words_are_written_as_ever() -> None:
    carried = [noted(value, AT) for value in (7, 0.25, "red")]
    assert [type(value) for value in carried] == [Whole, Ratio, Word]
    assert json.dumps(carried) == json.dumps([7, 0.25, "red"]) and [str(v) for v in carried] == ["7", "0.25", "red"]


def test_what_was_calculated_has_no_origin() -> None:
    assert origin_of(noted(7, AT) + 1) == NOWHERE == origin_of(noted(0.5, AT) * 2) == origin_of(3)


def test_yes_no_and_nothing_carry_none() -> None:
    assert noted(True, AT) is True and noted(None, AT) is None


@pytest.mark.parametrize(
    ("typed", "kind"), READ, ids=lambda each: each if isinstance(each, str) else type(each).__name__
)
def test_every_kind_of_field_reads_a_value_that_knows_its_field(typed: str, kind: Kind[Any]) -> None:
    text = Text.at(typed, Place("a.yml", 1, 1, 2))
    text.origin = AT
    read = TypeAdapter(Annotated[Any, kind]).validate_python(text)
    assert origin_of(read) == AT


def test_both_numbers_of_a_pair_know_the_field_that_holds_them() -> None:
    text = Text.at("130 mm x 190 mm", Place("a.yml", 1, 1, 2))
    text.origin = AT
    read = TypeAdapter(Annotated[Any, Pair("10 mm", "1200 mm")]).validate_python(text)
    assert [origin_of(side) for side in read] == [AT, AT]
    text = Text.at("yes", Place("a.yml", 1, 1, 2))
    assert TypeAdapter(Annotated[Any, YesNo()]).validate_python(text) is True


def test_a_bad_pair_is_mended_as_two_lengths() -> None:
    """What is found, expected and to be written is the whole line; only lengths that the field takes are offered."""
    offered = {
        "150 x 190": ["150 mm x 190 mm"],
        "150 mm x 190": ["150 mm x 190 mm"],
        "5 x 7 in": ["5 in x 7 in"],
        "2 x 3": ["2 cm x 3 cm", "2 in x 3 in"],
        "150mm x 190mm": ["150 mm x 190 mm"],
        "150x190 mm": ["150 mm x 190 mm"],
        "150 mm by 1,5 cm": ["150 mm x 1.5 cm"],
        "about 150 mm x 190 mm": ["150 mm x 190 mm"],
        "150–160 mm x 190 mm": ["150 mm x 190 mm", "160 mm x 190 mm"],
        "150 g x 190 mm": ["130 mm x 190 mm"],
        "150 mm": ["130 mm x 190 mm"],
        "9000 mm x 190 mm": [],
    }
    for typed, texts in offered.items():
        with pytest.raises(PydanticCustomError) as wrong:
            Pair("10 mm", "1200 mm").read(Text.at(typed, Place("a.yml", 1, 1, 2)))
        parts = parts_of(wrong.value)
        assert typed in parts.found and parts.expected.startswith("width x height"), typed
        assert re.findall("`(.+?)`", parts.help) == texts, typed


def test_what_is_expected_has_one_article_or_none() -> None:
    """Also where its own words begin with one, or with a word that only looks like another."""
    kinds = (
        Day(),
        Choice(("text", "a")),
        Measure("area", "1 mm²", "2 mm²", "1 mm²"),
        Pattern("x", "x", "`x`", "text hash"),
    )
    assert [kind.wanted() for kind in (*kinds, OrUnknown(Answer()))] == [
        "a date",
        "one of `text`, `a`",
        "an area",
        "a text hash",
        "yes, no, unknown, or a last day, or `unknown`",
    ]
