"""A long piece over its sittings: which steps in which, on which day, and what lies on the tray today."""

from __future__ import annotations

import datetime
import math

import pytest
from hypothesis import given

from generator.planning.plan import JobPlan, Work
from generator.planning.timing import rests
from generator.planning.timing.breaks import Pauses, breaks_in, pauses
from generator.planning.timing.day import days_of
from generator.planning.timing.rests import RestLimits
from generator.planning.timing.sittings import Stint, Visit, _chair, _fill, longest_agreed
from generator.planning.working.steps import LINES
from generator.quantities import written as quantity
from tests.planning.demo import JOBS, RECORDS, Written, demo, job_of, part, planned, simple, steps_of, with_limits
from tests.planning.random_jobs import parts
from tests.planning.test_permissiveness import often

LIMITS = RECORDS.studio.limits
NOBODY_RESTS = with_limits(zone_worked=LIMITS.sitting)


def work_of(made: JobPlan) -> Work:
    assert made.work is not None
    return made.work


def blocks(*areas: int, **changes: object) -> Written:
    """One ink of so many cm² after the other, from dark to light."""
    inks = ["black-line", "deep-blue", "umber", "rust", "brass", "sand"]
    colours = [{"ink": ink, "area": f"{area} cm²"} for ink, area in zip(inks, areas, strict=False)]
    # Each on a part of its own, so that none rests.
    made = [
        part(f"p{number}", (0, 0, 200, 200), focal="no" if number else "yes", lines=None, colours=[one])
        for number, one in enumerate(colours)
    ]
    return simple(size="200 mm x 200 mm", parts=made, **changes)


def stints(made: JobPlan) -> list[list[tuple[int, float]]]:
    return [[(stint.number, round(stint.share, 2)) for stint in sitting.stints] for sitting in work_of(made).sittings]


NO_REST = RestLimits(1e9, 20, 10)


@pytest.mark.parametrize(
    ("longest", "room"),
    [
        # A break of 10 min after each 75 min of work.
        (60, 60),
        (75, 75),
        (80, 75),
        (100, 90),
        (160, 150),
        (165, 150),
        (240, 220),
        (250, 225),
    ],
)
def test_how_much_work_a_sitting_holds(longest: float, room: float) -> None:
    first, *_ = _fill([("a", 1000)], longest, 75, NO_REST)
    assert first == [Stint(1, room / 1000)]
    breaks = max(0, math.ceil(room / 75) - 1)
    assert room + breaks * 10 <= longest


def test_how_long_a_step_takes_with_its_own_breaks() -> None:
    # 230 min with a break of 10 min after each 75 min but the last.
    assert _chair((("a", 230),), 75, NO_REST) == 260 and _chair((("a", 75),), 75, NO_REST) == 75
    # A part that is worked for 90 min rests for 20: its breaks after 75 and 150 min are 10 min longer each.
    assert _chair((("a", 200),), 75, RestLimits(90, 20, 10)) == 200 + 2 * 10 + 2 * 10


@pytest.mark.parametrize(
    ("minutes", "between", "found"),
    [
        # Sittings of 100 min without a break. What is left of one is filled, if that is longer than a break's length.
        ((60, 150), 1000, [[(1, 1), (2, 40 / 150)], [(2, 100 / 150)], [(2, 10 / 150)]]),
        ((59, 150), 1000, [[(1, 1), (2, 41 / 150)], [(2, 100 / 150)], [(2, 9 / 150)]]),
        ((90, 150), 1000, [[(1, 1)], [(2, 100 / 150)], [(2, 50 / 150)]]),
        ((20, 100), 1000, [[(1, 1)], [(2, 1)]]),
        ((60, 40), 1000, [[(1, 1), (2, 1)]]),
        # With a break of 10 min in the second step, 60 and 35 min are too long together.
        ((60, 35), 75, [[(1, 1)], [(2, 1)]]),
        ((60, 15), 75, [[(1, 1), (2, 1)]]),
    ],
)
def test_how_steps_fill_the_sittings(
    minutes: tuple[float, ...], between: float, found: list[list[tuple[int, float]]]
) -> None:
    filled = _fill([("a", each) for each in minutes], 100, between, NO_REST)
    assert [[(stint.number, stint.share) for stint in stints] for stints in filled] == [
        [(number, pytest.approx(share)) for number, share in sitting] for sitting in found
    ]


def test_sittings_no_longer_than_a_break_are_filled_too(monkeypatch: pytest.MonkeyPatch) -> None:
    # Twelve minutes in sittings of five; whoever never gets on is stopped after twenty turns.
    turns = iter(range(20))

    def counted(minutes: list[float], between: float) -> list[Pauses]:
        next(turns)
        return pauses(minutes, between)

    monkeypatch.setattr(rests, "pauses", counted)
    assert _fill([("a", 12)], 5, 75, NO_REST) == [
        [Stint(1, pytest.approx(share))] for share in (5 / 12, 5 / 12, 2 / 12)
    ]


def test_the_first_sitting_has_a_stencil_whatever_is_worked() -> None:
    assert Visit(1, (), ()).stencil and not Visit(2, (), ()).stencil


def test_what_is_worked_decides_about_a_later_stencil() -> None:
    lined = steps_of(simple(parts=[part("lamp", focal="yes", colours=["rust"])]))
    bare = steps_of(simple(parts=[part("lamp", focal="yes", lines=None, colours=["rust"])]))
    assert [[step.section == LINES for step in steps] for steps in (lined, bare)] == [[True, False], [False]]
    for steps, later, touched_up in (
        (lined[:1], True, True),  # lines
        (lined[1:], False, False),  # colour on a part that has its lines
        (bare, True, False),  # colour on a part that has none: in a touch-up its edge is in the skin
    ):
        assert (Visit(2, steps, (1,)).stencil, Visit(1, steps, (1,), touch_up=True).stencil) == (later, touched_up)


def test_of_two_equal_limits_the_studios_is_named() -> None:
    assert longest_agreed(RECORDS, job_of(simple(longest="4 h"))) is LIMITS.sitting
    assert longest_agreed(RECORDS, job_of(simple(longest="239 min"))).low == 239


def test_each_sitting_works_the_steps_it_names() -> None:
    # 20 min, and 500 min that no sitting holds: the second step is parted, and the first is not worked again.
    work = work_of(planned(blocks(6, 150)))
    assert [step.ink.id for step in work.at_hand.steps] == ["black-line", "deep-blue"]
    assert work.at_hand.steps[0] is work.steps[0]


def test_a_short_piece_is_one_sitting_on_its_day() -> None:
    for name in JOBS:
        work = demo(name).work
        if work is not None and len(work.sittings) == 1:
            assert work.sittings[0].earliest == demo(name).job.date
            assert work.at_hand.steps == work.steps and work.at_hand.tray == work.tray


def test_a_sitting_ends_between_two_steps() -> None:
    # Packing 0.3–0.6 cm² a minute: 54 cm² take 180 min at the slow end, and 220 min fit into four hours.
    made = planned(blocks(54, 60, 6, 54), NOBODY_RESTS)
    assert stints(made) == [[(1, 1)], [(2, 1), (3, 1)], [(4, 1)]]


def test_only_a_step_that_no_sitting_holds_is_parted() -> None:
    # 500 min at the slow end on one part, which rests in both breaks: 200 and 2 of 20 min, so 200, 200 and 100.
    made = planned(blocks(150))
    assert stints(made) == [[(1, 0.4)], [(1, 0.4)], [(1, 0.2)]]
    # Where a part is worked as long as anybody likes: 220, 220 and 60.
    made = planned(blocks(150), NOBODY_RESTS)
    assert stints(made) == [[(1, 0.44)], [(1, 0.44)], [(1, 0.12)]]


def test_days_are_four_weeks_apart_at_the_earliest() -> None:
    made = planned(blocks(54, 60, 6, 54))
    days = [sitting.earliest for sitting in work_of(made).sittings]
    assert days == [datetime.date(2027, 5, 12), datetime.date(2027, 6, 9), datetime.date(2027, 7, 7)]
    slower = planned(blocks(54, 60, 6, 54), with_limits(same_skin_again=quantity("29 days")))
    assert work_of(slower).sittings[1].earliest == datetime.date(2027, 6, 16)  # whole weeks, to the later day


def test_a_later_sitting_has_its_own_steps_times_and_tray() -> None:
    whole = work_of(planned(blocks(54, 60, 6, 54), NOBODY_RESTS))
    second = work_of(planned(blocks(54, 60, 6, 54, sitting="2", last_worked="2027-04-01"), NOBODY_RESTS))
    assert [sitting.earliest for sitting in second.sittings] == [
        None,
        datetime.date(2027, 5, 12),
        datetime.date(2027, 6, 9),
    ]
    assert [step.ink.id for step in second.at_hand.steps] == ["deep-blue", "umber"]
    assert [poured.ink.id for poured in second.at_hand.tray.inks] == ["deep-blue", "umber"]
    assert [poured.ink.id for poured in second.tray.inks] == ["black-line", "deep-blue", "umber", "rust"]
    assert second.at_hand.timetable.working.low == pytest.approx(66 / 0.6)
    razors = next(c.number for c in second.at_hand.tray.supplies if c.supply.id == "razor")
    assert (razors.low, razors.high) == (1, 1)
    assert second.steps == whole.steps


def test_a_sitting_that_was_not_planned_is_the_last_one() -> None:
    late = work_of(planned(blocks(54, 60, 6, 54, sitting="7", last_worked="2027-04-01")))
    assert late.at_hand.sitting.number == 3


def test_a_part_of_a_step_pours_a_part_of_its_ink() -> None:
    work = work_of(planned(blocks(150)))
    (whole,), (today,) = work.tray.inks, work.at_hand.tray.inks
    assert today.millilitres.high == pytest.approx(whole.millilitres.high * work.sittings[0].stints[0].share)


def test_the_clients_limit_counts_where_it_is_shorter() -> None:
    assert len(work_of(planned(blocks(36, 24))).sittings) == 1
    short = planned(blocks(36, 24, longest="150 min"))
    assert len(work_of(short).sittings) == 2
    (finding,) = (f for f in short.findings if f.reason.startswith("Longer than one sitting"))
    assert "150 min" in finding.reason and finding.rule == "jobs.signal-lamp.longest" and finding.level == "care"
    assert len(work_of(planned(blocks(36, 24, longest="6 h"))).sittings) == 1


@often
@given(parts())
def test_every_step_is_worked_once_and_no_sitting_is_too_long(found: list[Written]) -> None:
    work = work_of(planned(simple(size="200 mm x 200 mm", parts=found)))
    worked: dict[int, float] = {}
    for sitting in work.sittings:
        slow = 0.0
        for stint in sitting.stints:
            step = work.steps[stint.number - 1]
            worked[stint.number] = worked.get(stint.number, 0) + stint.share
            slow += stint.share * step.booked.high
        breaks = breaks_in(slow, LIMITS.break_after.low)
        assert slow + breaks * LIMITS.break_length.low <= LIMITS.sitting.low + 1e-6
    for day in days_of(RECORDS, job_of(simple()), work.steps, work.sittings):
        assert day.timetable.chair.high <= LIMITS.sitting.low + 1e-6
    order = [stint.number for sitting in work.sittings for stint in sitting.stints]
    assert order == sorted(order) and list(worked) == list(range(1, len(work.steps) + 1))
    assert all(share == pytest.approx(1) for share in worked.values())


# Healing.


@pytest.mark.parametrize(
    ("last", "until"), [("2027-04-15", "2027-05-13"), ("2027-04-14", None), ("2027-05-12", "2027-06-09")]
)
def test_the_same_skin_rests_between_sittings(last: str, until: str | None) -> None:
    made = planned(simple(sitting="2", last_worked=last))
    assert made.verdict.level == ("wait" if until else "clear")
    assert (made.verdict.until.isoformat() if made.verdict.until else None) == until


@pytest.mark.parametrize("last", [None, "none", "unknown"])
def test_from_the_second_sitting_silence_is_a_question(last: str | None) -> None:
    made = planned(simple(sitting="2", last_worked=last))
    assert (made.verdict.level, made.verdict.settled) == ("wait", False)
    assert planned(simple(last_worked=last)).verdict.level == "clear"
