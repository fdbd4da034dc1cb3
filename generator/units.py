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
