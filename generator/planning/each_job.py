"""The jobs of a content folder, read and planned one after the other, so that none has to be kept.

What others of its day take is said on the sheet of each job. Only jobs of a day that somebody asks for are read for
that. On which day a job is, its text says: a file in which a date stands is looked at for that day, and one in which it
may be written in a way that does not look like one is read for it.
"""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import replace
from pathlib import Path
from typing import NamedTuple

from generator.diagnostics import Report, has_errors
from generator.grouped import grouped
from generator.planning.plan import (
    JobPlan,
    PlanBasis,
    Planned,
    booked_of,
    lay_out,
    not_finished,
    plan,
    plan_laid,
    with_an_artist,
)
from generator.planning.timing.booked import Booked
from generator.planning.timing.clashes import Clash, DayBooked, day_booked
from generator.planning.timing.learning import NOTHING, Learned, Pace
from generator.planning.working.steps import LaidOut
from generator.records import located
from generator.records.days import Date, typed_day
from generator.records.families import Records
from generator.records.jobs import Job
from generator.records.once_read import not_come_yet, still_to_come
from generator.records.quoting import fill_in_job
from generator.records.reading import JobReading, JobTexts, Reading, has_kept_values, read_job, read_jobs

# A remark may stand before the day, and a sign that a text follows on lines of its own.
_DATED = re.compile(rb"""\bdate["']?\s*:(?:\s|#[^\n]*\n|[|>][-+]?)*["']?(\d{4}-\d{2}-\d{2})""")
# With a backslash a word or a day can be written that does not look like one; a day also with other digits than these,
# which begin with one of these bytes in UTF-8.
_SPELLED_OTHERWISE = b"\\\xd9\xdb\xdf\xe0\xe1\xea\xef\xf0"
NOTHING_BOOKED = DayBooked((), {}, ())

# The days that stand in each file of a job.
Dated = dict[Path, tuple[str, ...]]


def dated_files(texts: Mapping[Path, bytes], day: datetime.date | None = None) -> Dated:
    """The days that stand in the files of the jobs, of which each may be that of its job.

    day: only files in which that one stands.
    """
    only = b"" if day is None else day.isoformat().encode()
    return {
        path: tuple(sorted(_days_in(path, text)))
        for path, text in texts.items()
        if only in text or spelled_otherwise(text)
    }


def spelled_otherwise(text: bytes) -> bool:
    """Whether a word or a day in a file may be written so that it does not look like one."""
    return len(text.translate(None, _SPELLED_OTHERWISE)) < len(text)


def _days_in(path: Path, text: bytes) -> Iterator[str]:
    found = {day.decode() for day in _DATED.findall(text)}
    yield from found
    if b"\\" in text or not found:
        job = located.read_located(text.decode("utf-8-sig", "replace"), str(path)).node
        written = job.get("date") if isinstance(job, located.Mapping) else None
        day = typed_day(written) if isinstance(written, located.Text) else None
        if isinstance(day, datetime.date) and day.isoformat() not in found:
            yield datetime.date.isoformat(day)


class ReadyJob(NamedTuple):
    """One job that was read. report: what is wrong with it as it is written.

    job: with its quotes filled in, and as it is planned; None where it cannot be. laid: its steps, or None and why not.
    """

    read: JobReading
    job: Job | None
    report: Report
    laid: LaidOut | None = None
    why_not: Report = ()


def ready_job(read: JobReading, reading: Reading) -> ReadyJob:
    """A job that was read. It is laid out only on records without a mistake."""
    if reading.records is None or read.job is None:
        return ReadyJob(read, read.job, read.report)
    job, misquoted = fill_in_job(read.job, reading.records)
    job, nobody = as_enquired(reading.records, job, reading.as_of)
    if nobody:
        return ReadyJob(read, None, (*read.report, *misquoted, *nobody))
    return ReadyJob(read, job, (*read.report, *misquoted), *lay_out(reading.records, job))


def as_enquired(records: Records, job: Job, as_of: datetime.date) -> tuple[Job, Report]:
    """An enquiry that names no day or no artist, with today and the first artist on file in their place.

    Both keep saying that nobody wrote them.
    """
    changed: dict[str, object] = {}
    if not job.has_a_day:
        today = Date(as_of.year, as_of.month, as_of.day)
        today.place, today.origin = job.id.place, replace(job.origin_at("date"), default=True)
        changed["date"] = today
    return with_an_artist(records, job.model_copy(update=changed) if changed else job)


def paces_of(records: Records, jobs: Iterable[ReadyJob]) -> Iterator[Pace]:
    """Whose pace with which technique the times of some jobs rest on: with every one where the steps are not known."""
    for ready in jobs:
        if ready.job is not None and ready.job.has_an_artist:
            laid = ready.laid
            techniques = records.techniques if laid is None else [step.setting.technique.id for step in laid.steps]
            yield from ((str(ready.job.artist), str(technique)) for technique in techniques)


class Diary:
    """Days by date. A day that was worked out is kept, in a few words for each of its sittings.

    learned: the pace with which times are counted.
    """

    def __init__(self, dated: Dated, reading: Reading, learned: Learned) -> None:
        self.dated, self._reading, self._learned = dated, reading, learned
        self._files = grouped((day, path) for path, days in dated.items() for day in days)
        self._days: dict[datetime.date, DayBooked] = {}
        self._at_hand: dict[Path, ReadyJob] = {}

    def ready(self, path: Path) -> ReadyJob:
        """A job of the folder. Those of a day are made ready together, and are at hand until another job is."""
        if path not in self._at_hand:
            self._at_hand = {path: self._made_ready(path)}
        return self._at_hand[path]

    def together(self, day: datetime.date, ready: ReadyJob | None) -> tuple[ReadyJob, ...]:
        """All jobs that may be on a day, which are at hand then. ready: one of them that is ready already."""
        known = {} if ready is None else {ready.read.path: ready}
        paths = self.files(day.isoformat())
        self._at_hand = {**{path: self._made_ready(path) for path in paths if path not in known}, **known}
        return tuple(self._at_hand.values())

    def at_pace(self, learned: Learned) -> Diary:
        """The same days, with the jobs that are at hand, counted with another pace."""
        made = Diary(self.dated, self._reading, learned)
        made._at_hand = self._at_hand
        return made

    def _made_ready(self, path: Path) -> ReadyJob:
        return ready_job(read_job(path, self._reading.known), self._reading)

    def files(self, day: str) -> list[Path]:
        """The files in which a day stands, which may be that of their job."""
        return self._files.get(day, [])

    def shared(self, path: Path) -> tuple[str, ...]:
        """The days that stand in a file and in another one too."""
        return tuple(day for day in self.dated.get(path, ()) if len(self._files[day]) > 1)

    def not_known(self, ready: ReadyJob) -> list[Path]:
        """The other files that may be of the day of a job, and whose job cannot be read."""
        day = () if ready.job is None else self._files.get(ready.job.date.isoformat(), ())
        others = [path for path in day if path != ready.read.path]
        return [path for path in others if (self._at_hand.get(path) or self._made_ready(path)).job is None]

    def day(self, day: datetime.date) -> DayBooked:
        """All sittings of a day; nothing where the records have a mistake."""
        records = self._reading.records
        if records is None:
            return NOTHING_BOOKED
        day = datetime.date(day.year, day.month, day.day)
        if day not in self._days:
            paths = self.files(day.isoformat())
            self._at_hand = {path: self._at_hand.get(path) or self._made_ready(path) for path in paths}
            found = (
                booked_of(records, ready.job, self._learned, ready.laid)
                for ready in self._at_hand.values()
                if ready.job is not None and _takes_of(ready.job, day)
            )
            self._days[day] = day_booked(records, (one for one in found if one is not None))
        return self._days[day]

    def booked(self, job: Job) -> Booked | None:
        """What a job takes of its day; None where nothing is agreed, or it has a mistake."""
        found = next((one for one in self.day(job.date).sittings if one.job == job.id), None)
        records = self._reading.records
        if found is None and records is not None and _takes_of(job, job.date):
            # Its text says its day in another way than others do, or it has a mistake.
            return booked_of(records, job, self._learned)
        return found

    def clashes(self, job: Job) -> tuple[Clash, ...]:
        """What the sitting of a job wants at once with others."""
        if job.not_worked is not None or len(self.files(job.date.isoformat())) < 2:
            return ()
        return tuple(clash for clash in self.day(job.date).clashes if job.id in clash.jobs)


def _takes_of(job: Job, day: datetime.date) -> bool:
    return job.date == day and job.is_agreed and job.not_worked is None


class PlannedJob(NamedTuple):
    """One job and everything wrong with it. `plan` is None where it has a mistake, the records have, or none is wanted.

    job: None where it cannot be read. refused: why today's rules make no plan of a job whose sheet is kept as it was
    worked; that is no mistake any more. found: what the plan rests on.
    """

    job: Job | None
    plan: JobPlan | None
    report: Report
    refused: Report = ()
    found: PlanBasis | None = None


def any_job(job: Job) -> bool:
    return True


def plan_jobs(
    content: Path,
    reading: Reading,
    learned: Learned = NOTHING,
    wanted: Callable[[Job], bool] = any_job,
    diary: Diary | None = None,
) -> Iterator[PlannedJob]:
    """Every job of a content folder; those that are wanted have a plan.

    diary: where it is looked up what they want at once with others of their day; nobody looks where none is given.
    """
    for read in read_jobs(content, reading.known):
        if read.job is None or wanted(read.job):
            yield plan_one(read, reading, learned, diary)
        else:
            yield PlannedJob(read.job, None, read.report)


def diary_of(content: Path, reading: Reading, learned: Learned, same: Diary | None = None) -> Diary:
    """The days of a folder, with what each job takes of its day. What is finished counts as it was planned.

    same: another diary of the folder, so that its files are not looked through again.
    """
    dated = dated_files(JobTexts(content)) if same is None else same.dated
    return Diary(dated, reading, learned)


def plan_before_work(records: Records, job: Job, learned: Learned, diary: Diary) -> tuple[JobPlan | None, Report]:
    """The plan of a job as it was before its work, and what is in the way of one."""
    return plan(records, not_finished(job), learned, diary.clashes(job))


def plan_one(read: JobReading, reading: Reading, learned: Learned = NOTHING, diary: Diary | None = None) -> PlannedJob:
    """One job that was read. It is planned only on records without a mistake."""
    return plan_ready(ready_job(read, reading), reading, learned, diary)


def plan_ready(ready: ReadyJob, reading: Reading, learned: Learned = NOTHING, diary: Diary | None = None) -> PlannedJob:
    """One job that is ready. It is planned only on records without a mistake."""
    job, why_not = ready.job, ready.why_not
    if reading.records is None or job is None:
        return PlannedJob(job, None, ready.report)
    clashes = () if diary is None else diary.clashes(job)
    made = Planned(None, why_not) if ready.laid is None else plan_laid(ready.laid, job, learned, clashes)
    more, refused = made.report, ()
    if job.finished is not None and has_kept_values(ready.read.path):
        more, refused = (), more
    # A day after the sitting is one mistake, whatever day it is.
    said = {diagnostic.place for diagnostic in more}
    to_come = (*still_to_come(job, reading.as_of), *not_come_yet(job, reading.as_of))
    found = (*ready.report, *more, *(d for d in to_come if d.place not in said))
    return PlannedJob(job, None if has_errors(found) else made.plan, found, refused, made.found)
