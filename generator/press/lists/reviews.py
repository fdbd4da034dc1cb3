"""The page of reviews: what is looked after by whom, and what is due next."""

from __future__ import annotations

from markupsafe import Markup

from generator.press.lists.here import Here
from generator.press.manual.procedures import FOLDER, title_of
from generator.press.manual.reviews import Due, not_reviewed, reviewed_in_words, reviews_due
from generator.press.words.addresses import PAGE_OF, anchor
from generator.press.words.markup import Cells, bullets, code, heading, note, page, paragraph, table_of
from generator.records.families import Records
from generator.records.procedures import Procedure, Revision
from generator.trade import dates

CALENDAR = "reference/reviews.ics"


def reviews_page(here: Here) -> str:
    """Overdue ones first and named; then all, by the day on which they are due."""
    records = here.records
    due = reviews_due(records, here.as_of)
    late = [
        Markup("{}: {} {}").format(_link(each, here), records.people[each.entry.owner].name, _late(each, records))
        for each in due
        if each.overdue
    ]
    lacking = not_reviewed(records)
    reviews = {anchor(each.family, each.entry.id): _review(each, here) for each in due}
    texts = {
        anchor("text", procedure.id, str(number)): _text(procedure, revision, here)
        for procedure in records.procedures.values()
        for number, revision in reversed([*enumerate(procedure.revisions)])
    }
    return page(
        "Reviews",
        paragraph(
            Markup(
                "As of {}, the earliest first. The next review is due {}. A new law, product or accident calls for "
                "one at once. An overdue review keeps nothing from being printed; whoever works by the page "
                "sees it there."
            ).format(here.as_of.isoformat(), here.to_formula(dates.next_review, "one interval after the last"))
        ),
        paragraph(here.to(CALENDAR, "All days as a calendar file")),
        note("Overdue", bullets(late), kind="first") if late else paragraph("No review is overdue."),
        note("Nobody looks after", bullets(lacking)) if lacking else "",
        table_of("Reviews by the day on which they are due", reviews.items()),
        heading("How the texts changed", "texts"),
        paragraph("A text whose wording alone changed is not read again by those who know the one before."),
        table_of("Texts of the procedures, the latest first", texts.items()),
    )


def _text(procedure: Procedure, revision: Revision, here: Here) -> Cells:
    return {
        "Procedure": title_of(procedure.id, here.procedures),
        "Since": revision.date.isoformat(),
        "Text": code(revision.text),
        "What changed": revision.what,
        "Read again": "no, wording only" if revision.wording_only else "yes",
    }


def _late(due: Due, records: Records) -> str:
    if due.day is None:
        return f"has not read it through yet ({reviewed_in_words(due.entry, records)})"
    return f"was to read it through by {due.day.isoformat()}"


def _review(due: Due, here: Here) -> Cells:
    entry = due.entry
    return {
        "What": _link(due, here),
        "Kind": "procedure" if due.family == FOLDER else "records",
        "Owner": here.to_entry(entry.owner),
        "Reviewed": reviewed_in_words(entry, here.records),
        "Interval": here.measured(entry.interval),
        "Next review": due.day.isoformat() if due.day else "now",
        "State": Markup("<strong>overdue</strong>") if due.overdue else "in time",
    }


def _link(due: Due, here: Here) -> str:
    """The title linked to the page; a page that is not there yet cannot be linked."""
    if due.family == FOLDER:
        return here.to_procedure(due.entry.id)
    return due.entry.id if due.entry.id == "loads" else here.to(PAGE_OF[due.entry.id], due.entry.id)
