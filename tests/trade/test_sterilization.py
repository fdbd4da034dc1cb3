"""A0, F0 and a logged hold."""

import math

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.trade.refusal import Refusal
from generator.trade.sterilization import Sample, a0, f0, hold_against_cycle

units = pint.get_application_registry()
logs = st.lists(st.builds(Sample, st.floats(0.1, 60), st.floats(20, 140)), min_size=1, max_size=12)
bad_logs = pytest.mark.parametrize(
    "log",
    [
        [],
        [Sample(0, 121)],
        [Sample(-1, 121)],
        [Sample(math.nan, 121)],
        [Sample(math.inf, 121)],
        [Sample(1, math.nan)],
        [Sample(1, 121), Sample(1, math.inf)],
    ],
)


@given(logs, logs)
def test_two_logs_after_each_other_add_up(first: list[Sample], second: list[Sample]) -> None:
    assert a0(first + second) == pytest.approx(a0(first) + a0(second))
    whole = f0(first + second, reference=121, z=10)
    assert whole == pytest.approx(f0(first, 121, 10) + f0(second, 121, 10))


@given(st.floats(0.1, 60), st.floats(66, 140))
def test_z_hotter_is_ten_times_as_much(duration: float, temperature: float) -> None:
    assert a0([Sample(duration, temperature + 10)]) == pytest.approx(10 * a0([Sample(duration, temperature)]))


def test_at_the_reference_a_minute_is_a_minute() -> None:
    assert f0([Sample(15, 121)], reference=121, z=10) == 15
    assert f0([Sample(15, 121)], reference=121.1, z=10) < 15


def test_up_to_the_floor_nothing_counts() -> None:
    assert a0([Sample(10_000, 65), Sample(10_000, 20)]) == 0


@bad_logs
def test_logs_that_are_none(log: list[Sample]) -> None:
    with pytest.raises(Refusal, match=r"^samples: "):
        a0(log)
    with pytest.raises(Refusal, match=r"^samples: "):
        f0(log, 121, 10)
    with pytest.raises(Refusal, match=r"^samples: "):
        hold_against_cycle(log, 121, 15, 124)


def test_temperatures_no_load_reaches() -> None:
    with pytest.raises(Refusal, match=r"^samples: "):
        a0([Sample(1, 1e9)])
    with pytest.raises(Refusal, match=r"^samples: "):
        f0([Sample(1, 1e9)], 121, 10)


@pytest.mark.parametrize("z", [0, -10, math.nan, math.inf])
def test_a_z_that_is_none(z: float) -> None:
    with pytest.raises(Refusal, match=r"^z: "):
        a0([Sample(1, 90)], z=z)
    with pytest.raises(Refusal, match=r"^z: "):
        f0([Sample(1, 121)], 121, z)


def test_a_reference_that_is_none() -> None:
    with pytest.raises(Refusal, match=r"^reference: ") as refused:
        f0([Sample(1, 121)], math.nan, 10)
    assert refused.value.argument == "reference"


def log(*temperatures: float) -> list[Sample]:
    return [Sample(1, temperature) for temperature in temperatures]


def test_a_hold_that_is_long_enough() -> None:
    found = hold_against_cycle(log(90, 133, 133.5, 134, 132, 100), 132, 4, 135)
    assert found == (4, 132, 134, True, False)


def test_a_dip_breaks_the_hold() -> None:
    found = hold_against_cycle(log(132, 132, 131.9, 132, 132, 132), 132, 4, 135)
    assert found.minutes == 3
    assert not found.long_enough


def test_a_peak_over_the_band_breaks_the_hold_and_is_named() -> None:
    found = hold_against_cycle(log(132, 132, 136, 132, 132), 132, 4, 135)
    assert (found.minutes, found.long_enough, found.over_the_band) == (2, False, True)
    assert hold_against_cycle(log(132, 132, 132, 132, 136), 132, 4, 135).over_the_band


def test_never_hot_enough() -> None:
    assert hold_against_cycle(log(100, 110, 120), 121, 15, 124) == (0, None, None, False, False)


def test_thirty_short_readings_are_three_minutes() -> None:
    assert hold_against_cycle([Sample(0.1, 134)] * 30, 134, 3, 137).long_enough


@given(logs)
def test_no_hold_is_longer_than_the_log(samples: list[Sample]) -> None:
    found = hold_against_cycle(samples, 100, 10, 120)
    assert 0 <= found.minutes <= sum(sample.duration for sample in samples) + 1e-6
    assert found.over_the_band == any(sample.temperature > 120 for sample in samples)


@pytest.mark.parametrize(
    ("temperature", "minutes", "upper_limit"),
    [
        (121, 0, 124),
        (121, math.nan, 124),
        (121, 15, 121),
        (121, 15, 100),
        (math.nan, 15, 124),
        (121, 15, math.inf),
    ],
)
def test_cycles_that_are_none(temperature: float, minutes: float, upper_limit: float) -> None:
    with pytest.raises(Refusal, match=r"^(minutes|upper_limit): "):
        hold_against_cycle(log(121), temperature, minutes, upper_limit)


def test_dimensions() -> None:
    def warm(degrees: float) -> pint.Quantity:
        return units.Quantity(degrees, units.degC)

    z = units.Quantity(10, units.delta_degC)
    washed = a0([Sample(60 * units.second, warm(90))], warm(80), z, warm(65))
    assert washed.to(units.second).magnitude == pytest.approx(600)
    cold = a0([Sample(60 * units.second, warm(50))], warm(80), z, warm(65))
    assert cold.check("[time]")
    steamed = f0([Sample(10 * units.minute, warm(131))], warm(121), z)
    assert steamed.to(units.minute).magnitude == pytest.approx(100)
    held = hold_against_cycle([Sample(240 * units.second, warm(133))], warm(132), 4 * units.minute, warm(135))
    assert held.long_enough
    assert held.minutes.check("[time]")
