"""What the client's page says, section by section: every line, when it is printed, and where it comes from."""

from __future__ import annotations

from generator.press.words.addresses import anchor, to_record, to_source
from generator.press.words.markup import Row, heading, page, paragraph, table
from generator.records.checklist import QUOTE
from generator.records.client_page import CLIENT_QUOTES, ClientLine
from generator.records.conditions import in_words
from generator.records.families import Records

_COLUMNS = ("Line", "What it says", "On which pages", "Days counted by", "Box", "Source")


def client_page_page(records: Records, here: str) -> str:
    """A table for each section of the client's page."""
    blocks: list[str] = []
    for section in records.client_page.values():
        rows = (_row(section.id, number, line, records, here) for number, line in enumerate(section.lines))
        jobs = ", or ".join(section.for_jobs)
        blocks += [
            heading(section.title, anchor("client-page", section.id)),
            paragraph(f"For a job that is {jobs}{'; in a frame' if section.framed else ''}."),
            table(f"{section.title}: lines in order", _COLUMNS, rows),
        ]
    return page(
        "The client’s page",
        paragraph(
            "Each job has a page that its client reads before the sitting and takes home from it, one side in plain "
            "words: the aftercare sheet. It says no setting of a machine, no answer about health and no cause of a "
            "scar. A job that may not go ahead has only the section for it. Its words are those below; a doctor’s "
            "advice and local rules come before them."
        ),
        *blocks,
    )


def _row(section: str, number: int, line: ClientLine, records: Records, here: str) -> Row:
    words = QUOTE.sub(lambda quote: f"‹{CLIENT_QUOTES[(quote['path'] or '').strip()].said}›", line.say)
    counted = "no day" if line.after is None else to_record(here, "values", line.after, records.values[line.after].what)
    return Row(
        anchor("client-page", section, "lines", str(number)),
        (
            str(number + 1),
            words,
            "all" if line.when is None else f"where: {in_words(line.when)}",
            counted,
            "yes" if line.box else "no",
            to_source(here, line.source, records),
        ),
    )
