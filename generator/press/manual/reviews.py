"""What is reviewed when: procedures and families of records, by the day on which they are due."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from typing import NamedTuple

from generator.diagnostics import Diagnostic, Place
from generator.records.ended import is_over
from generator.records.families import ALL, REVIEWED, Records
from generator.records.procedures import Reviewed
from generator.trade import dates

NEVER_REVIEWED = "never reviewed here"


class Due(NamedTuple):
    """One review to come; `family` is `procedures` or `reviews`, under whose id it is written.

    day: when it is due; None where its owner has never read it through, so that it is due at once.
    """

    family: str
    entry: Reviewed
    day: datetime.date | None
    overdue: bool


def next_review(entry: Reviewed) -> datetime.date | None:
    """The day on which it is due, half a month is not waited for; None where its owner has never read it through."""
    day = entry.reviewed_by_owner
    return None if day is None else dates.next_review(day, int(entry.interval.low))


def is_overdue(entry: Reviewed, as_of: datetime.date) -> bool:
    """Whether the day has gone by; what its owner has never read through is due."""
    day = next_review(entry)
    return day is None or dates.overdue(day, as_of)


def reviewed_in_words(entry: Reviewed, records: Records) -> str:
    """When it was last reviewed, by whom where that was not its owner, or that nobody has here."""
    if entry.reviewed is None or entry.reviewed_by is None:
        return NEVER_REVIEWED
    by = "" if entry.reviewed_by == entry.owner else f" by {records.people[entry.reviewed_by].name}"
    return f"{entry.reviewed.isoformat()}{by}"


def reviews_due(records: Records, as_of: datetime.date) -> list[Due]:
    """Every review to come, the earliest first."""
    found = [
        Due(family, entry, next_review(entry), is_overdue(entry, as_of))
        for family, entries in (("procedures", records.procedures), ("reviews", records.reviews))
        for entry in entries.values()
        if not is_over(getattr(entry, "until", None), as_of)
    ]
    return sorted(found, key=lambda due: due.day or datetime.date.min)


def not_reviewed(records: Records) -> list[str]:
    """Families that nobody looks after."""
    return [name for name in REVIEWED if name not in records.reviews]


def review_findings(records: Records, as_of: datetime.date) -> Iterator[Diagnostic]:
    """Reviews that are overdue, and families without one."""
    for due in reviews_due(records, as_of):
        if due.overdue:
            entry = due.entry
            owner = records.people[entry.owner].name
            if due.day is None:
                expected, was_due = f"a review by {owner}, then every {entry.interval.text}", "has never been done here"
                if entry.reviewed_by is not None:
                    was_due = f"was done by `{entry.reviewed_by}`, and `{entry.owner}` has not done it yet"
            else:
                expected = f"a review on {due.day.isoformat()} at the latest, every {entry.interval.text}"
                was_due = f"was due on {due.day.isoformat()}"
            yield Diagnostic(
                "H721",
                entry.owner.place if entry.reviewed is None else entry.reviewed.place,
                found="nothing" if entry.reviewed is None else f"“{entry.reviewed.isoformat()}”",
                expected=expected,
                help=(
                    f"{owner} reads it through against practice and rules, mends it and writes `reviewed: "
                    f"{as_of.isoformat()}` and `reviewed_by: {entry.owner}`"
                ),
                says=f"the review of `{entry.id}` {was_due}",
            )
    file = f"{records.folder}/reviews.yml"
    for name in not_reviewed(records):
        holds = next(family.holds for family in ALL if family.name == name)
        owner = next((str(p.id) for p in records.people.values() if not is_over(p.until, as_of)), "OWNER")
        yield Diagnostic(
            "H723",
            Place(file, 1, 1, 2),
            expected=f"an entry `{name}`",
            help=(
                f"add `- {{id: {name}, owner: {owner}, reviewed: {as_of.isoformat()}, reviewed_by: {owner}, "
                "interval: 12 months}`"
            ),
            note=f"{name}: {holds}",
            says=f"nobody reviews the records in `{name}`",
        )
