"""Mixing disinfectant: parts, grams, volumes, written notation, contact time, and when a mix expires."""

import re
from datetime import datetime, timedelta
from typing import NamedTuple

from generator.trade._bounds import positive, zero_or_more
from generator.trade._counts import whole_up
from generator.trade.refusal import Refusal

# One per cent is one in a hundred, one ppm one in a million; a litre of water is 1000 g.
_PPM_IN_A_PERCENT = 10_000.0
_GRAMS_IN_A_LITRE = 1000.0
_ML_IN_A_LITRE = 1000.0

_MIX = re.compile(
    r"\s*(\d+(?:\.\d+)?)(?:\s+parts?)?(?:\s+of)?(?:\s+product)?"
    r"\s*\+\s*(\d+(?:\.\d+)?)(?:\s+parts?)?(?:\s+of)?(?:\s+water)?\s*"
)
_BARE_RATIO = re.compile(r"\s*(\d+(?:\.\d+)?)\s*(?::|/|to|in)\s*(\d+(?:\.\d+)?)\s*")


class CannotDilute(Refusal):
    """Water cannot bring the product to this concentration."""


class CannotDissolve(Refusal):
    """The powder cannot make a solution of this concentration."""


class NoMixedVolume(Refusal):
    """The wanted amount is no amount."""


class NoMixStrength(Refusal):
    """The strength of the mix cannot be told."""


class NotAConcentration(Refusal):
    """The concentration cannot be converted."""


class NotAWrittenMix(Refusal):
    """The notation is not parts of product and parts of water."""


class BareRatio(Refusal):
    """A bare ratio can be read in two ways."""


class NoContactTime(Refusal):
    """Neither label nor table gives a contact time."""


class NoMixLife(Refusal):
    """The shelf life of the mix cannot be one."""


class Mix(NamedTuple):
    """Product and water, in mL for an amount or in parts for a written notation."""

    product: float
    water: float


class PowderMix(NamedTuple):
    """Powder in g and the water in mL that it goes into."""

    powder: float
    water: float


class ContactTime(NamedTuple):
    """How long the surface stays wet in minutes, and whether the label or a table says so."""

    minutes: float
    basis: str


def _check_dilution(product: float, desired: float) -> None:
    """Refuse concentrations that water cannot bring about."""
    if not (positive(product) and product <= 100):
        raise CannotDilute("product", f"{product:g}", "above 0 up to 100 %", "read the product's label")
    if not positive(desired):
        raise CannotDilute("desired", f"{desired:g}", "a concentration above 0 %", "read what the task asks for")
    if desired > product:
        raise CannotDilute(
            "desired",
            f"{desired:g} from {product:g}",
            "no more than the product holds",
            "water only makes it weaker: take a stronger product, or check which figure is which",
        )


def parts_water(product: float, desired: float) -> float:
    r"""How many parts of water go to one part of product?

    Formula:
        n = \frac{c_p}{c_d} - 1
    Where:
        product: c_p, %, concentration of the liquid product
        desired: c_d, %, concentration the task asks for
        return: n, parts, water to one part of product
    Valid:
        product above 0 up to 100; desired above 0 up to the product's
    Source:
        CDC, Best Practices for Environmental Cleaning, Appendix E
    Does not know:
        the label: where it gives a dilution, the label comes first
    """
    _check_dilution(product, desired)
    return product / desired - 1


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
    if not (positive(powder) and powder <= 100):
        raise CannotDissolve("powder", f"{powder:g}", "above 0 up to 100 %", "read the powder's label")
    if not (positive(desired) and desired < powder):
        raise CannotDissolve("desired", f"{desired:g}", f"above 0 and below {powder:g}", "check which figure is which")
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
    return Mix(poured, _rest(wanted, poured, water_step))


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
    return PowderMix(grams, wanted if not water_step else _down(wanted, water_step))


def _check_amount(wanted: float, *steps: float) -> None:
    """Refuse amounts and steps that nothing can be measured with."""
    if not positive(wanted):
        raise NoMixedVolume("wanted", f"{wanted:g}", "more than 0 mL", "write how much mix the day takes")
    for step in steps:
        if not zero_or_more(step):
            raise NoMixedVolume("step", f"{step:g}", "0 or more", "write the last step that the measure shows")


def _up(amount: float, step: float) -> float:
    return whole_up(amount / step) * step if step else amount


def _down(amount: float, step: float) -> float:
    return -whole_up(-amount / step) * step


def _rest(wanted: float, poured: float, step: float) -> float:
    """The water that is left to add; none where rounding up has filled the whole already."""
    left = wanted - poured
    if not step:
        return left
    return _down(left, step) if left > 0 else 0.0


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
    if not (positive(strength) and strength <= 100):
        raise NoMixStrength("strength", f"{strength:g}", "above 0 up to 100 %", "read the product's label")
    if not positive(product):
        raise NoMixStrength("product", f"{product:g}", "more than 0 parts", "write the parts of product")
    if not zero_or_more(water):
        raise NoMixStrength("water", f"{water:g}", "0 parts or more", "write the parts of water")
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
    if not (positive(strength) and strength <= 100):
        raise NoMixStrength("strength", f"{strength:g}", "above 0 up to 100 %", "read the powder's label")
    if not positive(powder):
        raise NoMixStrength("powder", f"{powder:g}", "more than 0 g", "write the grams of powder")
    if not positive(water):
        raise NoMixStrength("water", f"{water:g}", "more than 0 mL", "write the amount of water")
    return strength * powder / water


def ppm_from_percent(percent: float) -> float:
    r"""How many parts per million is a concentration in per cent?

    Formula:
        c_{\text{ppm}} = 10000 \, c_{\%}
    Where:
        percent: c_{\%}, %, concentration in per cent
        return: c_{\text{ppm}}, ppm, the same in parts per million; in water 1 ppm is 1 mg/L
    Valid:
        from 0 to 100 %
    Source:
        arithmetic
    Does not know:
        whether the figure counts available chlorine or the whole substance: the label says
    """
    if not (zero_or_more(percent) and percent <= 100):
        raise NotAConcentration("percent", f"{percent:g}", "0 to 100 %", "read the label again")
    return percent * _PPM_IN_A_PERCENT


def percent_from_ppm(ppm: float) -> float:
    r"""What is a concentration in parts per million in per cent?

    Formula:
        c_{\%} = \frac{c_{\text{ppm}}}{10000}
    Where:
        ppm: c_{\text{ppm}}, ppm, concentration in parts per million; in water 1 ppm is 1 mg/L
        return: c_{\%}, %, the same in per cent
    Valid:
        from 0 to 1 000 000 ppm
    Source:
        arithmetic
    Does not know:
        whether the figure counts available chlorine or the whole substance: the label says
    """
    if not (zero_or_more(ppm) and ppm <= 100 * _PPM_IN_A_PERCENT):
        raise NotAConcentration("ppm", f"{ppm:g}", "0 to 1 000 000 ppm", "read the table again")
    return ppm / _PPM_IN_A_PERCENT


def written_mix(text: str) -> Mix:
    r"""What does a written mix such as "1 part product + 99 parts water" say?

    Formula:
        \text{1 + 99} \mapsto (n_p ; n_w) = (1 ; 99)
    Where:
        text: \text{text}, -, parts of product + parts of water
        return: (n_p ; n_w), parts, product and water
    Valid:
        two numbers joined by +, product above 0; never a bare ratio
    Source:
        WHO, Infection prevention and control of acute respiratory infections, 2014, Annex G, reads 1:100 as
        1 + 99; the health licensing office of Oregon reads 1:10 as 1 + 10: so a bare ratio is refused
    Does not know:
        which reading the writer of a bare ratio meant
    """
    if ratio := _BARE_RATIO.fullmatch(text):
        one, other = (float(number) for number in ratio.groups())
        raise BareRatio(
            "text",
            f"'{text}'",
            f"parts of product and of water: '{one:g} + {other - one:g}' where the whole is {other:g}, "
            f"'{one:g} + {other:g}' where the water is {other:g}",
            "both readings are in use; look at the label and write the parts, such as '1 + 99'",
        )
    written = _MIX.fullmatch(text)
    if not written or float(written[1]) == 0:
        raise NotAWrittenMix(
            "text",
            f"'{text}'",
            "parts of product + parts of water",
            "write '1 part product + 99 parts water'",
        )
    return Mix(float(written[1]), float(written[2]))


def contact_time(label: float | None, table: float | None) -> ContactTime:
    r"""How long must the surface stay wet?

    Formula:
        t = \text{label, if the label gives one; else table}
    Where:
        label: t_l, min, contact time on the product's label, or nothing
        table: t_t, min, contact time of a published table, or nothing; used only when the label is silent
        return: (t ; \text{basis}), min, the time, and whether label or table says so
    Valid:
        times above 0; at least one of them
    Source:
        common practice, no published source: the label comes before any table
    Does not know:
        whether the surface stayed wet that long
    """
    for argument, minutes in (("label", label), ("table", table)):
        if minutes is not None and not positive(minutes):
            raise NoContactTime(argument, f"{minutes:g}", "more than 0 min", "read the product's label again")
    if label is not None:
        return ContactTime(label, "label")
    if table is not None:
        return ContactTime(table, "table")
    raise NoContactTime("label", "nothing", "a contact time on the label", "read the label or ask the maker before use")


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
    if not positive(shelf_life):
        raise NoMixLife("shelf_life", f"{shelf_life:g}", expected, remedy)
    try:
        return mixed + timedelta(minutes=shelf_life)
    except OverflowError as beyond:
        raise NoMixLife("shelf_life", f"{shelf_life:g}", expected, remedy) from beyond
