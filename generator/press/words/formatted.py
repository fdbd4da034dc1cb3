"""Values of records in the words of the handbook: the studio's first system, the other beside it."""

from __future__ import annotations

from markupsafe import Markup

from generator import quantities
from generator.press.words.markup import valued
from generator.quantities import Quantity
from generator.records.decisions import who_decided
from generator.records.ended import Ended
from generator.records.families import Records
from generator.records.quoting import as_shown, in_words
from generator.records.sources import SourceRecord
from generator.units import KINDS

# A house source without a decision of its own; a line on the page counts what is not decided at all.
NOT_DECIDED = "A suggestion, unless it was decided where it is written"
# Keys whose words are not those of the trade.
_SPELLED = {"passes": "passes at most"}


def measured(quantity: Quantity, records: Records) -> Markup:
    """A quantity of a record as the handbook shows it."""
    return valued(as_shown(quantity, records), quantity.low, quantity.high)


def calculated(low: float, high: float, kind: str, records: Records, text: str = "") -> Markup:
    """A value or range in canonical units as the handbook shows it; `text` is how a record has it, if one has."""
    if kind not in KINDS:  # such as a score
        return valued(quantities.as_written(text or "–".join(map(number, sorted({low, high})))), low, high)
    return valued(quantities.in_both(low, high, kind, records.studio.shows, text), low, high)


def with_end(name: str, until: Ended | None) -> str:
    """A name, with its end where it has one."""
    return name if until is None else f"{name} ({until.why}, {until.on.isoformat()})"


def number(value: float) -> str:
    """A number without a unit."""
    return f"{value:g}"


def spelled(name: str) -> str:
    """The name of a field or of an input as the trade writes it."""
    return _SPELLED.get(name, name.replace("hang_out", "hang-out").replace("_", " "))


def yes_no(value: bool) -> str:
    """The words that records use."""
    return "yes" if value else "no"


def said(value: object, records: Records) -> str | None:
    """Any single value of a record in words; None for what has no words of its own, such as a list."""
    if isinstance(value, Quantity):
        return measured(value, records)
    return in_words(value, records)


def short_citation(source: SourceRecord, records: Records) -> str:
    """A source as the sheet names it; the handbook has the rest."""
    if source.kind == "published":
        return f"{source.body}, {source.year}"
    if source.kind == "house":
        return f"House decision, {who_decided(source, records)}" if source.decided else NOT_DECIDED
    return "Common practice, nothing published"
