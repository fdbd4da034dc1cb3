"""Wrapping and cone development against worked examples outside the project."""

import math

import pytest

from generator.trade.body import angle_of_ends, band, girth_at, opening, projected_width, wrap_angle
from tests.published.printed import Document, Printed

# The copies that were read name no year.
FRUSTUM = Document("The Net of a Frustum", "ceemrr.com", None).at("worked example: a duct 4 in high, 8 and 5 in across")
SEGMENT = Document("Circular Sections", "help.matheass.eu", None).at("worked example: arc 1, angle 45°")
RADIAN = Document("Guide for the Use of the SI, SP 811", "National Institute of Standards and Technology", 2008).table(
    "Appendix B.8", "B"
)("1.745329E-02")
RADIUS, CHORD, SAG = SEGMENT("1.2732395"), SEGMENT("0.974495"), SEGMENT("0.0969196")
ANGLE, SWEEP = SEGMENT("45"), FRUSTUM("126.4")


def test_a_piece_as_wide_as_one_degree() -> None:
    assert wrap_angle(RADIAN.number, 2 * math.pi) == pytest.approx(1, abs=5e-7)


@pytest.mark.parametrize(("below", "radius"), [(0.0, FRUSTUM("11.39")), (1.0, FRUSTUM("7.12"))])
def test_the_net_of_a_frustum(below: float, radius: Printed) -> None:
    wide, narrow = math.pi * 8, math.pi * 5
    slant = math.hypot(4, (8 - 5) / 2)
    girth = girth_at(below * slant, wide, narrow, slant)
    arc = band(girth, below * slant, wide, narrow, slant)
    assert arc.radius is not None
    assert radius.agrees(arc.radius)
    assert SWEEP.agrees(arc.angle)


def test_the_height_of_an_arc() -> None:
    # A limb that opens to the example's radius: girth 4, thinner by 4 over the radius after a length of 1.
    arc = band(1.0, 0.0, 4.0, 4.0 - 4.0 / RADIUS.number, 1.0)
    assert arc.radius is not None
    assert RADIUS.agrees(arc.radius)
    assert arc.angle == pytest.approx(ANGLE.number, abs=5e-4)
    assert SAG.agrees(arc.sag)


def test_the_chord_of_an_arc() -> None:
    assert CHORD.agrees(projected_width(1.0, 2 * math.pi * RADIUS.number))


def test_the_ends_of_a_strip_round_the_frustum_open_by_no_more_than_its_net() -> None:
    # A strip of the length of the narrow girth stands open by 8π − 5π inches at the wide edge.
    wide, narrow = math.pi * 8, math.pi * 5
    slant = math.hypot(4, (8 - 5) / 2)
    angle = angle_of_ends(opening(narrow, wide), opening(narrow, narrow), slant)
    assert SWEEP.agrees(math.degrees(2 * math.tan(math.radians(angle / 2))))
