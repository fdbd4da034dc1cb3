"""A sheet on a tablet gives its ticks, times and lots as the block `finished`, and `finish --from` reads it."""

from __future__ import annotations

import datetime
import re
from pathlib import Path
from typing import Any

import pytest

from generator.cli import main
from generator.press.sheet.contents import sheet_of
from generator.press.sheet.printing import sheet_html
from generator.records.reading import read_job, read_records
from tests.conftest import copy_content
from tests.planning.demo import RECORDS, demo

JOB = "tide-table"
# Ticks made one after the other, so many minutes apart.
TICKED = """minutes => {
    const boxes = [...document.querySelectorAll('input[data-row], input[data-lot="LB-7102"]')];
    boxes.forEach((box, n) => {
        if (n === boxes.length - 1 && box.dataset.row) { return; }
        box.click();
        const key = Object.keys(localStorage).find(name => name.endsWith(box.dataset.tick));
        localStorage.setItem(key, String(1810000000000 + n * minutes * 60000));
    });
}"""


@pytest.fixture
def content(tmp_path: Path) -> Path:
    return copy_content(tmp_path, (JOB,))


def finish(content: Path, told: Path) -> int:
    return main(["finish", JOB, "--stamp", "none", "--from", str(told), "--content", str(content)])


def test_what_was_ticked_becomes_the_block(page: Any, content: Path, tmp_path: Path) -> None:
    file, told = tmp_path / "sheet.html", tmp_path / "told.txt"
    file.write_text(sheet_html(sheet_of(RECORDS, demo(JOB)), datetime.date(2027, 5, 12)), "utf-8")
    page.goto(file.as_uri())
    page.evaluate(TICKED, 7)
    page.click("#done")
    text = page.input_value("#done-lines")
    told.write_text(text, "utf-8")
    assert finish(content, told) == 0
    job = read_job(content / "jobs" / f"{JOB}.yml", read_records(content).known).job
    assert job is not None and job.finished is not None
    assert [str(lot) for lot in job.finished.lots] == ["LB-7102"]
    steps = len(page.query_selector_all("input[data-row]"))
    worked = {str(one.technique): one.took.low for one in job.finished.worked}
    assert set(worked) <= set(RECORDS.techniques) and all(minutes % 7 == 0 for minutes in worked.values())
    # Every tick but the first has one before it.
    assert 7 * (steps - 2) <= sum(worked.values()) <= job.finished.took.low
    assert (content / "jobs" / f"{JOB}.worked.json").is_file()


@pytest.mark.parametrize(
    ("held", "help_"),
    [
        (None, "look at what stands behind `--from`; nothing was written"),
        (b"finished:\xff", "save the file as UTF-8 text; nothing was written"),
    ],
)
def test_a_told_file_that_cannot_be_read_is_said_in_its_own_words(
    held: bytes | None, help_: str, content: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    told = tmp_path / "told.txt"
    if held is not None:
        told.write_bytes(held)
    assert finish(content, told) == 1
    assert f"help: {help_}" in capsys.readouterr().err
    assert not list((content / "jobs").glob("*.json"))


def test_who_has_records_elsewhere_is_told_the_whole_command(content: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["finish", JOB, "--stamp", "none", "--content", str(content)]) == 0
    assert f"`python -m generator finish {JOB} --content {content}` again" in capsys.readouterr().out


def test_what_was_told_is_not_asked_for_again(
    content: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    told = tmp_path / "told.txt"
    told.write_text("finished:\n  on: 2027-05-12\n  took: 200 min\n  lots: [LB-7102]\n  ended: Done.\n", "utf-8")
    assert finish(content, told) == 0
    said = capsys.readouterr().out
    assert "as it was told" in said and "as it was planned" not in said and "again" not in said


def test_a_sheet_that_is_a_record_has_no_such_button(page: Any, site: Path) -> None:
    page.goto((site / "sheets" / "diving-bell.html").as_uri())
    assert page.query_selector("#done") is None


def test_a_mistake_is_shown_in_the_file_that_was_given(
    content: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    told = tmp_path / "told.txt"
    before = {path: path.read_bytes() for path in (content / "jobs").iterdir()}
    wrong = {
        "finished:\n  on: 2027-05-12\n  took: unknown\n  lots: [LB-7031]\n  ended: Done.\n": (3, "Q201"),
        "# from the tablet\nfinished:\n  on: 2027-05-12\n  took: 9 min\n  lots: []\n  ended: Done.\n": (5, "R30"),
        "finished:\n  on: 2027-05-13\n  took: 9 min\n  lots: [LB-7031]\n  ended: Done.\n": (2, "R328"),
        "finished:\n  on: 2027-05-12\n  took: 9 min\n  lots: [LB-7031\n  ended: Done.\n": (4, "Y101"),
        "title: Another\nfinished:\n": (1, "F811"),
        "": (1, "F811"),
    }
    for text, (line, code) in wrong.items():
        told.write_text(text, "utf-8")
        assert finish(content, told) == 1, text
        said = capsys.readouterr().err
        assert re.search(rf"told\.txt:{line}:\d+: error {code}", said), (text, said)
    told.unlink()
    assert finish(content, told) == 1 and "F801" in capsys.readouterr().err
    assert {path: path.read_bytes() for path in (content / "jobs").iterdir()} == before
