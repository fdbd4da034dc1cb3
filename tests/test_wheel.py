"""The wheel works away from the checkout: templates are easily left out of one."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tests.conftest import ROOT, THREE_JOBS, copy_project

pytestmark = pytest.mark.long


@pytest.fixture(scope="module")
def elsewhere(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel, built from a copy of the sources and installed into a folder of its own."""
    sources = tmp_path_factory.mktemp("sources")
    for name in ("pyproject.toml", "README.md", "LICENSE"):
        shutil.copy(ROOT / name, sources)
    copy_project(sources, THREE_JOBS)
    shutil.copytree(ROOT / "generator", sources / "generator", ignore=shutil.ignore_patterns("__pycache__"))
    wheels = tmp_path_factory.mktemp("wheels")
    command = ["pip", "wheel", str(sources), "--no-deps", "--no-build-isolation", "-w", str(wheels)]
    built = subprocess.run([sys.executable, "-m", *command], capture_output=True, text=True, timeout=300)
    assert built.returncode == 0, built.stderr
    installed = tmp_path_factory.mktemp("installed")
    wheel = str(next(wheels.glob("*.whl")))
    command = ["pip", "install", wheel, "--no-deps", "--target", str(installed)]
    done = subprocess.run([sys.executable, "-m", *command], capture_output=True, text=True, timeout=300)
    assert done.returncode == 0, done.stderr
    return installed


def started(installed: Path, folder: Path, *command: str) -> subprocess.CompletedProcess[str]:
    # PYTHONPATH puts the installed wheel before anything else.
    environment = {**os.environ, "PYTHONPATH": str(installed)}
    return subprocess.run(command, cwd=folder, env=environment, capture_output=True, text=True, timeout=300)


def run(installed: Path, folder: Path, *command: str) -> subprocess.CompletedProcess[str]:
    # -P keeps the folder itself off the path.
    return started(installed, folder, sys.executable, "-P", *command)


def test_the_installed_program_prints_a_sheet(elsewhere: Path, tmp_path: Path) -> None:
    folder = copy_project(tmp_path, THREE_JOBS)
    where = run(elsewhere, folder, "-c", "import generator; print(generator.__file__)")
    assert where.stdout.startswith(str(elsewhere))
    sheet = run(elsewhere, folder, "-m", "generator", "sheet", "tide-table", "-o", "sheet.html")
    assert sheet.returncode == 0, sheet.stderr
    assert "Clockwork tide table" in (folder / "sheet.html").read_text("utf-8")


def test_the_installed_command_is_the_program(elsewhere: Path, tmp_path: Path) -> None:
    folder = copy_project(tmp_path, THREE_JOBS)
    scripts = elsewhere / ("Scripts" if os.name == "nt" else "bin")
    command = shutil.which("studio-handbook", path=scripts)
    assert command is not None
    helped = started(elsewhere, folder, command, "--help")
    assert helped.stdout.startswith("usage: studio-handbook "), helped.stderr
    assert run(elsewhere, folder, "-m", "generator", "--help").stdout.startswith("usage: python -m generator ")
    asked = ("plan", "tide-table")
    by_name = started(elsewhere, folder, command, *asked)
    assert by_name.returncode == 0 and "Clockwork tide table" in by_name.stdout
    assert started(elsewhere, folder, command, "plan", "no-such-job").returncode == 1


def test_the_installed_program_begins_a_studio_and_checks_it(elsewhere: Path, tmp_path: Path) -> None:
    begun = run(elsewhere, tmp_path, "-m", "generator", "new-studio", "salt-flat", "--region", "US")
    assert begun.returncode == 0, begun.stderr
    checked = run(elsewhere, tmp_path / "salt-flat", "-m", "generator", "check")
    assert checked.stdout.strip().split("\n")[-1].startswith("0 errors, 0 warnings"), checked.stdout[-600:]
    assert not list(elsewhere.rglob("demo/content/jobs"))


def test_the_installed_plugin_builds_the_site(elsewhere: Path, tmp_path: Path) -> None:
    folder = copy_project(tmp_path, THREE_JOBS)
    built = run(elsewhere, folder, "-m", "mkdocs", "build", "--strict")
    assert built.returncode == 0, built.stderr
    assert (folder / "site" / "sheets" / "tide-table.html").is_file()
