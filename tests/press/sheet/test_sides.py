"""The sheet on paper: every side has room to spare, nothing is cut, and a long order says where it continues."""

from __future__ import annotations

import dataclasses
import datetime
from pathlib import Path
from typing import Any

import pytest

from generator.press.drawings.map import ON_SHEET, ON_SHEET_FLAT
from generator.press.sheet import printing, sizes
from generator.press.sheet.contents import sheet_of
from generator.press.sheet.printing import sheet_html
from generator.press.sheet.sides import sides_of
from generator.press.sheet.sizes import SPARE
from generator.press.sheet.stamp import stamp_of
from generator.press.sheet.view import Sheet
from generator.press.words.shared import Shared
from generator.records.families import Records
from tests.planning.demo import JOBS, RECORDS, Written, demo, part, planned, scar, simple
from tests.printed import sides_read

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
_LINES = """[...document.querySelectorAll('tbody .step')].flatMap(cell => {
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
# Heights of the sides in mm, rows of each date, whether all is within the window, sizes in points, lengths of lines.
_FOUND = f"""names => {{ return {{
    heights: [...document.querySelectorAll('.side')].map(s => s.scrollHeight / 96 * 25.4),
    dates: [...document.querySelectorAll('.whole')].map(e => e.getClientRects().length),
    within: document.documentElement.scrollWidth <= window.innerWidth,
    sizes: Object.fromEntries(names.map(name => [name, [...document.querySelectorAll(name)].map(
        e => parseFloat(getComputedStyle(e).fontSize) * 0.75)])),
    lines: {_LINES},
}} }}"""


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


def many_rows(rows: int) -> list[Written]:
    """Two parts with so many rows."""
    inks = ("black-shade", "wash-mid", "wash-light", "plum", "rust", "amber", "sand", "white")
    lines = [{"needle": needle, "length": "80 mm"} for needle in ("1207RL", "1003RL", "1205RL")]
    colours = [{"ink": ink, "area": "1.2 cm²"} for ink in inks]
    places = [(5, 5, 40, 40), (55, 55, 40, 40)]
    each = [rows // 2, rows - rows // 2]
    return [
        part(f"side-{at}", place, lines=lines[: 1 + (many > 6)], colours=colours[: many - 1 - (many > 6)])
        for at, (place, many) in enumerate(zip(places, each, strict=True))
    ]


LONG = "-".join(["a-name-as-long"] * 3)
# Jobs of other lengths than those of the demo, as what they have that others do not.
OF_OTHER_LENGTHS: dict[str, Written] = {
    "three-rows": {"parts": many_rows(4)},
    "long-title": {"title": "W " * 39 + "W", "parts": many_rows(6)},
    LONG: {
        "parts": [part(f"{LONG}-{at}", (5 + 50 * at, 5, 40, 40)) for at in range(2)],
        "note": "asks that the lamp be switched off at the end of the second hour, " * 2,
    },
    "many-findings": {
        "allergies": ["latex", "fragrance", "adhesive"],
        "scars": [
            scar(id=f"s{at}", **{"from": [f"{5 + 8 * at} mm", "25 mm"], "to": [f"{9 + 8 * at} mm", "60 mm"]})
            for at in range(5)
        ],
    },
    "tall": {"size": "40 mm x 200 mm", "parts": [part("mast", (5, 5, 30, 190))]},
    "not-asked": {"screening": None},
    "eighteen-rows": {"parts": many_rows(18)},
    "twenty-rows": {"parts": many_rows(20), "moles": [{"at": [f"{9 + 12 * n} mm", "50 mm"]} for n in range(4)]},
}


def printed(page: Any, sheet: Sheet, paper: str) -> list[str]:
    """The text of each side."""
    width, height = PAPERS[paper]
    page.set_viewport_size({"width": round(width / 25.4 * 96), "height": round(height / 25.4 * 96)})
    assert sheet.paper == paper
    page.set_content(sheet_html(sheet, AS_OF))
    page.emulate_media(media="print")
    return sides_read(page.pdf(prefer_css_page_size=True))


def _as_wide_as_it_may(sheet: Sheet) -> bool:
    """Whether the map has all the width that the paper, or the words beside it, leave it."""
    return sheet.map_wide > (ON_SHEET_FLAT if sheet.map_over else ON_SHEET).widest - 4


def squeezed(text: str) -> str:
    return "".join(text.split())


def test_jobs_of_other_lengths_fill_side_one_and_no_side_spills(page: Any) -> None:
    page.emulate_media(media="print")
    wrong = []
    for name, changes in OF_OTHER_LENGTHS.items():
        plan = planned(simple(**{"id": name, **changes}))
        for paper, (width, height) in PAPERS.items():
            page.set_viewport_size({"width": round(width / 25.4 * 96), "height": round(height / 25.4 * 96)})
            sheet = sheet_of(on(paper), plan)
            page.set_content(sheet_html(sheet, AS_OF))
            heights = page.evaluate("[...document.querySelectorAll('.side')].map(s => s.scrollHeight / 96 * 25.4)")
            left = height - heights[0]
            if max(heights) > height - SPARE or not (left <= MOST_LEFT or _as_wide_as_it_may(sheet)):
                wrong.append((name, paper, [round(height - side, 1) for side in heights]))
    assert wrong == []


def test_in_a_wider_font_a_side_may_spill_but_nothing_is_cut_off(page: Any) -> None:
    """Another machine has other letters: a little wider, all have room; much wider, they take a page more."""
    sheet = sheet_of(on("A4"), demo("keepers-lantern"))
    asked = {"a little": (0.006, len(sides_of(sheet))), "much": (0.05, len(sides_of(sheet)) + 1)}
    words = {word for row in sheet.rows for word in f"{row.part} {row.technique} {row.ink}".split()}
    words |= {word for pair in (*sheet.head, *sheet.tray, *sheet.hands_off) for word in pair.value.split()}
    for wider, (spaced, most) in asked.items():
        printed(page, sheet, "A4")
        page.add_style_tag(content=f"html {{ letter-spacing: {spaced}em; }}")
        pages = sides_read(page.pdf(prefer_css_page_size=True))
        said = squeezed("".join(pages))
        assert [word for word in words if squeezed(word) not in said] == [], wider
        assert len(pages) <= most, wider
        assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth"), wider


@pytest.mark.parametrize("job", [*JOBS, "long-frieze"])
def test_each_side_has_room_for_a_line_more_and_no_text_is_under_its_minimum(page: Any, job: str) -> None:
    plan = planned(long_job()) if job == "long-frieze" else demo(job)
    several = plan.work is not None and plan.work.timetable.sittings.high > 1
    for paper in PAPERS:
        sheet = sheet_of(on(paper), plan)
        sides = sides_of(sheet)
        assert len(sides) <= (4 if several or sheet.more_to_tick or job == "long-frieze" else 2)
        pages = printed(page, sheet, paper)
        assert len(pages) == len(sides), paper
        found = page.evaluate(_FOUND, list(LEAST))
        heights = found["heights"]
        assert max(heights) <= PAPERS[paper][1] - SPARE, paper
        # On side 1 nothing is left that the map could use: the widest piece and a row that turns the paper leave more.
        left = PAPERS[paper][1] - heights[0]
        assert left <= MOST_LEFT or _as_wide_as_it_may(sheet) or sides[0].order_on, (paper, left)
        assert set(found["dates"]) == ({1} if sheet.goes_ahead else set()), "a date is divided"
        # Nothing stands over the edge of the paper either.
        assert found["within"], paper
        stamp = stamp_of(sheet)
        texts = [squeezed(side) for side in pages]
        for number, text in enumerate(texts, 1):
            assert squeezed(f"{sheet.job} · stamp {stamp} · side {number} of {len(sides)}") in text, paper
        words = "".join(texts)
        assert [(paper, ink.name) for ink in sheet.inks if squeezed(ink.name) not in words] == []
        small = {name for name, sizes in found["sizes"].items() if sizes and min(sizes) < LEAST[name] - 0.01}
        assert small == set(), paper
        assert max(found["lines"], default=0) <= 45, paper


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
    styled = Shared(("sheet", "drawings", "words"), "sheet.css.j2", sizes=sizes, widest=sizes.WIDEST)
    monkeypatch.setattr(printing, "_SHEET", styled)
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
    pages = printed(page, sheet, paper)
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
    pages = printed(page, sheet, paper)
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
    pages = [squeezed(side) for side in printed(page, sheet, "Letter")]
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
