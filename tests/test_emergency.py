"""What somebody in an emergency sees first: from the front page to a box that holds the first minute's steps."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest

from generator.press.manual.procedure_head import with_head
from generator.press.manual.procedures import procedure_page
from tests.conftest import ROOT, lead_to, turn_to
from tests.planning.demo import RECORDS
from tests.press.manual.test_procedures import AS_OF, WHOLE, listed

HANDBOOK = ROOT / "handbook"
_BOX = "!!! danger first-minute"
# Each way in of the front page's emergency box.
_FRONT = (HANDBOOK / "index.md").read_text("utf-8").partition('!!! danger "Emergency"')[2].partition("\n## ")[0]
WAYS_IN = re.findall(r"\]\((procedures/[\w-]+)\.md", _FRONT)
SCREENS = [(360, 640), (1280, 800)]
MOST_WORDS = 8


def test_the_front_page_leads_to_each_emergency() -> None:
    assert {
        "procedures/needlestick",
        "procedures/spill",
        "procedures/comfort-and-breaks",
        "procedures/complaints-and-reactions",
        "procedures/when-to-stop",
    } == set(WAYS_IN)


@pytest.mark.parametrize(("width", "height"), SCREENS)
def test_a_link_on_the_front_page_shows_the_whole_box_on_the_first_screen(
    page: Any, site: Path, width: int, height: int
) -> None:
    page.set_viewport_size({"width": width, "height": height})
    page.goto((site / "index.html").as_uri())
    links = page.locator(".admonition.danger a")
    addresses = [link.get_attribute("href") for link in links.all()]
    assert addresses == [f"{way}.html" for way in WAYS_IN]
    for way in range(len(WAYS_IN)):
        where = links.nth(way).bounding_box()
        assert where["y"] + where["height"] <= height
        links.nth(way).click(trial=True)
    links.last.click()
    page.wait_for_url(f"**/{addresses[-1]}")
    for way in reversed(WAYS_IN):
        lead_to(page, site / f"{way}.html")
        page.wait_for_selector(".first-minute")
        assert page.evaluate("scrollY") == 0
        box = page.locator(".first-minute").bounding_box()
        assert box["y"] >= 0 and box["y"] + box["height"] <= height, (way, box)
        assert box["x"] >= 0 and box["x"] + box["width"] <= width, (way, box)


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_box_is_red_and_first_on_its_page(page: Any, site: Path, scheme: str) -> None:
    page.emulate_media(color_scheme=scheme)
    for way in WAYS_IN:
        lead_to(page, site / f"{way}.html")
        order = page.evaluate("[...document.querySelector('article').children].map(e => e.tagName + '.' + e.className)")
        assert [name for name in order if not name.startswith(("A.", "BUTTON."))][:2] == [
            "H1.",
            "DIV.admonition danger first-minute",
        ], way
        looked_after = [n for n, name in enumerate(order) if "looked-after" in name]
        assert looked_after and looked_after[0] > order.index("DIV.admonition danger first-minute"), way
        colour = page.evaluate("getComputedStyle(document.querySelector('.first-minute')).borderTopColor")
        red, green, blue = map(int, re.findall(r"\d+", colour)[:3])
        assert red > 1.3 * green and red > 1.3 * blue, way


@pytest.mark.parametrize("way", WAYS_IN)
def test_each_instruction_is_short_and_its_steps_are_in_order(still: Any, site: Path, way: str) -> None:
    turn_to(still, site / f"{way}.html")
    steps = still.locator(".first-minute ol > li").all_inner_texts()
    assert 4 <= len(steps) <= 8
    for step in steps:
        assert len(step.replace("\u00a0", " ").split()) <= MOST_WORDS, step
    assert still.locator(".first-minute p:not(.admonition-title)").count() == 0


def test_the_box_is_whole_on_the_first_sheet_of_paper(still: Any, site: Path) -> None:
    # A4 less margins of 14 mm, at 96 px to the inch (W3C, CSS Values and Units).
    height = (297 - 2 * 14) / 25.4 * 96
    still.set_viewport_size({"width": int((210 - 2 * 14) / 25.4 * 96), "height": int(height)})
    still.emulate_media(media="print")
    for way in WAYS_IN:
        turn_to(still, site / f"{way}.html")
        box = still.locator(".first-minute").bounding_box()
        assert box["y"] + box["height"] <= height / 2, way


def test_the_needlestick_begins_with_gloves_off(still: Any, site: Path) -> None:
    turn_to(still, site / "procedures/needlestick.html")
    assert still.locator(".first-minute li").first.inner_text() == "Stop. Gloves off."


def test_every_procedure_with_a_box_is_a_way_in_of_the_front_page() -> None:
    with_box = {
        f"procedures/{path.stem}" for path in (HANDBOOK / "procedures").glob("*.md") if _BOX in path.read_text("utf-8")
    }
    assert with_box == set(WAYS_IN)


def test_a_spill_is_cleaned_with_the_gloves_that_the_page_on_gloves_asks_for() -> None:
    gloves = (HANDBOOK / "procedures" / "hands-and-gloves.md").read_text("utf-8")
    (asked,) = re.findall(r"- For [^.:]*\bbleach\b.*?(?=\n- |\n\n)", gloves, re.DOTALL)
    assert "household or chemical" in asked and "Thin ones let it through" in " ".join(asked.split())
    spill = " ".join((HANDBOOK / "procedures" / "spill.md").read_text("utf-8").split())
    assert "hands-and-gloves.md#which-gloves" in spill
    assert "thick gloves on" in spill.partition("**Purpose.**")[0]
    assert "the thick gloves" in spill.partition("## Steps")[2].partition(" 4. ")[0]
    for step in RECORDS.hygiene.values():
        if step.phase == "spill" and re.search("put on .*gloves", step.do):
            assert "thick gloves" in step.do
    for product in RECORDS.disinfectants.values():
        if product.id.startswith("chlorine") and "gloves" in product.caution:
            assert "thick gloves" in product.caution


class TestTheHeadUnderTheBox:
    BOX = f'{_BOX} "At once"\n\n    1. Stop.\n\n    2. Call.\n'

    def head(self, text: str) -> str:
        records = listed(text)
        return with_head(text, records.procedures["lining"], procedure_page(text, "x.md", "lining"), records, AS_OF)

    @pytest.mark.parametrize("between", ["\n", "\n\n", ""])
    def test_owner_and_dates_come_after_it(self, between: str) -> None:
        made = self.head(WHOLE.replace("# Lining\n\n", f"# Lining\n{between}{self.BOX}\n", 1))
        assert made.index("2. Call.") < made.index("looked-after") < made.index("**Purpose.**")

    def test_another_box_or_one_further_down_does_not_move_them(self) -> None:
        other = self.head(WHOLE.replace("# Lining\n\n", '# Lining\n\n!!! note "Read"\n\n    Slowly.\n\n', 1))
        assert other.index("looked-after") < other.index("!!! note")
        below = self.head(WHOLE.replace("## Steps\n", f"{self.BOX}\n## Steps\n", 1))
        assert below.index("looked-after") < below.index("**Purpose.**") < below.index(_BOX)

    def test_nothing_of_the_text_is_lost(self) -> None:
        text = WHOLE.replace("# Lining\n\n", f"# Lining\n\n{self.BOX}\n", 1)
        made = self.head(text)
        rest = re.sub(r'<p class="looked-after">.*</p>', "", made)
        assert rest.split() == text.split()
