import math

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.trade.needles import (
    BUGPIN_AT_MOST,
    LARGEST_ROUND,
    bugpin,
    double_stack_width,
    flat_width,
    grouping_width,
    hollow_ring,
    tightest_bundle,
    tightest_packing,
    weaved_magnum_width,
)
from generator.trade.refusal import Refusal

UNITS = pint.get_application_registry()
DIAMETERS = st.floats(0.1, 1.0)
SPREADS = st.floats(1.0, 3.0)


@given(st.integers(1, LARGEST_ROUND), DIAMETERS)
def test_a_bundle_grows_with_count_and_diameter(count: int, diameter: float) -> None:
    width = tightest_bundle(count, diameter)
    # The needles' own cross-sections must fit into the circle.
    assert width >= diameter * math.sqrt(count) * (1 - 1e-12)
    assert tightest_bundle(count, 2 * diameter) == pytest.approx(2 * width)
    if count > 1:
        assert tightest_bundle(count - 1, diameter) <= width


@given(st.integers(3, LARGEST_ROUND), DIAMETERS)
def test_a_hollow_ring_is_never_narrower_than_the_tight_bundle(count: int, diameter: float) -> None:
    assert hollow_ring(count, diameter) >= tightest_bundle(count, diameter) * (1 - 1e-9)


@given(st.integers(3, 49), DIAMETERS, SPREADS)
def test_one_row_is_wider_than_two(count: int, diameter: float, spread: float) -> None:
    row = flat_width(count, diameter, spread)
    weaved = weaved_magnum_width(count, diameter, spread)
    stacked = double_stack_width(count, diameter, spread)
    assert diameter < stacked <= weaved * (1 + 1e-12) < row
    if count % 2:
        assert stacked == pytest.approx(weaved)


def test_standings() -> None:
    assert tightest_packing(7).standing == "trivial"
    assert tightest_packing(12).standing == "proved, Fodor 2000"
    assert tightest_packing(15).standing == "best known"


def test_one_answer_for_every_configuration() -> None:
    assert grouping_width("RL", 7, 0.35) == tightest_bundle(7, 0.35) == grouping_width("RS", 7, 0.35)
    assert grouping_width("RL", 14, 0.3, hollow=True) == hollow_ring(14, 0.3)
    assert grouping_width("F", 6, 0.35, 1.0) == flat_width(6, 0.35, 1.0)
    assert grouping_width("M2", 14, 0.35, 1.2) == double_stack_width(14, 0.35, 1.2)
    for weaved in ("M1", "CM", "RM"):
        assert grouping_width(weaved, 15, 0.35, 1.5) == weaved_magnum_width(15, 0.35, 1.5)


def test_widths_carry_their_unit() -> None:
    diameter = 0.35 * UNITS.mm
    widths = [
        tightest_bundle(7, diameter),
        hollow_ring(7, diameter),
        flat_width(7, diameter, 1.0),
        weaved_magnum_width(7, diameter, 1.5),
        double_stack_width(7, diameter, 1.5),
        grouping_width("CM", 7, diameter, 1.5),
    ]
    for width in widths:
        assert width.check("[length]")
    assert widths[0].to("mm").magnitude == pytest.approx(tightest_bundle(7, 0.35))


@pytest.mark.parametrize("count", [0, -1, LARGEST_ROUND + 1, 7.0, True])
def test_a_round_not_on_file_is_refused(count: int) -> None:
    with pytest.raises(Refusal, match=rf"^count: .*1 to {LARGEST_ROUND} needles"):
        tightest_packing(count)


@pytest.mark.parametrize("diameter", [0.0, -0.3, math.nan, math.inf])
def test_no_diameter_is_refused(diameter: float) -> None:
    with pytest.raises(Refusal, match=r"^needle_diameter: "):
        tightest_bundle(7, diameter)
    with pytest.raises(Refusal, match=r"^needle_diameter: "):
        bugpin(diameter)


@pytest.mark.parametrize("spread", [0.99, 0.0, -1.0, math.nan, math.inf])
def test_needles_cannot_stand_closer_than_touching(spread: float) -> None:
    for width_of in (flat_width, weaved_magnum_width, double_stack_width):
        with pytest.raises(Refusal, match=r"^spread: "):
            width_of(7, 0.35, spread)


def test_too_few_needles_are_refused() -> None:
    with pytest.raises(Refusal, match=r"^count: .*at least 3"):
        hollow_ring(2, 0.3)
    with pytest.raises(Refusal, match=r"^count: .*at least 2"):
        flat_width(1, 0.3, 1.0)
    with pytest.raises(Refusal, match=r"^count: .*at least 3"):
        weaved_magnum_width(2, 0.3, 1.0)
    with pytest.raises(Refusal, match=r"^count: .*at least 3"):
        double_stack_width(2, 0.3, 1.0)


def test_what_does_not_belong_together_is_refused() -> None:
    with pytest.raises(Refusal, match=r"^spread: found nothing"):
        grouping_width("M1", 15, 0.35)
    with pytest.raises(Refusal, match=r"^spread: "):
        grouping_width("RL", 7, 0.35, 1.5)
    with pytest.raises(Refusal, match=r"^hollow: "):
        grouping_width("M1", 15, 0.35, 1.5, hollow=True)
    with pytest.raises(Refusal, match=r"^configuration: "):
        grouping_width("M3", 15, 0.35, 1.5)


def test_bugpin_at_the_limit_and_beyond() -> None:
    assert bugpin(BUGPIN_AT_MOST)
    assert not bugpin(math.nextafter(BUGPIN_AT_MOST, 1))
