"""Mixing, what a mix holds, and expiry."""

import math
from datetime import UTC, datetime

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.trade.disinfection import (
    Mix,
    dissolved_strength,
    mix_expires,
    mix_for,
    mixed_strength,
    powder_for,
    powder_per_litre,
)
from generator.trade.refusal import Refusal

units = pint.get_application_registry()
shares = st.floats(0.01, 100)
impossible = pytest.mark.parametrize("share", [0, -1, 101, math.nan, math.inf])


@given(shares, st.floats(0.001, 1))
def test_mixing_the_volumes_gives_the_concentration_back(product: float, weaker: float) -> None:
    desired = product * weaker
    volumes = mix_for(1000, product, desired)
    assert volumes.product + volumes.water == pytest.approx(1000)
    assert mixed_strength(product, *volumes) == pytest.approx(desired)


steps = st.sampled_from([0, 0.01, 0.1, 1, 2.95735296])


@given(shares, st.floats(0.001, 0.999), st.floats(1, 20_000), steps, steps)
def test_no_measure_makes_a_mix_weaker(
    product: float, weaker: float, wanted: float, product_step: float, water_step: float
) -> None:
    desired = product * weaker
    mix = mix_for(wanted, product, desired, product_step, water_step)
    assert mixed_strength(product, *mix) >= desired * (1 - 1e-6)
    assert mix.water >= 0
    powder = powder_for(wanted, product, desired, product_step, 0)
    assert dissolved_strength(product, *powder) >= desired * (1 - 1e-6)
    if product_step and not water_step:
        assert mix.product - mix_for(wanted, product, desired).product <= product_step * (1 + 1e-6)


def test_a_whole_that_rounding_fills_takes_no_water() -> None:
    assert mix_for(250.5, 100, 99.9, 1, 1) == Mix(251, 0)


@pytest.mark.parametrize("step", [-1, math.nan, math.inf])
def test_a_step_that_is_none(step: float) -> None:
    for measure in (lambda: mix_for(500, 5, 0.5, step, 1), lambda: powder_for(500, 50, 0.5, 1, step)):
        with pytest.raises(Refusal, match=r"^step: "):
            measure()


@pytest.mark.parametrize(("powder", "water"), [(0, 99), (-1, 99), (1, 0), (1, -1), (math.nan, 9), (1, math.inf)])
def test_a_solution_that_is_none(powder: float, water: float) -> None:
    with pytest.raises(Refusal, match=r"^(powder|water): "):
        dissolved_strength(35, powder, water)


def test_a_powder_of_nothing_else() -> None:
    # 10 g of all of it in a litre of 1000 g are 1 %.
    assert dissolved_strength(100, 10, 1000) == 1


def test_the_product_as_it_is_takes_no_water() -> None:
    assert mix_for(500, 5, 5) == Mix(500, 0)


def test_water_never_makes_it_stronger() -> None:
    with pytest.raises(Refusal, match=r"^desired: ") as refused:
        mix_for(500, 0.5, 3.5)
    assert refused.value.argument == "desired"
    assert "weaker" in refused.value.remedy
    with pytest.raises(Refusal, match=r"^desired: "):
        powder_per_litre(0.5, 3.5)


@impossible
def test_shares_that_are_none(share: float) -> None:
    with pytest.raises(Refusal, match=r"^product: "):
        mix_for(500, share, 0.5)
    with pytest.raises(Refusal, match=r"^powder: "):
        powder_per_litre(share, 0.5)
    with pytest.raises(Refusal, match=r"^strength: "):
        mixed_strength(share, 1, 99)
    with pytest.raises(Refusal, match=r"^strength: "):
        dissolved_strength(share, 1, 99)
    with pytest.raises(Refusal, match=r"^desired: "):
        mix_for(500, 50, share)
    with pytest.raises(Refusal, match=r"^desired: "):
        powder_per_litre(50, share)


@pytest.mark.parametrize("wanted", [0, -5, math.nan, math.inf])
def test_an_amount_that_is_none(wanted: float) -> None:
    with pytest.raises(Refusal, match=r"^wanted: "):
        mix_for(wanted, 5, 0.5)


@pytest.mark.parametrize(("product", "water"), [(0, 99), (-1, 99), (1, -1), (math.nan, 9), (1, math.inf)])
def test_parts_that_are_none(product: float, water: float) -> None:
    with pytest.raises(Refusal, match=r"^(product|water): "):
        mixed_strength(5, product, water)


def test_a_mix_keeps_over_midnight() -> None:
    assert mix_expires(datetime(2027, 2, 28, 10, 0), 24 * 60) == datetime(2027, 3, 1, 10, 0)
    assert mix_expires(datetime(2028, 2, 28, 23, 30, tzinfo=UTC), 45) == datetime(2028, 2, 29, 0, 15, tzinfo=UTC)


@pytest.mark.parametrize("shelf_life", [0, -1, math.nan, math.inf, 1e10, 1e300])
def test_a_shelf_life_that_is_none(shelf_life: float) -> None:
    with pytest.raises(Refusal, match=r"^shelf_life: "):
        mix_expires(datetime(2027, 1, 1), shelf_life)


def test_dimensions() -> None:
    percent, ml = units.percent, units.milliliter
    assert powder_per_litre(35 * percent, 0.5 * percent).dimensionless
    mix = mix_for(1 * units.liter, 5 * percent, 0.1 * percent)
    assert mix.product.to(ml).magnitude == pytest.approx(20)
    assert mix.water.to(ml).magnitude == pytest.approx(980)
    assert powder_for(1000, 35 * percent, 0.5 * percent).powder.to("").magnitude == pytest.approx(14.2857, rel=1e-4)
    assert dissolved_strength(35 * percent, 14.3 * units.gram, 1000 * units.gram).check("[]")
    assert mixed_strength(5 * percent, 10 * ml, 990 * ml).to(percent).magnitude == pytest.approx(0.05)
