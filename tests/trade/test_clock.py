"""Time by the clock, breaks, sittings and what finished jobs teach."""

import math

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.trade.clock import (
    NothingLearned,
    RateInDoubt,
    area_minutes,
    breaks_needed,
    learned_factor,
    line_minutes,
    sittings,
)
from generator.trade.refusal import Refusal

units = pint.get_application_registry()
times = st.floats(1, 2000)
bad_amounts = pytest.mark.parametrize("amount", [-1, math.nan, math.inf])
bad_divisors = pytest.mark.parametrize("divisor", [0, -1, math.nan, math.inf])


@given(st.floats(0, 10_000), st.floats(1, 100))
def test_twice_the_line_takes_twice_the_time(length: float, rate: float) -> None:
    assert line_minutes(2 * length, rate) == pytest.approx(2 * line_minutes(length, rate))


@given(st.floats(0, 100_000), st.floats(1, 500), st.integers(1, 4))
def test_going_over_again_takes_as_long_again(area: float, rate: float, passes: int) -> None:
    assert area_minutes(area, rate, passes) == pytest.approx(passes * area_minutes(area, rate, 1))


@given(times, st.floats(10, 200))
def test_with_its_breaks_no_stretch_is_too_long(working: float, between: float) -> None:
    breaks = breaks_needed(working, between)
    assert working / (breaks + 1) <= between * (1 + 1e-8)
    assert breaks == 0 or working / breaks > between * (1 - 1e-8)


@pytest.mark.parametrize(
    ("working", "between", "breaks"),
    [(0, 60, 0), (60, 60, 0), (61, 60, 1), (120, 60, 1), (240, 90, 2), (0.3, 0.1, 2)],
)
def test_no_break_after_the_last_stretch(working: float, between: float, breaks: int) -> None:
    assert breaks_needed(working, between) == breaks


@pytest.mark.parametrize(("total", "longest", "count"), [(0, 240, 1), (240, 240, 1), (241, 240, 2), (720, 240, 3)])
def test_sittings(total: float, longest: float, count: int) -> None:
    assert sittings(total, longest) == count


@given(st.lists(st.tuples(times, st.floats(0.6, 1.9)), min_size=3, max_size=9))
def test_the_factor_is_one_of_the_middle(jobs: list[tuple[float, float]]) -> None:
    found = learned_factor([(estimated, estimated * off) for estimated, off in jobs])
    offs = [off for _, off in jobs]
    assert min(offs) * (1 - 1e-9) <= found <= max(offs) * (1 + 1e-9)


def test_one_odd_job_does_not_move_the_factor_far() -> None:
    assert learned_factor([(100, 110), (100, 120), (100, 900)]) == pytest.approx(1.2)


@pytest.mark.parametrize("jobs", [[], [(100, 120)], [(100, 120), (60, 80)]])
def test_fewer_than_three_jobs_teach_nothing(jobs: list[tuple[float, float]]) -> None:
    with pytest.raises(NothingLearned) as refused:
        learned_factor(jobs)
    assert "3" in refused.value.expected


@pytest.mark.parametrize("odd", [(0, 100), (100, 0), (-5, 100), (100, math.nan), (math.inf, 100)])
def test_times_that_are_none(odd: tuple[float, float]) -> None:
    with pytest.raises(NothingLearned):
        learned_factor([(100, 100), (100, 100), odd])


@pytest.mark.parametrize("off", [0.4, 2.2, 10])
def test_beyond_two_either_way_the_rate_is_in_doubt(off: float) -> None:
    with pytest.raises(RateInDoubt) as refused:
        learned_factor([(100, 100 * off)] * 3)
    assert refused.value.expected == "a factor from 0.5 to 2" and "pace in the technique" in refused.value.remedy


@pytest.mark.parametrize("off", [0.5, 2])
def test_a_factor_of_two_itself_will_do(off: float) -> None:
    assert learned_factor([(100, 100 * off)] * 3) == off


@bad_amounts
def test_amounts_that_are_none(amount: float) -> None:
    with pytest.raises(Refusal, match=r"^length: "):
        line_minutes(amount, 40)
    with pytest.raises(Refusal, match=r"^area: "):
        area_minutes(amount, 80, 1)
    with pytest.raises(Refusal, match=r"^working_minutes: "):
        breaks_needed(amount, 60)
    with pytest.raises(Refusal, match=r"^total_minutes: "):
        sittings(amount, 240)


@bad_divisors
def test_rates_and_limits_that_are_none(divisor: float) -> None:
    with pytest.raises(Refusal, match=r"^pace: "):
        line_minutes(900, divisor)
    with pytest.raises(Refusal, match=r"^pace: "):
        area_minutes(900, divisor, 1)
    with pytest.raises(Refusal, match=r"^between: "):
        breaks_needed(100, divisor)
    with pytest.raises(Refusal, match=r"^longest_sitting: "):
        sittings(100, divisor)


@pytest.mark.parametrize("passes", [0, 0.5, -1, math.nan, math.inf])
def test_skin_is_gone_over_once_at_least(passes: float) -> None:
    with pytest.raises(Refusal, match=r"^passes: ") as refused:
        area_minutes(900, 80, passes)
    assert refused.value.argument == "passes"


def test_dimensions() -> None:
    minute, mm, cm = units.minute, units.mm, units.cm
    assert line_minutes(900 * mm, 4 * cm / minute).to(minute).magnitude == pytest.approx(22.5)
    assert area_minutes(50 * cm**2, 1 * cm**2 / minute, 2).to(minute).magnitude == pytest.approx(100)
    assert breaks_needed(4 * units.hour, 60 * minute) == 3
    assert sittings(9 * units.hour, 240 * minute) == 3
    learned = learned_factor([(60 * minute, 1.2 * units.hour)] * 3)
    assert learned.to("").magnitude == pytest.approx(1.2)
    assert learned.dimensionless
