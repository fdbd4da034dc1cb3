"""The sheet on paper: every side has room to spare, nothing is cut, and a long order says where it continues."""

from __future__ import annotations

import dataclasses
import datetime
import io
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from generator.press.drawings.map import ON_SHEET, ON_SHEET_FLAT
from generator.press.sheet import sizes
from generator.press.sheet.contents import sheet_of
from generator.press.sheet.printing import sheet_html
from generator.press.sheet.sides import sides_of
from generator.press.sheet.sizes import SPARE
from generator.press.sheet.stamp import stamp_of
from generator.press.sheet.view import Sheet
from generator.records.families import Records
from tests.planning.demo import JOBS, RECORDS, Written, demo, part, planned, simple

# On side 1, in mm: the spare, and what estimate and drawing miss together.
MOST_LEFT = SPARE + 3
AS_OF = datetime.date(2027, 5, 1)
# Width and height of the paper inside the sheet's margins, in mm.
# Within the margins, and with the strip at the left edge in which the line of the print stands.
PAPERS = {"A4": (210 - 6 - 11, 297 - 18), "Letter": (215.9 - 6 - 11, 279.4 - 18)}
# What a sheet's text is at least, in points.
LEAST = {
    ".dial": 14,
    ".needle": 11.5,
    ".step": 11,
    ".order td": 10,
    ".order th": 10,
    ".under": 10,
    ".day": 10,
    ".inks li": 10,
    ".ticks li": 10,
    ".tray li": 10,
    ".reasons li": 10,
    ".hands": 10,
}
_LINES = """() => [...document.querySelectorAll('tbody .step')].flatMap(cell => {
    const lines = new Map(), walker = document.createTreeWalker(cell, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node; node = walker.nextNode())
        for (let n = 0; n < node.data.length; n++) {
            const range = document.createRange();
            range.setStart(node, n); range.setEnd(node, n + 1);
            const top = Math.round(range.getBoundingClientRect().bottom / 8);
            lines.set(top, (lines.get(top) || '') + node.data[n]);
        }
    return [...lines.values()].map(line => line.trim().length);
})"""


def on(paper: str) -> Records:
    """The demo records of a studio that prints on this paper."""
    return dataclasses.replace(RECORDS, studio=RECORDS.studio.model_copy(update={"paper": paper}))


def long_job() -> Written:
    """More steps than one side has room for."""
    inks = ["line-black", "wash-mid", "rust", "plum"]
    known = [ink for ink in (*inks, *RECORDS.inks) if ink in RECORDS.inks]
    parts = [
        part(f"panel-{n}", (5 + 30 * (n % 4), 5 + 30 * (n // 4), 28, 28), colours=list(dict.fromkeys(known))[:3])
        for n in range(8)
    ]
    return simple(id="long-frieze", size="140 mm x 140 mm", parts=parts)


def printed(page: Any, sheet: Sheet, paper: str) -> PdfReader:
    width, height = PAPERS[paper]
    page.set_viewport_size({"width": round(width / 25.4 * 96), "height": round(height / 25.4 * 96)})
    assert sheet.paper == paper
    page.set_content(sheet_html(sheet, AS_OF))
    page.emulate_media(media="print")
    return PdfReader(io.BytesIO(page.pdf(prefer_css_page_size=True)))


def _as_wide_as_it_may(sheet: Sheet) -> bool:
    """Whether the map has all the width that the paper, or the words beside it, leave it."""
    return sheet.map_wide > (ON_SHEET_FLAT if sheet.map_over else ON_SHEET).widest - 4


def squeezed(text: str) -> str:
    return "".join(text.split())


@pytest.mark.parametrize("job", [*JOBS, "long-frieze"])
def test_each_side_has_room_for_a_line_more_and_no_text_is_under_its_minimum(page: Any, job: str) -> None:
    plan = planned(long_job()) if job == "long-frieze" else demo(job)
    several = plan.work is not None and plan.work.timetable.sittings.high > 1
    for paper in PAPERS:
        sheet = sheet_of(on(paper), plan)
        sides = sides_of(sheet)
        assert len(sides) <= (4 if several or sheet.more_to_tick or job == "long-frieze" else 2)
        pages = printed(page, sheet, paper).pages
        assert len(pages) == len(sides), paper
        heights = page.evaluate("[...document.querySelectorAll('.side')].map(s => s.scrollHeight / 96 * 25.4)")
        assert max(heights) <= PAPERS[paper][1] - SPARE, paper
        # On side 1 nothing is left that the map could use: the widest piece and a row that turns the paper leave more.
        left = PAPERS[paper][1] - heights[0]
        assert left <= MOST_LEFT or _as_wide_as_it_may(sheet) or sides[0].order_on, (paper, left)
        # Nothing stands over the edge of the paper either.
        assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth"), paper
        stamp = stamp_of(sheet)
        texts = [squeezed(side.extract_text()) for side in pages]
        for number, text in enumerate(texts, 1):
            assert squeezed(f"{sheet.job} · stamp {stamp} · side {number} of {len(sides)}") in text, paper
        words = "".join(texts)
        assert [(paper, ink.name) for ink in sheet.inks if squeezed(ink.name) not in words] == []
        sizes: dict[str, list[float]] = page.evaluate(
            """names => Object.fromEntries(names.map(name => [name, [...document.querySelectorAll(name)].map(
                e => parseFloat(getComputedStyle(e).fontSize) * 0.75)]))""",
            list(LEAST),
        )
        small = {name for name, found in sizes.items() if found and min(found) < LEAST[name] - 0.01}
        assert small == set(), paper
        assert max(page.evaluate(_LINES), default=0) <= 45, paper


def test_the_template_of_the_sheet_can_be_read() -> None:
    folder = Path(sizes.__file__).parent / "templates"
    lines = [
        line for name in ("sheet.html.j2", "sheet.css.j2") for line in (folder / name).read_text("utf-8").split("\n")
    ]
    assert [line for line in lines if len(line) > 120] == []


def test_a_size_has_one_place_for_the_browser_and_the_division(monkeypatch: pytest.MonkeyPatch) -> None:
    sheet = sheet_of(on("Letter"), planned(long_job()))
    before = sheet_html(sheet, AS_OF), len(sides_of(sheet))
    monkeypatch.setattr(sizes, "STEP", sizes.Letters(33, 1.5))
    assert ".step { font-size: 33pt; line-height: 1.5;" in sheet_html(sheet, AS_OF)
    assert ".step { font-size: 33pt" not in before[0] and len(sides_of(sheet)) > before[1]


@pytest.mark.parametrize("job", ["weather-house", "loom-shuttle"])
def test_a_short_order_uses_the_room_that_its_side_has(page: Any, job: str) -> None:
    sheet = sheet_of(RECORDS, demo(job))
    (side,) = (side for side in sides_of(sheet) if side.rows)
    assert sizes.MORE <= side.air <= sizes.MOST_MORE
    printed(page, sheet, "A4")
    tops = "[...document.querySelectorAll('.order tbody .step')].map(e => parseFloat(getComputedStyle(e).paddingTop))"
    assert min(page.evaluate(tops)) == pytest.approx((sizes.CELL_AIR + side.air / 2) / 25.4 * 96, abs=0.05)
    # One that fills its side has no room to give away.
    assert not any(side.air for side in sides_of(sheet_of(RECORDS, planned(long_job()))) if side.order_on)


@pytest.mark.parametrize(
    ("across", "paper"),
    [
        (8, "A4"),
        (27, "Letter"),
        pytest.param(8, "Letter", marks=pytest.mark.nightly),
        pytest.param(27, "A4", marks=pytest.mark.nightly),
    ],
)
def test_a_map_with_many_names_is_counted_with_its_height(page: Any, across: int, paper: str) -> None:
    wide, tall = 8 + 25 * across, 8 + 25 * (53 // across)
    lines = [{"needle": "1207RL", "length": "100 mm"}]
    parts = [part(f"tile-{n}", (4 + 25 * (n % across), 4 + 25 * (n // across), 20, 20), lines=lines) for n in range(53)]
    parts[0]["focal"] = "yes"
    sheet = sheet_of(
        on(paper), planned(simple(size=f"{wide} mm x {tall + 25} mm", parts=parts, place="upper-back", side="middle"))
    )
    pages = printed(page, sheet, paper).pages
    assert len(pages) == len(sides_of(sheet))
    heights = page.evaluate("[...document.querySelectorAll('.side')].map(s => s.scrollHeight / 96 * 25.4)")
    assert max(heights) <= PAPERS[paper][1] - SPARE
    assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")
    drawn = page.evaluate("document.querySelector('.on-paper svg.map').getBoundingClientRect().height / 96 * 25.4")
    assert drawn == pytest.approx(sheet.map_tall, abs=0.5)


@pytest.mark.parametrize("paper", PAPERS)
def test_long_names_take_nothing_from_the_bar_and_run_over_nothing(page: Any, paper: str) -> None:
    named = {"name": "W" * 40 + " and its very long invented name of a studio", "paper": paper}
    records = dataclasses.replace(RECORDS, studio=RECORDS.studio.model_copy(update=named))
    sheet = sheet_of(records, planned({**long_job(), "id": "wwwwwwwwww-" * 5 + "wwwww"}, records))
    pages = printed(page, sheet, paper).pages
    assert len(pages) == len(sides_of(sheet))
    heights = page.evaluate("[...document.querySelectorAll('.side')].map(s => s.scrollHeight / 96 * 25.4)")
    assert max(heights) <= PAPERS[paper][1] - SPARE
    assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")
    bar = page.evaluate("document.querySelector('.rule').getBoundingClientRect().width / 96 * 25.4")
    assert bar == pytest.approx(100, abs=0.1)


def test_the_room_is_that_of_the_studios_own_paper() -> None:
    assert {paper: height for paper, (_, height) in PAPERS.items()} == pytest.approx(sizes.TALL)
    assert min(sizes.TALL.values()) == sizes.ROOM
    # The map takes what the taller paper has more.
    on_a4, on_letter = (sheet_of(on(paper), demo("tide-table")).map_tall for paper in ("A4", "Letter"))
    assert on_a4 - on_letter == pytest.approx(297 - 279.4, abs=1)


def test_a_long_order_goes_on_on_the_other_side_before_anything_else_and_says_so(page: Any) -> None:
    sheet = sheet_of(on("Letter"), planned(long_job()))
    sides = sides_of(sheet)
    pages = [squeezed(side.extract_text()) for side in printed(page, sheet, "Letter").pages]
    assert squeezed("The order continues on side 2.") in pages[0]
    assert pages[1].index(squeezed("Continued from side 1.")) < pages[1].index(squeezed("Before the client sits"))
    assert sides[1].rows and not sides[0].blocks
    rows = [row for side in sides for row in side.rows]
    assert [row.number for row in rows] == [row.number for row in sheet.rows]
    # Nothing of the back stands before the end of the order.
    last = max(side.number for side in sides if side.rows)
    assert all(not side.blocks for side in sides if side.number < last)


def test_a_sheet_that_fits_says_nothing_about_a_second_one() -> None:
    for job in JOBS:
        sheet = sheet_of(RECORDS, demo(job))
        if len(sides_of(sheet)) <= 2:
            said = sheet_html(sheet, AS_OF).split("<main>")[1].split("</main>")[0]
            assert "continues on" not in said and "sheet 2" not in said
