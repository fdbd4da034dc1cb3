"""Mixing disinfectant: grams, volumes, what the mix then holds, and when it expires."""

from datetime import datetime, timedelta
from typing import NamedTuple

from generator.trade._bounds import above_zero, from_zero, positive
from generator.trade._counts import whole_up
from generator.trade.refusal import Refusal

_GRAMS_IN_A_LITRE = 1000.0
_ML_IN_A_LITRE = 1000.0


class Mix(NamedTuple):
    """Product and water in mL."""

    product: float
    water: float


class PowderMix(NamedTuple):
    """Powder in g and the water in mL that it goes into."""

    powder: float
    water: float


def _check_percent(argument: str, share: float, remedy: str) -> None:
    """Refuse a concentration that no label has."""
    if not (positive(share) and share <= 100):
        raise Refusal(argument, f"{share:g}", "above 0 up to 100 %", remedy)


def _check_dilution(product: float, desired: float) -> None:
    """Refuse concentrations that water cannot bring about."""
    _check_percent("product", product, "read the product's label")
    above_zero("desired", desired, "a concentration above 0 %", "read what the task asks for")
    if desired > product:
        raise Refusal(
            "desired",
            f"{desired:g} from {product:g}",
            "no more than the product holds",
            "water only makes it weaker: take a stronger product, or check which figure is which",
        )


def powder_per_litre(powder: float, desired: float) -> float:
    r"""How many grams of powder or granules go into one litre of water?

    Formula:
        g = \frac{c_d}{c_p} \cdot 1000
    Where:
        powder: c_p, %, active share of the powder
        desired: c_d, %, concentration the task asks for
        return: g, g/L, powder to one litre of water, a litre taken as 1000 g
    Valid:
        powder above 0 up to 100; desired above 0 and below the powder's
    Source:
        CDC, Best Practices for Environmental Cleaning, Appendix E
    Does not know:
        moisture and age of the powder
    """
    _check_percent("powder", powder, "read the powder's label")
    if not (positive(desired) and desired < powder):
        raise Refusal("desired", f"{desired:g}", f"above 0 and below {powder:g}", "check which figure is which")
    return desired / powder * _GRAMS_IN_A_LITRE


def mix_for(wanted: float, product: float, desired: float, product_step: float = 0, water_step: float = 0) -> Mix:
    r"""How much product and how much water make the wanted amount, with a measure that shows steps?

    Formula:
        V_p = \left\lceil \frac{V c_d / c_p}{s_p} \right\rceil s_p
        V_w = \left\lfloor \frac{V - V_p}{s_w} \right\rfloor s_w
    Where:
        wanted: V, mL, how much mix is needed
        product: c_p, %, concentration of the liquid product
        desired: c_d, %, concentration the task asks for
        product_step: s_p, mL, last step of the measure for the product; 0 for the exact amount
        water_step: s_w, mL, last step of the measure for the water; 0 for the exact amount
        return: (V_p ; V_w), mL, product and water, the product rounded up and the water down: never weaker
    Valid:
        wanted above 0; product above 0 up to 100; desired above 0 up to the product's; steps from 0
    Source:
        arithmetic, the same dilution as CDC, Best Practices for Environmental Cleaning, Appendix E
    Does not know:
        the label: where it gives a dilution, the label comes first; how much stronger the steps make it
    """
    _check_amount(wanted, product_step, water_step)
    _check_dilution(product, desired)
    poured = _up(wanted * desired / product, product_step)
    # No water is left to add where rounding up has filled the whole already.
    return Mix(poured, _down(max(wanted - poured, 0.0), water_step))


def powder_for(
    wanted: float, powder: float, desired: float, powder_step: float = 0, water_step: float = 0
) -> PowderMix:
    r"""How many grams of powder go into how much water, with a scale and a measure that show steps?

    Formula:
        m = \left\lceil \frac{1000 \, V c_d / c_p}{s_m} \right\rceil s_m
        V_w = \left\lfloor \frac{V}{s_w} \right\rfloor s_w
    Where:
        wanted: V, mL, how much water the powder goes into; in the formula in L
        powder: c_p, %, active share of the powder
        desired: c_d, %, concentration the task asks for
        powder_step: s_m, g, last step of the scale; 0 for the exact amount
        water_step: s_w, mL, last step of the measure; 0 for the exact amount
        return: (m ; V_w), g and mL, powder and water, the powder rounded up and the water down: never weaker
    Valid:
        wanted above 0; powder above 0 up to 100; desired above 0 and below the powder's; steps from 0
    Source:
        CDC, Best Practices for Environmental Cleaning, Appendix E, with a litre taken as 1000 g
    Does not know:
        moisture and age of the powder; how much stronger the steps make it
    """
    _check_amount(wanted, powder_step, water_step)
    grams = _up(powder_per_litre(powder, desired) * wanted / _ML_IN_A_LITRE, powder_step)
    return PowderMix(grams, _down(wanted, water_step))


def _check_amount(wanted: float, *steps: float) -> None:
    """Refuse amounts and steps that nothing can be measured with."""
    above_zero("wanted", wanted, "more than 0 mL", "write how much mix the day takes")
    for step in steps:
        from_zero("step", step, "0 or more", "write the last step that the measure shows")


def _up(amount: float, step: float) -> float:
    return whole_up(amount / step) * step if step else amount


def _down(amount: float, step: float) -> float:
    return -whole_up(-amount / step) * step if step else amount


def mixed_strength(strength: float, product: float, water: float) -> float:
    r"""How strong is a mix of so many parts of product and so many parts of water?

    Formula:
        c = c_p \frac{n_p}{n_p + n_w}
    Where:
        strength: c_p, %, concentration of the product
        product: n_p, parts, parts of product, or mL
        water: n_w, parts, parts of water, or mL
        return: c, %, concentration of the mix
    Valid:
        strength above 0 up to 100; product above 0; water from 0
    Source:
        WHO, Infection prevention and control of acute respiratory infections, 2014, Annex G
    Does not know:
        how old the product is: chlorine fades in the bottle
    """
    _check_percent("strength", strength, "read the product's label")
    above_zero("product", product, "more than 0 parts", "write the parts of product")
    from_zero("water", water, "0 parts or more", "write the parts of water")
    return strength * product / (product + water)


def dissolved_strength(strength: float, powder: float, water: float) -> float:
    r"""How strong is a solution of so many grams of powder in so much water?

    Formula:
        c = c_p \frac{m}{V_w}
    Where:
        strength: c_p, %, active share of the powder
        powder: m, g, powder that was weighed
        water: V_w, mL, water that it goes into; a millilitre is taken as 1 g
        return: c, %, concentration of the solution
    Valid:
        strength above 0 up to 100; powder and water above 0
    Source:
        CDC, Best Practices for Environmental Cleaning, Appendix E, solved for the concentration
    Does not know:
        the little that the powder adds to the volume, which makes the solution weaker by about its own share
    """
    _check_percent("strength", strength, "read the powder's label")
    above_zero("powder", powder, "more than 0 g", "write the grams of powder")
    above_zero("water", water, "more than 0 mL", "write the amount of water")
    return strength * powder / water


def mix_expires(mixed: datetime, shelf_life: float) -> datetime:
    r"""When does a mix have to be poured away?

    Formula:
        \text{end} = \text{mixed} + L
    Where:
        mixed: \text{mixed}, date and time, when it was mixed
        shelf_life: L, min, how long the label lets a mix be used
        return: \text{end}, date and time, from then on it is poured away
    Valid:
        shelf life above 0, within the calendar
    Source:
        arithmetic of the calendar
    Does not know:
        sunlight, an open lid and dirt in the bucket, which end it sooner
    """
    expected, remedy = "more than 0 min and within the calendar", "read on the label how long a mix keeps"
    above_zero("shelf_life", shelf_life, expected, remedy)
    try:
        return mixed + timedelta(minutes=shelf_life)
    except OverflowError as beyond:
        raise Refusal("shelf_life", f"{shelf_life:g}", expected, remedy) from beyond
