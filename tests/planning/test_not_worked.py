"""A job that is cancelled, postponed, or whose client did not come: no working steps, no need, no lot, no day."""

from __future__ import annotations

import datetime
import json
from pathlib import Path

import pytest

from generator.cli import main
from generator.dates import as_of
from generator.diagnostics import Diagnostic
from generator.planning.each_job import plan_jobs
from generator.planning.findings.states import NOT_WORKED
from generator.planning.for_lists import lots_of, needs_of
from generator.press.lists.jobs import JOBS, jobs_pages
from generator.press.lists.look_up import STAMPS, stamp_page, stamps_scripts
from generator.press.sheet.contents import sheet_of
from generator.press.sheet.printing import job_html, sheet_html
from generator.press.sheet.summary import summary_of
from generator.records.ended import Ended
from generator.records.jobs import NOT_WORKED as WORDS
from generator.records.reading import read_records
from tests.conftest import copy_content
from tests.planning.demo import RECORDS, changed, planned, read, simple, with_entry, written

AS_OF = datetime.date(2027, 5, 12)


def test_the_words_of_the_record_are_the_names_of_the_states() -> None:
    assert tuple(NOT_WORKED) == WORDS


@pytest.mark.parametrize("word", WORDS)
def test_nothing_is_laid_out_or_traced_for_it(word: str) -> None:
    before = planned(simple())
    assert needs_of(RECORDS, before) is not None and lots_of(RECORDS, before) is not None
    made = planned(simple(not_worked=word))
    assert (made.work, needs_of(RECORDS, made), lots_of(RECORDS, made)) == (None, None, None)


def test_its_papers_say_so_first_and_nothing_of_what_was_found() -> None:
    job = changed(written("tin-telegraph"), "not_worked", to="postponed")
    before, made = planned(written("tin-telegraph")), planned(job)
    assert before.findings and made.findings == ()
    sheet = sheet_of(RECORDS, made)
    assert (sheet.verdict, sheet.reasons, sheet.rows) == ("Postponed", (), ())
    for html in (sheet_html(sheet, AS_OF), job_html(RECORDS, made, sheet, AS_OF)):
        assert 'class="verdict postponed"' in html and "Agree on a new day" in html
        assert not any(finding.reason in html for finding in before.findings)
    assert "points above" not in sheet_html(sheet, AS_OF)
    assert "for-the-client" not in job_html(RECORDS, made, sheet, AS_OF)


def test_what_is_over_on_its_day_stops_nothing() -> None:
    until = Ended.model_construct(on=datetime.date(2027, 1, 1), why="sold")
    gone = with_entry("machines", "kettle", until=until)
    job = changed(written("tide-table"), "not_worked", to="cancelled")
    assert planned(job, gone).state.value == "cancelled"


def test_lists_say_the_same_word_and_no_day_of_this_week_holds_it() -> None:
    lines = [
        summary_of(RECORDS, planned(simple(id=name, not_worked=word, title=name.title())), "0000000a")
        for name, word in (("lamp-one", None), ("lamp-two", "no-show"), ("lamp-three", "cancelled"))
    ]
    index = jobs_pages(lines, AS_OF)[JOBS]
    week, behind = index.split("{ #before }")
    assert "lamp-one" in week and "lamp-two" not in week and "lamp-three" not in week
    assert "no-show" in behind and "cancelled" in behind and behind.count("not worked</td>") == 2
    assert "for-the-client/lamp-two" not in index
    table = stamp_page(lines)
    assert "no-show: work from no paper of it" in table and table.count("print again") == 1
    told = json.loads(stamps_scripts(lines, {})[STAMPS].partition(" = ")[2].rstrip(";\n"))
    assert {name: one["not_worked"] for name, one in told.items()} == {
        "lamp-one": "",
        "lamp-two": "no-show",
        "lamp-three": "cancelled",
    }


def test_a_finished_job_was_worked() -> None:
    job, report = read(changed(written("diving-bell"), "not_worked", to="cancelled"))
    assert job is None
    (said,) = report
    assert said.code == "R317" and said.message == "a job that is finished was not cancelled" and said.place.line > 1


def test_nobody_has_failed_to_come_on_a_day_still_to_come(tmp_path: Path) -> None:
    content = copy_content(tmp_path, ("tide-table",))
    file = content / "jobs" / "tide-table.yml"
    file.write_text(file.read_text("utf-8") + "not_worked: no-show\n", "utf-8")

    def said(day: int) -> list[Diagnostic]:
        reading = read_records(content, as_of(datetime.date(2027, 5, day)))
        return [d for planned in plan_jobs(content, reading) for d in planned.report if d.code == "R328"]

    (found,) = said(11)
    assert found.place.line == len(file.read_text("utf-8").splitlines()) and found.place.column > 1
    assert said(12) == []


def test_it_is_not_finished_has_no_page_for_the_client_and_takes_nothing(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    content = copy_content(tmp_path, ("tide-table",))
    file = content / "jobs" / "tide-table.yml"
    file.write_text(file.read_text("utf-8") + "not_worked: cancelled\n", "utf-8")
    before = file.read_bytes()
    where = ["--content", str(content)]
    assert main(["finish", "tide-table", "--stamp", "none", *where]) == 1
    assert "`not_worked: cancelled`" in capsys.readouterr().err and file.read_bytes() == before
    assert main(["sheet", "tide-table", "--client", *where]) == 1
    assert "no page of it to take home" in capsys.readouterr().err
    assert main(["restock", *where]) == 0
    assert "tide-table" not in capsys.readouterr().out
    assert main(["plan", "tide-table", *where]) == 0
    assert "No working steps.\n" in capsys.readouterr().out
