"""Reports: order, levels, the line with its caret, and the same for programs."""

from __future__ import annotations

import ast
import dataclasses
import json
import re
import time
from pathlib import Path

import pytest

from generator.diagnostic_codes import CODES, Code
from generator.diagnostics import Diagnostic, Place, as_json, as_text, has_errors, in_reading_order, summary
from generator.records.fields import Measure, Swatch
from generator.records.supplies import AllergenWord
from tests.source import SOURCE, nodes


def wrong(code: str, place: Place, note: str = "") -> Diagnostic:
    return Diagnostic(code, place, found="“4 g”", expected="a length", help="write `4 mm`", note=note)


@pytest.fixture
def file(tmp_path: Path) -> str:
    path = tmp_path / "a.yml"
    path.write_text("\ufeffid: moth\nwidth:\t4 g  # so\n", "utf-8")
    return str(path)


def test_reviews_to_be_done_give_way_to_what_ends(file: str) -> None:
    """Of more than are shown at once, no local rule or bottle that is over is left out for a review."""
    reviews = [wrong(code, Place(file, 1, n, n + 1)) for code in ("H721", "H723") for n in range(1, 61)]
    ends = [wrong("H727", Place(file, 2, n, n + 1)) for n in range(1, 9)]
    text = as_text([*reviews, *ends])
    assert text.count("reminder H727") == len(ends) and "… and 28 more, not shown here" in text


def test_the_caret_stands_under_what_was_found(file: str) -> None:
    text = as_text(
        [
            wrong(
                "Q203",
                Place(file, 2, 8, 11),
                note="width: width across",
            )
        ]
    )
    assert text.split("\n") == [
        f"{file}:2:8: error Q203: expected a length, found “4 g”",
        " 2 | width: 4 g  # so",  # a tab would move the caret
        "   |        ^^^",
        "  note: width: width across",
        "  help: write `4 mm`",
    ]


def test_what_was_expected_is_always_said_and_once(file: str) -> None:
    """In the line that is composed, or in a line of its own where the mistake has words of its own."""
    composed = wrong("Q203", Place(file, 2, 8, 11))
    worded = dataclasses.replace(composed, says="this is a weight")
    assert composed.message == "expected a length, found “4 g”" and "  expected: " not in as_text([composed])
    assert worded.message == "this is a weight"
    assert as_text([worded]).split("\n")[3:] == ["  expected: a length", "  help: write `4 mm`"]
    for one in (composed, worded):
        assert as_text([one]).count("a length") == 1
        assert {"message": one.message, "found": "“4 g”", "expected": "a length"}.items() <= json.loads(as_json([one]))[
            0
        ].items()


def test_no_diagnostic_words_what_is_composed() -> None:
    """What is `says` is said nowhere else: no “expected”, and not the text of another part."""
    twice = []
    for path in SOURCE.rglob("*.py"):
        for call in nodes(path):
            if not isinstance(call, ast.Call) or all(k.arg != "says" for k in call.keywords):
                continue
            parts = {k.arg: ast.unparse(k.value) for k in call.keywords}
            said = parts.pop("says")
            if said in parts.values() or re.match(r"f?['\"]expected ", said):
                twice.append(f"{path.name}: {said}")
    assert twice == []


def test_a_byte_order_mark_does_not_move_the_caret(file: str) -> None:
    assert as_text([wrong("R306", Place(file, 1, 5, 9))]).split("\n")[1:3] == [" 1 | id: moth", "   |     ^^^^"]


def test_a_place_past_the_end_and_a_file_that_is_gone_are_still_shown(file: str, tmp_path: Path) -> None:
    assert as_text([wrong("F801", Place(str(tmp_path / "gone.yml"), 1, 1, 2))]).count("\n") == 1
    assert as_text([wrong("R304", Place(file, 9, 1, 2))]).count("\n") == 1
    assert as_text([wrong("R304", Place(file, 1, 9, 10))]).split("\n")[2] == "   |         ^"


def test_reports_are_in_reading_order() -> None:
    places = [Place("b", 1, 1, 2), Place("a", 10, 1, 2), Place("a", 9, 7, 8), Place("a", 9, 2, 3)]
    ordered = in_reading_order(wrong("Q203", place) for place in places)
    assert [d.place for d in ordered] == [places[3], places[2], places[1], places[0]]


def test_json_says_the_same(file: str) -> None:
    one = wrong(
        "Q203",
        Place(file, 2, 8, 11),
        note="width: width across",
    )
    assert json.loads(as_json([one])) == [
        {
            "file": file,
            "line": 2,
            "column": 8,
            "end_column": 11,
            "level": "error",
            "code": "Q203",
            "message": one.message,
            "found": one.found,
            "expected": one.expected,
            "note": one.note,
            "help": one.help,
            "cause": "",
        }
    ]
    assert json.loads(as_json([])) == []


def test_only_errors_forbid_publishing(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(CODES, "W000", Code("Only a warning.", "a.yml", "a", "b", level="warning"))
    mild, grave = wrong("W000", Place("a", 1, 1, 2)), wrong("Q203", Place("a", 2, 1, 2))
    assert not has_errors([mild])
    assert has_errors([mild, grave])
    assert summary([mild, grave, grave]) == "2 errors, 1 warning"
    assert summary([]) == "0 errors, 0 warnings"


def test_a_hundred_are_shown_and_the_rest_is_counted(file: str) -> None:
    report = [wrong("Q203", Place(file, line, 1, 2)) for line in range(1, 100_001)]
    begun = time.monotonic()
    text = as_text(report)
    assert time.monotonic() - begun < 10
    assert text.count("error Q203") == 100
    assert text.endswith("\n\n… and 99900 more, not shown here; mend these first, then check again")
    assert summary(report) == "100000 errors, 0 warnings"
    # A program gets all of them.
    assert len(json.loads(as_json(report[:300]))) == 300
    assert "not shown" not in as_text(report[:100])


def test_an_error_is_shown_before_any_number_of_reminders(file: str) -> None:
    reminders = [wrong("F805", Place(file, line, 1, 2)) for line in range(1, 201)]
    text = as_text([*reminders, wrong("Q203", Place(file, 900, 1, 2))])
    assert text.count("reminder F805") == 99 and text.count("error Q203") == 1


@pytest.mark.parametrize("column", [1, 60, 150, 5000, 9990])
def test_of_a_long_line_the_stretch_round_the_mistake_is_shown(tmp_path: Path, column: int) -> None:
    path = tmp_path / "long.yml"
    path.write_text("-" * (column - 1) + "wrong" + "-" * (9999 - column - 4), "utf-8")
    _, line, caret, _ = as_text([wrong("Q203", Place(str(path), 1, column, column + 5))]).split("\n")
    assert len(line) < 220
    assert line[caret.index("^") : caret.rindex("^") + 1] == "wrong"


def test_what_is_expected_has_the_article_that_is_spoken() -> None:
    wanted = [Swatch().wanted(), AllergenWord().wanted(), Measure("area", "1 cm²", "2 cm²", "1 cm²").wanted()]
    assert wanted == ["an sRGB colour", "a word such as latex or adhesive", "an area"]
