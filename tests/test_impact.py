"""What publishing would change: which sheets, in which numbers, because of which record."""

from __future__ import annotations

import json
import re
import shutil
from pathlib import Path
from typing import Any

import pytest

from generator import impact as impact_module
from generator.cli import main
from generator.commands.impact_said import impact_text, report_and_impact
from generator.dates import as_of
from generator.impact import PROGRAM, Impact, SheetChange, impact
from generator.kept import jobs as jobs_module
from generator.kept.times import learn_from_texts
from generator.planning.each_job import diary_of
from generator.press.sheet.as_printed import as_printed
from generator.press.words.print_line import printed_stamp
from generator.published import NAME, Published, keys_of, last_published, note_published, texts_of
from generator.records.reading import JobTexts, read_records
from generator.site import read_site
from tests.conftest import copy_content

JOBS = ("tide-table", "stairwell", "diving-bell", "bell-pull")


@pytest.fixture(scope="module")
def studio(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Records of which a site is published, with a few jobs; nobody may change it."""
    folder = tmp_path_factory.mktemp("studio")
    content, sheets = copy_content(folder, JOBS), folder / "site" / "sheets"
    sheets.mkdir(parents=True)
    (folder / "site" / "index.html").touch()

    def keep(address: str, page: bytes) -> None:
        if address.startswith("sheets/"):
            (folder / "site" / address).write_bytes(page)

    read_site(content, None, as_of(), keep)
    note_published(content, folder / "site", as_of())
    return folder


@pytest.fixture
def content(tmp_path: Path, studio: Path) -> Path:
    return Path(shutil.copytree(studio, tmp_path / "studio")) / "content"


def changed(content: Path, *, file: str, old: str, new: str) -> None:
    path = content / file
    text = path.read_text("utf-8")
    assert text.count(old) == 1
    path.write_text(text.replace(old, new), "utf-8")


def found(content: Path) -> Impact:
    before = last_published(content)
    assert before is not None
    return against(content, before)


def against(content: Path, before: Published) -> Impact:
    made = impact(content, read_site(content, None, as_of(), pages=False), before)
    assert made is not None
    return made


def of(made: Impact, job: str) -> SheetChange:
    return next(sheet for sheet in made.sheets if sheet.job == job)


def test_nothing_changes_where_nothing_has_changed(content: Path) -> None:
    assert found(content)[2:] == ((), (), len(JOBS), True)


def test_each_number_is_told_by_the_record_that_changed_it(content: Path) -> None:
    changed(content, file="studio.yml", old="  break_length: 10 min", new="  break_length: 15 min")
    changed(content, file="techniques.yml", old="pace: 1.5–2.5 cm/min", new="pace: 1.2–2.2 cm/min")
    changed(content, file="supplies.yml", old="name: Nitrile gloves", new="name: Gloves of nitrile")
    changed(content, file="supplies.yml", old="name: Apron", new="name: Long apron")
    changed(content, file="jobs/tide-table.yml", old="1207RL, length: 450 mm", new="1207RL, length: 500 mm")
    made, length, pace = found(content), "studio.limits.break_length", "techniques.lining.pace"
    assert {change.name for change in made.records} == {length, pace, "supplies.gloves.name", "supplies.apron.name"}
    # A finished job is kept as it was worked, and one that may not go ahead has no steps.
    assert [(sheet.job, sheet.how) for sheet in made.sheets] == [("tide-table", "changed")] and made.same == 3
    numbers = {number.what: number for number in of(made, "tide-table").numbers}
    minutes = numbers["Step 1, minutes"]
    assert minutes.because == (pace,) and minutes.was != minutes.now
    assert numbers["Step 4, minutes"].because == (pace, "jobs.tide-table.parts")
    breaks = numbers["breaks"]
    assert length in breaks.because and breaks.was.startswith("20 min") and breaks.now.startswith("30 min")
    assert {length, pace} <= set(numbers["end"].because)
    assert numbers["Tray, Long apron"].because == ("supplies.apron.name",)
    # Whoever is allergic to what gloves hold has others on the tray.
    assert not any("love" in what for what in numbers) and of(made, "tide-table").untold
    said = impact_text(made)
    assert "because of studio.limits.break_length\n" in said and "print it again" in said


def test_sheets_come_and_go_and_a_finished_one_is_a_record(content: Path) -> None:
    (content / "jobs" / "stairwell.yml").unlink()
    changed(content, file="jobs/bell-pull.yml", old="numbing: [", new="not_worked: cancelled\nnumbing: [")
    (content.parent / "site" / "sheets" / "bell-pull.html").unlink()
    assert main(["finish", "tide-table", "--stamp", "none", "--content", str(content)]) == 0
    made = found(content)
    assert {(s.job, s.how) for s in made.sheets} == {
        ("stairwell", "gone"),
        ("bell-pull", "new"),
        ("tide-table", "changed"),
    }
    assert "tide-table: finished, keep its paper" in impact_text(made)


def test_an_answer_that_changes_a_sheet_is_said_on_the_sheet_alone(content: Path) -> None:
    """An allergy, an answer, and an article that somebody who is allergic to it has to know by its name."""
    job = "jobs/tide-table.yml"
    said = {}
    for word in ("adhesive", "[{to: violet, checked: {not_on_tray: yes, by: quill, on: 2027-05-11}}]"):
        before = (content / job).read_text("utf-8")
        changed(content, file=job, old="allergies: none", new=f"allergies: {word if '[' in word else f'[{word}]'}")
        made = found(content)
        (content / job).write_text(before, "utf-8")
        said[word] = (impact_text(made), report_and_impact("{}", made))
        sheet = of(made, "tide-table")
        assert {number.what for number in sheet.numbers} == {"Verdict"} and sheet.untold, word
    assert len({text for text, _ in said.values()}) == len({data for _, data in said.values()}) == 1
    (text,) = {text for text, _ in said.values()}
    assert "tide-table: print it again\n  because of jobs.tide-table\n    Verdict: was clear, now with care" in text
    assert "said on the sheet alone" in text and "allerg" not in text


def test_a_sheet_of_another_program_is_told_as_such(content: Path) -> None:
    sheet = content.parent / "site" / "sheets" / "tide-table.html"
    html = sheet.read_text("utf-8")
    stamp = printed_stamp(html)
    sheet.write_text(html.replace(stamp, "0" * 8).replace("Clockwork tide table", "Clockwork tide tables"), "utf-8")
    (number,) = of(found(content), "tide-table").numbers
    assert (number.what, number.because) == ("Title", (PROGRAM,))


def test_nothing_is_told_as_missing_on_a_sheet_that_an_older_program_left_without_marks(content: Path) -> None:
    sheet = content.parent / "site" / "sheets" / "tide-table.html"
    html = sheet.read_text("utf-8")
    older = re.sub(r' data-of="[^"]*"', "", html.replace("may-tell", "")).replace(printed_stamp(html), "0" * 8)
    sheet.write_text(older, "utf-8")
    change = of(found(content), "tide-table")
    assert change.numbers == () and change.untold


def test_a_sheet_is_read_as_it_is_printed(site: Path) -> None:
    read = {
        path.stem: as_printed(path.read_text("utf-8"))
        for path in (site / "sheets").glob("*.html")
        if "--" not in path.stem
    }
    assert [job for job, said in read.items() if not said.get("Verdict") or not said.get("Client")] == []
    tide = read["tide-table"]
    assert tide["Step 1, needle"] and tide["Step 1, hang-out"].said.endswith(" mm") and tide["Tray, Nitrile gloves"]
    assert "stamp" not in json.dumps(tide) and "Step 1, needle" not in read["bell-pull"]


def test_records_that_nobody_can_read_give_no_reasons_and_stop_nothing(content: Path) -> None:
    kept = content.parent / NAME
    for text in ("", "{", "[]", '{"form": 9}', '{"form": 1, "site": 3}'):
        kept.write_text(text, "utf-8")
        assert last_published(content) is None
    changed(content, file="studio.yml", old="  break_length: 10 min", new="  break_length: 15 min")
    unknown = Published(content.parent / "site", as_of(), {}, {})
    made = against(content, unknown)
    assert not made.known and of(made, "tide-table").how == "changed"
    broken = unknown._replace(files={"studio.yml": "name: ["})
    again = against(content, broken)
    assert [sheet.job for sheet in again.sheets] == ["tide-table"]


def test_no_answer_is_kept_beside_the_records(content: Path) -> None:
    kept = (content.parent / NAME).read_text("utf-8")
    assert (
        "all clear" not in kept
        and "R-0147" not in kept
        and set(keys_of(content / "jobs" / "tide-table.yml"))
        > {
            "screening",
            "parts",
        }
    )


def test_the_check_says_it_for_people_and_for_programs(content: Path, capsys: pytest.CaptureFixture[str]) -> None:
    changed(content, file="studio.yml", old="  break_length: 10 min", new="  break_length: 15 min")
    assert main(["check", "--impact", "--format", "json", "--content", str(content)]) == 0
    data = json.loads(capsys.readouterr().out)
    assert set(data) == {"report", "impact"} and data["impact"]["unchanged"] == 3
    (sheet,) = data["impact"]["sheets"]
    assert sheet["job"] == "tide-table" and sheet["numbers"][0]["because"] == ["studio.limits.break_length"]
    (content.parent / NAME).unlink()
    assert main(["check", "--impact", "--content", str(content)]) == 0
    assert "nothing was published" in capsys.readouterr().out


def test_what_is_the_same_is_not_planned_again_and_the_next_build_makes_nothing_again(
    content: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    changed(content, file="studio.yml", old="  break_length: 10 min", new="  break_length: 15 min")
    planned, made = [], []
    sheet, made_of = impact_module._sheet, jobs_module.made_of

    def planning(read: Any, *rest: Any) -> Any:
        planned.append(read.path.stem)
        return sheet(read, *rest)

    def making(path: Path, *rest: Any) -> Any:
        made.append(path.stem)
        return made_of(path, *rest)

    monkeypatch.setattr(impact_module, "_sheet", planning)
    monkeypatch.setattr(jobs_module, "made_of", making)
    assert main(["check", "--impact", "--content", str(content)]) == 0
    assert set(planned) == {"tide-table"} and sorted(made) == sorted(JOBS)
    read_site(content, None, as_of())
    assert sorted(made) == sorted(JOBS)


def test_a_record_put_back_teaches_what_it_taught(tmp_path: Path) -> None:
    """What finished jobs teach rests on records: otherwise such a change would be laid to another version."""
    content = copy_content(tmp_path, ("diving-bell", "sextant", "signal-box"))
    jobs = content / "jobs"
    older = (jobs / "diving-bell.yml").read_text("utf-8").replace("id: diving-bell", "id: diving-bell-0")
    (jobs / "diving-bell-0.yml").write_text(re.sub(r"2027-(0\d-\d\d)", r"2026-\1", older), "utf-8")
    (tmp_path / "index.html").touch()
    note_published(content, tmp_path, as_of())
    then = read_records(content, as_of())
    assert then.records is not None
    taught = learn_from_texts(then.records, then, JobTexts(content))
    changed(content, file="studio.yml", old="  learned_from: 12", new="  learned_from: 3")
    changed(content, file="supplies.yml", old="name: Nitrile gloves", new="name: Gloves of nitrile")
    reading, before = read_records(content, as_of()), last_published(content)
    assert reading.records is not None and before is not None
    learned = learn_from_texts(reading.records, reading, JobTexts(content))
    today = impact_module._Tried("", reading, learned, diary_of(content, reading, learned))
    records = tuple(impact_module.changed_records(before.files, texts_of(content)))
    tries = {one.name: one for one in impact_module._tries(content, today, before, records, 1)}
    lining = ("quill", "lining")
    assert len(taught[lining].jobs) == 4 and len(learned[lining].jobs) == 3
    assert {name: len(one.learned[lining].jobs) for name, one in tries.items()} == {
        "studio.limits.learned_from": 4,
        "supplies.gloves.name": 3,
        impact_module._EVERYTHING: 4,
    }
