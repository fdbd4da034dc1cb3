"""Characters that nobody sees are refused where they stand: controls, direction overrides, zero width, separators.

Which they are: The Unicode Standard, general categories Cc, Cf, Zl and Zp; Unicode Technical Report 36.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.diagnostics import Place
from generator.records.located import Mapping, read_located
from generator.records.reading import read_records
from tests.conftest import copy_project

C0_C1 = [chr(n) for n in (*range(9), 11, 12, *range(14, 32), *range(127, 160))]
BIDI = list("\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
UNSEEN = list("\u00ad\u180e\u200b\u200c\u200d\u2060\u2061\u2064\ufeff\u2028\u2029\ufff9\U000e0041")


@pytest.mark.parametrize(
    "line", ["title: a{}b", "ti{}tle: a", "title: a # {} b", "title: '{}'", "- title: |\n    x{}y"]
)
def test_a_hidden_character_is_refused_at_its_place(line: str) -> None:
    wrong = {}
    for character in (*C0_C1, *BIDI, *UNSEEN):
        text = f"# first\n{line.format(character)}\n"
        before = text[: text.index(character)].split("\n")
        read = read_located(text, "a.yml")
        place = Place("a.yml", len(before), len(before[-1]) + 1, len(before[-1]) + 2)
        named = f"U+{ord(character):04X}"
        if (
            read.node is not None
            or [(d.code, d.place) for d in read.report] != [("Y102", place)]
            or named not in read.report[0].found
            or character in read.report[0].message
        ):
            wrong[named] = read
    assert wrong == {}


@pytest.mark.parametrize(
    "escape", ["\\u202e", "\\x07", "\\e", "\\0", "\\u200b", "\\ufeff", "\\L", "\\P", "\\N", "\\t", "\\n"]
)
def test_one_that_is_written_as_an_escape_is_refused_too(escape: str) -> None:
    read = read_located(f'id: a\ntitle: "a{escape}b"\n', "a.yml")
    assert [(d.code, d.place.line, d.place.column) for d in read.report] == [("Y102", 2, 8)]


def test_line_ends_and_tabs_stay_where_a_block_may_hold_them() -> None:
    for text in (
        "a: |\n  one\ttwo\n  three\n",
        "a: >\r\n  one\r\n  two\r\nb: x\r\n",
        "a: 'one\n\n  two'\n",
        "a: ä – “€” 名\n",
    ):
        read = read_located(text, "a.yml")
        assert read.report == () and isinstance(read.node, Mapping)


def test_a_line_end_of_an_old_system_is_no_line_end() -> None:
    assert [d.place[1:3] for d in read_located("a: x\rb: y\n", "a.yml").report] == [(1, 5)]


def test_every_family_is_looked_at(tmp_path: Path) -> None:
    content = copy_project(tmp_path) / "content"
    for file in sorted(content.glob("*.yml")):
        file.write_text(file.read_text("utf-8") + "# \u202e\n", "utf-8")
    found = [d for d in read_records(content).report if d.code == "Y102"]
    assert {d.place.file for d in found} == {str(file) for file in content.glob("*.yml")}
