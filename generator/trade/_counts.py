"""Counting whole things: caps, cartridges, packs, sittings."""

import math


def whole_up(ratio: float) -> int:
    """The whole number at or above a ratio without unit; float() strips a unit such as mL/L the right way."""
    # Nine digits: 0.3 divided by 0.1 is three caps, not four.
    return math.ceil(round(float(ratio), 9))
