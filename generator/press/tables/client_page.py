"""What the client's page says, section by section: every line, when it is printed, and where it comes from."""

from __future__ import annotations

from generator.press.lists.here import Here
from generator.press.words.addresses import anchor
from generator.press.words.markup import Cells, heading, page, paragraph, table_of
from generator.records.checklist import QUOTE
from generator.records.client_page import CLIENT_QUOTES, ClientLine
from generator.records.conditions import in_words


def client_page_page(here: Here) -> str:
    """A table for each section of the client's page."""
    blocks: list[str] = []
    for section in here.records.client_page.values():
        rows = (
            (anchor("client-page", section.id, "lines", str(number)), _line(number, line, here))
            for number, line in enumerate(section.lines)
        )
        jobs = ", or ".join(section.for_jobs)
        blocks += [
            heading(section.title, anchor("client-page", section.id)),
            paragraph(f"For a job that is {jobs}{'; in a frame' if section.framed else ''}."),
            table_of(f"{section.title}: lines in order", rows),
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


def _line(number: int, line: ClientLine, here: Here) -> Cells:
    days = None if line.after is None else here.records.values[line.after]
    return {
        "Line": str(number + 1),
        "What it says": QUOTE.sub(lambda quote: f"‹{CLIENT_QUOTES[(quote['path'] or '').strip()].said}›", line.say),
        "On which pages": "all" if line.when is None else f"where: {in_words(line.when)}",
        "Days counted by": "no day" if days is None else here.to_record("values", days.id, days.what),
        "Box": "yes" if line.box else "no",
        "Source": here.to_source(line.source),
    }
