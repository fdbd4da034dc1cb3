"""The page of lots, and recall sheets that print client references and nothing else about a client."""

from __future__ import annotations

import datetime
import html
import io
import re
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pypdf import PdfReader

from generator.cli import main
from generator.planning.for_lists import lots_of
from generator.planning.supplies.tracing import INKS, Thing, letters_of, traces
from generator.press.lists.lots import lots_page
from generator.press.lists.recall import recall_sheets
from generator.press.words.addresses import LOTS, lot_address
from tests.conftest import copy_project
from tests.planning.demo import CONTENT, JOBS, RECORDS, demo
from tests.press.minimal import minimal
from tests.press.page_at import page_at

AS_OF = datetime.date(2027, 5, 1)
PLANS = {name: demo(name) for name in JOBS}
FOUND = traces(RECORDS, [lots_of(RECORDS, plan) for plan in PLANS.values()])
SHEETS = dict(recall_sheets(RECORDS, FOUND, AS_OF))
PAGE = lots_page(page_at(LOTS, as_of=AS_OF), FOUND)


def plain(text: str) -> str:
    return html.unescape(re.sub(r"<[^>]+>", " ", text))


def used(lot: str) -> list[str]:
    """The references of the finished demo jobs that name a lot, read from their records alone."""
    return sorted(
        plan.job.client for plan in PLANS.values() if plan.job.finished is not None and lot in plan.job.finished.lots
    )


def listed(sheet: str, section: str) -> list[str]:
    found = re.search(rf'<h2 id="{section}">.*?</h2>\n(.*?)(?=<h2|<section|</main>)', sheet, re.DOTALL)
    return re.findall(r"<li>(.*?)</li>", found[1]) if found else []


def test_every_lot_of_a_finished_job_has_a_sheet_with_its_clients() -> None:
    lots = {lot for plan in PLANS.values() if plan.job.finished is not None for lot in plan.job.finished.lots}
    assert len(lots) > 3
    for lot in lots:
        sheets = [SHEETS[lot_address(t.thing)] for t in FOUND if t.thing.lot == letters_of(lot)]
        assert len(sheets) == 1
        assert listed(sheets[0], "used") == used(lot) != []


def test_the_page_counts_and_leads_to_every_sheet() -> None:
    linked = set(re.findall(r'href="(lots/[^"]+)"', PAGE))
    assert linked == set(SHEETS)
    lot = "LB-7031"
    found = re.search(r'<tr id="lot-ink-black-line--lb7031">(.*?)</tr>', PAGE)
    assert found is not None and f'data-value="{len(used(lot))}"' in found[1]


def test_what_was_not_written_down_is_asked() -> None:
    job = next(plan for plan in PLANS.values() if plan.job.finished is not None)
    left = lots_of(RECORDS, job)
    without = [type(left)(f"lamp-{n}", f"R-09{n}", AS_OF, True, ("X-1",), (), ("amber",), ()) for n in range(3)]
    found = traces(RECORDS, without)
    assert "3 finished jobs used Amber without a lot on file: ask" in lots_page(page_at(LOTS, as_of=AS_OF), found)
    sheets = dict(recall_sheets(RECORDS, found, AS_OF))
    amber = RECORDS.inks["amber"]
    of_lot = sheets[lot_address(Thing(INKS, amber.id, letters_of(amber.lots[0].lot)))]
    assert "3 finished jobs used Amber without a lot on file: ask" in of_lot
    assert 'href="ink-amber.html#unsure"' in of_lot
    assert listed(sheets["lots/ink-amber.html"], "unsure") == ["R-090", "R-091", "R-092"]


def test_a_lot_past_its_day_says_so() -> None:
    late = plain(lots_page(page_at(LOTS, as_of=datetime.date(2030, 1, 1)), FOUND))
    assert "do not use, past" in late and "good until" not in late


def test_a_studio_without_anything_has_its_page() -> None:
    assert "Nothing is on file yet" in lots_page(page_at(LOTS, minimal(), AS_OF), traces(minimal(), []))


_IDS = st.from_regex(r"[a-z0-9]+(-[a-z0-9]+)*", fullmatch=True)
_THINGS = st.builds(Thing, st.sampled_from([INKS, "groupings"]), _IDS, st.text(max_size=60).map(letters_of))


@given(_THINGS, _THINGS)
def test_files_are_safe_and_no_two_things_share_one(one: Thing, other: Thing) -> None:
    address = lot_address(one)
    assert re.fullmatch(r"lots/[a-z0-9-]+\.html", address)
    assert (address == lot_address(other)) == (one == other)


def test_text_of_records_is_escaped() -> None:
    nasty = "<b>&amp"
    found = traces(RECORDS, [type(lots_of(RECORDS, PLANS["orrery"]))("x", nasty, AS_OF, True, (nasty,), (), (), ())])
    for text in (lots_page(page_at(LOTS, as_of=AS_OF), found), *dict(recall_sheets(RECORDS, found, AS_OF)).values()):
        assert "<b>" not in text


def test_paper_shows_references_and_nothing_else_about_a_client(page: Any, site: Path) -> None:
    page.goto((site / "lots/ink-black-line--lb7031.html").as_uri())
    assert page.locator("#jobs").is_visible()
    sheets = PdfReader(io.BytesIO(page.pdf(prefer_css_page_size=True))).pages
    printed = " ".join(" ".join(sheet.extract_text() for sheet in sheets).split())
    for reference in used("LB-7031"):
        assert reference in printed
    # The day of the records may be a day of sittings too: it stands on each sheet, and is told as that.
    day = f"as of {RECORDS.studio.as_of}"
    assert printed.count(f"{day}, a set date") == len(sheets)
    printed = printed.replace(day, "")
    for plan in PLANS.values():
        job = plan.job
        said = (job.title, str(job.id), job.date.isoformat(), plan.site.name)
        assert [words for words in said if words in printed] == []
    assert [person.name for person in RECORDS.people.values() if re.search(rf"\b{person.name}\b", printed)] == []


class TestRecall:
    def test_references_alone_go_to_standard_output(self, capsys: pytest.CaptureFixture[str]) -> None:
        assert main(["recall", "lb 7031", "--content", str(CONTENT)]) == 0
        said = capsys.readouterr()
        assert said.out.split("\n") == [*used("LB-7031"), ""]
        assert "Line black, lot LB-7031" in said.err and "do not pour" in said.err

    def test_a_lot_that_nobody_named(self, capsys: pytest.CaptureFixture[str]) -> None:
        assert main(["recall", "QQ-0", "--content", str(CONTENT)]) == 1
        said = capsys.readouterr()
        assert said.out == "" and "no finished job names the lot “QQ-0”" in said.err

    def test_a_mistake_in_another_job_holds_nobody_up(self, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
        content = copy_project(tmp_path) / "content"
        broken = content / "jobs" / "tide-table.yml"
        broken.write_text(broken.read_text("utf-8").replace("start: 11:00", "start: 25:00"), "utf-8")
        assert main(["recall", "LB-7031", "--content", str(content)]) == 1
        said = capsys.readouterr()
        assert said.out.split("\n") == [*used("LB-7031"), ""]
        assert "R312" in said.err and "the list may be short" in said.err
