"""One job by its id: read, and planned with what others of its day and finished jobs teach."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

from generator.commands.says import refused, say
from generator.dates import AsOf
from generator.diagnostics import Diagnostic, Place, Report, has_errors
from generator.kept.times import around_a_job
from generator.planning.each_job import PlannedJob, plan_ready, ready_job
from generator.planning.plan import JobPlan
from generator.press.manual.typed_numbers import job_findings
from generator.press.sheet.frozen import Frozen, frozen_with
from generator.records.drafts import drafts
from generator.records.families import JOBS, Known, Records
from generator.records.reading import JobReading, Reading, is_a_job, job_files, read_job, read_records


class JobAsRead(NamedTuple):
    """The records and one job of them. frozen: its kept values, where it has some that can be read.

    report: what is wrong with the records and with the kept values; the job's own is in `read`.
    """

    reading: Reading
    read: JobReading
    frozen: Frozen | None
    report: Report


def read_one(content: Path, job_id: str, today: AsOf) -> JobAsRead:
    """One job, by its id."""
    reading = read_records(content, today)
    read = read_by_id(content, job_id, reading.known)
    frozen, found = (None, ()) if read.job is None else frozen_with(content, read.job)
    return JobAsRead(reading, read, frozen, (*reading.report, *found))


def plan_read(content: Path, found: JobAsRead) -> tuple[PlannedJob, Report]:
    """The plan of a job that was read, and everything that is wrong.

    Another job of its day that nobody can read is said: what that takes at the same time is not known.
    """
    reading = found.reading
    ready = ready_job(found.read, reading)
    learned, diary = around_a_job(content, reading, ready)
    if reading.records is not None and (unknown := diary.not_known(ready)):
        being_written = drafts(content)
        for path in unknown:
            if str(path) not in being_written:
                say(f"{path} has a mistake and may be of the same day: what it takes of that is not counted here")
    planned = plan_ready(ready, reading, learned, diary)
    report = (*found.report, *planned.report)
    if reading.records is not None and planned.job is not None:
        report = (*report, *job_findings(reading.records, planned.job))
    return planned, report


def planned_or_said(content: Path, found: JobAsRead) -> tuple[Records, JobPlan] | None:
    """The plan of a job, or None when what is in the way of one was said."""
    planned, report = plan_read(content, found)
    report = (*report, *planned.refused)
    if found.reading.records is not None and planned.plan is not None and not has_errors(report):
        return found.reading.records, planned.plan
    refused(report)
    return None


def read_by_id(content: Path, job_id: str, known: Known) -> JobReading:
    """A job as it is written. Where there is none with this id, that is what is wrong with it."""
    path = content / JOBS.name / f"{job_id}.yml"
    if is_a_job(content, job_id):
        return read_job(path, known)
    ids = ", ".join(path.stem for path in job_files(content)) or "none"
    missing = Diagnostic(
        "F803",
        Place(str(path), 1, 1, 2),
        found=f"“{job_id}”",
        expected="the id of a job",
        help=f"jobs there: {ids}",
        says=f"there is no job `{job_id}`",
    )
    return JobReading(path, None, (missing,))
