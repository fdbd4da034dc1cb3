"""What stays the same when a grouping is swapped, and what only seems to."""

from generator.trade._bounds import above_zero


def _check_above_zero(argument: str, value: float, remedy: str) -> None:
    """Refuse what is not a finite number above 0."""
    above_zero(argument, value, "a number above 0", remedy)


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
    _check_above_zero("hand_speed", hand_speed, "write the hand speed before the swap")
    _check_above_zero("frequency", frequency, "write the strokes per second before the swap")
    _check_above_zero("new_frequency", new_frequency, "take it from the technique's table for the new grouping")
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
    _check_above_zero("frequency", frequency, "write the strokes per second before the swap")
    _check_above_zero("count", count, "write the number of needles before the swap")
    _check_above_zero("new_count", new_count, "write the number of needles after the swap")
    return frequency * (count / new_count)
