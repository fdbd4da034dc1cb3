"""The page of what changed in the format: every key that has another name now, from the table that the check uses."""

from __future__ import annotations

from generator.press.words.markup import Cells, bullets, code, heading, link, page, paragraph, table_of, ticked
from generator.records.format import FORMAT, RENAMED, REWORDED, TAKEN_AWAY, Renamed

CHANGES = "reference/format.md"
TITLE = "What changed in the format"
_HOW = (
    "Copy the content folder first.",
    "Run `python -m generator check`. It points at every key that has another name now, and says which.",
    "Write the new name in place of the old one. The value behind the key stays as it is.",
    f"Write `format: {FORMAT}` as the first line of `studio.yml`, and check again until no mistake is left.",
    "Quotes on the handbook’s own pages name keys too. The check points at those as soon as the records are right.",
    "Where the check says that the schemas are not those of this program, run `python -m generator schema`. "
    "It writes the schemas for editors anew, and nothing else.",
)


def changes_page() -> str:
    """Which format is read, what to do with records of an older one, and the keys that each format renamed."""
    blocks = [
        paragraph(
            ticked(
                f"This handbook reads format {FORMAT}; `format: {FORMAT}` in `studio.yml` says so for all records. "
                "Records in which nothing says it are those of format 1. The check refuses an older or a newer format, "
                "and no record is changed for you."
            )
        ),
        heading("Bring records up to date", "how"),
        bullets(ticked(line) for line in _HOW),
    ]
    others = [_row("changed", entry) for entry in (*REWORDED, *TAKEN_AWAY)]
    for since in sorted({entry.since for entry in RENAMED}, reverse=True):
        renamed = (_row("renamed", entry) for entry in RENAMED if entry.since == since)
        blocks += [
            heading(f"Format {since}", f"format-{since}"),
            table_of(f"Keys renamed in format {since}", renamed),
            table_of(f"Keys and words that are others, or there no more, since format {since}", others),
        ]
    return page(TITLE, *blocks)


def _row(kind: str, entry: Renamed) -> tuple[str, Cells]:
    record, old = entry.record, entry.old
    return f"{kind}-{record.replace('.', '-')}-{old.replace('_', '-')}", {
        "Record": link(f"records/{record.split('.')[0]}.html", record),
        "Was": code(old),
        "Is now": code(entry.new) if entry.new else "taken away",
        "Because": ticked(entry.why),
    }
