"""All that one removal breaks is told in one round, by its cause, with the lines to change."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from generator.cli import main
from tests.conftest import ROOT, copy_content


def test_one_removal_is_one_mistake_with_all_its_places(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    content = copy_content(tmp_path, ["tide-table"])
    shutil.copytree(ROOT / "handbook", tmp_path / "handbook")
    page, value = tmp_path / "handbook" / "reading.md", content / "values.yml"
    page.write_text(page.read_text("utf-8") + "\nIt weighs {{ machines.kettle.weight }}.\n", "utf-8")
    text = value.read_text("utf-8")
    value.write_text(text.replace("whole and dry", "dry with {{ machines.kettle.name }}"), "utf-8")
    machines = content / "machines.yml"
    text = machines.read_text("utf-8")
    machines.write_text(text[: text.index("- id: kettle")] + text[text.index("- id: metronome") :], "utf-8")
    assert main(["check", "--content", str(content)]) == 1
    told = capsys.readouterr().out
    blocks = [block for block in told.split("\n\n") if "kettle" in block]
    assert len(blocks) == 1
    heads = re.search(r"`kettle` is gone from machines: (\d+) places", blocks[0])
    places = re.findall(r"^  (\S+):\d+:\d+: (.+)$", blocks[0], re.MULTILINE)
    assert heads and int(heads[1]) == len(places) > 4
    assert all("kettle" in line for _, line in places)
    assert {Path(file).name for file, _ in places} >= {"techniques.yml", "reading.md", "values.yml"}
