"""Quotes of records in authored pages: `{{ family.id.field }}` becomes the value, linked to where it stands.

A number has one home, and a page only quotes it. What cannot be quoted is a diagnostic at the quote; nothing
is ever left blank, and no template language sees the text.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import NamedTuple

from pydantic import BaseModel

from generator.diagnostics import Diagnostic, Place, Report
from generator.near_miss import did_you_mean, nearest
from generator.press.manual.authored import CODE, prose_lines
from generator.press.words.addresses import PAGE_OF, anchor
from generator.press.words.formatted import said
from generator.press.words.markup import markdown_text
from generator.quantities import Quantity
from generator.records import conditions
from generator.records.families import LISTED, STUDIO, Records
from generator.records.format import renamed

# Code comes first in the pattern, so that a quote inside it is never seen as one.
_PIECES = re.compile(
    rf"(?P<code>{CODE})"
    r"|\{\{(?P<path>.*?)\}\}|(?P<open>\{\{.*)"
)
_PATH = re.compile(r"[A-Za-z0-9_-]+(\.[A-Za-z0-9_-]+)*")
_TYPED = re.compile(r"typed:\s*(\S.*?),\s*because\s+(\S.*)")
_FAMILIES = (STUDIO.name, *(family.name for family in LISTED))


class _Cannot(Exception):
    """Why a quote has no value: the parts of its diagnostic."""

    def __init__(self, code: str, message: str, expected: str, remedy: str) -> None:
        super().__init__(message)
        self.code, self.message, self.expected, self.remedy = code, message, expected, remedy


class _Found(NamedTuple):
    """A value, and the page and row where it stands."""

    words: str
    page: str
    row: str
    measured: bool

    def linked(self) -> str:
        """As Markdown; what was measured or decided in numbers is set apart from words."""
        # An absolute link is resolved from the handbook's folder, and MkDocs checks page and row.
        link = f"[{markdown_text(self.words)}](/{self.page}#{self.row})"
        return f"{link}{{ .value }}" if self.measured else link


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
            found = _value(piece["path"], records)
        except _Cannot as cannot:
            place = Place(file, number, piece.start() + 1, piece.end() + 1)
            shown = piece[0].strip()
            report.append(
                Diagnostic(
                    cannot.code,
                    place,
                    found=f"“{shown}”",
                    expected=cannot.expected,
                    help=cannot.remedy,
                    note="a quote names a record: family, id and field, with points between",
                    says=cannot.message,
                )
            )
            return piece[0]
        return found.linked()

    return _PIECES.sub(replaced, line), report


def _typed(written: str) -> str:
    """What has to be typed, with a sign that everybody sees, and why."""
    typed = _TYPED.fullmatch(written.strip())
    if typed is None:
        raise _Cannot(
            "H703",
            "a typed number says here not why it is typed",
            "what is typed, a comma, “because” and the reason",
            "write it like `{{ typed: 100 mm, because the bar on the sheet proves the scale }}`",
        )
    words, why = (markdown_text(each) for each in typed.groups())
    return f'<span class="typed">{words} <small>(typed here, because {why})</small></span>'


def _value(written: str | None, records: Records) -> _Found:
    if written is None:
        raise _Cannot(
            "H701", "a quote is opened and not closed on this line", "`}}`", "write it as `{{ family.id.field }}`"
        )
    path = written.strip()
    if not _PATH.fullmatch(path):
        raise _Cannot(
            "H701",
            "this is not the name of a value",
            "family, id and field",
            "write it like `{{ machines.kettle.hang_out }}`; nothing is computed inside a quote",
        )
    family, *keys = path.split(".")
    if family not in _FAMILIES:
        raise _unknown(family, "a family of records", "", _FAMILIES)
    value, walked, row = _start(family, keys, records)
    left = keys[1:] if family != STUDIO.name else keys
    while left:
        if isinstance(value, conditions.Condition):
            # A fact has a point in its name, so what is left of the path is the fact.
            value, walked, left = _limit(value, ".".join(left), walked), f"{walked}.{'.'.join(left)}", []
        else:
            value, walked, left = _into(value, left[0], walked), f"{walked}.{left[0]}", left[1:]
    words = said(value, records)
    if words is None:
        raise _whole(value, walked)
    return _Found(words, PAGE_OF[family], row, isinstance(value, Quantity))


def _start(family: str, keys: list[str], records: Records) -> tuple[object, str, str]:
    """The record that the quote begins with, its path, and its row."""
    if family == STUDIO.name:
        # The studio's page has a row for each value, and one for each of its limits.
        depth = 2 if keys[:1] == ["limits"] else 1
        return records.studio, family, anchor(family, *keys[:depth])
    entries = records.family(family)
    if not keys:
        first = next(iter(entries), "id")
        raise _Cannot(
            "H702",
            f"`{family}` is a whole family and cannot be quoted",
            "one value of one record",
            f"name a record and a field, as in `{{{{ {family}.{first}.source }}}}`",
        )
    if keys[0] not in entries:
        raise _unknown(keys[0], f"an id in `{family}`", f"{family}.", entries)
    return entries[keys[0]], f"{family}.{keys[0]}", anchor(family, keys[0])


def _into(value: object, key: str, walked: str) -> object:
    """One step deeper: a field of a record, or an item of a list."""
    if isinstance(value, BaseModel):
        attributes = {info.alias or name: name for name, info in type(value).model_fields.items()}
        if key not in attributes:
            raise _unknown(key, f"a field of `{walked}`", f"{walked}.", attributes, _new_name(walked, key))
        return getattr(value, attributes[key])
    if isinstance(value, tuple):
        numbers = [str(n) for n in range(len(value))]
        if key not in numbers:
            raise _unknown(key, f"an item of the list `{walked}`, counted from 0", f"{walked}.", numbers)
        return value[int(key)]
    if value is None:
        raise _nothing(walked)
    raise _Cannot(
        "H701", f"`{walked}` is a single value, nothing lies under it", f"`{walked}`", f"write `{{{{ {walked} }}}}`"
    )


def _limit(condition: conditions.Condition, fact: str, walked: str) -> Quantity:
    """The one number with which a rule's condition compares a fact."""
    compared = [(one.fact, one.limit) for one in conditions.compared(condition)]
    limits = {limit.low: limit for name, limit in compared if name == fact}
    if not limits:
        raise _unknown(fact, f"a fact that `{walked}` compares with a number", f"{walked}.", dict(compared))
    if len(limits) > 1:
        several = " and ".join(limit.text for limit in limits.values())
        raise _Cannot(
            "H702",
            f"`{walked}` compares `{fact}` with {several}",
            "a fact that is compared with one number",
            "quote the rule that has only the limit you mean",
        )
    return next(iter(limits.values()))


def _new_name(walked: str, key: str) -> str:
    """What a key of an older format is called now; nothing for any other key. `walked` is the way to it in a quote."""
    family, *way = walked.split(".")
    inside = way if family == STUDIO.name else way[1:]
    entry = renamed(".".join([family, *(part for part in inside if not part.isdigit())]), key)
    return "" if entry is None else entry.new


def _unknown(found: str, wanted: str, before: str, known: Iterable[str], now: str = "") -> _Cannot:
    if now:
        return _Cannot("H701", f"`{found}` is now `{now}`", wanted, f"write `{before}{now}`")
    names = list(known)
    near = nearest(found, names)
    listed = ", ".join(names[:20]) + (", …" if len(names) > 20 else "")
    remedy = did_you_mean(near and before + near, f"known there: {listed or 'nothing'}")
    return _Cannot("H701", f"`{found}` is not {wanted}", wanted, remedy)


def _nothing(walked: str) -> _Cannot:
    return _Cannot(
        "H702", f"nothing is written in `{walked}`", "a value", "add it to the record, or take the quote away"
    )


def _whole(value: object, walked: str) -> _Cannot:
    if value is None:
        return _nothing(walked)
    if isinstance(value, BaseModel):
        what, inner = "a whole record", next(iter(type(value).model_fields))
        inner = next((name for name in type(value).model_fields if name != "id"), inner)
    else:
        what, inner = "a list", "0"
    return _Cannot(
        "H702",
        f"`{walked}` is {what} and cannot be quoted",
        "one value",
        f"name one thing in it, as in `{{{{ {walked}.{inner} }}}}`",
    )
