"""The real site, built once in strict mode, and a browser where there is one."""

from __future__ import annotations

import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import settings

# A loaded machine is no failed property: no example is held against the clock.
settings.register_profile("gate", deadline=None)
settings.load_profile("gate")

ROOT = Path(__file__).parent.parent
PROJECT = ("mkdocs.yml", "handbook", "content")


def copy_project(to: Path) -> Path:
    """The files that a studio owns, in a folder of their own."""
    for name in PROJECT:
        source = ROOT / name
        if source.is_dir():
            shutil.copytree(source, to / name)
        else:
            shutil.copy(source, to / name)
    return to


def mkdocs(folder: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    """Run MkDocs in a folder, as a person would."""
    return subprocess.run(
        [sys.executable, "-m", "mkdocs", *arguments], cwd=folder, capture_output=True, text=True, timeout=300
    )


@pytest.fixture(scope="session")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo studio's site."""
    folder = copy_project(tmp_path_factory.mktemp("project"))
    built = mkdocs(folder, "build", "--strict")
    assert built.returncode == 0, built.stdout + built.stderr
    return folder / "site"


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    """Headless Chromium."""
    found = shutil.which("chromium") or shutil.which("chromium-browser")
    if found is None:
        pytest.skip("there is no Chromium on this machine")
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        flags = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--no-first-run"]
        launched = playwright.chromium.launch(executable_path=found, args=flags)
        yield launched
        launched.close()


@pytest.fixture
def page(browser: Any) -> Iterator[Any]:
    """A page of the browser that notes what it asks for."""
    opened = browser.new_page()
    opened.asked = []
    opened.on("request", lambda request: opened.asked.append(request.url))
    yield opened
    opened.close()
