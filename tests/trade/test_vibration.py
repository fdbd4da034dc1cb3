import math

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.trade.refusal import Refusal
from generator.trade.vibration import (
    ACTION_POINTS,
    ACTION_VALUE,
    LIMIT_POINTS,
    LIMIT_VALUE,
    REFERENCE_HOURS,
    combined_exposure,
    daily_exposure,
    exposure_points,
    hours_left,
)

UNITS = pint.get_application_registry()
ACCELERATIONS = st.floats(0.1, 30)
HOURS = st.floats(0, 24)


@given(ACCELERATIONS, HOURS)
def test_points_and_exposure_tell_the_same(acceleration: float, hours: float) -> None:
    exposure = daily_exposure(acceleration, hours)
    points = exposure_points(acceleration, hours)
    assert points == pytest.approx(2 * exposure**2 * REFERENCE_HOURS)


@given(ACCELERATIONS, st.floats(0, 12), st.floats(0, 12))
def test_one_machine_in_two_goes_counts_as_one(acceleration: float, morning: float, evening: float) -> None:
    halves = [daily_exposure(acceleration, morning), daily_exposure(acceleration, evening)]
    whole = daily_exposure(acceleration, morning + evening)
    assert combined_exposure(halves) == pytest.approx(whole)


@given(ACCELERATIONS, st.floats(0, 500))
def test_working_the_hours_left_reaches_the_value(acceleration: float, used: float) -> None:
    left = hours_left(acceleration, used)
    assert 0 <= left.to_action <= left.to_limit
    for hours, points in ((left.to_action, ACTION_POINTS), (left.to_limit, LIMIT_POINTS)):
        assert used + 2 * acceleration**2 * hours == pytest.approx(max(used, points))


def test_a_whole_day_at_a_value_is_the_value() -> None:
    assert daily_exposure(ACTION_VALUE, 8) == ACTION_VALUE
    assert daily_exposure(LIMIT_VALUE, 8) == LIMIT_VALUE
    assert daily_exposure(3.0, 0) == 0


def test_without_the_makers_figure_nothing_is_assessed() -> None:
    with pytest.raises(Refusal, match="not assessed"):
        daily_exposure(None, 3)
    with pytest.raises(Refusal, match=r"^acceleration: "):
        exposure_points(None, 3)
    with pytest.raises(Refusal, match=r"^acceleration: "):
        hours_left(None, 0)
    with pytest.raises(Refusal, match=r"^exposures: "):
        combined_exposure([1.0, None])
    with pytest.raises(Refusal, match=r"^exposures: "):
        combined_exposure([])


@pytest.mark.parametrize("senseless", [-1.0, math.nan, math.inf])
def test_senseless_numbers_are_refused(senseless: float) -> None:
    with pytest.raises(Refusal, match=r"^acceleration: "):
        daily_exposure(senseless, 3)
    with pytest.raises(Refusal, match=r"^exposures: "):
        combined_exposure([senseless])
    with pytest.raises(Refusal, match=r"^hours: "):
        daily_exposure(3.0, senseless)
    with pytest.raises(Refusal, match=r"^hours: "):
        exposure_points(3.0, senseless)
    with pytest.raises(Refusal, match=r"^points_used: "):
        hours_left(3.0, senseless)


def test_a_day_has_no_more_hours_and_a_machine_some_vibration() -> None:
    with pytest.raises(Refusal, match=r"^hours: "):
        daily_exposure(3.0, 24.1)
    with pytest.raises(Refusal, match=r"^acceleration: "):
        daily_exposure(0.0, 3)


def test_dimensions() -> None:
    acceleration = 3 * UNITS.m / UNITS.s**2
    exposure = daily_exposure(acceleration, 3)
    assert exposure.check("[acceleration]")
    assert combined_exposure([exposure, exposure]).check("[acceleration]")
    assert exposure_points(acceleration, 3).check("[acceleration]**2")
