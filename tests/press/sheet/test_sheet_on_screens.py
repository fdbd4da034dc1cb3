"""The sheet on a phone and on a tablet: whole rows without scrolling sideways, dial and needle large."""

from __future__ import annotations

import datetime
import json
from typing import Any

import pytest

from generator.press.sheet.contents import sheet_of
from generator.press.sheet.printing import sheet_html
from generator.press.sheet.sizes import COLUMNS
from tests.conftest import LEVELS, resize, violations
from tests.planning.demo import JOBS, RECORDS, demo

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


# Every cell of the order that something written in it stands out of.
_SPILLED = """[...document.querySelectorAll('.order tbody td')].filter(e => e.scrollWidth > e.clientWidth + 1).map(
    e => e.innerText)"""
# Everything that would have to be scrolled sideways to be read.
_SCROLLED = """[...document.querySelectorAll('main *')].filter(e => {
    const style = getComputedStyle(e);
    return e.scrollWidth > e.clientWidth + 1 && style.overflowX !== 'visible' && style.clipPath === 'none';
}).map(e => e.innerText)"""


@pytest.mark.parametrize("job", JOBS)
def test_nothing_is_scrolled_sideways_and_no_cell_is_off_the_screen(page: Any, job: str) -> None:
    shown(page, job, WIDTHS[0])
    wrong = []
    for width in WIDTHS:
        resize(page, width)
        assert page.evaluate("window.innerWidth") == width
        if page.evaluate("document.documentElement.scrollWidth") > width:
            wrong.append((width, "the page"))
        cells = page.evaluate(_CELLS, "tbody td")
        wrong += [(width, "off the screen", words) for left, right, _, words in cells if left < 0 or right > width]
        wrong += [(width, "scrolled", words) for words in page.evaluate(_SCROLLED)]
        wrong += [(width, "out of its cell", words) for words in page.evaluate(_SPILLED)]
    assert wrong == []


@pytest.mark.parametrize("job", ["keepers-lantern", "clock-tower", "gear-band"])
def test_on_a_phone_dial_and_needle_stand_large_beside_each_other(page: Any, job: str) -> None:
    shown(page, job, 360)
    steps = [row for row in sheet_of(RECORDS, demo(job)).rows if not row.is_break]
    for name, said in (("td.dial", [row.dial for row in steps]), ("td.needle", [row.needle for row in steps])):
        found = page.evaluate(_CELLS, name)
        assert [words.split("\n")[0] for _, _, _, words in found] == said
        assert min(size for _, _, size, _ in found) >= 18
    tops = "name => [...document.querySelectorAll(name)].map(e => Math.round(e.getBoundingClientRect().top))"
    order = ("td.number", "td.step", "td.dial", "td.needle", "td.ink", "td.minutes")
    number, step, dial, needle, ink, minutes = (page.evaluate(tops, name) for name in order)
    assert number == step and dial == needle and ink == minutes
    assert all(a < b < c for a, b, c in zip(step, dial, ink, strict=True))
    # Without the head of the table the words that it had stand in the block.
    assert all("hang-out" in words for _, _, _, words in page.evaluate(_CELLS, "td.needle"))
    assert all(words.endswith("min") for _, _, _, words in page.evaluate(_CELLS, "td.minutes"))


def test_a_row_is_still_a_row_to_a_screen_reader(page: Any) -> None:
    shown(page, "keepers-lantern", 360)
    steps = sheet_of(RECORDS, demo("keepers-lantern")).rows
    assert page.get_by_role("table", name="Order and settings").get_by_role("row").count() == len(steps) + 1
    assert page.get_by_role("columnheader").all_inner_texts()[2:4] == ["Needle\nhang-out", "Dial\nmachine, stroke"]


def test_the_columns_in_print_are_those_that_were_calculated_with(page: Any) -> None:
    shown(page, "keepers-lantern", round((210 - 22) / 25.4 * 96))
    page.emulate_media(media="print")
    widths = page.evaluate("""() => Object.fromEntries(['needle', 'dial', 'ink', 'minutes'].map(name =>
        [name, document.querySelector('.order td.' + name).getBoundingClientRect().width / 96 * 25.4]))""")
    assert widths == {name: pytest.approx(COLUMNS[name], abs=0.3) for name in widths}
    (size,) = {size for _, _, size, _ in page.evaluate(_CELLS, "td.needle")}
    weight = page.evaluate("getComputedStyle(document.querySelector('.needle')).fontWeight")
    assert size == pytest.approx(11.5, abs=0.01) and weight == "700"


@pytest.mark.parametrize("job", ["keepers-lantern", "clock-tower", "steam-boiler", "gear-band", "stairwell"])
def test_the_sheet_is_accessible(page: Any, job: str) -> None:
    shown(page, job, 360)
    found = []
    for width in (360, 768, 1440):
        resize(page, width)
        found += [(width, *violation) for violation in violations(page, (*LEVELS, "wcag22aa"))]
    assert found == [], json.dumps(found, indent=1)
