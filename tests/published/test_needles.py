"""Bundles of needles against the published packings of equal circles in a circle."""

import pytest

from generator.trade.needles import (
    double_stack_width,
    flat_width,
    hollow_ring,
    tightest_bundle,
    tightest_packing,
    weaved_magnum_width,
)
from tests.published.printed import Printed

PACKING = "Birgin & Gentil 2009, Table 1; public encyclopaedia table of circle packing in a circle"
RATIOS = (
    "1",
    "2",
    "2.1547005384",
    "2.4142135624",
    "2.7013016167",
    "3",
    "3",
    "3.3047648710",
    "3.6131259298",
    "3.8130256314",
    "3.9238044002",
    "4.0296019301",
    "4.2360679775",
    "4.3284285549",
    "4.5213569647",
    "4.6154255949",
    "4.7920337483",
    "4.8637033052",
    "4.8637033052",
    "5.1223207370",
)
TABLES = {PACKING: len(RATIOS)}
GEOMETRY = "computed by geometry, reproducible"


@pytest.mark.parametrize(("count", "literal"), list(enumerate(RATIOS, start=1)))
def test_ratio(count: int, literal: str) -> None:
    printed = Printed(literal, PACKING, "A")
    assert printed.agrees(tightest_packing(count).ratio)
    if "." not in literal:
        assert tightest_packing(count).ratio == float(literal)


@pytest.mark.parametrize(
    ("count", "diameter", "printed"),
    [
        (7, 0.35, Printed("1.0500", PACKING, "C")),
        (5, 0.30, Printed("0.8104", PACKING, "C")),
        (9, 0.30, Printed("1.0839", PACKING, "C")),
        (14, 0.30, Printed("1.2985", PACKING, "C")),
    ],
)
def test_bundle(count: int, diameter: float, printed: Printed) -> None:
    assert printed.agrees(tightest_bundle(count, diameter))


def test_hollow_ring() -> None:
    assert Printed("1.648", GEOMETRY, "C").agrees(hollow_ring(14, 0.30))
    # Three on a ring leave no room for a fourth: the ring is the bundle.
    assert Printed("2.1547005384", PACKING, "A").agrees(hollow_ring(3, 1.0))


def test_the_smallest_magnums_are_two_needles_below_and_one_above() -> None:
    printed = Printed("2.00", GEOMETRY, "C")
    assert printed.agrees(weaved_magnum_width(3, 1.0, 1.0))
    assert printed.agrees(double_stack_width(3, 1.0, 1.0))


@pytest.mark.parametrize(
    ("spread", "printed"),
    [
        (1.0, Printed("2.80", GEOMETRY, "C")),
        (1.5, Printed("4.03", GEOMETRY, "C")),
        (2.0, Printed("5.25", GEOMETRY, "C")),
    ],
)
def test_weaved_magnum(spread: float, printed: Printed) -> None:
    assert printed.agrees(weaved_magnum_width(15, 0.35, spread))


def test_a_row_that_touches_is_as_wide_as_its_needles() -> None:
    assert Printed("2.45", GEOMETRY, "C").agrees(flat_width(7, 0.35, 1.0))


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
