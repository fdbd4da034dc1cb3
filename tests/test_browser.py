"""The site in a real browser, opened from the folder as a person opens it."""

from __future__ import annotations

import io
import json
import re
import subprocess
import sys
import urllib.parse
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from tests.conftest import ROOT, lead_to, resize, searched, violations
from tests.printed import sides_read

PAGES = (
    "index.html",
    "reference/groupings.html",
    "reference/speeds.html",
    "jobs.html",
    "sheets/keepers-lantern.html",
    "sheets/orrery.html",
    "sheets/keepers-lantern--explained.html",
    "reference/swapping.html",
    "reference/machines.html",
    "reference/inks.html",
    "reference/records.html",
    "formulas/motion.html",
    "procedures/lining.html",
    "jobs/keepers-lantern.html",
    "jobs/stairwell.html",
    "reference/dials.html",
    "reference/conversions.html",
    "reference/scar-rules.html",
    "reference/disinfectants.html",
    "reference/restock.html",
    "reference/studio.html",
    "reference/sources.html",
    "reference/diagnostics.html",
    "reference/learning.html",
    "formulas/index.html",
    "procedures/index.html",
    "stamp.html",
    "lots.html",
    "lots/ink-black-line--lb7031.html",
    "lots/cartridge-1207RL.html",
    "start-here.html",
    "reference/training.html",
    "reference/reviews.html",
    "sign-off/artist.html",
)
A4 = (210 / 25.4 * 72, 297 / 25.4 * 72)


def test_the_search_answers_without_a_server(page: Any, site: Path) -> None:
    page.goto((site / "index.html").as_uri())
    page.locator("input[name=query]").first.click()
    page.keyboard.type("hang-out", delay=20)
    page.wait_for_selector(".md-search-result__item", timeout=15000)
    page.locator(".md-search-result__item a").first.click()
    page.wait_for_url(re.compile(r"\.html\?h="))
    assert Path(urllib.parse.urlparse(page.url).path).is_file()


def test_the_search_finds_a_lot_and_the_row_of_a_record(page: Any, site: Path) -> None:
    page.goto((site / "index.html").as_uri())
    for words, leads_to in (("LB-7031", "lots.html"), ("metronome dial", "reference/dials.html")):
        found = searched(page, words)
        assert [href for href in found if leads_to in href], (words, found)


# Rows and entries that differ in their words, and in the values that they are sorted by, are looked at once: of those
# that are alike in markup, styles and in which attributes are filled, the first stays.
ALIKE_ONCE = """() => { const seen = new Map(); let taken = 0;
    for (const one of document.querySelectorAll('article tbody > tr, article li, main tbody > tr, main li')) {
        const list = one.parentElement;
        if (!seen.has(list)) seen.set(list, new Set());
        const shape = one.outerHTML.replace(/>[^<]+/g, '>#')
            .replace(/ (id|href|for|d|x|y|points|data-value|aria-label|title|headers|aria-labelledby)="[^"]+"/g,
                ' $1="#"');
        if (seen.get(list).has(shape)) { one.remove(); taken += 1; } else seen.get(list).add(shape);
    } return taken; }"""


# A list that the script folds on a phone: what is looked at on a desk has to be shown there.
FOLDED = re.compile(r'<details class="[^"]*\bhow\b[^"]*" open')
SCRIPT = re.compile(r"<script.*?</script>", re.DOTALL)


def test_no_accessibility_violation_of_level_a_or_aa_no_phone_scrolls_sideways_and_nobody_else_is_asked(
    page: Any, site: Path
) -> None:
    wrong: list[tuple[object, ...]] = []
    met: set[str] = set()
    for name in sorted(PAGES, key=lambda name: name.rpartition("/")[0]):
        page.set_viewport_size({"width": 360, "height": 900})
        text = lead_to(page, site / name)
        if page.evaluate("document.documentElement.scrollWidth") > 360:
            wrong.append((name, "scrolls sideways"))
        page.evaluate(ALIKE_ONCE)
        wrong += [(name, 360, *violation) for violation in violations(page)]
        resize(page, 1440)
        if FOLDED.search(text):
            lead_to(page, site / name)
            page.evaluate(ALIKE_ONCE)
        wrong += [(name, 1440, *violation) for violation in violations(page)]
        # Scripts that were run before ask for nothing else on another page.
        scripts = {script.replace("../", "") for script in SCRIPT.findall(text)}
        if not scripts <= met:
            page.wait_for_load_state("networkidle")
        met |= scripts
    asked = set(page.asked)
    wrong += [("asked", url) for url in asked if not url.startswith((site.as_uri(), "data:", "blob:", "about:"))]
    assert wrong == [], json.dumps(wrong, indent=1)
    assert {(site / name).as_uri() for name in ("index.html", "sheets/keepers-lantern.html")} <= asked


@pytest.mark.parametrize("name", ["reference/groupings.html", "reference/swapping.html", "reference/machines.html"])
def test_how_a_number_was_computed_opens_with_the_keyboard(page: Any, site: Path, name: str) -> None:
    page.goto((site / name).as_uri())
    page.locator("details.how > summary").first.focus()
    page.keyboard.press("Enter")
    assert page.locator("details.how[open] td a").first.is_visible()
    page.evaluate(ALIKE_ONCE)
    assert violations(page) == []


def test_explained_numbers_print_behind_the_two_sides(page: Any, site: Path) -> None:
    made = subprocess.run(
        [sys.executable, "-m", "generator", "sheet", "keepers-lantern", "--explain"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )
    page.set_content(made.stdout)
    pages = sides_read(page.pdf(prefer_css_page_size=True))
    assert len(pages) > 2
    words = ["".join(side.split()) for side in pages]
    first = "Howthenumberscameabout"
    begins = [number for number, text in enumerate(words) if first in text]
    # Whole sides come before it, with their order of work, and it begins on a page of its own.
    assert len(begins) == 1 and begins[0] >= 2
    assert "Beforetheclientsitsdown" not in words[begins[0]]
    assert "numbersofthesheetwithstamp" in words[-1]


@pytest.mark.parametrize("job", ["keepers-lantern", "diving-bell", "tide-table"])
def test_a_sheet_prints_on_both_sides_of_one_sheet(page: Any, site: Path, job: str) -> None:
    """On the studio's own paper; how it is divided on the other: press/sheet/test_sides.py."""
    path = site / "sheets" / f"{job}.html"
    text = path.read_text("utf-8")
    page.goto(path.as_uri())
    pdf = PdfReader(io.BytesIO(page.pdf(prefer_css_page_size=True)))
    # What the pause points do not hold goes to a second sheet of paper; only these have so much to tick.
    (sides,) = set(re.findall(r"side \d+ of (\d+)", text))
    assert len(pdf.pages) == int(sides) <= (3 if "More to tick" in text else 2)
    for side in pdf.pages:
        assert (float(side.mediabox.width), float(side.mediabox.height)) == pytest.approx(A4, abs=1)
    # The extracted words may be broken over lines; compare without spaces.
    printed = "".join("".join(side.extract_text() for side in pdf.pages).split())
    for ink in page.locator(".inks .name").all_inner_texts():
        assert "".join(ink.split()) in printed


def test_a_sheet_that_may_not_go_ahead_prints_no_working_steps(page: Any, site: Path) -> None:
    for job in ("orrery", "paper-boat", "stairwell"):
        page.goto((site / "sheets" / f"{job}.html").as_uri())
        assert page.locator("table.order").count() == 0
        assert "No working steps are printed" in page.inner_text("main")
        assert len(PdfReader(io.BytesIO(page.pdf(prefer_css_page_size=True))).pages) == 1


def test_the_hundred_millimetre_bar_is_that_long(page: Any, site: Path) -> None:
    """CSS: 1 in = 96 px = 25.4 mm (W3C, CSS Values and Units)."""
    page.set_viewport_size({"width": 1200, "height": 900})
    page.goto((site / "sheets" / "keepers-lantern.html").as_uri())
    page.emulate_media(media="print")
    width = page.evaluate("document.querySelector('.rule').getBoundingClientRect().width")
    assert width == pytest.approx(100 / 25.4 * 96, abs=0.5)


def test_no_text_of_the_sheet_is_under_its_minimum(page: Any, site: Path) -> None:
    page.set_viewport_size({"width": 1200, "height": 900})
    page.goto((site / "sheets" / "keepers-lantern.html").as_uri())
    page.emulate_media(media="print")
    least = {".dial": 14, ".step": 11, ".order td": 10, ".inks li": 10, ".ticks li": 10, ".tray li": 10}
    sizes: dict[str, list[float]] = page.evaluate(
        """names => Object.fromEntries(names.map(name => [name, [...document.querySelectorAll(name)].map(
            e => parseFloat(getComputedStyle(e).fontSize) * 0.75)]))""",
        list(least),
    )
    assert {name: min(found) >= least[name] - 0.01 for name, found in sizes.items()} == dict.fromkeys(least, True)


def test_the_page_is_watched_for_records(site: Path) -> None:
    """The plugin adds the content folder to what `mkdocs serve` watches."""
    from mkdocs.config import load_config

    config = load_config(str(ROOT / "mkdocs.yml"))
    plugin = config.plugins["studio-handbook"]
    config.plugins.on_config(config)
    plugin._clean_up()
    assert str(ROOT / "content") in config.watch
