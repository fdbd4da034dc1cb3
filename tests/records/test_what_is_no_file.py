"""What stands where a file belongs and is none: a pipe, a socket, a device, a folder, a link that leads to nothing."""

from __future__ import annotations

import contextlib
import json
import os
import signal
import socket
import types
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from generator.cli import main
from generator.deleting import ToDelete, left_of
from generator.diagnostics import as_text
from generator.kept.folder import Folder
from generator.kept.keys import job_bytes
from generator.press.manual.authored import authored_pages, not_read
from generator.press.sheet.frozen import frozen_with
from generator.published import texts_of
from generator.records.families import LISTED, Known
from generator.records.reading import read_job, worked_file
from generator.records.text_file import bytes_of, read_text
from tests.conftest import copy_content

pytestmark = pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="a system without pipes among its files")


def _socket(path: Path) -> None:
    with contextlib.chdir(path.parent), socket.socket(socket.AF_UNIX) as made:
        made.bind(path.name)


KINDS: dict[str, tuple[Callable[[Path], None], str]] = {
    "pipe": (os.mkfifo, "a pipe stands where a file belongs"),
    "socket": (_socket, "a socket stands where a file belongs"),
    "folder": (os.mkdir, "a folder stands where a file belongs"),
    "endless": (lambda path: path.symlink_to("/dev/zero"), "a device stands where a file belongs"),
    "nothing": (lambda path: path.symlink_to("no-disk/x"), "the link leads to no file, found a link to `no-disk/x`"),
    "circle": (lambda path: path.symlink_to(path.name), "the link leads to no file"),
}


@pytest.fixture(autouse=True)
def _ends() -> Iterator[None]:
    """Who waits at a pipe fails, and does not wait for ever."""

    def late(number: int, frame: types.FrameType | None) -> None:
        raise TimeoutError("it waits")

    before = signal.signal(signal.SIGALRM, late)
    signal.alarm(20)
    yield
    signal.alarm(0)
    signal.signal(signal.SIGALRM, before)


def _all_kinds(folder: Path, ending: str) -> dict[Path, str]:
    """One of each kind, with what is said of it."""
    made = {}
    for name, (make, says) in KINDS.items():
        path = folder / f"{name}{ending}"
        make(path)
        made[path] = says.partition(",")[0]
    return made


def test_each_kind_is_one_diagnostic_with_its_help(tmp_path: Path) -> None:
    for path, says in _all_kinds(tmp_path, ".yml").items():
        text, (found,) = read_text(path)
        said = as_text([found])
        assert text is None and bytes_of(path) == b"" and found.code == "F801" and says in said, said
        assert ("delete the link" if "link" in says else f"`{path.name}` is a file") in found.help


def test_a_check_names_each_among_records_and_jobs(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    content = copy_content(tmp_path, ())
    jobs, records = _all_kinds(content / "jobs", ".yml"), _all_kinds(content, ".yml")
    assert main(["check", "--format", "json", "--content", str(content)]) == 1
    said = {(d["code"], d["file"]): d["message"] for d in json.loads(capsys.readouterr().out)}
    assert {path: said.get(("F801", str(path))) for path in jobs} == jobs
    assert {file for code, file in said if code == "F802"} == set(map(str, records))
    assert texts_of(content).keys().isdisjoint(path.name for path in records)
    assert list(left_of(content / "jobs", ToDelete((), ("no-such-job",)))) == []


def test_values_kept_on_a_disk_that_is_not_there_are_lacking_and_not_forgotten(tmp_path: Path) -> None:
    content = copy_content(tmp_path, ("diving-bell",))
    path = content / "jobs" / "diving-bell.yml"
    job = read_job(path, Known({}, frozenset({family.name for family in LISTED}))).job
    worked_file(path).unlink()
    worked_file(path).symlink_to("no-disk/x")
    assert job is not None
    kept, (found,) = frozen_with(content, job)
    assert kept is None and found.level == "error" and found.message == "the link leads to no file"


def test_what_cannot_be_read_is_found_by_nothing_that_is_kept(tmp_path: Path) -> None:
    for path in _all_kinds(tmp_path, ".yml"):
        assert job_bytes(path) != job_bytes(path), path
    assert job_bytes(tmp_path / "no-file.yml") == (b"-", b"-")
    kept = Folder(tmp_path / "content")
    kept.path.mkdir()
    os.mkfifo(kept.path / "times.rows")
    os.mkfifo(kept.path / "tide-table.pages")
    assert kept.times() == {} and kept.kept("tide-table", "key", True) is None


def test_pages_and_pictures_of_a_handbook_are_named_before_the_builder_takes_them(tmp_path: Path) -> None:
    handbook, linked = tmp_path / "handbook", tmp_path / "linked"
    handbook.mkdir()
    linked.mkdir()
    (handbook / "more").symlink_to(linked)
    (linked / "page.md").write_text("# A page\n", "utf-8")
    named = [*_all_kinds(handbook, ".md"), *_all_kinds(linked, ".svg")]
    (handbook / ".#page.md").symlink_to("of-an-editor")  # which the builder leaves out, as all that is hidden
    said = {Path(found.place.file).name for found in not_read(handbook)}
    # A folder may be named like a picture, and of a page nobody could tell.
    assert said == {path.name for path in named if path.name != "folder.svg"}
    assert [path for path, _ in authored_pages(handbook)] == [handbook / "more" / "page.md"]
