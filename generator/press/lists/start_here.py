"""The reading path of a new hire by role, the sheets to sign, and the procedures in the order of a day.

Generated, so that it cannot differ from the records; a test holds order and groups in the menu against them.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby

from markupsafe import Markup

from generator.press.lists.here import Here
from generator.press.lists.training import START, TRAINING
from generator.press.manual.procedures import FOLDER, ProcedurePage, listed_hash, minutes_to_read
from generator.press.manual.reviews import next_review
from generator.press.words.addresses import PAGE_OF, anchor
from generator.press.words.estimates import in_hours
from generator.press.words.markup import Cells, bullets, folded, heading, link, page, paragraph, table_of
from generator.press.words.one_file import OneFile
from generator.records.families import Records
from generator.records.procedures import ROLES, Procedure
from generator.records.studio import Studio

PAGE = OneFile(("lists", "words"), "sign-off")


def read_by(role: str, records: Records) -> list[Procedure]:
    """What a role reads, in the order of the day."""
    return [procedure for procedure in records.procedures.values() if role in procedure.read_by]


def sign_off_of(role: str) -> str:
    """Where the sheet of a role is in the site."""
    return f"sign-off/{role}.html"


def to_sign(role: str, records: Records, pages: Mapping[str, ProcedurePage]) -> list[tuple[str, str]]:
    """The lines of a role's sheet: each procedure's title, with the hash of its text as it is now."""
    return [
        (pages[procedure.id].title, listed_hash(procedure, pages[procedure.id]))
        for procedure in read_by(role, records)
        if procedure.id in pages
    ]


def start_page(here: Here) -> str:
    """For each role its list, how long it takes to read, and the sheet to sign."""
    return page(
        "Start here",
        paragraph(
            Markup(
                "Read one procedure, watch it done, do it while somebody watches, and have it signed. Then the next. "
                "Licence, local codes and what a doctor says come before every page, and {} says what is not "
                "confirmed yet."
            ).format(here.to(PAGE_OF["studio"], "the studio’s list", "studio-local-rules"))
        ),
        paragraph(
            Markup("What each person has read, and what has to be read again, is listed under {}.").format(
                here.to(TRAINING, "training")
            )
        ),
        bullets(link(f"#{role}", f"I am an {role}") for role in ROLES),
        *(block for role in ROLES for block in _path(role, here)),
    )


def _path(role: str, here: Here) -> Iterator[str]:
    records, pages = here.records, here.procedures
    path = read_by(role, records)
    total = sum(minutes_to_read(pages[p.id], records) for p in path if p.id in pages)
    yield heading(f"For an {role}", role)
    yield paragraph(
        Markup("{} procedures, {} to read at {} words a minute. {}.").format(
            str(len(path)),
            in_hours(total),
            here.to(PAGE_OF["studio"], str(records.studio.limits.words_a_minute), "studio-limits-words-a-minute"),
            link(sign_off_of(role), "The sheet to print and sign"),
        )
    )
    if role == "apprentice" and "apprentices" in pages:
        yield paragraph(
            Markup("The list is in the order of a day. What is signed first is listed under {}.").format(
                here.to(f"{FOLDER}/apprentices.md", pages["apprentices"].title, "steps")
            )
        )
    listed = table_of(f"What an {role} reads", here.rows(role, path, _to_read))
    yield folded(f"The list of an {role}", listed, unfolded=True)


def _to_read(procedure: Procedure, here: Here) -> Cells:
    return {
        "Procedure": here.to_procedure(procedure.id),
        "To read": _time(procedure, here),
        "Afterwards you can": procedure.then_can,
    }


def procedures_page(here: Here) -> str:
    """All procedures in their groups, with what each is good for and who looks after it."""
    blocks: list[str] = [
        paragraph(
            Markup(
                "In the order of a day. Each says what it is for, who does it, what you need, the steps, when to stop, "
                "what to write down, and what can go wrong. New here? {}"
            ).format(here.to(START, "Start here."))
        ),
    ]
    for group, members in groupby(here.records.procedures.values(), key=lambda procedure: procedure.group):
        rows = here.rows("procedure", members, _procedure)
        blocks += [
            heading(group, anchor("group", group.lower().replace(" ", "-"))),
            table_of(f"Procedures: {group[0].lower()}{group[1:]}", rows),
        ]
    return page("Procedures", *blocks)


def _procedure(procedure: Procedure, here: Here) -> Cells:
    day = next_review(procedure)
    return {
        "Procedure": here.to_procedure(procedure.id),
        "Afterwards you can": procedure.then_can,
        "To read": _time(procedure, here),
        "Owner": here.to_entry(procedure.owner),
        "Next review": day.isoformat() if day else "now",
    }


def _time(procedure: Procedure, here: Here) -> str:
    written = here.procedures.get(procedure.id)
    return in_hours(minutes_to_read(written, here.records)) if written else "not written yet"


def sign_off_html(role: str, studio: Studio, lines: Sequence[tuple[str, str]], as_of: datetime.date) -> str:
    """The sheet on which a role's procedures are signed, as one HTML file."""
    return PAGE.page(sign_off_of(role), studio, as_of, role=role, lines=lines)
