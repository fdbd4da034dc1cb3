"""Tables in a real browser: sorted by value with mouse and keyboard, readable on a phone, whole in print."""

from __future__ import annotations

import io
import re
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from tests.conftest import lead_to, resize, turn_to
from tests.planning.demo import RECORDS

# Each has a table of many columns that used to need scrolling.
WIDE = (
    "reference/dials.html",
    "reference/speeds.html",
    "reference/groupings.html",
    "reference/machines.html",
    "reference/scar-rules.html",
    "reference/screening.html",
    "reference/inks.html",
    "reference/sites.html",
    "reference/disinfectants.html",
    "reference/restock.html",
    "reference/cycles.html",
)


@pytest.fixture
def page(page: Any) -> Any:
    page.set_viewport_size({"width": 1440, "height": 900})
    return page


def column(page: Any, table: str, name: str) -> list[str]:
    found: list[str] = page.evaluate(
        """([table, name]) => {
            const found = [...document.querySelectorAll('table.held')].find(t => t.caption.textContent === table);
            const n = [...found.tHead.rows[0].cells].findIndex(c => c.textContent === name);
            return [...found.tBodies[0].rows].map(r => r.cells[n].textContent.trim());
        }""",
        [table, name],
    )
    return found


SHELF = "Needle groupings on the shelf"


def head(page: Any, name: str) -> Any:
    return page.locator("table.held", has_text=SHELF).first.locator("thead button", has_text=name)


def test_a_column_is_sorted_by_value_and_not_by_spelling(page: Any, site: Path) -> None:
    page.goto((site / "reference/groupings.html").as_uri())
    filed = column(page, SHELF, "Label")
    assert filed == [grouping.label for grouping in RECORDS.groupings.values()]
    head(page, "Computed width").click()
    widths = [float(text.split("\u00a0")[0].split("–")[0]) for text in column(page, SHELF, "Computed width")]
    assert widths == sorted(widths)
    assert column(page, SHELF, "Label") != filed
    page.goto((site / "reference/dials.html").as_uri())
    page.locator("table.held thead button", has_text="Set the dial to").first.click()
    machine = next(iter(RECORDS.machines.values()))
    dials = column(page, f"{machine.name}: what to set its dial to", "Set the dial to")
    assert dials == sorted(dials, key=lambda text: float(text.split("\u00a0")[0]))
    assert dials != sorted(dials)


def test_up_down_and_back_with_the_keyboard(page: Any, site: Path) -> None:
    page.goto((site / "reference/groupings.html").as_uri())
    filed = column(page, SHELF, "Needles")
    button = head(page, "Needles")
    button.focus()
    says = "e => e.closest('th').getAttribute('aria-sort')"
    page.keyboard.press("Enter")
    assert button.evaluate(says) == "ascending"
    assert column(page, SHELF, "Needles") == sorted(filed, key=int)
    page.keyboard.press("Space")
    assert button.evaluate(says) == "descending"
    assert column(page, SHELF, "Needles") == sorted(filed, key=int, reverse=True)
    page.keyboard.press("Enter")
    assert button.evaluate(says) is None
    assert column(page, SHELF, "Needles") == filed


def test_one_head_at_a_time_says_that_it_sorts(page: Any, site: Path) -> None:
    page.goto((site / "reference/groupings.html").as_uri())
    for name in ("Needles", "Hang-out"):
        head(page, name).click()
    assert page.locator("th[aria-sort]").all_inner_texts() == ["Hang-out"]


def test_what_has_no_value_stays_behind_what_has(page: Any, site: Path) -> None:
    page.goto((site / "reference/groupings.html").as_uri())
    unmeasured = sum(grouping.fresh_line is None for grouping in RECORDS.groupings.values())
    assert 0 < unmeasured < len(RECORDS.groupings)
    for _ in ("up", "down"):
        head(page, "Measured fresh line").click()
        assert {"not measured – measure it"} == set(column(page, SHELF, "Measured fresh line")[-unmeasured:])


def test_without_the_script_nothing_is_lost(still: Any, site: Path) -> None:
    turn_to(still, site / "reference/groupings.html")
    assert still.locator("thead button, label.sort").count() == 0
    assert still.locator(f"table:has-text('{SHELF}') tbody tr").first.is_visible()


_SIDEWAYS = (
    "[...document.querySelectorAll('.wide')].filter(e => e.scrollWidth > e.clientWidth + 1).map(e => e.ariaLabel)"
)


def test_no_table_scrolls_sideways_and_on_a_phone_each_value_stands_beside_its_column(page: Any, site: Path) -> None:
    wrong = []
    for name in WIDE:
        page.set_viewport_size({"width": 1440, "height": 900})
        lead_to(page, site / name)
        wrong += [(name, 1440, table) for table in page.evaluate(_SIDEWAYS)]
        resize(page, 360, 800)
        cell = page.locator("table.blocks tbody td:not(:empty)").first
        label = cell.get_attribute("data-label")
        said = cell.evaluate("e => getComputedStyle(e, '::before').content")
        if not (label and (label in said or said == "attr(data-label)")):
            wrong.append((name, 360, "a value without its column"))
        wrong += [(name, 360, table) for table in page.evaluate(_SIDEWAYS)]
    assert wrong == []


def test_a_phone_sorts_by_a_list_of_choices(page: Any, site: Path) -> None:
    page.set_viewport_size({"width": 360, "height": 800})
    page.goto((site / "reference/groupings.html").as_uri())
    page.locator("label.sort select").first.select_option(label="Needles, downwards")
    needles = [int(text) for text in column(page, SHELF, "Needles")]
    assert needles == sorted(needles, reverse=True)


def test_the_link_to_a_row_is_seen_when_it_has_the_focus(page: Any, site: Path) -> None:
    page.goto((site / "reference/groupings.html").as_uri())
    link = page.locator("#groupings-1207RL a.here")
    assert link.evaluate("e => getComputedStyle(e).opacity") == "0"
    link.focus()
    assert link.evaluate("e => getComputedStyle(e).opacity") == "1"
    page.keyboard.press("Enter")
    assert page.url.endswith("#groupings-1207RL")


def test_heads_are_repeated_on_every_sheet_of_paper(page: Any, site: Path) -> None:
    page.goto((site / "reference/conversions.html").as_uri())
    page.emulate_media(media="print")
    assert page.locator("table.held thead").first.evaluate("e => getComputedStyle(e).display") == "table-header-group"
    page.goto((site / "reference/dials.html").as_uri())
    sheets = PdfReader(io.BytesIO(page.pdf(format="A4", landscape=True))).pages
    printed = ["".join(sheet.extract_text().split()) for sheet in sheets]
    with_rows = [words for words in printed if re.search(r"\((RL|RS|M2|F)\)\d+–\d+", words)]
    assert len(with_rows) > 1
    for words in with_rows:
        assert "Setthedialto" in words
