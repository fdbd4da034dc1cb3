"""Values of records in the words of the handbook: the studio's first system, the other beside it."""

from __future__ import annotations

import datetime

from generator import quantities
from generator.press.words.markup import Markup, valued
from generator.quantities import Quantity
from generator.records import conditions
from generator.records.families import Records
from generator.records.fields import Reference
from generator.records.record import Entry

# Times are said as the studio wrote them: four weeks are not 28 days to anybody, nor four hours 240 minutes.
# A share has one unit, so the figure on the label stays as it is.
_AS_WRITTEN = ("duration", "days", "months", "share")
# Keys whose words are not those of the trade.
_SPELLED = {"passes": "passes at most"}


def measured(quantity: Quantity, records: Records) -> Markup:
    """A quantity of a record as the handbook shows it."""
    return valued(_as_shown(quantity, records), quantity.low, quantity.high)


def _as_shown(quantity: Quantity, records: Records) -> str:
    if quantity.kind in _AS_WRITTEN and quantity.text:
        return quantities.as_written(quantity.text)
    return quantities.in_both(quantity.low, quantity.high, quantity.kind, records.studio.units, quantity.text)


def calculated(low: float, high: float, kind: str, records: Records, text: str = "") -> Markup:
    """A value or range in canonical units as the handbook shows it; `text` is how a record has it, if one has."""
    return valued(quantities.in_both(low, high, kind, records.studio.units, text), low, high)


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
    if isinstance(value, bool):
        return yes_no(value)
    if isinstance(value, Reference):
        entry = records.family(value.family).get(value)
        return str(value) if entry is None else name_of(entry)
    if isinstance(value, str):
        return str(value)
    if isinstance(value, int | float):
        return number(value)
    if isinstance(value, datetime.date):
        return value.isoformat()
    if isinstance(value, conditions.Compare | conditions.OneOf | conditions.All | conditions.Any_ | conditions.Not):
        return conditions.in_words(value)
    return None


def name_of(entry: Entry) -> str:
    """What an entry is called: its name, its label, or its id."""
    return str(getattr(entry, "name", None) or getattr(entry, "label", None) or entry.id)
