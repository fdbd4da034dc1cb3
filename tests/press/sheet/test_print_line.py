"""Every page of every print says whose it is, what it is, of which day and stamp, and which page of how many."""

from __future__ import annotations

import datetime
import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from generator.dates import as_of
from generator.press.words.print_line import with_print_line, words_stamp
from generator.records.reading import read_records
from tests.conftest import THREE_JOBS, copy_content, lead_to, turn_to
from tests.planning.demo import RECORDS
from tests.press.pressing import press_jobs
from tests.printed import sides_read

DAY, NEXT = datetime.date(2027, 5, 13), datetime.date(2027, 5, 14)
PRINTS = (
    "procedures/spill.html",
    "procedures/lining.html",
    "reference/dials.html",
    "reference/groupings.html",
    "reference/sites.html",
    "start-here.html",
    "jobs.html",
    "jobs/gear-band.html",
    "jobs/stairwell.html",
    "sheets/gear-band.html",
    "sheets/orrery.html",
    "sheets/keepers-lantern--explained.html",
    "lots/ink-black-line--lb7031.html",
    "lots/cartridge-1207RL.html",
    "sign-off/artist.html",
    "formulas/motion.html",
    "index.html",
)
# A script hears a moment later that a fold was opened or closed.
_HEARD = "new Promise(done => requestAnimationFrame(() => setTimeout(done)))"
LINE = re.compile(r'<p class="print-line unstamped" data-print="(\S+) ([0-9a-f]{8})">')


def printed(page: Any) -> list[str]:
    """The words of each page of a print."""
    return [" ".join(side.split()) for side in sides_read(page.pdf(prefer_css_page_size=True))]


class TestStamp:
    PAGE = '<h1>Dial</h1><table><tr><td class="a">90</td><td>Hz</td></tr></table>'

    @pytest.mark.parametrize(
        "other",
        [
            PAGE.replace("90", "91"),
            PAGE.replace("Hz", "hz"),
            PAGE.replace("</table>", "</table><p>Stop.</p>"),
            PAGE.replace("</table>", "</table><details><summary>How</summary>so</details>"),
            PAGE.replace("</table>", '</table><img src="x.svg" alt="A hand">'),
            PAGE.replace("</table>", "</table><svg><text>A</text></svg>"),
        ],
    )
    def test_it_changes_with_every_word(self, other: str) -> None:
        assert words_stamp(other) != words_stamp(self.PAGE)

    @pytest.mark.parametrize(
        "other",
        [
            PAGE.replace('class="a"', 'class="b" id="c"'),
            PAGE.replace("</h1>", ' <a class="headerlink" href="#x">#</a></h1>'),
            PAGE.replace("<table>", "\n\n  <table>"),
            PAGE.replace("<table>", '<p class="screen">Back</p><table>'),
            PAGE.replace("<table>", '<p class="unstamped">as of 2027-05-01<br>today</p><table>'),
            PAGE.replace("<table>", "<script>var a = 1;</script><style>b { }</style><table>"),
            PAGE.replace("<table>", '<svg><path d="M 0 0"></path></svg><table>'),
        ],
    )
    def test_it_does_not_change_with_how_a_page_is_drawn(self, other: str) -> None:
        assert words_stamp(f" {other} ") == words_stamp(self.PAGE)

    def test_what_is_left_out_ends_with_its_element(self) -> None:
        one, other = (f'<ul class="screen"><li>a<li>b</ul><p>{word}</p>' for word in ("wait", "go"))
        assert words_stamp(one) != words_stamp(other)

    def test_names_are_no_markup(self) -> None:
        line = with_print_line("<body></body>", "x.html", "0" * 8, "<b>Ink & Co", DAY)
        assert "<b>" not in line and "&lt;b&gt;Ink &amp; Co" in line and line.endswith("</body>")


def test_another_day_changes_no_stamp_of_a_job(tmp_path: Path) -> None:
    content = copy_content(tmp_path, {*THREE_JOBS, "gear-band", "keepers-lantern", "orrery"})

    def stamps(day: datetime.date) -> Iterator[tuple[str, str]]:
        for pressed in press_jobs(content, read_records(content, as_of(day))):
            for html in (pressed.sheet, pressed.page, pressed.explained):
                if html is not None:
                    (found,) = LINE.findall(html)
                    # What was worked is kept as it was, with the day on which it was kept.
                    assert pressed.job is not None
                    assert pressed.job.finished or f"as of {day.isoformat()}" in html
                    yield found

    assert list(stamps(DAY)) == list(stamps(NEXT))


class TestPaper:
    def test_every_page_says_what_it_is(self, page: Any, site: Path) -> None:
        wrong = []
        for name in sorted(PRINTS, key=lambda name: name.rpartition("/")[0]):
            ((known, stamp),) = LINE.findall(lead_to(page, site / name))
            assert known in (name, name.removeprefix("sheets/").removesuffix(".html"))
            assert not page.locator(".print-line").is_visible(), name
            pages = printed(page)
            said = f"{RECORDS.studio.name} · {known} · stamp {stamp} · as of {RECORDS.studio.as_of}"
            for number, words in enumerate(pages, 1):
                # This browser numbers the pages itself.
                if f"page {number} of {len(pages)}" not in words or said not in words or "____ of" in words:
                    wrong.append((name, number, words))
        assert wrong == []

    @pytest.mark.parametrize("name", ["procedures/lining.html", "reference/dials.html", "jobs/gear-band.html"])
    def test_nothing_is_printed_over_the_line(self, page: Any, site: Path, name: str) -> None:
        page.goto((site / name).as_uri())
        page.emulate_media(media="print")
        page.set_viewport_size({"width": 730, "height": 1000})
        line = page.locator(".print-line").bounding_box()
        begins = page.evaluate(
            """() => Math.min(...[...document.querySelectorAll("h1, h2, p, td, th, li, svg")]
                .filter(part => !part.closest(".print-line") && part.getClientRects().length)
                .map(part => part.getBoundingClientRect().left))"""
        )
        assert line["x"] >= 0 and line["x"] + line["width"] <= begins

    def test_every_page_of_the_site_has_a_line_and_its_stamp_is_known(self, site: Path) -> None:
        script = (site / "assets" / "stamps.js").read_text("utf-8")
        known = json.loads(script.removeprefix("window.currentStamps = ").rstrip().removesuffix(";"))
        found = {}
        for path in site.rglob("*.html"):
            if path.name != "404.html":
                ((name, stamp),) = LINE.findall(path.read_text("utf-8"))
                found[name] = stamp
        assert found == {name: entry["stamp"] for name, entry in known.items()}
        assert len(found) > 150

    def test_a_browser_without_page_numbers_gets_them_for_a_single_page_or_by_hand(self, page: Any, site: Path) -> None:
        for name, numbers in (("lots/ink-black-line--lb7031", " · page 1 of 1"), ("jobs/gear-band", "____ of ____")):
            page.goto((site / f"{name}.html").as_uri())
            page.evaluate("window.dispatchEvent(new Event('beforeprint'))")
            assert page.locator(".by-hand").text_content().endswith(numbers)

    @pytest.mark.parametrize("scripts", [True, False])
    def test_folds_print_as_they_stand(self, page: Any, still: Any, site: Path, scripts: bool) -> None:
        shown = page if scripts else still
        (lead_to if scripts else turn_to)(shown, site / "reference/machines.html")

        def fold(opened: bool) -> None:
            one = shown.locator("details.how").first
            one.locator("> summary").click()
            assert one.evaluate("fold => fold.open") is opened
            if scripts:
                page.evaluate(_HEARD)

        closed = printed(shown)
        assert "How these were computed" not in " ".join(closed)
        fold(True)
        opened = printed(shown)
        assert len(opened) > len(closed)
        assert "How these were computed" in " ".join(opened)
        # The print leaves the screen as it was.
        assert shown.locator("details.how[open]").count() == 1
        assert printed(shown) == opened
        fold(False)
        assert printed(shown) == closed

    def test_a_closed_list_prints_its_name_alone(self, page: Any, site: Path) -> None:
        page.goto((site / "start-here.html").as_uri())
        whole = printed(page)
        page.locator("details.list > summary").first.click()
        page.evaluate(_HEARD)
        part = printed(page)
        name = page.locator("details.list > summary").first.inner_text()
        assert name in " ".join(part) and len(" ".join(part)) < len(" ".join(whole))


class TestLookUp:
    def answer(self, page: Any, text: str) -> str:
        page.fill("#stamp-text", text)
        page.click("#stamp-form button")
        return str(page.inner_text("#stamp-answer"))

    def test_a_print_is_looked_up_by_its_line(self, page: Any, site: Path) -> None:
        names = ("reference/dials.html", "lots/cartridge-1207RL.html", "jobs/gear-band.html")
        lines = {}
        for name in names:
            page.goto((site / name).as_uri())
            lines[name] = page.locator(".print-line").text_content()
        page.goto((site / "stamp.html").as_uri())
        for name, line in lines.items():
            self.looked_up(page, name, line)

    def looked_up(self, page: Any, name: str, line: str) -> None:
        stamp = re.search(r"stamp ([0-9a-f]{8})", line)[1]  # type: ignore[index]
        other = ("1" if stamp[0] == "0" else "0") + stamp[1:]
        for text in (line, f"{name} {stamp}", f"{name.upper()} · stamp {stamp.upper()}", stamp):
            assert self.answer(page, text) == f"Current: this is the latest print of {name}.", text
        assert self.answer(page, f"Stamp and Needle · {name} · stamp {stamp}").startswith("Current")
        for text in (line.replace(stamp, other), f"{name} {other}"):
            assert self.answer(page, text).startswith("Outdated: take this print"), text
        assert self.answer(page, other).startswith("Unknown stamp")
        assert self.answer(page, f"reference/none.html · stamp {stamp}").startswith("Unknown page: reference/none.html")
        assert page.locator("td code", has_text=stamp).count() == 1
