"""What the quotes of a page say, one after the other: the state in which its text is listed."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from typing import NamedTuple

from generator.diagnostics import Place
from generator.quantities import Quantity
from generator.records.families import Records
from generator.records.quoting import ROLES, CannotQuote, found, in_words

# What something is called, and where it is written, is no rule.
_NAMES = ("name", "label", "title", "body", "year", "where")


class QuotedValue(NamedTuple):
    """One value that a page quotes: its path without roles, and what its record says."""

    path: str
    says: str
    place: Place | None


def quoted_values(paths: Sequence[str], records: Records) -> list[QuotedValue]:
    """What is quoted by these paths, in their order; names, and what cannot be quoted, are left out."""
    values = []
    for written_path in paths:
        path = without_role(written_path, records)
        value = None if path.rpartition(".")[2] in _NAMES else value_at(path, records)
        if value is not None:
            values.append(value)
    return values


def value_at(path: str, records: Records) -> QuotedValue | None:
    """The value at a path; None where there is none."""
    try:
        value = found(path, records).value
    except CannotQuote:
        return None
    if isinstance(value, Quantity):
        return QuotedValue(path, _plain(value.text), value.place)
    words = in_words(value, records) or ""
    place = getattr(value, "place", None)
    if isinstance(value, str) and " " in words:
        # A sentence is listed by a hash, and shown where it stands.
        words = f"text {hashlib.sha256(words.encode()).hexdigest()[:6]}"
    return QuotedValue(path, _plain(words), place)


def without_role(path: str, records: Records) -> str:
    """The path to the article that a role means."""
    head, role, rest = [*path.split(".", 2), "", ""][:3]
    article = getattr(records.studio.roles, role, None) if head == ROLES else None
    return path if article is None else f"{article.family}.{article}.{rest}"


def listed_as(values: Sequence[QuotedValue]) -> str:
    """How they are written beside a listed text."""
    return f'quotes: "{"; ".join(_plain(value.says) for value in values)}"'


def _plain(words: str) -> str:
    """On one line, with no sign that would end it or part it."""
    return " ".join(words.replace(";", ",").replace('"', "'").split())
