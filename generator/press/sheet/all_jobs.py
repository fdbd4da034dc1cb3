"""The stream of jobs: read, plan, press one after the other; what stays behind is small.

Jobs are gone through twice, the finished ones alone first, because what they teach is shown with the planned ones.
"""

from __future__ import annotations

import datetime
import posixpath
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from generator.diagnostics import Report
from generator.planning.each_job import plan_jobs
from generator.planning.plan import JobPlan
from generator.planning.timing.learning import NOTHING, Learned
from generator.press.sheet.appendix import appendix_of
from generator.press.sheet.client_page import client_html, client_page_of
from generator.press.sheet.contents import sheet_of
from generator.press.sheet.number_links import NOWHERE, NumberLinks
from generator.press.sheet.printing import explained_html, job_html, sheet_html, stamp_of
from generator.press.sheet.summary import JobSummary, summary_of
from generator.press.words.addresses import explained_address
from generator.records.families import Records
from generator.records.reading import Reading, job_files


class Pressed(NamedTuple):
    """One job. All but the report is None when the job has a mistake, or the records have.

    explained: how the numbers of the sheet came about, for a job that goes ahead. page: the job's own page, with map
    and pictures. client: the page that the client takes home.
    """

    summary: JobSummary | None
    sheet: str | None
    report: Report
    explained: str | None = None
    plan: JobPlan | None = None
    page: str | None = None
    client: str | None = None


def press_jobs(content: Path, reading: Reading, learned: Learned = NOTHING) -> Iterator[Pressed]:
    """Every job of the content folder. Jobs are planned only on records without a mistake."""
    for planned in plan_jobs(content, reading, learned):
        if reading.records is None or planned.plan is None:
            yield Pressed(None, None, planned.report)
        else:
            yield _pressed(reading.records, planned.plan, planned.report, reading.as_of)


def not_planned(content: Path, records: Records | None) -> str:
    """How many jobs could not be planned because another record has a mistake; nothing where they were."""
    number = 0 if records is not None else len(job_files(content))
    if not number:
        return ""
    jobs = "1 job was" if number == 1 else f"{number} jobs were"
    return f"{jobs} not planned, because of mistakes in the other records; mend those, then check again"


def _pressed(records: Records, made: JobPlan, report: Report, as_of: datetime.date) -> Pressed:
    sheet = sheet_of(records, made)
    explained, links = None, NOWHERE
    if made.work is not None:
        here = explained_address(made.job.id)
        appendix = appendix_of(records, made, sheet, here)
        explained = explained_html(sheet, as_of, appendix)
        links = NumberLinks(posixpath.basename(here), appendix.lines)
    page = job_html(records, made, sheet, as_of)
    html = sheet_html(sheet, as_of, links=links)
    summary = summary_of(records, made, stamp_of(sheet))
    client = client_html(client_page_of(records, made), as_of, in_site=True)
    return Pressed(summary, html, report, explained, made, page, client)
