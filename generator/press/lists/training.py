"""The page of training: for each person what is read, what has to be read again, and what is not yet read."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from generator.press.lists.here import Here
from generator.press.manual.changed_values import change_in_words
from generator.press.manual.procedures import minutes_to_read
from generator.press.manual.training import ReadText, readings_of_all
from generator.press.words.addresses import PAGE_OF, anchor
from generator.press.words.estimates import in_hours
from generator.press.words.markup import Cells, bullets, code, heading, link, page, paragraph, table_of
from generator.records.people import Signed

TRAINING = "reference/training.md"
START = "start-here.md"


def training_page(here: Here) -> str:
    """All people who are here on the day at a glance, then each of them."""
    each = readings_of_all(here.records, here.procedures, here.as_of)
    glance = {anchor("glance", person): _at_a_glance(person, found, here) for person, found in each.items()}
    return page(
        "Training",
        paragraph(
            Markup(
                "A procedure counts as read when somebody watched it done and signed for the text as it was. "
                "When a text changes in meaning it is read again; when only its wording changes it is not. When a "
                "value of safety that it quotes changes, it is read again too: {}. The lists to read are under {}, "
                "with the sheets to sign."
            ).format(here.to(PAGE_OF["changes"], "changed rules"), here.to(START, "Start here"))
        ),
        table_of("Training at a glance", glance.items()),
        *(block for person, found in each.items() for block in _person(person, found, here)),
    )


def _at_a_glance(person: str, found: list[ReadText], here: Here) -> Cells:
    states = [one.state for one in found]
    left = (here.procedures.get(one.procedure.id) for one in found if one.state != "read")
    return {
        "Name": link(f"#{anchor('training', person)}", here.records.people[person].name),
        "Role": here.records.people[person].role,
        "Read": str(states.count("read")),
        "To be read again": str(states.count("read again")),
        "Not yet read": str(states.count("not yet")),
        "Left to read": in_hours(sum(minutes_to_read(page, here.records) for page in left if page is not None)),
    }


def _person(person: str, found: list[ReadText], here: Here) -> Iterator[str]:
    """What is to be read again, then what is read, then what is left."""
    name = here.records.people[person].name
    yield heading(name, anchor("training", person))
    yield paragraph(here.to_record("people", person, f"What {name} may work, and other training"))
    signed = [(one, one.signed) for one in found if one.signed is not None]
    yield table_of(
        f"Signed off for {name}",
        (
            (anchor("training", person, one.procedure.id), _signed(one, by, here))
            for one, by in sorted(signed, key=lambda pair: pair[0].state == "read")
        ),
        f"{name} has not been signed off for anything yet.",
    )
    left = [here.to_procedure(one.procedure.id) for one in found if one.signed is None]
    yield paragraph(Markup("Not yet read: {}.").format(Markup(", ").join(left))) if left else paragraph("None is left.")


def _signed(one: ReadText, signed: Signed, here: Here) -> Cells:
    changes = [f"{revision.date.isoformat()}: {revision.what}" for revision in one.since]
    changes += [f"{change.on.isoformat()}: {change_in_words(change, here.records)}" for change in one.values]
    if one.not_said:
        changes.append("A value that it quotes has changed, and nobody has said why; ask its owner.")
    if one.unlisted:
        changes.append("The text has changed, and nobody has said how; ask its owner.")
    return {
        "Procedure": here.to_procedure(one.procedure.id),
        "State": one.state if one.state == "read" else Markup("<strong>{}</strong>").format(one.state),
        "Signed on": signed.on.isoformat(),
        "Text": code(signed.text),
        "Watched by": here.to_entry(signed.by),
        "What has changed since": bullets(changes) or "nothing that matters",
    }
