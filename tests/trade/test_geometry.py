"""Formulas against plain geometry and figures worked by hand, where no document prints the value."""

import itertools
import math
from datetime import date

import pytest

from generator.trade.body import angle_of_ends, opening, projected_width, share_seen, wrap_angle
from generator.trade.dates import next_sitting_earliest, opened_ink_expiry, touch_up_window
from generator.trade.layout import Weighed, centre_of_weight, size_step, thirds, weight_by_place
from generator.trade.needle_positions import curved_positions, ring_positions, stacked_positions
from generator.trade.needles import (
    double_stack_width,
    flat_width,
    hollow_ring,
    tightest_bundle,
    tightest_packing,
    weaved_magnum_width,
)
from generator.trade.paper import strips_across
from generator.trade.refusal import Refusal
from generator.trade.scars import earliest_date_by_age, maturity_months
from generator.trade.shapes import (
    Box,
    Ellipse,
    Focus,
    Outline,
    Shift,
    Spot,
    Strip,
    centroid,
    covered,
    nearest_shift,
    overlap,
    share_near,
)
from generator.trade.skin_tone import ink_on_skin, skin_class, typology_angle
from generator.trade.vibration import combined_exposure, exposure_points

DONE = date(2027, 5, 12)


# Round a limb.


def test_the_side_of_a_hexagon() -> None:
    # The side of a regular hexagon is the radius of its circle: a sixth of the girth looks as wide as that.
    girth = 2 * math.pi * 50
    assert projected_width(girth / 6, girth) == pytest.approx(50)
    # And five of its sides laid round stand open by the sixth.
    assert opening(5 * girth / 6, girth) == pytest.approx(girth / 6)


# Mean girth of men in a public survey of bodies (ANSUR II), forearm, biceps, calf and thigh, computed from its data.
@pytest.mark.parametrize("around", [310.06, 358.14, 392.26, 625.14])
def test_a_sleeve_on_a_measured_limb(around: float) -> None:
    assert wrap_angle(around / 2, around) == pytest.approx(180)
    assert share_seen(around, around) == 0.5
    assert projected_width(around, around) == pytest.approx(around / math.pi)


def test_ends_along_the_diagonals_of_a_square_stand_at_a_right_angle() -> None:
    # From one side, 2 wide, to the middle where the diagonals cross, 1 lower.
    assert angle_of_ends(2, 0, 1) == pytest.approx(90)


# Needles.


@pytest.mark.parametrize(
    ("count", "diameter", "printed"), [(7, 0.35, 1.0500), (5, 0.30, 0.8104), (9, 0.30, 1.0839), (14, 0.30, 1.2985)]
)
def test_bundle(count: int, diameter: float, printed: float) -> None:
    assert tightest_bundle(count, diameter) == pytest.approx(printed, abs=5e-5)


def test_a_hollow_ring_of_fourteen() -> None:
    # d / sin(π/N) + d
    assert hollow_ring(14, 0.30) == pytest.approx(1.648, abs=5e-4)


def test_the_smallest_magnums_are_two_needles_below_and_one_above() -> None:
    assert weaved_magnum_width(3, 1.0, 1.0) == pytest.approx(2)
    assert double_stack_width(3, 1.0, 1.0) == pytest.approx(2)


@pytest.mark.parametrize(("spread", "wide"), [(1.0, 2.80), (1.5, 4.025), (2.0, 5.25)])
def test_weaved_magnum(spread: float, wide: float) -> None:
    assert weaved_magnum_width(15, 0.35, spread) == pytest.approx(wide)


def test_a_row_that_touches_is_as_wide_as_its_needles() -> None:
    assert flat_width(7, 0.35, 1.0) == pytest.approx(2.45)


@pytest.mark.parametrize(
    ("standing", "counts"),
    [
        ("trivial", (1, 2, 3, 4, 7)),
        ("proved", (5, 6, 8, 9, 10, 11, 12, 13, 14, 19)),
        ("best known", (15, 16, 17, 18, 20)),
    ],
)
def test_how_firmly_it_is_known(standing: str, counts: tuple[int, ...]) -> None:
    assert all(tightest_packing(count).standing.startswith(standing) for count in counts)


def nearest(places: tuple[tuple[float, float], ...]) -> float:
    return min((math.dist(one, other) for one, other in itertools.combinations(places, 2)), default=math.inf)


def test_a_ring_of_six_leaves_room_for_one_in_the_middle() -> None:
    places = ring_positions(6, 2.0)
    assert max(math.hypot(x, y) for x, y in places) + 1 == pytest.approx(3)
    assert nearest(places) == pytest.approx(2)


def test_two_rows_that_stand_on_each_other_touch() -> None:
    places = stacked_positions(5, 2.0, 1.0)
    assert nearest(places) == pytest.approx(2)
    # Three below and two above: five needles of diameter 2 are as wide as the row of three.
    assert max(x for x, _ in places) - min(x for x, _ in places) + 2 == pytest.approx(6)
    assert sum(1 for _, y in places if y < 0) == 3


@pytest.mark.parametrize("spread", [1.0, 1.5])
def test_no_needle_of_an_arc_covers_another(spread: float) -> None:
    for count in range(3, 28):
        assert nearest(curved_positions(count, 2.0, spread)) >= 2 - 1e-9


# Shapes.


def test_a_straight_scar_is_a_bar_with_round_ends() -> None:
    scar = Strip(((0, 0), (36, 8)), width=4)
    expected = math.hypot(36, 8) * 4 + math.pi * 2**2
    assert overlap(Box(-50, -50, 200, 200), scar) == pytest.approx(expected, rel=2e-4)


def test_two_discs_that_share_a_lens() -> None:
    # Two unit discs whose middles lie 1 apart share 2π/3 − √3/2: together they cover 4π/3 + √3/2.
    together = covered([Ellipse(0, 0, 2, 2), Ellipse(1, 0, 2, 2)])
    assert together == pytest.approx(4 * math.pi / 3 + math.sqrt(3) / 2, rel=2e-4)


def test_the_share_of_a_strip_with_round_ends() -> None:
    # Steiner's formula: a segment of length l widened by r covers 2 r l + π r².
    scar, square = Strip(((20, 50), (80, 50)), width=4), Box(0, 0, 100, 100)
    for margin in (0, 3, 10):
        radius = 2 + margin
        assert share_near(square, scar, margin) == pytest.approx(
            (2 * radius * 60 + math.pi * radius**2) / 1e4, rel=1e-3
        )


def test_a_disc_leaves_a_disc_by_the_sum_of_their_radii() -> None:
    # Two discs touch where their middles lie r + R apart: 10 + 8 mm, less the 3 mm they are apart.
    piece = Box(0, 0, 200, 200)
    assert nearest_shift(Ellipse(90, 90, 20, 20), [Spot(97, 100, 8)], 0, piece, 1) == Shift(15, 0)


def test_the_middle_of_a_triangle_is_a_third_of_its_height_up() -> None:
    # Archimedes, On the Equilibrium of Planes I.14, from memory: the centre of gravity of a triangle.
    assert centroid(Outline(((0, 0), (6, 0), (0, 9)))) == Focus(pytest.approx(2), pytest.approx(3))


def test_weights_balance_at_distances_that_are_reciprocal() -> None:
    # The same, I.6: two to one balance at one to two.
    heavy, light = Weighed(Box(-1, -1, 2, 2), 2), Weighed(Box(29, -1, 2, 2), 1)
    assert centre_of_weight([heavy, light]) == Focus(pytest.approx(10), pytest.approx(0))


def test_an_even_ground_has_a_third_of_its_weight_in_each_third() -> None:
    even = [Weighed(Box(0, 0, 30, 90), 5)]
    assert weight_by_place(even, thirds(30, 90)) == pytest.approx({"upper": 1 / 3, "middle": 1 / 3, "lower": 1 / 3})
    assert size_step(3, 2) == 1.5


# Skin, paper, the hand.


def test_readings_of_skin() -> None:
    # L* and b* of two published readings; the angle is computed.
    for lightness, b, angle, name in ((64.15, 18.34, 37.65, "intermediate"), (49.4, 12.3, -2.79, "brown")):
        assert typology_angle(lightness, b) == pytest.approx(angle, abs=5e-3)
        assert skin_class(typology_angle(lightness, b)) == name


def test_one_class_is_finer_than_the_spread_of_one_skin() -> None:
    # Common practice: a tone varies by 4 in L* and 3 in b* inside one measured class, which spans three.
    corners = [(64.15 + up, 18.34 + yellow) for up in (-4, 4) for yellow in (-3, 3)]
    assert len({skin_class(typology_angle(*corner)) for corner in corners}) == 3


def test_multiply_in_linear_light() -> None:
    # Multiply is the product of both in linear light, ((c + 0.055) / 1.055) ** 2.4, from memory.
    light = ((0xBC / 255 + 0.055) / 1.055) ** 2.4
    seen = round(255 * (1.055 * (light * light) ** (1 / 2.4) - 0.055))
    assert ink_on_skin("#bcbcbc", "#bcbcbc", 1).seen == f"#{seen:02x}{seen:02x}{seen:02x}"


def test_a4_goes_through_a_printer_for_letter() -> None:
    assert strips_across(210, 215.9, 5) == 1


def test_two_machines_add_up_as_squares() -> None:
    assert combined_exposure([3.0, 4.0]) == pytest.approx(5)


def test_a_day_has_24_hours() -> None:
    assert exposure_points(1.0, 24) == 48
    with pytest.raises(Refusal, match=r"^hours: "):
        exposure_points(1.0, 24.1)


# Days, by the practice of the trade.


@pytest.mark.parametrize(
    ("first", "last", "opens", "closes"),
    [
        (6, 8, date(2027, 6, 23), date(2027, 7, 7)),
        (8, 12, date(2027, 7, 7), date(2027, 8, 4)),  # on scars or heavy colour
    ],
)
def test_touch_up(first: int, last: int, opens: date, closes: date) -> None:
    assert touch_up_window(DONE, first, last) == (opens, closes)


def test_the_same_skin_again() -> None:
    # At least 4 weeks.
    assert next_sitting_earliest(DONE, 4) == date(2027, 6, 9)


def test_opened_ink() -> None:
    # The earlier of the two.
    assert opened_ink_expiry(DONE, 12, date(2029, 1, 31)) == date(2028, 5, 12)
    assert opened_ink_expiry(DONE, 12, date(2027, 8, 31)) == date(2027, 8, 31)


# How long to wait before a scar is tattooed is no published limit: 12 to 18 months at least, up to a full year,
# 6 months to 2 years (general article, clinic, surgeon). The range is counted, none of it clears.
@pytest.mark.parametrize(
    ("months", "earliest"),
    [(6, date(2024, 12, 30)), (12, date(2025, 6, 30)), (18, date(2025, 12, 30)), (24, date(2026, 6, 30))],
)
def test_the_range_of_waiting(months: int, earliest: date) -> None:
    wound = date(2024, 6, 30)
    assert earliest_date_by_age(wound, months) == earliest
    assert maturity_months(wound, earliest) == months
