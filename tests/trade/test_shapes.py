"""Areas, overlaps, distances and how far parts reach."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.trade.refusal import Refusal
from generator.trade.shapes import (
    Box,
    Ellipse,
    Focus,
    Outline,
    Shift,
    Spot,
    Strip,
    Thing,
    area,
    covered,
    gap,
    mole_clearance,
    nearest_shift,
    not_reached,
    not_reached_by_taper,
    overlap,
    reach,
    share_near,
)

places = st.floats(0, 300)
sides = st.floats(0.5, 200)
boxes = st.builds(Box, places, places, sides, sides)
ellipses = st.builds(Ellipse, places, places, sides, sides)
parts = boxes | ellipses


@given(boxes)
def test_a_box_and_its_outline_cover_the_same(box: Box) -> None:
    right, lower = box.x + box.width, box.y + box.height
    outline = Outline(((box.x, box.y), (right, box.y), (right, lower), (box.x, lower)))
    assert area(box) == pytest.approx(box.width * box.height)
    assert area(outline) == pytest.approx(area(box))


@given(ellipses)
def test_an_ellipse_covers_most_of_the_box_around_it(ellipse: Ellipse) -> None:
    around = Box(ellipse.x, ellipse.y, ellipse.width, ellipse.height)
    assert area(ellipse) == pytest.approx(math.pi / 4 * area(around))
    # The drawn edge has straight bits and loses less than 0.02 % to the true one.
    assert area(ellipse) * 0.9998 < overlap(ellipse, around) < area(ellipse)


@given(parts, parts)
def test_overlap_is_the_same_both_ways_and_fits_into_both(first: Thing, second: Thing) -> None:
    shared = overlap(first, second)
    assert shared == pytest.approx(overlap(second, first), abs=1e-6)
    assert 0 <= shared <= min(area(first), area(second)) + 1e-6


@given(parts, parts)
def test_what_overlaps_has_no_gap(first: Thing, second: Thing) -> None:
    assert gap(first, second) == pytest.approx(gap(second, first), abs=1e-9)
    if overlap(first, second) > 1e-6:
        assert gap(first, second) == 0


@given(st.lists(parts, min_size=1, max_size=4))
def test_what_parts_cover_together_is_counted_once(several: list[Thing]) -> None:
    areas = [overlap(shape, shape) for shape in several]
    together = covered(several)
    assert max(areas) - 1e-6 <= together <= sum(areas) + 1e-6
    assert covered([*several, several[0]]) == pytest.approx(together)


def test_two_parts_cover_both_less_what_they_share() -> None:
    assert covered([Box(0, 0, 40, 30), Box(30, 10, 20, 40)]) == 1200 + 800 - 200
    assert covered([]) == 0


def test_a_scar_through_a_part() -> None:
    part = Box(0, 0, 50, 50)
    scar = Strip(((-10, 25), (60, 25)), width=4)
    assert overlap(part, scar) == pytest.approx(200)
    assert gap(part, Strip(((60, 0), (60, 50)), width=4)) == pytest.approx(8)


def test_a_scar_that_bends() -> None:
    assert overlap(Box(0, 0, 30, 30), Strip(((10, -5), (10, 10), (35, 10)), width=2)) == pytest.approx(60, abs=1)


def test_parts_that_touch_share_nothing() -> None:
    assert overlap(Box(0, 0, 10, 10), Box(10, 0, 10, 10)) == 0
    assert gap(Box(0, 0, 10, 10), Box(10, 0, 10, 10)) == 0


def test_a_mole_keeps_its_ring_clear() -> None:
    mole = Spot(20, 5, keep=8)
    assert mole_clearance(Box(0, 0, 10, 10), mole) == pytest.approx(2)
    assert mole_clearance(Box(0, 0, 15, 10), mole) == pytest.approx(-3)
    assert mole_clearance(Box(0, 0, 40, 10), mole) == -8
    assert overlap(Box(0, 0, 15, 10), mole) > 0
    assert overlap(Box(0, 0, 10, 10), mole) == 0


@given(parts, st.builds(Spot, places, places, st.floats(1, 10)))
def test_room_below_zero_means_ink_inside_the_ring(part: Thing, mole: Spot) -> None:
    clearance = mole_clearance(part, mole)  # type: ignore[arg-type]
    assert clearance >= -mole.keep
    if clearance > 1e-6:
        assert overlap(part, mole) == 0


@given(parts)
def test_reach_to_the_four_sides(part: Box | Ellipse) -> None:
    assert reach(part, 0) == pytest.approx(part.x + part.width, abs=0.1)
    assert reach(part, 90) == pytest.approx(part.y + part.height, abs=0.1)
    assert reach(part, 180) == pytest.approx(-part.x, abs=0.1)
    assert reach(part, -90) == pytest.approx(-part.y, abs=0.1)


@pytest.mark.parametrize(
    "shape",
    [
        Box(0, 0, 0, 10),
        Box(0, 0, 10, -1),
        Box(math.nan, 0, 10, 10),
        Ellipse(0, 0, math.inf, 10),
        Ellipse(0, 0, 10, 0),
        Outline(((0, 0), (10, 0))),
        Outline(()),
        Outline(((0, 0), (10, 10), (10, 0), (0, 10))),
        Outline(((0, 0), (5, 0), (10, 0))),
        Strip(((0, 0),), 4),
        Strip(((0, 0), (10, 0)), 0),
        Strip(((0, 0), (math.nan, 0)), 4),
        Spot(0, 0, 0),
        Spot(0, 0, -1),
        Focus(math.nan, 0),
    ],
)
def test_measures_that_make_no_shape(shape: Thing) -> None:
    with pytest.raises(Refusal, match=r"^shape: "):
        gap(shape, Box(0, 0, 1, 1))


def test_area_refuses_what_is_no_shape() -> None:
    with pytest.raises(Refusal, match=r"^shape: "):
        area(Ellipse(0, 0, 10, -10))


def test_a_mole_without_a_distance_to_keep() -> None:
    with pytest.raises(Refusal, match=r"^shape: "):
        mole_clearance(Box(0, 0, 1, 1), Spot(5, 5, 0))


def test_a_direction_that_is_none() -> None:
    with pytest.raises(Refusal, match=r"^direction: ") as refused:
        reach(Box(0, 0, 1, 1), math.nan)
    assert refused.value.argument == "direction"


def test_a_share_with_its_margin_is_geometry() -> None:
    ground, scar = Box(0, 0, 40, 40), Strip(((10, 20), (30, 20)), 4)
    # A bar of 20 mm with round ends.
    for margin in (0, 2, 6):
        radius = 2 + margin
        expected = (40 * radius + math.pi * radius**2) / 1600
        assert share_near(ground, scar, margin) == pytest.approx(expected, rel=1e-3)
    assert share_near(ground, Strip(((-50, 20), (90, 20)), 200), 0) == 1
    assert share_near(Box(60, 0, 10, 10), scar, 2) == 0


@given(parts, st.builds(Strip, st.tuples(*[st.tuples(places, places)] * 2), st.floats(1, 30)), st.floats(0, 20))
def test_a_share_is_never_more_than_all_and_grows_with_the_margin(shape: Box, scar: Strip, margin: float) -> None:
    share = share_near(shape, scar, margin)
    assert 0 <= share_near(shape, scar, 0) <= share + 1e-9 <= 1 + 1e-9
    # What was counted already is not counted again.
    assert share_near(shape, scar, margin, [scar]) == pytest.approx(0, abs=1e-9)


def test_the_shortest_way_out_of_a_disc_and_into_a_wall() -> None:
    piece, part = Box(0, 0, 100, 100), Box(30, 30, 20, 20)
    assert nearest_shift(part, [Spot(40, 54, 8)], 2, piece, 1) == Shift(0, -4)
    # Higher it would come onto a second one.
    assert nearest_shift(part, [Spot(40, 54, 8), Spot(40, 20, 8)], 2, piece, 1) != Shift(0, -4)
    # And so to each side, by the first step as by the last one that there is room for.
    ways = [(Spot(40, 26, 8), Shift(0, 4)), (Spot(54, 40, 8), Shift(-4, 0)), (Spot(26, 40, 8), Shift(4, 0))]
    for spot, way in ways:
        assert nearest_shift(part, [spot], 2, piece, 1) == nearest_shift(part, [spot], 2, piece, 4) == way
    assert nearest_shift(part, [Spot(40, 54, 8)], 2, Box(30, 26, 20, 24), 1) == Shift(0, -4)
    # In whole steps: 4 mm are not enough steps of 3.
    assert nearest_shift(part, [Spot(40, 54, 8)], 2, piece, 3) == Shift(0, -6)
    assert nearest_shift(part, [], 2, piece, 1) == Shift(0, 0)
    assert nearest_shift(Box(0, 0, 100, 100), [Spot(40, 54, 8)], 2, piece, 1) is None


def test_a_corner_is_left_along_a_diagonal_where_no_straight_way_is_open() -> None:
    # Walls above, below, left and right of the part's own column and row leave the corner.
    bars = [Strip(((0, 30), (100, 30)), 2), Strip(((30, 0), (30, 100)), 2)]
    shift = nearest_shift(Box(25, 25, 10, 10), bars, 0, Box(0, 0, 60, 60), 1)
    assert shift in (Shift(6, 6), Shift(-6, 6), Shift(6, -6), Shift(-6, -6))


@given(parts, st.lists(st.builds(Spot, places, places, st.floats(1, 20)), min_size=1, max_size=3))
def test_where_a_shift_leads_is_clear_and_inside(part: Box | Ellipse, spots: list[Spot]) -> None:
    piece = Box(0, 0, 500, 500)
    shift = nearest_shift(part, spots, 0, piece, 5)
    if shift is not None:
        there = type(part)(part.x + shift.across, part.y + shift.down, part.width, part.height)
        assert all(overlap(there, spot) < 1e-5 for spot in spots)
        assert there.x >= 0 and there.x + there.width <= 500 + 1e-6 and there.y + there.height <= 500 + 1e-6


@pytest.mark.parametrize(("margin", "step"), [(-1, 1), (math.nan, 1), (1, 0), (1, math.inf)])
def test_margins_and_steps_that_are_none(margin: float, step: float) -> None:
    with pytest.raises(Refusal, match=r"^(margin|step): "):
        nearest_shift(Box(0, 0, 1, 1), [Strip(((0, 0), (1, 1)), 1)], margin, Box(0, 0, 9, 9), step)


def test_a_row_of_needles_fills_a_box_that_is_wider_and_none_that_is_narrower() -> None:
    assert not_reached(Box(0, 0, 40, 5), 4) == pytest.approx(0, abs=1e-3)
    assert not_reached(Box(0, 0, 40, 3.9), 4) == 100


def test_the_tips_of_a_lozenge_are_what_is_narrower() -> None:
    # A lozenge of 20 · 20 has right angles, which are filled. One of 130 · 12: what is left of each tip is at most the
    # triangle that is narrower than w, in all (w / 12)² of it (similar triangles), and at least half of that.
    assert not_reached(Outline(((0, 10), (10, 0), (20, 10), (10, 20))), 4) == pytest.approx(0, abs=1e-2)
    # A little sharper than a right angle is sharp: half of this one is 44.5°.
    sharp = 10 * math.tan(math.radians(44.5))
    assert not_reached(Outline(((0, sharp), (10, 0), (20, sharp), (10, 2 * sharp))), 4) > 1e-4
    left = not_reached(Outline(((0, 6), (65, 0), (130, 6), (65, 12))), 4)
    assert 50 * (4 / 12) ** 2 < left <= 100 * (4 / 12) ** 2


def test_a_ring_of_a_circle_is_reached_and_a_smaller_circle_is_not() -> None:
    assert not_reached(Ellipse(0, 0, 30, 30), 4) == pytest.approx(0, abs=0.05)
    assert not_reached(Ellipse(0, 0, 3, 3), 4) == 100


def test_an_even_taper_is_the_area_below_its_line() -> None:
    # From 2 mm to 10 mm over 80 mm: narrower than 4 mm for the first 20 mm, (2 + 4) / 2 · 20 of (2 + 10) / 2 · 80 mm².
    assert not_reached_by_taper(2, 10, 4) == pytest.approx(100 * 60 / 480)
    assert not_reached_by_taper(4, 10, 4) == 0 and not_reached_by_taper(2, 4, 4) == 100
    for wrong in ((0, 10, 4), (2, 10, math.nan), (2, -1, 4)):
        with pytest.raises(Refusal, match=r"^width: "):
            not_reached_by_taper(*wrong)
    with pytest.raises(Refusal, match=r"^width: "):
        not_reached(Box(0, 0, 4, 4), 0)


@given(st.floats(1, 60), st.floats(1, 60), st.floats(0.3, 8), st.floats(0.3, 8))
def test_a_wider_row_never_reaches_more(wide: float, tall: float, one: float, other: float) -> None:
    narrow, broad = sorted((one, other))
    for shape in (Box(0, 0, wide, tall), Ellipse(0, 0, wide, tall)):
        assert not_reached(shape, narrow) <= not_reached(shape, broad) + 1e-6
