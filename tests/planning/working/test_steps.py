"""The order of work: lines, black and washes, colours from dark to light, white last."""

from __future__ import annotations

import dataclasses
import re
from itertools import pairwise

import pytest
from hypothesis import given, settings

from generator.planning.as_json import plan_as_data
from generator.planning.plan import JobPlan
from generator.planning.working.reach import NARROW
from generator.planning.working.steps import BLACKS, COLOURS, LINES, WHITES, Step
from tests.planning.demo import JOBS, RECORDS, Written, changed, demo, part, planned, simple, steps_of, written
from tests.planning.random_jobs import parts
from tests.planning.test_permissiveness import often

SECTIONS = [LINES, BLACKS, COLOURS, WHITES]


def lightness(swatch: str) -> float:
    """CIELAB L* under D65 from sRGB by the formulas of IEC 61966-2-1 and CIE 15, written out for this test."""
    linear = []
    for at in (1, 3, 5):
        value = int(swatch[at : at + 2], 16) / 255
        linear.append(value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4)
    luminance = 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
    return 116 * luminance ** (1 / 3) - 16 if luminance > 216 / 24389 else luminance * 24389 / 27


def in_order(steps: tuple[Step, ...]) -> None:
    """What holds of an order by ink."""
    sections = [SECTIONS.index(step.section) for step in steps]
    assert sections == sorted(sections)
    for before, after in pairwise(steps):
        if before.section != after.section or after.section == LINES:
            continue
        kinds = ["black", "wash", "colour", "white"]
        assert kinds.index(before.ink.kind) <= kinds.index(after.ink.kind)
        if before.ink.kind == after.ink.kind:
            assert lightness(before.ink.swatch) <= lightness(after.ink.swatch) + 0.01
    for step in steps:
        if step.section != LINES:
            belongs = {"black": BLACKS, "wash": BLACKS, "colour": COLOURS, "white": WHITES}
            assert step.section == belongs[step.ink.kind]


def test_lightness_of_this_test_is_that_of_the_published_values() -> None:
    # A public image library's test data: red 53.2408, yellow 97.1393, blue 32.2970, #808080 53.5850.
    for swatch, published in (("#ff0000", 53.2408), ("#ffff00", 97.1393), ("#0000ff", 32.2970), ("#808080", 53.5850)):
        assert lightness(swatch) == pytest.approx(published, abs=0.03)


@pytest.mark.parametrize("name", JOBS)
def test_order_of_every_demo_job(name: str) -> None:
    job = {**written(name), "order": "by ink"}
    steps = steps_of(job)
    in_order(steps)
    # An area that is split between a magnum and a round is one ink still.
    split = sum(step.places == NARROW for step in steps)
    assert len(steps) - split == sum(len(p.get("lines", [])) + len(p.get("colours", [])) for p in job["parts"])


@settings(often, max_examples=often.max_examples * 5)
@given(parts())
def test_order_of_random_jobs(found: list[Written]) -> None:
    steps = steps_of(simple(size="200 mm x 200 mm", parts=found, order="by ink"))
    in_order(steps)
    assert len(steps) == sum(len(p.get("lines", [])) + len(p.get("colours", [])) for p in found)


def test_colours_of_the_lantern_run_from_dark_to_light() -> None:
    inks = [str(s.ink.id) for s in steps_of({**written("keepers-lantern"), "order": "by ink"}) if s.section != LINES]
    assert inks == ["black-shade", "wash-dark", "wash-mid", "plum", "rust", "slate-blue", "amber", "white"]


def lined(job: Written) -> list[str]:
    return [str(step.part.id) for step in steps_of(job) if step.section == LINES]


def test_lining_keeps_the_stencil_for_either_hand() -> None:
    # Common practice, no published source: the hand rests nearer to the artist and on its own side.
    row = [part("west", (0, 40, 20, 20)), part("middle", (40, 40, 20, 20)), part("east", (80, 40, 20, 20))]
    assert lined(simple(artist="quill", parts=row)) == ["east", "middle", "west"]
    assert lined(simple(artist="mo", parts=row)) == ["west", "middle", "east"]
    column = [part("far", (40, 0, 10, 10)), part("near", (40, 85, 10, 10))]
    for artist in ("quill", "mo"):
        assert lined(simple(artist=artist, parts=column)) == ["near", "far"]


@often
@given(parts())
def test_a_mirrored_piece_under_the_other_hand_is_lined_alike(found: list[Written]) -> None:
    def mirrored(one: Written) -> Written:
        x, _, across, _ = (int(side.split()[0]) for side in one["box"])
        return changed(one, "box", 0, to=f"{200 - x - across} mm")

    right = lined(simple(size="200 mm x 200 mm", artist="quill", parts=found))
    assert right == lined(simple(size="200 mm x 200 mm", artist="mo", parts=[mirrored(one) for one in found]))


@often
@given(parts())
def test_what_the_hand_covers_is_lined_already(found: list[Written]) -> None:
    """Of two parts one row or more apart the nearer is first; side by side, the one on the hand's side."""
    boxes = {one["id"]: [int(side.split()[0]) for side in one["box"]] for one in found}
    order = list(dict.fromkeys(lined(simple(size="200 mm x 200 mm", artist="quill", parts=found))))
    for number, first in enumerate(order):
        for later in order[number + 1 :]:
            reach = {name: boxes[name][1] + boxes[name][3] for name in (first, later)}
            # The house's row is 40 mm deep.
            assert reach[later] - reach[first] < 40


def same(one: JobPlan, other: JobPlan) -> None:
    data = [plan_as_data(made) for made in (one, other)]
    for made in data:
        for finding in made["findings"]:
            del finding["reason"]  # a gap is told as it was typed
    assert data[0] == data[1]


@pytest.mark.parametrize("name", JOBS)
def test_the_same_job_twice_gives_the_same_plan(name: str) -> None:
    assert plan_as_data(demo(name)) == plan_as_data(demo(name))


def in_inches(value: object) -> object:
    """The job with every millimetre and square centimetre written in inches."""
    if isinstance(value, dict):
        return {key: in_inches(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [in_inches(inner) for inner in value]
    assert isinstance(value, str)

    def turned(match: re.Match[str]) -> str:
        factor, unit = (25.4, "in") if match["unit"] == "mm" else (6.4516, "in²")
        low, high = (f"{float(end) / factor:.12f}" if end else "" for end in (match["low"], match["high"]))
        return f"{low}–{high} {unit}" if high else f"{low} {unit}"

    return re.sub(r"(?P<low>\d+(?:\.\d+)?)(?:–(?P<high>\d+(?:\.\d+)?))? (?P<unit>mm|cm²)(?![²\w])", turned, value)


@pytest.mark.parametrize("name", JOBS)
def test_a_job_in_inches_gives_the_same_plan(name: str) -> None:
    job = written(name)
    imperial = in_inches(job)
    assert isinstance(imperial, dict) and "mm" not in str(imperial["size"])
    same(planned(job), planned(imperial))


@often
@given(parts())
def test_a_random_job_in_inches_gives_the_same_plan(found: list[Written]) -> None:
    job = simple(size="200 mm x 200 mm", parts=found, moles=[{"at": ["33 mm", "77 mm"], "keep": "9 mm"}])
    imperial = in_inches(job)
    assert isinstance(imperial, dict)
    same(planned(job), planned(imperial))


def test_the_order_in_which_parts_are_written_does_not_matter() -> None:
    job = written("keepers-lantern")
    turned = changed(job, "parts", to=list(reversed(job["parts"])))
    assert [(s.part.id, s.ink.id) for s in steps_of(job)] == [(s.part.id, s.ink.id) for s in steps_of(turned)]


def test_all_lines_are_run_in_line_black_unless_the_job_says_otherwise() -> None:
    # A part that is filled with another black is no reason to line it in that one.
    lamp, post = part("lamp", colours=["black-shade"]), part("post", (70, 20, 20, 40))

    def lines(*parts: Written, **changes: object) -> set[str]:
        return {str(s.ink.id) for s in steps_of(simple(parts=list(parts), **changes)) if s.section == LINES}

    assert lines(lamp, post) == {"black-line"}
    assert lines(lamp, post, line_ink="umber") == {"umber"}
    named = {**lamp, "lines": [{"needle": "1207RL", "length": "300 mm", "ink": "black-shade"}]}
    assert lines(named, post) == {"black-shade", "black-line"} and lines(named, line_ink="umber") == {"black-shade"}
    # What the studio's record says counts, and not which black is the first in the file.
    studio = RECORDS.studio.model_copy(update={"line_ink": RECORDS.inks["black-shade"].id})
    other = dataclasses.replace(RECORDS, studio=studio)
    assert {step.ink.id for step in steps_of(simple(parts=[lamp, post]), other)} == {"black-shade"}
    none = dataclasses.replace(RECORDS, studio=RECORDS.studio.model_copy(update={"line_ink": None}))
    assert steps_of(simple(), none)[0].ink.id == "black-line"


def test_two_blacks_for_lines_are_noted_unless_every_line_names_its_own() -> None:
    def noted(*inks: str | None) -> list[str]:
        lines = [[{"needle": "1207RL", "length": "300 mm", **({"ink": ink} if ink else {})}] for ink in inks]
        drawn = [part(f"p{n}", (n * 30, 20, 20, 40), lines=each) for n, each in enumerate(lines)]
        return [f.reason for f in planned(simple(parts=drawn)).findings if "blacks" in f.reason]

    assert noted("black-shade", None) == ["Lines in 2 blacks: Line black, Shading black."]
    assert noted("black-shade", "black-line") == noted(None, None) == noted("umber", None) == []
