"""The days of a folder: which jobs are on a day, and what these take of it.

Only jobs of a day that somebody asks for are read and worked out. On which day a job is, its text says: a file in which
a date stands is looked at for that day, and read when the day is asked for.
"""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable
from pathlib import Path

from generator.planning.timing.booked import Booked
from generator.planning.timing.clashes import Clash, DayBooked, day_booked
from generator.records.families import Records
from generator.records.jobs import Job
from generator.records.reading import Reading, job_files, read_job

_DATED = re.compile(rb"""\bdate["']?\s*:\s*["']?(\d{4}-\d{2}-\d{2})""")
_Booked = Callable[[Records, Job], Booked | None]
NOTHING_BOOKED = DayBooked((), {}, ())


# The days that stand in each file of a job.
Dated = dict[Path, tuple[str, ...]]


def dated_files(content: Path) -> Dated:
    """The days that stand in the files of the jobs, of which each may be that of its job."""
    found: Dated = {}
    for path in job_files(content):
        try:
            text = path.read_bytes()
        except OSError:
            continue  # reported when all jobs are read
        found[path] = tuple(sorted({day.decode() for day in _DATED.findall(text)}))
    return found


class Diary:
    """Days by date. A day that was worked out is kept, in a few words for each of its sittings.

    booked: what a job takes of its day; None for one that cannot be planned.
    """

    def __init__(self, dated: Dated, reading: Reading, booked: _Booked) -> None:
        self.dated, self._reading, self._take = dated, reading, booked
        self._files: dict[str, list[Path]] = {}
        for path, days in dated.items():
            for day in days:
                self._files.setdefault(day, []).append(path)
        self._days: dict[datetime.date, DayBooked] = {}
        self._clashes: dict[str, list[Clash]] = {}

    def files(self, day: str) -> list[Path]:
        """The files in which a day stands, which may be that of their job."""
        return self._files.get(day, [])

    def shared(self, path: Path) -> tuple[str, ...]:
        """The days that stand in a file and in another one too."""
        return tuple(day for day in self.dated.get(path, ()) if len(self._files[day]) > 1)

    def has_others(self, day: datetime.date) -> bool:
        """Whether more than one file may have its job on a day."""
        return len(self._files.get(day.isoformat(), ())) > 1

    def day(self, day: datetime.date) -> DayBooked:
        """All sittings of a day; nothing where the records have a mistake."""
        if self._reading.records is None:
            return NOTHING_BOOKED
        day = datetime.date(day.year, day.month, day.day)
        if day not in self._days:
            self._days[day] = self._worked_out(day)
            for clash in self._days[day].clashes:
                for job in clash.jobs:
                    self._clashes.setdefault(job, []).append(clash)
        return self._days[day]

    def booked(self, job: Job) -> Booked | None:
        """What a job takes of its day; None where nothing is agreed, or it has a mistake."""
        records = self._reading.records
        return None if records is None or not _takes_of(job, job.date) else self._take(records, job)

    def clashes(self, job: Job) -> tuple[Clash, ...]:
        """What the sitting of a job wants at once with others."""
        if job.not_worked is not None or not self.has_others(job.date):
            return ()
        self.day(job.date)
        return tuple(self._clashes.get(str(job.id), ()))

    def _worked_out(self, day: datetime.date) -> DayBooked:
        records = self._reading.records
        assert records is not None
        jobs = (read_job(path, self._reading.known).job for path in self._files.get(day.isoformat(), ()))
        on_it = (job for job in jobs if job is not None and _takes_of(job, day))
        found = (self.booked(job) for job in on_it)
        return day_booked(records, (one for one in found if one is not None))


def _takes_of(job: Job, day: datetime.date) -> bool:
    return job.date == day and job.is_agreed and job.not_worked is None
