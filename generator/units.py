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

# Exact by definition (NIST SP 811, 2008, Appendix B, as quoted by others): an inch in mm, a US gallon of 231 cubic
# inches in mL, a pound in g.
_INCH = 25.4
_GALLON = 231 * (_INCH / 10) ** 3
_POUND = 453.59237

# The unit as people write it -> (kind, how many of the kind's canonical unit one of it is).
UNITS: dict[str, tuple[str, float]] = {
    "mm": ("length", 1),
    "cm": ("length", 10),
    "m": ("length", 1000),
    "µm": ("length", 0.001),
    "in": ("length", _INCH),
    "ft": ("length", 12 * _INCH),
    "mm²": ("area", 1),
    "cm²": ("area", 100),
    "in²": ("area", _INCH**2),
    "mm/s": ("hand speed", 1),
    "cm/s": ("hand speed", 10),
    "in/s": ("hand speed", _INCH),
    "Hz": ("frequency", 1),
    "strokes/s": ("frequency", 1),
    "strokes/min": ("frequency", 1 / 60),
    "V": ("voltage", 1),
    "s": ("duration", 1 / 60),
    "min": ("duration", 1),
    "h": ("duration", 60),
    "days": ("days", 1),
    "weeks": ("days", 7),
    # Months are counted on the calendar, never as a number of days; a year is twelve of them.
    "months": ("months", 1),
    "years": ("months", 12),
    "%": ("share", 1),
    "°C": ("temperature", 1),
    "°F": ("temperature", 1 / 1.8),
    # A difference has no zero point to shift: 10 °C more is 18 °F more, and never 50 °F.
    "K": ("temperature difference", 1),
    "Δ°C": ("temperature difference", 1),
    "Δ°F": ("temperature difference", 1 / 1.8),
    "mL": ("volume", 1),
    "L": ("volume", 1000),
    "fl oz": ("volume", _GALLON / 128),
    "gal": ("volume", _GALLON),
    # Common practice at a dropper: twenty drops of water are one millilitre.
    "drops": ("volume", 1 / 20),
    "mg": ("weight", 0.001),
    "g": ("weight", 1),
    "kg": ("weight", 1000),
    "oz": ("weight", _POUND / 16),
    "m/s²": ("acceleration", 1),
    "mm/min": ("line rate", 1),
    "cm/min": ("line rate", 10),
    "in/min": ("line rate", _INCH),
    "mm²/min": ("area rate", 1),
    "cm²/min": ("area rate", 100),
    "in²/min": ("area rate", _INCH**2),
    "mL/mm²": ("ink rate", 1),
    "mL/cm²": ("ink rate", 1 / 100),
    "mL/in²": ("ink rate", 1 / _INCH**2),
    "mg/mL": ("pigment load", 1),
    "°": ("angle", 1),
    "dpi": ("resolution", 1),
    "lx": ("illuminance", 1),
}

# What a number in this unit is counted from, in that unit: 32 °F are 0 °C.
ZERO = {"°F": 32.0}

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
# Unit -> how many decimals it is shown with: none where nothing else is said.
DECIMALS: dict[str, _Steps] = dict.fromkeys(UNITS, ((_ALWAYS, 0),)) | {
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
    "g": ((20, 1), (_ALWAYS, 0)),
    "oz": ((0.1, 3), (_ALWAYS, 1)),
    "cm/min": ((_ALWAYS, 1),),
    "in/min": ((_ALWAYS, 1),),
    "cm²/min": ((_ALWAYS, 2),),
    "in²/min": ((_ALWAYS, 2),),
    "mL/cm²": ((_ALWAYS, 3),),
    "mL/in²": ((_ALWAYS, 2),),
    "V": ((_ALWAYS, 1),),
    "min": ((1, 2), (10, 1), (_ALWAYS, 0)),
    "%": ((1, 3), (10, 2), (_ALWAYS, 0)),
    "m/s²": ((_ALWAYS, 1),),
}

# The parts of an inch that a tape shows: below so many inches sixteenths, from there on eighths (common practice).
TAPE: _Steps = ((12, 16), (_ALWAYS, 8))
# The finest parts of an inch that a ruler has; who types some of them sees them again, in the fewest that say it.
RULER = 64

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
# What a studio shows each kind in; of kinds that are not named here there is one unit, the canonical one.
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
    return CHOICES[kind][shows[kind]] if kind in CHOICES else ((_ALWAYS, KINDS[kind][1]),)
