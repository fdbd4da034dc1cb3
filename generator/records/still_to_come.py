"""Days on which something is said to have been done, and that are still to come.

Which days say so is declared where the field is, by `past` of its kind (`records/days.py`); here they are found.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterator

from generator.dates import AsOf
from generator.diagnostics import Diagnostic, Place
from generator.records.days import When
from generator.records.jobs import NO_SHOW, Job
from generator.records.kind import mistake_at
from generator.records.located import Text
from generator.records.noted import Date
from generator.records.record import singles


def still_to_come(value: object, as_of: AsOf) -> Iterator[Diagnostic]:
    """Every day inside a record that says what was done, and lies behind the day that counts as today."""
    for day, place, past in _past_days(value):
        if day > as_of:
            yield _to_come(day, place, past, as_of)


def not_come_yet(job: Job, as_of: AsOf) -> Iterator[Diagnostic]:
    """A client who is said not to have come, on a day that is still to come."""
    if job.not_worked == NO_SHOW and job.date > as_of and isinstance(job.not_worked, Text):
        yield mistake_at(
            "R328",
            job.not_worked,
            expected=f"a `date` up to {as_of.isoformat()}, or `cancelled` or `postponed`",
            help_="write it when the day has come",
            says=f"it says that the client did not come on {job.date.isoformat()}, which is still to come",
        )


def _past_days(value: object) -> Iterator[tuple[datetime.date, Place, str]]:
    """Days that say what was done; of a month or a year its first day, because it may have been that one."""
    for found in singles(value):
        if isinstance(found, When):
            if found.past and found.place is not None:
                yield found.first, found.place, found.past
        elif isinstance(found, Date) and found.past:
            yield found, found.place, found.past


def _to_come(day: datetime.date, place: Place, past: str, as_of: AsOf) -> Diagnostic:
    today = as_of.isoformat()
    return Diagnostic(
        "R328",
        place,
        found=f"“{day.isoformat()}”",
        expected=f"a day up to {today}" + (f", which {as_of.set_by} sets as today" if as_of.set_by else ", today"),
        help="write the day on which it was done, or take it away until it is done"
        + (f"; or set {as_of.set_by} to the day that is meant" if as_of.set_by else ""),
        says=f"it says that {past} on {day.isoformat()}, which is still to come",
    )
