"""All that a site is made of: records, jobs and pages, read, checked and planned.

`check` and the build call the same function, so that no build stops over what the check did not say. Only the build
wants the pages of the jobs; the check asks where they would be, because somebody may have linked to them.
"""

from __future__ import annotations

import datetime
import os
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from generator.dates import AsOf
from generator.diagnostics import Diagnostic, Place, Report, has_errors
from generator.planning.each_job import diary_of
from generator.planning.for_lists import needs_of
from generator.planning.plan import JobPlan
from generator.planning.supplies.restock import JobNeeds, span_ahead
from generator.planning.supplies.tracing import JobLots, traces, unknown_lots
from generator.planning.timing.coming_back import past_retention
from generator.planning.timing.diary import Diary
from generator.planning.timing.learning import NOTHING, Learned, learn_from
from generator.press.formulas.carried import shows_more
from generator.press.lists.day import (
    DayJob,
    day_html,
    day_job_of,
    day_view,
    days_with_pages,
    has_a_page,
    neighbours,
    with_days,
)
from generator.press.lists.lots import recall_sheets
from generator.press.manual.anchors import PageRead, places
from generator.press.manual.answers import leads_nowhere
from generator.press.manual.authored import authored_pages
from generator.press.manual.check import handbook_report
from generator.press.manual.procedures import ProcedurePage, read_procedures
from generator.press.manual.typed_numbers import job_findings
from generator.press.pages import Gathered, generated_pages
from generator.press.sheet.all_jobs import Pressed, press_jobs
from generator.press.sheet.summary import JobSummary
from generator.press.words.addresses import day_address, explained_address, today_address
from generator.records.drafts import as_drafts, drafts, still_drafts
from generator.records.families import Records
from generator.records.gone import files_with_quotes, quotes_of_what_is_gone
from generator.records.reading import Reading, read_records

# Takes the address of a job's page in the site, and the page.
Keep = Callable[[str, str], None]


@dataclass
class SiteRead:
    """What was read and made. records: None where they have a mistake. generated: page address to Markdown.

    recalls: address to page; at: the places in every generated page, only where nothing is wrong.
    """

    records: Records | None
    as_of: AsOf
    report: Report = ()
    summaries: list[JobSummary] = field(default_factory=list)
    procedures: dict[str, ProcedurePage] = field(default_factory=dict)
    generated: dict[str, str] = field(default_factory=dict)
    recalls: dict[str, str] = field(default_factory=dict)
    at: dict[str, PageRead] = field(default_factory=dict)
    learned: Learned = field(default_factory=lambda: NOTHING)
    with_jobs: bool = True
    _shown: JobPlan | None = None
    _needs: list[JobNeeds] = field(default_factory=list)
    _lots: list[JobLots] = field(default_factory=list)
    _day_jobs: list[DayJob] = field(default_factory=list)

    def note(self, records: Records, pressed: Pressed) -> None:
        """Keep of a job what the lists of the studio say of it, when its day is near enough to order for."""
        if pressed.summary is not None:
            self.summaries.append(pressed.summary)
        if pressed.job is not None and pressed.summary is not None:
            self._lots += [] if pressed.lots is None else [pressed.lots]
            needs = None if pressed.plan is None or pressed.job.finished else needs_of(records, pressed.plan)
            if needs is not None and span_ahead(records, self.as_of).holds(needs.date):
                self._needs.append(needs)
            if has_a_page(pressed.job.date, self.as_of):
                on_its_day = day_job_of(records, pressed.job, pressed.plan, pressed.summary.state)
                self._day_jobs += [] if on_its_day is None else [on_its_day]
        if pressed.plan is not None and shows_more(pressed.plan, self._shown):
            self._shown = pressed.plan

    @property
    def _days(self) -> list[datetime.date]:
        return days_with_pages(self._day_jobs, self.as_of) if self.with_jobs else []

    def pages_of_days(self, records: Records, diary: Diary) -> Iterator[tuple[str, str]]:
        """The page of each day that has one, with its address."""
        days = self._days
        for day in days:
            view = day_view(records, day, [job for job in self._day_jobs if job.date == day], diary.day(day))
            yield day_address(day), day_html(view, self.as_of, neighbours(day, days))

    def with_its_days(self, front: str) -> str:
        """The front page with today and the next days, where the site has jobs."""
        return with_days(front, self.as_of, self._day_jobs) if self.with_jobs else front

    def generate(self, records: Records, docs: Path) -> Iterator[Diagnostic]:
        """Make the generated pages, and see that the answers to what is asked lead to one of them."""
        pages = {page.relative_to(docs).as_posix(): text for page, text in authored_pages(docs)}
        authored, traced = places(pages), traces(records, self._lots)
        self.recalls = recall_sheets(records, traced, self.as_of) if self.with_jobs else {}
        gathered = Gathered(self.summaries, self._shown, self.learned, self._needs, self.procedures, traced, authored)
        gathered = gathered._replace(with_jobs=self.with_jobs, days=self._days)
        self.generated = generated_pages(records, self.as_of, gathered)
        self.at = places(self.generated)
        yield from leads_nowhere(records, {**authored, **self.at}, procedures=False)
        yield from (_written_twice(docs / uri) for uri in self.generated if uri in pages)


def read_site(
    content: Path,
    docs: Path | None,
    run: AsOf,
    keep: Keep = lambda address, page: None,
    *,
    pages: bool = True,
    with_jobs: bool = True,
) -> SiteRead:
    """Read and check everything. docs: the authored pages, None where they are not asked about.

    keep: what is done with each page of a job. pages: whether they are wanted; otherwise they are empty.
    with_jobs: False for a copy that reads no job, so that no byte of one can come into it.
    """
    reading = read_records(content, run)
    learned, doubts = learn_from(content, reading) if with_jobs else (NOTHING, ())
    site = SiteRead(reading.records, reading.as_of, learned=learned, with_jobs=with_jobs)
    being_written = drafts(content) if with_jobs else {}
    report = [*reading.report, *doubts, *still_drafts(being_written.values())]
    diary = diary_of(content, reading, learned)
    for pressed in press_jobs(content, reading, learned, diary, pages=pages) if with_jobs else ():
        report += pressed.report
        if reading.records is not None:
            report += _about_the_job(reading, pressed)
            site.note(reading.records, pressed)
            for address, page in _pages_of(pressed):
                keep(address, page)
    if reading.records is not None and not has_errors(as_drafts(report, being_written)):
        for address, page in site.pages_of_days(reading.records, diary):
            keep(address, page)
    if docs is not None:
        report += _about_the_pages(content, docs, reading, site)
        if reading.records is not None and docs.is_dir() and not has_errors(as_drafts(report, being_written)):
            report += site.generate(reading.records, docs)
    site.report = tuple(as_drafts(report, being_written))
    return site


def _about_the_job(reading: Reading, pressed: Pressed) -> Iterator[Diagnostic]:
    """What is to be said about a job that could be read, beside its plan."""
    records, job = reading.records, pressed.job
    if records is not None and job is not None:
        yield from unknown_lots(records, job)
        yield from job_findings(records, job)
        yield from past_retention(records, job, reading.as_of)


def _pages_of(pressed: Pressed) -> Iterator[tuple[str, str]]:
    """The pages of a job with their addresses."""
    if pressed.summary is not None:
        job = pressed.summary.id
        made = {
            f"sheets/{job}.html": pressed.sheet,
            f"jobs/{job}.html": pressed.page,
            f"for-the-client/{job}.html": pressed.client,
            explained_address(job): pressed.explained,
            today_address(job): pressed.today,
        }
        yield from ((address, page) for address, page in made.items() if page is not None)


def _about_the_pages(content: Path, docs: Path, reading: Reading, site: SiteRead) -> Sequence[Diagnostic]:
    """What is wrong with the authored pages; of records with a mistake, the quotes of what is gone."""
    if reading.records is None:
        return tuple(quotes_of_what_is_gone(files_with_quotes(content, docs), reading.known))
    site.procedures = read_procedures(docs)
    return handbook_report(docs, reading.records, site.as_of)


def _written_twice(page: Path) -> Diagnostic:
    return Diagnostic(
        "H715",
        Place(os.path.relpath(page), 1, 1, 2),
        found="a page under the address of a generated one",
        expected="an address that is free",
        help="give the page another name",
        says="this page is written by hand, and the program makes one of the same address",
    )
