"""Drawn rounds against the published packings: no needle in another, and none beyond the tightest circle."""

import itertools
import math

import pytest

from generator.trade.needle_positions import curved_positions, ring_positions, round_positions, stacked_positions
from generator.trade.needles import LARGEST_ROUND
from tests.published.printed import Printed
from tests.published.test_needles import RATIOS

PACKING = "Birgin & Gentil 2009, Table 1; public encyclopaedia table of circle packing in a circle"
GEOMETRY = "computed by geometry, reproducible"


def reach(places: tuple[tuple[float, float], ...]) -> float:
    """Radius of the circle around the middle that holds all needles of diameter 2."""
    return max(math.hypot(x, y) for x, y in places) + 1


def nearest(places: tuple[tuple[float, float], ...]) -> float:
    """The smallest distance of two needles."""
    return min((math.dist(one, other) for one, other in itertools.combinations(places, 2)), default=math.inf)


def test_the_table_goes_as_far_as_the_published_one() -> None:
    assert float(Printed("20", PACKING, "A").literal) == LARGEST_ROUND == len(RATIOS)


@pytest.mark.parametrize(("count", "literal"), list(enumerate(RATIOS, start=1)))
def test_a_round_fills_its_circle_and_no_more(count: int, literal: str) -> None:
    places = round_positions(count, 2.0)
    assert len(places) == count
    printed = Printed(literal if "." in literal else f"{literal}.000000000", PACKING, "A")
    assert printed.agrees(reach(places))
    assert nearest(places) >= 2 - 1e-9


def test_a_ring_of_six_leaves_room_for_one_in_the_middle() -> None:
    places = ring_positions(6, 2.0)
    assert Printed("3.0000", PACKING, "A").agrees(reach(places))
    assert Printed("2.0000", GEOMETRY, "C").agrees(nearest(places))


def test_two_rows_that_stand_on_each_other_touch() -> None:
    places = stacked_positions(5, 2.0, 1.0)
    assert Printed("2.0000", GEOMETRY, "C").agrees(nearest(places))
    # Three below and two above: five needles of diameter 2 are as wide as the row of three.
    assert Printed("6.0000", GEOMETRY, "C").agrees(max(x for x, _ in places) - min(x for x, _ in places) + 2)
    assert sum(1 for _, y in places if y < 0) == 3


@pytest.mark.parametrize("spread", [1.0, 1.5])
def test_no_needle_of_an_arc_covers_another(spread: float) -> None:
    for count in range(3, 28):
        assert nearest(curved_positions(count, 2.0, spread)) >= 2 - 1e-9
