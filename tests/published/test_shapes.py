"""Geometry against plain formulas, and the ring kept clear around a mole."""

import math

import pytest

from generator.trade.shapes import (
    Box,
    Ellipse,
    Shift,
    Spot,
    Strip,
    area,
    covered,
    mole_clearance,
    nearest_shift,
    overlap,
    share_near,
)
from tests.published.printed import Printed


def test_the_area_of_a_circle_from_its_diameter() -> None:
    # pi / 4 of the square around it, to ten digits (geometry).
    assert Printed("0.7853981634", "geometry", "C").agrees(area(Ellipse(0, 0, 1, 1)))


def test_a_straight_scar_is_a_bar_with_round_ends() -> None:
    scar = Strip(((0, 0), (36, 8)), width=4)
    expected = math.hypot(36, 8) * 4 + math.pi * 2**2
    assert overlap(Box(-50, -50, 200, 200), scar) == pytest.approx(expected, rel=2e-4)


def test_two_discs_that_share_a_lens() -> None:
    # Two unit discs whose middles lie 1 apart share 2π/3 − √3/2 (geometry): together they cover 4π/3 + √3/2.
    together = covered([Ellipse(0, 0, 2, 2), Ellipse(1, 0, 2, 2)])
    assert together == pytest.approx(4 * math.pi / 3 + math.sqrt(3) / 2, rel=2e-4)


# Common practice: moles and lesions are kept clear by 5 to 10 mm.
@pytest.mark.parametrize("keep", [Printed("5", "common practice", "P"), Printed("10", "common practice", "P")])
def test_ink_stays_outside_the_ring(keep: Printed) -> None:
    distance = float(keep.literal)
    mole = Spot(0, 0, distance)
    assert mole_clearance(Box(distance + 0.1, -5, 20, 10), mole) > 0
    assert mole_clearance(Box(distance - 0.1, -5, 20, 10), mole) < 0


def test_the_share_of_a_strip_with_round_ends() -> None:
    # Steiner's formula: a segment of length l widened by r covers 2 r l + π r² (geometry).
    scar, square = Strip(((20, 50), (80, 50)), width=4), Box(0, 0, 100, 100)
    for margin in (0, 3, 10):
        radius = 2 + margin
        assert share_near(square, scar, margin) == pytest.approx(
            (2 * radius * 60 + math.pi * radius**2) / 1e4, rel=1e-3
        )


def test_a_disc_leaves_a_disc_by_the_sum_of_their_radii() -> None:
    # Two discs touch where their middles lie r + R apart (geometry): 10 + 8 mm, less the 3 mm they are apart.
    piece = Box(0, 0, 200, 200)
    assert nearest_shift(Ellipse(90, 90, 20, 20), [Spot(97, 100, 8)], 0, piece, 1) == Shift(15, 0)
