"""Sittings of one day that want one person, chair or machine at once, or follow too soon upon one another."""

from __future__ import annotations

import dataclasses
import datetime
import re
from typing import Any

import pytest

from generator.planning.findings.at_once import said_of
from generator.planning.plan import booked_of, plan
from generator.planning.timing import day as day_module
from generator.planning.timing.booked import Booked
from generator.planning.timing.clashes import Clash, DayBooked, cleaning_between, day_booked, exposure
from generator.planning.timing.day import BREAK, WORK, WRAP
from generator.planning.timing.timetable import Timetable, timetable_of_sitting
from generator.quantities import Quantity
from generator.records.families import Records
from generator.trade import vibration
from tests.planning.demo import RECORDS, job_of, part, simple, with_entry

DAY = datetime.date(2027, 5, 12)


def with_studio(records: Records = RECORDS, **changes: Any) -> Records:
    return dataclasses.replace(records, studio=records.studio.model_copy(update=changes))


def a_sitting(name: str, records: Records = RECORDS, **changes: Any) -> Booked:
    made = booked_of(records, job_of(simple(id=name, **changes)))
    assert made is not None
    return made


def the_day(*jobs: Booked, records: Records = RECORDS) -> DayBooked:
    return day_booked(records, jobs)


def clock(hours: int, minutes: int = 0) -> datetime.datetime:
    return datetime.datetime.combine(DAY, datetime.time(hours, minutes))


def later(one: Booked, minutes: float) -> str:
    """The hour of a sitting that is set up so many minutes after another one ends, if that goes slowly."""
    set_up = RECORDS.studio.limits.set_up.high
    return f"{one.ends + datetime.timedelta(minutes=minutes + set_up):%H:%M}"


FIRST = a_sitting("first-lamp", start="09:00")


def test_a_sitting_begins_with_its_set_up_and_ends_with_its_wrap_at_the_slow_end() -> None:
    made = plan(RECORDS, job_of(simple(start="09:00")))[0]
    assert made is not None and made.work is not None
    done = made.work.at_hand.timetable.done_between
    assert (FIRST.begins, FIRST.seated) == (clock(8, 30), clock(9))
    assert [round((end - FIRST.seated).total_seconds() / 60) for end in (FIRST.ends_soonest, FIRST.ends)] == [
        round((end - FIRST.seated).total_seconds() / 60) for end in done
    ]
    assert FIRST.stretches[-1].kind == WRAP
    worked = sum(stretch.minutes for stretch in FIRST.stretches if stretch.kind == WORK)
    assert dict(FIRST.minutes) == {FIRST.uses[0].machine: pytest.approx(worked)}
    assert FIRST.uses[0].begins <= next(s.begins for s in FIRST.stretches if s.kind == WORK) < FIRST.uses[-1].ends


def test_breaks_lie_inside_of_what_a_machine_is_wanted_for() -> None:
    parts = [part("lamp", focal="yes", lines=[{"needle": "1003RL", "length": "2000 mm"}])]
    long = a_sitting("long-lamp", start="09:00", parts=parts)
    assert any(stretch.kind == BREAK for stretch in long.stretches) and len(long.uses) == 1


def test_a_day_whose_sittings_have_nothing_in_common_is_quiet() -> None:
    other = a_sitting("other-lamp", artist="mo", start="09:00")
    assert the_day(FIRST).clashes == the_day(FIRST, other).clashes == ()
    assert the_day(other, FIRST).chairs == {"first-lamp": 1, "other-lamp": 2}
    assert the_day(FIRST, a_sitting("late-lamp", start=later(FIRST, 31))).clashes == ()


def test_one_artist_at_once_by_the_slow_end_alone() -> None:
    """The next client comes when the first would be done if it went quickly, and is not if it goes slowly."""
    assert FIRST.ends_soonest + datetime.timedelta(minutes=3) < FIRST.ends
    again = a_sitting("again", start=later(FIRST, -2))
    (clash,) = the_day(again, FIRST).clashes
    assert (clash.kind, clash.what, clash.jobs) == ("person", "quill", ("first-lamp", "again"))
    assert clash.ends == FIRST.ends and clash.begins == again.begins


def test_a_turn_round_of_five_minutes_is_too_short_and_says_by_how_much() -> None:
    second = a_sitting("second-lamp", start=later(FIRST, 6))
    (clash,) = the_day(FIRST, second).clashes
    assert (clash.kind, clash.jobs) == ("turn-round", ("first-lamp", "second-lamp"))
    between = (second.begins - FIRST.ends).total_seconds() / 60
    assert 4 < between <= 6
    moved = int(said_of(RECORDS, clash).remedy.split("come ")[1].split("\u00a0")[0])
    assert 0 <= moved + between - 30 < 1
    # Another artist, who has the one chair after the first.
    of_mo = a_sitting("second-lamp", artist="mo", start=later(FIRST, 6))
    (shared,) = the_day(FIRST, of_mo, records=with_studio(chairs=1)).clashes
    assert (shared.kind, shared.what) == ("turn-round", "") and said_of(RECORDS, shared).reason[0].isdigit()
    assert the_day(FIRST, of_mo).clashes == ()


def test_a_clash_names_the_times_of_the_page_of_its_day() -> None:
    """An estimated end is in the steps of the clock there; a set-up begins when the job says."""
    jobs = ("first-lamp", "again")
    said = [
        said_of(RECORDS, Clash(kind, what, jobs, clock(*begins), clock(*ends))).reason
        for kind, what, begins, ends in (
            ("person", "quill", (11, 33), (12, 3)),
            ("machine", "kettle", (11, 33), (12, 3)),
            ("turn-round", "quill", (12, 3), (12, 31)),
            ("turn-round", "quill", (12, 3), (12, 4)),
        )
    ]
    assert [re.findall(r"\d\d:\d\d", reason) for reason in said[:2]] == [["11:33", "12:05"], ["11:30", "12:05"]]
    assert "26\u00a0min between" in said[2] and " 0\u00a0min between" in said[3]


def test_cleaning_takes_the_turn_round_or_contact_and_airing_where_these_are_longer() -> None:
    limits = RECORDS.studio.limits
    assert cleaning_between(RECORDS) == (30.0, 30.0, 2.0, 10.0)

    def kept(**changes: Quantity | None) -> float:
        return cleaning_between(with_studio(limits=limits.model_copy(update=changes))).minutes

    long = dataclasses.replace(limits.airing, low=45.0, high=45.0) if limits.airing is not None else None
    assert kept(airing=long) == 47.0 and kept(turn_round=None) == 12.0 and kept(turn_round=None, airing=None) == 2.0


def test_more_clients_than_chairs() -> None:
    three = [a_sitting(name, artist=who, start="09:00") for name, who in (("one", "quill"), ("two", "mo"))]
    three.append(a_sitting("three", artist="tilde", start="09:30"))
    chairs = [clash for clash in the_day(*three).clashes if clash.kind == "chair"]
    assert [clash.jobs for clash in chairs] == [("one", "two", "three")]
    assert "three" not in the_day(*three).chairs and "3 sittings and 2 chairs" in said_of(RECORDS, chairs[0]).reason
    assert not [c for c in the_day(*three, records=with_studio(chairs=3)).clashes if c.kind == "chair"]
    # Where nobody wrote down how many there are, none is given away.
    assert the_day(*three, records=with_studio(chairs=None)).chairs == {}


def test_more_sittings_than_there_are_of_a_machine() -> None:
    machine = FIRST.uses[0].machine
    other = a_sitting("other-lamp", artist="mo", start="09:20")
    assert other.uses[0].machine == machine and the_day(FIRST, other).clashes == ()
    one = with_entry("machines", machine, count=1)
    (clash,) = the_day(FIRST, other, records=one).clashes
    assert (clash.kind, clash.what, clash.jobs) == ("machine", machine, ("first-lamp", "other-lamp"))
    assert clash.begins == other.uses[0].begins and clash.ends > clash.begins
    # It is wiped in between: the contact time counts.
    wanted = FIRST.uses[-1].ends - other.uses[0].begins
    for minutes, number in ((1, 1), (3, 0)):
        moved = wanted + datetime.timedelta(minutes=minutes)
        use = other.uses[0]._replace(begins=other.uses[0].begins + moved, ends=other.uses[0].ends + moved)
        assert len(the_day(FIRST, dataclasses.replace(other, uses=(use,)), records=one).clashes) == number


def test_a_machine_may_be_wanted_as_soon_as_estimated_however_the_rows_before_it_are_printed() -> None:
    """Three rows of 5 mm take 0.2–0.33 min each and are printed as 1 min; another machine comes after them."""
    short = [
        part(f"dot-{n}", (20 * n, 60, 15, 15), focal="no", lines=[{"needle": "1207RL", "length": "5 mm"}])
        for n in (0, 1, 2)
    ]
    last = part(
        "lamp", (20, 5, 20, 20), focal="yes", lines=[{"needle": "1207RL", "length": "90 mm", "machine": "metronome"}]
    )
    made = plan(RECORDS, job_of(simple(parts=[*short, last])))[0]
    booked = a_sitting("lamp", parts=[*short, last])
    assert made is not None and made.work is not None
    *before, after = made.work.steps
    assert after.setting.machine.id == "metronome"
    others = {use.machine: use.begins for use in booked.uses if use.machine != "metronome"}
    soonest = min(others.values()) + datetime.timedelta(minutes=sum(step.booked.low for step in before))
    (begins,) = (use.begins for use in booked.uses if use.machine == "metronome")
    assert sum(step.booked.low for step in before) < 1 and begins <= soonest


def test_whoever_watches_is_held_by_it() -> None:
    watched = dataclasses.replace(FIRST, job="watched", artist="bram", supervisor="quill")
    clashes = the_day(FIRST, watched).clashes
    assert [(clash.kind, clash.what) for clash in clashes] == [("person", "quill")]
    assert the_day(watched).clashes == ()


def test_the_hand_takes_all_sittings_of_the_day() -> None:
    eight = with_entry(
        "machines", FIRST.uses[0].machine, vibration=dataclasses.replace(RECORDS.machines["kettle"].vibration, high=9.0)
    )
    second = a_sitting("second-lamp", start="16:00")
    alone, both = exposure(eight, [FIRST]), exposure(eight, [FIRST, second])
    assert alone is not None and both is not None and alone < vibration.ACTION_VALUE
    # ISO 5349-1: equal exposures come together as the root of the sum of their squares.
    assert both == pytest.approx(alone * 2**0.5)
    much = with_entry(
        "machines",
        FIRST.uses[0].machine,
        vibration=dataclasses.replace(RECORDS.machines["kettle"].vibration, high=30.0),
    )
    (clash,) = the_day(FIRST, second, records=much).clashes
    assert (clash.kind, clash.what) == ("vibration", "quill") and "action value" in said_of(much, clash).reason
    unknown = with_entry("machines", FIRST.uses[0].machine, vibration=None)
    assert exposure(unknown, [FIRST]) is None and the_day(FIRST, second, records=unknown).clashes == ()


def test_a_sheet_and_the_page_of_its_day_say_the_same_of_the_hand() -> None:
    """290 mm take 19.3 min at the slow end and are printed as 20 min, at which the hand is just at the action value."""
    job = {"start": "09:00", "parts": [part("lamp", focal="yes", lines=[{"needle": "1207RL", "length": "290 mm"}])]}
    one, figure = a_sitting("short-lamp", **job), RECORDS.machines["kettle"].vibration
    ((machine, minutes),) = one.minutes
    high = 1.00001 * vibration.ACTION_VALUE / vibration.daily_exposure(1.0, minutes / 60)
    records = with_entry("machines", machine, vibration=dataclasses.replace(figure, high=high))
    made = plan(records, job_of(simple(**job)))[0]
    assert made is not None and (exposure(records, [one]) or 0) >= vibration.ACTION_VALUE
    assert [finding.about for finding in made.findings if "action value" in finding.reason] == ["artist"]


def test_a_clash_is_a_care_with_a_way_out_and_many_of_one_kind_are_three() -> None:
    job = job_of(simple(id="first-lamp", start="09:00"))
    many = tuple(Clash("person", "quill", ("first-lamp", f"other-{n}"), clock(9), clock(10)) for n in range(8))
    made, reminders = plan(RECORDS, job, clashes=many)
    assert made is not None and made.state.value == "with care" and made.work is not None
    cares = [finding for finding in made.findings if finding.about == "start"]
    assert len(cares) == 3 and all(care.level == "care" and care.remedy for care in cares)
    assert len(reminders) == 3 and {d.level for d in reminders} == {"reminder"}
    assert {d.place for d in reminders} == {job.start.place}
    assert plan(RECORDS, job)[1] == ()


def test_a_sitting_has_one_timetable_for_its_quick_and_its_slow_end(monkeypatch: pytest.MonkeyPatch) -> None:
    made: list[int] = []

    def noted(*given: Any) -> Timetable:
        made.append(1)
        return timetable_of_sitting(*given)

    monkeypatch.setattr(day_module, "timetable_of_sitting", noted)
    assert a_sitting("second-lamp").ends_soonest <= a_sitting("second-lamp").ends
    assert len(made) == 2
