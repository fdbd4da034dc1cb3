"""Order of work against the practice of the trade."""

from generator.trade.layout import Laid, light_before_dark, lining_order
from generator.trade.shapes import Box

# Common practice, no published source: lines in the order that keeps the stencil, bottom up and from the
# hand's own side across; colours from dark to light, so that no dark is wiped over a light one.


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
