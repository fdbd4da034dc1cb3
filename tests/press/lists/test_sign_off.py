"""The sheet to sign: every line with its text, on one or two sides of paper, readable at arm's length."""

from __future__ import annotations

import datetime
import io
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from generator.press.lists.start_here import sign_off_html, to_sign
from generator.press.manual.procedures import read_procedures
from generator.records.procedures import ROLES
from tests.planning.demo import RECORDS

PAGES = read_procedures(Path(__file__).parents[3] / "handbook")
AS_OF = datetime.date(2027, 5, 12)


def sheet(role: str, paper: str = "A4") -> str:
    studio = RECORDS.studio.model_copy(update={"paper": paper})
    return sign_off_html(role, studio, to_sign(role, RECORDS, PAGES), AS_OF)


def test_titles_are_no_markup() -> None:
    assert "<b>" not in sign_off_html("artist", RECORDS.studio, [("<b>Lining</b>", "3f2a9c")], AS_OF)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("role", ROLES)
def test_it_prints_on_two_sides_at_most_with_every_line(role: str, paper: str, page: Any) -> None:
    page.set_content(sheet(role, paper))
    printed = PdfReader(io.BytesIO(page.pdf(prefer_css_page_size=True)))
    assert 1 <= len(printed.pages) <= 2
    width = {"A4": 595, "Letter": 612}[paper]
    assert all(abs(side.mediabox.width - width) < 2 for side in printed.pages)
    text = "\n".join(side.extract_text() for side in printed.pages)
    for _, line in to_sign(role, RECORDS, PAGES):
        assert line in text


def test_nothing_is_smaller_than_ten_points_and_a_phone_does_not_scroll_sideways(page: Any) -> None:
    page.set_viewport_size({"width": 360, "height": 800})
    page.set_content(sheet("artist"))
    sizes = page.evaluate("[...document.querySelectorAll('body *')].map(e => parseFloat(getComputedStyle(e).fontSize))")
    wide = page.evaluate("document.documentElement.scrollWidth")
    assert min(sizes) >= 10 * 96 / 72 - 0.01
    assert wide <= 360
