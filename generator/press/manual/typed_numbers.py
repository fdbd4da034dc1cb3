"""Quantities on authored pages that are typed instead of quoted. A number has one home, and a page only quotes it.

An exception is typed with its reason, and the page shows both.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from pydantic import BaseModel

from generator.diagnostics import Diagnostic, Place, Report
from generator.press.manual.authored import CODE, prose_lines
from generator.press.manual.number_words import meant, typed_quantities
from generator.quantities import Quantity
from generator.records.families import LISTED, STUDIO, Records

# What is not read as words: code, quotes, where a link leads, tags, attributes of a heading, an address.
_UNREAD = re.compile(rf"{CODE}|\{{\{{.*?\}}\}}|\]\([^)]*\)|<[^<>]*>|\{{[:# ][^}}]*\}}|https?://\S+|^\s*\[[^\]]*\]:.*$")
_BLANK = "\ufffc"
_SHOWN = 3


def typed_findings(text: str, file: str, records: Records) -> Report:
    """Every quantity that is typed on a page, with the record that holds it where one does."""
    prose = _prose(text)
    return tuple(
        _finding(words, _place(prose, start, end, file), records) for start, end, words in typed_quantities(prose)
    )


def _prose(text: str) -> str:
    """The page with everything blanked that is not read as words; every letter stays at its place."""
    lines = [_BLANK * len(line) for line in text.split("\n")]
    for at, line in prose_lines(text):
        unread = _UNREAD.sub(lambda found: _BLANK * len(found[0]), line)
        # Signs of markup may stand between a number and its unit.
        lines[at] = unread.replace("&nbsp;", " " * 6).replace("*", " ").replace("_", " ")
    return "\n".join(lines)


def _place(prose: str, start: int, end: int, file: str) -> Place:
    before = prose[:start].split("\n")
    column = len(before[-1]) + 1
    first = prose[start:end].split("\n")[0]
    return Place(file, len(before), column, column + len(first))


def _finding(words: str, place: Place, records: Records) -> Diagnostic:
    said = " ".join(words.split())
    quantity = meant(words)
    held = [] if quantity is None else list(holding(quantity, records))[:_SHOWN]
    new = "add it to values.yml and quote it as `{{ values.ID.is }}`"
    if held:
        quotes = ", ".join(f"`{{{{ {path} }}}}`" for path in held)
        mending = f"{quotes} {'holds' if len(held) == 1 else 'hold'} {said}; quote the one that is meant, or {new}"
    else:
        mending = f"quote it from its record, or {new}"
    return Diagnostic(
        "H704",
        place,
        found=f"“{said}”",
        expected="a quote of the record that holds it",
        help=f"{mending}; what has to be typed is written `{{{{ typed: {said}, because REASON }}}}`",
        note="a number that is typed stays as it is when its record changes",
        says=f"a number with a unit is typed here: {said}",
    )


def holding(quantity: Quantity, records: Records) -> Iterator[str]:
    """Paths of the values of records that are equal to this one, those that pages quote most first."""
    yield from _inside(records.studio, STUDIO.name, quantity)
    for family in sorted(LISTED, key=lambda family: family.name != "values"):
        for entry_id, entry in records.family(family.name).items():
            yield from _inside(entry, f"{family.name}.{entry_id}", quantity)


def _inside(value: object, path: str, quantity: Quantity) -> Iterator[str]:
    if isinstance(value, Quantity):
        if value == quantity:
            yield path
    elif isinstance(value, BaseModel):
        for name, info in type(value).model_fields.items():
            yield from _inside(getattr(value, name), f"{path}.{info.alias or name}", quantity)
    elif isinstance(value, tuple):
        for number, item in enumerate(value):
            yield from _inside(item, f"{path}.{number}", quantity)
