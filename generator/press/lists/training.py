"""The page of training: for each person what is read, what has to be read again, and what is not yet read."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping

from markupsafe import Markup

from generator.press.manual.changed_values import change_in_words
from generator.press.manual.procedures import FOLDER, ProcedurePage, minutes_to_read, title_of
from generator.press.manual.training import ReadText, readings_of_all
from generator.press.words.addresses import PAGE_OF, address, anchor, to_entry, to_record
from generator.press.words.estimates import in_hours
from generator.press.words.markup import Row, bullets, heading, link, page, paragraph, table
from generator.records.families import Records

TRAINING = "reference/training.md"
START = "start-here.md"


def training_page(
    records: Records, pages: Mapping[str, ProcedurePage], here: str = TRAINING, as_of: datetime.date = datetime.date.min
) -> str:
    """All people who are here on the day at a glance, then each of them."""
    each = readings_of_all(records, pages, as_of)
    columns = ("Name", "Role", "Read", "To be read again", "Not yet read", "Left to read")
    blocks: list[str] = [
        paragraph(
            Markup(
                "A procedure counts as read when somebody watched it done and signed for the text as it was. "
                "When a text changes in meaning it is read again; when only its wording changes it is not. When a "
                "value of safety that it quotes changes, it is read again too: {}. The lists to read are under {}, "
                "with the sheets to sign."
            ).format(link(address(here, PAGE_OF["changes"]), "changed rules"), link(address(here, START), "Start here"))
        ),
        table(
            "Training at a glance",
            columns,
            (
                Row(
                    anchor("glance", person),
                    (
                        link(f"#{anchor('training', person)}", records.people[person].name),
                        records.people[person].role,
                        *(str(_count(found, state)) for state in ("read", "read again", "not yet")),
                        in_hours(_left(found, records, pages)),
                    ),
                )
                for person, found in each.items()
            ),
        ),
    ]
    for person, found in each.items():
        blocks += _person(person, found, records, pages, here)
    return page("Training", *blocks)


def _person(
    person: str, found: list[ReadText], records: Records, pages: Mapping[str, ProcedurePage], here: str
) -> Iterator[str]:
    """What is to be read again, then what is read, then what is left."""
    name = records.people[person].name
    yield heading(name, anchor("training", person))
    yield paragraph(to_record(here, "people", person, f"What {name} may work, and other training"))
    rows = sorted((one for one in found if one.signed is not None), key=lambda one: one.state == "read")
    columns = ("Procedure", "State", "Signed on", "Text", "Watched by", "What has changed since")
    yield table(
        f"Signed off for {name}",
        columns,
        (_row(person, one, records, pages, here) for one in rows),
        f"{name} has not been signed off for anything yet.",
    )
    left = [_link(one, pages, here) for one in found if one.signed is None]
    yield paragraph(Markup("Not yet read: {}.").format(Markup(", ").join(left))) if left else paragraph("None is left.")


def _count(found: list[ReadText], state: str) -> int:
    return sum(one.state == state for one in found)


def _left(found: list[ReadText], records: Records, pages: Mapping[str, ProcedurePage]) -> int:
    return sum(
        minutes_to_read(pages[one.procedure.id], records)
        for one in found
        if one.state != "read" and one.procedure.id in pages
    )


def _link(one: ReadText, pages: Mapping[str, ProcedurePage], here: str) -> str:
    title = title_of(one.procedure.id, pages)
    return link(address(here, f"{FOLDER}/{one.procedure.id}.md"), title) if one.procedure.id in pages else title


def _row(person: str, one: ReadText, records: Records, pages: Mapping[str, ProcedurePage], here: str) -> Row:
    signed = one.signed
    assert signed is not None
    state: str = one.state if one.state == "read" else Markup("<strong>{}</strong>").format(one.state)
    changes = [f"{revision.date.isoformat()}: {revision.what}" for revision in one.since]
    changes += [f"{change.on.isoformat()}: {change_in_words(change, records)}" for change in one.values]
    if one.not_said:
        changes.append("A value that it quotes has changed, and nobody has said why; ask its owner.")
    if one.unlisted:
        changes.append("The text has changed, and nobody has said how; ask its owner.")
    return Row(
        anchor("training", person, one.procedure.id),
        (
            _link(one, pages, here),
            state,
            signed.on.isoformat(),
            Markup("<code>{}</code>").format(signed.text),
            to_entry(here, signed.by, records),
            bullets(changes) or "nothing that matters",
        ),
    )
