"""A sheet on a bagged tablet: boxes that are ticked at the pauses, kept where the browser lets them be kept."""

from __future__ import annotations

import dataclasses
import datetime
import re
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from generator.press.sheet.contents import sheet_of
from generator.press.sheet.printing import sheet_html
from tests.conftest import resize
from tests.planning.demo import RECORDS, changed, demo, planned, written

AS_OF = datetime.date(2027, 5, 1)
JOB = "tide-table"
SIZE = {"width": 800, "height": 1100}
FORBIDDEN = "Object.defineProperty(window, 'localStorage', {get() { throw new DOMException('no', 'SecurityError'); }})"
REFUSES = "Storage.prototype.setItem = Storage.prototype.getItem = () => { throw new DOMException('full', 'Quota'); }"


@cache
def _sheet(job: str) -> str:
    return sheet_html(sheet_of(RECORDS, demo(job)), AS_OF)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    for job in (JOB, "diving-bell"):
        (tmp_path / f"{job}.html").write_text(_sheet(job), "utf-8")
    return tmp_path


def _noting(page: Any) -> Any:
    page.mistakes, page.asked = [], []
    page.on("pageerror", lambda error: page.mistakes.append(str(error)))
    page.on("request", lambda request: page.asked.append(request.url))
    return page


@pytest.fixture(scope="module")
def two_pages(browser: Any) -> Iterator[list[Any]]:
    """Two pages with one storage, because a context and its pages take longer than what is looked at in them."""
    context = browser.new_context(viewport=SIZE)
    yield [_noting(context.new_page()) for _ in range(2)]
    context.close()


@pytest.fixture
def opened(two_pages: list[Any], folder: Path) -> Callable[..., Any]:
    """Opens a sheet in a page that is as if it were new; a second one beside it."""
    for page in two_pages:
        page.goto("about:blank")
        page.set_viewport_size(SIZE)
        page.emulate_media(media="null")
        page.mistakes.clear()
        page.asked.clear()
    session = two_pages[0].context.new_cdp_session(two_pages[0])
    session.send("Storage.clearDataForOrigin", {"origin": "file://", "storageTypes": "all"})
    session.detach()
    unused = iter(two_pages)

    def open_sheet(job: str = JOB) -> Any:
        page = next(unused)
        page.goto((folder / f"{job}.html").as_uri())
        return page

    return open_sheet


def read_again(page: Any) -> None:
    """Load the page anew. Chromium now and then hands it an empty storage, and the full one at the next load."""
    kept = page.evaluate("localStorage.length")
    for _ in range(20):
        page.reload()
        if not kept or page.evaluate("localStorage.length"):
            return
        page.wait_for_timeout(50)


def ticked(page: Any) -> list[str]:
    return list(page.evaluate("[...document.querySelectorAll('.tick input:checked')].map(b => b.parentNode.innerText)"))


def test_every_box_of_pauses_and_lots_is_a_labelled_checkbox(opened: Callable[..., Any]) -> None:
    page, sheet = opened(), sheet_of(RECORDS, demo(JOB))
    for pause in sheet.pauses:
        for item in pause.items:
            assert page.get_by_role("checkbox", name=item, exact=True).is_visible()
    lots = [lot for ink in sheet.inks for lot in ink.lots]
    assert page.locator(".lot input").count() == len(lots) > 0
    keys = page.evaluate("[...document.querySelectorAll('.tick input')].map(b => b.dataset.tick)")
    assert len(set(keys)) == len(keys)


def test_ticks_survive_a_reload_and_belong_to_their_job(opened: Callable[..., Any]) -> None:
    page = opened()
    page.locator(".tick").nth(2).click()
    before = ticked(page)
    assert len(before) == 1
    read_again(page)
    assert ticked(page) == before
    # Both pages were opened from one folder and share one storage; the first steps are the same.
    assert ticked(opened("diving-bell")) == []
    assert page.mistakes == []


def test_a_tick_falls_when_its_step_changed_and_others_stay(opened: Callable[..., Any], folder: Path) -> None:
    page = opened()
    for number in (0, 1):
        page.locator(".pause .tick").nth(number).click()
    first, second = ticked(page)
    file = folder / f"{JOB}.html"
    plain = file.read_text("utf-8")
    hygiene = {
        entry_id: step.model_copy(update={"tick": "Surfaces wiped twice"}) if step.tick == first else step
        for entry_id, step in RECORDS.hygiene.items()
    }

    records = dataclasses.replace(RECORDS, hygiene=hygiene)
    file.write_text(sheet_html(sheet_of(records, planned(written(JOB), records)), AS_OF), "utf-8")
    read_again(page)
    assert ticked(page) == [second]
    # It fell for good: the old wording does not bring it back.
    file.write_text(plain, "utf-8")
    read_again(page)
    assert ticked(page) == [second]


def test_the_next_sitting_begins_without_ticks(opened: Callable[..., Any], folder: Path) -> None:
    page = opened()
    page.locator(".tick").first.click()
    later = planned(changed(written(JOB), "date", to="2027-05-19"))
    (folder / f"{JOB}.html").write_text(sheet_html(sheet_of(RECORDS, later), AS_OF), "utf-8")
    read_again(page)
    assert ticked(page) == []


def test_one_button_clears_this_sheet_alone(opened: Callable[..., Any]) -> None:
    other, page = opened("diving-bell"), opened()
    other.locator(".tick").first.click()
    for number in range(3):
        page.locator(".tick").nth(number).click()
    page.get_by_role("button", name="Clear this sheet’s ticks").click()
    assert ticked(page) == []
    for one in (page, other):
        read_again(one)
    assert ticked(page) == []
    assert len(ticked(other)) == 1


@pytest.mark.parametrize("how", [FORBIDDEN, REFUSES], ids=["forbidden", "refused"])
def test_without_storage_the_ticks_live_in_the_page(browser: Any, folder: Path, how: str) -> None:
    page = _noting(browser.new_page())
    page.add_init_script(how)
    page.goto((folder / f"{JOB}.html").as_uri())
    page.locator(".tick").first.click()
    assert len(ticked(page)) == 1
    page.get_by_role("button", name="Clear this sheet’s ticks").click()
    assert ticked(page) == []
    assert page.mistakes == []
    page.close()


def test_the_keyboard_is_enough(opened: Callable[..., Any]) -> None:
    page = opened()
    page.get_by_role("button", name="Clear this sheet’s ticks").focus()
    for _ in range(60):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.matches('.tick input')"):
            break
    page.keyboard.press("Space")
    assert len(ticked(page)) == 1
    assert page.evaluate("getComputedStyle(document.activeElement.parentNode).outlineStyle") == "solid"


def test_targets_are_large_enough_for_a_gloveless_finger(opened: Callable[..., Any]) -> None:
    page = opened()
    for width in (360, 800, 1440):
        resize(page, width)
        small = page.evaluate("""[...document.querySelectorAll('.tick input, .tick, .untick')].filter(e => {
            const box = e.getBoundingClientRect(), least = e.matches('input') ? 24 : 44;
            return box.width < least || box.height < least; }).map(e => e.outerHTML)""")
        assert small == [], width


def test_print_shows_empty_squares_whatever_is_ticked(opened: Callable[..., Any]) -> None:
    page = opened()
    seen = """[...document.querySelectorAll('.tick input, .tick .box, .untick')].map(
        e => [e.className, e.getBoundingClientRect().width, e.getBoundingClientRect().top])"""
    page.emulate_media(media="print")
    before = page.evaluate(seen)
    page.emulate_media(media="screen")
    page.locator(".tick").first.click()
    page.emulate_media(media="print")
    assert page.evaluate(seen) == before
    assert {width > 10 for name, width, _ in before if name == "box"} == {True}
    assert {width for name, width, _ in before if name != "box"} == {0}


def test_the_script_is_inline_and_asks_nothing(opened: Callable[..., Any], folder: Path) -> None:
    page = opened()
    page.locator(".tick").first.click()
    assert page.asked == [(folder / f"{JOB}.html").as_uri()]
    assert re.findall(r"<script[^>]*>", (folder / f"{JOB}.html").read_text("utf-8")) == ["<script>"]


def test_a_sheet_that_may_not_go_ahead_has_nothing_to_tick(opened: Callable[..., Any], folder: Path) -> None:
    (folder / "stairwell.html").write_text(sheet_html(sheet_of(RECORDS, demo("stairwell")), AS_OF), "utf-8")
    page = opened("stairwell")
    assert page.locator("input").count() == 0
    assert not page.locator("#clear").is_visible()
    assert page.mistakes == []
