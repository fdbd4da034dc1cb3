"""Order of work against the practice of the trade."""

import pytest

from generator.trade.layout import (
    Laid,
    Weighed,
    centre_of_weight,
    light_before_dark,
    lining_order,
    size_step,
    thirds,
    weight_by_place,
)
from generator.trade.shapes import Box, Focus, Outline, centroid

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


def test_the_middle_of_a_triangle_is_a_third_of_its_height_up() -> None:
    # Archimedes, On the Equilibrium of Planes I.14: the centre of gravity of a triangle.
    assert centroid(Outline(((0, 0), (6, 0), (0, 9)))) == Focus(pytest.approx(2), pytest.approx(3))


def test_weights_balance_at_distances_that_are_reciprocal() -> None:
    # Archimedes, On the Equilibrium of Planes I.6: two to one balance at one to two.
    heavy, light = Weighed(Box(-1, -1, 2, 2), 2), Weighed(Box(29, -1, 2, 2), 1)
    assert centre_of_weight([heavy, light]) == Focus(pytest.approx(10), pytest.approx(0))


def test_an_even_ground_has_a_third_of_its_weight_in_each_third() -> None:
    even = [Weighed(Box(0, 0, 30, 90), 5)]
    assert weight_by_place(even, thirds(30, 90)) == pytest.approx({"upper": 1 / 3, "middle": 1 / 3, "lower": 1 / 3})
    assert size_step(3, 2) == 1.5
