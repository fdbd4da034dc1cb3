"""A magnum for what it reaches, a round for the rest. Common practice: rounds fill what a magnum cannot enter."""

from __future__ import annotations

import pytest

from generator.planning.working.reach import NARROW, WIDE
from generator.planning.working.steps import Step
from generator.planning.working.widths import width_of
from generator.trade.labels import ROUNDS, read_label
from generator.trade.shapes import Outline, not_reached, not_reached_by_taper
from tests.planning.demo import RECORDS, Written, part, planned, simple, steps_of

MAGNUM = RECORDS.groupings["1215CM"]
WIDTH = width_of(MAGNUM).high  # 14 · 0.525 / 2 + 0.35 mm = 4.025 mm
BLACK: Written = {"ink": "black-shade", "area": "4 cm²"}
LOZENGE = [["10 mm", "34 mm"], ["75 mm", "28 mm"], ["140 mm", "34 mm"], ["75 mm", "40 mm"]]


def filled(box: tuple[int, int, int, int] = (20, 20, 40, 40), ink: Written = BLACK, **changes: object) -> list[Step]:
    one = part("area", box, **{"lines": None, "narrowest": None, "colours": [ink], "focal": "yes", **changes})
    return sorted(steps_of(simple(size="150 mm x 150 mm", parts=[one])), key=lambda step: step.places, reverse=True)


def pointed(**changes: str) -> list[Step]:
    one = {**part("area", lines=None, narrowest=None, colours=[{**BLACK, **changes}], focal="yes"), "outline": LOZENGE}
    del one["box"]
    return sorted(steps_of(simple(size="150 mm x 150 mm", parts=[one])), key=lambda step: step.places, reverse=True)


def is_round(step: Step) -> bool:
    return read_label(step.setting.grouping.label).configuration in ROUNDS


def test_the_width_of_the_magnum() -> None:
    assert pytest.approx(14 * 0.525 / 2 + 0.35) == WIDTH


def test_what_the_magnum_does_not_reach_is_a_row_for_a_round() -> None:
    wide, narrow = pointed()
    assert (wide.places, narrow.places) == (WIDE, NARROW)
    assert wide.setting.grouping.id == "1215CM" and is_round(narrow)
    left = not_reached(Outline(tuple((float(x.split()[0]), float(y.split()[0])) for x, y in LOZENGE)), WIDTH)
    assert left > RECORDS.studio.limits.left_to_round.low
    assert narrow.amount.low == pytest.approx(400 * left / 100)
    assert wide.amount.low + narrow.amount.low == pytest.approx(400)
    # Each with its own minutes, and none lost: 0.3–0.6 cm² a minute.
    assert narrow.minutes.low == pytest.approx(4 * left / 100 / 0.6)
    assert wide.minutes.low + narrow.minutes.low == pytest.approx(4 / 0.6, rel=1e-6)


def test_the_typed_narrowest_place_decides_where_there_is_one() -> None:
    assert [step.places for step in pointed(narrowest="5 mm")] == [""]
    assert [step.places for step in filled()] == [""]
    _, narrow = filled(ink={**BLACK, "narrowest": "2 mm"})
    assert is_round(narrow) and width_of(narrow.setting.grouping).high <= 2
    # Somebody has seen such a place: it is never nothing.
    assert narrow.amount.low == pytest.approx(400 * RECORDS.studio.limits.left_to_round.low / 100)
    (_, tight) = filled(box=(20, 20, 8, 60), ink={**BLACK, "narrowest": "1 mm"})
    assert width_of(tight.setting.grouping).high <= 1
    assert tight.amount.low == pytest.approx(4 * not_reached_by_taper(1, 8, WIDTH), rel=1e-6)


def test_a_part_narrower_than_a_magnum_never_gets_it() -> None:
    for ink in (BLACK, {"ink": "wash-mid", "area": "4 cm²"}, {"ink": "rust", "area": "4 cm²"}):
        (step,) = filled(box=(20, 20, 3, 60), ink=ink)
        assert is_round(step) and width_of(step.setting.grouping).high <= 3


def test_lettering_never_gets_a_magnum() -> None:
    for gap in (None, "1.5 mm", "0.9 mm"):
        (step,) = filled(role="lettering", gap=gap)
        assert is_round(step)
        assert gap is None or width_of(step.setting.grouping).high <= float(gap.split()[0])


def test_a_magnum_that_is_named_is_split_like_any_other_and_judged_where_it_fits_nowhere() -> None:
    wide, narrow = pointed(needle="1015CM")
    assert wide.setting.grouping.id == "1015CM" and is_round(narrow)
    named = {**BLACK, "needle": "1215CM"}
    for changes in ({"box": ["20 mm", "20 mm", "3 mm", "60 mm"]}, {"role": "lettering"}):
        made = planned(
            simple(parts=[{**part("area", lines=None, narrowest="3 mm", colours=[named], focal="yes"), **changes}])
        )
        assert [f.rule for f in made.findings if f.level == "care"] == ["groupings.1215CM"]


def test_rounds_and_lines_stay_one_row() -> None:
    assert [step.places for step in pointed(needle="1005RS")] == [""]
    assert len(steps_of(simple())) == 1


def test_every_round_of_a_technique_is_a_usual_one() -> None:
    for way in RECORDS.techniques.values():
        widths = [width_of(RECORDS.groupings[name]).high for name in way.rounds]
        assert widths == sorted(widths, reverse=True), way.id
        for name in way.rounds:
            (step,) = filled(ink={**BLACK, "technique": way.id, "needle": name})
            assert is_round(step) and [o.what for o in step.setting.outside] in ([], ["needle"]), (way.id, name)
