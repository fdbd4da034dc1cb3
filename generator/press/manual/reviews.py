"""What is reviewed when: procedures and families of records, by the day on which they are due."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from typing import NamedTuple

from generator.diagnostics import Diagnostic, Place
from generator.records.families import ALL, REVIEWED, Records
from generator.records.procedures import Reviewed
from generator.trade import dates


class Due(NamedTuple):
    """One review to come; `family` is `procedures` or `reviews`, under whose id it is written."""

    family: str
    entry: Reviewed
    day: datetime.date
    overdue: bool


def next_review(entry: Reviewed) -> datetime.date:
    """The day on which it is due; half a month is not waited for."""
    return dates.next_review(entry.reviewed, int(entry.interval.low))


def is_overdue(entry: Reviewed, as_of: datetime.date) -> bool:
    """Whether the day has gone by."""
    return dates.overdue(next_review(entry), as_of)


def reviews_due(records: Records, as_of: datetime.date) -> list[Due]:
    """Every review to come, the earliest first."""
    found = [
        Due(family, entry, next_review(entry), is_overdue(entry, as_of))
        for family, entries in (("procedures", records.procedures), ("reviews", records.reviews))
        for entry in entries.values()
    ]
    return sorted(found, key=lambda due: due.day)


def not_reviewed(records: Records) -> list[str]:
    """Families that nobody looks after."""
    return [name for name in REVIEWED if name not in records.reviews]


def review_findings(records: Records, as_of: datetime.date) -> Iterator[Diagnostic]:
    """Reviews that are overdue, and families without one."""
    for due in reviews_due(records, as_of):
        if due.overdue:
            entry, day = due.entry, due.day.isoformat()
            owner = records.people[entry.owner].name
            yield Diagnostic(
                "H721",
                entry.reviewed.place,
                found=f"“{entry.reviewed.isoformat()}”",
                expected=f"a review on {day} at the latest, every {entry.interval.text}",
                help=(
                    f"{owner} reads it through against practice and rules, mends it and writes `reviewed: "
                    f"{as_of.isoformat()}`"
                ),
                says=f"the review of `{entry.id}` was due on {day}",
            )
    file = f"{records.folder}/reviews.yml"
    for name in not_reviewed(records):
        holds = next(family.holds for family in ALL if family.name == name)
        owner = next(iter(records.people), "OWNER")
        yield Diagnostic(
            "H723",
            Place(file, 1, 1, 2),
            found="nothing",
            expected=f"an entry `{name}`",
            help=f"add `- {{id: {name}, owner: {owner}, reviewed: {as_of.isoformat()}, interval: 12 months}}`",
            note=f"{name}: {holds}",
            says=f"nobody reviews the records in `{name}`",
        )
