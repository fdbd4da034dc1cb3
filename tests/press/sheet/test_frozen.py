"""What was worked with stays as it is: no change of a record, a rule or a formula changes a byte of it."""

from __future__ import annotations

import datetime
import json
import re
import shutil
from collections.abc import Mapping
from pathlib import Path
from typing import Any, Literal, NamedTuple

import pytest

from generator.cli import main
from generator.dates import as_of
from generator.diagnostics import Diagnostic, Place
from generator.planning import each_job
from generator.planning.plan import lay_out
from generator.planning.timing import timetable
from generator.press.sheet.all_jobs import Pressed
from generator.press.sheet.frozen import Frozen, place_of, read_frozen
from generator.press.sheet.stored import NotAsStored, Way, from_stored, to_stored
from generator.records.families import WORKED
from generator.records.reading import read_records
from tests.conftest import ROOT, copy_content
from tests.press.pressing import press_jobs

JOB, OTHER = "tide-table", "weather-house"
# Five records, each of which the sheet of the job rests on.
CHANGES = (
    ("machines.yml", "name: Kettle", "name: Old kettle"),
    ("inks.yml", "name: Brass", "name: Brass leaf"),
    ("techniques.yml", "pace: 1.5–2.5 cm/min", "pace: 1.4–2.2 cm/min"),
    ("people.yml", "name: Quill", "name: Quillon"),
    ("studio.yml", "stencil_dry: 15 min", "stencil_dry: 25 min"),
)
REFUSED = (
    Diagnostic("J601", Place("x.yml", 1, 1, 2), found="a", expected="b", help="c", says="no machine is so slow"),
)
DAMAGED_HELP = (
    "a view has another shape than in the kept files: give its new field a default, or `python -m tests.freeze_demo`"
)


@pytest.fixture
def content(tmp_path: Path) -> Path:
    return copy_content(tmp_path, (JOB, OTHER, "diving-bell"))


def worked_files(content: Path) -> list[Path]:
    return sorted((content / "jobs").glob(f"*{WORKED}"))


def finish(content: Path, *arguments: str) -> int:
    return main(["finish", JOB, "--content", str(content), *arguments])


def pressed(content: Path) -> dict[str, Pressed]:
    made = {}
    for each in press_jobs(content, read_records(content)):
        assert each.summary is not None, each.report
        made[each.summary.id] = each
    return made


def pages(one: Pressed) -> tuple[object, ...]:
    assert one.summary is not None
    return one.sheet, one.page, one.explained, one.summary.stamp


def test_no_record_and_no_formula_changes_a_byte_of_what_is_finished(
    content: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    planned = pressed(content)[JOB]
    assert finish(content, "--stamp", "none") == 0
    before = pressed(content)
    # The stamp is that of the paper, which was printed before the work.
    assert planned.summary and before[JOB].summary and planned.summary.stamp == before[JOB].summary.stamp
    for name, old, new in CHANGES:
        file = content / name
        text = file.read_text("utf-8")
        assert old in text, (name, old)
        file.write_text(text.replace(old, new), "utf-8")
    monkeypatch.setattr(timetable, "break_minutes", lambda number, length: 3 * number * length)
    after = pressed(content)
    assert [job for job in (JOB, "diving-bell") if pages(before[job]) != pages(after[job])] == []
    changed = [one != other for one, other in zip(pages(before[OTHER]), pages(after[OTHER]), strict=True)]
    assert changed == [True] * 4
    today = str(after[JOB].today)
    assert all(said in today for said in ("Old kettle", "Brass leaf", "Quillon", "25\u00a0min"))


def test_what_today_would_refuse_stays_as_it_was(content: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = pressed(content)["diving-bell"]
    file = content / "jobs" / "diving-bell.yml"
    text = file.read_text("utf-8")
    monkeypatch.setattr(each_job, "lay_out", lambda *given: (None, REFUSED) if given[1].finished else lay_out(*given))
    after = pressed(content)["diving-bell"]
    assert file.read_text("utf-8") == text and pages(before) == pages(after)
    assert "Today’s rules make no plan of it:</b> no machine is so slow" in str(after.today)


def test_the_job_keeps_every_byte_and_gets_the_block_behind_it(content: Path) -> None:
    file = content / "jobs" / f"{JOB}.yml"
    for before in (file.read_bytes(), file.read_bytes().replace(b"\n", b"\r\n").rstrip() + b"  # the last line"):
        file.write_bytes(before)
        assert finish(content, "--stamp", "none") == 0
        after = file.read_bytes()
        assert after.startswith(before)
        assert after.count(b"\r\n") in (0, after.count(b"\n"))
        block = after[len(before) :].decode()
        for said in ("took: ", "lots:", "{step: 1, needle: 1210RL, machine: kettle, dial: 110 Hz, ink: black-line"):
            assert said in block
        assert pressed(content)[JOB].report == ()
        worked_files(content)[-1].unlink()


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("{}", "carries the same stamp"),
        ("tide-table · stamp {} · side 1 of 2", "carries the same stamp"),
        ("12345678", "carries another stamp, 12345678"),
        ("none", "Nobody looked"),
    ],
)
def test_the_stamp_on_the_paper_is_compared(
    typed: str, said: str, content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    stamp = pressed(content)[JOB].summary
    assert stamp is not None
    assert finish(content, "--stamp", typed.format(stamp.stamp)) == 0
    assert said in capsys.readouterr().out
    page = str(pressed(content)[JOB].page)
    on_page = {"carries the same stamp": "carried the same stamp", "Nobody looked": "Nobody looked"}
    assert on_page.get(said, "carried another stamp, 12345678") in page


def test_what_is_no_stamp_writes_nothing(content: Path) -> None:
    before = (content / "jobs" / f"{JOB}.yml").read_bytes()
    assert finish(content, "--stamp", "about noon") == 1
    assert (content / "jobs" / f"{JOB}.yml").read_bytes() == before
    assert [file.stem for file in worked_files(content)] == ["diving-bell.worked"]


def test_a_read_view_is_the_one_that_was_written() -> None:
    for file in worked_files(ROOT / "content"):
        made, report = read_frozen(file)
        assert made is not None, (report, DAMAGED_HELP)
        assert from_stored(Frozen, json.loads(json.dumps(to_stored(made)))) == made


class Small(NamedTuple):
    word: Literal["one", "two"]
    day: datetime.date


class Large(NamedTuple):
    many: tuple[Small, ...]
    pair: tuple[int, str]
    by_name: Mapping[str, float]
    either: Small | str | None = None


def test_what_is_wrong_in_a_view_is_said_where_it_is() -> None:
    right: dict[str, Any] = {
        "many": [{"word": "one", "day": "2027-05-01"}],
        "pair": [1, "a"],
        "by_name": [["b", 2.5]],
        "either": {"word": "two", "day": "2027-05-02"},
    }
    made = from_stored(Large, right)
    assert to_stored(made) == right and made.by_name == {"b": 2.5} and made.many[0].day == datetime.date(2027, 5, 1)
    wrong: tuple[tuple[Way, object, str], ...] = (
        (("many",), {}, "a list in brackets"),
        (("many", 0), [], "an object in braces"),
        (("many", 0, "word"), "three", "“one” or “two”"),
        (("many", 0, "day"), "yesterday", "a date written as year-month-day"),
        (("pair",), [1], "2 values"),
        (("pair", 0), True, "a whole number"),
        (("by_name", 0), ["b"], "2 values"),
        (("by_name", 0, 1), "2.5", "a number"),
        (("either",), 5, "an object in braces"),
        # Of several that it may be, the one that came furthest was meant.
        (("either", "day"), 5, "a date written as year-month-day"),
    )
    for way, instead, expected in wrong:
        stored = json.loads(json.dumps(right))
        holds = stored
        for key in way[:-1]:
            holds = holds[key]
        holds[way[-1]] = instead
        with pytest.raises(NotAsStored) as refused:
            from_stored(Large, stored)
        assert (refused.value.way, refused.value.expected) == (way, expected)


def test_every_damage_is_one_diagnostic_at_its_place_and_no_site(content: Path) -> None:
    file = worked_files(content)[0]
    text = file.read_text("utf-8")
    at = text.index('"title": ')
    line = text.count("\n", 0, at) + 1
    damages = {
        "cut off": text[: len(text) // 2],
        "empty": "",
        "no object": "[1, 2]",
        "a value of another kind": text.replace('"map_tall": ', '"map_tall": true, "x": ', 1),
        "a key that is gone": text.replace('"title": ', '"titel": ', 1),
        "a changed word": text.replace("Diving bell on its rope", "Diving bell on a rope", 1),
        "no day": re.sub(r'"made": "[^"]*"', '"made": "yesterday"', text),
        "deep": "[" * 100_000,
        "another job": text.replace('"job": "diving-bell"', '"job": "orrery"', 1),
        "a word for a number": text.replace('"years": 3', '"years": "three"', 1),
    }
    wrong = []
    for damage, said in damages.items():
        assert said != text, damage
        file.write_text(said, "utf-8")
        made, report = read_frozen(file)
        if made is not None or [d.code for d in report] != ["F808"]:
            wrong.append((damage, report))
        if damage == "a key that is gone":
            # The object that lacks it begins some lines above.
            assert 0 < line - report[0].place.line < 8
    assert wrong == []
    file.write_bytes(b"\xff\xfe")
    assert [d.code for d in read_frozen(file)[1]] == ["Y102"]
    assert main(["check", "--content", str(content)]) == 1


def test_a_value_is_found_in_its_line() -> None:
    text = '{\n "values": {\n  "a": [1, {"b": "x, ]"}],\n  "c": {"d": null}\n }\n}\n'
    for way, place in ((("a", 1, "b"), (3, 18)), (("c", "d"), (4, 14)), (("c", "gone"), (4, 8)), ((), (1, 1))):
        found = place_of(text, way, "x.json")
        assert (found.line, found.column) == place, way


def test_nothing_is_kept_that_the_pages_do_not_show() -> None:
    """Answers, causes of scars and names of clients are in no kept file; its keys are those of the views."""
    for file in worked_files(ROOT / "content"):
        text = file.read_text("utf-8")
        job = (file.parent / file.name.replace(".worked.json", ".yml")).read_text("utf-8")
        for private in ("all clear", "injury", "self-harm", "surgery", '"screening"', '"after"'):
            assert private not in text.lower(), (file.name, private)
        assert re.findall(r"\bR-\d{4}", text) == re.findall(r"client: (R-\d{4})", job)


def test_a_scar_keeps_no_cause(content: Path) -> None:
    file = content / "jobs" / f"{JOB}.yml"
    text = file.read_text("utf-8")
    scar = (
        "scars: [{id: s1, from: [2 mm, 5 mm], to: [12 mm, 5 mm], width: 4 mm, height: 0 mm, wound: 2017-06, type: flat,"
        " after: surgery, colour: pale, feel: soft, itch: no, pain: no, growth: no, wish: blend in}]"
    )
    assert "scars: none" in text and "answers: all clear" in text
    file.write_text(text.replace("scars: none", scar), "utf-8")
    assert finish(content, "--stamp", "none") == 0
    kept = (content / "jobs" / f"{JOB}.worked.json").read_text("utf-8").lower()
    assert "surgery" not in kept and "all clear" not in kept


def test_a_finished_job_without_kept_values_is_said(content: Path) -> None:
    file = worked_files(content)[0]
    shutil.move(file, file.with_name(".kept.old"))
    found = [d.code for each in press_jobs(content, read_records(content)) for d in each.report]
    assert found == ["J630"]


def test_the_day_of_today_is_on_no_kept_page(content: Path) -> None:
    before = pressed(content)["diving-bell"]
    later = read_records(content, as_of(datetime.date(2028, 2, 2)))
    after = next(p for p in press_jobs(content, later) if p.summary and p.summary.id == "diving-bell")
    assert pages(before) == pages(after)
