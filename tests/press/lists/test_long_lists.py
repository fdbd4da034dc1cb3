"""Lists of an archive are parted, and what stands in one row stands in a row somewhere."""

from __future__ import annotations

import datetime
import re
from dataclasses import replace

from generator.planning.supplies.tracing import JobLots, traces
from generator.press.lists.look_up import FINISHED_HERE, STAMP, stamp_page, stamp_pages
from generator.press.lists.lots import MOST_HERE, lots_pages
from generator.press.sheet.summary import JobSummary
from generator.press.words.addresses import LOTS
from generator.press.words.index_words import words_apart
from tests.planning.demo import RECORDS

AS_OF = datetime.date(2027, 5, 12)
ONE = JobSummary(
    "a", "A kettle", "R-0001", "Quill", AS_OF, "forearm, left", "finished", True, "0a1b2c3d", True, ("White",)
)


def _day(count: int) -> datetime.date:
    return AS_OF - datetime.timedelta(days=count * 3)


def _rows(page: str, kind: str) -> list[str]:
    return re.findall(rf'<tr id="({kind}-[^"]+)"', page)


def _jobs(number: int) -> list[JobSummary]:
    return [replace(ONE, id=f"job-{n}", date=_day(n), finished=n % 9 > 0) for n in range(number)]


def test_few_stamps_are_one_page() -> None:
    assert stamp_pages(_jobs(21)) == {STAMP: stamp_page(_jobs(21))}


def test_stamps_of_many_finished_jobs_are_parted_by_year() -> None:
    jobs = _jobs(900)
    pages = stamp_pages(jobs)
    first = _rows(pages[STAMP], "stamp")
    assert len(first) == FINISHED_HERE + sum(not job.finished for job in jobs)
    assert {row for page in pages.values() for row in _rows(page, "stamp")} == {f"stamp-{job.id}" for job in jobs}
    for here in pages.keys() - {STAMP}:
        assert here.replace(".md", ".html") in pages[STAMP]
    assert len(pages) > 5


def _lots(number: int) -> list[JobLots]:
    ink = next(iter(RECORDS.inks))
    letters = "ABCDEFG"
    return [
        JobLots(f"job-{n}", f"R-{n}", _day(n), True, (f"{letters[n % 7]}X-{n}",), (), (ink,), ()) for n in range(number)
    ]


def test_few_lots_are_one_page() -> None:
    assert list(lots_pages(RECORDS, traces(RECORDS, _lots(20)), AS_OF)) == [LOTS]


def test_many_lots_are_found_by_the_sign_that_they_begin_with() -> None:
    found = traces(RECORDS, _lots(900))
    pages = lots_pages(RECORDS, found, AS_OF)
    lots = {row for page in pages.values() for row in _rows(page, "lot")}
    assert len([row for row in lots if "other--" in row]) == 900
    assert MOST_HERE <= len(_rows(pages[LOTS], "lot")) < MOST_HERE + 150
    further = {here: page for here, page in pages.items() if here != LOTS}
    assert all(here.replace(".md", ".html") in pages[LOTS] for here in further)
    # All of them stand there, those at hand too.
    assert len([row for page in further.values() for row in _rows(page, "lot")]) == sum(
        bool(trace.thing.lot) for trace in found
    )
    assert all(re.search(r"Lots that begin with [A-Z0-9]", page) for page in further.values())


def test_the_search_passes_over_long_lists_and_not_over_what_stands_beside_them() -> None:
    page = stamp_page(_jobs(3)) + "<p>Beside it</p>"
    read = words_apart(page)
    assert "job-1" in page and "job-1" not in read and "Beside it" in read
