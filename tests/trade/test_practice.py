"""Formulas against the practice of the trade: ranges that are common among artists, from memory, with no published
source."""

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
from generator.trade.labels import DISPUTED_WIRE, read_label, wire_diameter
from generator.trade.layout import Laid, light_before_dark, lining_order
from generator.trade.needles import bugpin
from generator.trade.refusal import Refusal
from generator.trade.shapes import Box, Spot, mole_clearance
from generator.trade.supplies import ink_caps, ink_millilitres

# Time.


def test_packing_fifty_square_centimetres_takes_an_hour_or_so() -> None:
    # 0.5 to 1.2 cm² a minute; cm² to mm² is a factor of 100.
    slow, fast = (area_minutes(50 * 100, pace * 100, passes=1) for pace in (0.5, 1.2))
    assert slow == 100
    assert 40 <= fast < slow


def test_the_speed_of_the_hand_is_no_pace() -> None:
    # 100 Hz with punctures 0.1 mm apart is a hand of 10 mm/s: a liner's setting. Lining goes 3 to 5 cm a minute.
    length, hand_speed = 900.0, 10.0
    by_hand = length / hand_speed / 60
    for rate in (3, 5):
        assert line_minutes(length, rate * 10) / by_hand > 10


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
        assert learned_factor([(100, 120)] * jobs) == pytest.approx(1.2)


@pytest.mark.parametrize(("off", "taught"), [(1.99, True), (2.01, False), (0.503, True), (0.497, False)])
def test_beyond_a_factor_of_two_the_rate_is_wrong(off: float, taught: bool) -> None:
    # House rule: a factor must not hide a wrong rate.
    jobs = [(100.0, 100 * off)] * 3
    if taught:
        assert learned_factor(jobs) == pytest.approx(off)
    else:
        with pytest.raises(RateInDoubt):
            learned_factor(jobs)


# Labels and wires, as printed on boxes.


@pytest.mark.parametrize(("code", "printed"), [("08", 0.25), ("10", 0.30), ("12", 0.35), ("14", 0.40)])
def test_wire(code: str, printed: float) -> None:
    assert wire_diameter(code) == printed


def test_pages_disagree_about_sixes() -> None:
    # 0.20 mm on some pages, 0.22 mm on others.
    assert DISPUTED_WIRE == ("06",)
    with pytest.raises(Refusal, match=r"^code: "):
        wire_diameter("06")


def test_label_order() -> None:
    label = read_label("1207RL")
    assert (label.code, label.count, label.configuration) == ("12", 7, "RL")


@pytest.mark.parametrize("written", ["1203M1", "1203M2", "1203CM", "1203RM"])
def test_two_rows_need_three_needles(written: str) -> None:
    # Geometry: two needles can only stand as one row.
    assert read_label(written).count == 3
    with pytest.raises(Refusal, match=r"^count: "):
        read_label(written.replace("3", "2", 1))


def test_seven_rl_is_no_volume() -> None:
    # Unit parsers read "7RL" as seven ronnalitres; here it is a label without its wire.
    with pytest.raises(Refusal, match=r"^written: "):
        read_label("7RL")


def test_bugpin_is_thirty_hundredths_and_thinner() -> None:
    assert bugpin(0.30)
    assert bugpin(0.25)
    assert not bugpin(0.301)


# Order of work: lines in the order that keeps the stencil, bottom up and from the hand's own side across; colours
# from dark to light, so that no dark is wiped over a light one.


def test_both_hands_begin_below_and_end_above() -> None:
    parts = {f"{x}{y}": Box(x * 40, y * 40, 30, 30) for x in range(3) for y in range(3)}
    for hand, start, end in (("right", "22", "00"), ("left", "02", "20")):
        order = lining_order(parts, hand, turned=0, row=40)
        assert (order[0], order[-1]) == (start, end)


def test_dark_to_light_lays_no_light_before_a_dark() -> None:
    laid = [Laid(f"{lightness}", Box(0, 0, 10, 10), lightness) for lightness in (5, 30, 60, 85, 100)]
    assert light_before_dark(laid, within=0, step=10) == ()
    assert len(light_before_dark(laid[::-1], within=0, step=10)) == 10


def test_what_lies_wholly_nearer_comes_first_in_the_same_row_too() -> None:
    """Two parts that touch, one right below the other: the heel of the hand rests on the lower one."""
    for hand, above, below in (("right", 40, 0), ("left", 0, 40)):
        parts = {"above": Box(above, 0, 20, 40), "below": Box(below, 40, 20, 20)}
        assert lining_order(parts, hand, turned=0, row=200) == ("below", "above")


# Ink and skin.


def test_house_rate_and_caps() -> None:
    # 0.1 mL/cm² on 50 cm² is 5 mL: six caps of 0.9 mL.
    volume = ink_millilitres(50 * 100, 0.1 / 100)
    assert volume == pytest.approx(5)
    assert ink_caps([volume], 0.9) == 6


@pytest.mark.parametrize("distance", [5.0, 10.0])
def test_ink_stays_outside_the_ring_round_a_mole(distance: float) -> None:
    # Moles and lesions are kept clear by 5 to 10 mm.
    mole = Spot(0, 0, distance)
    assert mole_clearance(Box(distance + 0.1, -5, 20, 10), mole) > 0
    assert mole_clearance(Box(distance - 0.1, -5, 20, 10), mole) < 0
