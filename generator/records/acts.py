"""What somebody of the studio is said to have decided, reviewed, signed or approved, and whether that can be.

Whoever decides or answers for something does not approve it too, where the studio asks for a second person (`approval`
in studio.yml). A rule that the studio has decided is approved at its entry, or once for its file in `reviews.yml`; a
procedure is approved text by text, so that a text that changed in meaning is approved anew. A lacking approval is a
reminder and stops nothing; one that is none is an error.
"""

import datetime
from collections.abc import Iterator
from typing import NamedTuple

from generator.diagnostics import Diagnostic, Place
from generator.records.days import Date
from generator.records.decided import Approved, Decided, Rule
from generator.records.ended import is_over
from generator.records.families import LISTED, Records
from generator.records.ids import Reference
from generator.records.kind import mistake_at
from generator.records.people import Person
from generator.records.procedures import Procedure, Review, Reviewed, Revision
from generator.records.studio import SECOND_PERSON


class _Act(NamedTuple):
    """What somebody is said to have done on a day, and the record's own word for it.

    presumed: whether nothing says who it was; then it was the owner for the day on which they came at the latest.
    """

    who: Reference
    on: Date
    what: str
    presumed: bool = False


def acts_by_strangers(records: Records) -> Iterator[Diagnostic]:
    """Decisions, reviews and signatures of a day on which whoever made them was not here, or may not have been."""
    unknown: dict[str, tuple[Person, datetime.date]] = {}
    for act in (act for entry in (*records.entries(), records.studio) for act in _acts(entry)):
        person = records.people.get(act.who)
        if person is None:
            continue  # who is not there at all has a diagnostic of its own
        if person.came is None:
            _, first = unknown.get(person.id, (person, act.on))
            unknown[person.id] = person, min(act.on, first)
        elif not act.presumed and (act.on < person.came or is_over(person.until, act.on)):
            end = "" if person.until is None else f" to {person.until.on.isoformat()}"
            yield mistake_at(
                "L408",
                act.on,
                expected=f"a day from {person.came.isoformat()}{end or ' on'}",
                help_=f"name who {act.what} it then, or mend the day; `came` and `until` of `{person.id}` say when "
                "they were here",
                says=f"`{person.id}` was not here on the day on which they {act.what} it",
            )
    for person, first in unknown.values():
        yield mistake_at(
            "R316",
            person.id,
            found="no `came`",
            expected="`came`",
            help_=f"add `came: {first.isoformat()}`, or the earlier day on which they came: on that one they do so for "
            "the first time",
            says=f"`{person.id}` decides, reviews or signs, and no day says since when they are here",
        )


def _acts(entry: object) -> Iterator[_Act]:
    made = getattr(entry, "decided", None)
    if isinstance(made, Decided):
        yield _Act(made.by, made.on, "decided")
    if isinstance(entry, Reviewed) and entry.reviewed is not None:
        presumed = entry.reviewed_by is None
        yield _Act(entry.reviewed_by or entry.owner, entry.reviewed, "reviewed", presumed)
    yield from (_Act(approved.by, approved.on, "approved") for approved, _ in _approvals(entry))
    if isinstance(entry, Person):
        for signed in entry.signed:
            yield _Act(signed.by, signed.on, "signed")
            yield _Act(Reference.to(entry.id, "people", entry.id.place), signed.on, "signed")


def _approvals(entry: object) -> Iterator[tuple[Approved, _Act | None]]:
    """Each approval in an entry, with what it approves, where somebody did that."""
    if isinstance(entry, Rule | Review) and entry.approved is not None:
        made = entry.decided
        yield entry.approved, None if made is None else _Act(made.by, made.on, "decided")
    if isinstance(entry, Procedure):
        for text in entry.revisions:
            if text.approved is not None:
                yield text.approved, _Act(entry.owner, text.date, "answers for")


def reviews_by_nobody(records: Records) -> Iterator[Diagnostic]:
    """Reviews of which nothing says who made them; who owns a record now need not have been it."""
    for entry in records.entries():
        if isinstance(entry, Reviewed) and entry.reviewed is not None and entry.reviewed_by is None:
            yield mistake_at(
                "R316",
                entry.id,
                found="no `reviewed_by`",
                expected="`reviewed_by`",
                help_=f"add `reviewed_by: {entry.owner}` where that is who read it through on "
                f"{entry.reviewed.isoformat()}, or the id of who did",
                says="`reviewed` and `reviewed_by` belong together; `reviewed_by` is not there",
            )


def approvals_that_are_none(records: Records) -> Iterator[Diagnostic]:
    """Approvals by whoever decided or answers for the same, or of a day before there was something to approve."""
    for approved, act in (pair for entry in records.entries() for pair in _approvals(entry)):
        if act is not None and approved.by == act.who:
            yield mistake_at(
                "L411",
                approved.by,
                expected="somebody else",
                help_="write who else read it and agrees, or take `approved` away",
                says=f"`{act.who}` {act.what} it, and cannot be the second person who approves it",
            )
        elif act is not None and approved.on < act.on:
            yield mistake_at(
                "L411",
                approved.on,
                expected=f"a day from {act.on.isoformat()} on",
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
    house = records.sources.get(getattr(entry, "source", ""))
    by_source = house.decided if house is not None and house.kind == "house" else None
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
