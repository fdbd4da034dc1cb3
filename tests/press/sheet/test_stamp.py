"""The stamp changes with what is printed and with nothing else, and the handbook knows which one is current."""

from __future__ import annotations

import datetime
import re
from pathlib import Path
from typing import Any

import pytest

from generator.dates import AsOf, as_of
from generator.records.reading import read_records
from tests.conftest import ROOT, THREE_JOBS, copy_content, resize, turn_to, violations
from tests.press.pressing import press_jobs
from tests.test_browser import ALIKE_ONCE


def stamps(content: Path, run: AsOf | None = None) -> dict[str, str]:
    """Press all jobs and read the stamp off each printed sheet."""
    found = {}
    for pressed in press_jobs(content, read_records(content, run)):
        assert pressed.summary is not None and pressed.sheet is not None, pressed.report
        printed = re.findall(r"· stamp ([0-9a-f]{8}) · side", pressed.sheet)
        assert set(printed) == {pressed.summary.stamp}
        found[pressed.summary.id] = pressed.summary.stamp
    return found


def changed(content: Path, old: str, new: str) -> None:
    file = content / "jobs" / "tide-table.yml"
    text = file.read_text("utf-8")
    assert text.count(old) == 1
    file.write_text(text.replace(old, new), "utf-8")


@pytest.fixture
def content(tmp_path: Path) -> Path:
    return copy_content(tmp_path, THREE_JOBS)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("length: 290 mm", "length: 330 mm"),
        ("box: [35 mm, 15 mm, 80 mm, 80 mm]", "box: [36 mm, 15 mm, 79 mm, 80 mm]"),
        ("start: 11:00", "start: 11:30"),
    ],
)
def test_a_changed_number_changes_the_stamp_of_its_job_alone(content: Path, old: str, new: str) -> None:
    before = stamps(content)
    changed(content, old, new)
    after = stamps(content)
    assert {job for job in before if before[job] != after[job]} == {"tide-table"}


def test_a_changed_comment_or_another_day_changes_no_stamp(content: Path) -> None:
    before = stamps(content)
    changed(content, "\nid: tide-table", "\n\n# Looked through once more.\nid: tide-table  # the same")
    assert stamps(content, as_of(datetime.date(2027, 5, 13))) == before


def looked_up(page: Any, text: str) -> str:
    page.fill("#stamp-text", text)
    page.keyboard.press("Enter")
    return str(page.inner_text("#stamp-answer"))


def test_the_page_answers_from_a_folder(page: Any, site: Path) -> None:
    page.goto((site / "stamp.html").as_uri())
    row = page.locator("#stamp-tide-table")
    stamp = row.locator("code").inner_text()
    assert stamp in (site / "sheets" / "tide-table.html").read_text("utf-8")
    assert looked_up(page, f"tide-table {stamp}").startswith("Current")
    assert looked_up(page, f"  TIDE-TABLE   {stamp.upper()} ").startswith("Current")
    other = "00000000" if stamp != "00000000" else "11111111"
    assert looked_up(page, f"tide-table {other}").startswith("Outdated: print")
    assert looked_up(page, f"toString {stamp}").startswith("Unknown job")
    assert looked_up(page, "tide-table").startswith("Not a stamp")
    assert [url for url in page.asked if not url.startswith((site.as_uri(), "data:", "blob:", "about:"))] == []


def stamp_on_file(page: Any, job: str) -> str:
    return str(page.locator(f"#stamp-{job} code").inner_text())


def another(stamp: str) -> str:
    """A stamp that no sheet of today carries."""
    return "00000000" if stamp != "00000000" else "11111111"


FINISHED = sorted(file.stem for file in (ROOT / "content" / "jobs").glob("*.yml") if "\nfinished:" in file.read_text())


def test_a_finished_job_keeps_its_paper_whatever_its_stamp(page: Any, site: Path) -> None:
    page.goto((site / "stamp.html").as_uri())
    for job in FINISHED:
        stamp = stamp_on_file(page, job)
        for typed in (f"{job} {stamp}", stamp, f"{job} · stamp {stamp} · side 1 of 2", f"{job} {another(stamp)}"):
            said = looked_up(page, typed)
            assert said.startswith("Finished: keep this paper."), typed
            assert "throw" not in said and "again" not in said
        row = page.locator(f"#stamp-{job}").inner_text()
        assert "finished, keep this paper" in row and "print again" not in row


def test_a_finished_sheet_says_at_its_foot_that_it_is_kept_and_another_does_not(page: Any, site: Path) -> None:
    for file in sorted((site / "sheets").glob("*.html")):
        if "--" in file.stem:
            continue
        feet = re.findall(r'<footer class="turn">(.*?)</footer>', file.read_text("utf-8"))
        assert feet and all(("finished, keep this paper" in foot) is (file.stem in FINISHED) for foot in feet)


def test_no_paper_is_thrown_away_that_was_worked_from_or_that_nobody_knows(page: Any, site: Path) -> None:
    page.goto((site / "stamp.html").as_uri())
    unknown = another(stamp_on_file(page, "tide-table"))
    outdated = looked_up(page, f"tide-table {unknown}")
    assert outdated.startswith("Outdated: print the sheet of tide-table again")
    assert outdated.index("Was it worked from already? Then keep it") < outdated.index("throw")
    for typed in (unknown, f"no-such-job {unknown}"):
        said = looked_up(page, typed)
        assert said.startswith("Unknown") and "Keep the paper" in said and "throw" not in said
    current = looked_up(page, f"tide-table {stamp_on_file(page, 'tide-table')}")
    assert current == "Current: this is the latest sheet of tide-table."


def test_what_was_worked_with_is_said_only_where_somebody_looked(page: Any, site: Path) -> None:
    page.goto((site / "stamp.html").as_uri())
    job, set_to = FINISHED[0], "told => Object.assign(window.currentStamps[told.job], told)"
    stamp = stamp_on_file(page, job)
    other = another(stamp)
    said = {}
    for name, told, typed in (
        ("the same", {}, stamp),
        ("not looked", {"paper": ""}, stamp),
        ("another, found", {"paper": other}, f"{job} {stamp}"),
        ("another, typed", {"paper": other}, other),
        ("not kept", {"kept": False}, f"{job} {stamp}"),
    ):
        page.evaluate(set_to, {"job": job, "kept": True, "paper": stamp, **told})
        said[name] = looked_up(page, typed)
    worked = f"{job} was worked with this sheet."
    assert {name for name, words in said.items() if worked in words} == {"the same", "another, typed"}
    assert all(words.startswith("Finished: keep this paper.") for words in said.values())
    assert "nobody looked" in said["not looked"] and "the paper counts" in said["another, typed"]
    assert other in said["another, found"] and "nobody can say" in said["not kept"]


def test_no_paper_of_a_job_that_is_not_worked_is_current(page: Any, site: Path) -> None:
    page.goto((site / "stamp.html").as_uri())
    stamp = stamp_on_file(page, "tide-table")
    page.evaluate("window.currentStamps['tide-table'].not_worked = 'postponed'")
    for typed in (stamp, f"tide-table {another(stamp)}"):
        said = looked_up(page, typed)
        assert said.startswith("Not worked, postponed: work from no paper of tide-table.")
        assert said.index("Was one worked from already? Then keep it") < said.index("throw")


def test_the_page_is_accessible(page: Any, site: Path) -> None:
    page.set_viewport_size({"width": 360, "height": 900})
    page.goto((site / "stamp.html").as_uri())
    for width in (1440, 360):
        resize(page, width)
        assert page.evaluate("document.documentElement.scrollWidth") <= width, width
    page.evaluate(ALIKE_ONCE)
    found = []
    for width in (360, 1440):
        resize(page, width)
        found += [(width, *violation) for violation in violations(page)]
    assert found == []


def test_without_scripts_the_page_is_the_table(still: Any, site: Path) -> None:
    turn_to(still, site / "stamp.html")
    assert not still.locator("#stamp-form").is_visible()
    assert still.locator("#stamp-tide-table code").is_visible()
    assert "print again" in still.locator("#stamp-tide-table").inner_text()
    assert "keep this paper" in still.locator(f"#stamp-{FINISHED[0]}").inner_text()
