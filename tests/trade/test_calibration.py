import math
from dataclasses import replace

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.trade.calibration import Conditions, Point, frequency_at, volts_for
from generator.trade.refusal import Refusal

UNITS = pint.get_application_registry()
HERE = Conditions("rotary-one", 3.5, "cartridge-kind-a", "supply-one")
POINTS = [Point(5.0, 70.0), Point(8.0, 115.0), Point(6.0, 90.0)]


@st.composite
def rising_points(draw: st.DrawFn) -> list[Point]:
    steps = draw(st.lists(st.tuples(st.floats(0.1, 3), st.floats(1, 60)), min_size=2, max_size=8))
    volts, frequency, points = 1.0, 10.0, []
    for more_volts, more_strokes in steps:
        volts, frequency = volts + more_volts, frequency + more_strokes
        points.append(Point(volts, frequency))
    return draw(st.permutations(points))


@given(rising_points(), st.floats(0, 1))
def test_there_and_back(points: list[Point], share: float) -> None:
    low, high = min(p.volts for p in points), max(p.volts for p in points)
    volts = min(max(low + share * (high - low), low), high)
    frequency = frequency_at(volts, points, HERE, HERE)
    # The last bit must not push a value from the edge over it.
    frequency = min(max(frequency, min(p.frequency for p in points)), max(p.frequency for p in points))
    assert volts_for(frequency, points, HERE, HERE) == pytest.approx(volts)


@given(rising_points(), st.floats(0, 1), st.floats(0, 1))
def test_more_volts_never_mean_fewer_strokes(points: list[Point], one: float, other: float) -> None:
    low, high = min(p.volts for p in points), max(p.volts for p in points)
    slower, faster = sorted(min(low + share * (high - low), high) for share in (one, other))
    gained = frequency_at(faster, points, HERE, HERE) - frequency_at(slower, points, HERE, HERE)
    assert gained >= -1e-9


@given(rising_points())
def test_measured_points_come_back_as_measured(points: list[Point]) -> None:
    for volts, frequency in points:
        assert frequency_at(volts, points, HERE, HERE) == frequency
        assert volts_for(frequency, points, HERE, HERE) == volts


def test_half_way_between_two_points() -> None:
    assert frequency_at(7.0, POINTS, HERE, HERE) == pytest.approx(102.5)
    assert volts_for(80.0, POINTS, HERE, HERE) == pytest.approx(5.5)


def test_dimensions() -> None:
    points = [Point(5 * UNITS.V, 70 / UNITS.s), Point(8 * UNITS.V, 115 / UNITS.s)]
    assert frequency_at(6 * UNITS.V, points, HERE, HERE).check("1/[time]")
    assert volts_for(90 / UNITS.s, points, HERE, HERE).check(UNITS.V)


@pytest.mark.parametrize("beyond", [4.999, 8.001, math.nan, math.inf, -6.0])
def test_beyond_the_points_is_refused(beyond: float) -> None:
    with pytest.raises(Refusal, match=r"^volts: ") as refused:
        frequency_at(beyond, POINTS, HERE, HERE)
    assert "5.0 to 8.0 V" in refused.value.expected
    with pytest.raises(Refusal, match=r"^frequency: "):
        volts_for(beyond * 1000, POINTS, HERE, HERE)


@pytest.mark.parametrize("points", [[], POINTS[:1]])
def test_too_few_points_are_refused(points: list[Point]) -> None:
    with pytest.raises(Refusal, match=r"^points: ") as refused:
        frequency_at(5.0, points, HERE, HERE)
    assert "rotary-one" in refused.value.remedy


@pytest.mark.parametrize(
    "wrong",
    [
        Point(7.0, 80.0),
        Point(7.0, 115.0),
        Point(6.0, 95.0),
        Point(7.0, math.nan),
        Point(math.inf, 200.0),
        Point(0.0, 10.0),
        Point(9.0, -1.0),
    ],
)
def test_points_that_do_not_rise_are_refused(wrong: Point) -> None:
    with pytest.raises(Refusal, match=r"^points: "):
        frequency_at(5.5, [*POINTS, wrong], HERE, HERE)


@pytest.mark.parametrize(
    "other",
    [
        replace(HERE, machine="rotary-two"),
        replace(HERE, stroke=4.0),
        replace(HERE, cartridge="cartridge-kind-b"),
        replace(HERE, supply="supply-two"),
    ],
)
def test_other_conditions_are_refused_and_say_what_to_measure(other: Conditions) -> None:
    for asked in (frequency_at, volts_for):
        with pytest.raises(Refusal, match=r"^(cartridge|machine|stroke|supply): ") as refused:
            asked(6.0, POINTS, HERE, other)
        assert str(getattr(other, refused.value.argument)) in refused.value.remedy
