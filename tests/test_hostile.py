"""A studio whose every free text is an attack, in a browser: no script runs, and texts are shown as written."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from generator.cli import main
from generator.press.lists.reviews import CALENDAR
from tests.conftest import THREE_JOBS, copy_project, mkdocs, searched
from tests.hostile import ATTACKS, made_hostile, number_of

pytestmark = pytest.mark.long

# Of each kind one: clear, with care, not yet, finished, in sittings, round a limb.
WITH = (*THREE_JOBS, "keepers-lantern", "orrery", "gear-band")

# What no page of the handbook has, and an attack that is taken for markup would leave behind.
INJECTED = """document => [...document.querySelectorAll(
    `img[src="x"], iframe[srcdoc], a[href^="javascript"],
    [onerror], [onload], [onclick], [onfocus], [onmouseover], article u`
)].map(e => e.outerHTML.slice(0, 200)).concat(
    [...document.scripts].filter(s => /^(parent\\.)?pwned/.test(s.textContent)).map(s => s.outerHTML.slice(0, 200)))"""
# The words of a page, those for screen readers among them; not the lines to copy, in which they are as in a record,
# nor the addresses of pages, which are made of ids.
WORDS = """document => { const shown = document.cloneNode(true);
    for (const e of shown.querySelectorAll('script, style, pre, .print-line, [data-search-exclude]')) e.remove();
    return [shown.title, shown.body.textContent,
        ...[...shown.querySelectorAll('[aria-label], [title], [alt]')].flatMap(
            e => ['aria-label', 'title', 'alt'].map(n => e.getAttribute(n) || ''))]; }"""
# What a script finds an element by: each name of an element with each of its classes and its other attributes.
HOOKS = """document => [...new Set([...document.querySelectorAll('*')].flatMap(e => [e.tagName,
    ...[...e.classList].map(name => `${e.tagName}.${name}`),
    ...e.getAttributeNames().map(name => `${e.tagName}[${name}]`)]))]"""
# All that is asked about a page: as a browser reads it, and as it is shown.
ASKED = f"[{', '.join(f'({ask})(page)' for ask in (WORDS, INJECTED, HOOKS))}]"
AS_READ = f"""text => {{ const page = new DOMParser().parseFromString(text, "text/html"); return {ASKED}; }}"""
AS_SHOWN = f"() => {{ const page = document; return {ASKED}; }}"


class Hostile(NamedTuple):
    """The built studio, and what was written into it."""

    folder: Path
    texts: dict[int, str]


@pytest.fixture(scope="module")
def hostile(tmp_path_factory: pytest.TempPathFactory) -> Hostile:
    folder = copy_project(tmp_path_factory.mktemp("hostile"), WITH)
    texts = made_hostile(folder / "content")
    built = mkdocs(folder, "build", "--strict")
    assert built.returncode == 0, built.stdout + built.stderr
    return Hostile(folder, texts)


@pytest.fixture(scope="module")
def watched(browser: Any) -> Iterator[Any]:
    """A page of this file's own that notes when an attack runs."""
    page = browser.new_page()
    page.ran = []
    page.expose_function("pwned", lambda *_: page.ran.append(page.url))
    page.on("dialog", lambda dialog: (page.ran.append(dialog.message), dialog.dismiss()))
    yield page
    page.close()


def _plain(text: str) -> str:
    return " ".join(text.split()).casefold()


def _mangled(words: str, texts: dict[int, str]) -> list[str]:
    """Each place where a text begins and goes on otherwise than it was written."""
    plain = _plain(words)
    wrong = []
    for found in re.finditer(r"zq[a-j]{4}", plain):
        text = _plain(texts[number_of(found[0])])
        if not plain.startswith(text, found.start()):
            wrong.append(f"{plain[found.start() : found.start() + len(text) + 20]!r} for {text!r}")
    return wrong


def test_every_attack_is_written(hostile: Hostile) -> None:
    assert len(hostile.texts) > 500
    assert all(any(attack in text for text in hostile.texts.values()) for attack in ATTACKS)


def _is_handbook(path: Path) -> bool:
    return path.name != "404.html" and "zq" in path.read_text("utf-8")


def test_each_page_shows_what_was_written_and_no_page_runs_a_script_of_a_record(
    still: Any, watched: Any, hostile: Hostile
) -> None:
    """Each page as it is written; and with its scripts as many as hold everything that a script could take hold of."""
    site = hostile.folder / "site"
    pages = {path.relative_to(site).as_posix(): path for path in sorted(site.rglob("*.html")) if _is_handbook(path)}
    assert len(pages) > 100
    wrong, hooks = {}, {}
    for name, path in pages.items():
        wrong[name], hooks[name] = _looked_at(still.evaluate(AS_READ, path.read_text("utf-8")), hostile)
    assert {name: found for name, found in wrong.items() if found} == {}
    held: set[str] = set()
    loaded = []
    for name in sorted(pages, key=lambda name: -len(hooks[name])):
        if hooks[name] <= held:
            continue
        held |= hooks[name]
        loaded.append(name)
        watched.goto(pages[name].as_uri(), wait_until="load")
        wrong[name], _ = _looked_at(watched.evaluate(AS_SHOWN), hostile)
    assert {name: found for name, found in wrong.items() if found} == {}
    assert watched.ran == []
    folders = [{name.rpartition("/")[0] for name in of} for of in (pages, loaded)]
    assert folders[0] == folders[1]
    assert len(loaded) > 20


def _looked_at(asked: list[list[str]], hostile: Hostile) -> tuple[list[str], set[str]]:
    """What of a record became markup on a page or is not shown as it was written; and what scripts find there."""
    shown, injected, hooks = asked
    mangled = [one for words in shown for one in _mangled(words, hostile.texts)]
    return [*injected, *mangled[:3]], set(hooks)


def test_no_result_of_the_search_runs_a_script(watched: Any, hostile: Hostile) -> None:
    site = hostile.folder / "site"
    titles = [
        match[1]
        for path in sorted((hostile.folder / "content" / "jobs").glob("*.yml"))
        if (match := re.search(r'^title: "(zq[a-j]{4})', path.read_text("utf-8"), re.MULTILINE))
    ]
    assert len(titles) == len(WITH)
    watched.goto(f"{(site / 'index.html').as_uri()}?q={titles[0]}")
    watched.wait_for_selector(".md-search-result__item", timeout=15000)
    for word in titles:
        searched(watched, word)
        assert watched.evaluate(f"({INJECTED})(document)") == []
        shown = _plain(watched.locator(".md-search-result__list").first.text_content())
        assert _plain(hostile.texts[number_of(word)]) in shown
    assert watched.ran == []


def test_every_entry_of_the_search_holds_no_markup_but_its_own(hostile: Hostile) -> None:
    index = json.loads((hostile.folder / "site" / "search" / "search_index.json").read_text("utf-8"))
    raw = ("<img", "<script", "<svg onload", "<iframe", "<u>")
    assert [e["location"] for e in index["docs"] if any(tag in e["title"] + e["text"] for tag in raw)] == []


def test_the_calendar_holds_no_line_of_a_record(hostile: Hostile) -> None:
    """RFC 5545, 3.1 and 3.3.11: lines are unfolded, and in a text a backslash, a comma and a semicolon are escaped."""
    text = (hostile.folder / "site" / CALENDAR).read_bytes().decode().replace("\r\n ", "")
    begun = re.compile(
        r"(BEGIN|END):(VCALENDAR|VEVENT)|(VERSION|PRODID|UID|DTSTAMP|DTSTART;VALUE=DATE|TRANSP):[^\\;,]*"
    )
    words = re.compile(r"(SUMMARY|DESCRIPTION):([^\\;,]|\\[\\;,n])*")
    lines = text.removesuffix("\r\n").split("\r\n")
    assert [line for line in lines if not begun.fullmatch(line) and not words.fullmatch(line)] == []
    assert "zq" in text
    unescaped = re.sub(r"\\([\\;,])", r"\1", text)
    assert _mangled(unescaped.replace("\r\n", " "), hostile.texts) == []


@pytest.mark.parametrize(
    "command", [["plan", "tide-table", "--json"], ["sheet", "tide-table", "--explain", "--pictures"]]
)
def test_what_the_commands_print_is_whole(
    command: list[str],
    watched: Any,
    hostile: Hostile,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(hostile.folder)
    assert main(command) == 0
    printed = capsys.readouterr().out
    if "--json" in command:
        said = json.dumps(json.loads(printed), ensure_ascii=False)
        assert "zq" in said
        return
    watched.set_content(printed)
    assert _looked_at(watched.evaluate(AS_SHOWN), hostile)[0] == []
    assert watched.ran == []
