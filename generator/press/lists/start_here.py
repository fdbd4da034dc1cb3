"""The reading path of a new hire by role, the sheets to sign, and the procedures in the order of a day.

Generated, so that it cannot differ from the records; a test holds order and groups in the menu against them.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby
from typing import NamedTuple

from markupsafe import Markup

from generator.press.lists.training import START, TRAINING
from generator.press.manual.procedures import FOLDER, INDEX, ProcedurePage, listed_hash, minutes_to_read, title_of
from generator.press.manual.reviews import next_review
from generator.press.words.addresses import address, anchor, to_entry
from generator.press.words.estimates import in_hours
from generator.press.words.markup import Row, bullets, folded, heading, link, page, paragraph, table
from generator.press.words.print_line import PRINT_LINE, with_words_stamp
from generator.press.words.shared import Shared
from generator.press.words.templates import templates_of
from generator.records.families import Records
from generator.records.procedures import ROLES, Procedure
from generator.records.studio import Studio

_ROOMS = ("lists", "words")
STYLE = Shared(_ROOMS, "sign-off.css.j2")


class ToSign(NamedTuple):
    """One line of the sheet to sign."""

    title: str
    text: str


def read_by(role: str, records: Records) -> list[Procedure]:
    """What a role reads, in the order of the day."""
    return [procedure for procedure in records.procedures.values() if role in procedure.read_by]


def sign_off_of(role: str) -> str:
    """Where the sheet of a role is in the site."""
    return f"sign-off/{role}.html"


def to_sign(role: str, records: Records, pages: Mapping[str, ProcedurePage]) -> list[ToSign]:
    """The lines of a role's sheet, with the texts as they are now."""
    return [
        ToSign(pages[procedure.id].title, listed_hash(procedure, pages[procedure.id]))
        for procedure in read_by(role, records)
        if procedure.id in pages
    ]


def start_page(records: Records, pages: Mapping[str, ProcedurePage], here: str = START) -> str:
    """For each role its list, how long it takes to read, and the sheet to sign."""
    blocks: list[str] = [
        paragraph(
            Markup(
                "Read one procedure, watch it done, do it while somebody watches, and have it signed. Then the next. "
                "Licence, local codes and what a doctor says come before every page, and {} says what is not "
                "confirmed yet."
            ).format(link(address(here, "reference/studio.md", "studio-local-rules"), "the studio’s list"))
        ),
        paragraph(
            Markup("What each person has read, and what has to be read again, is listed under {}.").format(
                link(address(here, TRAINING), "training")
            )
        ),
        bullets(link(f"#{role}", f"I am an {role}") for role in ROLES),
    ]
    for role in ROLES:
        blocks += _path(role, records, pages, here)
    return page("Start here", *blocks)


def _path(role: str, records: Records, pages: Mapping[str, ProcedurePage], here: str) -> Iterator[str]:
    path = read_by(role, records)
    total = sum(minutes_to_read(pages[p.id], records) for p in path if p.id in pages)
    yield heading(f"For an {role}", role)
    yield paragraph(
        Markup("{} procedures, {} to read at {} words a minute. {}.").format(
            str(len(path)),
            in_hours(total),
            link(
                address(here, "reference/studio.md", "studio-limits-words-a-minute"),
                str(records.studio.limits.words_a_minute),
            ),
            link(sign_off_of(role), "The sheet to print and sign"),
        )
    )
    if role == "apprentice" and "apprentices" in pages:
        yield paragraph(
            Markup("The list is in the order of a day. What is signed first is listed under {}.").format(
                link(address(here, f"{FOLDER}/apprentices.md", "steps"), pages["apprentices"].title)
            )
        )
    listed = table(
        f"What an {role} reads",
        ("Procedure", "To read", "Afterwards you can"),
        (
            Row(
                anchor(role, procedure.id),
                (
                    _link(procedure, pages, here),
                    _time(procedure, records, pages),
                    procedure.then_can,
                ),
            )
            for procedure in path
        ),
    )
    yield folded(f"The list of an {role}", listed, unfolded=True)


def procedures_page(records: Records, pages: Mapping[str, ProcedurePage], here: str = INDEX) -> str:
    """All procedures in their groups, with what each is good for and who looks after it."""
    blocks: list[str] = [
        paragraph(
            Markup(
                "In the order of a day. Each says what it is for, who does it, what you need, the steps, when to stop, "
                "what to write down, and what can go wrong. New here? {}"
            ).format(link(address(here, START), "Start here."))
        ),
    ]
    for group, members in groupby(records.procedures.values(), key=lambda procedure: procedure.group):
        listed = (
            Row(
                anchor("procedure", p.id),
                (
                    _link(p, pages, here),
                    p.then_can,
                    _time(p, records, pages),
                    to_entry(here, p.owner, records),
                    day.isoformat() if (day := next_review(p)) else "now",
                ),
            )
            for p in members
        )
        columns = ("Procedure", "Afterwards you can", "To read", "Owner", "Next review")
        caption = f"Procedures: {group[0].lower()}{group[1:]}"
        blocks += [heading(group, anchor("group", group.lower().replace(" ", "-"))), table(caption, columns, listed)]
    return page("Procedures", *blocks)


def _link(procedure: Procedure, pages: Mapping[str, ProcedurePage], here: str) -> str:
    title = title_of(procedure.id, pages)
    return link(address(here, f"{FOLDER}/{procedure.id}.md"), title) if procedure.id in pages else title


def _time(procedure: Procedure, records: Records, pages: Mapping[str, ProcedurePage]) -> str:
    return in_hours(minutes_to_read(pages[procedure.id], records)) if procedure.id in pages else "not written yet"


def sign_off_html(role: str, studio: Studio, lines: Sequence[ToSign], as_of: datetime.date) -> str:
    """The sheet on which a role's procedures are signed, as one HTML file."""
    context = {
        "role": role,
        "studio": studio.name,
        "paper": studio.paper,
        "lines": lines,
        "as_of": as_of.isoformat(),
        "style": STYLE.inline,
        "script": PRINT_LINE.inline,
    }
    html = templates_of(*_ROOMS).get_template("sign-off.html.j2").render(context)
    return with_words_stamp(html, sign_off_of(role), studio.name, as_of)
