"""A sheet, a plan and its data are for one sitting of a piece, and say when the others are."""

from __future__ import annotations

import dataclasses
import datetime

import pytest

from generator.planning.as_json import plan_as_data
from generator.planning.plan import JobPlan
from generator.press.sheet.contents import sheet_of
from generator.press.sheet.plan_text import plan_text
from generator.press.sheet.printing import sheet_html
from generator.press.sheet.rows import stretches
from generator.press.sheet.view import Sheet
from generator.press.words.markup import with_whole_dates
from tests.planning.demo import JOBS, RECORDS, demo, part, planned, simple
from tests.planning.timing.test_sittings import blocks, work_of

AS_OF = datetime.date(2027, 5, 1)


def pairs(sheet: Sheet) -> dict[str, str]:
    return {pair.label: pair.value for pair in (*sheet.head, *sheet.sittings, *sheet.times, *sheet.come_back)}


def numbers(sheet: Sheet) -> list[str]:
    return [row.number for row in sheet.rows if not row.is_break]


def three(sitting: int) -> JobPlan:
    """A piece of three sittings: step 1, steps 2 and 3, step 4."""
    later = {} if sitting == 1 else {"sitting": str(sitting), "last_worked": "2027-04-01"}
    return planned(blocks(54, 48, 6, 54, **later))


@pytest.mark.parametrize(
    ("sitting", "steps", "others"),
    [
        (1, ["1"], {"Sitting 2": "steps 2 to 3, not before 2027-06-09", "Sitting 3": "step 4, not before 2027-07-07"}),
        (2, ["2", "3"], {"Sitting 1": "step 1, planned before today", "Sitting 3": "step 4, not before 2027-06-09"}),
        (3, ["4"], {"Sitting 1": "step 1, planned before today", "Sitting 2": "steps 2 to 3, planned before today"}),
    ],
)
def test_the_sheet_has_the_steps_of_its_sitting(sitting: int, steps: list[str], others: dict[str, str]) -> None:
    plan = three(sitting)
    sheet = sheet_of(RECORDS, plan)
    assert numbers(sheet) == steps
    assert {pair.label: pair.value for pair in sheet.sittings} == others
    assert pairs(sheet)["Sitting"] == f"{sitting} of 3"
    # The lines are printed too, and their tray is that of the day.
    html = sheet_html(sheet, AS_OF)
    assert all(with_whole_dates(words) in html for words in others.values())
    assert [ink.name for ink in sheet.inks] == [step.ink.name for step in work_of(plan).at_hand.steps]


def test_a_sitting_without_a_break_says_so() -> None:
    short, long = (pairs(sheet_of(RECORDS, plan)) for plan in (planned(simple()), three(1)))
    assert short["breaks"] == "none" and long["breaks"].endswith("min apart at most")


def test_only_a_finished_piece_has_a_touch_up() -> None:
    first, last = (pairs(sheet_of(RECORDS, three(sitting))) for sitting in (1, 3))
    assert first["Next sitting, at the earliest"] == "2027-06-09" and "Touch-up, looked at between" not in first
    assert "Touch-up, looked at between" in last and "Next sitting, at the earliest" not in last


@pytest.mark.parametrize("job", JOBS)
def test_the_day_ends_within_the_longest_sitting(job: str) -> None:
    work = demo(job).work
    if work is not None:
        table, longest = work.at_hand.timetable, RECORDS.studio.limits.sitting.low
        assert table.chair.high <= longest
        assert table.done_between[0] <= table.done_between[1]


def test_a_step_that_is_parted_says_how_much_is_worked() -> None:
    first, second = (
        sheet_of(RECORDS, planned(blocks(150, **later)))
        for later in ({}, {"sitting": "2", "last_worked": "2027-04-01"})
    )
    assert [row.technique for row in first.rows if not row.is_break] == ["Packing, 40\u00a0% of it"]
    assert [row.technique for row in second.rows if not row.is_break] == ["Packing, 40\u00a0% of it"]
    assert numbers(first) == numbers(second) == ["1"]
    assert pairs(first)["Sitting 2"].startswith("part of step 1, ")


def test_a_sitting_that_was_not_planned_says_so() -> None:
    told = pairs(sheet_of(RECORDS, planned(blocks(54, 60, 6, 54, sitting="7", last_worked="2027-04-01"))))
    assert told["Sitting"] == "7, 3 were planned"


@pytest.mark.parametrize("job", JOBS)
def test_data_text_and_sheet_say_the_same(job: str) -> None:
    plan = demo(job)
    if plan.work is None:
        return
    sheet, data, text = sheet_of(RECORDS, plan), plan_as_data(plan)["work"], plan_text(RECORDS, plan)
    today = data["at_hand"]
    assert [str(step["number"]) for step in today["steps"]] == numbers(sheet)
    marks, times = [row for row in sheet.rows if row.is_break], today["timetable"]
    assert [row.within for row in marks if row.within] == [str(step) for step in times["breaks_within"]]
    assert len([row for row in marks if not row.within]) == len(times["breaks_after"])
    assert len(marks) == times["break_count"]["value"] == text.count("-- break")
    assert data["next_sitting"] in (None, pairs(sheet).get("Next sitting, at the earliest"))
    assert (data["touch_up"] is None) == (data["next_sitting"] is not None)
    lines = [line.split("  ")[0] for line in text.split("Order and settings\n")[1].split("\n\n")[0].split("\n")[1:]]
    assert [line for line in lines if line.strip()] == numbers(sheet)
    for pair in (*sheet.sittings, *sheet.come_back, *sheet.tray):
        assert f"{pair.label}: {pair.value}" in text


def test_the_tray_says_the_word_for_one_where_it_helps() -> None:
    told = {pair.label: pair.value for pair in sheet_of(RECORDS, demo("steam-boiler")).tray}
    assert told["Nitrile gloves"].endswith(" pairs") and told["Sterile water"] == "1 bottle"
    # Caps and pads say it in their names, and a piece is no word at all.
    assert all(told[name].replace("–", "").isdigit() for name in ("Ink caps", "Film dressing", "Razor"))
    assert told["Non-adherent dressing"].removeprefix("or ").isdigit()


def test_the_time_of_a_stencil_is_asked_for_only_where_one_is_placed() -> None:
    # 3 m of line fill the first sitting; the second one fills in what has its lines.
    lines, colours = [{"needle": "1210RL", "length": "3000 mm"}], [{"ink": "deep-blue", "area": "40 cm²"}]
    lined = part("lamp", (20, 20, 90, 70), focal="yes", lines=lines, colours=colours)
    asked = {}
    for number, later in ((1, {}), (2, {"sitting": "2", "last_worked": "2027-03-01"})):
        made = planned(simple(parts=[lined], size="400 mm x 300 mm", **later))
        asked[number] = sheet_of(RECORDS, made).blanks
        printed = sheet_html(sheet_of(RECORDS, made), AS_OF)
        assert ("Stencil on" in printed) == ("Stencil on" in asked[number]) and "First line" in printed
    assert asked[1] == ("Stencil on", *asked[2]) and "First line" in asked[2]


def test_a_technique_with_a_comma_in_its_name_says_how_to_stretch_under_its_whole_name() -> None:
    named = {id_: one.model_copy(update={"name": f"{one.name}, slowly"}) for id_, one in RECORDS.techniques.items()}
    records = dataclasses.replace(RECORDS, techniques=named)
    told = stretches(sheet_of(records, planned(simple(), records)).rows)
    assert told and all(name.endswith(", slowly") for name, _ in told)
