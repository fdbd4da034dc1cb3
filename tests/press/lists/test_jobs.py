"""The index of jobs: by week, readable with many, and what the search is told about each."""

from __future__ import annotations

import datetime
import html
import re
from functools import cache

from generator.press.lists.jobs import JOBS, jobs_pages
from generator.press.sheet.contents import sheet_of
from generator.press.sheet.stamp import stamp_of
from generator.press.sheet.summary import JobSummary, search_entry, summary_of
from tests.planning.demo import JOBS as DEMO
from tests.planning.demo import RECORDS, demo

# A Wednesday.
AS_OF = datetime.date(2027, 5, 12)


@cache
def summaries() -> list[JobSummary]:
    """A summary of each demo job."""
    return [summary_of(RECORDS, plan, stamp_of(sheet_of(RECORDS, plan))) for plan in map(demo, DEMO)]


def summary(name: str, day: str, finished: bool = False) -> JobSummary:
    return JobSummary(
        id=name,
        title=f"The {name}",
        client="R-0001",
        artist="Quill",
        date=datetime.date.fromisoformat(day),
        place="upper back",
        state="clear",
        goes_ahead=True,
        stamp="0" * 8,
        finished=finished,
    )


def sections(page: str) -> dict[str, list[str]]:
    """The jobs under each heading of the index, in order."""
    found = {}
    for part in page.split("\n## ")[1:]:
        (name,) = re.findall(r"\{ #([\w-]+) \}", part.split("\n", 1)[0])
        found[name] = re.findall(r'<tr id="jobs-([\w-]+)"', part)
    return found


def row(page: str, name: str) -> str:
    (found,) = re.findall(rf'<tr id="jobs-{name}">.*?</tr>', page)
    return " ".join(html.unescape(re.sub(r"<[^>]+>", " ", found)).split())


def test_jobs_stand_by_week() -> None:
    jobs = [
        summary("sunday-before", "2027-05-09"),
        summary("monday", "2027-05-10"),
        summary("sunday", "2027-05-16"),
        summary("next-monday", "2027-05-17"),
        summary("next-sunday", "2027-05-23"),
        summary("later", "2027-05-24"),
        summary("much-later", "2027-09-01"),
        summary("finished", "2027-05-11", finished=True),
    ]
    for order in (jobs, jobs[::-1]):
        page = jobs_pages(order, AS_OF)[JOBS]
        assert sections(page) == {
            "this-week": ["monday", "sunday"],
            "next-week": ["next-monday", "next-sunday"],
            "later": ["later", "much-later"],
            "before": ["finished", "sunday-before"],
        }
    assert "2027-05-10 to 2027-05-16" in page and "2027-05-17 to 2027-05-23" in page
    assert row(page, "much-later").endswith("2027-08-30")  # the Monday of its week
    assert row(page, "finished").endswith("written up") and row(page, "sunday-before").endswith("not written up")


def test_every_job_has_its_verdict_its_page_and_its_sheet() -> None:
    page = jobs_pages(summaries(), AS_OF)[JOBS]
    assert sorted(name for names in sections(page).values() for name in names) == sorted(DEMO)
    for job in summaries():
        said = row(page, job.id)
        assert job.state in said and job.client in said
        assert (f"{job.date:%a} {job.date}" if job.has_a_day else "no day yet") in said
        assert f'href="jobs/{job.id}.html"' in page and f'href="sheets/{job.id}.html"' in page
        assert (f'href="sheets/{job.id}--explained.html"' in page) == job.goes_ahead


def test_an_archive_is_parted_by_year_and_leaves_nothing_out() -> None:
    first = datetime.date(2024, 1, 3)
    jobs = [summary(f"old-{n}", (first + datetime.timedelta(days=n)).isoformat(), True) for n in range(0, 1200, 3)]
    pages = jobs_pages([*jobs, summary("coming", "2027-05-14")], AS_OF)
    # All of 2027 stands on the index still.
    assert list(pages) == [JOBS, "jobs-of-2026.md", "jobs-of-2025.md", "jobs-of-2024.md"]
    listed = sections(pages[JOBS])
    assert listed["this-week"] == ["coming"] and 0 < len(listed["before"]) <= 50
    assert {job.id for job in jobs if job.date.year == 2027} <= set(listed["before"])
    for year in (2024, 2025, 2026):
        names = re.findall(r'<tr id="jobs-([\w-]+)"', pages[f"jobs-of-{year}.md"])
        assert names == [job.id for job in reversed(jobs) if job.date.year == year]
        assert f'href="jobs-of-{year}.html"' in pages[JOBS]
    few = jobs_pages(jobs[:5], AS_OF)
    assert list(few) == [JOBS]


def test_the_search_is_told_what_a_reader_looks_for() -> None:
    for job in summaries():
        entry = search_entry(job)
        assert entry["location"] == f"jobs/{job.id}.html" and entry["title"] == job.title
        assert entry["text"].split(" · ") == [job.id, job.client, job.place, f"stamp {job.stamp}"]
