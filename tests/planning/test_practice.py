"""The demo studio's records and plans against the practice of the trade.

Nothing here is published: every value is common practice, no published source, so ranges are compared and
never single digits.
"""

from __future__ import annotations

import datetime

import pytest

from generator.planning.plan import plan
from generator.planning.working.technique import dial_row, technique_for
from generator.quantities import Quantity, written
from generator.records.needles import Grouping, Technique
from generator.trade.labels import read_label
from generator.units import READ_AS
from tests.planning.demo import JOBS, RECORDS, demo, job_of, part, planned, scar, simple, steps_of, with_limits
from tests.planning.demo import written as job_text

LIMITS = RECORDS.studio.limits
TECHNIQUES = RECORDS.techniques


def inside(inner: Quantity, outer: str) -> bool:
    wide = written(outer)
    return READ_AS.get(inner.kind, inner.kind) == wide.kind and wide.low <= inner.low <= inner.high <= wide.high


def usual_speed(technique: str, label: str) -> float:
    grouping = Grouping.model_construct(label=label)
    row = dial_row(TECHNIQUES[technique], grouping)
    assert row is not None
    return row.usual.low


def speeds(technique: str, configurations: set[str]) -> list[Quantity]:
    return [row.speed for row in TECHNIQUES[technique].dials if configurations & set(row.configurations)]


# Common practice, no published source: about 110 Hz for ten of 0.35 mm as a liner, about 90 Hz for three of
# 0.30 mm, about 120 Hz for packing with a soft-edge magnum of fifteen.
@pytest.mark.parametrize(
    ("technique", "label", "about"),
    [("lining", "1210RL", 110), ("lining", "1003RL", 90), ("packing", "1215CM", 120)],
)
def test_usual_speeds(technique: str, label: str, about: float) -> None:
    assert usual_speed(technique, label) == pytest.approx(about, abs=5)
    assert read_label("1210RL").needle_diameter == 0.35 and read_label("1003RL").needle_diameter == 0.30


def test_the_smallest_detail_of_a_face_goes_down_to_about_seventy() -> None:
    # Common practice, no published source: down to about 70 Hz; tiny detail 60–90 Hz.
    assert usual_speed("fine-detail", "1003RL") == pytest.approx(70, abs=5)
    for speed in speeds("fine-detail", {"RL"}):
        assert inside(speed, "60–90 Hz") and speed.low <= 70 <= speed.high


def test_soft_shading_is_slower_than_packing() -> None:
    # Common practice, no published source: soft shading alone is usually slower than packing.
    for label in ("1215CM", "1209M1", "1015CM", "1009CM", "1211RM", "1213M2", "1206F", "1209RS"):
        assert usual_speed("soft-shading", label) < usual_speed("packing", label)


def test_ranges_of_speed() -> None:
    # Common practice, no published source: liners 90–130 Hz, soft shading 70–120, packing 90–130.
    for technique, outer in (("lining", "90–130 Hz"), ("soft-shading", "70–120 Hz"), ("packing", "90–130 Hz")):
        assert all(inside(row.speed, outer) for row in TECHNIQUES[technique].dials), technique


def test_every_usual_speed_lies_in_its_range() -> None:
    for technique in TECHNIQUES.values():
        for row in technique.dials:
            assert row.speed.low <= row.usual.low <= row.speed.high, technique.id


def test_three_and_a_half_millimetres_is_an_all_round_stroke() -> None:
    # Common practice, no published source; and it is what a plan takes for lining and for packing.
    for technique in TECHNIQUES.values():
        assert technique.stroke.low <= 3.5 <= technique.stroke.high, technique.id
    for machine in RECORDS.machines.values():
        assert 3.5 in [stroke.low for stroke in machine.strokes], machine.id
    for step in steps_of(job_text("tide-table")):
        if step.setting.technique.id in ("lining", "packing"):
            assert step.setting.stroke.low == 3.5


def test_hang_out() -> None:
    # Common practice, no published source: lining 2–4 mm, magnums 1.5–3 mm. A preference, not the depth.
    assert inside(TECHNIQUES["lining"].hang_out, "2–4 mm")
    for grouping in RECORDS.groupings.values():
        row = read_label(grouping.label).configuration in ("M1", "M2", "CM", "RM")
        assert inside(grouping.hang_out, "1.5–3 mm" if row else "1.5–4 mm"), grouping.id
    for name in JOBS:
        for step in steps_of(job_text(name)):
            row = read_label(step.setting.grouping.label).configuration in ("M1", "M2", "CM", "RM")
            low, high = (1.5, 3) if row else (2, 4)
            assert row or step.setting.technique.works == "lines" or step.setting.hang_out.low >= 1.5
            if row or step.setting.technique.id == "lining":
                assert low <= step.setting.hang_out.low <= high


def test_paces() -> None:
    # Common practice, no published source: lining 1.5–4 cm a minute, packing 0.3–1 cm² a minute, with dips, wipes
    # and stretching.
    assert inside(TECHNIQUES["lining"].pace, "1.5–4 cm/min")
    assert inside(TECHNIQUES["packing"].pace, "0.3–1 cm²/min")


@pytest.mark.parametrize(
    ("lines", "needle", "detail", "area", "least", "most"),
    [
        # Common practice, from memory: what 47–96 min and 6–11 min were two to three times too quick for.
        (1250, "1207RL", "medium", 28, 94, 288),
        (220, "1003RL", "fine", 0, 12, 33),
    ],
)
def test_a_piece_is_quoted_as_an_experienced_artist_would(
    lines: int, needle: str, detail: str, area: int, least: float, most: float
) -> None:
    packed = [{"ink": "black-line", "area": f"{area} cm²"}] if area else None
    drawn = [{"needle": needle, "length": f"{lines} mm"}]
    piece = part("piece", (0, 0, 100, 100), focal="yes", detail=detail, lines=drawn, colours=packed)
    minutes = [step.minutes for step in steps_of(simple(parts=[piece]))]
    assert least <= sum(m.low for m in minutes) < sum(m.high for m in minutes) <= most


def test_fifty_square_centimetres_of_packing_take_fifty_to_a_hundred_and_seventy_minutes() -> None:
    # Common practice, no published source.
    packed = part("block", colours=[{"ink": "deep-blue", "area": "50 cm²"}], lines=None)
    (step,) = steps_of(simple(parts=[packed]))
    assert step.setting.technique.id == "packing"
    assert 50 <= step.minutes.low < step.minutes.high <= 170


def test_going_over_two_or_three_times_then_stop() -> None:
    # Common practice, no published source.
    for technique in TECHNIQUES.values():
        assert all(row.passes in (2, 3) for row in technique.dials), technique.id
    for name in JOBS:
        assert all(1 <= step.passes.low <= 3 for step in steps_of(job_text(name)))


def test_house_limits() -> None:
    # Common practice, no published source: stencil dries 10–20 min; a gap of 1–1.5 mm stays open; breaks of
    # 5–10 min each 60–90 min; a sitting of 3–5 h; the same skin again after four weeks at least; touch-up after
    # 6–8 weeks, 8–12 on scars or heavy colour; moles kept clear by 5–10 mm; two strong colours carry a piece.
    for limit, outer in (
        (LIMITS.stencil_dry, "10–20 min"),
        (LIMITS.line_gap, "1–1.5 mm"),
        (LIMITS.break_length, "5–10 min"),
        (LIMITS.break_after, "60–90 min"),
        (LIMITS.sitting, "3–5 h"),
        (LIMITS.touch_up, "6–8 weeks"),
        (LIMITS.touch_up_slow, "8–12 weeks"),
        (LIMITS.mole_clearance, "5–10 mm"),
    ):
        assert inside(limit, outer), outer
    assert LIMITS.same_skin_again.low >= written("4 weeks").low
    assert LIMITS.strong_colours == 2


def test_gloves_of_half_a_day() -> None:
    # Common practice, no published source: four to eight pairs in half a day, at every interruption. Half a day is
    # here a visit of three to four and a half hours at the slow end; what else is to interrupt a job is besides.
    counted = {}
    for name in JOBS:
        made = demo(name)
        if made.work is None or made.job.finished is not None:
            continue
        today = made.work.at_hand
        if 180 <= today.timetable.whole.high < 270:
            (gloves,) = (c.number for c in today.tray.supplies if c.supply.id == "gloves")
            counted[name] = gloves.low - made.job.interruptions, gloves.high - made.job.interruptions
    assert len(counted) >= 5 and all(4 <= low <= high <= 8 for low, high in counted.values()), counted


def test_a_scar_rests_twelve_to_twenty_four_months() -> None:
    # Common practice, no published source: 12–24 months from the wound; then pale, soft, no itch, pain, growth.
    ages = [rule.wait_until_age for rule in RECORDS.scar_rules.values() if rule.wait_until_age]
    assert ages and all(inside(age, "12–24 months") for age in ages)
    assert RECORDS.scar_rules["scar-young"].verdict == "wait"
    for restless in ("scar-restless", "scar-coloured", "scar-hard", "scar-firm"):
        assert RECORDS.scar_rules[restless].verdict in ("wait", "doctor")


def test_the_same_skin_waits_four_weeks() -> None:
    # Common practice, no published source; International Journal of Dermatology 1987;26:453 found about a month.
    assert RECORDS.screening["recent-work"].wait_limit == "same_skin_again"
    assert LIMITS.same_skin_again.low >= 28


@pytest.mark.parametrize(
    ("inks", "slow"),
    [
        (["black-line", "wash-mid"], False),
        ([{"ink": "amber", "area": "24 cm²"}], False),
        ([{"ink": "amber", "area": "25 cm²"}], True),
        ([{"ink": "amber", "area": "13 cm²"}, {"ink": "slate-blue", "area": "12 cm²"}], True),
    ],
)
def test_touch_up_is_later_after_heavy_colour(inks: list[object], slow: bool) -> None:
    # The studio's own limit says from how much packed colour on.
    assert LIMITS.heavy_colour.text == "25 cm²"
    work = planned(simple(parts=[part("lamp", (0, 0, 100, 100), focal="yes", colours=inks)])).work
    assert work is not None
    opens, closes = (day - datetime.date(2027, 5, 12) for day in work.touch_up.answer)
    assert (opens.days, closes.days) == ((56, 84) if slow else (42, 56))


def test_touch_up_is_later_where_a_scar_is_crossed() -> None:
    ground, lamp = part("ground", role="filler", detail="broad"), part("lamp", (60, 60, 30, 30), focal="yes")
    for right, weeks in ((30, 8), (2, 6)):  # over the ground, and beside it
        there = scar(**{"from": [f"{right} mm", "40 mm"], "to": [f"{right + 10} mm", "40 mm"]})
        work = planned(simple(parts=[ground, lamp], scars=[there])).work
        assert work is not None and (work.touch_up.answer.opens - datetime.date(2027, 5, 12)).days == 7 * weeks


@pytest.mark.parametrize(("text", "opens", "closes"), [("6–8 weeks", 42, 56), ("43–48 days", 49, 49)])
def test_nobody_is_asked_back_too_early(text: str, opens: int, closes: int) -> None:
    # The house's own window; part of a week is rounded to the later day.
    work = planned(simple(), with_limits(touch_up=written(text))).work
    assert work is not None
    assert [(day - datetime.date(2027, 5, 12)).days for day in work.touch_up.answer] == [opens, closes]


def test_spacing_where_lines_are_run() -> None:
    # The studio's own aim; whip shading and stippling set their dots apart on purpose.
    low, high = LIMITS.spacing.low, LIMITS.spacing.high
    lined = 0
    for name in JOBS:
        for step in steps_of(job_text(name)):
            if step.setting.technique.works == "lines":
                lined += 1
                assert low <= step.setting.spacing.low <= step.setting.spacing.high <= high
    assert lined > 12
    for technique in TECHNIQUES.values():
        if technique.works == "lines":
            for row in technique.dials:
                assert low <= technique.hand_speed.low / row.speed.high
                assert technique.hand_speed.high / row.speed.low <= high, technique.id


def test_white_and_corners_are_worked_with_rounds() -> None:
    # Common practice, no published source: round liners fill what a magnum cannot enter; white stays small.
    assert set(TECHNIQUES["highlights"].dials[0].configurations) <= {"RL", "RS"}
    assert LIMITS.highlight.high <= 5


@pytest.mark.parametrize(
    ("detail", "needle", "technique"),
    [("fine", "1003RL", "fine-detail"), ("fine", "1210RL", "lining"), ("broad", "1003RL", "lining")],
)
def test_fine_parts_are_lined_slowly_with_what_suits_it(detail: str, needle: str, technique: str) -> None:
    job = job_of(simple(parts=[part("face", detail=detail, lines=[{"needle": needle, "length": "100 mm"}])]))
    found: Technique = technique_for(RECORDS, job.parts[0], job.parts[0].lines[0])
    assert found.id == technique


def test_a_plan_is_made_of_every_demo_job() -> None:
    for name in JOBS:
        assert plan(RECORDS, job_of(job_text(name)))[1] == ()


def test_no_number_of_the_studio_stands_in_its_limits_and_among_its_values_too() -> None:
    # Whoever changes one of two would leave the other behind; a limit that names a value holds no number.
    named = {str(value.id).replace("-", "_") for value in RECORDS.values.values()}
    twice = {limit for limit in named if isinstance(getattr(LIMITS, limit, None), Quantity)}
    assert twice == set()
