"""Quantities typed on authored pages: where they are told, what is not read, and which record holds them."""

from __future__ import annotations

import dataclasses
from pathlib import Path

import pytest

from generator.press.manual.quotes import quoted
from generator.press.manual.typed_numbers import holding, record_findings, typed_findings
from generator.quantities import written
from generator.records.families import Records
from generator.records.located import Text
from tests.planning.demo import RECORDS
from tests.press.minimal import minimal

HANDBOOK = Path(__file__).parents[3] / "handbook"


def found(text: str, records: Records = RECORDS) -> list[tuple[int, int, int, str]]:
    report = typed_findings(text, "page.md", records)
    assert all(d.code == "H704" and d.level == "error" and d.place.file == "page.md" for d in report)
    return [(d.place.line, d.place.column, d.place.end, d.found) for d in report]


def test_each_is_told_at_its_place() -> None:
    assert found("# A\n\nWait 15 min, then\ntwo hours.") == [(3, 6, 12, "“15 min”"), (4, 1, 10, "“two hours”")]
    # One that runs over the end of a line is shown on the line where it begins.
    assert found("Wait for 15\nminutes.") == [(1, 10, 12, "“15 minutes”")]


@pytest.mark.parametrize(
    ("text", "typed"),
    [
        ("One in ten heals pale.", "One in ten"),
        ("Seen in 1 in 10 clients.", "1 in 10"),
        ("Two out of three came back.", "Two out of three"),
        ("Mix one to nine.", "one to nine"),
        ("Fill half the bag.", "half the"),
        ("Throw half of it away.", "half of it"),
        ("Mix it 1:10 with water.", "1:10"),
        ("Mix it 1 : 100.", "1 : 100"),
        ("Take three readings each.", "three readings each"),
        ("Fold four clean corners each.", "four clean corners each"),
        ("Take three readings.", "three readings"),
    ],
)
def test_ratios_halves_and_counts_of_each_are_told_too(text: str, typed: str) -> None:
    assert [words for *_, words in found(text)] == [f"“{typed}”"]


def test_a_decision_of_the_house_is_read_like_any_text_and_a_document_is_not() -> None:
    told = {}
    for kind in ("published", "house"):
        source = next(s for s in RECORDS.sources.values() if s.kind == kind)
        title = Text("Counted over twenty sittings.")
        title.place = source.title.place
        changed = {**RECORDS.sources, source.id: source.model_copy(update={"title": title})}
        told[kind] = [d.found for d in record_findings(dataclasses.replace(RECORDS, sources=changed))]
    assert told == {"published": [], "house": ["“twenty sittings”"]}


def test_counts_and_number_words_are_told_too() -> None:
    assert found("Fill bags to two thirds.") == [(1, 14, 24, "“two thirds”")]
    assert found("1. Two cases on one lot.\n2. Rinse it twice.") == [(1, 4, 13, "“Two cases”"), (2, 13, 18, "“twice”")]
    # Of a list it is the number of the item, also inside a quotation.
    assert found("1. One\n   2) Two\n> 3. Three") == []


@pytest.mark.parametrize(
    "text",
    [
        "about `15 min` here",
        "``15 min` ``",
        "```\n15 min\n```",
        "~~~\n15 min\n~~~",
        "---\ntitle: 15 min\n---\nx",
        "{{ studio.limits.stencil_dry }} of it",
        "{{ typed: 15 min, because the law says it }}",
        "[here](a-15 min.html)",
        '<span title="15 min">x</span>',
        "[at]: https://example.org/15 min",
        "## X { #at-15 min }",
        "see https://example.org/15min",
        "five\n\nminutes",
        "half dry and half open",
        "Begin at 09:30, end at 17:00.",
        "one of them, each of them",
        "{{ studio.limits.strong_colours }} minutes",
    ],
)
def test_what_is_not_read_as_words_is_left_alone(text: str) -> None:
    assert found(text) == []


@pytest.mark.parametrize(
    "text",
    [
        "**15** min",
        "15&nbsp;min",
        "| 15 min | x |",
        "> 15 min",
        "- *15 min*",
        "15\u00a0min",
        "[15 min](page.md)",
        "## Wait 15 min",
        '!!! note "15 min"',
    ],
)
def test_markup_around_it_hides_none(text: str) -> None:
    assert len(found(text)) == 1


def test_the_record_that_holds_it_is_named_and_can_be_quoted() -> None:
    (told,) = typed_findings("Let it dry for a quarter or 15 minutes.", "page.md", RECORDS)
    assert "`{{ studio.limits.stencil_dry }}`" in told.help and "hold 15 minutes" in told.help
    (other,) = typed_findings("Keep 1.2 mm.", "page.md", RECORDS)
    assert "`{{ studio.limits.line_gap }}`" in other.help and "holds 1.2 mm" in other.help


@pytest.mark.parametrize("text", ["Keep 1237 mm.", "Wait a few minutes.", "About 500 ppm."])
def test_where_none_does_it_says_where_to_write_it(text: str) -> None:
    (told,) = typed_findings(text, "page.md", RECORDS)
    assert told.help.startswith("quote it from its record, or add it to values.yml")


def test_a_studio_with_nothing_on_file_is_told_too() -> None:
    assert len(found("Keep 1237 mm.", minimal())) == 1


@pytest.mark.parametrize("text", ["1.2 mm", "15 min", "4 weeks", "5 %", "60 min", "2 min", "45 %", "3.5 mm"])
def test_every_path_that_is_named_quotes_that_value(text: str) -> None:
    paths = list(holding(written(text), RECORDS))
    assert paths or text == "5 %"
    for path in paths:
        shown, report = quoted(f"{{{{ {path} }}}}", "page.md", RECORDS)
        assert report == () and shown.startswith("["), path


def test_no_page_of_the_handbook_types_a_quantity() -> None:
    for page in sorted(HANDBOOK.rglob("*.md")):
        assert typed_findings(page.read_text("utf-8"), str(page), RECORDS) == (), page
