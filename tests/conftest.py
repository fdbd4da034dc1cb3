"""The real site, built once in strict mode for all workers, and for each worker a browser where there is one."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Collection, Iterator
from pathlib import Path
from typing import Any

import pytest
from filelock import FileLock
from hypothesis import settings

# A loaded machine is no failed property: no example is held against the clock. The gate searches a little on every
# change; `.ci/nightly` searches long, with `--hypothesis-profile nightly`.
settings.register_profile("gate", deadline=None, max_examples=50)
settings.register_profile("nightly", deadline=None, max_examples=1000)
settings.load_profile("gate")

ROOT = Path(__file__).parent.parent
PROJECT = ("mkdocs.yml", "handbook", "content")
# One that goes ahead, one that may not, and a finished one; none of them speaks of another job.
THREE_JOBS = ("tide-table", "stairwell", "diving-bell")


def copy_project(to: Path, jobs: Collection[str] = ()) -> Path:
    """The files that a studio owns, in a folder of their own; with all jobs, or with some of them."""
    for name in PROJECT:
        source = ROOT / name
        if name == "content":
            copy_content(to, jobs)
        elif source.is_dir():
            shutil.copytree(source, to / name)
        else:
            shutil.copy(source, to / name)
    return to


def copy_content(to: Path, jobs: Collection[str] = ()) -> Path:
    """The records alone, as `content` in a folder; with all jobs, or with some of them."""
    copied = shutil.copytree(ROOT / "content", to / "content")
    for file in (copied / "jobs").iterdir() if jobs else ():
        if file.name.split(".")[0] not in jobs:
            file.unlink()
    return copied


def mkdocs(folder: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    """Run MkDocs in a folder, as a person would."""
    return subprocess.run(
        [sys.executable, "-m", "mkdocs", *arguments], cwd=folder, capture_output=True, text=True, timeout=300
    )


def build_site(folder: Path) -> str:
    """Build a project's site; what was said if it failed."""
    built = mkdocs(folder, "build", "--strict")
    (folder.parent / f"{folder.name}.log").write_text(built.stdout + built.stderr, "utf-8")
    return "" if built.returncode == 0 else built.stdout + built.stderr


@pytest.fixture(scope="session")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """One build for all workers: the first one that asks makes it, the others wait for it."""
    shared = tmp_path_factory.getbasetemp()
    if "PYTEST_XDIST_WORKER" in os.environ:
        shared = shared.parent
    folder, said = shared / "project", shared / "project.said"
    with FileLock(shared / "project.lock"):
        if not said.exists():
            folder.mkdir()
            said.write_text(build_site(copy_project(folder)), "utf-8")
    assert said.read_text("utf-8") == ""
    return folder / "site"


@pytest.fixture
def site(built: Path) -> Path:
    """The demo studio's site, on the demo's own day; nobody may change it."""
    return built


# Two frames, and what the new width sets in motion.
_SETTLED = """async () => {
    await new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)));
    const moving = document.getAnimations().filter(one => one instanceof CSSTransition);
    await Promise.allSettled(moving.map(one => one.finished));
}"""


def resize(page: Any, width: int, height: int = 900) -> None:
    """Give a page that is loaded another width, and wait until it stands still."""
    page.set_viewport_size({"width": width, "height": height})
    page.evaluate(_SETTLED)


AXE = (Path(__file__).parent / "vendor" / "axe.min.js").read_text("utf-8")
LEVELS = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa")
# Only what is wrong comes back: what is right is a list of every element of the page.
_VIOLATIONS = """async levels => {
    const found = await axe.run({runOnly: {type: 'tag', values: levels}, resultTypes: ['violations']});
    return found.violations.map(rule => [rule.id, rule.nodes.map(node => node.html.slice(0, 160))]);
}"""


def violations(page: Any, levels: Collection[str] = LEVELS) -> list[tuple[str, list[str]]]:
    """The rules of level A or AA that a page breaks as it is shown, with the elements that break them."""
    if not page.evaluate("typeof axe === 'object'"):
        page.evaluate(AXE)
    return [(rule, elements) for rule, elements in page.evaluate(_VIOLATIONS, list(levels))]


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


@pytest.fixture(scope="session")
def one_page(browser: Any) -> Any:
    """The page of a worker, because a new one takes longer than most of what is looked at in it."""
    opened = browser.new_page()
    opened.asked = []
    opened.on("request", lambda request: opened.asked.append(request.url))
    return opened


@pytest.fixture
def page(one_page: Any) -> Any:
    """A page of the browser as if it were new, that notes what it asks for."""
    one_page.goto("about:blank")
    one_page.set_viewport_size({"width": 1280, "height": 720})
    one_page.emulate_media(media="null", color_scheme="null")
    session = one_page.context.new_cdp_session(one_page)
    session.send("Storage.clearDataForOrigin", {"origin": "file://", "storageTypes": "all"})
    session.detach()
    one_page.asked.clear()
    return one_page
