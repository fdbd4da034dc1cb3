"""The page that is made: where it is, what it is made from, and how it says and links what is on record."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterable, Iterator, Mapping
from types import MappingProxyType
from typing import NamedTuple, TypeVar

from markupsafe import Markup

from generator.planning.computed import Computed
from generator.press.explained import worked
from generator.press.explained.worked import WorkedOut
from generator.press.manual.procedures import FOLDER, ProcedurePage, title_of
from generator.press.words import addresses, formatted
from generator.press.words.markup import Cells, link
from generator.quantities import Quantity
from generator.records.families import Records
from generator.records.ids import Reference
from generator.records.record import Entry

E = TypeVar("E", bound=Entry)
# The id of a value's row, what the value belongs to, and the value, or how it came about.
Step = tuple[str, str, Computed | WorkedOut]


class Here(NamedTuple):
    """A generated page while it is made. procedures: the authored pages of procedures, by id."""

    records: Records
    address: str
    as_of: datetime.date
    procedures: Mapping[str, ProcedurePage] = MappingProxyType({})

    def to(self, page: str, text: str, at: str = "") -> Markup:
        """A link to a page of the site, or to a place on it."""
        return link(addresses.address(self.address, page, at), text)

    def to_record(self, family: str, entry: str, text: str) -> Markup:
        """A link to a record's row."""
        return addresses.to_record(self.address, family, entry, text)

    def to_entry(self, reference: Reference) -> Markup:
        """A link to the entry that a record refers to, under its name."""
        return addresses.to_entry(self.address, reference, self.records)

    def to_source(self, source: str) -> Markup:
        """A link to a source."""
        return addresses.to_source(self.address, source, self.records)

    def to_procedure(self, procedure: str) -> str:
        """The title of a procedure, linked where its page is there."""
        title = title_of(procedure, self.procedures)
        return self.to(f"{FOLDER}/{procedure}.md", title) if procedure in self.procedures else title

    def to_formula(self, function: Callable[..., object], text: str = "") -> Markup:
        """A link to a formula."""
        return worked.to_formula(self.address, function, text)

    def rows(self, family: str, entries: Iterable[E], cells: Callable[[E, Here], Cells]) -> Iterator[tuple[str, Cells]]:
        """A row for each entry, linked by family and id; one that rests on a source of its own ends with that."""
        for entry in entries:
            source = getattr(entry, "source", None)
            rests_on = {} if source is None else {"Source": self.to_source(source)}
            yield addresses.anchor(family, entry.id), {**cells(entry, self), **rests_on}

    def measured(self, quantity: Quantity) -> Markup:
        """A quantity of a record."""
        return formatted.measured(quantity, self.records)

    def calculated(self, low: float, high: float, kind: str) -> Markup:
        """A value or range in canonical units that no record has as it is."""
        return formatted.calculated(low, high, kind, self.records)

    def computed(self, value: Computed) -> Markup:
        """A computed value, linked to its formula."""
        return self.to_formula(value.function, self.calculated(value.low, value.high, value.kind))

    def how_computed(self, about: str, steps: Iterable[Step]) -> Markup:
        """How the values of a table came about, folded away."""
        rows = (
            (at, of, worked.as_worked(value, self.records) if isinstance(value, Computed) else value)
            for at, of, value in steps
        )
        return worked.how_computed(about, rows, self.records, self.address)
