import math

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.trade.density import constant_density_frequency, hand_speed_after_swap
from generator.trade.motion import spacing
from generator.trade.refusal import Refusal

UNITS = pint.get_application_registry()
FREQUENCIES = st.floats(20, 200)
COUNTS = st.integers(1, 49)


@given(st.floats(0.1, 50), FREQUENCIES, FREQUENCIES)
def test_a_swap_keeps_the_spacing(hand_speed: float, frequency: float, new: float) -> None:
    kept = hand_speed_after_swap(hand_speed, frequency, new)
    assert spacing(kept, new) == pytest.approx(spacing(hand_speed, frequency))


@given(FREQUENCIES, COUNTS, COUNTS)
def test_the_misleading_frequency_keeps_the_density(frequency: float, count: int, new_count: int) -> None:
    new = constant_density_frequency(frequency, count, new_count)
    # Needles times strokes are the punctures of a second, on whatever area.
    assert new_count * new == pytest.approx(count * frequency)


def test_why_it_misleads() -> None:
    # From a seven to a fifteen it asks for less than half the strokes, slower than any technique runs.
    assert constant_density_frequency(90.0, 7, 15) == pytest.approx(42.0)


def test_dimensions() -> None:
    frequency = 95 / UNITS.s
    assert hand_speed_after_swap(8 * UNITS.mm / UNITS.s, frequency, frequency).check("[speed]")
    assert constant_density_frequency(frequency, 7, 15).check("1/[time]")


@pytest.mark.parametrize("senseless", [0.0, -1.0, math.nan, math.inf])
@pytest.mark.parametrize("place", range(3))
def test_senseless_numbers_are_refused(senseless: float, place: int) -> None:
    parts = [7, 95.0, 60.0]
    parts[place] = senseless
    for swapped in (hand_speed_after_swap, constant_density_frequency):
        with pytest.raises(Refusal, match=r"^(count|frequency|hand_speed|new_count|new_frequency): "):
            swapped(*parts)
