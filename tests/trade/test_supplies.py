"""Ink, caps, cartridges, gloves and packs."""

import math

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.trade.supplies import (
    NoCaps,
    NoCartridges,
    NoGloves,
    NoInkAmount,
    NoOrder,
    NoPigmentLoad,
    cartridges,
    glove_pairs,
    ink_caps,
    ink_millilitres,
    ink_millilitres_by_pigment,
    packs_to_order,
)

units = pint.UnitRegistry()
amounts = st.floats(0, 100)
bad_amounts = pytest.mark.parametrize("amount", [-1, math.nan, math.inf])
bad_divisors = pytest.mark.parametrize("divisor", [0, -1, math.nan, math.inf])


@given(st.lists(amounts, max_size=8), st.floats(0.1, 10))
def test_a_cap_for_each_ink_and_enough_of_them(millilitres: list[float], cap: float) -> None:
    caps = ink_caps(millilitres, cap)
    assert caps >= len(millilitres)
    assert caps * cap >= sum(millilitres) * (1 - 1e-8) - 1e-8
    assert caps <= sum(amount / cap + 1 for amount in millilitres)


@pytest.mark.parametrize(
    ("millilitres", "cap", "caps"),
    [([], 1, 0), ([0], 1, 1), ([1], 1, 1), ([1.1, 0.2], 1, 3), ([0.3], 0.1, 3)],
)
def test_caps(millilitres: list[float], cap: float, caps: int) -> None:
    assert ink_caps(millilitres, cap) == caps


@pytest.mark.parametrize(("minutes", "lasts", "count"), [([], 120, 0), ([10, 130], 120, 3), ([0], 120, 1)])
def test_cartridges(minutes: list[float], lasts: float, count: int) -> None:
    assert cartridges(minutes, lasts) == count


@given(st.integers(0, 20), st.integers(1, 3))
def test_fresh_gloves_after_every_interruption(interruptions: int, people: int) -> None:
    assert glove_pairs(interruptions + 1, people) - glove_pairs(interruptions, people) == people
    assert glove_pairs(0, people) == people


@given(amounts, amounts, amounts, st.floats(0.5, 50))
def test_an_order_meets_the_need_and_no_pack_too_many(need: float, stock: float, reserve: float, pack: float) -> None:
    packs = packs_to_order(need, stock, reserve, pack)
    assert stock + packs * pack >= (need + reserve) - 1e-6
    assert packs == 0 or stock + (packs - 1) * pack < need + reserve + 1e-6


def test_a_full_shelf_orders_nothing() -> None:
    assert packs_to_order(need=8, stock=200, reserve=50, pack=100) == 0
    assert packs_to_order(need=8, stock=50, reserve=50, pack=100) == 1


def test_no_pigment_load_no_answer() -> None:
    with pytest.raises(NoPigmentLoad) as refused:
        ink_millilitres_by_pigment(5000, 2.53e-5, None)
    assert refused.value.argument == "pigment_load"
    assert "own rate" in refused.value.remedy


@bad_amounts
def test_amounts_that_are_none(amount: float) -> None:
    with pytest.raises(NoInkAmount):
        ink_millilitres(amount, 0.001)
    with pytest.raises(NoPigmentLoad):
        ink_millilitres_by_pigment(amount, 2.53e-5, 0.2)
    with pytest.raises(NoCaps):
        ink_caps([1, amount], 1)
    with pytest.raises(NoCartridges):
        cartridges([10, amount], 120)
    for needed in ((amount, 0, 0), (0, amount, 0), (0, 0, amount)):
        with pytest.raises(NoOrder):
            packs_to_order(*needed, 100)


@bad_divisors
def test_rates_and_sizes_that_are_none(divisor: float) -> None:
    with pytest.raises(NoInkAmount):
        ink_millilitres(100, divisor)
    with pytest.raises(NoPigmentLoad):
        ink_millilitres_by_pigment(100, divisor, 0.2)
    with pytest.raises(NoPigmentLoad):
        ink_millilitres_by_pigment(100, 2.53e-5, divisor)
    with pytest.raises(NoCaps):
        ink_caps([1], divisor)
    with pytest.raises(NoCartridges):
        cartridges([10], divisor)
    with pytest.raises(NoOrder):
        packs_to_order(1, 1, 1, divisor)


@pytest.mark.parametrize(("interruptions", "people"), [(-1, 1), (3, 0)])
def test_gloves_that_cannot_be_counted(interruptions: int, people: int) -> None:
    with pytest.raises(NoGloves):
        glove_pairs(interruptions, people)


def test_dimensions() -> None:
    cm2, ml, mg = units.cm**2, units.milliliter, units.mg
    assert ink_millilitres(50 * cm2, 0.1 * ml / cm2).to(ml).magnitude == pytest.approx(5)
    by_pigment = ink_millilitres_by_pigment(50 * cm2, 2.53 * mg / cm2, 200 * mg / ml)
    assert by_pigment.to(ml).magnitude == pytest.approx(0.6325)
    assert ink_caps([0.5 * ml, 0.002 * units.liter], 1 * ml) == 3
    assert cartridges([2.5 * units.hour], 60 * units.minute) == 3
    assert packs_to_order(100 * ml, 0 * ml, 0.1 * units.liter, 30 * ml) == 7
