"""From any number on a sheet to its line, and from there to formula, records and source; on paper nothing changes."""

from __future__ import annotations

import datetime
import html
import re
from pathlib import Path
from typing import Any

import pytest

from generator.press.sheet.appendix import appendix_of
from generator.press.sheet.contents import sheet_of
from generator.press.sheet.number_links import Explained, NumberLinks, Once
from generator.press.sheet.printing import explained_html, sheet_html
from generator.press.sheet.sides import sides_of
from tests.planning.demo import JOBS, RECORDS, demo
from tests.printed import sides_read

AS_OF = datetime.date(2027, 5, 1)
GOING = [name for name in JOBS if demo(name).work is not None]


def pressed(name: str) -> tuple[str, str, str]:
    """The sheet with links, the one without, and the explanations."""
    plan = demo(name)
    sheet = sheet_of(RECORDS, plan)
    appendix = appendix_of(RECORDS, plan, sheet)
    links = NumberLinks("there.html", appendix.lines)
    return sheet_html(sheet, AS_OF, links=links), sheet_html(sheet, AS_OF), explained_html(sheet, AS_OF, appendix)


def links_of(sheet: str) -> list[tuple[str, str]]:
    return [
        (at, html.unescape(text))
        for at, text in re.findall(r'<a class="how" href="there\.html#number-(\d+)">(.*?)</a>', sheet)
    ]


def line(explained: str, number: str) -> str:
    found = re.search(rf'<tr id="number-{number}">.*?</tr>', explained, re.DOTALL)
    assert found, number
    return html.unescape(found[0])


@pytest.mark.parametrize("name", GOING)
def test_every_number_of_the_order_leads_to_a_line_with_that_number(name: str) -> None:
    sheet, _, explained = pressed(name)
    rows = re.findall(r'<td role="cell" class="dial(?: same)?">(.*?)</td>', sheet, re.DOTALL)
    minutes = re.findall(r'<td role="cell" class="num minutes">(.*?)</td>', sheet, re.DOTALL)
    assert rows and len(rows) == len(minutes)
    for cell in (*rows, *minutes):
        ((at, said),) = links_of(cell)
        assert re.split("\u00a0|<", said)[0] in line(explained, at)


def test_a_line_leads_to_formula_records_and_source() -> None:
    sheet, _, explained = pressed("tide-table")
    at, _ = links_of(re.findall(r'<td role="cell" class="num minutes">(.*?)</td>', sheet, re.DOTALL)[0])[0]
    found = line(explained, at)
    assert 'href="../formulas/clock.html#line_minutes"' in found
    assert 'href="../reference/speeds.html#techniques-lining"' in found
    (source, *_) = re.findall(r'href="#source-(\d+)"', found)
    cited = re.search(rf'<span id="source-{source}">(.*?)</span>', explained)
    assert cited is not None and 'href="../reference/sources.html' in cited[1]


def test_inks_tray_times_and_the_day_to_come_back_are_explained_too() -> None:
    sheet, _, explained = pressed("keepers-lantern")
    for block in ("inks", "tray"):
        for item in re.findall(rf'<ul class="{block}">(.*?)</ul>', sheet, re.DOTALL):
            for number, said in links_of(item):
                assert said.split("\u00a0")[0].split(" ")[0] in line(explained, number)
            assert item.count('<a class="how"') >= item.count("<li>")
    for label in ("Stencil, drying", "work", "breaks", "end", "Touch-up, looked at between"):
        assert re.search(rf'{label} <b><a class="how"', sheet), label


def test_a_number_that_no_line_explains_is_a_mistake_and_no_dead_number() -> None:
    plan = demo("keepers-lantern")
    sheet = sheet_of(RECORDS, plan)
    lines = dict(appendix_of(RECORDS, plan, sheet).lines)
    del lines[Explained.TIMETABLE, Once.BREAKS]
    with pytest.raises(KeyError):
        sheet_html(sheet, AS_OF, links=NumberLinks("there.html", lines))


def test_without_explanations_a_sheet_has_no_links() -> None:
    assert '<a class="how"' not in pressed("keepers-lantern")[1]


def test_on_paper_nothing_changes(page: Any) -> None:
    printed = []
    for text in pressed("keepers-lantern")[:2]:
        page.set_content(text)
        printed.append(sides_read(page.pdf(prefer_css_page_size=True)))
        if '<a class="how"' in text:
            page.emulate_media(media="print")
            looks = page.locator("td.dial a.how").first.evaluate(
                "e => [getComputedStyle(e).textDecorationLine, getComputedStyle(e).color]"
            )
            assert looks == ["none", "rgb(0, 0, 0)"]
    assert printed[0] == printed[1] and len(printed[0]) == len(sides_of(sheet_of(RECORDS, demo("keepers-lantern"))))


def test_a_number_is_followed_in_the_built_site(page: Any, site: Path) -> None:
    page.goto((site / "sheets/keepers-lantern.html").as_uri())
    page.locator("td.dial a.how").first.click()
    page.wait_for_url(re.compile(r"keepers-lantern--explained\.html#number-\d+"))
    page.locator("tr:target a[href*='formulas/'], tr:target a[href*='reference/']").first.click()
    page.wait_for_url(re.compile(r"/(formulas|reference)/"))
