"""Ink, caps and packs."""

import math

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.trade.refusal import Refusal
from generator.trade.supplies import ink_caps, ink_millilitres, packs_to_order

units = pint.get_application_registry()
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


@given(amounts, amounts, amounts, st.floats(0.5, 50))
def test_an_order_meets_the_need_and_no_pack_too_many(need: float, stock: float, reserve: float, pack: float) -> None:
    packs = packs_to_order(need, stock, reserve, pack)
    assert stock + packs * pack >= (need + reserve) - 1e-6
    assert packs == 0 or stock + (packs - 1) * pack < need + reserve + 1e-6


def test_a_full_shelf_orders_nothing() -> None:
    assert packs_to_order(need=8, stock=200, reserve=50, pack=100) == 0
    assert packs_to_order(need=8, stock=50, reserve=50, pack=100) == 1


@bad_amounts
def test_amounts_that_are_none(amount: float) -> None:
    with pytest.raises(Refusal, match=r"^area: "):
        ink_millilitres(amount, 0.001)
    with pytest.raises(Refusal, match=r"^millilitres: "):
        ink_caps([1, amount], 1)
    for needed in ((amount, 0, 0), (0, amount, 0), (0, 0, amount)):
        with pytest.raises(Refusal, match=r"^(need|reserve|stock): "):
            packs_to_order(*needed, 100)


@bad_divisors
def test_rates_and_sizes_that_are_none(divisor: float) -> None:
    with pytest.raises(Refusal, match=r"^house_rate: "):
        ink_millilitres(100, divisor)
    with pytest.raises(Refusal, match=r"^cap: "):
        ink_caps([1], divisor)
    with pytest.raises(Refusal, match=r"^pack: "):
        packs_to_order(1, 1, 1, divisor)


def test_dimensions() -> None:
    cm2, ml = units.cm**2, units.milliliter
    assert ink_millilitres(50 * cm2, 0.1 * ml / cm2).to(ml).magnitude == pytest.approx(5)
    assert ink_caps([0.5 * ml, 0.002 * units.liter], 1 * ml) == 3
    assert packs_to_order(100 * ml, 0 * ml, 0.1 * units.liter, 30 * ml) == 7
