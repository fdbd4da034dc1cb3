"""Exposure on the hand against the directive and the HSE's ready reckoner."""

import pytest

from generator.trade.vibration import (
    ACTION_POINTS,
    ACTION_VALUE,
    LIMIT_POINTS,
    LIMIT_VALUE,
    NoDay,
    combined_exposure,
    daily_exposure,
    exposure_points,
    hours_left,
)
from tests.published.printed import Printed

DIRECTIVE = "Directive 2002/44/EC, Article 3"
RECKONER = (
    "HSE, hand-arm vibration exposure ready reckoner, page of 31 July 2009: 100 points action, 400 points limit value"
)


def test_action_and_limit_value() -> None:
    # Values of a law are meant exactly.
    assert float(Printed("2.5", DIRECTIVE, "B").literal) == ACTION_VALUE
    assert float(Printed("5", DIRECTIVE, "B").literal) == LIMIT_VALUE


def test_eight_hours_at_a_value_are_the_value() -> None:
    assert daily_exposure(2.5, 8) == float(Printed("2.5", DIRECTIVE, "B").literal)
    assert daily_exposure(5, 8) == float(Printed("5", DIRECTIVE, "B").literal)


@pytest.mark.parametrize(
    ("acceleration", "hours", "printed"),
    [
        (5, 3, Printed("150", RECKONER, "A")),
        (2.5, 8, Printed("100", RECKONER, "A")),
        (5, 8, Printed("400", RECKONER, "A")),
    ],
)
def test_points(acceleration: float, hours: float, printed: Printed) -> None:
    assert printed.agrees(exposure_points(acceleration, hours))


def test_points_of_the_values() -> None:
    assert Printed("100", RECKONER, "A").agrees(ACTION_POINTS)
    assert Printed("400", RECKONER, "A").agrees(LIMIT_POINTS)


def test_three_hours_at_five_are_above_the_action_value() -> None:
    left = hours_left(5, float(Printed("150", RECKONER, "A").literal))
    assert left.to_action == 0
    # 250 points are left to the limit value, 50 an hour.
    assert Printed("5.000", RECKONER, "C").agrees(left.to_limit)


def test_a_day_has_so_many_hours() -> None:
    day = float(Printed("24", "SI Brochure, units accepted for use with the SI: 1 d = 24 h", "M").literal)
    assert exposure_points(1.0, day) == 2 * day
    with pytest.raises(NoDay):
        exposure_points(1.0, day + 0.1)


def test_two_machines_add_up_as_squares() -> None:
    assert Printed("5.000", "Pythagoras: 3, 4, 5", "M").agrees(combined_exposure([3.0, 4.0]))
