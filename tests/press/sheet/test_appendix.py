"""How the numbers of a sheet came about: every one of them, once, with formula, inputs and source."""

from __future__ import annotations

import dataclasses
import datetime
import html
import re

import pytest

from generator.planning.plan import JobPlan
from generator.press.sheet.appendix import Appendix, appendix_of
from generator.press.sheet.contents import sheet_of
from generator.press.sheet.printing import explained_html, sheet_html
from generator.press.sheet.rows import OTHER
from generator.press.sheet.stamp import stamp_of
from generator.press.sheet.view import Sheet
from tests.planning.demo import RECORDS, demo, planned, simple

DAY = datetime.date(2027, 5, 1)
GOES = ("keepers-lantern", "diving-bell", "tide-table", "clock-tower")


def made(job: str) -> tuple[JobPlan, Sheet, Appendix]:
    plan = demo(job)
    sheet = sheet_of(RECORDS, plan)
    return plan, sheet, appendix_of(RECORDS, plan, sheet)


@pytest.mark.parametrize("job", GOES)
def test_every_number_of_the_order_stands_in_it(job: str) -> None:
    plan, sheet, appendix = made(job)
    assert plan.work is not None
    chapters = {chapter.title: chapter.lines for chapter in appendix.chapters}
    rows = [row for row in sheet.rows if not row.is_break]
    for title, values in (
        ("Dial", [row.dial for row in rows]),
        ("Hang-out", [row.hang_out for row in rows]),
        ("Minutes", [row.minutes for row in rows]),
    ):
        shown = {line.value.replace("\u00a0min", "") for line in chapters[title]}
        assert {value.rstrip(OTHER) for value in values} <= shown, title
    assert {ink.amount for ink in sheet.inks} <= {line.value for line in chapters["Ink"]}
    for counted in plan.work.at_hand.tray.supplies:
        assert bool(counted.instead) != any(
            counted.supply.name in line.of.split(", ") or counted.supply.name in line.of for line in chapters["Tray"]
        )
    said = {line.of: line.value for line in chapters["Timetable"]}
    assert {"breaks", "final clean and wrap", "in the chair"} <= set(said)
    again = next(lines for title, lines in chapters.items() if title in ("Touch-up", "Next sitting"))
    days = re.findall(r"\d{4}-\d\d-\d\d", sheet.come_back[0].value)
    assert days and all(day in again[0].value for day in days)


@pytest.mark.parametrize("job", GOES)
def test_each_value_stands_once_and_each_reference_leads_to_a_line(job: str) -> None:
    _, sheet, appendix = made(job)
    lines = [line for chapter in appendix.chapters for line in chapter.lines]
    assert [line.number for line in lines] == list(range(1, len(lines) + 1))
    told = {(line.formula, line.value, line.inputs) for line in lines}
    assert len(told) == len(lines)
    text = explained_html(sheet, DAY, appendix)
    ids = re.findall(r'\bid="([^"]+)"', text)
    assert len(ids) == len(set(ids))
    assert set(re.findall(r'href="#([^"]+)"', text)) <= set(ids)


@pytest.mark.parametrize("job", GOES)
def test_a_computed_line_has_formula_answer_and_inputs(job: str) -> None:
    _, _, appendix = made(job)
    for chapter in appendix.chapters:
        for line in chapter.lines:
            assert line.answers and line.inputs and line.value
            for number in filter(None, line.sources.striptags().split(", ")):
                assert appendix.sources[int(number) - 1]


@pytest.mark.parametrize("job", GOES)
def test_the_two_sides_and_their_stamp_stay_as_they_are(job: str) -> None:
    _, sheet, appendix = made(job)
    alone, explained = sheet_html(sheet, DAY), sheet_html(sheet, DAY, appendix)
    assert stamp_of(sheet) in alone and stamp_of(sheet) in explained
    start, end = '<section class="side front"', '<section class="appendix"'
    sides = alone[alone.index(start) : alone.index("</main>")]
    # But for the links to its lines, of which paper shows nothing.
    explained = re.sub(r'<a class="how" href="#number-\d+">(.*?)</a>', r"\1", explained, flags=re.DOTALL)
    assert explained[explained.index(start) : explained.index(end)].strip() == sides.strip()
    assert end not in alone
    assert appendix.sources[: len(sheet.sources)] == sheet.sources


def test_no_answer_about_health_is_explained() -> None:
    plan, sheet, appendix = made("keepers-lantern")
    text = explained_html(sheet, DAY, appendix)
    for scar in plan.job.scars or ():
        assert scar.wound is not None
        assert f"{scar.wound.day:%Y-%m}" not in text
        assert ".wound" not in text


def test_a_job_that_may_not_go_ahead_has_only_where_it_sits() -> None:
    _, _, appendix = made("orrery")
    assert [chapter.title for chapter in appendix.chapters] == ["Where it sits"]


def test_in_a_file_of_its_own_nothing_is_linked_but_lines() -> None:
    plan = demo("keepers-lantern")
    sheet = sheet_of(RECORDS, plan)
    appendix = appendix_of(RECORDS, plan, sheet)
    assert 'href="../reference/' in explained_html(sheet, DAY, appendix)
    text = sheet_html(sheet, DAY, appendix)
    links = re.findall(r'href="([^"]+)"', text[text.index('<section class="appendix"') :])
    assert links and all(link.startswith(("#number-", "#source-")) for link in links)


def test_words_of_records_never_become_markup() -> None:
    nasty = "<script>x</script>"
    techniques = {key: t.model_copy(update={"name": nasty}) for key, t in RECORDS.techniques.items()}
    inks = {key: i.model_copy(update={"name": nasty}) for key, i in RECORDS.inks.items()}
    records = dataclasses.replace(RECORDS, techniques=techniques, inks=inks)
    plan = planned(simple(), records)
    sheet = sheet_of(records, plan)
    appendix = appendix_of(records, plan, sheet)
    for text in (explained_html(sheet, DAY, appendix), sheet_html(sheet, DAY, appendix)):
        assert "<script>x" not in text
        assert html.escape(nasty) in text[text.index('<section class="appendix"') :]


def test_the_same_plan_gives_the_same_bytes() -> None:
    one, other = (explained_html(sheet, DAY, appendix) for _, sheet, appendix in (made(GOES[0]), made(GOES[0])))
    assert one == other
