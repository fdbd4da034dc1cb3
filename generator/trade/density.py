"""Punctures per area to compare two ways of working, and what stays the same when a grouping is swapped."""

from generator.trade._bounds import positive
from generator.trade.refusal import Refusal


class NoComparison(Refusal):
    """A density needs needles, strokes, time and area."""


class NoSwap(Refusal):
    """A swap needs both settings."""


def _check_above_zero(kind: type[Refusal], argument: str, value: float, remedy: str) -> None:
    """Refuse what is not a finite number above 0."""
    if not positive(value):
        raise kind(argument, str(value), "a number above 0", remedy)


def puncture_density(count: int, frequency: float, needle_down_seconds: float, area: float) -> float:
    r"""How many punctures does each square millimetre take, to compare one way of working with another?

    Formula:
        D = \frac{N \cdot f \cdot t}{A}
    Where:
        count: N, -, needles in the grouping
        frequency: f, Hz, strokes in one second
        needle_down_seconds: t, s, time with the needle in the skin, without dips and wipes, in seconds
        area: A, mm², area worked in that time
        return: D, 1/mm², punctures on each square millimetre
    Valid:
        everything above 0
    Source:
        arithmetic
    Does not know:
        any threshold of damage: use it to compare, never to decide how much the skin takes
    """
    _check_above_zero(NoComparison, "count", count, "write the number of needles")
    _check_above_zero(NoComparison, "frequency", frequency, "write the strokes per second, such as 95 Hz")
    _check_above_zero(
        NoComparison,
        "needle_down_seconds",
        needle_down_seconds,
        "time the needle in the skin, in seconds",
    )
    _check_above_zero(NoComparison, "area", area, "write the area that was worked in that time")
    return count * frequency * needle_down_seconds / area


def hand_speed_after_swap(hand_speed: float, frequency: float, new_frequency: float) -> float:
    r"""How fast must the hand move after a swap of groupings, so that the spacing stays as it was?

    Formula:
        v_2 = v_1 \cdot \frac{f_2}{f_1}
    Where:
        hand_speed: v_1, mm/s, hand speed before the swap
        frequency: f_1, Hz, strokes in one second before the swap
        new_frequency: f_2, Hz, strokes in one second that the technique's table gives for the new grouping
        return: v_2, mm/s, hand speed that keeps the distance from puncture to puncture
    Valid:
        everything above 0
    Source:
        geometry
    Does not know:
        the new dial: it comes from the technique's table, never from the density
    """
    _check_above_zero(NoSwap, "hand_speed", hand_speed, "write the hand speed before the swap")
    _check_above_zero(NoSwap, "frequency", frequency, "write the strokes per second before the swap")
    _check_above_zero(
        NoSwap,
        "new_frequency",
        new_frequency,
        "take it from the technique's table for the new grouping",
    )
    return hand_speed * (new_frequency / frequency)


def constant_density_frequency(frequency: float, count: int, new_count: int) -> float:
    r"""Which frequency would keep the punctures per area after a swap (misleading, shown only as a warning)?

    Formula:
        f_2 = f_1 \cdot \frac{N_1}{N_2}
    Where:
        frequency: f_1, Hz, strokes in one second before the swap
        count: N_1, -, needles before the swap
        new_count: N_2, -, needles after the swap
        return: f_2, Hz, frequency at the same density, not one to set
    Valid:
        everything above 0
    Source:
        arithmetic
    Does not know:
        that a wider grouping also covers more skin: this number is far too slow or too fast to work with, so
        keep the spacing and take the dial from the technique's table
    """
    _check_above_zero(NoSwap, "frequency", frequency, "write the strokes per second before the swap")
    _check_above_zero(NoSwap, "count", count, "write the number of needles before the swap")
    _check_above_zero(NoSwap, "new_count", new_count, "write the number of needles after the swap")
    return frequency * (count / new_count)
