"""A part that has been worked for long rests: where, and what sheet, text and data say of it.

No published number was found: both limits are the studio's own.
"""

from __future__ import annotations

import dataclasses
import datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.planning.as_json import plan_as_data
from generator.planning.plan import booked_of, plan
from generator.planning.timing import rests as rests_module
from generator.planning.timing.breaks import pauses
from generator.planning.timing.day import BREAK, REST, days_of
from generator.planning.timing.rests import RestLimits, Spell, Wait, spells
from generator.press.sheet.contents import sheet_of
from generator.press.sheet.plan_text import plan_text
from tests.planning.demo import RECORDS, demo, part, planned, simple, with_limits
from tests.planning.test_permissiveness import often

Worked = list[tuple[str, float]]


def rested(worked: Worked, pause: float = 10) -> list[Spell]:
    placed = pauses([minutes for _, minutes in worked], 75)
    return list(spells(worked, placed, RestLimits(90, 20, pause)))


def rests(worked: Worked, pause: float = 10) -> list[tuple[float, ...]]:
    return [spell.rests for spell in rested(worked, pause)]


@pytest.mark.parametrize(
    ("worked", "expected"),
    [
        # 50 and 40 are 90, which is allowed; one minute more is not.
        ([("a", 50), ("a", 40)], [(), ()]),
        ([("a", 50), ("a", 41)], [(), (0,)]),
        # Another part of 20 min is a rest; one of 5 with a break of 10 before and none after is not.
        ([("a", 50), ("b", 20), ("a", 41)], [(), (), ()]),
        ([("a", 50), ("b", 5), ("a", 41)], [(), (), (0,)]),
        # So is one of 20 min where a difference of floats says 19.999999999999996: 32.3 - 12.3.
        ([("a", 12.3), ("b", 20), ("a", 80)], [(), (), ()]),
        # 90 min are not too long: they fit after a rest, and after 20 of them and a break come 70, which are 90 again.
        ([("a", 50), ("b", 5), ("a", 90)], [(), (), (0,)]),
        # What is longer than the limit is broken off, counted from its last rest.
        ([("a", 200), ("b", 75)], [(90, 180), ()]),
        # Where no other part is left, it rests in a break: after 75 and 150 min, after 75.
        ([("a", 200)], [(75, 150)]),
        ([("a", 30), ("a", 100)], [(), (45,)]),
        # A break in the middle of minutes 30 to 90: 30 before it, and 30 and 35 after it would be 95.
        ([("b", 30), ("a", 60), ("a", 35)], [(), (30,), ()]),
        # Two parts, turn by turn, rest each other.
        ([("a", 60), ("b", 60), ("a", 60), ("b", 60)], [(), (), (), ()]),
    ],
)
def test_where_a_part_rests(worked: Worked, expected: list[tuple[float, ...]]) -> None:
    assert rests(worked) == expected


def test_a_break_that_is_long_enough_is_a_rest() -> None:
    # Breaks of 20 min each 75 min: nobody ever works a part for 90.
    assert rests([("a", 200), ("a", 60)], pause=20) == [(), ()]


@pytest.mark.parametrize(
    ("worked", "expected"),
    [
        # 50 and 60 min on one part, with a break of 10 before the second: a rest of 20, so 10 more are booked.
        ([("a", 50), ("a", 60)], [(), (Wait(0, 10),)]),
        # Another part that takes longer than the rest is worked meanwhile; one of 4 min leaves 6 of them.
        ([("a", 50), ("a", 60), ("b", 30)], [(), (), ()]),
        ([("a", 50), ("a", 60), ("b", 10)], [(), (), ()]),
        ([("a", 50), ("a", 60), ("b", 4)], [(), (Wait(0, 6),), ()]),
        # Each minute of another part is worked in one rest only: two rests of 20, breaks apart, and 15 min of it.
        ([("a", 91), ("a", 91), ("b", 15)], [(Wait(90, 5),), (Wait(89, 20),), ()]),
        # Nothing else at all: both breaks are as long as a rest.
        ([("a", 200)], [(Wait(75, 10), Wait(150, 10))]),
    ],
)
def test_a_rest_with_no_other_part_left_is_booked(worked: Worked, expected: list[tuple[Wait, ...]]) -> None:
    assert [spell.waits for spell in rested(worked)] == expected


def test_a_part_has_rested_while_another_is_worked_has_its_breaks_and_rests() -> None:
    first, other, again = rested([("a", 10), ("b", 200), ("a", 10)])
    # 220 min: breaks of 10 after 75 and 150 of them, which are 65 and 140 of the second step.
    # That rests for 20 after 90 and 180 of its minutes; 10 of the first rest are worked on the other part.
    assert other.waits == (Wait(90, 10), Wait(180, 20)) and other.waited == 30
    assert (first.rested, other.rested, again.rested) == (None, None, 200 + 2 * 10 + 30)
    assert (first.worked, other.worked, again.worked) == (10, 20, 10)


def test_the_end_of_the_day_includes_the_rest_of_the_last_part() -> None:
    # 18 cm² of each ink at 0.3 cm² a minute are 60 min: a break between them, and the part rests 10 min more.
    inks = [{"ink": ink, "area": "18 cm²"} for ink in ("black-line", "deep-blue")]
    lamp = part("lamp", (0, 0, 80, 80), focal="yes", lines=None, colours=inks)
    made = planned(simple(parts=[lamp], size="200 mm x 200 mm"))
    assert made.work is not None
    table = made.work.timetable
    assert (table.breaks.high, table.rests.high) == (10, 10)
    assert table.chair.high == 60 + 60 + 10 + 10 and table.whole.high == table.chair.high + 20 + 15 + 15
    end = datetime.datetime(2027, 5, 12, 11) + datetime.timedelta(minutes=table.whole.high)
    assert table.done_between[1] == end
    (day,) = days_of(RECORDS, made.job, made.work.steps, made.work.sittings)
    assert [s.minutes for s in day.stretches if s.kind in (BREAK, REST)] == [10, 10]
    sheet = sheet_of(RECORDS, made)
    assert [row.rest for row in sheet.rows if not row.is_break] == ["", "rest A here first"]
    assert {p.label: p.value.replace("\u00a0", " ") for p in sheet.times}["rests"] == "10 min besides"
    assert any("it is in the time booked" in p.value for p in sheet.order)


@often
@given(st.lists(st.tuples(st.sampled_from("abc"), st.floats(1, 250)), min_size=1, max_size=8))
def test_no_part_is_worked_for_longer_without_a_rest(worked: Worked) -> None:
    placed = pauses([minutes for _, minutes in worked], 75)
    now, last, since = 0.0, dict.fromkeys("abc", -1e9), dict.fromkeys("abc", 0.0)
    for (zone, minutes), found, breaks in zip(
        worked, spells(worked, placed, RestLimits(90, 20, 10)), placed, strict=True
    ):
        now += 10 * breaks.before
        assert found.rested is None or found.rested == pytest.approx(now - last[zone])
        if now - last[zone] >= 20:
            since[zone] = 0.0
        at = 0.0
        for rested in (*found.rests, minutes):
            since[zone] += rested - at
            assert since[zone] <= 90 + 1e-3
            at = rested
            if rested != minutes or rested in found.rests:
                since[zone] = 0.0
        now += minutes + 10 * len(breaks.within) + found.waited
        last[zone] = now
        assert found.worked <= 90 + 1e-3


def test_the_sheet_the_text_and_the_data_say_where_a_part_rests() -> None:
    inks = [{"ink": ink, "area": "16 cm²"} for ink in ("black-line", "deep-blue")]
    lamp = part("lamp", (0, 0, 80, 80), focal="yes", lines=None, colours=inks)
    sky = part("sky", (120, 0, 40, 40), lines=None, colours=["amber"])
    made = planned(simple(parts=[sky, lamp], size="200 mm x 200 mm"))
    assert made.work is not None
    # 16 cm² at 0.3 cm² a minute are printed as 54 min: twice that is more than 90.
    rows = {row.ink: row.rest for row in sheet_of(RECORDS, made).rows if not row.is_break}
    said = "rest B here first"
    assert rows == {"Line black": "", "Deep blue": said, "Amber": ""}
    assert said in plan_text(
        RECORDS, made
    ) and "B lamp: step 1 to 54\u00a0min; step 2 to 54\u00a0min after its rest" in plan_text(RECORDS, made)
    zones = plan_as_data(made)["work"]["at_hand"]["zones"]
    assert [len(zone["rests"]) for zone in zones] == [0, 1, 0]
    assert zones[1]["rest"]["value"] == 20 and zones[1]["rest"]["record"] == "studio.limits.zone_rest"
    # The breaks are those of the timetable, and the rest is not one of them.
    assert made.work.timetable.break_count.high == len([r for r in sheet_of(RECORDS, made).rows if r.is_break])
    # A limit of its own decides.
    longer = planned(
        simple(parts=[sky, lamp], size="200 mm x 200 mm"),
        with_limits(zone_worked=RECORDS.studio.limits.sitting),
    )
    assert not any(row.rest for row in sheet_of(RECORDS, longer).rows)


def test_minutes_on_a_part_are_what_its_rows_add_up_to() -> None:
    """A sum of printed rows, to the minute, and within the limit; a part worked no less and rested no more."""
    inks = [{"ink": "black-line", "area": "7 cm²"}, {"ink": "deep-blue", "area": "14 cm²"}]
    job = simple(parts=[part("lamp", (0, 0, 80, 80), focal="yes", lines=None, colours=inks)])
    # At 0.3 cm² a minute they are printed as 24 and 47 min, together 71.
    for limit, printed in ((90, [24, 71]), (72, [24, 71])):
        kept = dataclasses.replace(RECORDS.studio.limits.zone_worked, low=limit, high=limit)
        work = planned(job, with_limits(zone_worked=kept)).work
        assert work is not None and [zone.worked.high for zone in work.at_hand.zones] == printed


def test_the_demo_has_a_part_that_rests() -> None:
    work = demo("steam-boiler").work
    assert work is not None and {zone.part for zone in work.at_hand.zones if zone.rests} == {"boiler"}


def test_what_one_sitting_takes_is_worked_out_once_for_its_day_and_its_plan(monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[object] = []

    def noted(worked: Worked, *others: object) -> object:
        asked.append(tuple(worked))
        return spells(worked, *others)  # type: ignore[arg-type]

    monkeypatch.setattr(rests_module, "spells", noted)
    rests_module.course.cache_clear()
    job = demo("tide-table").job
    assert booked_of(RECORDS, job) is not None and plan(RECORDS, job)[0] is not None
    assert len(asked) == len(set(asked)) > 1
