"""The page of what changed in the format: every key that has another name now, from the table that the check uses."""

from __future__ import annotations

from markupsafe import Markup

from generator.press.words.markup import Row, bullets, heading, link, page, paragraph, table, ticked
from generator.records.format import FORMAT, RENAMED, REWORDED, TAKEN_AWAY, Renamed, Reworded, TakenAway

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
    for since in sorted({entry.since for entry in RENAMED}, reverse=True):
        rows = (_row(entry) for entry in RENAMED if entry.since == since)
        blocks += [
            heading(f"Format {since}", f"format-{since}"),
            table(f"Keys renamed in format {since}", ("Record", "Was", "Is now", "Because"), rows),
            table(
                f"Keys and words that are others, or there no more, since format {since}",
                ("Record", "Was", "Is now", "Because"),
                [*(_word(entry) for entry in REWORDED), *(_without(entry) for entry in TAKEN_AWAY)],
            ),
        ]
    return page(TITLE, *blocks)


def _row(entry: Renamed) -> Row:
    family = entry.record.split(".")[0]
    return Row(
        f"renamed-{entry.record.replace('.', '-')}-{entry.old.replace('_', '-')}",
        (
            link(f"records/{family}.html", entry.record),
            Markup("<code>{}</code>").format(entry.old),
            Markup("<code>{}</code>").format(entry.new),
            ticked(entry.why),
        ),
    )


def _word(entry: Reworded) -> Row:
    family = entry.key.split(".")[0]
    old, new = (Markup("<code>{}</code>").format(word) for word in (entry.old, entry.new))
    return Row(_at(entry.key, entry.old), (link(f"records/{family}.html", entry.key), old, new, ticked(entry.why)))


def _without(entry: TakenAway) -> Row:
    family = entry.record.split(".")[0]
    old = Markup("<code>{}</code>").format(entry.old)
    return Row(
        _at(entry.record, entry.old),
        (link(f"records/{family}.html", entry.record), old, "taken away", ticked(entry.why)),
    )


def _at(record: str, old: str) -> str:
    return f"changed-{record.replace('.', '-')}-{old.replace('_', '-')}"
