"""What the program writes: whole or not at all, and never over what somebody else wrote."""

from __future__ import annotations

import os
import shutil
import stat
from pathlib import Path
from typing import Any

import pytest

from generator import whole_files
from generator.cli import main
from generator.whole_files import lies_in, write_new, write_whole
from tests.conftest import copy_project

JOB = "jobs/tide-table.yml"


@pytest.fixture
def project(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The demo studio's folder, with links that lead into its records from outside."""
    copied = copy_project(tmp_path / "studio") if (tmp_path / "studio").mkdir() is None else tmp_path
    (copied / "link.html").symlink_to(copied / "content" / JOB)
    (copied / "dangling.html").symlink_to(copied / "content" / "jobs" / "new.yml")
    (copied / "folder").symlink_to(copied / "content", target_is_directory=True)
    os.link(copied / "content" / "machines.yml", copied / "hard.html")
    monkeypatch.chdir(copied)
    return copied


def _files(folder: Path) -> dict[str, bytes]:
    return {str(p.relative_to(folder)): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


PLACES = (
    f"content/{JOB}",
    "content/sheet.html",
    "content/jobs/TIDE-TABLE.yml",
    "content/new.yml",
    "content/../content/jobs/sheet.html",
    "./handbook/../content/studio.yml",
    "link.html",
    "dangling.html",
    "hard.html",
    "folder/jobs/tide-table.yml",
    "folder/sheet.html",
    "mkdocs.yml",
    "handbook/index.md",
    "handbook/procedures/spill.md",
)


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("content", ["content", "folder", "./content/."])
def test_a_sheet_is_never_written_over_a_record_or_another_file(
    place: str, content: str, project: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    before = _files(project)
    assert main(["sheet", "tide-table", "-o", place, "--content", content]) == 1
    said = capsys.readouterr()
    assert f"{Path(place)}:1:1: error F806: " in said.err and "nothing was written" in said.err
    assert _files(project) == before


def test_capitals_do_not_hide_the_records_where_they_do_not_count(
    project: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A file system that takes `Content` for `content` is played by a link."""
    (project / "Content").symlink_to(project / "content", target_is_directory=True)
    assert lies_in(project / "Content" / "jobs" / "x.html", project / "content")
    assert not lies_in(project / "contents" / "x.html", project / "content")
    assert not lies_in(project / "content.html", project / "content")


@pytest.mark.parametrize("name", ["new.html", "old.html", "empty.html", "linked.html", "d" * 250 + ".html"])
def test_a_sheet_is_written_where_nothing_is_lost(name: str, project: Path) -> None:
    (project / "old.html").write_text("<!DOCTYPE html>\nan older sheet", "utf-8")
    (project / "old.html").chmod(0o640)
    (project / "empty.html").touch()
    (project / "linked.html").symlink_to(project / "old.html")
    assert main(["sheet", "tide-table", "-o", name]) == 0
    assert (project / name).read_text("utf-8").rstrip().endswith("</html>")
    assert (project / "linked.html").is_symlink()
    assert not list(project.glob(".*.part"))
    if name == "old.html":
        assert stat.S_IMODE((project / name).stat().st_mode) == 0o640


def test_a_sheet_can_go_to_a_pipe_or_nowhere(project: Path) -> None:
    assert main(["sheet", "tide-table", "-o", os.devnull]) == 0
    assert not Path(os.devnull).is_file()


@pytest.mark.parametrize("stops", ["fsync", "replace"])
@pytest.mark.parametrize("error", [OSError(28, "No space left on device"), KeyboardInterrupt()])
def test_an_old_sheet_stays_whole_when_writing_stops(
    stops: str, error: BaseException, project: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fails(*_: Any) -> None:
        raise error

    write_whole(project / "sheet.html", "<!doctype html>old")
    monkeypatch.setattr(whole_files.os, stops, fails)
    with pytest.raises(type(error)) as raised:
        write_whole(project / "sheet.html", "<!doctype html>new")
    assert (project / "sheet.html").read_text("utf-8") == "<!doctype html>old"
    assert not list(project.glob(".*.part"))
    if isinstance(raised.value, OSError):
        assert raised.value.filename == str(project / "sheet.html")


@pytest.mark.parametrize("has_links", [True, False])
def test_a_new_file_is_never_written_over_one_that_is_there(
    has_links: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    if not has_links:

        def refuses(*_: Any) -> None:
            raise OSError(1, "Operation not permitted")

        monkeypatch.setattr(whole_files.os, "link", refuses)
    write_new(tmp_path / "a.yml", "one")
    with pytest.raises(FileExistsError):
        write_new(tmp_path / "a.yml", "two")
    assert _files(tmp_path) == {"a.yml": b"one"}


def test_a_new_job_that_cannot_be_written_leaves_nothing_behind(
    project: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    before = _files(project)
    monkeypatch.setattr(whole_files.os, "fsync", full)
    assert main(["new-job", "tin-whistle"]) == 1
    assert "tin-whistle.yml: No space left on device" in capsys.readouterr().err
    assert _files(project) == before
    shutil.rmtree(project)
