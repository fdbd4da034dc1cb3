"""Notes on weight, strong colour, lonely inks, loud fillers and sizes: each where it holds, and no more than a note."""

from __future__ import annotations

import dataclasses
from typing import Any

import pytest

from generator.planning.plan import JobPlan
from generator.quantities import written as quantity
from generator.records.families import Records
from tests.planning.demo import RECORDS, Written, part, planned, simple, with_limits

COMPOSITION = RECORDS.studio.limits.composition


def filled(name: str, box: tuple[int, int, int, int], inks: dict[str, int], **changes: Any) -> Written:
    """A part that is filled, with the area of each ink in cm²."""
    colours = [{"ink": ink, "area": f"{area} cm²"} for ink, area in inks.items()]
    return part(name, box, lines=None, colours=colours, **{"focal": "no", **changes})


def drawn(*parts: Written, size: str = "100 mm x 150 mm", records: Records = RECORDS) -> JobPlan:
    return planned(simple(size=size, parts=list(parts)), records)


def notes(made: JobPlan) -> dict[str, str]:
    """By limit what is said."""
    found = {
        f.rule.rpartition(".")[2]: f.reason.replace("\u00a0", " ") for f in made.findings if ".composition." in f.rule
    }
    assert all(f.level == "note" for f in made.findings if ".composition." in f.rule)
    return found


UPPER, MIDDLE, LOWER = (30, 5, 40, 40), (30, 55, 40, 40), (30, 105, 40, 40)


@pytest.mark.parametrize(
    ("upper", "lower", "said"),
    [
        # Harbour blue has a chroma of 38: 8 of 10 cm² are 80 % of the weight.
        (2, 8, "The weight of colour lies in the lower third: 80 % of it."),
        (8, 2, "The weight of colour lies in the upper third: 80 % of it."),
        (5, 6, None),
    ],
)
def test_weight_by_thirds(upper: int, lower: int, said: str | None) -> None:
    made = drawn(
        filled("lamp", UPPER, {"harbour-blue": upper}, focal="yes"), filled("sea", LOWER, {"harbour-blue": lower})
    )
    assert notes(made).get("third") == said


def test_weight_is_by_chroma_and_not_by_area_alone() -> None:
    # Ice blue has a chroma of 11, brass of 41: the smaller area is the larger part of the weight.
    made = drawn(filled("lamp", UPPER, {"ice-blue": 10}, focal="yes"), filled("sea", LOWER, {"brass": 8}))
    assert "lower third: 75 %" in notes(made)["third"]
    black = drawn(filled("lamp", UPPER, {"black-line": 30}, focal="yes"), filled("sea", LOWER, {"wash-mid": 5}))
    assert not {"third", "off_centre", "filler_louder"} & set(notes(black))


def test_weight_in_the_middle_is_where_it_balances() -> None:
    made = drawn(filled("lamp", MIDDLE, {"harbour-blue": 9}, focal="yes"), filled("sea", LOWER, {"harbour-blue": 1}))
    assert "third" not in notes(made) and "off_centre" not in notes(made)


def test_thirds_run_along_the_longer_side() -> None:
    left, right = (5, 30, 40, 40), (105, 30, 40, 40)
    made = drawn(
        filled("lamp", left, {"harbour-blue": 2}, focal="yes"),
        filled("sea", right, {"harbour-blue": 8}),
        size="150 mm x 100 mm",
    )
    assert "right third" in notes(made)["third"] and "right of the middle" in notes(made)["off_centre"]


def test_strong_colour_in_one_third() -> None:
    # Signal red in two parts of the lower third; the quiet blue above does not count.
    made = drawn(
        filled("lamp", UPPER, {"ice-blue": 9}, focal="yes"),
        filled("boat", (5, 105, 30, 40), {"signal-red": 2}, role="secondary"),
        filled("buoy", (65, 105, 30, 40), {"signal-red": 2}, role="secondary"),
    )
    assert notes(made)["strong_third"] == "Strong colour is collected in the lower third: 100 % of it."
    assert "third" not in notes(made), "the same thing is not said twice"
    spread = drawn(filled("lamp", UPPER, {"signal-red": 2}, focal="yes"), filled("boat", LOWER, {"signal-red": 2}))
    assert "strong_third" not in notes(spread)


@pytest.mark.parametrize(("deep", "red"), [("#6d1b1f", True), ("#722f37", True), ("#553c2b", False)])
def test_deep_reds_count_as_reds(deep: str, red: bool) -> None:
    """They are strong colours, of the family of red: one more beside a signal red is no second family."""
    inks = {**RECORDS.inks, "rust": RECORDS.inks["rust"].model_copy(update={"swatch": deep})}
    records = dataclasses.replace(RECORDS, inks=inks)
    lamp = filled("lamp", MIDDLE, {"signal-red": 2, "rust": 2, "amber": 2}, focal="yes")
    made = drawn(lamp, records=records)
    # Red and orange are two families, and two commonly carry a piece.
    assert all(f.rule != "studio.limits.strong_colours" for f in made.findings)
    lemon = filled("sun", UPPER, {"lemon": 1}, role="secondary")
    three = drawn(filled("lamp", MIDDLE, {"rust": 2, "amber": 2}, focal="yes"), lemon, records=records)
    said = [f.reason for f in three.findings if f.rule == "studio.limits.strong_colours"]
    assert said == (["3 strong colours: Amber, Lemon, Rust."] if red else [])


def test_inks_of_one_family_are_counted_and_named_as_one_colour() -> None:
    made = drawn(filled("lamp", MIDDLE, {"amber": 1, "ochre": 1, "lemon": 1, "oxide-red": 1}, focal="yes"))
    said = [f.reason for f in made.findings if f.rule == "studio.limits.strong_colours"]
    assert said == ["3 strong colours: Amber and Ochre, Lemon, Oxide red."]


@pytest.mark.parametrize(
    ("first", "second", "said"),
    [
        (["harbour-blue"], ["harbour-blue"], None),
        (["harbour-blue", "plum"], ["harbour-blue"], "Used once: Plum (lamp)."),
        (["plum"], ["moss"], "Used once: Plum (lamp), Moss (sea)."),
        # Nothing can be taken up elsewhere where only one part is coloured; black and washes are no colour.
        (["plum"], ["black-line"], None),
    ],
)
def test_an_ink_that_is_used_once(first: list[str], second: list[str], said: str | None) -> None:
    made = drawn(
        filled("lamp", UPPER, dict.fromkeys(first, 2), focal="yes"), filled("sea", LOWER, dict.fromkeys(second, 2))
    )
    assert notes(made).get("ink_in_parts") == said


@pytest.mark.parametrize(
    ("main", "filler", "said"),
    [
        ({"harbour-blue": 4}, {"harbour-blue": 4}, None),
        ({"harbour-blue": 4}, {"harbour-blue": 6}, "Filler sea is louder in colour than the main part: 1.5 times."),
        ({"black-line": 9}, {"harbour-blue": 1}, "Filler sea is louder in colour than the main part: that has none."),
        ({"harbour-blue": 1}, {"wash-dark": 20}, None),
    ],
)
def test_a_filler_that_is_louder_than_the_main_part(
    main: dict[str, int], filler: dict[str, int], said: str | None
) -> None:
    made = drawn(filled("lamp", UPPER, main, focal="yes"), filled("sea", LOWER, filler, role="filler"))
    assert notes(made).get("filler_louder") == said


@pytest.mark.parametrize(
    ("secondary", "filler", "said"),
    [
        ((5, 55, 30, 30), (5, 105, 20, 20), None),
        # 1600 to 1125 mm² are 1.4 to 1.
        ((5, 55, 45, 25), (5, 105, 20, 20), "lamp, main, and boat, secondary, are nearly as large: 1.4 to 1."),
        ((5, 55, 30, 30), (5, 105, 30, 31), "boat, secondary, and sea, filler, are nearly as large: 1.0 to 1."),
        # A ground that is larger than what stands on it is a step as well.
        ((5, 55, 30, 30), (0, 100, 100, 50), None),
    ],
)
def test_sizes_step_between_main_secondary_and_filler(
    secondary: tuple[int, int, int, int], filler: tuple[int, int, int, int], said: str | None
) -> None:
    made = drawn(
        part("lamp", UPPER, focal="yes"),
        part("boat", secondary, role="secondary"),
        part("sea", filler, role="filler"),
    )
    assert notes(made).get("size_step") == said


def test_thresholds_are_the_studios_and_rest_on_common_practice() -> None:
    made = drawn(filled("lamp", UPPER, {"plum": 2}, focal="yes"), filled("sea", LOWER, {"moss": 9}))
    found = [f for f in made.findings if ".composition." in f.rule]
    assert found and {f.source for f in found} == {"common-practice"}
    lenient = COMPOSITION.model_copy(
        update={
            "third": quantity("100 %"),
            "off_centre": quantity("50 %"),
            "ink_in_parts": 1,
            "size_step": 1.0,
            "filler_louder": quantity("500 %"),
        }
    )
    quiet = drawn(
        filled("lamp", UPPER, {"plum": 2}, focal="yes"),
        filled("sea", LOWER, {"moss": 9}),
        records=with_limits(composition=lenient),
    )
    assert notes(quiet) == {}
