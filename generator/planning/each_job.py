"""The jobs of a content folder, read and planned one after the other, so that none has to be kept."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import NamedTuple

from generator.diagnostics import Report, has_errors
from generator.planning.plan import JobPlan, PlanBasis, booked_of, not_finished, plan, planned, with_an_artist
from generator.planning.timing.diary import Diary, dated_files
from generator.planning.timing.learning import NOTHING, Learned
from generator.records.families import Records
from generator.records.jobs import Job
from generator.records.noted import Date
from generator.records.quoting import fill_in_job
from generator.records.reading import JobReading, Reading, read_jobs, worked_file
from generator.records.still_to_come import not_come_yet, still_to_come


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


def _any_job(job: Job) -> bool:
    return True


def plan_jobs(
    content: Path,
    reading: Reading,
    learned: Learned = NOTHING,
    wanted: Callable[[Job], bool] = _any_job,
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
    dated = dated_files(content) if same is None else same.dated
    return Diary(dated, reading, lambda records, job: booked_of(records, not_finished(job), learned))


def plan_before_work(
    records: Records, job: Job, learned: Learned, diary: Diary | None = None
) -> tuple[JobPlan | None, Report]:
    """The plan of a job as it was before its work, and what is in the way of one."""
    return plan(records, not_finished(job), learned, () if diary is None else diary.clashes(job))


def plan_one(read: JobReading, reading: Reading, learned: Learned = NOTHING, diary: Diary | None = None) -> PlannedJob:
    """One job that was read. It is planned only on records without a mistake."""
    if reading.records is None or read.job is None:
        return PlannedJob(read.job, None, read.report)
    job, misquoted = fill_in_job(read.job, reading.records)
    job, nobody = as_enquired(reading.records, job, reading.as_of)
    if nobody:
        return PlannedJob(None, None, (*read.report, *misquoted, *nobody))
    clashes = () if diary is None else diary.clashes(job)
    made, more, rests_on = planned(reading.records, job, learned, clashes)
    refused: Report = ()
    if job.finished is not None and worked_file(read.path).is_file():
        more, refused = (), more
    # A day after the sitting is one mistake, whatever day it is.
    said = {diagnostic.place for diagnostic in more}
    to_come = (*still_to_come(job, reading.as_of), *not_come_yet(job, reading.as_of))
    found = (*misquoted, *more, *(d for d in to_come if d.place not in said))
    return PlannedJob(job, None if has_errors(found) else made, (*read.report, *found), refused, rests_on)


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
