"""What the README shows is what the program does."""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path

from generator.commands.one_job import planned_or_said, read_one
from generator.dates import as_of
from generator.planning.plan import plan
from generator.press.sheet.contents import sheet_of
from generator.records.reading import read_job, read_records
from tests.conftest import ROOT

README = (ROOT / "README.md").read_text("utf-8")
BLOCKS = re.findall(r"^```(\w+)\n(.*?)^```", README, re.MULTILINE | re.DOTALL)


def test_the_first_block_makes_the_handbook_and_the_second_runs_the_tests() -> None:
    assert [language for language, _ in BLOCKS[:2]] == ["sh", "sh"]
    assert BLOCKS[0][1].split("\n")[-2] == ".venv/bin/mkdocs build"
    assert BLOCKS[1][1].split("\n")[-2] == ".venv/bin/python -m pytest"


def test_the_gate_runs_the_second_block_as_it_stands() -> None:
    command = next(line for line in (ROOT / ".ci" / "run").read_text("utf-8").split("\n") if "awk" in line)
    extract = command[command.index("<(") + 2 : command.rindex(")")]
    shown = subprocess.run(["bash", "-c", extract], cwd=ROOT, capture_output=True, text=True, check=True)
    assert shown.stdout == BLOCKS[1][1]


def test_the_example_job_is_complete_short_and_goes_ahead(tmp_path: Path) -> None:
    text = next(block for language, block in BLOCKS if language == "yaml")
    assert text.count("\n") < 40
    content = tmp_path / "content"
    shutil.copytree(ROOT / "content", content)
    path = content / "jobs" / "lamp-glass.yml"
    path.write_text(text, "utf-8")
    reading = read_records(content)
    assert reading.records is not None
    job = read_job(path, reading.known)
    assert job.report == () and job.job is not None
    made, report = plan(reading.records, job.job)
    assert report == () and made is not None
    assert made.verdict.goes_ahead, made.findings


def test_the_rows_it_shows_are_those_of_the_sheet() -> None:
    # As the command plans it, at the pace that its artist's finished jobs have taught.
    planned = planned_or_said(ROOT / "content", read_one(ROOT / "content", "tide-table", as_of(None)))
    assert planned is not None
    records, made = planned
    rows = [
        f"| {r.number} | {r.part} | {r.technique} | {r.needle}, {r.hang_out} | **{r.dial}** {r.machine}, {r.stroke} | "
        f"{r.ink} | {r.minutes} | {r.over} |".replace("\u00a0", " ")
        for r in sheet_of(records, made).rows
        if not r.is_break
    ]
    shown = [line for line in README.split("\n") if re.match(r"\| \d", line)]
    assert shown == rows[: len(shown)] and shown


def test_an_enquiry_needs_no_more_than_it_says_and_what_it_writes_of_healing_is_read(tmp_path: Path) -> None:
    assert "An enquiry needs no more than `id`, `place`, `size` and `parts` with `lines`" in README
    reading = read_records(ROOT / "content")
    assert reading.records is not None
    path = tmp_path / "tin-whistle.yml"
    path.write_text(
        "{id: tin-whistle, place: ribs, size: 60 mm x 90 mm, "
        "parts: [{id: whistle, colours: [black-shade]}, {id: cord, lines: [{length: 20 cm}]}]}",
        "utf-8",
    )
    job = read_job(path, reading.known).job
    assert job is not None
    made, _ = plan(reading.records, job)
    assert made is not None and made.enquiry is not None
    healed = re.search(r"`(\[\{on: .*?\}\])`", README)
    assert healed is not None
    said = healed[1].replace("2027-07-01", "2027-05-12").replace("glass", "mill")
    finished = (ROOT / "content" / "jobs" / "tide-mill.yml").read_text("utf-8")
    (tmp_path / "tide-mill.yml").write_text(f"{finished}healed: {said}\n", "utf-8")
    read = read_job(tmp_path / "tide-mill.yml", reading.known)
    assert read.job is not None and read.job.healed[0].parts[0].came == "held", read.report
