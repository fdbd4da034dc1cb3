"""The one line by which a page says how many of its values nobody of this studio has decided."""

from __future__ import annotations

import re

from markupsafe import Markup

from generator.how_many import how_many
from generator.press.words.addresses import anchor
from generator.press.words.markup import under_title
from generator.records.decisions import undecided
from generator.records.families import LISTED, STUDIO, Records

# A row of a record, or a link to one: a quote is a link to the row that it quotes.
_ROW = re.compile(r'(?:#|\bid=")([A-Za-z][\w.-]*)')
_LINE = Markup('<p class="undecided"><strong>{}.</strong> Ask who decides before you rely on them.</p>')


def not_decided(number: int) -> str:
    """So many values that are suggestions."""
    return f"{how_many(number, 'value')} not yet decided here"


def with_undecided(markdown: str, records: Records) -> str:
    """The page with the line under its title, where it shows what is not decided; an emergency comes first."""
    number = len(shown_undecided(markdown, records))
    return under_title(markdown, _LINE.format(not_decided(number))) if number else markdown


def shown_undecided(text: str, records: Records) -> set[tuple[str, str]]:
    """The family and the id of each suggestion whose row is on the page, or is linked or quoted there."""
    open_ = {(each.family, each.id) for each in undecided(records)}
    if not open_:
        return set()
    rows = {anchor(f.name, str(entry)): (f.name, str(entry)) for f in LISTED for entry in records.family(f.name)}
    return open_ & {found for row in set(_ROW.findall(text)) if (found := _entry(row, rows)) is not None}


def _entry(row: str, rows: dict[str, tuple[str, str]]) -> tuple[str, str] | None:
    """The entry of a row; a row of one of its fields begins with the entry's own."""
    if row.startswith(f"{STUDIO.name}-"):
        return STUDIO.name, ""
    while row:
        if row in rows:
            return rows[row]
        row = row.rpartition("-")[0]
    return None
