"""With what each step is done, and what a job may not ask for."""

from __future__ import annotations

import ast
import dataclasses
from pathlib import Path

import pytest

from generator.diagnostics import Diagnostic, Place
from generator.planning.computed import Recorded
from generator.planning.plan import plan
from generator.planning.working.calibration import calibration_for
from generator.planning.working.hang_out import middle_hang_out
from generator.planning.working.steps import Step
from generator.quantities import Quantity
from generator.records.across import across_families
from generator.records.families import Records
from generator.trade.calibration import Conditions, Point, frequency_at
from tests.planning.demo import RECORDS, Written, changed, job_of, part, simple, steps_of, try_plan, with_entry, written

PLANNING = Path(plan.__code__.co_filename).parent


def lines(**choice: str) -> Written:
    return simple(parts=[part("lamp", focal="yes", lines=[{"needle": "1207RL", "length": "300 mm", **choice}])])


def fill(**choice: str) -> Written:
    return simple(parts=[part("lamp", focal="yes", lines=None, colours=[{"ink": "black-line", **choice}])])


def only_step(job: Written, records: Records = RECORDS) -> Step:
    (step,) = steps_of(job, records)
    return step


def one_mistake(job: Written) -> Diagnostic:
    made, report = try_plan(job)
    assert made is None and len(report) == 1, report
    return report[0]


@pytest.mark.parametrize(
    ("job", "code", "key"),
    [
        # The dial against the machine's limits: metronome turns 40–120 Hz.
        (lines(needle="1210RL", machine="metronome", dial="125 Hz"), "J606", "dial"),
        # The wrong unit for the dial.
        (lines(machine="kettle", dial="7 V"), "J604", "dial"),
        (lines(machine="lathe", dial="100 Hz"), "J604", "dial"),
        # Volts below and beyond what the dial shows, 4–10 V.
        (lines(machine="lathe", dial="3.9 V"), "J606", "dial"),
        (lines(machine="lathe", dial="10.1 V"), "J606", "dial"),
        # Hang-out against grouping (rounds 1.5–4 mm, rows 1.5–3 mm).
        (lines(hang_out="1.4 mm"), "J607", "hang_out"),
        (lines(hang_out="4.1 mm"), "J607", "hang_out"),
        (fill(hang_out="3.1 mm"), "J607", "hang_out"),
        # A stroke that the machine does not have, and one that it was never measured with.
        (lines(machine="metronome", stroke="4 mm"), "J603", "stroke"),
        (lines(machine="lathe", stroke="4 mm"), "J603", "stroke"),
        # A row of needles runs no line.
        (lines(needle="1215CM"), "J602", "needle"),
        # Volts that were measured with a round cartridge say nothing about a magnum.
        (fill(machine="lathe", technique="soft-shading", hang_out="2 mm"), "A902", "technique"),
        # A technique for areas does not run lines, and the other way round.
        (lines(technique="stippling", needle="1005RL"), "J609", "technique"),
        (fill(technique="lining", needle="1207RL"), "J609", "technique"),
    ],
)
def test_what_cannot_be_set_is_one_mistake_at_the_jobs_line(job: Written, code: str, key: str) -> None:
    mistake = one_mistake(job)
    assert mistake.code == code
    line = Path(mistake.place.file).read_text("utf-8").splitlines()[mistake.place.line - 1]
    assert line.strip(" -").startswith(f"{key}:"), (line, mistake)
    assert mistake.place.file.endswith("signal-lamp.yml") and mistake.help


def test_a_machine_that_cannot_hang_out_so_far() -> None:
    narrow = with_entry("machines", "kettle", hang_out=Quantity(0, 2.5, "length", "0–2.5 mm"))
    made, report = try_plan(lines(machine="kettle", hang_out="3 mm"), narrow)
    assert made is None and [d.code for d in report] == ["J607"]
    assert try_plan(lines(machine="kettle", hang_out="2.5 mm"), narrow)[1] == ()


def test_no_hang_out_suits_all_three() -> None:
    narrow = with_entry("machines", "kettle", hang_out=Quantity(0, 1, "length", "0–1 mm"))
    assert [d.code for d in try_plan(lines(machine="kettle"), narrow)[1]] == ["J608"]


def test_a_machine_without_a_fitting_stroke_or_calibration() -> None:
    never_measured = with_entry("machines", "lathe", strokes=(Quantity(4, 4, "length", "4 mm"),))
    (mistake,) = try_plan(lines(machine="lathe"), never_measured)[1]
    assert mistake.code == "J603" and "machines that could: Kettle, Metronome" in mistake.help
    # A stroke outside the technique's is what the machine can do: it is planned.
    short = with_entry("machines", "kettle", strokes=(Quantity(2.5, 2.5, "length", "2.5 mm"),))
    (step,) = steps_of(lines(machine="kettle"), short)
    assert [outside.what for outside in step.setting.outside] == ["stroke"]
    # Where the job names no machine, one with a usual stroke is taken instead.
    assert steps_of(lines(), short)[0].setting.machine.id != "kettle"


def test_the_stroke_is_the_one_nearest_to_the_middle() -> None:
    strokes = tuple(Quantity(s, s, "length", f"{s} mm") for s in (3.0, 3.5, 3.8, 4.0))
    (step,) = steps_of(lines(machine="kettle"), with_entry("machines", "kettle", strokes=strokes))
    assert step.setting.stroke.low == 3.8  # of 3.5–4 mm


def test_several_mistakes_are_told_in_one_go() -> None:
    job = simple(
        parts=[
            part(
                "one",
                lines=[
                    {"needle": "1207RL", "length": "90 mm", "dial": "20 Hz"},
                    {"needle": "1209RL", "length": "90 mm", "hang_out": "6 mm"},
                ],
            )
        ]
    )
    made, report = try_plan(job)
    assert made is None and [d.code for d in report] == ["J606", "J607"]


@pytest.mark.parametrize("dial", ["90 Hz", "120 Hz"])
def test_the_ends_of_a_range_belong_to_it(dial: str) -> None:
    assert only_step(lines(dial=dial)).setting.speed.low == float(dial.split()[0])


def test_strokes_a_minute_are_no_revolutions() -> None:
    # 6000 strokes/min is 100 Hz.
    assert only_step(lines(dial="6000 strokes/min")).setting.speed.low == 100


def test_a_dial_in_volts_picks_the_machine_that_shows_volts() -> None:
    step = only_step(lines(dial="7.5 V"))
    assert step.setting.machine.id == "lathe"
    # Straight lines between the measured points: 7 V is 97 Hz and 8 V is 112 Hz.
    assert step.setting.speed.low == pytest.approx(104.5)
    assert step.setting.spacing.low == pytest.approx(5 / 104.5, rel=1e-8)


def test_volts_and_hertz_are_converted_both_ways() -> None:
    measured = calibration_for(RECORDS, RECORDS.machines["lathe"], 3.5, "round")
    assert measured is not None
    points = [Point(v.low, f.low) for v, f in measured.points]
    conditions = Conditions("lathe", 3.5, measured.cartridge, measured.supply)
    step = only_step(lines(machine="lathe"))
    # 100 Hz lies between 97 Hz at 7 V and 112 Hz at 8 V.
    assert step.setting.speed.low == 100 and step.setting.dial.low == pytest.approx(7.2)
    assert frequency_at(step.setting.dial.low, points, conditions, conditions) == pytest.approx(100)
    back = only_step(lines(machine="lathe", dial=f"{step.setting.dial.low} V"))
    assert back.setting.speed.low == pytest.approx(100, rel=1e-8)


def test_a_calibration_holds_for_its_stroke_only() -> None:
    lathe = RECORDS.machines["lathe"]
    assert calibration_for(RECORDS, lathe, 4.0, "round") is None
    three = calibration_for(RECORDS, lathe, 3.0, "round")
    assert three is not None and three.id == "lathe-three"


def test_volts_measured_with_a_round_cartridge_are_no_answer_for_a_row() -> None:
    magnum = simple(
        parts=[
            part("lamp", focal="yes", lines=None, colours=[{"ink": "slate-blue", "area": "4 cm²", "machine": "lathe"}])
        ]
    )
    made, report = try_plan(magnum)
    assert made is None
    assert [d.code for d in report] == ["A902"]
    assert "cartridge" in report[0].message and "measure" in report[0].help


def test_the_newest_calibration_counts() -> None:
    newer = RECORDS.calibrations["lathe-three"].measured.replace(year=2028)
    records = with_entry("calibrations", "lathe-three", stroke=Quantity(3.5, 3.5, "length", "3.5 mm"), measured=newer)
    chosen = calibration_for(records, records.machines["lathe"], 3.5, "round")
    assert chosen is not None and chosen.id == "lathe-three"


@pytest.mark.parametrize("name", ["tide-table", "keepers-lantern", "stairwell"])
def test_every_setting_lies_in_every_range(name: str) -> None:
    for step in steps_of(written(name)):
        s = step.setting
        ranges = [s.technique.hang_out, s.grouping.hang_out, s.machine.hang_out]
        assert all(r.low <= s.hang_out.low == s.hang_out.high <= r.high for r in ranges)
        assert s.machine.limits.low <= s.dial.low == s.dial.high <= s.machine.limits.high
        assert s.technique.stroke.low <= s.stroke.low <= s.technique.stroke.high
        assert s.stroke.low in [stroke.low for stroke in s.machine.strokes]


@pytest.mark.parametrize(
    ("technique", "grouping", "machine", "chosen"),
    [
        ((2, 4), (2, 4), (0, 5), 3),
        ((1.5, 3), (1.5, 3), (0, 5), 2),  # between two steps, the shorter
        ((2, 3.5), (2, 4), (0, 5), 2.5),
        ((2.1, 2.3), (2, 4), (0, 5), 2.1),  # no whole step inside: the end next to one
        ((2, 4), (3.8, 5), (0, 3.9), 3.9),
    ],
)
def test_hang_out_is_the_middle_in_whole_steps(
    technique: tuple[float, float], grouping: tuple[float, float], machine: tuple[float, float], chosen: float
) -> None:
    assert middle_hang_out(technique, grouping, machine, 0.5) == pytest.approx(chosen)


def test_hang_out_is_never_compared_with_the_thickness_of_skin() -> None:
    for path in PLANNING.glob("*.py"):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            named = getattr(node, "attr", None) or getattr(node, "id", None) or getattr(node, "arg", None)
            assert named != "thickness", path.name


def test_what_a_job_chooses_is_taken() -> None:
    step = only_step(lines(machine="metronome", dial="95 Hz", hang_out="2.5 mm"))
    assert (step.setting.machine.id, step.setting.dial.low, step.setting.hang_out.low) == ("metronome", 95, 2.5)


def test_rows_that_choose_the_same_number_know_each_its_own() -> None:
    line = {"needle": "1207RL", "length": "300 mm"}
    for own in ({"hang_out": "3 mm"}, {"machine": "metronome", "dial": "100 Hz"}):
        steps = steps_of(simple(parts=[part("lamp", focal="yes", lines=[{**line, **own}, {**line, **own}, line])]))
        values = [value for step in steps for value in (step.setting.hang_out, step.setting.dial)]
        where = [v.origin.path for v in values if isinstance(v, Recorded) and v.origin.keys[:1] == ("jobs",)]
        assert sorted(where) == [f"jobs.signal-lamp.parts.lamp.lines.{n}.{[*own][-1]}" for n in (0, 1)], own


def test_what_a_job_leaves_open_comes_from_the_technique() -> None:
    step = only_step(fill())
    assert step.setting.technique.id == "packing" and step.setting.grouping.id == "1215CM"
    assert step.setting.machine.id == RECORDS.techniques["packing"].machines[0]


def test_a_measured_fresh_line_wins_over_the_needles_width() -> None:
    assert only_step(lines()).setting.width.low == 0.7
    # 9 × 0.35 mm in the tightest bundle: 3.6131259298 · 0.35 (Birgin & Gentil 2009, Table 1).
    computed = only_step(lines(needle="1209RL"), with_entry("groupings", "1209RL", fresh_line=None))
    assert computed.setting.width.low == pytest.approx(3.6131259298 * 0.35, rel=1e-8)
    assert job_of(changed(lines(), "parts", 0, "detail", to="fine")).parts[0].detail == "fine"


def test_a_line_of_more_needles_that_is_the_narrower_one_is_said_once() -> None:
    """Where both are measured one was misread; a measured one beside a calculated one compares unlike things."""

    def found(**lines: str | None) -> list[tuple[str, str, str]]:
        groupings = dict(RECORDS.groupings)
        for name, line in lines.items():
            width = (
                None
                if line is None
                else Quantity(float(line), float(line), "needle length", f"{line} mm", Place("", 1, 1, 2))
            )
            groupings[name[1:]] = groupings[name[1:]].model_copy(update={"fresh_line": width})
        said = across_families(dataclasses.replace(RECORDS, groupings=groupings))
        return [(one.code, one.says, one.help.split(",")[0].split(":")[0]) for one in said]

    again, other = "measure both lines once more", "measure the other one too"
    assert found() == found(_1205RL=None, _1207RL=None, _1209RL=None, _1210RL=None) == []
    assert found(_1207RL="0.55") == [("L412", "`1207RL` 0.55 mm as measured and `1205RL` 0.60 mm as measured", again)]
    assert found(_1205RL=None) == [("L412", "`1207RL` 0.70 mm as measured and `1205RL` 0.95 mm as calculated", other)]
    # Another wire, and letters of another kind, are no smaller ones.
    assert found(_1003RL="0.65", _1005RL=None, _1014RL="0.5", _1209RS="0.3") == []
