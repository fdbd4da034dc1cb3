"""Rules and procedures that a second person approved, where the studio asks for that (`approval` in studio.yml).

Whoever decides or answers for something does not approve it too. A rule that the studio has decided is approved at its
entry, or once for its file in `reviews.yml`; a procedure is approved text by text, so that a text that changed in
meaning is approved anew. A lacking approval is a reminder and stops nothing; one that is none is an error.
"""

import datetime
from collections.abc import Iterator

from generator.diagnostics import Diagnostic, Place
from generator.records.decided import Approved, Decided, Rule
from generator.records.ended import is_over
from generator.records.families import LISTED, Records
from generator.records.ids import Reference
from generator.records.kind import mistake_at
from generator.records.procedures import Procedure, Review, Revision
from generator.records.sources import SourceRecord
from generator.records.studio import SECOND_PERSON


def approvals_that_are_none(records: Records) -> Iterator[Diagnostic]:
    """Approvals by whoever decided or answers for the same, or of a day before there was something to approve."""
    for entry in records.entries():
        if isinstance(entry, Rule | Review) and entry.approved is not None and entry.decided is not None:
            yield from _none(entry.approved, entry.decided.by, entry.decided.on, "decided")
        if isinstance(entry, Procedure):
            for text in entry.revisions:
                if text.approved is not None:
                    yield from _none(text.approved, entry.owner, text.date, "answers for")


def _none(approved: Approved, by: Reference, since: datetime.date, what: str) -> Iterator[Diagnostic]:
    if approved.by == by:
        yield mistake_at(
            "L411",
            approved.by,
            expected="somebody else",
            help_="write who else read it and agrees, or take `approved` away",
            says=f"`{by}` {what} it, and cannot be the second person who approves it",
        )
    elif approved.on < since:
        yield mistake_at(
            "L411",
            approved.on,
            expected=f"a day from {since.isoformat()} on",
            help_="read it as it is now, and write that day",
            says="the approval is older than what it approves",
        )


def not_approved(records: Records, as_of: datetime.date) -> Iterator[Diagnostic]:
    """Each rule and each text that still needs a second person, where the studio asks for one."""
    if records.studio.approval != SECOND_PERSON:
        return
    for family in LISTED:
        review = records.reviews.get(family.name)
        whole = None if review is None else review.approved
        for entry in records.family(family.name).values():
            if not isinstance(entry, Rule):
                continue
            act = _decided(entry, review, records)
            if act is not None and not _covers(entry.approved or whole, act.by, act.on):
                where = f"at the entry, or once for the file at `{family.name}` in reviews.yml"
                yield _lacking(records, entry.id.place, f"`{entry.id}` in {family.name}", act.by, where, as_of)
    for procedure in records.procedures.values():
        text = _read_anew(procedure)
        if not is_over(procedure.until, as_of) and not _covers(text.approved, procedure.owner, text.date):
            what, where = f"the text `{text.text}` of `{procedure.id}`", "into the line of this text"
            yield _lacking(records, text.text.place, what, procedure.owner, where, as_of)


def _decided(entry: Rule, review: Review | None, records: Records) -> Decided | None:
    """Who decided a rule: for itself, with its source, or with its file; None where nobody has, or nobody has to."""
    source = getattr(entry, "source", None)
    house = records.sources.get(source) if isinstance(source, Reference) else None
    by_source = house.decided if isinstance(house, SourceRecord) and house.kind == "house" else None
    return entry.decided or by_source or (None if review is None else review.decided)


def _covers(approved: Approved | None, by: Reference, since: datetime.date) -> bool:
    return approved is not None and approved.by != by and approved.on >= since


def _read_anew(procedure: Procedure) -> Revision:
    """The latest text that is another in meaning; what changed in wording alone is approved with it."""
    return next((text for text in reversed(procedure.revisions) if not text.wording_only), procedure.revisions[0])


def _lacking(
    records: Records, place: Place, what: str, not_by: Reference, where: str, as_of: datetime.date
) -> Diagnostic:
    others = [str(p.id) for p in records.people.values() if p.id != not_by and not is_over(p.until, as_of)]
    return Diagnostic(
        "H728",
        place,
        found="no approval",
        expected="the approval of a second person, because studio.yml asks for it",
        help=f"let somebody else than `{not_by}` read it, and write `approved: {{by: ID, on: {as_of.isoformat()}}}` "
        f"{where}; ID is who read it: {', '.join(others) or 'nobody else is here'}",
        says=f"{what} is not approved by a second person",
        cause="not approved by a second person",
    )
