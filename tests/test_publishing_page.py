"""The commands of the handbook's page on publishing and keeping do what the page says, as they stand there."""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
import time
import urllib.request
import zipfile
from pathlib import Path

import pytest

from tests.conftest import ROOT, THREE_JOBS, copy_project

PAGE = (ROOT / "handbook" / "publishing.md").read_text("utf-8")
BLOCKS = {
    heading: dict(enumerate(re.findall(r"^```sh\n(.*?)^```", text, re.MULTILINE | re.DOTALL)))
    for heading, text in re.findall(r"^## (.+?)\n(.*?)(?=^## |\Z)", PAGE, re.MULTILINE | re.DOTALL)
}
COMMANDS = [command for blocks in BLOCKS.values() for command in blocks.values()]
# What a server elsewhere is for is tried with a folder here, and a password is given as a person types it.
_AS_HERE = (("studio@example.org:", "../server/"), ("openssl passwd -apr1", "openssl passwd -apr1 -stdin"))


def _run(commands: str, folder: Path, typed: str = "") -> subprocess.CompletedProcess[str]:
    """In a shell, with the program's environment first, as the page says."""
    for shown, here in _AS_HERE:
        commands = commands.replace(shown, here)
    path = f"{Path(sys.executable).parent}:/usr/bin:/bin"
    who = {f"GIT_{who}_{what}": "studio" for who in ("AUTHOR", "COMMITTER") for what in ("NAME", "EMAIL")}
    return subprocess.run(
        ["bash", "-euc", commands],
        cwd=folder,
        env={"PATH": path, "HOME": str(folder.parent), "LANG": "C.UTF-8", **who},
        input=typed,
        capture_output=True,
        text=True,
        timeout=300,
    )


def _done(commands: str, folder: Path, typed: str = "") -> None:
    done = _run(commands, folder, typed)
    assert done.returncode == 0, done.stdout + done.stderr


def _without_builds(commands: str) -> str:
    return "\n".join(line for line in commands.split("\n") if not line.startswith("python -m mkdocs"))


@pytest.fixture
def studio(tmp_path: Path) -> Path:
    """A studio's folder with a site of a few pages."""
    folder = tmp_path / "studio"
    for page in ("index", *re.findall(r"(?:procedures|reference)/[\w-]+(?=[ ;])", BLOCKS["A printed binder"][0])):
        (folder / "site" / page).parent.mkdir(parents=True, exist_ok=True)
        (folder / "site" / f"{page}.html").write_text(f"<!doctype html><title>{page}</title><h1>{page}</h1>", "utf-8")
    (folder / "content").mkdir()
    shutil.copy(ROOT / "content" / "scar-rules.yml", folder / "content")
    shutil.copytree(ROOT / "handbook", folder / "handbook")
    shutil.copy(ROOT / "mkdocs.yml", folder)
    (tmp_path / "server").mkdir()
    return folder


def test_a_site_goes_onto_a_tablet_and_a_server_and_keeps_its_pages(studio: Path) -> None:
    _done(_without_builds(BLOCKS["A tablet"][0]), studio)
    assert "site/index.html" in zipfile.ZipFile(studio / "handbook.zip").namelist()
    server = BLOCKS["A web server behind a password"]
    _done(server[0], studio, "tide and iron\n")
    assert re.fullmatch(r"studio:\$apr1\$\S{8}\$\S{22}\n", (studio / "handbook.users").read_text("utf-8"))
    _done(_without_builds(server[1]), studio)
    assert (studio.parent / "server" / "handbook" / "index.html").is_file()
    assert (studio.parent / "server" / "handbook.users").is_file()


def test_a_computer_of_the_studio_serves_the_site(studio: Path) -> None:
    command = BLOCKS["A tablet"][1].strip().replace("8765", "0").replace("python", f"exec {sys.executable} -u")
    with subprocess.Popen(["bash", "-c", command], cwd=studio, stdout=subprocess.PIPE, text=True) as serving:
        try:
            assert serving.stdout is not None
            port = re.search(r"port (\d+)", serving.stdout.readline())
            assert port is not None
            with urllib.request.urlopen(f"http://127.0.0.1:{port[1]}/", timeout=30) as answer:
                assert b"<h1>index</h1>" in answer.read()
        finally:
            serving.terminate()


def test_git_keeps_every_state_and_brings_one_back(studio: Path) -> None:
    rules = studio / "content" / "scar-rules.yml"
    first = rules.read_text("utf-8")
    init, add, commit, log, restore = BLOCKS["Keeping what was written"][0].strip().split("\n")
    _done("\n".join((init, add, commit)), studio)
    rules.write_text(first + "# changed\n", "utf-8")
    _done("\n".join((add, commit)), studio)
    said = _run(log, studio).stdout
    assert len(said.strip().split("\n")) == 2
    oldest = said.strip().split("\n")[-1].split()[0]
    _done(restore.replace("HEAD", oldest), studio)
    assert rules.read_text("utf-8") == first
    rules.write_text("lost\n", "utf-8")
    _done(restore, studio)
    assert rules.read_text("utf-8") == first + "# changed\n"


def test_without_git_a_day_is_one_file(studio: Path) -> None:
    _done(BLOCKS["Keeping what was written"][1], studio)
    (kept,) = studio.parent.glob(f"handbook-{time.strftime('%Y')}-*.zip")
    names = zipfile.ZipFile(kept).namelist()
    assert {"content/scar-rules.yml", "handbook/publishing.md", "mkdocs.yml"} <= set(names)
    assert not [name for name in names if name.startswith("site")]
    assert "python -m zipfile -e" in PAGE
    _done(f"python -m zipfile -e {kept} ../back", studio)
    assert (studio.parent / "back" / "content" / "scar-rules.yml").is_file()


def test_the_binder_holds_each_page_that_it_names(studio: Path, browser: object) -> None:
    (command,) = BLOCKS["A printed binder"].values()
    first = re.sub(r"(for page in \S+) [^;]+;", r"\1;", command)
    _done(first, studio)
    assert [pdf.read_bytes()[:5] for pdf in (studio / "binder").iterdir()] == [b"%PDF-"]


def test_the_pages_of_the_binder_are_pages_of_the_site(site: Path) -> None:
    named = re.findall(r"(?:procedures|reference)/[\w-]+(?=[ ;])", BLOCKS["A printed binder"][0])
    assert len(named) >= 5 and [page for page in named if not (site / f"{page}.html").is_file()] == []


@pytest.mark.nightly
def test_every_command_that_builds_does(tmp_path: Path) -> None:
    (tmp_path / "studio").mkdir()
    folder = copy_project(tmp_path / "studio", THREE_JOBS)
    (tmp_path / "server").mkdir()
    (tmp_path / "shared").mkdir()
    _done(BLOCKS["A shared folder"][0], folder)
    assert (tmp_path / "shared" / "handbook" / "sheets" / "tide-table.html").is_file()
    _done(BLOCKS["A copy without jobs"][0], folder)
    assert (tmp_path / "without-jobs" / "procedures" / "spill.html").is_file()
    assert not (tmp_path / "without-jobs" / "sheets" / "tide-table.html").exists()
    for block in (BLOCKS["A tablet"][0], BLOCKS["A web server behind a password"][1]):
        (folder / "handbook.users").touch()
        _done(block, folder)
    assert (tmp_path / "server" / "handbook" / "index.html").is_file()
