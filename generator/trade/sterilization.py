"""Heat over time: A0 of thermal disinfection, F0 of steam, and a logged hold against a cycle."""

from collections.abc import Sequence
from itertools import groupby
from typing import NamedTuple

from generator.trade._bounds import positive
from generator.trade.refusal import Refusal

# ISO 15883-1: reference 80 °C, z 10 °C, and nothing below 65 °C counts.
_A0_REFERENCE = 80.0
_A0_Z = 10.0
_A0_FLOOR = 65.0


class Sample(NamedTuple):
    """A logged temperature in °C and how long it held until the next reading."""

    duration: float
    temperature: float


class Hold(NamedTuple):
    """The longest unbroken hold, its lowest and highest reading, and what that means for the cycle."""

    minutes: float
    lowest: float | None
    highest: float | None
    long_enough: bool
    over_the_band: bool


def _check_log(samples: Sequence[Sample]) -> None:
    """Refuse a log that is empty, or that has a reading which is none."""
    remedy = "read the logger again"
    if not samples:
        raise Refusal("samples", "an empty log", "one reading or more", remedy)
    for number, (duration, temperature) in enumerate(samples, start=1):
        if not positive(duration):
            raise Refusal("samples", f"reading {number} held for {duration}", "a duration above 0", remedy)
        if temperature - temperature != 0:
            raise Refusal("samples", f"reading {number} is {temperature}", "a temperature in °C", remedy)


def _worth(samples: Sequence[Sample], reference: float, z: float, none: float) -> float:
    """The time at the reference temperature that does the same; every reading holds for its duration."""
    try:
        return sum((duration * 10 ** ((temperature - reference) / z) for duration, temperature in samples), none)
    except OverflowError as beyond:
        expected, remedy = "temperatures in °C", "check the logger's unit"
        raise Refusal("samples", "temperatures no load reaches", expected, remedy) from beyond


def a0(
    samples: Sequence[Sample],
    reference: float = _A0_REFERENCE,
    z: float = _A0_Z,
    counted_above: float = _A0_FLOOR,
) -> float:
    r"""How much thermal disinfection does a logged load have?

    Formula:
        A_0 = \sum_{T_i > 65} 10^{(T_i - 80) / z} \, \Delta t_i
    Where:
        samples: (\Delta t_i ; T_i), s and °C, every reading counts for the time it held until the next one
        reference: T_{\text{ref}}, °C, 80 in the standard
        z: z, °C difference, 10 in the standard
        counted_above: T_{\text{min}}, °C, 65 in the standard; readings at or below it count nothing
        return: A_0, s, seconds at 80 °C that would do the same
    Valid:
        durations in seconds above 0; z above 0
    Source:
        ISO 15883-1
    Does not know:
        the coldest place of the load, unless the probe was there; sterility, which A0 does not describe
    """
    _check_log(samples)
    if not positive(z):
        raise Refusal("z", f"{z}", "above 0 °C", "the standard takes 10 °C")
    counted = [sample for sample in samples if sample.temperature > counted_above]
    return _worth(counted, reference, z, samples[0].duration * 0)


def f0(samples: Sequence[Sample], reference: float, z: float) -> float:
    r"""How many minutes at the reference temperature is a logged steam load worth?

    Formula:
        F_0 = \sum_i 10^{(T_i - T_{\text{ref}}) / z} \, \Delta t_i
    Where:
        samples: (\Delta t_i ; T_i), min and °C, every reading counts for the time it held until the next one
        reference: T_{\text{ref}}, °C, 121 or 121.1 or 121.11 in print, so it is always given and shown
        z: z, °C difference, 10 for steam
        return: F_0, min, minutes at the reference temperature that would do the same
    Valid:
        durations in minutes above 0; z above 0; moist heat with saturated steam
    Source:
        common practice of steam sterilization; published references differ from 121 to 121.11 °C
    Does not know:
        air left in the load, wet packs and the coldest place: the cycle on the label is run in full anyway
    """
    _check_log(samples)
    if not reference - reference == 0:
        raise Refusal("reference", f"{reference}", "a temperature in °C", "write 121 or 121.1")
    if not positive(z):
        raise Refusal("z", f"{z}", "above 0 °C", "steam takes 10 °C")
    return _worth(samples, reference, z, samples[0].duration * 0)


def hold_against_cycle(samples: Sequence[Sample], temperature: float, minutes: float, upper_limit: float) -> Hold:
    r"""Did a logged load hold the cycle's temperature for long enough without a break?

    Formula:
        t_h = \max \sum \Delta t_i \text{ over one run of readings with } T_c \le T_i \le T_u
        \text{long enough, if } t_h \ge t_c
    Where:
        samples: (\Delta t_i ; T_i), min and °C, every reading counts for the time it held until the next one
        temperature: T_c, °C, temperature of the cycle
        minutes: t_c, min, hold time of the cycle
        upper_limit: T_u, °C, upper limit of the cycle's band
        return: (t_h ; \text{verdict}), min and °C, longest hold, its lowest and highest reading, the findings
    Valid:
        durations above 0; upper limit above the cycle's temperature
    Source:
        cycles as in CDC, Guideline for Disinfection and Sterilization in Healthcare Facilities, Table 7
    Does not know:
        steam quality, drying and indicators: a load is released by all of them, never by this alone
    """
    _check_log(samples)
    if not positive(minutes):
        raise Refusal("minutes", f"{minutes}", "a hold above 0 min", "read the cycle's record")
    if not (temperature - temperature == 0 and upper_limit - upper_limit == 0 and upper_limit > temperature):
        raise Refusal(
            "upper_limit",
            f"{upper_limit}",
            f"above the cycle's {temperature}",
            "read the cycle's record again",
        )
    none = samples[0].duration * 0
    held, readings = none, []
    for inside, run in groupby(samples, lambda sample: temperature <= sample.temperature <= upper_limit):
        durations, temperatures = zip(*run, strict=True)
        # Nine digits, so that thirty readings of 0.1 min are 3 min.
        lasted = round(sum(durations, none), 9)
        if inside and lasted > held:
            held, readings = lasted, list(temperatures)
    return Hold(
        held,
        min(readings, default=None),
        max(readings, default=None),
        held >= minutes,
        any(sample.temperature > upper_limit for sample in samples),
    )
