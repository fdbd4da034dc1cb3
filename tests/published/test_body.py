"""Wrapping and cone development against worked examples and body measures outside the project."""

import math

import pytest

from generator.trade.body import angle_of_ends, band, girth_at, opening, projected_width, share_seen, wrap_angle
from tests.published.printed import Printed

RADIAN = "NIST SP 811: one degree is 1.745329 E-02 rad"
HEXAGON = "Euclid, Elements IV.15: the side of a regular hexagon in a circle is the radius"
FRUSTUM = (
    "ceemrr.com, The Net of a Frustum, worked example: a duct 4 in high, 8 in and 5 in across, "
    "gives radii of 11.39 and 7.12 in and an angle of 126.4°"
)
SQUARE = "Euclid, Elements IV.6: the diagonals of a square cross at a right angle"
SEGMENT = "help.matheass.eu, Circular Sections, worked example: arc 1, angle 45°"
ANSUR = "Gordon et al., NATICK/TR-15/007, 2014 (ANSUR II): mean girth of men"


def test_a_piece_as_wide_as_one_degree() -> None:
    girth = 2 * math.pi
    assert Printed("1.00000", RADIAN, "B").agrees(wrap_angle(0.01745329, girth))


def test_the_side_of_a_hexagon() -> None:
    # A sixth of the girth looks as wide as the limb's radius.
    girth = 2 * math.pi * 50
    assert Printed("50.000", HEXAGON, "M").agrees(projected_width(girth / 6, girth))


@pytest.mark.parametrize(
    ("below", "radius"), [(0.0, Printed("11.39", FRUSTUM, "A")), (1.0, Printed("7.12", FRUSTUM, "A"))]
)
def test_the_net_of_a_frustum(below: float, radius: Printed) -> None:
    wide, narrow = math.pi * 8, math.pi * 5
    slant = math.hypot(4, (8 - 5) / 2)
    girth = girth_at(below * slant, wide, narrow, slant)
    arc = band(girth, below * slant, wide, narrow, slant)
    assert arc.radius is not None
    assert radius.agrees(arc.radius)
    assert Printed("126.4", FRUSTUM, "A").agrees(arc.angle)


def test_the_height_of_an_arc() -> None:
    # A limb that opens to the example's radius: girth 4, thinner by 4 over the radius after a length of 1.
    radius = float(Printed("1.2732395", SEGMENT, "A").literal)
    arc = band(1.0, 0.0, 4.0, 4.0 - 4.0 / radius, 1.0)
    assert arc.radius is not None
    assert Printed("1.2732395", SEGMENT, "A").agrees(arc.radius)
    assert Printed("45.000", SEGMENT, "A").agrees(arc.angle)
    assert Printed("0.0969196", SEGMENT, "A").agrees(arc.sag)


def test_the_chord_of_an_arc() -> None:
    girth = 2 * math.pi * float(Printed("1.2732395", SEGMENT, "A").literal)
    assert Printed("0.974495", SEGMENT, "A").agrees(projected_width(1.0, girth))


@pytest.mark.parametrize(
    "girth",
    [
        Printed("310.06", ANSUR + ", forearm flexed", "C"),
        Printed("358.14", ANSUR + ", biceps flexed", "C"),
        Printed("392.26", ANSUR + ", calf", "C"),
        Printed("625.14", ANSUR + ", thigh", "C"),
    ],
)
def test_a_sleeve_on_a_measured_limb(girth: Printed) -> None:
    around = float(girth.literal)
    assert wrap_angle(around / 2, around) == pytest.approx(180)
    assert share_seen(around, around) == 0.5
    assert projected_width(around, around) == pytest.approx(around / math.pi)


def test_a_band_of_five_sides_of_a_hexagon_stands_open_by_the_sixth() -> None:
    # Euclid, Elements IV.15, laid round: each side of the hexagon cuts off a sixth of the circle.
    girth = 2 * math.pi * 50
    assert opening(5 * girth / 6, girth) == pytest.approx(girth / 6)


def test_ends_along_the_diagonals_of_a_square_stand_at_a_right_angle() -> None:
    # From one side, 2 wide, to the middle where the diagonals cross, 1 lower.
    assert Printed("90", SQUARE, "M").agrees(angle_of_ends(2, 0, 1))


def test_the_ends_of_a_strip_round_the_frustum_open_by_no_more_than_its_net() -> None:
    # The net sweeps 126.4°; a strip of the length of the narrow girth stands open by 8π − 5π inches at the wide edge.
    wide, narrow = math.pi * 8, math.pi * 5
    slant = math.hypot(4, (8 - 5) / 2)
    angle = angle_of_ends(opening(narrow, wide), opening(narrow, narrow), slant)
    assert Printed("126.4", FRUSTUM, "A").agrees(math.degrees(2 * math.tan(math.radians(angle / 2))))
