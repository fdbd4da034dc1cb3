"""Quotes of records in authored pages: `{{ family.id.field }}` becomes the value, linked to where it is written.

A number has one home, and a page only quotes it. What cannot be quoted is a diagnostic at the quote; nothing
is ever left blank, and no template language sees the text.
"""

from __future__ import annotations

import re

from generator.diagnostics import Diagnostic, Place, Report
from generator.press.manual.authored import CODE, prose_lines
from generator.press.manual.volts import in_volts
from generator.press.words.addresses import PAGE_OF, anchor
from generator.press.words.formatted import said
from generator.press.words.markup import markdown_text
from generator.quantities import Quantity
from generator.records import quoting
from generator.records.families import Records
from generator.records.quoting import CannotQuote

# Code comes first in the pattern, so that a quote inside it is never seen as one.
_PIECES = re.compile(
    rf"(?P<code>{CODE})"
    r"|\{\{(?P<path>.*?)\}\}|(?P<open>\{\{.*)"
)


def quoted(text: str, file: str, records: Records) -> tuple[str, Report]:
    """The page with every quote replaced, and everything that is wrong with its quotes."""
    report: list[Diagnostic] = []
    lines = text.split("\n")
    for at, line in prose_lines(text):
        lines[at], wrong = _line(line, at + 1, file, records)
        report += wrong
    return "\n".join(lines), tuple(report)


def _line(line: str, number: int, file: str, records: Records) -> tuple[str, list[Diagnostic]]:
    report: list[Diagnostic] = []

    def replaced(piece: re.Match[str]) -> str:
        if piece["code"]:
            return piece[0]
        try:
            if (piece["path"] or "").strip().startswith("typed:"):
                return _typed(piece["path"])
            return _linked(piece["path"], records)
        except CannotQuote as cannot:
            place = Place(file, number, piece.start() + 1, piece.end() + 1)
            report.append(cannot.at(place, piece[0].strip()))
            return piece[0]

    return _PIECES.sub(replaced, line), report


def _typed(written: str) -> str:
    """What has to be typed, with a sign that everybody sees, and why."""
    words, why = (markdown_text(each) for each in quoting.typed(written))
    return f'<span class="typed">{words} <small>(typed here, because {why})</small></span>'


def _linked(written: str | None, records: Records) -> str:
    """A value as Markdown, linked to where it is written; what was measured or decided in numbers is set apart."""
    if written is None:
        raise CannotQuote(
            "H701", "a quote is opened and not closed on this line", "`}}`", "write it as `{{ family.id.field }}`"
        )
    value, family, row = quoting.found(written.strip(), records)
    words = said(value, records)
    assert words is not None, written
    if isinstance(value, Quantity) and (volts := in_volts(written.strip(), value, records)):
        words = f"{words} ({volts})"
    # An absolute link is resolved from the handbook's folder, and MkDocs checks page and row.
    link = f"[{markdown_text(words)}](/{PAGE_OF[family]}#{anchor(family, *row)})"
    return f"{link}{{ .value }}" if isinstance(value, Quantity) else link
