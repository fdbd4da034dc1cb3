"""A value as a document prints it, how close a computed one must come to it, and how many of them count."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from decimal import Decimal
from typing import NamedTuple


class Document(NamedTuple):
    """What was read. year: None where the copy that was read names none; such a document counts for nothing."""

    title: str
    body: str
    year: int | None

    def at(self, where: str, sure: str = "A", table: bool = False) -> Callable[[str], Printed]:
        """Makes the values of one place in the document.

        sure: A read in the document's own text, B read where another page quotes it. What is from memory, from the
        practice of the trade or from a calculation of ours is no published value: it stands in the room's own tests.
        """
        return lambda literal: Printed(literal, self, where, sure, table)

    def table(self, where: str, sure: str = "A") -> Callable[[str], Printed]:
        """The same for the values of one table."""
        return self.at(where, sure, table=True)


class Printed(NamedTuple):
    """One published value: the digits exactly as printed, and where."""

    literal: str
    document: Document
    where: str
    sure: str
    table: bool = False

    @property
    def tolerance(self) -> float:
        """Half of the last printed digit."""
        exponent = Decimal(self.literal).as_tuple().exponent
        assert isinstance(exponent, int)
        return 0.5 * 10.0**exponent

    @property
    def number(self) -> float:
        return float(self.literal)

    def agrees(self, computed: float) -> bool:
        """Whether the computed value rounds to what is printed."""
        # The last bits of a float must not decide about a value that sits on the edge.
        return abs(float(computed) - self.number) <= self.tolerance * (1 + 1e-9)


# What is no name of a document, and nobody's.
NAMELESS = (
    "arithmetic",
    "geometry",
    "common practice",
    "teaching page",
    "public image library",
    "by hand",
    "from memory",
    "unknown",
    "others",
)


def named(document: Document) -> bool:
    """Whether a document has a title, a body and a year, and neither title nor body is only a description."""
    words = f"{document.title} | {document.body}".lower()
    return bool(
        document.title.strip()
        and document.body.strip()
        and document.year
        and 1900 <= document.year <= 2100
        and not any(word in words for word in NAMELESS)
    )


def honest(values: Iterable[Printed]) -> dict[tuple[Document, str], int]:
    """What counts, by document and place: values that were read or quoted, of documents that are named.

    The same digits at the same place are one value. A table counts once for ten of its values, or for a part of ten;
    more than ten values of one place are a table, whatever they are called.
    """
    places: dict[tuple[Document, str], set[Printed]] = {}
    for value in values:
        if value.sure in ("A", "B") and named(value.document):
            places.setdefault((value.document, value.where), set()).add(value)
    return {place: counted(len(found), any(one.table for one in found)) for place, found in places.items()}


def counted(values: int, table: bool) -> int:
    """How many values a place counts for."""
    return -(-values // 10) if table or values > 10 else values
