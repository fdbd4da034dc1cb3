"""What the generator puts under the title of a procedure: who answers for it, when it is reviewed, who reads it."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator, Sequence

from markupsafe import Markup

from generator.press.manual.procedures import FOLDER, ProcedurePage, is_listed, listed_hash, minutes_to_read
from generator.press.manual.reviews import is_overdue, next_review, reviewed_in_words
from generator.press.words.addresses import PAGE_OF, address, anchor, to_entry
from generator.press.words.estimates import in_hours
from generator.press.words.markup import code, link, note
from generator.records.families import Records
from generator.records.procedures import Procedure

# The box right under the title: its line, and all lines that are empty or belong to it.
_FIRST_MINUTE = re.compile(r"\s*^!!! danger first-minute\b.*\n(?:[ \t]*\n|(?: {4}|\t).*\n)*", re.MULTILINE)


def with_head(markdown: str, procedure: Procedure, page: ProcedurePage, records: Records, as_of: datetime.date) -> str:
    """The page with one quiet line under its title, and a note when a review or the text asks for attention.

    A box with the first minute of an emergency stays first: nobody reads an owner and a date then.
    """
    head = "\n\n".join(_head(procedure, page, records, as_of))
    before, title, after = markdown.partition(f"# {page.title}\n")
    if not title:
        return f"{head}\n\n{markdown}"
    found = _FIRST_MINUTE.match(after)
    box = found[0].rstrip("\n") + "\n" if found else ""
    return f"{before}{title}{box}\n{head}\n\n{after.removeprefix(found[0]) if found else after}"


def _head(procedure: Procedure, page: ProcedurePage, records: Records, as_of: datetime.date) -> Iterator[str]:
    """The line, and what is under it."""
    here = f"{FOLDER}/{procedure.id}.md"
    day = next_review(procedure)
    due = day.isoformat() if day else "now"
    reviewed = reviewed_in_words(procedure, records)
    owner_name = records.people[procedure.owner].name
    owner = to_entry(here, procedure.owner, records)
    at = address(here, PAGE_OF["reviews"], anchor("procedures", procedure.id))
    yield Markup('<p class="looked-after">Owner {}. {}, next review {}. {} to read. Read by {}. Text {}{}.</p>').format(
        owner,
        f"Reviewed {reviewed}" if procedure.reviewed else reviewed.capitalize(),
        link(at, due),
        in_hours(minutes_to_read(page, records)),
        roles(procedure.read_by),
        code(listed_hash(procedure, page)),
        _approved(procedure, records),
    )
    if is_overdue(procedure, as_of):
        title = f"The review was due on {due}" if day else f"{owner_name} has not reviewed this page"
        since = f"since {procedure.reviewed_by_owner.isoformat()}" if procedure.reviewed_by_owner else "yet"
        yield note(
            title if procedure.reviewed else "Never reviewed here",
            Markup(
                "{} has not read this page through {}. Work by it with care, and ask when something on it does not fit."
            ).format(owner, since),
            kind="first",
        )
    if not is_listed(procedure, page):
        yield note(
            "The text has changed",
            f"This text is newer than the last one listed, of {procedure.revisions[-1].date.isoformat()}. What has "
            f"changed is not said yet: read it again, and ask {owner_name}.",
        )


def _approved(procedure: Procedure, records: Records) -> str:
    """Who approved the latest text that was approved, in words."""
    approved = next((text.approved for text in reversed(procedure.revisions) if text.approved is not None), None)
    if approved is None:
        return ""
    return f", approved by {records.people[approved.by].name} on {approved.on.isoformat()}"


def roles(read_by: Sequence[str]) -> str:
    """The roles in words, such as “artists and assistants”."""
    *first, last = (f"{role}s" for role in read_by)
    return f"{', '.join(first)} and {last}" if first else last
