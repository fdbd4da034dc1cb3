"""Numbers that are typed instead of quoted, on authored pages and in texts of records. A number has one home.

An exception is typed with its reason; a page shows both.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from pydantic import BaseModel

from generator.diagnostics import Diagnostic, Place, Report
from generator.press.manual.authored import CODE, prose_lines
from generator.press.manual.number_words import meant, typed_numbers, typed_quantities
from generator.quantities import Quantity
from generator.records.checklist import QUOTE
from generator.records.families import LISTED, STUDIO, Records
from generator.records.ids import Reference
from generator.records.jobs import Job
from generator.records.located import Text
from generator.records.quoting import Filled
from generator.records.record import singles

# What is not read as words: code, quotes, where a link leads, tags, attributes of a heading, an address.
_UNREAD = re.compile(rf"{CODE}|\{{\{{.*?\}}\}}|\]\([^)]*\)|<[^<>]*>|\{{[:# ][^}}]*\}}|https?://\S+|^\s*\[[^\]]*\]:.*$")
_BLANK = "\ufffc"
# The number of an item in a list is no number of the trade.
_MARK = re.compile(r"^[ \t>]*\d+[.)](?=\s)")
_SHOWN = 3
# Whose texts repeat what others wrote, and do not follow a number of the studio.
_REPEATED = {
    "sources": "titles, and what a document says, are the document's own; a decision of the house repeats nobody",
    "asked": "what published lists want in writing is told as they have it",
    "procedures": "what changed in a revision is history",
    "changes": "what a value was is history, and what it is now is held against its record",
    "barred-pigments": "names of pigments hold numbers of the colour index",
}


def record_findings(records: Records) -> Report:
    """Every number that is typed in a text of a record, at the place where the text begins."""
    return tuple(
        _finding(one[0], text.place, records, own)
        for own in _entries(records)
        for text in _texts(own)
        for one in typed_numbers(_without_quotes(text))
    )


def job_findings(records: Records, job: Job) -> Report:
    """Every quantity that is typed in a text of a job.

    Its title is the piece's name, and what happened is history. How often a limb is turned is of this piece alone, so
    that no count is looked for.
    """
    asked = job.model_copy(update={"title": "", "finished": None, "healed": (), "earlier": ()})
    return tuple(
        _finding(one[0], text.place, records, job)
        for text in _texts(asked)
        for one in typed_quantities(_without_quotes(text))
    )


def _entries(records: Records) -> Iterator[BaseModel]:
    yield records.studio
    for family in LISTED:
        if family.name not in _REPEATED:
            yield from records.family(family.name).values()
    yield from (source for source in records.sources.values() if source.kind != "published")


def _texts(record: BaseModel) -> Iterator[Text]:
    """Free texts: words with a space between them."""
    texts = (one for one in singles(record) if isinstance(one, Text) and not isinstance(one, Reference))
    return (text for text in texts if " " in text)


def _without_quotes(text: Text) -> str:
    written = text.written if isinstance(text, Filled) else str(text)
    return QUOTE.sub(lambda quote: _BLANK * len(quote[0]), written)


def typed_findings(text: str, file: str, records: Records) -> Report:
    """Every number that is typed on a page, with the record that holds it where one does."""
    prose = _prose(text)
    found = sorted(typed_numbers(prose), key=re.Match.start)
    return tuple(_finding(one[0], _place(prose, *one.span(), file), records) for one in found)


def _prose(text: str) -> str:
    """The page with everything blanked that is not read as words; every letter stays at its place."""
    lines = [_BLANK * len(line) for line in text.split("\n")]
    for at, line in prose_lines(text):
        unread = _UNREAD.sub(lambda found: _BLANK * len(found[0]), _MARK.sub(lambda mark: _BLANK * len(mark[0]), line))
        # Signs of markup may stand between a number and its unit.
        lines[at] = unread.replace("&nbsp;", " " * 6).replace("*", " ").replace("_", " ")
    return "\n".join(lines)


def _place(prose: str, start: int, end: int, file: str) -> Place:
    before = prose[:start].split("\n")
    column = len(before[-1]) + 1
    first = prose[start:end].split("\n")[0]
    return Place(file, len(before), column, column + len(first))


def _finding(words: str, place: Place, records: Records, own: BaseModel | None = None) -> Diagnostic:
    said = " ".join(words.split())
    quantity = meant(words)
    held = [] if quantity is None else [*_inside(own, "", quantity), *holding(quantity, records)][:_SHOWN]
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
        says=f"a number is typed here: {said}",
    )


def holding(quantity: Quantity, records: Records) -> Iterator[str]:
    """Paths of the values of records that are equal to this one, those that pages quote most first."""
    yield from _inside(records.studio, STUDIO.name, quantity)
    for family in sorted(LISTED, key=lambda family: family.name != "values"):
        for entry_id, entry in records.family(family.name).items():
            yield from _inside(entry, f"{family.name}.{entry_id}", quantity)


def _inside(value: object, path: str, quantity: Quantity) -> Iterator[str]:
    if isinstance(value, Quantity):
        if (value.low, value.high, value.unit) == (quantity.low, quantity.high, quantity.unit):
            yield path
    elif isinstance(value, BaseModel):
        for name, info in type(value).model_fields.items():
            yield from _inside(getattr(value, name), f"{path}.{info.alias or name}", quantity)
    elif isinstance(value, tuple):
        for number, item in enumerate(value):
            yield from _inside(item, f"{path}.{number}", quantity)
