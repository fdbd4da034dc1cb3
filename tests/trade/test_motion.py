import math

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.trade.motion import spacing
from generator.trade.refusal import Refusal

UNITS = pint.get_application_registry()
FREQUENCIES = st.floats(1, 300)
SENSELESS = [0.0, -1.0, math.nan, math.inf]


@given(st.floats(0, 100), FREQUENCIES)
def test_so_many_punctures_lie_on_the_way_of_a_second(hand_speed: float, frequency: float) -> None:
    assert spacing(hand_speed, frequency) * frequency == pytest.approx(hand_speed)


def test_dimensions() -> None:
    assert spacing(8 * UNITS.mm / UNITS.s, 95 / UNITS.s).check("[length]")


@pytest.mark.parametrize("senseless", SENSELESS)
def test_a_frequency_that_is_none_is_refused(senseless: float) -> None:
    with pytest.raises(Refusal, match=r"^frequency: "):
        spacing(8.0, senseless)


@pytest.mark.parametrize("senseless", SENSELESS[1:])
def test_a_resting_hand_is_fine_but_nothing_less(senseless: float) -> None:
    assert spacing(0.0, 95.0) == 0
    with pytest.raises(Refusal, match=r"^hand_speed: "):
        spacing(senseless, 95.0)
