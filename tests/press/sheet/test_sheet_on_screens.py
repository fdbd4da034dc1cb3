"""The sheet on a phone and on a tablet: whole rows without scrolling sideways, dial and needle large."""

from __future__ import annotations

import datetime
import json
from pathlib import Path
from typing import Any

import pytest

from generator.press.sheet.columns import columns_of
from generator.press.sheet.contents import sheet_of
from generator.press.sheet.printing import sheet_html
from tests.conftest import LEVELS, resize, violations
from tests.planning.demo import JOBS, RECORDS, demo
from tests.test_browser import ALIKE_ONCE

AS_OF = datetime.date(2027, 5, 1)
WIDTHS = (320, 360, 599, 700, 701, 768, 1024)
# Every cell with text of its own: left, right, size of its letters in points, and what it says.
_CELLS = """name => [...document.querySelectorAll('.order ' + name)].map(cell => {
    const box = cell.getBoundingClientRect();
    return [box.left, box.right, parseFloat(getComputedStyle(cell).fontSize) * 0.75, cell.innerText];
})"""


def shown(page: Any, job: str, width: int) -> Any:
    page.set_viewport_size({"width": width, "height": 900})
    page.set_content(sheet_html(sheet_of(RECORDS, demo(job)), AS_OF))
    return page


# The width of the window, and the words of what is not to be read in it: what would have to be scrolled sideways, and
# every cell of the order that stands beyond the screen, or that something written in it stands out of.
_SIDEWAYS = """() => {
    const wide = innerWidth, words = found => found.map(e => e.innerText);
    const cells = [...document.querySelectorAll('.order tbody td, .order tbody th')];
    const broader = e => e.scrollWidth > e.clientWidth + 1;
    const scrolled = [...document.querySelectorAll('main *')].filter(e => broader(e) &&
        getComputedStyle(e).overflowX !== 'visible' && getComputedStyle(e).clipPath === 'none');
    const off = cells.filter(e => e.getBoundingClientRect().left < 0 || e.getBoundingClientRect().right > wide);
    return {
        // Nothing moves on a sheet: it is measured as soon as it has its width.
        wide: wide, moves: document.getAnimations().map(e => e.transitionProperty),
        'the page': document.documentElement.scrollWidth > wide ? [''] : [], scrolled: words(scrolled),
        'off the screen': words(off), 'out of its cell': words(cells.filter(e => e.matches('td') && broader(e))),
    };
}"""


@pytest.mark.parametrize("job", JOBS)
def test_nothing_is_scrolled_sideways_and_no_cell_is_off_the_screen(page: Any, job: str) -> None:
    shown(page, job, WIDTHS[0])
    wrong = []
    for width in WIDTHS:
        page.set_viewport_size({"width": width, "height": 900})
        found = page.evaluate(_SIDEWAYS)
        assert found.pop("wide") == width
        wrong += [(width, how, words) for how, all_words in found.items() for words in all_words]
    assert wrong == []


@pytest.mark.parametrize("job", ["keepers-lantern", "clock-tower"])
def test_on_a_phone_dial_and_needle_stand_large_beside_each_other(page: Any, job: str) -> None:
    shown(page, job, 360)
    steps = [row for row in sheet_of(RECORDS, demo(job)).rows if not row.is_break]
    for name, said in (("td.dial", [row.dial for row in steps]), ("td.needle", [row.needle for row in steps])):
        found = page.evaluate(_CELLS, name)
        assert [words.split("\n")[0].strip() for _, _, _, words in found] == said
        assert min(size for _, _, size, _ in found) >= 18
    tops = "name => [...document.querySelectorAll(name)].map(e => Math.round(e.getBoundingClientRect().top))"
    order = ("th.step", "td.dial", "td.needle", "td.machine", "td.ink", "td.over", "td.minutes")
    step, dial, needle, machine, ink, over, minutes = (page.evaluate(tops, f".order {name}") for name in order)
    assert dial == needle and over == minutes
    assert all(a < b < c < d < e for a, b, c, d, e in zip(step, dial, machine, ink, over, strict=True))
    # Without the head of the table the words that it had stand in the block, and what stays in the hand, too.
    for row, (_, _, _, words) in zip(steps, page.evaluate(_CELLS, "td.needle"), strict=True):
        assert f"hang-out {row.hang_out}" in words
    for row, (_, _, _, words) in zip(steps, page.evaluate(_CELLS, "td.machine"), strict=True):
        assert row.machine in words and f"stroke {row.stroke}" in words
    assert all(words.endswith("min") for _, _, _, words in page.evaluate(_CELLS, "td.minutes"))


def test_on_a_phone_the_next_step_is_on_the_first_screen(page: Any) -> None:
    first = "[...document.querySelectorAll('.now li:not([hidden]) p, .now button')].map(e => e.getBoundingClientRect())"
    low = []
    for job in JOBS:
        sheet = sheet_of(RECORDS, demo(job))
        shown(page, job, 360)
        boxes = page.evaluate(f"{first}.map(box => box.bottom)")
        if not sheet.rows or sheet.finished:
            assert boxes == [], job
        elif max(boxes) > 640:
            low.append((job, max(boxes)))
    assert low == []


def test_each_step_is_ticked_and_the_next_one_comes(page: Any, tmp_path: Path) -> None:
    sheet = sheet_of(RECORDS, demo("keepers-lantern"))
    file = tmp_path / "sheet.html"
    file.write_text(sheet_html(sheet, AS_OF), "utf-8")
    page.set_viewport_size({"width": 360, "height": 740})
    page.goto(file.as_uri())
    now, done = page.locator(".now li:not([hidden])"), page.get_by_role("button", name="Done: next")
    boxes = page.locator(".order input")
    assert boxes.count() == len(sheet.rows)
    for place, row in enumerate(sheet.rows):
        said = now.inner_text()
        if row.is_break:
            assert row.pause in said
        else:
            assert all(one in said for one in (row.dial, row.needle, row.machine, row.stroke, row.ink, row.part)), place
            assert ("Scar: " in said) == bool(row.scars)
        done.click()
        assert boxes.nth(place).is_checked() and now.inner_text() != said
    assert "All steps are ticked" in now.inner_text() and done.is_disabled()
    page.get_by_role("button", name="Back").click()
    assert not boxes.last.is_checked()
    # A tick in the order moves it as well.
    boxes.first.uncheck()
    assert sheet.rows[0].part in now.inner_text() and "Step 1 " in now.inner_text()


def test_a_row_is_still_a_row_to_a_screen_reader(page: Any) -> None:
    shown(page, "keepers-lantern", 360)
    rows = sheet_of(RECORDS, demo("keepers-lantern")).rows
    table = page.get_by_role("table", name="Order and settings", exact=True)
    assert table.get_by_role("row").count() == len(rows) + 1
    heads = page.get_by_role("columnheader").all_inner_texts()
    assert heads[:4] == ["Part, technique", "Machine,\nstroke mm", "Dial", "Cartridge,\nhang-out mm"]
    named = [row.part for row in rows if not row.is_break]
    said = page.get_by_role("rowheader").all_inner_texts()
    assert all(words.startswith(name) for words, name in zip(said, named, strict=True))


def test_the_columns_in_print_are_those_that_were_calculated_with(page: Any) -> None:
    shown(page, "keepers-lantern", round((210 - 6 - 11) / 25.4 * 96))
    page.emulate_media(media="print")
    columns = columns_of(sheet_of(RECORDS, demo("keepers-lantern")).rows)
    widths = page.evaluate(
        """names => Object.fromEntries(names.map(name =>
            [name, document.querySelector('.order tbody .' + name).getBoundingClientRect().width / 96 * 25.4]))""",
        list(columns),
    )
    assert widths == {name: pytest.approx(columns[name].width, abs=0.3) for name in widths}
    (size,) = {size for _, _, size, _ in page.evaluate(_CELLS, "td.needle")}
    weight = page.evaluate("getComputedStyle(document.querySelector('.needle')).fontWeight")
    assert size == pytest.approx(11.5, abs=0.01) and weight == "700"


@pytest.mark.parametrize("job", ["keepers-lantern", "clock-tower", "steam-boiler", "gear-band", "stairwell"])
def test_the_sheet_is_accessible(page: Any, job: str) -> None:
    shown(page, job, 360)
    page.evaluate(ALIKE_ONCE)
    found = []
    for width in (360, 768, 1440):
        resize(page, width)
        found += [(width, *violation) for violation in violations(page, (*LEVELS, "wcag22aa"))]
    assert found == [], json.dumps(found, indent=1)
