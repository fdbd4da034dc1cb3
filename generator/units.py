"""The kinds of quantity, the units each is written and shown in, and how the trade rounds them. Tables only."""

from __future__ import annotations

import math
from collections.abc import Mapping

# kind -> (how a person calls it, canonical unit)
KINDS: dict[str, tuple[str, str]] = {
    "length": ("a length", "mm"),
    "needle length": ("a length at the needle", "mm"),
    "area": ("an area", "mm²"),
    "hand speed": ("a hand speed", "mm/s"),
    "frequency": ("a machine speed", "Hz"),
    "voltage": ("a voltage", "V"),
    "duration": ("a duration", "min"),
    "days": ("a number of days or weeks", "days"),
    "months": ("a number of months or years", "months"),
    "share": ("a share in percent", "%"),
    "temperature": ("a temperature", "°C"),
    "temperature difference": ("a difference of temperature", "K"),
    "volume": ("a volume", "mL"),
    "weight": ("a weight", "g"),
    "acceleration": ("a vibration magnitude", "m/s²"),
    "line rate": ("a pace for lines", "mm/min"),
    "area rate": ("a pace for areas", "mm²/min"),
    "ink rate": ("an ink rate", "mL/mm²"),
    "pigment load": ("a pigment load", "mg/mL"),
    "angle": ("an angle", "°"),
    "resolution": ("a print resolution", "dpi"),
    "illuminance": ("an illuminance", "lx"),
}

# A kind that is read in the units of another, and shown in its own way.
READ_AS = {"needle length": "length"}

# The unit as people write it -> (kind, name for pint).
UNITS: dict[str, tuple[str, str]] = {
    "mm": ("length", "millimeter"),
    "cm": ("length", "centimeter"),
    "m": ("length", "meter"),
    "µm": ("length", "micrometer"),
    "in": ("length", "inch"),
    "ft": ("length", "foot"),
    "mm²": ("area", "millimeter**2"),
    "cm²": ("area", "centimeter**2"),
    "in²": ("area", "inch**2"),
    "mm/s": ("hand speed", "millimeter/second"),
    "cm/s": ("hand speed", "centimeter/second"),
    "in/s": ("hand speed", "inch/second"),
    "Hz": ("frequency", "1/second"),
    "strokes/s": ("frequency", "1/second"),
    "strokes/min": ("frequency", "1/minute"),
    "V": ("voltage", "volt"),
    "s": ("duration", "second"),
    "min": ("duration", "minute"),
    "h": ("duration", "hour"),
    "days": ("days", "day"),
    "weeks": ("days", "week"),
    # Months are counted on the calendar, never as a number of days; a year is twelve of them.
    "months": ("months", "month"),
    "years": ("months", "year"),
    "%": ("share", "percent"),
    "°C": ("temperature", "degree_Celsius"),
    "°F": ("temperature", "degree_Fahrenheit"),
    # A difference has no zero point to shift: 10 °C more is 18 °F more, and never 50 °F.
    "K": ("temperature difference", "kelvin"),
    "Δ°C": ("temperature difference", "delta_degree_Celsius"),
    "Δ°F": ("temperature difference", "delta_degree_Fahrenheit"),
    "mL": ("volume", "milliliter"),
    "L": ("volume", "liter"),
    "fl oz": ("volume", "US_fluid_ounce"),
    "gal": ("volume", "US_liquid_gallon"),
    "drops": ("volume", "measured_drop"),
    "mg": ("weight", "milligram"),
    "g": ("weight", "gram"),
    "kg": ("weight", "kilogram"),
    "oz": ("weight", "ounce"),
    "m/s²": ("acceleration", "meter/second**2"),
    "mm/min": ("line rate", "millimeter/minute"),
    "cm/min": ("line rate", "centimeter/minute"),
    "in/min": ("line rate", "inch/minute"),
    "mm²/min": ("area rate", "millimeter**2/minute"),
    "cm²/min": ("area rate", "centimeter**2/minute"),
    "in²/min": ("area rate", "inch**2/minute"),
    "mL/mm²": ("ink rate", "milliliter/millimeter**2"),
    "mL/cm²": ("ink rate", "milliliter/centimeter**2"),
    "mL/in²": ("ink rate", "milliliter/inch**2"),
    "mg/mL": ("pigment load", "milligram/milliliter"),
    "°": ("angle", "degree"),
    "dpi": ("resolution", "1/inch"),
    "lx": ("illuminance", "lux"),
}

# What pint has no unit for. Common practice at a dropper: twenty drops of water are one millilitre.
DEFINED = ("measured_drop = 0.05 milliliter",)

# What a page shows for a unit of differences, and what a field of differences takes it from.
DIFFERENCES = {"Δ°C": "°C", "Δ°F": "°F"}

# Units of the imperial system; every other unit is metric, or the same in both.
IMPERIAL = frozenset(("in", "ft", "in²", "in/s", "°F", "Δ°F", "fl oz", "gal", "oz", "in/min", "in²/min", "mL/in²"))

# Spellings that mean one of the units above beyond doubt.
SPELLINGS = {
    "mm2": "mm²",
    "cm2": "cm²",
    "in2": "in²",
    "μm": "µm",
    "um": "µm",
    '"': "in",
    "inch": "in",
    "inches": "in",
    "feet": "ft",
    "gallon": "gal",
    "gallons": "gal",
    "drop": "drops",
    "hz": "Hz",
    "v": "V",
    "volt": "V",
    "volts": "V",
    "sec": "s",
    "mins": "min",
    "minutes": "min",
    "minute": "min",
    "hours": "h",
    "hour": "h",
    "day": "days",
    "week": "weeks",
    "month": "months",
    "year": "years",
    "ml": "mL",
    "l": "L",
    "percent": "%",
    "°c": "°C",
    "°f": "°F",
    "deg": "°",
    "m/s2": "m/s²",
    "cm2/min": "cm²/min",
    "mm2/min": "mm²/min",
    "in2/min": "in²/min",
    "mL/cm2": "mL/cm²",
    "ml/cm²": "mL/cm²",
    "lux": "lx",
    "strokes/minute": "strokes/min",
    "strokes/second": "strokes/s",
}

# What people call ounces of a volume, which is no weight.
OUNCES = {"oz": "fl oz", "oz.": "fl oz", "ounce": "fl oz", "ounces": "fl oz", "fl. oz.": "fl oz", "floz": "fl oz"}

# Where a number is below this one, it has so many decimals; from small to large.
_Steps = tuple[tuple[float, int], ...]
_ALWAYS = math.inf
# Unit -> how many decimals it is shown with.
DECIMALS: dict[str, _Steps] = {
    "mm": ((1, 2), (20, 1), (_ALWAYS, 0)),
    "cm": ((_ALWAYS, 1),),
    "in": ((0.1, 3), (2, 2), (_ALWAYS, 1)),
    "cm²": ((10, 1), (_ALWAYS, 0)),
    "in²": ((1, 2), (_ALWAYS, 1)),
    "mm/s": ((20, 1), (_ALWAYS, 0)),
    "in/s": ((_ALWAYS, 2),),
    # Sterilizers are read to a tenth: 121.1 °C is not 121 °C.
    "°C": ((_ALWAYS, 1),),
    "°F": ((_ALWAYS, 1),),
    "Δ°C": ((_ALWAYS, 1),),
    "Δ°F": ((_ALWAYS, 1),),
    "mL": ((1, 2), (20, 1), (_ALWAYS, 0)),
    "fl oz": ((0.1, 3), (2, 2), (_ALWAYS, 1)),
    "gal": ((_ALWAYS, 2),),
    "drops": ((_ALWAYS, 0),),
    "g": ((20, 1), (_ALWAYS, 0)),
    "oz": ((0.1, 3), (_ALWAYS, 1)),
    "cm/min": ((_ALWAYS, 1),),
    "in/min": ((_ALWAYS, 1),),
    "cm²/min": ((_ALWAYS, 2),),
    "in²/min": ((_ALWAYS, 2),),
    "mL/cm²": ((_ALWAYS, 3),),
    "mL/in²": ((_ALWAYS, 2),),
    "Hz": ((_ALWAYS, 0),),
    "V": ((_ALWAYS, 1),),
    "min": ((1, 2), (10, 1), (_ALWAYS, 0)),
    "days": ((_ALWAYS, 0),),
    "months": ((_ALWAYS, 0),),
    "%": ((1, 3), (10, 2), (_ALWAYS, 0)),
    "m/s²": ((_ALWAYS, 1),),
    "mg/mL": ((_ALWAYS, 0),),
    "°": ((_ALWAYS, 0),),
    "dpi": ((_ALWAYS, 0),),
    "lx": ((_ALWAYS, 0),),
}

# The parts of an inch that a tape shows: below so many inches sixteenths, from there on eighths (common practice).
TAPE: _Steps = ((12, 16), (_ALWAYS, 8))
# Parts that a ruler may have as well; who types one of them sees it again.
RULER = (16, 32, 64)

# kind -> what a studio may show it in -> the unit below so many canonical units, from small to large.
Bands = tuple[tuple[float, str], ...]
_QUARTER_INCH = 6.35
_TEASPOON, _TABLESPOON = 1, 15
CHOICES: dict[str, dict[str, Bands]] = {
    "needle length": {"mm": ((_ALWAYS, "mm"),), "in": ((_ALWAYS, "in"),)},
    # What is smaller than the parts of a tape can tell is in millimetres.
    "length": {
        "mm": ((_ALWAYS, "mm"),),
        "cm": ((10, "mm"), (_ALWAYS, "cm")),
        "in": ((_QUARTER_INCH, "mm"), (_ALWAYS, "in")),
    },
    "area": {"cm²": ((_ALWAYS, "cm²"),), "in²": ((_ALWAYS, "in²"),)},
    # Each volume in what its measure shows: a dropper, a syringe or cap, a jug.
    "volume": {
        "mL": ((_ALWAYS, "mL"),),
        "drops": ((_TEASPOON, "drops"), (_ALWAYS, "mL")),
        "fl oz": ((_TEASPOON, "drops"), (_TABLESPOON, "mL"), (_ALWAYS, "fl oz")),
    },
    "weight": {"g": ((_ALWAYS, "g"),), "oz": ((_ALWAYS, "oz"),)},
    "temperature": {"°C": ((_ALWAYS, "°C"),), "°F": ((_ALWAYS, "°F"),)},
    "temperature difference": {"°C": ((_ALWAYS, "Δ°C"),), "°F": ((_ALWAYS, "Δ°F"),)},
    "hand speed": {"mm/s": ((_ALWAYS, "mm/s"),), "in/s": ((_ALWAYS, "in/s"),)},
    "line rate": {"cm/min": ((_ALWAYS, "cm/min"),), "in/min": ((_ALWAYS, "in/min"),)},
    "area rate": {"cm²/min": ((_ALWAYS, "cm²/min"),), "in²/min": ((_ALWAYS, "in²/min"),)},
    "ink rate": {"mL/cm²": ((_ALWAYS, "mL/cm²"),), "mL/in²": ((_ALWAYS, "mL/in²"),)},
}
# Kinds that are shown in the same unit by everybody.
ALIKE = {
    "frequency": "Hz",
    "voltage": "V",
    "duration": "min",
    "days": "days",
    "months": "months",
    "share": "%",
    "acceleration": "m/s²",
    "pigment load": "mg/mL",
    "angle": "°",
    "resolution": "dpi",
    "illuminance": "lx",
}

# What a studio shows each kind in; of kinds that are not named here there is one unit.
Shows = Mapping[str, str]
SYSTEMS: dict[str, Shows] = {
    "metric": {kind: next(iter(choices)) for kind, choices in CHOICES.items()},
    "imperial": {kind: "mm" if kind == "needle length" else list(choices)[-1] for kind, choices in CHOICES.items()},
}

# What product and water are measured with in each system: jug and scale.
MEASURES = {"metric": {"volume": "mL", "weight": "g"}, "imperial": {"volume": "fl oz", "weight": "oz"}}

# What a studio calls the kinds that it may show in units of its own, and the kinds that go with each.
OWN_UNITS: dict[str, tuple[str, ...]] = {
    "needles": ("needle length",),
    "body": ("length",),
    "areas": ("area",),
    "volumes": ("volume",),
    "weights": ("weight",),
    "temperatures": ("temperature", "temperature difference"),
    "hand_speeds": ("hand speed",),
}


def bands(kind: str, shows: Shows) -> Bands:
    """The unit below so many canonical units in which a kind is shown, from small to large."""
    return CHOICES[kind][shows[kind]] if kind in CHOICES else ((_ALWAYS, ALIKE[kind]),)
