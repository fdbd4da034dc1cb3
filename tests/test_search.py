"""What somebody types into the search, or at the page of stamps, with a glove off and in their own words."""

from __future__ import annotations

import io
import json
import re
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from generator.press.manual.search_weight import search_weight
from tests.conftest import searched

ASKED = {
    "gloves": ("procedures/hands-and-gloves",),
    "needle stick": ("procedures/needlestick",),
    "bleach": ("procedures/cleaning-and-disinfection", "reference/disinfectants"),
    "touch up": ("procedures/follow-up",),
    "faint": ("procedures/comfort-and-breaks",),
    "hang-out packing": ("procedures/shading-and-packing",),
    "hang out packing": ("procedures/shading-and-packing",),
    "scar ten months": ("procedures/scars", "reference/scar-rules"),
    "1207RL": ("reference/dials", "reference/groupings"),
    "blood on the floor": ("procedures/spill",),
    "clock tower": ("jobs/clock-tower",),
}


def test_the_search_shows_the_page_that_helps_among_the_first_three(page: Any, site: Path) -> None:
    page.goto((site / "index.html").as_uri())
    wrong = {}
    for words, helping in ASKED.items():
        # Sections of one page stand together under it.
        pages = dict.fromkeys(re.sub(r"^.*/site/|\.html.*$", "", href) for href in searched(page, words))
        first = list(pages)[:3]
        if not set(first) & set(helping):
            wrong[words] = first
    assert wrong == {}


def test_what_stands_on_many_pages_is_searched_on_one(site: Path) -> None:
    """The index is made anew on every page that is opened: what is in it twice, a reader waits for twice."""
    docs = json.loads((site / "search" / "search_index.json").read_text("utf-8"))["docs"]
    found: dict[str, list[str]] = {}
    for doc in docs:
        if len(doc["text"]) > 200:
            found.setdefault(doc["text"], []).append(doc["location"])
    assert [places for places in found.values() if len(places) > 2] == []
    assert any(doc["location"] == "reference/records/jobs.html#writing" and len(doc["text"]) > 500 for doc in docs)


def test_what_is_done_at_the_chair_weighs_more_than_what_explains_it() -> None:
    weights = [
        search_weight(page)
        for page in (
            "procedures/spill.md",
            "reference/dials.md",
            "reference/people.md",
            "formulas/palette.md",
        )
    ]
    assert weights == sorted(weights, reverse=True) and len(set(weights)) == len(weights)
    assert search_weight("reference/records/scar-rules.md") == search_weight("reference/diagnostics.md") < 1


def _looked_up(page: Any, text: str) -> str:
    page.fill("#stamp-text", text)
    page.click("#stamp-form button")
    return str(page.inner_text("#stamp-answer"))


def test_a_stamp_is_read_as_it_stands_on_the_paper(page: Any, site: Path) -> None:
    page.goto((site / "sheets" / "gear-band.html").as_uri())
    foot, turn = page.inner_text(".whose"), page.inner_text(".turn >> nth=0")
    stamp = re.search(r"stamp ([0-9a-f]{8})", foot)[1]  # type: ignore[index]
    other = ("1" if stamp[0] == "0" else "0") + stamp[1:]
    page.goto((site / "stamp.html").as_uri())
    typed = (f"gear-band · stamp {stamp}", f"Gear-band {stamp}", stamp, stamp.upper(), f"stamp {stamp}")
    for text in (foot, turn, *typed):
        assert _looked_up(page, text) == "Current: this is the latest sheet of gear-band.", text
    assert _looked_up(page, f"gear-band · stamp {other}").startswith("Outdated")
    assert _looked_up(page, other).startswith("Unknown stamp: nothing of today carries it. Keep the paper")
    assert _looked_up(page, f"nobodys-job · stamp {stamp}").startswith("Unknown job: nobodys-job")
    assert _looked_up(page, "gear-band").startswith("Not a stamp")


def test_a_phone_folds_the_lists_of_the_roles_and_opens_the_one_that_is_linked_into(page: Any, site: Path) -> None:
    start = (site / "start-here.html").as_uri()
    page.goto(start)
    rows = page.locator("article tbody tr")
    assert rows.first.is_visible()
    into = rows.last.get_attribute("id")
    page.set_viewport_size({"width": 360, "height": 800})
    page.goto(start)
    page.reload()
    assert not rows.first.is_visible()
    page.goto("about:blank")
    page.goto(f"{start}#{into}")
    assert rows.last.is_visible() and not rows.first.is_visible()


@pytest.mark.parametrize(("name", "most"), [("reference/scar-rules", 4), ("reference/dials", 5)])
def test_a_table_of_many_columns_is_printed_across_the_long_side(page: Any, site: Path, name: str, most: int) -> None:
    page.goto((site / f"{name}.html").as_uri())
    paper = PdfReader(io.BytesIO(page.pdf(prefer_css_page_size=True))).pages
    assert len(paper) <= most
    assert all(side.mediabox.width > side.mediabox.height for side in paper)
    page.emulate_media(media="print")
    page.set_viewport_size({"width": 1020, "height": 700})
    over = page.evaluate(
        """() => [...document.querySelectorAll("table.broad thead th")].filter(
            head => head.scrollWidth > head.clientWidth + 1).map(head => head.textContent)"""
    )
    assert over == []


def test_a_band_says_that_its_stencil_lies_on_the_template_and_its_map_has_room(page: Any, site: Path) -> None:
    page.set_viewport_size({"width": 1200, "height": 900})
    page.goto((site / "sheets" / "gear-band.html").as_uri())
    assert "Stencil: on the arc template, printed at 100\u00a0%" in page.inner_text(".block")
    drawn = page.locator(".block svg.map >> visible=true").bounding_box()
    assert drawn["width"] > 100 / 25.4 * 96
    page.goto((site / "sheets" / "clock-tower.html").as_uri())
    assert "arc template" not in page.inner_text("main")
