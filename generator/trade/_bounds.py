"""What every formula asks of a number before it uses it; works on floats and on quantities with units."""


def positive(value: float) -> bool:
    """Whether the value is a finite number above 0."""
    # value - value is 0 for a number, but "not a number" for infinity: no unit is needed to tell them apart.
    return value > 0 and value - value == 0


def zero_or_more(value: float) -> bool:
    """Whether the value is a finite number, 0 or above."""
    return value >= 0 and value - value == 0
