"""One job by its id: read, and planned with what others of its day and finished jobs teach."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

from generator.commands.says import refused
from generator.dates import AsOf
from generator.diagnostics import Diagnostic, Place, Report, has_errors
from generator.kept.folder import Folder
from generator.kept.keys import base_of
from generator.kept.times import learn_from_kept
from generator.planning.each_job import PlannedJob, diary_of, plan_one
from generator.planning.plan import JobPlan
from generator.planning.timing.learning import NOTHING
from generator.press.manual.typed_numbers import job_findings
from generator.press.sheet.frozen import Frozen, frozen_with
from generator.records.families import Records
from generator.records.reading import JobReading, Reading, job_files, read_job, read_records


class JobAsRead(NamedTuple):
    """The records and one job of them. read: None where there is no such job. frozen: its kept values, where it has
    some that can be read.

    report: what is wrong with the records and with the kept values; the job's own is in `read`.
    """

    reading: Reading
    read: JobReading | None
    frozen: Frozen | None
    report: Report


def read_one(content: Path, job_id: str, today: AsOf) -> JobAsRead:
    """One job, by its id."""
    reading = read_records(content, today)
    path = content / "jobs" / f"{job_id}.yml"
    if path not in job_files(content):
        return JobAsRead(reading, None, None, (*reading.report, no_such_job(content, job_id)))
    read = read_job(path, reading.known)
    frozen, found = (None, ()) if read.job is None else frozen_with(content, read.job)
    return JobAsRead(reading, read, frozen, (*reading.report, *found))


def plan_read(content: Path, found: JobAsRead) -> tuple[PlannedJob | None, Report]:
    """The plan of a job that was read, and everything that is wrong; None where there is no such job."""
    reading, read = found.reading, found.read
    if read is None:
        return None, found.report
    learned, diary = NOTHING, None
    if read.job is not None:
        # What others teach counts only where there are others on its day.
        days = diary_of(content, reading, NOTHING)
        beside = days.has_others(read.job.date)
        kept, artist = Folder(content), "" if beside else str(read.job.artist)
        learned = learn_from_kept(kept, base_of(content, reading), content, reading, artist)[0]
        diary = diary_of(content, reading, learned, days) if beside else None
    planned = plan_one(read, reading, learned, diary)
    report = (*found.report, *planned.report)
    if reading.records is not None and planned.job is not None:
        report = (*report, *job_findings(reading.records, planned.job))
    return planned, report


def planned_or_said(content: Path, found: JobAsRead) -> tuple[Records, JobPlan] | None:
    """The plan of a job, or None when what is in the way of one was said."""
    planned, report = plan_read(content, found)
    if planned is not None:
        report = (*report, *planned.refused)
        if found.reading.records is not None and planned.plan is not None and not has_errors(report):
            return found.reading.records, planned.plan
    refused(report)
    return None


def no_such_job(content: Path, job_id: str) -> Diagnostic:
    ids = ", ".join(path.stem for path in job_files(content)) or "none"
    place = Place(str(content / "jobs" / f"{job_id}.yml"), 1, 1, 2)
    return Diagnostic(
        "F803",
        place,
        found=f"“{job_id}”",
        expected="the id of a job",
        help=f"jobs there: {ids}",
        says=f"there is no job `{job_id}`",
    )
