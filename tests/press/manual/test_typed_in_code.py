"""Sentences in code and examples of diagnostics type no number that a record holds; an exception has its reason."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from generator.diagnostic_codes import CODES
from generator.press.manual.number_words import typed_numbers
from tests.source import SOURCE, nodes

CATALOGUE = "diagnostic_codes.py"
# Not read: what is to be typed word for word, and an example of how something is written.
UNREAD = re.compile(r"`[^`]*`|such as .*|</?\w[^<>]*>|&\w+;|https?://\S+", re.DOTALL)
STYLE = re.compile(r"\s*(?:[a-z-]+: ?[^;.]*(?:\.\d[^;]*)?;\s*)+")
# Nought and one are no numbers of the trade: “above 0 mm”, “1 or more”. Nor is the whole, 100 %.
TRIVIAL = re.compile(r"[-−]?[01](?:[ \u00a0]?[^\d.–]*)?|100[ \u00a0]?%|an? \w+|one \w+")
# The texts of a module that may type numbers, by how they begin, each with its reason.
_SCALE = "the published scale says what each of its scores means"
_SAYS_WHERE = "how often something stands in a file that was read"
_SHAPE = "how something is written, whatever it holds"
EXCEPT = {
    ("press/manual/number_words.py", "a|an|half"): "a pattern",
    ("press/manual/number_words.py", "once|twice"): "a pattern",
    ("press/manual/procedure_head.py", "\\s*^!!! danger"): "a pattern",
    ("press/sheet/sides.py", " · side 10 of 10"): "the longest foot that a sheet could have, to measure its room",
    ("press/tables/vibration.py", "As if the machine ran"): "A(8) is what the directive calls the exposure of a day",
    ("press/words/print_line.py", '<p class="print-line'): "a pattern, and places to be filled in",
    ("press/words/page_day.py", "<style>"): "sizes of a style",
    ("press/writing/pages.py", "A key that is not listed"): _SHAPE,
    ("press/writing/pages.py", "What may be written"): "a conversion, true of any number",
    ("press/writing/pages.py", "Places inside the piece"): "it reads out the example beside it",
    ("records/across.py", "` stands twice"): _SAYS_WHERE,
    ("records/conditions.py", "{scar.age: below"): _SHAPE,
    ("records/parts.py", "` stands twice"): _SAYS_WHERE,
    ("records/once_read.py", "` stands twice"): _SAYS_WHERE,
    ("records/procedures.py", "six characters of"): _SHAPE,
    ("records/skin.py", "0 "): _SCALE,
    ("trade/colour.py", "three finite numbers"): "the scale of CIELAB lightness",
    ("trade/needles.py", "proved, "): "years of publications",
    ("trade/palette.py", "a chroma of"): "about the unit, not about an ink of the studio",
    ("trade/palette.py", "a lightness from"): "the scale of CIELAB lightness",
    ("trade/paper.py", "a few millimetres"): "no number is said",
    ("trade/scars.py", "score again by"): "years of publications, and the scale they describe",
    ("trade/scars.py", " (form of Sullivan"): "the year of a publication",
    ("trade/skin_tone.py", "an angle from"): "what an arctangent can answer",
    ("trade/sterilization.py", "the standard takes"): "the value of the standard that the formula's page names",
    ("trade/sterilization.py", "steam takes"): "the value of the standard that the formula's page names",
}


def _docstrings(path: Path) -> Iterator[ast.AST]:
    for node in nodes(path):
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef) and node.body:
            first = node.body[0]
            if isinstance(first, ast.Expr):
                yield first.value


def sentences(path: Path) -> Iterator[str]:
    """The texts of a module that are no docstrings; of a text with places to fill in, each piece."""
    skipped = {id(node) for node in _docstrings(path)}
    for node in nodes(path):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in skipped:
            yield node.value


def typed_in(text: str) -> list[str]:
    """The numbers typed in a text with two words at least besides numbers and units; a bound or an example has none."""
    prose = "" if STYLE.fullmatch(text) else UNREAD.sub(" ", text)
    found = [typed for typed in typed_numbers(prose) if not TRIVIAL.fullmatch(typed[0])]
    bare = prose
    for typed in found:
        bare = bare.replace(typed[0], " ")
    return [typed[0] for typed in found] if len(re.findall(r"\b[A-Za-z]{3,}\b", bare)) > 1 else []


def _examples(name: str) -> set[str]:
    """Texts that are examples of a mistake: what is right is in the demo's records, as another test says."""
    return {text for code in CODES.values() for text in (code.right, code.wrong)} if name == CATALOGUE else set()


def test_no_sentence_in_code_types_a_number_of_the_trade() -> None:
    """Also what diagnostics mean. An exception that nothing needs any more goes."""
    wrong, needed = [], set()
    for path in sorted(SOURCE.rglob("*.py")):
        name = path.relative_to(SOURCE).as_posix()
        examples = _examples(name)
        for text in sentences(path):
            if text in examples or not (typed := typed_in(text)):
                continue
            excepted = {key for key in EXCEPT if key[0] == name and text.startswith(key[1])}
            needed |= excepted
            wrong += [] if excepted else [(name, typed, text)]
    assert wrong == []
    assert set(EXCEPT) == needed


@pytest.mark.parametrize(
    ("text", "typed"),
    [
        ("Let it dry for 15 min before it is lined.", ["15 min"]),
        ("a mole is kept clear by eight millimetres", ["eight millimetres"]),
        ("the bag is filled to three quarters", ["three quarters"]),
        ("Two cases on one lot: stop it", ["Two cases"]),
        ("gone over at most 3 times", ["3 times"]),
        ("write `15 min` there, such as 15 min", []),
        ("a number above 0 mm, or 1 or more", []),
        ("15 min", []),
    ],
)
def test_what_counts_as_a_typed_number(text: str, typed: list[str]) -> None:
    assert typed_in(text) == typed
