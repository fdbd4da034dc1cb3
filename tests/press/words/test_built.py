"""A page in a browser says by itself that it is older than today; one of a set day is the same on every day."""

from __future__ import annotations

import datetime
from dataclasses import replace
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

from generator.dates import AsOf
from generator.press.sheet.contents import sheet_of
from generator.press.sheet.printing import sheet_html
from generator.press.words.page_day import saying_its_day
from generator.press.words.print_line import with_words_stamp, words_stamp
from generator.press.words.regional import in_region
from tests.planning.demo import RECORDS, demo

BUILT = datetime.date(2026, 11, 26)
TODAY, SET = AsOf.of(BUILT, "", BUILT), AsOf.of(BUILT, "`--as-of`", BUILT)
HTML = '<html><head></head><body><main>\n<h1>Jobs</h1></main><div class="admonition danger">Call.</div></body></html>'
# Days of the browser, and what the page says then; nothing on the day of its build.
SAYS = {
    "2026-11-26T23:59:00": "",
    "2026-11-27T00:01:00": "Built 1 day ago, on 26 November 2026.",
    "2026-11-29T12:00:00": "Built 3 days ago, on 26 November 2026.",
    "2027-11-26T12:00:00": "Built 365 days ago, on 26 November 2026.",
    "2026-11-25T12:00:00": "Built on a day that this device has not reached, so look at its clock",
}


def _said(page: Any) -> str:
    shown = page.locator(".built")
    return shown.inner_text() if shown.is_visible() else ""


def test_a_page_says_how_old_it_is_and_says_it_again_when_it_is_looked_at_again(browser: Any) -> None:
    """With the clock of the browser set, in a zone on each side of the day, and with no network."""
    for zone in ("Pacific/Kiritimati", "America/Los_Angeles"):
        context = browser.new_context(timezone_id=zone, offline=True)
        page = context.new_page()
        page.clock.install(time="2026-11-26T12:00:00")
        page.set_content(sheet_html(sheet_of(RECORDS, demo("tide-table")), TODAY))
        for now, says in SAYS.items():
            page.clock.set_fixed_time(datetime.datetime.fromisoformat(now).replace(tzinfo=ZoneInfo(zone)))
            page.evaluate("document.dispatchEvent(new Event('visibilitychange'))")
            assert _said(page).startswith(says) and bool(_said(page)) == bool(says), (zone, now)
        page.emulate_media(media="print")
        assert _said(page) == ""
        context.close()


def test_an_emergency_stays_above_it(browser: Any) -> None:
    context = browser.new_context()
    page = context.new_page()
    page.clock.install(time="2026-11-29T12:00:00")
    page.set_content(saying_its_day(HTML.replace("</main>", "").replace("</body>", "</main></body>"), TODAY))
    assert page.locator("main").inner_text().index("Call.") < page.locator("main").inner_text().index("Built")
    context.close()


def test_a_set_day_and_a_kept_page_say_nothing_of_today_and_no_stamp_changes() -> None:
    assert saying_its_day(HTML, BUILT) == HTML and "Built" not in saying_its_day(HTML, SET)
    aged = saying_its_day(HTML, TODAY)
    assert words_stamp(aged) == words_stamp(HTML)
    said = in_region(replace(RECORDS, studio=RECORDS.studio.model_copy(update={"region": "US"})))(aged)
    assert 'data-built="2026-11-26"' in said and "on November 26, 2026." in said
    assert with_words_stamp(HTML, "jobs.html", "Quill", TODAY).count("data-built=") == 1


def test_the_site_of_the_demo_is_of_a_set_day_and_asks_no_clock(site: Path) -> None:
    asking = [page.name for page in site.rglob("*.html") if "data-built" in page.read_text("utf-8")]
    assert asking == []
