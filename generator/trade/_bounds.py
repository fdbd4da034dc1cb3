"""What every formula asks of a number before it uses it; works on floats and on quantities with units."""

from generator.trade.refusal import Refusal


def positive(value: float) -> bool:
    """Whether the value is a finite number above 0."""
    # value - value is 0 for a number, but "not a number" for infinity: no unit is needed to tell them apart.
    return value > 0 and value - value == 0


def zero_or_more(value: float) -> bool:
    """Whether the value is a finite number, 0 or above."""
    return value >= 0 and value - value == 0


def above_zero(argument: str, value: float, expected: str, remedy: str) -> None:
    """Refuse what is not a finite number above 0."""
    if not positive(value):
        raise Refusal(argument, f"{value:g}", expected, remedy)


def from_zero(argument: str, value: float, expected: str, remedy: str) -> None:
    """Refuse what is not a finite number, 0 or above."""
    if not zero_or_more(value):
        raise Refusal(argument, f"{value:g}", expected, remedy)
