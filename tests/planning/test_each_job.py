"""All who go through the jobs of a folder take them from one place, with the same reports."""

from __future__ import annotations

import ast
import datetime
from pathlib import Path
from typing import Any

import pytest

import generator
from generator.cli import main
from generator.dates import as_of
from generator.planning import plan as plan_module
from generator.planning.each_job import dated_files, plan_jobs
from generator.planning.plan import PlanBasis, before_work, lay_out, not_finished, plan, plan_laid
from generator.planning.working.steps import LaidOut
from generator.records.jobs import Job
from generator.records.quoting import fill_in_job
from generator.records.reading import read_records
from tests.checked import check_all
from tests.conftest import ROOT, THREE_JOBS, copy_content
from tests.learned import learn_from, read_finished

SOURCE = Path(generator.__file__).parent


def _who_imports(name: str) -> set[str]:
    return {
        path.relative_to(SOURCE).as_posix()
        for path in SOURCE.rglob("*.py")
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(node, ast.ImportFrom) and name in {alias.name for alias in node.names}
    }


def test_jobs_are_read_and_planned_in_one_place() -> None:
    assert _who_imports("read_jobs") == {"planning/each_job.py"}
    assert _who_imports("plan") == _who_imports("plan_laid") == {"planning/each_job.py"}


def test_a_finished_job_as_before_its_work_is_the_plan_of_one_that_is_not_finished(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """It is worked out once; anew where something had been learned that moves its times."""
    reading = read_records(ROOT / "content")
    records = reading.records
    assert records is not None
    learned = learn_from(ROOT / "content", reading)[0]
    assert any(lesson.factor is not None for lesson in learned.values())
    anew: list[str] = []
    work_out = plan_module.work_out

    def noting(laid: LaidOut, job: Job, *rest: Any) -> PlanBasis:
        anew.append(str(job.id))
        return work_out(laid, job, *rest)

    for job in (fill_in_job(job, records)[0] for job in read_finished(ROOT / "content", reading.known)):
        laid = lay_out(records, job)[0]
        assert laid is not None
        found = plan_laid(laid, job, learned).found
        assert found is not None
        before = [plan(records, not_finished(job), lessons)[0] for lessons in ({}, learned)]
        with monkeypatch.context() as patch:
            patch.setattr(plan_module, "work_out", noting)
            assert [before_work(found, job, {})] == before[:1] and str(job.id) not in anew
            assert [before_work(found, job, learned)] == before[1:]
        assert (before[0] != before[1]) == (str(job.id) in anew)
    assert anew


def test_a_job_that_is_not_wanted_is_read_and_not_planned(tmp_path: Path) -> None:
    content = copy_content(tmp_path, THREE_JOBS)
    reading = read_records(content)
    made = {
        str(each.job.id): each
        for each in plan_jobs(content, reading, wanted=lambda job: job.id != "stairwell")
        if each.job
    }
    assert sorted(made) == sorted(THREE_JOBS)
    assert [name for name, each in made.items() if each.plan is None] == ["stairwell"]


def test_what_is_wrong_with_one_job_is_reported_and_the_others_are_planned(tmp_path: Path) -> None:
    content = copy_content(tmp_path, THREE_JOBS)
    (content / "jobs" / "stairwell.yml").write_text("id: stairwell\n", "utf-8")
    (content / "jobs" / "tide-table.yml").write_text(
        (content / "jobs" / "tide-table.yml").read_text("utf-8").replace("dial: 95 Hz", "dial: 160 Hz", 1), "utf-8"
    )
    made = list(plan_jobs(content, read_records(content)))
    assert [each.plan is not None for each in made] == [True, False, False]
    assert made[1].job is None and {d.code for d in made[1].report} == {"R302"}
    assert made[2].job is not None and [d.code for d in made[2].report] == ["J606"]
    assert {*made[1].report, *made[2].report} == set(check_all(content, as_of()))


def test_nothing_is_planned_while_a_record_has_a_mistake(tmp_path: Path) -> None:
    content = copy_content(tmp_path, THREE_JOBS)
    (content / "inks.yml").write_text("[", "utf-8")
    assert [each.plan for each in plan_jobs(content, read_records(content))] == [None] * 3


def test_the_day_of_a_job_is_found_however_it_is_written() -> None:
    """One that others did not see would leave two sittings of one artist at once, both of them clear."""
    ways = (
        "date: 2027-05-12",
        "'date' : '2027-05-12'",
        "date: # agreed by phone\n  # on Monday\n  2027-05-12",
        "date: >-\n  2027-05-12",
        r'date: "2027\x2d05-12"',
        r'"d\x61te": 2027-05-12',
        # Digits of other scripts, which a keyboard set to one types: full width, Arabic.
        "date: \uff12\uff10\uff12\uff17-05-12",
        "date: 2027-\u0660\u0665-\u0661\u0662",
    )
    day, written = datetime.date(2027, 5, 12), "# date: 2027-05-11\nid: a\n{}\nstart: 11:00\n"
    for number, way in enumerate(ways):
        text = (written if number < 6 else written.partition("\n")[2]).format(way).encode()
        for asked in (None, day):
            assert "2027-05-12" in dated_files({Path("a.yml"): text}, asked).get(Path("a.yml"), ()), way
    assert dated_files({Path("a.yml"): b'title: "a \\x62"\ndate: 2027-05-11\n  ['}) == {Path("a.yml"): ("2027-05-11",)}


def test_a_plan_says_which_job_of_its_day_cannot_be_read(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """What that takes at the same time is not known. A draft takes nothing, and one of another day nothing of this."""
    content = copy_content(tmp_path, ("tide-table", "bell-pull"))
    other = content / "jobs" / "bell-pull.yml"
    whole = other.read_text("utf-8")
    assert "date: 2027-05-12" in whole
    broken = whole.replace("artist: ", "artist: un")
    said = []
    for text in (whole, broken, broken.replace("date: 2027-05-12", "date: 2027-05-13"), broken + "draft: yes\n"):
        other.write_text(text, "utf-8")
        assert main(["plan", "tide-table", "--content", str(content)]) == 0
        said.append(f"{other} has a mistake and may be of the same day" in capsys.readouterr().err)
    assert said == [False, True, False, False]
