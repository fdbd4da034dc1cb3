"""Exposure on the hand against the directive, the regulations and the ready reckoner."""

import pytest

from generator.trade.vibration import (
    ACTION_POINTS,
    ACTION_VALUE,
    LIMIT_POINTS,
    LIMIT_VALUE,
    daily_exposure,
    exposure_points,
    hours_left,
)
from tests.published.printed import Document, Printed

DIRECTIVE = Document(
    "Directive 2002/44/EC on the exposure of workers to vibration", "European Parliament and Council", 2002
).at("Article 3", "B")
REGULATIONS = Document("The Control of Vibration at Work Regulations 2005", "Government of the United Kingdom", 2005)
VALUES, SCHEDULE = REGULATIONS.at("regulation 4", "B"), REGULATIONS.at("Schedule 1, part I")
RECKONER = Document("Hand-arm vibration exposure ready reckoner", "Health and Safety Executive", 2009).at("text")

ACTION, LIMIT = (DIRECTIVE("2.5"), VALUES("2.5")), (DIRECTIVE("5"), VALUES("5"))
HOURS, REFERENCE, SECONDS = DIRECTIVE("8"), SCHEDULE("8"), SCHEDULE("28800")
POINTS = RECKONER("100"), RECKONER("400")
EXAMPLE = RECKONER("150")


def test_action_and_limit_value() -> None:
    # Values of a law are meant exactly.
    assert [value.number for value in ACTION] == [ACTION_VALUE] * 2
    assert [value.number for value in LIMIT] == [LIMIT_VALUE] * 2


def test_the_reference_time_at_a_value_is_the_value() -> None:
    for hours in (HOURS.number, REFERENCE.number, SECONDS.number / 3600):
        assert daily_exposure(ACTION_VALUE, hours) == ACTION_VALUE
        assert daily_exposure(LIMIT_VALUE, hours) == LIMIT_VALUE


@pytest.mark.parametrize(
    ("acceleration", "hours", "printed"), [(5, 3, EXAMPLE), (2.5, 8, POINTS[0]), (5, 8, POINTS[1])]
)
def test_points(acceleration: float, hours: float, printed: Printed) -> None:
    assert printed.agrees(exposure_points(acceleration, hours))


def test_points_of_the_values() -> None:
    assert [value.number for value in POINTS] == [ACTION_POINTS, LIMIT_POINTS]


def test_three_hours_at_five_are_above_the_action_value() -> None:
    left = hours_left(5, EXAMPLE.number)
    assert left.to_action == 0
    # 250 points are left to the limit value, 50 an hour.
    assert left.to_limit == pytest.approx(5)
