"""A scar means something for the rows that cross it, there and to that share; a part that may not is moved off it."""

from __future__ import annotations

import datetime
import itertools
import math

import pytest

from generator.planning.as_json import plan_as_data
from generator.planning.plan import JobPlan
from generator.planning.working.steps import Step
from generator.press.sheet.contents import sheet_of
from generator.press.sheet.plan_text import plan_text
from generator.press.sheet.printing import sheet_html
from generator.quantities import written as quantity
from generator.records.conditions import read_condition
from generator.records.located import read_located
from tests.planning.demo import (
    RECORDS,
    Written,
    changed,
    part,
    planned,
    read,
    scar,
    simple,
    steps_of,
    with_entry,
    with_limits,
)

MIDDLE = {"from": ["30 mm", "40 mm"], "to": ["50 mm", "40 mm"]}
LAMP = part("lamp", (70, 70, 20, 20), focal="yes")


def lines(*needles: str) -> list[Written]:
    return [{"needle": needle, "length": "100 mm"} for needle in needles]


def crossed(*needles: str, ground: Written | None = None, **changes: object) -> JobPlan:
    """Lines of a part of 40 × 40 mm over a scar in its middle; the eye rests on another part."""
    over = part("ground", role="filler", **{"lines": lines(*needles or ("1210RL",)), **(ground or {})})
    return planned(simple(parts=[over, LAMP], scars=[scar(**{**MIDDLE, **changes})]))


def rules(made: JobPlan) -> set[str]:
    return {f.rule.removeprefix("scar-rules.") for f in made.findings if f.rule.startswith("scar-rules.")}


def over(made: JobPlan) -> list[Step]:
    assert made.work is not None
    return [step for step in made.work.steps if step.part.id == "ground"]


def remedy_of(made: JobPlan, rule: str) -> str:
    (finding,) = (f for f in made.findings if f.rule == rule)
    return finding.remedy.replace("\u00a0", " ")


@pytest.mark.parametrize("margin", [0, 2, 5])
def test_the_share_is_that_of_the_scar_with_its_margin(margin: int) -> None:
    records = with_limits(scar_margin=quantity(f"{margin} mm"))
    colours = [{"ink": "wash-mid", "area": "4 cm²"}]
    ground = part("ground", role="filler", lines=lines("1210RL"), colours=colours)
    made = planned(simple(parts=[ground, LAMP], scars=[scar(**MIDDLE)]), records)
    # Geometry: a bar of 20 mm with round ends, 4 mm wide and as much wider as the margin on both sides.
    radius = 2 + margin
    share = (20 * 2 * radius + math.pi * radius**2) / 1600
    for step in over(made):
        assert [found.share.low for found in step.over] == [pytest.approx(share, rel=1e-3)]
    plain = planned(simple(parts=[ground, LAMP]), records)
    for slow, quick in zip(over(made), over(plain), strict=True):
        # Common practice: a quarter more time over a quiet scar.
        assert slow.minutes.high == pytest.approx(quick.minutes.high * (1 + 0.25 * share), rel=1e-3)


def test_a_row_off_the_scar_keeps_its_passes_and_one_over_it_has_both() -> None:
    made = crossed("1003RL", "1210RL", ground={"colours": [{"ink": "wash-mid", "area": "4 cm²"}]})
    said = {step.setting.grouping.label: [o.passes.low for o in step.over if o.passes] for step in over(made)}
    # Only the fine line is gone over once; the broad one and the wash keep what any scar asks.
    assert said == {"1003RL": [1], "1210RL": [2], "1015CM": [2]}
    assert {step.setting.grouping.label: step.passes.low for step in over(made)} == {
        label: dict.fromkeys(("1003RL", "1210RL"), 2).get(label, 3) for label in said
    }
    assert made.work is not None and all(not step.over for step in made.work.steps if step.part.id == "lamp")


def test_the_row_names_its_scar_on_paper_in_text_and_in_data() -> None:
    made = crossed("1003RL")
    sheet = sheet_of(RECORDS, made)
    assert {row.part: (row.over, row.scars) for row in sheet.rows if not row.is_break} == {
        "A ground": ("2×", "over\u00a0s1\u00a0once"),
        "B lamp": ("2×", ""),
    }
    assert "2×, over s1 once" in plan_text(RECORDS, made).replace("\u00a0", " ")
    # As often as elsewhere: only which scar it is.
    assert {row.scars for row in sheet_of(RECORDS, crossed()).rows if row.scars} == {"over\u00a0s1"}
    assert "over\u00a0s1\u00a0once" in sheet_html(sheet, datetime.date(2027, 5, 1))
    (data,) = (step["over"] for step in plan_as_data(made)["work"]["steps"] if step["part"] == "ground")
    assert data[0]["scar"] == "s1" and data[0]["passes"]["value"] == 1


@pytest.mark.parametrize("detail", ["broad", "medium", "fine"])
@pytest.mark.parametrize(
    ("needles", "fine"),
    [
        (("0803RL",), True),
        (("1003RL",), True),
        (("1005RL",), True),
        (("1205RL",), True),
        (("1207RL",), False),
        (("1210RL",), False),
        (("1014RL",), False),
        (("1210RL", "1003RL"), True),
    ],
)
def test_a_fine_line_is_known_by_its_needle(needles: tuple[str, ...], fine: bool, detail: str) -> None:
    made = crossed(*needles, ground={"detail": detail})
    assert ("scar-fine-detail" in rules(made)) == fine


def test_a_narrow_line_of_many_needles_is_fine_by_its_width() -> None:
    for width, fine in (("0.59 mm", True), ("0.6 mm", False)):
        records = with_entry("groupings", "1207RL", fresh_line=quantity(width))
        ground = part("ground", role="filler", lines=lines("1207RL"))
        made = planned(simple(parts=[ground, LAMP], scars=[scar(**MIDDLE)]), records)
        assert ("scar-fine-detail" in rules(made)) == fine, width


def test_without_a_needle_the_usual_one_of_the_technique_is_judged() -> None:
    unnamed = [{"length": "100 mm"}]
    assert "scar-fine-detail" in rules(crossed(ground={"detail": "fine", "lines": unnamed}))  # 1003RL is usual
    assert "scar-fine-detail" not in rules(crossed(ground={"detail": "medium", "lines": unnamed}))  # 1207RL is
    only_filled = {"detail": "fine", "lines": None, "colours": [{"ink": "wash-mid", "area": "4 cm²"}]}
    assert "scar-fine-detail" not in rules(crossed(ground=only_filled))


@pytest.mark.parametrize("form", ["flat", "raised", "sunken", "stretched"])
@pytest.mark.parametrize(
    ("height", "rule"), [("0.5 mm", "scar-ridge"), ("1.9 mm", "scar-ridge"), ("2 mm", "scar-high")]
)
def test_height_counts_whatever_the_form_is_called(form: str, height: str, rule: str) -> None:
    assert rule in rules(crossed(type=form, height=height))


def test_a_flat_scar_of_no_height_is_no_ridge() -> None:
    assert "scar-ridge" not in rules(crossed()) and "scar-ridge" in rules(crossed(type="raised"))


# Words that people use.


@pytest.mark.parametrize(
    ("wound", "level", "settled"),
    [
        ("before 2015", "care", True),
        ("before 2015-06", "care", True),
        ("before 2015-06-10", "care", True),
        ("before 1950", "care", True),
        # Two years before the sitting on 2027-05-12 it is settled; later it may be young, or old: ask.
        ("before 2025-05-13", "care", True),
        ("before 2027", "wait", False),
        ("before 2027-05-12", "wait", False),
        ("before 2030", "wait", False),
    ],
)
def test_a_wound_before_some_day_is_at_least_so_old(wound: str, level: str, settled: bool) -> None:
    made = crossed(wound=wound)
    assert (made.verdict.level, made.verdict.settled) == (level, settled)
    asked = any(f.asks and "in which year" in f.remedy for f in made.findings)
    assert asked == (not settled)


def test_a_scar_that_may_still_settle_is_asked_about() -> None:
    # 16 months at least on the day; from 24 on it is settled.
    made = crossed(wound="before 2026-01")
    assert made.verdict.level == "care" and any(f.asks and "in which year" in f.remedy for f in made.findings)


def test_a_rule_for_old_scars_cannot_be_decided_away_by_a_least_age() -> None:
    when = read_condition(read_located("{scar.age: above 240 months}", "a rule")[0])
    records = with_entry("scar-rules", "scar-graft", when=when, verdict="doctor")
    made = planned(simple(scars=[scar(wound="before 2015")]), records)
    assert (made.verdict.level, made.verdict.settled) == ("doctor", False)


@pytest.mark.parametrize("wound", ["before", "before then", "Before 2015", "before 2015-13", "before before 2015"])
def test_what_is_no_day_before_is_refused(wound: str) -> None:
    job, report = read(simple(scars=[scar(wound=wound)]))
    assert job is None and [d.code for d in report] == ["R311"]
    assert "before" in report[0].help or "2026-03" in report[0].help


def test_not_minding_is_no_wish_to_cover() -> None:
    made = crossed(wish="does not mind")
    assert made.verdict.level == "care" and rules(made) == {"scar-crossed", "scar-no-wish"}
    assert planned(simple(scars=[scar(wish="does not mind")])).findings == ()
    assert crossed(wish="unknown").verdict.level == "wait"


# Moving a part.


def focal_over(*scars_: Written, box: tuple[int, int, int, int] = (20, 20, 40, 40), **changes: object) -> Written:
    return simple(parts=[part("lamp", box, focal="yes")], scars=list(scars_), **changes)


@pytest.mark.parametrize(
    ("job", "said"),
    [
        # The lower edge of the scar with its margin is at 25 + 2 + 2 = 29 mm, the lamp begins at 20.
        (focal_over(scar(**{"from": ["30 mm", "25 mm"], "to": ["50 mm", "25 mm"]})), "Move lamp 9 mm lower: clear."),
        (focal_over(scar(**{"from": ["30 mm", "55 mm"], "to": ["50 mm", "55 mm"]})), "Move lamp 9 mm higher: clear."),
        (
            focal_over(scar(**{"from": ["25 mm", "30 mm"], "to": ["25 mm", "50 mm"]})),
            "Move lamp 9 mm to the right: clear.",
        ),
        # There, another scar: 9 mm lower the lamp would lie on it, and to the other side it is farther.
        (
            focal_over(
                scar(**{"from": ["30 mm", "25 mm"], "to": ["50 mm", "25 mm"]}),
                scar(id="s2", **{"from": ["0 mm", "72 mm"], "to": ["100 mm", "72 mm"]}),
                box=(20, 20, 40, 40),
            ),
            "Move lamp 34 mm to the right: clear.",
        ),
        # A mole, with its ring of 8 mm, in the way.
        (
            focal_over(
                scar(**{"from": ["30 mm", "25 mm"], "to": ["50 mm", "25 mm"]}), moles=[{"at": ["40 mm", "76 mm"]}]
            ),
            "Move lamp 34 mm to the right: clear.",
        ),
        (
            focal_over(scar(**{"from": ["0 mm", "50 mm"], "to": ["100 mm", "50 mm"]}), box=(5, 20, 90, 60)),
            "Nowhere in the piece is lamp clear as it is",
        ),
    ],
)
def test_the_nearest_shift_of_a_focal_part(job: Written, said: str) -> None:
    assert said in remedy_of(planned(job), "scar-rules.scar-focal")


def test_the_part_is_clear_where_the_shift_leads_and_not_before() -> None:
    across = {"from": ["22 mm", "28 mm"], "to": ["58 mm", "33 mm"]}
    remedy = remedy_of(planned(focal_over(scar(**across))), "scar-rules.scar-focal")
    far = int(remedy.rpartition("lamp ")[2].split(" ")[0])
    assert "higher" not in remedy and "lower" in remedy
    moved = focal_over(scar(**across), box=(20, 20 + far, 40, 40))
    assert planned(moved).verdict.level == "clear"
    # 2 mm of margin are to spare: 3 mm less far and it crosses.
    assert planned(focal_over(scar(**across), box=(20, 20 + far - 3, 40, 40))).verdict.level == "wait"


def test_where_a_shift_would_lead_over_another_part_it_is_said() -> None:
    job = focal_over(scar(**{"from": ["30 mm", "25 mm"], "to": ["50 mm", "25 mm"]}))
    job["parts"].append(part("rocks", (20, 64, 40, 20), role="filler"))
    assert "Move lamp 9 mm lower: clear, then over rocks." in remedy_of(planned(job), "scar-rules.scar-focal")


@pytest.mark.parametrize(("rule", "item"), [("scar-high", {"height": "3 mm"}), ("scar-keep-off", {"wish": "leave"})])
def test_every_rule_that_asks_for_another_drawing_says_how_far(rule: str, item: Written) -> None:
    assert "Move ground 24 mm lower: clear" in remedy_of(crossed(**item), f"scar-rules.{rule}")


def test_a_part_too_near_to_a_mole_is_told_how_far() -> None:
    made = planned(simple(moles=[{"at": ["14 mm", "40 mm"], "keep": "8 mm"}]))
    # 20 − 14 = 6 mm of 8.
    assert remedy_of(made, "studio.limits.mole_clearance").endswith("Move lamp 2 mm to the right: clear.")


def test_a_shift_says_nothing_of_a_cause() -> None:
    made = planned(focal_over(scar(**MIDDLE, after="burn")))
    assert all("clear." not in f.remedy for f in made.findings if f.rule == "scar-rules.scar-after-burn")


def test_an_open_answer_never_takes_a_limit_away() -> None:
    """What is not known counts: no row gets more passes or less time by silence."""
    told = crossed("1207RL", height="1 mm", type="raised")
    known = over(told)[0]
    for key, word in itertools.product(("type", "height", "wound", "colour", "feel", "wish"), (None, "unknown")):
        job = simple(
            parts=[part("ground", role="filler", lines=lines("1207RL")), LAMP],
            scars=[scar(**MIDDLE, height="1 mm", type="raised")],
        )
        silent = next(s for s in steps_of(changed(job, "scars", 0, key, to=word)) if s.part.id == "ground")
        assert silent.minutes.high >= known.minutes.high - 1e-9, key
        limits = [[o.passes.low for o in step.over if o.passes] for step in (silent, known)]
        assert limits[0] <= limits[1], key
