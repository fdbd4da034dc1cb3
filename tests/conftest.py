"""The real site, built once in strict mode for all workers, and for each worker a browser where there is one."""

from __future__ import annotations

import atexit
import gc
import os
import re
import shutil
import subprocess
import sys
import tempfile
import traceback
from collections.abc import Callable, Collection, Iterator
from contextlib import contextmanager
from functools import cache, lru_cache, partialmethod
from importlib import import_module
from pathlib import Path
from typing import IO, Any

import pytest
from filelock import FileLock
from hypothesis import settings

from generator.dates import AsOf, clock_day
from generator.records import reading
from generator.records.families import Family

# A loaded machine is no failed property: no example is held against the clock. The gate searches a little on every
# change; `.ci/nightly` searches long, with `--hypothesis-profile nightly`.
settings.register_profile("gate", deadline=None, max_examples=25)
settings.register_profile("nightly", deadline=None, max_examples=1000)
settings.load_profile("gate")

# A worker holds so much that is kept (records, plans, thousands of tests) that looking through it for what is not
# takes a quarter of the time; so it is looked through seldom.
gc.set_threshold(100_000, 20, 100)

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
    if jobs:
        leave_jobs(copied, jobs)
    return copied


def leave_jobs(content: Path, jobs: Collection[str]) -> None:
    """Take the other jobs away, for what is wrong inside a job: it is nothing to them."""
    for file in (content / "jobs").iterdir():
        if file.name.split(".")[0] not in jobs:
            file.unlink()


@contextmanager
def put_back(folder: Path) -> Iterator[Path]:
    """A folder that may be changed; afterwards it is as it was."""
    before = {path: path.read_bytes() if path.is_file() else None for path in folder.rglob("*")}
    yield folder
    for path in sorted(folder.rglob("*"), reverse=True):
        if path not in before or path.is_dir() != (before[path] is None):
            path.rmdir() if path.is_dir() else path.unlink()
    for path, held in before.items():
        if held is None:
            path.mkdir(exist_ok=True)
        elif not path.is_file() or path.read_bytes() != held:
            path.write_bytes(held)


_FAMILY, _SINGLE, _ALL = reading.read_family, reading.read_single, reading._read_records
_READ: dict[tuple[object, ...], reading.Reading] = {}


@lru_cache(maxsize=400)
def _family_as_read(path: Path, held: bytes, family: Family, house: str) -> reading.FamilyReading:
    return _FAMILY(path, family, house)


@lru_cache(maxsize=400)
def _single_as_read(path: Path, held: bytes, family: Family) -> reading.Validated:
    return _SINGLE(path, family)


def _family_once(path: Path, family: Family, house: str = "") -> reading.FamilyReading:
    return _family_as_read(path, path.read_bytes(), family, house) if path.is_file() else _FAMILY(path, family, house)


def _single_once(path: Path, family: Family) -> reading.Validated:
    return _single_as_read(path, path.read_bytes(), family) if path.is_file() else _SINGLE(path, family)


def _records_once(folder: Path, run: AsOf | None) -> reading.Reading:
    """Records without a mistake, which say nothing of what is in the files of jobs."""
    day = run or clock_day()
    names = tuple(sorted((at, *here) for at, _, here in os.walk(folder)))
    key = (folder, names, reading.files_digest(folder), day, day.set_by, day.clock)
    if (found := _READ.get(key)) is None and (found := _ALL(folder, run)).records is not None:
        if len(_READ) == 100:
            _READ.pop(next(iter(_READ)))
        _READ[key] = found
    return found


@pytest.fixture(autouse=True, scope="session")
def unchanged_read_once() -> None:
    """A file that has not changed since it was read in this process, under the same name, is not read again.

    Nor are records put together again of which no file has changed and none has come or gone. Who imports `read_family`
    or `read_single` itself reads. A relative name is the same in each test's own folder.
    """
    reading.read_family, reading.read_single, reading._read_records = _family_once, _single_once, _records_once


def mkdocs(folder: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    """Run MkDocs in a folder, as a person would; in a copy of this process where a system can make one.

    The copy has loaded the builder and the program already, which takes a process of its own a second. Its streams, its
    folder and its end are its own.
    """
    if not hasattr(os, "fork"):
        return started(folder, *arguments)
    cli = _ready_to_build()
    with tempfile.TemporaryFile() as out, tempfile.TemporaryFile() as err:
        child = os.fork()
        if child == 0:
            status = 1
            try:
                os.chdir(folder)
                sys.stdout, sys.stderr = _redirected(1, out), _redirected(2, err)
                cli(arguments, prog_name="mkdocs")
            except SystemExit as left:
                status = left.code if isinstance(left.code, int) else int(left.code is not None)
            except BaseException:
                traceback.print_exc()
            finally:
                sys.stdout.flush()
                sys.stderr.flush()
                os._exit(status)
        status = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
        said = [os.pread(stream.fileno(), os.fstat(stream.fileno()).st_size, 0).decode() for stream in (out, err)]
    return subprocess.CompletedProcess(arguments, status, *said)


# What a build loads when it has begun.
_BEGINS_WITH = (
    "coloraide",
    "generator.plugin",
    "latex2mathml.converter",
    "material.plugins.offline.plugin",
    "material.plugins.search.plugin",
    "mkdocs.commands.build",
    "segno",
    "shapely",
)


@cache
def _ready_to_build() -> Callable[..., object]:
    """The builder with all that it loads; a template is compiled once for all builds of a worker."""
    import jinja2
    from mkdocs.__main__ import cli

    for name in _BEGINS_WITH:
        import_module(name)
    kept = tempfile.TemporaryDirectory()
    atexit.register(kept.cleanup)
    kept_there = partialmethod(jinja2.Environment.__init__, bytecode_cache=jinja2.FileSystemBytecodeCache(kept.name))
    jinja2.Environment.__init__ = kept_there  # type: ignore[method-assign, assignment]
    return cli


def _redirected(stream: int, to: IO[bytes]) -> IO[str]:
    os.dup2(to.fileno(), stream)
    return os.fdopen(stream, "w", encoding="utf-8", closefd=False)


def started(folder: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    """The same in a process of its own, for what its start, its seed or its kill are the question of."""
    return subprocess.run(
        [sys.executable, "-m", "mkdocs", *arguments], cwd=folder, capture_output=True, text=True, timeout=300
    )


def build_site(folder: Path) -> str:
    """Build a project's site; what was said if it failed."""
    built = mkdocs(folder, "build", "--strict")
    (folder.parent / f"{folder.name}.log").write_text(built.stdout + built.stderr, "utf-8")
    return "" if built.returncode == 0 else built.stdout + built.stderr


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Files that take long go first, so that no worker is left alone with one of them at the end."""
    items.sort(key=lambda item: item.get_closest_marker("long") is None)


def pytest_unconfigure() -> None:
    """What a worker holds at its end goes with it, and is not looked through once more, which takes seconds."""
    gc.freeze()


def _shared_by_all_workers(tmp_path_factory: pytest.TempPathFactory) -> Path:
    own = tmp_path_factory.getbasetemp()
    return own.parent if "PYTEST_XDIST_WORKER" in os.environ else own


@pytest.fixture(autouse=True, scope="module")
def one_worker_for_a_file(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> None:
    """What a file makes for its tests is made once: a second worker that begins the same file is a mistake."""
    begun = _shared_by_all_workers(tmp_path_factory) / "begun"
    begun.mkdir(exist_ok=True)
    try:
        (begun / request.node.nodeid.replace("/", ".")).touch(exist_ok=False)
    except FileExistsError:
        pytest.fail(f"two workers run {request.node.nodeid}; `--dist loadfile` is to keep it on one", pytrace=False)


@pytest.fixture(scope="session")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """One build for all workers: the first one that asks makes it, the others wait for it."""
    shared = _shared_by_all_workers(tmp_path_factory)
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


def searched(page: Any, words: str) -> list[str]:
    """Where the results of a search lead, in their order; the page may have been searched before."""
    page.locator("input[name=query]").first.click()
    page.fill("input[name=query]", "")
    page.keyboard.press("End")  # a key is what the search listens to
    page.wait_for_selector(".md-search-result__item", state="detached")
    page.fill("input[name=query]", words)
    page.keyboard.press("End")
    page.wait_for_selector(".md-search-result__item > a", timeout=15000, state="attached")
    return [str(href) for href in page.evaluate(_LEADING)]


# Once a frame has passed in which the list has not changed.
_LEADING = """async () => {
    const links = () => [...document.querySelectorAll(".md-search-result__item > a")].map(e => e.getAttribute("href"));
    for (let before = null, now = links(); `${before}` !== `${now}`; before = now, now = links())
        await new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)));
    return links();
}"""

# Two frames, and what the new width sets in motion is at its end.
_SETTLED = """async () => {
    const frames = () => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)));
    await frames();
    const moving = document.getAnimations().filter(one => one instanceof CSSTransition);
    moving.forEach(one => one.finish());
    if (moving.length) await frames();
}"""


# What a page looks like beside its own markup: the heads of the site's pages are alike but for their title.
_STYLES = re.compile(r'<link[^>]*rel="stylesheet"[^>]*>|<style.*?</style>', re.DOTALL)
_TURNED = """text => {
    const other = new DOMParser().parseFromString(text, "text/html");
    document.title = other.title;
    document.body.replaceWith(document.importNode(other.body, true));
}"""


def turn_to(page: Any, path: Path) -> str:
    """Show a page of the site without its scripts; its text. A page that has the styles of the one shown before takes
    the place of its body, because to load it takes five times as long."""
    text = path.read_text("utf-8")
    styles = [one.replace("../", "") for one in _STYLES.findall(text.partition("<body")[0])]
    if styles and getattr(page, "styles", None) == styles:
        page.evaluate(_TURNED, text)
    else:
        page.goto(path.as_uri())
        page.styles = styles
    return text


# What a page of the handbook has for itself; the rest is the frame of all that load the same scripts.
_OWN = re.compile(
    r'<main\b.*</main>|<p class="print-line.*?</p>|<a [^>]*class="md-skip"|<title>.*?</title>'
    r'|<link rel="(?:prev|next)"[^>]*>'
    r'|(?<=data-md-component="header-topic">)\s*<span class="md-ellipsis">[^<]*</span>\s*</div>\s*</div>',
    re.DOTALL,
)
# Markup of a page that the theme's script might do something to: not the handbook's tables, nor plain text.
_HELD = re.compile(
    r"<(table(?! class)|pre|code class|form|input|select|button|details|iframe|video|audio|object|style)\b"
    r'|\b(data-md-component="[^"]*"|class="(?:tabbed|annotate|footnote|task-list|mermaid)[^"]*")'
)
_LED = """async text => {
    const other = new DOMParser().parseFromString(text, "text/html");
    document.title = other.title;
    for (const name of ["main", ".print-line", ".md-skip", "[data-md-component=header-title] .md-header__topic + *"])
        document.querySelector(name).replaceWith(document.importNode(other.querySelector(name), true));
    for (const script of document.querySelectorAll("script[src*='assets/']"))
        if (!/javascripts|vendor/.test(script.src)) await new Promise(done => {
            const again = document.createElement("script");
            again.onload = done; again.src = script.src; script.replaceWith(again);
        });
    const pictures = [...document.images].filter(one => one.loading !== "lazy");
    await Promise.allSettled(pictures.map(one => one.decode()));
}"""


def lead_to(page: Any, path: Path) -> str:
    """Show a page of the site with its scripts; its text. One with the frame of the page shown before takes the place
    of what that one has for itself, and the handbook's own scripts run again: the theme's have to do with the frame.
    A page in which they might do more than in those that were loaded is loaded too."""
    text = path.read_text("utf-8")
    frame = path.parent, _OWN.sub("its own", text).replace("../", "")
    own = "".join(re.findall("<article.*</article>", text, re.DOTALL))
    held, shown, known = set(_HELD.findall(own)), getattr(page, "frame", ()), getattr(page, "held", set())
    alike = shown == (page.url, frame) and "assets/javascripts/bundle" in text
    if alike and held <= known and "<script" not in own:
        page.evaluate(_LED, text)
    else:
        page.goto(path.as_uri())
        page.held = held | known
        page.frame = (page.url, frame)
    return text


def resize(page: Any, width: int, height: int = 900) -> None:
    """Give a page that is loaded another width, and wait until it stands still."""
    page.set_viewport_size({"width": width, "height": height})
    page.evaluate(_SETTLED)


AXE = (Path(__file__).parent / "vendor" / "axe.min.js").read_text("utf-8")
LEVELS = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa")
# Only what is wrong comes back: what is right is a list of every element of the page.
_VIOLATIONS = """async only => {
    const found = await axe.run({runOnly: only, resultTypes: ['violations']});
    return found.violations.map(rule => [rule.id, rule.nodes.map(node => node.html.slice(0, 160))]);
}"""


# All of the rules that look at a colour: what is left for the night, when nothing but the colours is another.
COLOURS = ("color-contrast", "link-in-text-block")


def violations(page: Any, levels: Collection[str] = LEVELS, by: str = "tag") -> list[tuple[str, list[str]]]:
    """The rules of level A or AA that a page breaks as it is shown, with the elements that break them."""
    if not page.evaluate("typeof axe === 'object'"):
        page.evaluate(AXE)
        # What is half faded in has not its colours yet.
        page.add_style_tag(content="*, ::before, ::after { transition: none !important; animation: none !important; }")
    return [(rule, elements) for rule, elements in page.evaluate(_VIOLATIONS, {"type": by, "values": list(levels)})]


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


@pytest.fixture(scope="session")
def one_still_page(browser: Any) -> Iterator[Any]:
    """The page of a worker in which no script runs."""
    context = browser.new_context(java_script_enabled=False)
    yield context.new_page()
    context.close()


@pytest.fixture
def still(one_still_page: Any) -> Any:
    """A page in which no script runs, for `turn_to`, on a desk."""
    one_still_page.set_viewport_size({"width": 1280, "height": 720})
    one_still_page.emulate_media(media="null", color_scheme="null")
    return one_still_page


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
