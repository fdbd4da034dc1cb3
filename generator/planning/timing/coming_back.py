"""The days after a sitting: the next one, the touch-up, and until when the record of the piece is kept."""

from __future__ import annotations

import datetime
import math
from collections.abc import Iterator

from generator.diagnostics import Diagnostic
from generator.planning.computed import Answered, Named, answer, counted, named
from generator.quantities import Quantity
from generator.records.days import Date
from generator.records.families import Records
from generator.records.jobs import Job
from generator.records.typed_command import typed_command
from generator.trade import dates


def weeks_later(day: datetime.date, rest_days: float) -> datetime.date:
    """The first day after a rest in whole weeks, rounded to the later day."""
    return dates.next_sitting_earliest(day, _whole_weeks(rest_days))


def worked_on(job: Job) -> Date:
    """The day from which healing is counted: when the work was finished, or when it is planned."""
    return job.date if job.finished is None else job.finished.as_corrected.on


def days_after(day: datetime.date, time: Quantity) -> dates.Window:
    """The days on which a time of days or months after a day begins and ends, both rounded to the later day."""
    first, last = (
        dates.add_months(day, math.ceil(end))
        if time.kind == "months"
        else day + datetime.timedelta(days=math.ceil(end))
        for end in (time.low, time.high)
    )
    return dates.Window(first, last)


def next_sitting(records: Records, job: Job, done: datetime.date) -> Answered[datetime.date]:
    """The first day on which the same skin may be worked again after the sitting on the day `done`."""
    rest = records.studio.limits.same_skin_again
    return answer(dates.next_sitting_earliest, done=named(done, job.date), weeks=_weeks(rest.high, rest))


def touch_up(records: Records, job: Job, slow: bool) -> Answered[dates.Window]:
    """Earliest and latest touch-up. slow: whether the skin takes longer, over scars and after much colour.

    Counted from the day on which it was worked where that is on file, else from the day that is planned.
    """
    done = worked_on(job)
    limits = records.studio.limits
    days = limits.touch_up_slow if slow else limits.touch_up
    first, last = (_weeks(end, days) for end in (days.low, days.high))
    return answer(dates.touch_up_window, done=named(done, done), first_weeks=first, last_weeks=last)


def kept_until(records: Records, job: Job) -> Answered[datetime.date] | None:
    """The last day on which the record of a finished job is kept at least; None for one that is not finished."""
    if job.finished is None:
        return None
    ended = job.finished.as_corrected.on
    return retention(records, named(ended, ended))


def past_retention(records: Records, job: Job, as_of: datetime.date) -> Iterator[Diagnostic]:
    """A job that need not be kept any longer: counted from the day it was finished, else from that of its sitting."""
    last = job.date if job.finished is None else job.finished.on
    until = retention(records, named(last, last)).answer
    if as_of > until:
        yield Diagnostic(
            "J632",
            last.place,
            found=f"the last entry on {last.isoformat()}",
            expected=f"a record no older than {records.studio.limits.retention.text}",
            help="look whether anything still asks for it; then delete it with "
            + typed_command(f"delete {job.id} --yes", job.id.place.file),
            says=f"the record of `{job.id}` had to be kept until {until.isoformat()}",
        )


def retention(records: Records, last_entry: Named) -> Answered[datetime.date]:
    """The last day on which a record with such a last entry is kept at least."""
    limits = records.studio.limits
    years = counted(limits.retention_years, limits.retention)
    return answer(dates.retention_end, last_entry=last_entry, years=years)


def _weeks(days: float, of: Quantity) -> Named:
    weeks = _whole_weeks(days)
    return named(weeks, of, f"{weeks} weeks")


def _whole_weeks(days: float) -> int:
    """Rounded to the later day: nobody is asked back too early."""
    return math.ceil(days / 7)
