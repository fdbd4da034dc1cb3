"""Pages and sheets say in bold that their day was set, on a screen and on paper, and a sheet is no longer for it."""

from __future__ import annotations

import datetime
import io
from pathlib import Path
from typing import Any

from pypdf import PdfReader

from generator.dates import AsOf
from generator.press.sheet.contents import sheet_of
from generator.press.sheet.printing import sheet_html
from generator.press.words.page_day import with_set_date
from generator.press.words.print_line import words_stamp
from tests.conftest import ROOT, resize
from tests.planning.demo import RECORDS, demo

CLOCK = datetime.date(2026, 11, 26)
TODAY, SET = AsOf.of(CLOCK, "", CLOCK), AsOf.of(datetime.date(2027, 6, 1), "`--as-of`", CLOCK)
SAID = "This is as of 1 June 2027, a date that was set. It may not be today."
OF_THE_DAY = ("index.html", "jobs.html", "lots.html", "reference/restock.html", "reference/inks.html")


def test_the_sentence_is_under_the_title_and_an_emergency_comes_before_it() -> None:
    jobs = "---\nhide:\n  - toc\n---\n\n# Jobs\n\nAs of.\n\n## This week\n"
    front = '# Handbook\n\n!!! danger "Emergency"\n    Call.\n\n## At the station\n'
    for page, before, after in ((jobs, "# Jobs", "As of."), (front, "    Call.", "## At the station")):
        assert with_set_date(page, TODAY) == with_set_date(page, CLOCK) == page
        head, said, rest = with_set_date(page, SET).partition(
            f'\n\n<p class="set-date screen unstamped"><strong>{SAID}</strong></p>\n\n'
        )
        assert said and head.endswith(before) and rest.startswith(after)


def test_it_changes_no_stamp() -> None:
    words = "<h1>Jobs</h1>"
    assert words_stamp(words) == words_stamp(with_set_date(f"# A\n\n{words}", SET).removeprefix("# A"))


def test_the_demo_says_it_on_the_front_page_the_lists_of_days_and_everything_that_goes_to_a_client(site: Path) -> None:
    said = "<strong>This is as of 12 May 2027, a date that was set. It may not be today.</strong>"
    pages = [site / name for name in OF_THE_DAY]
    # What was worked is kept as it was on its own day.
    kept = {path.name.removesuffix(".worked.json") for path in (ROOT / "content" / "jobs").glob("*.worked.json")}
    assert kept
    for folder in ("sheets", "jobs", "lots", "sign-off"):
        pages += (page for page in (site / folder).glob("*.html") if page.stem.split("--")[0] not in kept)
    assert len(pages) > 50
    assert [str(page.relative_to(site)) for page in pages if page.read_text("utf-8").count(said) != 1] == []


def test_a_sheet_says_it_in_bold_and_is_no_longer_for_it(page: Any) -> None:
    sheet = sheet_of(RECORDS, demo("gear-band"))
    tall: list[list[float]] = []
    papers: list[list[str]] = []
    for day in (TODAY, SET):
        page.set_content(sheet_html(sheet, day))
        page.emulate_media(media="print")
        tall.append(page.evaluate("[...document.querySelectorAll('.side')].map(s => s.getBoundingClientRect().height)"))
        printed = PdfReader(io.BytesIO(page.pdf(prefer_css_page_size=True))).pages
        papers.append([" ".join(paper.extract_text().split()) for paper in printed])
    assert tall[0] == tall[1] and len(papers[0]) == len(papers[1]) > 1
    assert all(SAID in words and "as of 2027-06-01, a set date" in words for words in papers[1])
    assert not any("date that was set" in words or "set date" in words for words in papers[0])
    page.emulate_media(media="screen")
    for width in (360, 1280):
        resize(page, width)
        said = page.get_by_text(SAID)
        assert said.is_visible() and said.bounding_box()["y"] < page.locator("h1").bounding_box()["y"]
        assert page.evaluate("Number(getComputedStyle(document.querySelector('.set-date strong')).fontWeight)") >= 700
        assert page.evaluate("document.documentElement.scrollWidth") <= width
