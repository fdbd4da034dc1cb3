"""Lists of an archive are parted, and what stands in one row stands in a row somewhere."""

from __future__ import annotations

import contextlib
import datetime
import functools
import http.server
import json
import re
import threading
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from generator.planning.supplies.tracing import JobLots, traces
from generator.press.lists import jobs as jobs_module
from generator.press.lists import look_up as look_up_module
from generator.press.lists.jobs import JOBS, jobs_pages
from generator.press.lists.look_up import (
    FINISHED_HERE,
    LOOK_UP,
    STAMP,
    STAMPS,
    listed_by_page,
    stamp_page,
    stamp_pages,
    stamps_scripts,
    with_page_stamps,
)
from generator.press.lists.lots import lots_pages
from generator.press.lists.older import SEARCHED, older, searched, write_older
from generator.press.lists.parted import Pages
from generator.press.lists.recall import MOST_HERE, recall_sheets
from generator.press.manual.anchors import places
from generator.press.sheet.summary import JobSummary
from generator.press.words.addresses import LOTS
from generator.press.words.index_words import words_apart
from generator.shipped import assets
from tests.planning.demo import RECORDS
from tests.press.page_at import page_at

AS_OF = datetime.date(2027, 5, 12)
ONE = JobSummary("a", "A kettle", "R-0001", "Quill", AS_OF, "forearm, left", "finished", True, "0a1b2c3d", True)


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


def test_of_an_archive_only_the_pages_that_somebody_leads_to_are_made_to_be_read() -> None:
    made: list[str] = []

    def later(name: str) -> str:
        made.append(name)
        return f"# Jobs of {name}\n\n## In May\n"

    read = places(Pages({"a.md": "# A\n"}, {name: functools.partial(later, name) for name in ("2025.md", "2026.md")}))
    assert read["a.md"].title == "A" and list(read) == ["a.md", "2025.md", "2026.md"] and made == []
    assert read["2026.md"].title == "Jobs of 2026.md" and "in-may" in read["2026.md"].at and made == ["2026.md"]


def _lots(number: int) -> list[JobLots]:
    ink = next(iter(RECORDS.inks))
    letters = "ABCDEFG"
    return [
        JobLots(f"job-{n}", f"R-{n}", _day(n), True, (f"{letters[n % 7]}X-{n}",), (), (ink,), ()) for n in range(number)
    ]


def test_few_lots_are_one_page() -> None:
    assert list(lots_pages(page_at(LOTS, as_of=AS_OF), traces(RECORDS, _lots(20)))) == [LOTS]


def test_many_lots_are_found_by_the_sign_that_they_begin_with() -> None:
    found = traces(RECORDS, _lots(900))
    pages = lots_pages(page_at(LOTS, as_of=AS_OF), found)
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


def test_a_studio_of_a_few_years_has_no_older_jobs() -> None:
    jobs = _jobs(400)
    assert older(jobs) == [] and searched(jobs) == jobs
    assert "older-form" not in jobs_pages(jobs, AS_OF)[JOBS]


def test_what_the_search_leaves_out_is_looked_up(page: Any, tmp_path: Path) -> None:
    jobs = _jobs(1200)
    left_out = older(jobs)
    assert {job.id for job in jobs} == {job.id for job in [*left_out, *searched(jobs)]}
    assert len(searched(jobs)) == SEARCHED and {job.id for job in jobs if not job.finished} <= {
        job.id for job in searched(jobs)
    }
    assert min(job.date for job in searched(jobs) if job.finished) >= max(job.date for job in left_out)
    (tmp_path / "assets").mkdir()
    write_older(tmp_path, jobs)
    script = dict(assets())["assets/find-older-jobs.js"]
    (tmp_path / "assets" / script.name).write_text(script.read_text("utf-8"), "utf-8")
    made = jobs_pages(jobs, AS_OF)[JOBS]
    (tmp_path / "jobs.html").write_text(made, "utf-8")
    page.goto((tmp_path / "jobs.html").as_uri())
    page.fill("#older-text", f"{left_out[0].stamp} {left_out[0].id}")
    assert page.inner_text("#older-said") == "1 other job"
    assert page.get_attribute("#older-found a", "href") == f"jobs/{left_out[0].id}.html"
    page.fill("#older-text", "kettle")
    assert page.inner_text("#older-said").startswith(f"{len(left_out)} other jobs, of which 30")
    page.fill("#older-text", "no such thing")
    assert page.inner_text("#older-said") == "No other job has these words."


def _of_each_page(pages: dict[str, str], kind: str) -> dict[str, int]:
    return {here: len(_rows(text, kind)) for here, text in pages.items()}


def test_a_page_of_an_archive_has_few_rows_and_every_job_stands_on_one() -> None:
    """Of three years, some of them to come."""
    past = [replace(ONE, id=f"past-{n}", date=AS_OF - datetime.timedelta(days=n % 1095)) for n in range(1500)]
    ahead = [
        replace(ONE, id=f"next-{n}", date=AS_OF + datetime.timedelta(days=n // 2), finished=False) for n in range(300)
    ]
    jobs = [*past, *ahead]
    addresses = {f"{kind}/{job.id}.html": "0a1b2c3d" for job in jobs for kind in ("jobs", "for-the-client")}
    for kind, pages in (("jobs", jobs_pages(jobs, AS_OF)), ("stamp", stamp_pages(jobs, addresses))):
        rows = _of_each_page(pages, kind)
        assert max(rows.values()) <= 450, kind
        assert {row for page in pages.values() for row in _rows(page, kind)} == {f"{kind}-{job.id}" for job in jobs}
        first = pages[JOBS if kind == "jobs" else STAMP]
        assert [here for here in pages if here not in (JOBS, STAMP) and here.replace(".md", ".html") not in first] == []
    assert listed_by_page(jobs, {**addresses, "index.html": "11111111"}) == {"index.html": "11111111"}
    assert listed_by_page(jobs[:20], addresses) == addresses
    months = jobs_pages(jobs, AS_OF)
    assert "to come" in months["jobs-of-2027-09.md"]
    assert "Jobs of September 2027" in months["jobs-of-2027-09.md"]
    parts = stamp_pages(jobs, addresses)
    assert "jobs/past-400.html 0a1b2c3d, for-the-client/past-400.html 0a1b2c3d" in parts["stamps-of-2026-04.md"]
    assert "stamps-of-2025.md" in parts and "stamps-of-2026.md" not in parts


def test_a_page_keeps_its_stamp_beside_one_with_the_name_of_its_folder() -> None:
    shown = with_page_stamps(stamp_pages([]).made[STAMP], {"a/b.html": "11111111", "a-b.html": "22222222"})
    assert "11111111" in shown and "22222222" in shown


def test_what_is_far_ahead_of_hundreds_is_looked_up_too() -> None:
    jobs = [replace(ONE, id=f"job-{n}", finished=n < 2000, date=_day(2000 - n)) for n in range(3000)]
    found = searched(jobs)
    assert len(found) == SEARCHED and {job.id for job in found} == {f"job-{n}" for n in range(1800, 2300)}
    assert {job.id for job in older(jobs)} == {job.id for job in jobs} - {job.id for job in found}


def test_the_search_passes_over_long_lists_and_not_over_what_stands_beside_them() -> None:
    page = stamp_page(_jobs(3)) + "<p>Beside it</p>"
    read = words_apart(page)
    assert "job-1" in page and "job-1" not in read and "Beside it" in read


def test_the_jobs_of_a_lot_that_went_into_hundreds_are_folded_by_year() -> None:
    one = next(iter(RECORDS.inks))
    for number, folds in ((200, 0), (900, 9)):
        jobs = [JobLots(f"job-{n}", f"R-{n}", _day(n), True, ("LB-1",), (), (one,), ()) for n in range(number)]
        sheet = dict(recall_sheets(RECORDS, traces(RECORDS, jobs), AS_OF))[f"lots/ink-{one}.html"]
        assert sheet.count("<details>") == folds
        assert len(set(re.findall(r'href="../sheets/(job-\d+)\.html"', sheet))) == number
        assert len(set(re.findall(r"<li>(R-\d+)", sheet))) == number


_SERVED = """() => new Promise(done => {
    const answer = document.getElementById("stamp-answer"), said = {};
    const typed = %s;
    const next = () => {
        if (!typed.length) { done(said); return; }
        const text = typed.shift();
        answer.textContent = "";
        new MutationObserver((_, seen) => { seen.disconnect(); said[text] = answer.textContent; next(); })
            .observe(answer, {childList: true});
        document.getElementById("stamp-text").value = text;
        document.getElementById("stamp-form").requestSubmit();
    };
    next();
})"""


@contextlib.contextmanager
def _served(folder: Path) -> Iterator[str]:
    handler = functools.partial(http.server.SimpleHTTPRequestHandler, directory=str(folder))
    handler.log_message = lambda *_: None  # type: ignore[attr-defined]
    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{server.server_address[1]}"
        server.shutdown()


def test_of_an_archive_a_stamp_is_looked_up_in_the_parts_that_it_needs(page: Any, tmp_path: Path) -> None:
    """From a folder and from a server; with its job, with its page, alone, and with the stamp on its paper."""
    jobs = [replace(job, stamp=f"{n:08x}") for n, job in enumerate(_jobs(300), 1)]
    jobs[1] = replace(jobs[1], paper="ffffffff")
    pages = {f"jobs/{job.id}.html": f"{n:08x}" for n, job in enumerate(jobs, 5000)} | {"über/ſeite-𝔸.html": "abcdef01"}
    (tmp_path / "assets").mkdir()
    scripts = stamps_scripts(jobs, pages, at_once=50)
    for here, text in scripts.items():
        (tmp_path / here).write_text(text, "utf-8")
    script = dict(assets())[LOOK_UP]
    (tmp_path / LOOK_UP).write_text(script.read_text("utf-8"), "utf-8")
    body = "\n".join(line for line in stamp_page(jobs[:3]).split("\n") if line.startswith(("<form", "<script")))
    (tmp_path / "stamp.html").write_text(f"<!doctype html><meta charset=utf-8><body>{body}</body>", "utf-8")
    expected: dict[str, str] = {}
    for job in jobs[:40]:
        said = "Finished: keep this paper." if job.finished else f"Current: this is the latest sheet of {job.id}."
        expected |= {f"{job.id.upper()} {job.stamp}": said, job.stamp: said}
        expected[f"{job.id} fffffff0"] = said if job.finished else f"Outdated: print the sheet of {job.id} again"
    expected |= {f"{name} {stamp}": f"Current: this is the latest print of {name}." for name, stamp in pages.items()}
    expected |= {
        "ffffffff": f"Finished: keep this paper. {jobs[1].id} was worked with this sheet.",
        "fffffff0": "Unknown stamp",
        "no-such-job fffffff0": "Unknown job: no-such-job",
        "": "Not a stamp",
    }
    with _served(tmp_path) as server:
        for at in (tmp_path.as_uri(), server):
            page.goto(f"{at}/stamp.html")
            said = page.evaluate(_SERVED % json.dumps(list(expected)))
            wrong = {
                text: said.get(text) for text, words in expected.items() if not said.get(text, "").startswith(words)
            }
            assert wrong == {}
            page.asked.clear()
            page.goto(f"{at}/stamp.html")
            page.evaluate(_SERVED % json.dumps([f"{jobs[1].id} {jobs[1].stamp}"]))
            assert len(scripts) > 4 and len([url for url in page.asked if "stamps-" in url]) <= 2
    for here in scripts.keys() - {STAMPS}:
        (tmp_path / here).unlink()
    page.goto((tmp_path / "stamp.html").as_uri())
    assert "Keep the paper" in page.evaluate(_SERVED % json.dumps(["00000001"]))["00000001"]


def test_a_page_of_a_year_is_made_when_it_is_asked_for(monkeypatch: pytest.MonkeyPatch) -> None:
    made: list[str] = []
    for module in (jobs_module, look_up_module):
        monkeypatch.setattr(module, "_part", lambda here, *_: made.append(here) or here)
    for pages, index in ((jobs_pages(_jobs(900), AS_OF), JOBS), (stamp_pages(_jobs(900)), STAMP)):
        made.clear()
        assert index in pages and "jobs-of-1900.md" not in pages and len(pages) == len(list(pages)) > 3
        assert made == []
        assert [pages[here] for here in pages if here != index] == made == [here for here in pages if here != index]


def test_few_stamps_are_in_one_script() -> None:
    assert list(stamps_scripts(_jobs(100), {})) == [STAMPS]
