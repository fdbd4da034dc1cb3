"""The kinds of quantity, the units each is written and shown in, and how the trade rounds them. Tables only."""

from __future__ import annotations

import math

# kind -> (how a person calls it, canonical unit)
KINDS: dict[str, tuple[str, str]] = {
    "length": ("a length", "mm"),
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
IMPERIAL = frozenset(("in", "ft", "in²", "in/s", "°F", "Δ°F", "fl oz", "oz", "in/min", "in²/min", "mL/in²"))

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

# kind -> per system: the unit shown, then (below this value, decimals) from small to large.
_Steps = tuple[tuple[float, int], ...]
_ALWAYS = math.inf
SHOWN: dict[str, dict[str, tuple[str, _Steps]]] = {
    "length": {
        "metric": ("mm", ((1, 2), (20, 1), (_ALWAYS, 0))),
        "imperial": ("in", ((0.1, 3), (2, 2), (_ALWAYS, 1))),
    },
    "area": {
        "metric": ("cm²", ((10, 1), (_ALWAYS, 0))),
        "imperial": ("in²", ((1, 2), (_ALWAYS, 1))),
    },
    "hand speed": {
        "metric": ("mm/s", ((20, 1), (_ALWAYS, 0))),
        "imperial": ("in/s", ((_ALWAYS, 2),)),
    },
    # Sterilizers are read to a tenth: 121.1 °C is not 121 °C.
    "temperature": {"metric": ("°C", ((_ALWAYS, 1),)), "imperial": ("°F", ((_ALWAYS, 1),))},
    "temperature difference": {"metric": ("Δ°C", ((_ALWAYS, 1),)), "imperial": ("Δ°F", ((_ALWAYS, 1),))},
    "volume": {
        "metric": ("mL", ((1, 2), (20, 1), (_ALWAYS, 0))),
        "imperial": ("fl oz", ((0.1, 3), (2, 2), (_ALWAYS, 1))),
    },
    "weight": {
        "metric": ("g", ((20, 1), (_ALWAYS, 0))),
        "imperial": ("oz", ((0.1, 3), (_ALWAYS, 1))),
    },
    "line rate": {
        "metric": ("cm/min", ((_ALWAYS, 1),)),
        "imperial": ("in/min", ((_ALWAYS, 1),)),
    },
    "area rate": {
        "metric": ("cm²/min", ((_ALWAYS, 2),)),
        "imperial": ("in²/min", ((_ALWAYS, 2),)),
    },
    "ink rate": {
        "metric": ("mL/cm²", ((_ALWAYS, 3),)),
        "imperial": ("mL/in²", ((_ALWAYS, 2),)),
    },
    "frequency": {"metric": ("Hz", ((_ALWAYS, 0),))},
    "voltage": {"metric": ("V", ((_ALWAYS, 1),))},
    "duration": {"metric": ("min", ((1, 2), (10, 1), (_ALWAYS, 0)))},
    "days": {"metric": ("days", ((_ALWAYS, 0),))},
    "months": {"metric": ("months", ((_ALWAYS, 0),))},
    "share": {"metric": ("%", ((1, 3), (10, 2), (_ALWAYS, 0)))},
    "acceleration": {"metric": ("m/s²", ((_ALWAYS, 1),))},
    "pigment load": {"metric": ("mg/mL", ((_ALWAYS, 0),))},
    "angle": {"metric": ("°", ((_ALWAYS, 0),))},
    "resolution": {"metric": ("dpi", ((_ALWAYS, 0),))},
    "illuminance": {"metric": ("lx", ((_ALWAYS, 0),))},
}
