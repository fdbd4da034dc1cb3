"""The page of changed rules: by day what changed, from what to what, who changed it and why, and who reads again."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping

from markupsafe import Markup

from generator.press.manual.changed_values import (
    changes_on,
    in_order,
    matters,
    same,
    unlisted_values,
    what_changed,
)
from generator.press.manual.procedures import FOLDER, ProcedurePage, title_of
from generator.press.manual.quoted_values import value_at, without_role
from generator.press.manual.training import readings_of_all
from generator.press.words.addresses import PAGE_OF, address, anchor, to_entry
from generator.press.words.markup import Row, bullets, link, note, page, paragraph, table
from generator.records.decided import SAFETY, Change
from generator.records.families import Records
from generator.records.quoting import CannotQuote, found


def changed_rules_page(
    records: Records, pages: Mapping[str, ProcedurePage], as_of: datetime.date, here: str = PAGE_OF["changes"]
) -> str:
    """What nobody wrote down first, then all changes, the latest first."""
    columns = ("Since", "What", "Was", "Is", "Matters for", "Who", "Why", "Read again")
    unlisted = unlisted_values(records, pages)
    waiting = _who_reads(records, pages, as_of)
    return page(
        "Changed rules",
        paragraph(
            Markup(
                "The latest first. When a value of safety changes, whoever has signed a procedure that quotes it reads "
                "that procedure again and has it signed; when one of comfort changes, nobody has to. {} lists it by "
                "person."
            ).format(link(address(here, "reference/training.md"), "Training"))
        ),
        note(
            "Nobody has written down why",
            bullets(f"{one.path}: was {one.was}, is {one.now}" for one in unlisted),
            kind="first",
        )
        if unlisted
        else "",
        table(
            "Changes of rules by date, the latest first",
            columns,
            (_row(change, records, pages, waiting, here) for change in reversed(in_order(records))),
            "No rule has changed since the studio began to write changes down.",
        ),
    )


def _who_reads(
    records: Records, pages: Mapping[str, ProcedurePage], as_of: datetime.date
) -> dict[str, dict[str, list[str]]]:
    """For each change the procedures that quote it, and under each the people who signed it before and not since."""
    waiting: dict[str, dict[str, list[str]]] = {}
    for person, texts in readings_of_all(records, pages, as_of).items():
        for one in texts:
            for change in one.values:
                waiting.setdefault(change.id, {}).setdefault(one.procedure.id, []).append(records.people[person].name)
    return waiting


def _row(
    change: Change,
    records: Records,
    pages: Mapping[str, ProcedurePage],
    waiting: Mapping[str, Mapping[str, list[str]]],
    here: str,
) -> Row:
    return Row(
        anchor("changes", change.id),
        (
            change.on.isoformat(),
            _what(change, records, here),
            change.from_,
            change.to if not _is_past(change, records) else f"{change.to} (until it changed again)",
            matters(change.of, records),
            to_entry(here, change.by, records),
            change.why,
            bullets(_again(change, records, pages, waiting.get(change.id, {}), here)) or "no procedure quotes it",
        ),
    )


def _is_past(change: Change, records: Records) -> bool:
    value = value_at(without_role(change.of, records), records)
    return value is not None and not same(change.to, value.says)


def _what(change: Change, records: Records, here: str) -> str:
    words = what_changed(change, records)
    try:
        at = found(without_role(change.of, records), records)
    except CannotQuote:
        return f"{words} (there no more)"
    return link(address(here, PAGE_OF[at.family], anchor(at.family, *at.row)), words)


def _again(
    change: Change,
    records: Records,
    pages: Mapping[str, ProcedurePage],
    waiting: Mapping[str, list[str]],
    here: str,
) -> Iterator[Markup]:
    """Each procedure that quotes the value, with those who have to read it again."""
    for procedure_id, known in pages.items():
        if change not in changes_on(known, records) or procedure_id not in records.procedures:
            continue
        if matters(change.of, records) != SAFETY:
            who = "nobody has to"
        else:
            who = ", ".join(waiting.get(procedure_id, ())) or "everybody who signed it has"
        there = link(address(here, f"{FOLDER}/{procedure_id}.md"), title_of(procedure_id, pages))
        yield Markup("{}: {}").format(there, who)
