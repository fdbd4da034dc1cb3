"""The grid of the sheet: what stays in the hand is not said again, a scar has its hatch, the map takes what is free."""

from __future__ import annotations

import dataclasses
import datetime
import io
from typing import Any

import pytest
from pypdf import PdfReader

from generator.planning.findings.states import State
from generator.press.drawings.map import LEAST_ON_SHEET, ON_SHEET, is_flat
from generator.press.sheet import sizes
from generator.press.sheet.contents import sheet_of
from generator.press.sheet.printing import job_html, sheet_html
from generator.press.sheet.rows import OrderRow, in_hand
from generator.press.sheet.sides import air_of, free_on_front, sides_of
from generator.press.sheet.view import Sheet
from tests.planning.demo import JOBS, RECORDS, Written, demo, part, planned, simple

AS_OF = datetime.date(2027, 5, 1)
COLOURS = ("black-shade", "wash-mid", "wash-light", "plum", "rust", "amber", "sand", "white")


def thirty_rows() -> Written:
    """Three parts with two lines and eight colours each."""

    def one(name: str, top: int, **changes: Any) -> Written:
        lines = [{"needle": needle, "length": "80 mm"} for needle in ("1207RL", "1003RL")]
        colours = [{"ink": ink, "area": "1.2 cm²"} for ink in COLOURS]
        return part(name, (10, top, 80, 40), lines=lines, colours=colours, **changes)

    return simple(
        id="weather-mast",
        title="A weather mast with three instruments",
        place="upper-arm-outer",
        side="left",
        girth={"top": "330 mm", "bottom": "300 mm"},
        size="100 mm x 150 mm",
        parts=[one("vane", 8), one("cups", 55, focal="yes"), one("gauge", 102)],
    )


@pytest.fixture(scope="module")
def thirty() -> Sheet:
    return thirty_on("A4")


def thirty_on(paper: str) -> Sheet:
    records = dataclasses.replace(RECORDS, studio=RECORDS.studio.model_copy(update={"paper": paper}))
    return sheet_of(records, planned(thirty_rows()))


# In mm: width and height of the paper within the margins.
PAPERS = {"A4": (210 - 6 - 11, 297 - 18), "Letter": (215.9 - 6 - 11, 279.4 - 18)}


def test_thirty_rows_over_three_parts_are_one_paper(page: Any) -> None:
    """In DejaVu Sans, the widest face that a sheet falls back to, as Chromium sets it."""
    for paper, (width, height) in PAPERS.items():
        made = thirty_on(paper)
        steps = [row for row in made.rows if not row.is_break]
        assert len(steps) == 30 and len({row.part for row in steps}) == 3
        sides = [side for side in sides_of(made) if any(block != "notes" for block in side.blocks) or side.rows]
        assert len(sides) == 2 and sides[1].rows
        html = sheet_html(dataclasses.replace(made, notes=()), AS_OF).replace(
            "Verdana, Arial, sans-serif", "sans-serif"
        )
        page.set_viewport_size({"width": round(width / 25.4 * 96), "height": round(height / 25.4 * 96)})
        page.set_content(html)
        page.emulate_media(media="print")
        assert len(PdfReader(io.BytesIO(page.pdf(prefer_css_page_size=True))).pages) == 2, paper
        heights = page.evaluate("[...document.querySelectorAll('.side')].map(s => s.scrollHeight / 96 * 25.4)")
        assert max(heights) <= height - sizes.SPARE, paper
        assert page.evaluate("document.querySelectorAll('.order tbody th').length") == 30
        tall = page.evaluate("document.querySelector('.on-paper svg.map').getBoundingClientRect().height / 96 * 25.4")
        assert tall >= LEAST_ON_SHEET - 0.5, paper


def test_the_map_is_sixty_millimetres_tall_at_least_and_takes_what_the_order_leaves() -> None:
    wrong = []
    for job in JOBS:
        sheet = sheet_of(RECORDS, demo(job))
        (_, width, height), *_ = sheet.geometry
        # A ribbon takes the whole width, and so does what would need more of it to be as tall.
        wide = is_flat(width, height) or sheet.map_wide > sizes.WIDTH - 1  # type: ignore[arg-type]
        if sheet.map_tall < LEAST_ON_SHEET - 0.5 and not wide:
            wrong.append((job, "small", sheet.map_tall))
        left = free_on_front(sheet) - air_of(sheet.rows)
        full = sheet.map_wide > ON_SHEET.widest - 4 or (sheet.map_over and wide)
        if left > 3 and not full:
            wrong.append((job, "left", left))
    assert wrong == []


def _row(number: int, **changes: Any) -> OrderRow:
    row = next(row for row in sheet_of(RECORDS, demo("keepers-lantern")).rows if not row.is_break)
    return dataclasses.replace(row, number=str(number), **changes)


def test_a_wedge_marks_a_change_of_machine_cartridge_or_stroke_and_nothing_else() -> None:
    rows = (
        _row(1),
        _row(2, ink="Amber"),
        _row(3, dial="95\u00a0Hz"),
        _row(4, dial="95\u00a0Hz", hang_out="2\u00a0mm"),
        _row(5, dial="95\u00a0Hz", hang_out="2\u00a0mm", needle="1215CM"),
        _row(6, dial="95\u00a0Hz", hang_out="2\u00a0mm", needle="1215CM", stroke="2.5\u00a0mm"),
        _row(7, dial="95\u00a0Hz", hang_out="2\u00a0mm", needle="1215CM", stroke="2.5\u00a0mm", machine="Lathe"),
    )
    hands = [row.in_hand for row in in_hand(rows)]
    assert [hand.machine for hand in hands] == ["new", "stays", "stays", "stays", "stays", "new", "new"]
    # Another machine has its own cartridge in it; one that changes its stroke keeps it.
    assert [hand.needle for hand in hands] == ["new", "stays", "stays", "again", "new", "stays", "new"]
    assert [hand.other for hand in hands] == [True, False, False, False, False, False, True]
    assert [hand.stroke for hand in hands] == [True, False, False, False, False, True, True]
    assert [hand.hang_out for hand in hands] == [True, False, False, True, True, False, True]
    # The dial is on every row; where it changes, also with machine or stroke, it is bold.
    assert [hand.dial for hand in hands] == [True, False, True, False, False, True, True]


def test_after_a_break_and_on_a_new_side_what_is_in_the_hand_is_named_without_a_wedge() -> None:
    pause = next(row for row in sheet_of(RECORDS, demo("keepers-lantern")).rows if row.is_break)
    after = [row.in_hand for row in in_hand((_row(1), pause, _row(2), _row(3))) if not row.is_break]
    assert [(hand.machine, hand.needle) for hand in after] == [("new", "new"), ("again", "again"), ("stays", "stays")]
    turned = [row.in_hand for row in in_hand((_row(2), _row(3)), _row(1))]
    assert [(hand.machine, hand.dial) for hand in turned] == [("again", False), ("stays", False)]


def test_every_row_shows_its_dial_and_what_it_changes_on_paper(page: Any, thirty: Sheet) -> None:
    page.set_content(sheet_html(thirty, AS_OF))
    page.emulate_media(media="print")
    dials = page.evaluate("[...document.querySelectorAll('.order td.dial')].map(e => [e.innerText, e.className])")
    rows = [row for side in sides_of(thirty) for row in side.rows if not row.is_break]
    assert [said for said, _ in dials] == [row.dial for row in rows]
    assert ["same" in name for _, name in dials] == [not row.in_hand.dial for row in rows]
    for name in ("machine", "needle"):
        shown = page.evaluate(f"""[...document.querySelectorAll('.order tbody td.{name}')].map(cell => [
            getComputedStyle(cell, '::after').content !== 'none',
            cell.firstElementChild.getBoundingClientRect().width > 4])""")
        wanted = [getattr(row.in_hand, name) for row in rows]
        assert shown == [[change == "new", change != "stays"] for change in wanted], name


def test_a_row_over_a_scar_carries_its_hatch_and_no_other_does() -> None:
    plan = demo("keepers-lantern")
    sheet = sheet_of(RECORDS, plan)
    (crossed,) = {part for read in plan.scars for part in read.crossed_by}
    marked = [bool(row.scars) for row in sheet.rows if not row.is_break]
    assert marked == [row.part.endswith(f" {crossed}") for row in sheet.rows if not row.is_break]
    # Its words stand beside it only where the scar is gone over less often, or where there are several.
    said = {row.scars: row.scarred for row in sheet.rows if row.scars}
    assert said == {"over\u00a0s1": "", "over\u00a0s1\u00a02×": "over\u00a0s1\u00a02×"}
    html = sheet_html(sheet, AS_OF)
    table = html[html.index('<table class="order"') : html.index("</table>")]
    assert table.count('class="hatched"') == sum(marked) > 0 and 'aria-label="over\u00a0s1' in table


def test_how_to_stretch_is_said_once_for_each_technique_of_a_side(thirty: Sheet) -> None:
    for side in sides_of(thirty):
        techniques = [row.technique.split(",")[0] for row in side.rows if not row.is_break]
        assert [name for name, _ in side.under] == list(dict.fromkeys(techniques))
    html = sheet_html(sheet_of(RECORDS, demo("keepers-lantern")), AS_OF)
    assert html.count("Hard and flat, three ways") == 1


def test_each_state_has_an_outline_of_its_own() -> None:
    """Told apart without colour, and without reading: frame and sign are both another one."""
    assert set(sizes.FRAMES) == {state.mark for state in State}
    assert len({frame.css for frame in sizes.FRAMES.values()}) == len(State)
    drawn = {}
    sheet = sheet_of(RECORDS, demo("stairwell"))
    for state in State:
        html = sheet_html(dataclasses.replace(sheet, mark=state.mark), AS_OF)
        assert f'class="verdict {state.mark}"' in html
        drawn[html[html.index('<svg class="sign"') :].split("</svg>")[0]] = state
    assert len(drawn) == len(State)
    # The job's own page shows the same.
    for job in ("stairwell", "keepers-lantern", "diving-bell"):
        plan = demo(job)
        assert f'class="verdict {plan.state.mark}"' in job_html(RECORDS, plan, sheet_of(RECORDS, plan), AS_OF)


def test_what_may_not_go_ahead_has_no_next_step_and_nothing_to_tick() -> None:
    for job in JOBS:
        plan = demo(job)
        html = sheet_html(sheet_of(RECORDS, plan), AS_OF)
        goes = plan.work is not None and plan.job.finished is None
        assert ('<section class="now"' in html) == goes, job
