"""How the needle moves: how far apart its punctures lie along a line."""

from generator.trade._bounds import above_zero, from_zero


def spacing(hand_speed: float, frequency: float) -> float:
    r"""How far apart do the punctures lie along a line?

    Formula:
        s = \frac{v}{f}
    Where:
        hand_speed: v, mm/s, how fast the hand moves along the line
        frequency: f, Hz, strokes in one second
        return: s, mm, distance from one puncture to the next
    Valid:
        hand speed from 0; frequency above 0
    Source:
        geometry
    Does not know:
        how far the skin is dragged along by the needle
    """
    from_zero(
        "hand_speed",
        hand_speed,
        "a hand speed of 0 mm/s or more",
        "time a line of known length with a dry needle and write length over time",
    )
    above_zero(
        "frequency",
        frequency,
        "a frequency above 0 Hz",
        "write the strokes per second from the display or the calibration, such as 95 Hz",
    )
    return hand_speed / frequency
