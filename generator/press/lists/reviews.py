"""The page of reviews: what is looked after by whom, and what is due next."""

from __future__ import annotations

import datetime
from collections.abc import Mapping

from markupsafe import Markup

from generator.press.explained.worked import to_formula
from generator.press.manual.procedures import FOLDER, ProcedurePage, title_of
from generator.press.manual.reviews import Due, not_reviewed, reviewed_in_words, reviews_due
from generator.press.words.addresses import PAGE_OF, address, anchor, to_entry
from generator.press.words.formatted import measured
from generator.press.words.markup import Row, bullets, heading, link, note, page, paragraph, table
from generator.records.families import Records
from generator.trade import dates

CALENDAR = "reference/reviews.ics"


def reviews_page(
    records: Records, pages: Mapping[str, ProcedurePage], as_of: datetime.date, here: str = PAGE_OF["procedures"]
) -> str:
    """Overdue ones first and named; then all, by the day on which they are due."""
    due = reviews_due(records, as_of)
    late = [each for each in due if each.overdue]
    named = bullets(
        Markup("{}: {} {}").format(
            _link(each, pages, here), records.people[each.entry.owner].name, _late(each, records)
        )
        for each in late
    )
    lacking = not_reviewed(records)
    texts = ("Procedure", "Since", "Text", "What changed", "Read again")
    columns = ("What", "Kind", "Owner", "Reviewed", "Interval", "Next review", "State")
    return page(
        "Reviews",
        paragraph(
            Markup(
                "As of {}, the earliest first. The next review is due {}. A new law, product or accident calls for "
                "one at once. An overdue review keeps nothing from being printed; whoever works by the page "
                "sees it there."
            ).format(as_of.isoformat(), to_formula(here, dates.next_review, "one interval after the last"))
        ),
        paragraph(link(address(here, CALENDAR), "All days as a calendar file")),
        note("Overdue", named, kind="first") if late else paragraph("No review is overdue."),
        note("Nobody looks after", bullets(lacking)) if lacking else "",
        table("Reviews by the day on which they are due", columns, (_row(each, records, pages, here) for each in due)),
        heading("How the texts changed", "texts"),
        paragraph("A text whose wording alone changed is not read again by those who know the one before."),
        table(
            "Texts of the procedures, the latest first",
            texts,
            (
                Row(
                    anchor("text", procedure.id, str(number)),
                    (
                        title_of(procedure.id, pages),
                        revision.date.isoformat(),
                        Markup("<code>{}</code>").format(revision.text),
                        revision.what,
                        "no, wording only" if revision.wording_only else "yes",
                    ),
                )
                for procedure in records.procedures.values()
                for number, revision in reversed([*enumerate(procedure.revisions)])
            ),
        ),
    )


def _late(due: Due, records: Records) -> str:
    if due.day is None:
        return f"has not read it through yet ({reviewed_in_words(due.entry, records)})"
    return f"was to read it through by {due.day.isoformat()}"


def _row(due: Due, records: Records, pages: Mapping[str, ProcedurePage], here: str) -> Row:
    entry = due.entry
    return Row(
        anchor(due.family, entry.id),
        (
            _link(due, pages, here),
            "procedure" if due.family == FOLDER else "records",
            to_entry(here, entry.owner, records),
            reviewed_in_words(entry, records),
            measured(entry.interval, records),
            due.day.isoformat() if due.day else "now",
            Markup("<strong>overdue</strong>") if due.overdue else "in time",
        ),
    )


def _link(due: Due, pages: Mapping[str, ProcedurePage], here: str) -> str:
    """The title linked to the page; a page that is not there yet cannot be linked."""
    entry = due.entry
    if due.family == FOLDER:
        there = f"{FOLDER}/{entry.id}.md"
        return link(address(here, there), pages[entry.id].title) if entry.id in pages else entry.id
    return entry.id if entry.id == "loads" else link(address(here, PAGE_OF[entry.id]), entry.id)
