"""People, machines, inks, lots, groupings, supplies and procedures have an end: old jobs keep them, new ones do not."""

from __future__ import annotations

import dataclasses
import datetime
from pathlib import Path
from typing import Any

import pytest

from generator.cli import main
from generator.dates import as_of
from generator.diagnostics import Report, as_text, has_errors
from generator.planning.plan import JobPlan
from generator.planning.supplies.tray import in_date
from generator.press.pages import generated_pages
from generator.press.writing.new_job import new_job
from generator.records.days import Date
from generator.records.ended import REASONS, Ended
from generator.records.families import Records
from tests.checked import check_all
from tests.conftest import copy_content
from tests.planning.demo import RECORDS, planned, simple, try_plan, with_entry, written

BEFORE, DAY, AFTER = "2027-05-11", "2027-05-12", "2027-05-13"
TODAY = datetime.date(2027, 5, 12)


def _ended(why: str, on: str = DAY) -> Ended:
    day = datetime.date.fromisoformat(on)
    return Ended(on=Date(day.year, day.month, day.day), why=why)


def _over(family: str, entry: str, why: str = "retired", on: str = DAY) -> Records:
    return with_entry(family, entry, until=_ended(why, on))


def _job(day: str, **changes: Any) -> dict[str, Any]:
    asked = {"asked": "2027-05-05", "answers": "all clear"}
    made = simple(date=day, screening=asked, **changes)
    made["parts"][0]["lines"][0] |= {"machine": "kettle", "ink": "black-line"}
    return made


def _plan(records: Records, day: str) -> tuple[JobPlan | None, Report]:
    return try_plan(_job(day), records)


@pytest.mark.parametrize(
    ("family", "entry"),
    [("people", "quill"), ("machines", "kettle"), ("inks", "black-line"), ("groupings", "1207RL")],
)
def test_a_job_of_an_earlier_day_keeps_what_it_names_and_a_new_one_has_an_error_there(family: str, entry: str) -> None:
    for why in REASONS:
        records = _over(family, entry, why)
        assert _plan(records, BEFORE)[1] == ()
        # What is recalled is not here on the day of the recall any more.
        assert has_errors(_plan(records, DAY)[1]) == (why == "recalled")
        made, report = _plan(records, AFTER)
        assert made is None and {(d.code, d.level) for d in report} == {("J623", "error")}
        wrong = report[0]
        line = Path(wrong.place.file).read_text("utf-8").split("\n")[wrong.place.line - 1]
        assert line[wrong.place.column - 1 :].strip("'\"").startswith(entry)
        assert f"({why})" in wrong.message and "2027-05-12" in wrong.message


def test_what_nobody_names_is_chosen_out_of_what_is_here() -> None:
    usual = planned(simple()).work
    assert usual is not None
    machine = usual.steps[0].setting.machine.id
    later = planned(simple(date=AFTER), _over("machines", machine)).work
    assert later is not None and later.steps[0].setting.machine.id != machine
    # Where there is nothing else, the error is where it is chosen.
    records = RECORDS
    for each in RECORDS.techniques["lining"].machines:
        entries = {
            **records.machines,
            str(each): records.machines[each].model_copy(update={"until": _ended("retired")}),
        }
        records = dataclasses.replace(records, machines=entries)
    report = try_plan(simple(date=AFTER), records)[1]
    assert [d.code for d in report] == ["J623"] and report[0].place.file.endswith("techniques.yml")
    assert try_plan(simple(date=BEFORE), records)[1] == ()


def test_a_supply_that_is_over_is_on_no_tray_after_it() -> None:
    def tray(day: str) -> set[str]:
        work = planned(simple(date=day), _over("supplies", "razor", "used up")).work
        assert work is not None
        return {str(counted.supply.id) for counted in work.tray.supplies}

    assert "razor" in tray(DAY) and "razor" not in tray(AFTER)


class TestLots:
    def _records(self, why: str) -> Records:
        ink = RECORDS.inks["black-line"]
        lots = tuple(lot.model_copy(update={"until": _ended(why)}) if lot.lot == "LB-7031" else lot for lot in ink.lots)
        return with_entry("inks", "black-line", lots=lots)

    def test_a_recalled_lot_is_laid_out_on_no_day_and_a_used_up_one_not_after_its_end(self) -> None:
        for why, before, after in (("recalled", False, False), ("used up", True, False)):
            ink = self._records(why).inks["black-line"]
            out = ["LB-7031" in [lot.lot for lot in in_date(ink, datetime.date.fromisoformat(d))] for d in (DAY, AFTER)]
            assert out == [before, after], why
            assert "do not use, " + why in generated_pages(self._records(why), TODAY)["reference/inks.md"]

    def test_the_record_of_a_job_that_used_it_stays(self, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
        content = copy_content(tmp_path, ["sextant", "tide-table"])
        inks = content / "inks.yml"
        text = inks.read_text("utf-8").replace(
            "{lot: LB-7031,", "{lot: LB-7031, until: {on: 2027-05-01, why: recalled},"
        )
        inks.write_text(text, "utf-8")
        assert main(["recall", "LB-7031", "--content", str(content)]) == 0
        assert capsys.readouterr().out.split() == ["R-0141"]
        assert main(["sheet", "sextant", "--content", str(content)]) == 0
        assert main(["sheet", "tide-table", "--content", str(content)]) == 0
        assert not has_errors(check_all(content, as_of()))


class TestFinishedJobs:
    """No suggestion proposes to change what was written down at a finished job."""

    def test_what_is_gone_is_written_into_its_family_again(self, tmp_path: Path) -> None:
        content = copy_content(tmp_path, ["diving-bell"])
        job = content / "jobs" / "diving-bell.yml"
        job.write_text(job.read_text("utf-8").replace("artist: quill", "artist: quil"), "utf-8")
        (wrong,) = [d for d in check_all(content, as_of()) if d.code == "L401"]
        assert "stays as it was written" in wrong.help and "people.yml" in wrong.help and "until:" in wrong.help
        assert "did you mean" not in wrong.help

    def test_an_end_before_it_is_mended_at_the_end(self) -> None:
        job = written("diving-bell")
        report = try_plan(job, _over("people", job["artist"], "left", "2027-01-01"))[1]
        assert report and all(d.code == "J623" and "stays as it was written; mend `until`" in d.help for d in report)
        assert try_plan(job, _over("people", job["artist"], "left", AFTER))[1] == ()

    def test_a_lot_that_no_ink_has_is_written_at_its_ink(self, tmp_path: Path) -> None:
        content = copy_content(tmp_path, ["diving-bell"])
        job = content / "jobs" / "diving-bell.yml"
        job.write_text(job.read_text("utf-8").replace("BR-2291", "BR-2219"), "utf-8")
        (found,) = [d for d in check_all(content, as_of()) if d.code == "J622"]
        assert "stays as it was written" in found.help and "did you mean" not in found.help


def test_who_left_is_reminded_of_nothing_and_offered_for_nothing(tmp_path: Path) -> None:
    records = _over("people", "bram", "left", "2027-01-31")
    pages = generated_pages(records, TODAY)
    assert "Bram (left, 2027-01-31)" in pages["reference/people.md"]
    assert "glance-bram" not in pages["reference/training.md"]
    gone = _over("people", "quill", "left", "2027-08-31")
    (offered,) = [line for line in new_job(gone, "tin-drum").splitlines() if line.startswith("artist:")]
    assert offered.endswith(": mo")
    content = copy_content(tmp_path, ["diving-bell"])
    people = content / "people.yml"
    text = people.read_text("utf-8").replace(
        "came: 2024-01-08", "came: 2024-01-08\n  until: {on: 2027-05-01, why: left}"
    )
    people.write_text(text, "utf-8")
    found = check_all(content, as_of())
    assert {(d.code, d.level) for d in found} == {("L410", "reminder")}
    assert {Path(d.place.file).name for d in found} == {"procedures.yml", "reviews.yml"}
    # All of one cause is one entry of the list, so that nothing else falls out of it.
    assert {d.cause for d in found} == {"`tilde` in people, not here after 2027-05-01 (left)"}
    assert as_text(found).count("reminder L410") == 1


def test_a_procedure_out_of_use_is_read_by_nobody() -> None:
    pages = generated_pages(_over("procedures", "enquiry", "retired", "2027-05-01"), TODAY)
    assert "enquiry" in generated_pages(RECORDS, TODAY)["start-here.md"]
    assert "enquiry" not in pages["start-here.md"]
