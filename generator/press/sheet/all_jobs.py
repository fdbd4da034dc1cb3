"""One job that was read: planned, then pressed into its pages; what stays behind of them is small.

Whoever goes through a folder looks at the finished ones alone first, because what they teach is shown with the
planned ones.
"""

from __future__ import annotations

import datetime
import posixpath
from pathlib import Path
from typing import NamedTuple

from generator.diagnostics import Report, has_errors
from generator.how_many import how_many
from generator.planning.each_job import Diary, PlannedJob, ReadyJob, plan_ready
from generator.planning.for_lists import lots_of, lots_of_worked
from generator.planning.plan import JobPlan, before_work, times_planned
from generator.planning.supplies.tracing import JobLots
from generator.planning.timing.healed import Healed
from generator.planning.timing.learning import Learned, Timed
from generator.press.sheet.afterwards import afterwards_in, healed_as_worked, words_of
from generator.press.sheet.appendix import Appendix, appendix_of
from generator.press.sheet.client_page import beyond_one_side, client_html, client_page_of
from generator.press.sheet.contents import sheet_of, sheet_without_map
from generator.press.sheet.differences import Difference, differences
from generator.press.sheet.frozen import Frozen, frozen_with
from generator.press.sheet.number_links import NumberLinks
from generator.press.sheet.printing import explained_html, job_html, job_page, sheet_html, today_html
from generator.press.sheet.stamp import stamped
from generator.press.sheet.summary import JobSummary, summary_of, summary_of_kept
from generator.press.sheet.view import Sheet
from generator.press.words.addresses import explained_address
from generator.records.families import Records
from generator.records.jobs import Job
from generator.records.reading import Reading, job_files


class Pressed(NamedTuple):
    """One job. All but the report and the job is None when the job has a mistake or is a draft, or the
    records have a mistake.

    explained: how the numbers of the sheet came about, for a job that goes ahead. page: the job's own page, with map
    and pictures. plan: as of today; None where today's rules make none of a job that is kept as it was worked. lots:
    what a recall has to know. today: for such a job, what today's rules would do otherwise. client: the page
    that the client takes home, None for a job that is not worked. healed: how a finished one healed. times: what one
    teaches that is kept as it was worked, None where its plan does not say.
    """

    summary: JobSummary | None
    sheet: str | None
    report: Report
    explained: str | None = None
    plan: JobPlan | None = None
    page: str | None = None
    job: Job | None = None
    lots: JobLots | None = None
    today: str | None = None
    client: str | None = None
    healed: Healed | None = None
    times: tuple[Timed, ...] | None = None


def press_job(
    content: Path, ready: ReadyJob, reading: Reading, learned: Learned, diary: Diary, *, pages: bool = True
) -> Pressed:
    """One job that is ready. It is planned only on records without a mistake.

    diary: what others of its day take. pages: whether they are wanted; where not, those that there would be are empty.
    """
    planned = plan_ready(ready, reading, learned, diary)
    records, job = reading.records, planned.job
    if records is None or job is None or job.draft:
        return Pressed(None, None, planned.report, job=job)
    frozen, found = frozen_with(content, job)
    report, client = (*planned.report, *found), None
    if job.not_worked is None and (planned.plan is not None or planned.refused):
        page = client_page_of(records, job, planned.plan)
        report = (*report, *beyond_one_side(records, job, planned.plan, page))
        client = client_html(page, reading.as_of, in_site=True) if pages else ""
    if frozen is not None and not has_errors(planned.report):
        made = _kept(records, planned, frozen, reading.as_of, diary, pages)
    elif planned.plan is None or has_errors(found):
        return Pressed(None, None, report, job=job)
    else:
        made = _planned(records, planned.plan, reading.as_of, pages)
    return made._replace(report=report, client=client)


def _planned(records: Records, made: JobPlan, as_of: datetime.date, pages: bool) -> Pressed:
    """A planned job, and what the lists say of it. One that is finished is not kept as it was worked."""
    pressed = Pressed(
        summary_of(records, made, ""),
        "",
        (),
        explained=None if made.work is None else "",
        plan=made,
        page="",
        job=made.job,
        lots=_lots(records, made),
        healed=None if made.job.finished is None else healed_as_worked(made.job, words_of(records, made.work).steps),
    )
    if not pages:
        return pressed
    sheet = stamped(sheet_of(records, made))
    appendix = None if made.work is None else appendix_of(records, made, sheet)
    return _with_sheet(pressed, sheet, appendix, as_of)._replace(
        summary=summary_of(records, made, sheet.stamp), page=job_html(records, made, sheet, as_of)
    )


def _with_sheet(pressed: Pressed, sheet: Sheet, appendix: Appendix | None, as_of: datetime.date) -> Pressed:
    """With the sheet, and where it has numbers, with how they came about."""
    if appendix is None:
        return pressed._replace(sheet=sheet_html(sheet, as_of))
    links = NumberLinks(posixpath.basename(explained_address(sheet.job)), appendix.lines)
    return pressed._replace(
        sheet=sheet_html(sheet, as_of, links=links), explained=explained_html(sheet, as_of, appendix)
    )


def _kept(
    records: Records, planned: PlannedJob, frozen: Frozen, as_of: datetime.date, diary: Diary, pages: bool
) -> Pressed:
    """A job that is kept as it was worked, and what the lists say of it. Of today is only what would be otherwise."""
    job, steps = planned.job, frozen.words.steps
    assert job is not None
    pressed = Pressed(
        summary_of_kept(records, job, frozen.sheet.goes_ahead, frozen.stamp, frozen.paper),
        "",
        (),
        explained=None if frozen.explained is None else "",
        plan=planned.plan,
        page="",
        job=job,
        lots=lots_of_worked(records, job, steps),
        today="",
        healed=healed_as_worked(job, steps),
        times=None if planned.found is None else times_planned(planned.found, job),
    )
    if not pages:
        return pressed
    sheet = frozen.as_record(job)
    others: tuple[Difference, ...] = ()
    if planned.found is not None:
        made = before_work(planned.found, job, frozen.learned(str(job.artist)), diary.clashes(job))
        others = differences(frozen.sheet, sheet_without_map(records, made))
    return _with_sheet(pressed, sheet, frozen.explained, frozen.made)._replace(
        page=job_page(sheet, frozen.drawn, afterwards_in(frozen.words, job), frozen.made, frozen.paper),
        today=today_html(sheet, others, "; ".join(d.message for d in planned.refused), as_of),
    )


def _lots(records: Records, made: JobPlan) -> JobLots | None:
    """What a recall has to know; nothing is laid out for a job without a day."""
    return lots_of(records, made) if made.job.has_a_day else None


def not_planned(content: Path, records: Records | None) -> str:
    """How many jobs could not be planned because another record has a mistake; nothing where they were."""
    number = 0 if records is not None else len(job_files(content))
    if not number:
        return ""
    jobs = how_many(number, "job was", "jobs were")
    return f"{jobs} not planned, because of mistakes in the other records; mend those, then check again"


def lots_left(content: Path, records: Records, planned: PlannedJob) -> tuple[JobLots | None, Report]:
    """What a job leaves for a recall, by its kept values where it has some; None where there is no plan either."""
    frozen, found = (None, ()) if planned.job is None else frozen_with(content, planned.job)
    if frozen is not None and planned.job is not None:
        return lots_of_worked(records, planned.job, frozen.words.steps), found
    return None if planned.plan is None else _lots(records, planned.plan), found
