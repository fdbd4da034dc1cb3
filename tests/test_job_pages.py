"""Job pages and learning in a real browser: found by the search, true to size in print, legible by day and by night."""

from __future__ import annotations

import io
import math
import re
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from generator.trade import body
from tests.conftest import COLOURS, LEVELS, resize, searched, violations
from tests.test_browser import ALIKE_ONCE


def test_the_search_finds_a_job(page: Any, site: Path) -> None:
    page.goto((site / "index.html").as_uri())
    leading = {}
    stamp = re.search(r"stamp ([0-9a-f]{8})", (site / "sheets/diving-bell.html").read_text("utf-8"))
    assert stamp is not None
    for words in ("diving-bell", "Diving bell on its rope", "R-0139", stamp[1], "forearm, outer"):
        leading[words] = [href for href in searched(page, words) if "jobs/diving-bell.html" in href]
    assert [words for words, hrefs in leading.items() if not hrefs] == []
    page.goto(leading["diving-bell"][0])
    assert page.inner_text("h1") == "Diving bell on its rope"
    page.get_by_role("link", name="Handbook").click()
    assert page.url.endswith("/index.html")


def test_an_arc_template_prints_at_true_size(page: Any, site: Path) -> None:
    """PDF: one unit is 1/72 in (ISO 32000-1, 8.3.2.3), so 100 mm are 283.46."""
    page.goto((site / "jobs" / "gear-band.html").as_uri())
    pdf = PdfReader(io.BytesIO(page.pdf(prefer_css_page_size=True)))
    unit = 72 / 25.4
    bars, arcs, bottoms = [], [], []
    for side in pdf.pages:
        for path in drawn_paths(side):
            (x1, y1), (x2, y2) = path[0], path[-1]
            across = [abs(b[0] - a[0]) for a, b in pairwise(path)]
            if len(path) == 4 and max(across) == pytest.approx(100 * unit, abs=0.2):
                bars.append(path)
            if abs(x2 - x1) > 300 * unit * 0.5 and len(path) > 2 and y1 == pytest.approx(y2, abs=0.5):
                arcs.append((x2 - x1) / unit)
            bottoms += [y for _, y in path]
    assert len(bars) == 2  # one on each strip of paper
    # Nothing is drawn beyond the paper.
    assert min(bottoms) > 0
    # The chord of the middle of the gears, which is in the PDF once for each strip.
    gears = body.band(300, 32, 326, 304, 64)
    assert gears.radius is not None
    chord = 2 * gears.radius * math.sin(300 / gears.radius / 2)
    assert sum(abs(abs(arc) - chord) < 0.3 for arc in arcs) >= 2


def drawn_paths(side: Any) -> list[list[tuple[float, float]]]:
    """The paths that a page draws, with the points that they run through, in units of the page."""
    paths: list[list[tuple[float, float]]] = []

    def note(operator: bytes, operands: Any, matrix: Any, _: Any) -> None:
        if operator not in (b"m", b"l", b"c"):
            return
        x, y = (float(number) for number in operands[-2:])
        a, b, c, d, e, f = matrix
        if operator == b"m":
            paths.append([])
        paths[-1].append((a * x + c * y + e, b * x + d * y + f))

    side.extract_text(visitor_operand_before=note)
    return paths


def _colour(page: Any, scheme: str) -> None:
    """Make day or night, and where the theme has a switch for it, switch."""
    page.emulate_media(color_scheme=scheme)
    body = page.locator("body")
    if body.get_attribute("data-md-color-scheme") not in (None, asked := {"light": "default", "dark": "slate"}[scheme]):
        page.locator("label[for^=__palette]:not([hidden])").click()
        page.wait_for_selector(f"body[data-md-color-scheme={asked}]")


SHOWN = "[...document.querySelectorAll('main *')].map(one => one.getClientRects().length ? 1 : 0).join('')"


@pytest.mark.parametrize("name", ["jobs/diving-bell.html", "jobs/gear-band.html", "reference/learning.html"])
def test_no_accessibility_violation_by_day_and_by_night(page: Any, site: Path, name: str) -> None:
    page.emulate_media(color_scheme="light")
    page.set_viewport_size({"width": 360, "height": 900})
    page.goto((site / name).as_uri())
    found: list[tuple[object, ...]] = []
    for scheme in ("light", "dark"):
        _colour(page, scheme)
        for width in (1440, 360):
            resize(page, width)
            if page.evaluate("document.documentElement.scrollWidth") > width:
                found.append((width, scheme, "scrolls sideways", name))
    page.evaluate(ALIKE_ONCE)
    letters, shown = set(), set()
    for scheme, rules, by in (("dark", COLOURS, "rule"), ("light", LEVELS, "tag")):
        _colour(page, scheme)
        for width in (360, 1440):
            resize(page, width)
            found += [(width, scheme, *violation) for violation in violations(page, rules, by)]
            letters.add((scheme, page.evaluate("getComputedStyle(document.querySelector('main p')).color")))
            shown.add((width, page.evaluate(SHOWN)))
    assert len(letters) == len({colour for _, colour in letters}) == 2
    assert len(shown) == 2, (
        "by night something is shown or hidden that is not by day, and only its colours are looked at"
    )
    assert found == []
