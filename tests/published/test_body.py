"""Wrapping and cone development against worked examples and body measures outside the project."""

import math

import pytest

from generator.trade.body import band, girth_at, projected_width, share_seen, wrap_angle
from tests.published.printed import Printed

RADIAN = "NIST SP 811: one degree is 1.745329 E-02 rad"
HEXAGON = "Euclid, Elements IV.15: the side of a regular hexagon in a circle is the radius"
FRUSTUM = (
    "ceemrr.com, The Net of a Frustum, worked example: a duct 4 in high, 8 in and 5 in across, "
    "gives radii of 11.39 and 7.12 in and an angle of 126.4°"
)
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
