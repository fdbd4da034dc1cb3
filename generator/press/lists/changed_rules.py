"""The page of changed rules: by day what changed, from what to what, who changed it and why, and who reads again."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from markupsafe import Markup

from generator.press.lists.here import Here
from generator.press.lists.training import TRAINING
from generator.press.manual.changed_values import (
    changes_on,
    in_order,
    matters,
    same,
    unlisted_values,
    what_changed,
)
from generator.press.manual.quoted_values import value_at, without_role
from generator.press.manual.training import readings_of_all
from generator.press.words.addresses import PAGE_OF, anchor
from generator.press.words.markup import Cells, bullets, note, page, paragraph, table_of
from generator.records.decided import SAFETY, Change
from generator.records.families import Records
from generator.records.quoting import CannotQuote, found


def changed_rules_page(here: Here) -> str:
    """What nobody wrote down first, then all changes, the latest first."""
    records = here.records
    unlisted = unlisted_values(records, here.procedures)
    waiting = _who_reads(here)
    return page(
        "Changed rules",
        paragraph(
            Markup(
                "The latest first. When a value of safety changes, whoever has signed a procedure that quotes it reads "
                "that procedure again and has it signed; when one of comfort changes, nobody has to. {} lists it by "
                "person."
            ).format(here.to(TRAINING, "Training"))
        ),
        note(
            "Nobody has written down why",
            bullets(f"{one.path}: was {one.was}, is {one.now}" for one in unlisted),
            kind="first",
        )
        if unlisted
        else "",
        table_of(
            "Changes of rules by date, the latest first",
            ((anchor("changes", change.id), _change(change, here, waiting)) for change in reversed(in_order(records))),
            "No rule has changed since the studio began to write changes down.",
        ),
    )


def _who_reads(here: Here) -> dict[tuple[str, str], list[str]]:
    """For each change and procedure that quotes it, by id, the people who signed it before and not since."""
    waiting: dict[tuple[str, str], list[str]] = {}
    for person, texts in readings_of_all(here.records, here.procedures, here.as_of).items():
        name = here.records.people[person].name
        for one in texts:
            for change in one.values:
                waiting.setdefault((change.id, one.procedure.id), []).append(name)
    return waiting


def _change(change: Change, here: Here, waiting: Mapping[tuple[str, str], list[str]]) -> Cells:
    again = bullets(_again(change, here, waiting))
    return {
        "Since": change.on.isoformat(),
        "What": _what(change, here),
        "Was": change.from_,
        "Is": f"{change.to} (until it changed again)" if _is_past(change, here.records) else change.to,
        "Matters for": matters(change.of, here.records),
        "Who": here.to_entry(change.by),
        "Why": change.why,
        "Read again": again or "no procedure quotes it",
    }


def _is_past(change: Change, records: Records) -> bool:
    value = value_at(without_role(change.of, records), records)
    return value is not None and not same(change.to, value.says)


def _what(change: Change, here: Here) -> str:
    words = what_changed(change, here.records)
    try:
        at = found(without_role(change.of, here.records), here.records)
    except CannotQuote:
        return f"{words} (there no more)"
    return here.to(PAGE_OF[at.family], words, anchor(at.family, *at.row))


def _again(change: Change, here: Here, waiting: Mapping[tuple[str, str], list[str]]) -> Iterator[Markup]:
    """Each procedure that quotes the value, with those who have to read it again."""
    for procedure_id, known in here.procedures.items():
        if change not in changes_on(known, here.records) or procedure_id not in here.records.procedures:
            continue
        if matters(change.of, here.records) != SAFETY:
            who = "nobody has to"
        else:
            who = ", ".join(waiting.get((change.id, procedure_id), ())) or "everybody who signed it has"
        yield Markup("{}: {}").format(here.to_procedure(procedure_id), who)
