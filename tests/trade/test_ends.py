"""The ends of published scales and of plain geometry: the last value that counts, and the first that does not."""

import datetime
import math

import pytest

from generator.trade import (
    body,
    calibration,
    clock,
    colour,
    disinfection,
    labels,
    layout,
    needle_positions,
    needles,
    palette,
    scars,
    shapes,
    skin_tone,
    supplies,
)
from generator.trade.colour import Lab
from generator.trade.refusal import Refusal
from generator.trade.shapes import Box, Ellipse, Strip


def refused(function: object, *arguments: object) -> None:
    with pytest.raises(Refusal):
        function(*arguments)  # type: ignore[operator]


def test_nothing_is_stronger_than_a_hundred_per_cent() -> None:
    whole = 100
    assert disinfection.mix_for(1000, whole, 50) == (500, 500)
    assert disinfection.mixed_strength(whole, 1, 1) == 50
    assert disinfection.powder_per_litre(whole, 50) == 500
    refused(disinfection.mix_for, 1000, whole + 0.5, 50)
    refused(disinfection.mixed_strength, whole + 0.5, 1, 1)
    refused(disinfection.powder_per_litre, whole + 0.5, 50)


def test_lightness_ends_at_white() -> None:
    white = 100
    assert colour.chroma(Lab(white, 3, 4)) == 5
    assert palette.laying_order("white", white)[1] == white
    assert skin_tone.typology_angle(white, 50) == pytest.approx(45)
    for beyond in (white + 0.5, -0.5):
        refused(colour.chroma, Lab(beyond, 3, 4))
        refused(palette.laying_order, "white", beyond)
        refused(skin_tone.typology_angle, beyond, 50)


def test_hues_go_once_round() -> None:
    assert colour.hue(Lab(50, 1, -1)) == pytest.approx(315.00, abs=0.005)
    assert colour.hue(Lab(50, 100, -0.5)) == pytest.approx(359.71, abs=0.005)
    assert colour.hue(Lab(50, 1, -1e-20)) == 0


@pytest.mark.parametrize(("degrees", "family"), [(0.2, "red"), (-0.2, "pink")])
def test_the_border_of_red_and_pink_lies_half_way_round_nought(degrees: float, family: str) -> None:
    red, pink = (colour.hue(colour.lab(swatch)) for swatch in ("#ff0000", "#ff1493"))
    border = math.radians((red + pink - 360) / 2 + degrees)
    assert palette.hue_family(Lab(50, 60 * math.cos(border), 60 * math.sin(border)), 5) == family


def test_each_kind_of_ink_is_laid_after_the_one_before() -> None:
    ranks = [palette.laying_order(kind, 50)[0] for kind in ("black", "wash", "colour", "white")]
    assert ranks == sorted(set(ranks))


def test_a_blend_has_two_colours_and_one_step_has_nothing_to_jump_against() -> None:
    dark, light = Lab(20, 0, 0), Lab(80, 0, 0)
    assert palette.evenness([dark, light], 1).jumps == ()
    assert palette.evenness([dark, Lab(40, 0, 0), light], 1).jumps == (1,)
    refused(palette.evenness, [dark], 2)
    refused(palette.evenness, [dark, light], 0.99)
    # Of steps of about 10, 10 and 20 the last is twice the mean of the others.
    assert len(palette.evenness([Lab(50, 0, 0), Lab(50, 0, 0), dark, light], 1).steps) == 3


def test_an_angle_of_skin_stands_at_most_upright() -> None:
    upright = 90
    assert skin_tone.skin_class(upright) == "very light"
    assert skin_tone.skin_class(-upright) == "dark"
    refused(skin_tone.skin_class, upright + 0.5)
    refused(skin_tone.skin_class, -upright - 0.5)


def test_thirds() -> None:
    places = layout.nine_places(30, 60)
    assert len(places) == 9
    assert places["centre"] == Box(10, 20, 10, 20)
    assert places["upper left"] == Box(0, 0, 10, 20)
    assert places["lower right"] == Box(20, 40, 10, 20)
    assert places["middle left"] == Box(0, 20, 10, 20)


@pytest.mark.parametrize("upper", ["a", "b"])
def test_a_left_hand_works_straight_across(upper: str) -> None:
    # The one that reaches a tenth farther to the left comes first, whichever lies lower.
    left = {"a": 10, "b": 10.1}
    parts = {name: Box(left[name], 0 if name == upper else 18, 20, 20) for name in left}
    assert layout.lining_order(parts, "left", 0, 100) == ("a", "b")


def test_waiting_ends_with_the_calendar() -> None:
    wound = datetime.date(2024, 1, 1)
    most = (datetime.MAXYEAR - 2024) * 12
    assert scars.earliest_date_by_age(wound, most - 1).year == datetime.MAXYEAR - 1
    with pytest.raises(Refusal, match=r"^months: "):
        scars.earliest_date_by_age(wound, most)


def test_a_month_of_a_wound_on_the_last_day() -> None:
    wound = datetime.date(2023, 1, 31)
    assert [
        scars.maturity_months(wound, datetime.date(2023, month, day))
        for month, day in ((2, 27), (2, 28), (3, 30), (3, 31), (4, 29), (4, 30))
    ] == [0, 1, 1, 2, 2, 3]


def test_what_is_seen_is_at_most_the_whole() -> None:
    assert body.share_seen(10, 400) == 1


def test_two_measured_points_make_a_line() -> None:
    two = 2
    points = [calibration.Point(5.0, 60.0), calibration.Point(7.0, 100.0), calibration.Point(8.0, 110.0)][:two]
    under = calibration.Conditions("one", 3.5, "liner", "bench")
    assert calibration.frequency_at(5.5, points, under, under) == 70
    assert calibration.volts_for(90, points, under, under) == 6.5
    refused(calibration.frequency_at, 5.0, points[: two - 1], under, under)


def test_no_limb_is_steeper_than_flat() -> None:
    # Over a distance L along the skin the radius changes by at most L, the girth by at most 2 pi L.
    assert body.girth_at(0, 100 + 2 * math.pi * 10 * 0.99, 100, 10) > 100
    refused(body.girth_at, 0, 100 + 2 * math.pi * 10 * 1.01, 100, 10)


def test_one_at_least() -> None:
    one = 1
    assert clock.sittings(0, 240) == one
    assert clock.sittings(100, 240) == one
    assert supplies.ink_caps([0.0], 1.0) == one
    refused(clock.area_minutes, 100, 50, 0.5)
    assert clock.area_minutes(100, 50, one) == 2


@pytest.mark.parametrize(
    ("label", "stands"),
    [
        ("1200RL", False),
        ("1201RL", True),
        ("1200RS", False),
        ("1201RS", True),
        ("1201F", False),
        ("1202F", True),
    ],
)
def test_the_fewest_needles_of_a_configuration(label: str, stands: bool) -> None:
    if stands:
        assert labels.read_label(label).written == label
    else:
        refused(labels.read_label, label)


def test_fewest_needles_for_a_shape() -> None:
    three = 3
    for function in (needles.weaved_magnum_width, needles.double_stack_width):
        assert function(three, 1.0, 1.0) == 2
        refused(function, three - 1, 1.0, 1.0)
    assert needles.hollow_ring(three, 1.0) > 2
    refused(needles.hollow_ring, three - 1, 1.0)
    assert needles.flat_width(2, 1.0, 1.0) == 2
    refused(needles.flat_width, 1, 1.0, 1.0)
    refused(needles.flat_width, 2, 1.0, 0.99)
    refused(needles.tightest_packing, 0)
    assert needles.double_stack_width(4, 2.0, 1.0) == pytest.approx(4.00, abs=0.005)


def test_places_span_the_width_that_is_computed() -> None:
    for count in (3, 4, 9, 10):
        for function, width in (
            (needle_positions.row_positions, needles.flat_width),
            (needle_positions.weaved_positions, needles.weaved_magnum_width),
            (needle_positions.curved_positions, needles.weaved_magnum_width),
            (needle_positions.stacked_positions, needles.double_stack_width),
        ):
            across = [x for x, _ in function(count, 2.0, 1.5)]
            assert max(across) - min(across) + 2 == pytest.approx(width(count, 2.0, 1.5))
            assert max(across) == pytest.approx(-min(across))


def test_rows_of_a_magnum() -> None:
    nested = needle_positions.weaved_positions(5, 2.0, 1.0)
    heights = sorted({round(y, 9) for _, y in nested})
    assert heights[1] - heights[0] == pytest.approx(1.7321, abs=5e-05)
    assert nested[0][1] < 0 < nested[1][1], "the outer needles stand in the row below"
    stacked = sorted({y for _, y in needle_positions.stacked_positions(5, 2.0, 1.0)})
    assert stacked[1] - stacked[0] == pytest.approx(2.0000, abs=5e-05)
    assert sum(stacked) == pytest.approx(0.0000, abs=5e-05)
    assert [sum(1 for _, y in needle_positions.stacked_positions(4, 2.0, 1.0) if y * side > 0) for side in (-1, 1)] == [
        2,
        2,
    ]


def test_an_arc_has_the_radius_of_its_outermost_needles() -> None:
    # Radius 8 for 9 needles of diameter 2 at spread 1: the ends, 4 from the middle, drop by 8 - sqrt(8² - 4²).
    places = needle_positions.curved_positions(9, 2.0, 1.0)
    below = [y for n, (_, y) in enumerate(places) if n % 2 == 0]
    assert max(below) - below[0] == pytest.approx(1.0718, abs=5e-05)
    # The rows stand as far apart as nested ones, sqrt(3), and the steepest drop of 0.4880 further.
    assert -2 * max(below) == pytest.approx(2.2200, abs=5e-05)


def test_six_stand_as_five_around_one() -> None:
    places = needle_positions.round_positions(6, 2.0)
    assert min(math.hypot(x, y) for x, y in places) == 0


def test_half_an_ellipse_and_a_scar_of_one_point() -> None:
    ellipse = Ellipse(0, 0, 4, 2)
    quarter = 1.5708
    for corner in ((0, 0), (2, 0), (0, 1), (2, 1)):
        assert shapes.overlap(ellipse, Box(*corner, 2, 1)) == pytest.approx(quarter, rel=2e-3)
    refused(shapes.gap, Strip(((0, 0),), 4), Box(0, 0, 1, 1))
    assert shapes.gap(Strip(((0, 0), (10, 0)), 4), Box(0, 5, 10, 1)) == pytest.approx(3)
    refused(shapes.area, shapes.Outline(((0, 0), (1, 1))))
    assert shapes.area(shapes.Outline(((0, 0), (1, 0), (0, 1)))) == 0.5
