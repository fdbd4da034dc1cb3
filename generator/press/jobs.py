"""The stream of jobs: read, plan, press one after the other; what stays behind is small."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from generator.diagnostics import Report
from generator.planning.plan import plan
from generator.press.sheet import sheet_html, sheet_of
from generator.press.summary import JobSummary, summary_of
from generator.records.families import Records
from generator.records.jobs import Job
from generator.records.reading import Reading, read_jobs


class Pressed(NamedTuple):
    """One job. `summary` and `sheet` are None when the job has a mistake, or the records have."""

    summary: JobSummary | None
    sheet: str | None
    report: Report


def press_jobs(content: Path, reading: Reading, as_of: datetime.date) -> Iterator[Pressed]:
    """Every job of the content folder. Jobs are planned only on records without a mistake."""
    for job in read_jobs(content, reading.known):
        if reading.records is None or job.job is None:
            yield Pressed(None, None, job.report)
            continue
        yield _pressed(reading.records, job.job, job.report, as_of)


def _pressed(records: Records, job: Job, report: Report, as_of: datetime.date) -> Pressed:
    made, more = plan(records, job)
    if made is None:
        return Pressed(None, None, (*report, *more))
    return Pressed(summary_of(made), sheet_html(sheet_of(records, made), as_of), (*report, *more))
