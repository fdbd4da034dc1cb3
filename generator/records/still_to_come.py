"""Days on which something is said to have been done, and that are still to come.

Which days say so is declared where the field is, by `past` of its kind (`records/days.py`); here they are found.
"""

from collections.abc import Iterator

from generator.dates import AsOf
from generator.diagnostics import Diagnostic
from generator.records.days import Date, When
from generator.records.jobs import NO_SHOW, Job
from generator.records.kind import mistake_at
from generator.records.located import Text
from generator.records.record import singles


def still_to_come(value: object, as_of: AsOf) -> Iterator[Diagnostic]:
    """Every day inside a record that says what was done, and lies behind the day that counts as today.

    Of a month or a year its first day counts, because it may have been that one.
    """
    for found in singles(value):
        if not isinstance(found, When | Date) or not found.past:
            continue
        day = found.first if isinstance(found, When) else found
        if day > as_of:
            yield mistake_at(
                "R328",
                found,
                found=f"“{day.isoformat()}”",
                expected=f"a day up to {as_of.isoformat()}, "
                + (f"which {as_of.set_by} sets as today" if as_of.set_by else "today"),
                help_="write the day on which it was done, or take it away until it is done"
                + (f"; or set {as_of.set_by} to the day that is meant" if as_of.set_by else ""),
                says=f"it says that {found.past} on {day.isoformat()}, which is still to come",
            )


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
