"""Areas part by part or ink by ink: who decides, what comes first, and what either order costs in changes.

Common practice, no published source: the part with the darkest ink first, each part finished before the next, dark to
light, the inks of one hue in one go; white last over all.
"""

from __future__ import annotations

import json
from itertools import groupby, pairwise

import pytest
from hypothesis import given, settings

from generator.planning.as_json import plan_as_data
from generator.planning.working.order import Area, part_by_part
from generator.planning.working.steps import BLACKS, COLOURS, LINES, WHITES, Chosen, Step, order_of_work
from generator.press.sheet.plan_text import plan_text
from generator.press.sheet.rows import order_chosen
from generator.records.families import Records
from generator.trade import shapes
from generator.trade.colour import lab
from tests.planning.demo import RECORDS, Written, job_of, part, planned, simple, steps_of, with_entry, written
from tests.planning.random_jobs import parts
from tests.planning.test_permissiveness import often

LIMITS = RECORDS.studio.limits


def fill(name: str, across: int, *inks: str, wide: int = 40) -> Written:
    colours = [{"ink": ink, "area": "3 cm²"} for ink in inks]
    return part(name, (across, 0, wide, 40), lines=None, colours=colours)


def worked(*drawn: Written, **changes: object) -> list[str]:
    steps = steps_of(simple(size="300 mm x 200 mm", parts=list(drawn), **changes))
    return [f"{step.part.id} {step.ink.id}" for step in steps]


def test_a_part_is_finished_before_the_next_and_the_darkest_comes_first() -> None:
    pale, dark = fill("pale", 0, "sand", "wash-light"), fill("dark", 60, "amber", "black-shade", "wash-mid")
    deep = fill("deep", 120, "ice-blue", "deep-blue")
    assert worked(pale, dark, deep) == [
        "dark black-shade",
        "dark wash-mid",
        "dark amber",
        "deep deep-blue",
        "deep ice-blue",
        "pale wash-light",
        "pale sand",
    ]
    assert worked(pale, dark, deep, order="by ink") == [
        "dark black-shade",
        "dark wash-mid",
        "pale wash-light",
        "deep deep-blue",
        "dark amber",
        "pale sand",
        "deep ice-blue",
    ]


def test_of_equally_dark_inks_the_stronger_comes_first() -> None:
    areas = [Area(name, name, "", 2, 40.0, chroma, "", name) for name, chroma in (("dull", 10.0), ("strong", 60.0))]
    assert part_by_part(areas, {}, 2) == ["strong", "dull"]


def test_a_blend_of_one_hue_is_laid_in_one_go() -> None:
    # Dark to light alone would lay rust between the two blues.
    assert worked(fill("sky", 0, "dusk-violet", "deep-blue", "rust")) == [
        "sky deep-blue",
        "sky dusk-violet",
        "sky rust",
    ]
    # Lemon lies beside rust, which is darker by more than the studio's limit: the yellows wait, and stay together.
    assert worked(fill("sun", 0, "lemon", "moss", "rust")) == ["sun rust", "sun moss", "sun lemon"]
    # No order keeps these blues together and the pale one clean: then it waits.
    assert worked(fill("sea", 0, "coral", "deep-blue", "umber", "ice-blue"))[-1] == "sea ice-blue"


def test_a_light_ink_beside_a_later_darker_one_is_worked_after_it() -> None:
    one, two = fill("one", 0, "black-shade", "rust", "sand"), fill("two", 41, "deep-blue", "moss")
    assert worked(one, two) == ["one black-shade", "one rust", "two deep-blue", "two moss", "one sand"]
    # Farther away than the studio's limit nothing waits.
    two = fill("two", 43, "deep-blue", "moss")
    assert worked(one, two) == ["one black-shade", "one rust", "one sand", "two deep-blue", "two moss"]
    # A part that was left is finished before a third one begins.
    three = fill("three", 120, "bottle-green")
    one, two = fill("one", 0, "black-shade", "sand"), fill("two", 41, "deep-blue")
    assert worked(one, two, three)[-2:] == ["one sand", "three bottle-green"]


def test_white_is_last_over_all() -> None:
    one, two = fill("one", 0, "black-shade", "white"), fill("two", 60, "white-dim", "amber")
    for by in ("by part", "by ink"):
        assert [w.split()[1] for w in worked(one, two, order=by)][-2:] == ["white-dim", "white"]


@settings(often, max_examples=often.max_examples * 3)
@given(parts())
def test_what_holds_of_every_order_by_part(found: list[Written]) -> None:
    steps = steps_of(simple(size="200 mm x 200 mm", parts=found))
    assert len(steps) == sum(len(p.get("lines", [])) + len(p.get("colours", [])) for p in found)
    sections = [{LINES: 0, WHITES: 2}.get(step.section, 1) for step in steps]
    assert sections == sorted(sections)
    areas = [step for step in steps if step.section in (BLACKS, COLOURS)]
    for number, step in enumerate(areas):
        assert not any(light_beside(step, later) for later in areas[number + 1 :])
        # In its own part black and washes are laid before colours.
        if step.section == COLOURS:
            assert not any(a.section == BLACKS and a.part.id == step.part.id for a in areas[number + 1 :])
    # A part is left only where all that is left of it waits for a darker ink elsewhere.
    for number, (step, following) in enumerate(pairwise(areas)):
        left = [s for s in areas[number + 1 :] if s.part.id == step.part.id]
        if left and following.part.id != step.part.id:
            assert all(any(light_beside(one, later) for later in areas[number + 1 :]) for one in left)


def light_beside(light: Step, dark: Step) -> bool:
    """Written out for this test: gap and lightness by the studio's limits; washes are thin, and left out."""
    boxes = [shapes.Box(*(side.low for side in s.part.box)) for s in (light, dark) if s.part.box is not None]
    return (
        light.ink.kind == "colour"
        and dark.ink.kind != "wash"
        and lab(light.ink.swatch).lightness - lab(dark.ink.swatch).lightness >= LIMITS.darker_by
        and shapes.gap(*boxes) <= LIMITS.beside.low
    )


def chosen(job: Written, records: Records = RECORDS) -> Chosen:
    made = job_of(job)
    laid, report = order_of_work(records, made, records)
    assert laid is not None and not report
    return laid.order


def test_the_job_decides_before_the_artist_and_the_artist_before_the_studio() -> None:
    used_to_ink = with_entry("people", "quill", order="by ink")
    assert (chosen(simple()).by, chosen(simple()).decided_by) == ("by part", "studio")
    habit = chosen(simple(), used_to_ink)
    assert (habit.by, habit.decided_by) == ("by ink", "artist")
    said = chosen(simple(order="by part"), used_to_ink)
    assert (said.by, said.decided_by) == ("by part", "job")
    mine = steps_of(written("keepers-lantern"), with_entry("people", "mo", order="by ink"))
    assert mine == steps_of({**written("keepers-lantern"), "order": "by ink"})


@pytest.mark.parametrize("by", ["by part", "by ink"])
def test_changes_are_counted_for_both_orders_and_the_sheet_says_them(by: str) -> None:
    job = {**written("keepers-lantern"), "order": by}
    made = planned(job)
    assert made.work is not None
    counted = {}
    for way in ("by part", "by ink"):
        steps = steps_of({**job, "order": way})
        needles = [(step.setting.grouping.id, step.section == WHITES) for step in steps]
        counted[way] = tuple(len(list(groupby(held))) - 1 for held in (needles, [step.ink.id for step in steps]))
    order = made.work.order
    assert (order.changes.cartridges.low, order.changes.inks.low) == counted[by]
    assert (order.other_changes.cartridges.low, order.other_changes.inks.low) == counted[order.other]
    # Nine and eight by part, seven and eight by ink.
    more = {
        "by part": "cartridge changed 9×, ink 8×; by ink 7× and 8×",
        "by ink": "cartridge changed 7×, ink 8×; by part 9× and 8×",
    }
    said = plan_text(RECORDS, made)
    assert f"Order {by}, as the job says: {more[by]}" in said
    assert json.dumps(plan_as_data(made)["work"]["order"]["changes"]["cartridges"]["value"]) in ("9", "9.0", "7", "7.0")


def test_changes_of_several_sittings_are_said_to_be_of_all() -> None:
    """The sheet has the rows of one sitting, and the counts are those of the piece."""
    for area, label in (("5 cm²", "Order by part:"), ("200 cm²", "Order by part, over all sittings:")):
        made = planned(
            simple(
                size="200 mm x 200 mm", parts=[part("lamp", (0, 0, 200, 200), colours=[{"ink": "amber", "area": area}])]
            )
        )
        assert made.work is not None
        assert [pair.label for pair in order_chosen(made.work)] == [label], area
