"""Time against the practice of the trade (no published source)."""

import pytest

from generator.trade.clock import (
    NothingLearned,
    RateInDoubt,
    area_minutes,
    breaks_needed,
    learned_factor,
    line_minutes,
    sittings,
)
from tests.published.printed import Printed

PRACTICE = "common practice of the trade, no published source"
SLOWEST_PACKING = Printed("0.5", PRACTICE, "P")
FASTEST_PACKING = Printed("1.2", PRACTICE, "P")
LINING = (Printed("3", PRACTICE, "P"), Printed("5", PRACTICE, "P"))


def test_packing_fifty_square_centimetres_takes_an_hour_or_so() -> None:
    # cm² to mm² is a factor of 100.
    slow = area_minutes(50 * 100, float(SLOWEST_PACKING.literal) * 100, passes=1)
    fast = area_minutes(50 * 100, float(FASTEST_PACKING.literal) * 100, passes=1)
    assert Printed("100", PRACTICE, "P").agrees(slow)
    assert 40 <= fast < slow <= 100


def test_the_speed_of_the_hand_is_no_pace() -> None:
    # 100 Hz with punctures 0.1 mm apart is a hand of 10 mm/s: a liner's setting, from memory (M).
    length, hand_speed = 900.0, 10.0
    by_hand = length / hand_speed / 60
    for rate in LINING:
        by_clock = line_minutes(length, float(rate.literal) * 10)
        assert by_clock / by_hand > 10


def test_breaks_of_a_sitting() -> None:
    # Breaks each 60 to 90 minutes; a sitting of 3 to 5 hours.
    assert [breaks_needed(hours * 60, between) for hours in (3, 5) for between in (60, 90)] == [2, 1, 4, 3]
    assert [sittings(10 * 60, hours * 60) for hours in (3, 5)] == [4, 2]


@pytest.mark.parametrize("jobs", [2, 3])
def test_three_finished_jobs_teach_a_factor(jobs: int) -> None:
    # House rule: below three jobs a factor is chance.
    if jobs < 3:
        with pytest.raises(NothingLearned):
            learned_factor([(100, 120)] * jobs)
    else:
        assert Printed("1.20", "arithmetic", "C").agrees(learned_factor([(100, 120)] * jobs).factor)


@pytest.mark.parametrize(("off", "taught"), [(1.99, True), (2.01, False), (0.503, True), (0.497, False)])
def test_beyond_a_factor_of_two_the_rate_is_wrong(off: float, taught: bool) -> None:
    # House rule: a factor must not hide a wrong rate.
    jobs = [(100.0, 100 * off)] * 3
    if taught:
        assert learned_factor(jobs).factor == pytest.approx(off)
    else:
        with pytest.raises(RateInDoubt):
            learned_factor(jobs)
