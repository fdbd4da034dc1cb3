"""What records name, and whether it is there: references, and quotes where the records cannot be read whole."""

import re
from collections.abc import Iterable, Iterator
from pathlib import Path

from generator.diagnostics import Diagnostic, Place
from generator.near_miss import did_you_mean, nearest
from generator.records.families import Known
from generator.records.ids import Reference
from generator.records.record import singles
from generator.records.text_file import read_text

_QUOTE = re.compile(r"\{\{\s*(?P<family>[a-z]+(?:-[a-z]+)*)\.(?P<id>[A-Za-z0-9]+(?:-[A-Za-z0-9]+)*)\b[^{}]*\}\}")


def references(value: object) -> Iterator[Reference]:
    """Every reference inside a record."""
    return (found for found in singles(value) if isinstance(found, Reference))


def dangling(found: list[Reference], known: Known, finished: bool = False) -> Iterator[Diagnostic]:
    """References to entries that are not there. finished: whether they are those of a finished job, which stays."""
    for wanted in found:
        family, ids = wanted.family, known.ids.get(wanted.family, {})
        if wanted in ids or family in known.open:
            continue
        listed = ", ".join(list(ids)[:12]) + (", …" if len(ids) > 12 else "")
        hint = did_you_mean(nearest(wanted, ids), f"ids there: {listed}" if ids else f"`{family}.yml` is empty")
        if finished:
            hint = (
                f"the job is finished and stays as it was written: write `{wanted}` into {family}.yml again, "
                "with `until: {on: DAY, why: retired}`, or left, used up, recalled"
            )
        yield Diagnostic(
            "L401",
            wanted.place,
            found=f"“{wanted}”",
            expected=f"the id of an entry in `{family}`",
            help=hint,
            says=f"there is no `{wanted}` in {family}",
            cause=gone(family, wanted),
        )


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
