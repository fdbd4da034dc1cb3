"""All that a site is made of: records, jobs and pages, read, checked and planned.

`check` and the build call the same function, so that no build stops over what the check did not say. Only the build
wants the pages of the jobs; the check asks where they would be, because somebody may have linked to them.
"""

from __future__ import annotations

import datetime
import os
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from generator.dates import AsOf
from generator.diagnostics import Diagnostic, Place, Report, has_errors
from generator.kept.between_jobs import frozen
from generator.kept.folder import Folder
from generator.kept.jobs import AllMade, make_jobs
from generator.kept.keys import base_of
from generator.kept.made import Run
from generator.kept.needs import needs_again
from generator.planning.each_job import plan_one
from generator.planning.plan import JobPlan
from generator.planning.supplies.tracing import JobLots, traces
from generator.press.lists.day import day_html, day_view
from generator.press.lists.days import OnItsDay, days_with_pages, neighbours, with_days
from generator.press.lists.recall import recall_sheets
from generator.press.lists.restock import EXPLAINED
from generator.press.manual.anchors import PageRead, places
from generator.press.manual.answers import leads_nowhere
from generator.press.manual.authored import authored_pages
from generator.press.manual.check import handbook_report
from generator.press.manual.procedures import read_procedures
from generator.press.pages import NO_JOBS, Gathered, generated_pages, in_site
from generator.press.words.addresses import day_address
from generator.press.words.print_line import written_stamp
from generator.press.words.regional import in_region
from generator.records.drafts import as_drafts, drafts, still_drafts
from generator.records.families import JOBS, Records
from generator.records.reading import Reading, read_job, read_records
from generator.records.references import files_with_quotes, quotes_of_what_is_gone

# Takes the address of a job's page in the site, and the page.
Keep = Callable[[str, bytes], None]


@dataclass
class SiteRead:
    """What was read and made. records: None where they have a mistake. generated: page address to Markdown.

    gathered: what jobs and procedures gave, before the other pages are made. job_stamps: those of the pages of jobs,
    days and lots, by address; at: the places in every generated page, only where nothing is wrong.
    """

    records: Records | None
    as_of: AsOf
    gathered: Gathered = NO_JOBS
    report: Report = ()
    generated: Mapping[str, str] = field(default_factory=dict)
    at: Mapping[str, PageRead] = field(default_factory=dict)
    job_stamps: dict[str, str] = field(default_factory=dict)
    _lots: list[JobLots] = field(default_factory=list)
    _on_days: list[OnItsDay] = field(default_factory=list)

    def note(self, reading: Reading, content: Path, made: AllMade) -> None:
        """Keep of the jobs what the lists of the studio say of them."""
        assert reading.records is not None
        whole = [facts for facts in made.facts if facts.summary is not None]
        self.job_stamps = {address: stamp for facts in whole for address, stamp in facts.stamps}
        self._lots = [facts.lots for facts in whole if facts.lots is not None]
        self._on_days = [facts.on_its_day for facts in whole if facts.on_its_day is not None]

        def plan_of(job: str) -> JobPlan | None:
            path = content / JOBS.name / f"{job}.yml"
            return plan_one(read_job(path, reading.known), reading, made.learned).plan

        best = max(made.facts, key=lambda facts: facts.shows, default=None)
        takes = [(f.summary, f.takes) for f in whole if f.summary is not None and f.takes is not None]
        nearest = sorted((job.date, job.id) for job, taken in takes if taken)[:EXPLAINED]
        explained = {job: plan_of(job) for _, job in nearest}
        self.gathered = self.gathered._replace(
            jobs=[facts.summary for facts in whole if facts.summary is not None],
            shown=None if best is None or best.shows < 0 else plan_of(best.job),
            learned=made.learned,
            needs=[needs_again(reading.records, job, taken, explained.get(job.id)) for job, taken in takes],
            healed=[facts.healed for facts in whole if facts.healed is not None],
        )

    @property
    def _days(self) -> list[datetime.date]:
        return days_with_pages(self._on_days, self.as_of) if self.gathered.with_jobs else []

    def pages_of_days(self, records: Records) -> Iterator[tuple[str, str]]:
        """The page of each day that has one, with its address."""
        days = self._days
        for day in days:
            view = day_view(records, day, [one for one in self._on_days if one.date == day])
            yield day_address(day), day_html(view, self.as_of, neighbours(day, days))

    def with_its_days(self, front: str) -> str:
        """The front page with today and the next days, where the site has jobs."""
        return with_days(front, self.as_of, self._on_days) if self.gathered.with_jobs else front

    def keep(self, pages: Iterable[tuple[str, str]], kept: Keep, wanted: bool) -> None:
        """Keep pages of days or lots, each as the site has it; where they are not wanted, that there would be one."""
        assert self.records is not None
        said = in_region(self.records)
        for address, html in pages:
            if wanted:
                self.job_stamps[address] = written_stamp(html)
            kept(address, said(in_site(html)).encode() if wanted else b"")

    def generate(self, records: Records, docs: Path, keep: Keep, *, whole: bool) -> Iterator[Diagnostic]:
        """Make the generated pages, and see that the answers to what is asked lead to one of them.

        keep, whole: what is done with recall sheets, and whether they are wanted.
        """
        pages = {page.relative_to(docs).as_posix(): text for page, text in authored_pages(docs)}
        authored, traced = places(pages), traces(records, self._lots)
        if self.gathered.with_jobs:
            self.keep(recall_sheets(records, traced, self.as_of, whole=whole), keep, whole)
        gathered = self.gathered._replace(traced=traced, authored=authored, days=self._days, stamps=self.job_stamps)
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
    site = SiteRead(reading.records, reading.as_of, NO_JOBS._replace(with_jobs=with_jobs))
    report, being_written = list(reading.report), drafts(content) if with_jobs else {}
    if with_jobs:
        kept, base = Folder(content), base_of(content, reading)
        made = make_jobs(kept, base, Run(content, reading, pages), keep)
        report += (*made.doubts, *still_drafts(being_written.values()))
        report += [one for facts in made.facts for one in facts.report]
        if reading.records is not None:
            site.note(reading, content, made)
            site.keep(site.pages_of_days(reading.records), keep, pages)
        del made
    if docs is not None:
        report += _about_the_pages(content, docs, reading, site)
        if reading.records is not None and docs.is_dir() and not has_errors(as_drafts(report, being_written)):
            with frozen():  # what is known of an archive stays while its lists are made
                report += site.generate(reading.records, docs, keep, whole=pages)
    site.report = tuple(as_drafts(report, being_written))
    return site


def _about_the_pages(content: Path, docs: Path, reading: Reading, site: SiteRead) -> Sequence[Diagnostic]:
    """What is wrong with the authored pages; of records with a mistake, the quotes of what is gone."""
    if reading.records is None:
        return tuple(quotes_of_what_is_gone(files_with_quotes(content, docs), reading.known))
    procedures = read_procedures(docs)
    site.gathered = site.gathered._replace(procedures=procedures)
    return handbook_report(docs, reading.records, site.as_of, procedures)


def _written_twice(page: Path) -> Diagnostic:
    return Diagnostic(
        "H715",
        Place(os.path.relpath(page), 1, 1, 2),
        found="a page under the address of a generated one",
        expected="an address that is free",
        help="give the page another name",
        says="this page is written by hand, and the program makes one of the same address",
    )
