"""Quotes of entries that are gone, found where the records cannot be read whole, so that all is told in one round."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from pathlib import Path

from generator.diagnostics import Diagnostic, Place
from generator.records.families import Known
from generator.records.text_file import read_text

_QUOTE = re.compile(r"\{\{\s*(?P<family>[a-z]+(?:-[a-z]+)*)\.(?P<id>[A-Za-z0-9]+(?:-[A-Za-z0-9]+)*)\b[^{}]*\}\}")


def gone(family: str, entry: str) -> str:
    """The cause that all references to one missing entry have in common."""
    return f"`{entry}` is gone from {family}"


def quotes_of_what_is_gone(paths: Iterable[Path], known: Known) -> Iterator[Diagnostic]:
    """Quotes in records and pages that name an entry which is not there."""
    for path in paths:
        text, _ = read_text(path)
        for number, line in enumerate((text or "").split("\n"), 1):
            for quote in () if line.lstrip().startswith("# ") and path.suffix == ".yml" else _QUOTE.finditer(line):
                family, entry = quote["family"], quote["id"]
                if family not in known.ids or family in known.open or entry in known.ids[family]:
                    continue
                yield Diagnostic(
                    "H701",
                    Place(str(path), number, quote.start() + 1, quote.end() + 1),
                    found=quote[0],
                    expected=f"the id of an entry in `{family}`",
                    help="quote another entry, or take the quote away",
                    says=f"there is no `{entry}` in {family}",
                    cause=gone(family, entry),
                )


def files_with_quotes(content: Path, handbook: Path) -> list[Path]:
    """Every file of records, and every page."""
    return [*sorted(content.glob("*.yml")), *sorted((content / "jobs").glob("*.yml")), *sorted(handbook.rglob("*.md"))]
