"""Straight lines between measured points against a worked example."""

from generator.trade.calibration import Conditions, Point, frequency_at, volts_for
from tests.published.printed import Document

INTERP = Document("numpy.interp() function, Python", "GeeksforGeeks", 2020).at("code 1")("2.6")
UNDER = Conditions("one", 3.5, "liner", "bench")


def test_a_value_between_three_points() -> None:
    # At 3.6 between (2, 1), (4, 3) and (6, 5).
    points = [Point(2, 1), Point(4, 3), Point(6, 5)]
    assert INTERP.agrees(frequency_at(3.6, points, UNDER, UNDER))
    assert abs(volts_for(INTERP.number, points, UNDER, UNDER) - 3.6) < 1e-9
