"""How the needle moves: strokes, spacing along a line, and the sine model of the tip."""

import math
from typing import NamedTuple

from generator.trade._bounds import positive, zero_or_more
from generator.trade.refusal import Refusal

SECONDS_IN_A_MINUTE = 60
MILLIMETRES_IN_A_METRE = 1000

# Drives that push the needle bar by a turning crank or cam, close enough to a sine; a coil machine does not.
SINE_DRIVES = ("rotary-slider", "rotary-direct")
OTHER_DRIVES = ("coil", "other")


class NoFrequency(Refusal):
    """Without strokes there is no motion to compute."""


class NoHandSpeed(Refusal):
    """The hand speed is no speed."""


class NoSpacing(Refusal):
    """Punctures on one spot have no spacing to compare with."""


class NoMark(Refusal):
    """The width of the mark is no width."""


class NoStroke(Refusal):
    """The stroke is no length."""


class DepthBeyondStroke(Refusal):
    """The tip cannot reach deeper than its stroke."""


class NotASineDrive(Refusal):
    """The sine model does not fit this drive."""


class TipMotion(NamedTuple):
    """The tip in the sine model: speeds in mm/s, acceleration in m/s², share of a cycle in the skin."""

    peak_speed: float
    mean_speed: float
    peak_acceleration: float
    down_share: float


def _check_frequency(frequency: float, argument: str = "frequency") -> None:
    """Refuse a frequency that is none."""
    if not positive(frequency):
        raise NoFrequency(
            argument,
            str(frequency),
            "a frequency above 0 Hz",
            "write the strokes per second from the display or the calibration, such as 95 Hz",
        )


def _check_hand_speed(hand_speed: float) -> None:
    """Refuse a hand speed that is none."""
    if not zero_or_more(hand_speed):
        raise NoHandSpeed(
            "hand_speed",
            str(hand_speed),
            "a hand speed of 0 mm/s or more",
            "time a line of known length with a dry needle and write length over time",
        )


def _check_stroke(stroke: float) -> None:
    """Refuse a stroke that is none."""
    if not positive(stroke):
        raise NoStroke(
            "stroke",
            str(stroke),
            "a stroke above 0 mm",
            "write the stroke the machine is set to, as 3.5 mm",
        )


def strokes_per_minute(frequency: float) -> float:
    r"""How many strokes a minute is this frequency?

    Formula:
        n = 60 \cdot f
    Where:
        frequency: f, Hz, strokes in one second
        return: n, strokes/min, strokes in one minute
    Valid:
        above 0
    Source:
        arithmetic
    Does not know:
        the running speed in the skin; a display shows the commanded one
    """
    _check_frequency(frequency)
    return SECONDS_IN_A_MINUTE * frequency


def frequency_of(strokes: float) -> float:
    r"""How many strokes a second are so many strokes a minute?

    Formula:
        f = \frac{n}{60}
    Where:
        strokes: n, strokes/min, strokes in one minute
        return: f, Hz, strokes in one second
    Valid:
        above 0
    Source:
        arithmetic
    Does not know:
        the running speed in the skin; a display shows the commanded one
    """
    _check_frequency(strokes, "strokes")
    return strokes / SECONDS_IN_A_MINUTE


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
    _check_hand_speed(hand_speed)
    _check_frequency(frequency)
    return hand_speed / frequency


def hand_speed_for_spacing(distance: float, frequency: float) -> float:
    r"""How fast must the hand move for punctures this far apart?

    Formula:
        v = s \cdot f
    Where:
        distance: s, mm, distance wanted from one puncture to the next
        frequency: f, Hz, strokes in one second
        return: v, mm/s, hand speed along the line
    Valid:
        distance from 0; frequency above 0
    Source:
        geometry
    Does not know:
        whether a hand can keep that speed on a curve
    """
    if not zero_or_more(distance):
        raise NoSpacing(
            "distance",
            str(distance),
            "a distance of 0 mm or more",
            "write how far apart the dots may lie",
        )
    _check_frequency(frequency)
    return distance * frequency


def overlap(mark_width: float, distance: float) -> float:
    r"""How many times does the mark cover each spot along a line?

    Formula:
        k = \frac{w}{s}
    Where:
        mark_width: w, mm, width of the mark one puncture leaves
        distance: s, mm, distance from one puncture to the next
        return: k, -, marks over each spot; below 1 the line falls apart into dots
    Valid:
        mark width and distance above 0
    Source:
        geometry
    Does not know:
        the mark itself: taper narrows it, ink spreads it; a measured fresh line wins
    """
    if not positive(mark_width):
        raise NoMark(
            "mark_width",
            str(mark_width),
            "a mark width above 0 mm",
            "measure a fresh line of this grouping",
        )
    if not positive(distance):
        raise NoSpacing(
            "distance",
            str(distance),
            "a distance above 0 mm",
            "give the hand speed along the line; a hand that rests overlaps without end",
        )
    return mark_width / distance


def peak_tip_speed(stroke: float, frequency: float) -> float:
    r"""How fast is the tip at its fastest, in the sine model?

    Formula:
        v = \pi \cdot s \cdot f
    Where:
        stroke: s, mm, travel of the needle from top to bottom
        frequency: f, Hz, strokes in one second
        return: v, mm/s, speed half way down
    Valid:
        stroke and frequency above 0; drives that fit a sine
    Source:
        simple harmonic motion
    Does not know:
        give, cartridge membrane and skin slow the tip down
    """
    _check_stroke(stroke)
    _check_frequency(frequency)
    return math.pi * stroke * frequency


def mean_tip_speed(stroke: float, frequency: float) -> float:
    r"""How fast is the tip on average?

    Formula:
        v = 2 \cdot s \cdot f
    Where:
        stroke: s, mm, travel of the needle from top to bottom
        frequency: f, Hz, strokes in one second
        return: v, mm/s, path down and up over time
    Valid:
        stroke and frequency above 0
    Source:
        simple harmonic motion
    Does not know:
        give, cartridge membrane and skin shorten the stroke
    """
    _check_stroke(stroke)
    _check_frequency(frequency)
    return 2 * stroke * frequency


def peak_acceleration(stroke: float, frequency: float) -> float:
    r"""How hard is the tip accelerated at its turning points, in the sine model?

    Formula:
        a = \frac{2 \cdot \pi^2 \cdot f^2 \cdot s}{1000}
    Where:
        stroke: s, mm, travel of the needle from top to bottom; the 1000 turns mm into m
        frequency: f, Hz, strokes in one second
        return: a, m/s², acceleration of the tip at the top and at the bottom
    Valid:
        stroke and frequency above 0; drives that fit a sine
    Source:
        simple harmonic motion
    Does not know:
        what reaches the hand; this is not the vibration the artist is exposed to
    """
    _check_stroke(stroke)
    _check_frequency(frequency)
    return 2 * math.pi**2 * frequency**2 * stroke / MILLIMETRES_IN_A_METRE


def needle_down_share(depth: float, stroke: float) -> float:
    r"""For what share of each stroke is the tip in the skin, in the sine model?

    Formula:
        k = \frac{\arccos(1 - 2 d / s)}{\pi}
    Where:
        depth: d, mm, deepest point of the tip below the surface of the skin
        stroke: s, mm, travel of the needle from top to bottom
        return: k, -, share of the cycle below the surface, 0 to 1
    Valid:
        depth from 0 to the stroke; drives that fit a sine
    Source:
        geometry
    Does not know:
        the depth, which is not the hang-out; that the skin gives way before it is pierced
    """
    _check_stroke(stroke)
    if not zero_or_more(depth):
        raise DepthBeyondStroke(
            "depth",
            str(depth),
            "a depth from 0 mm to the stroke",
            "write how deep the tip goes",
        )
    if depth > stroke:
        raise DepthBeyondStroke(
            "depth",
            str(depth),
            f"a depth of at most the stroke, {stroke}",
            "check the depth and the stroke; hang-out is not depth",
        )
    return math.acos(1 - 2 * float(depth / stroke)) / math.pi


def tip_motion(drive: str, stroke: float, frequency: float, depth: float) -> TipMotion:
    r"""How does the tip move on this machine, if the sine model fits its drive?

    Formula:
        x(t) = \frac{s}{2} \cdot \left(1 - \cos(2 \pi f t)\right)
    Where:
        drive: D, -, rotary-slider, rotary-direct, coil or other
        stroke: s, mm, travel of the needle from top to bottom
        frequency: f, Hz, strokes in one second
        depth: d, mm, deepest point of the tip below the surface of the skin
        return: x, -, peak and mean speed in mm/s, peak acceleration in m/s², share of a cycle in the skin
    Valid:
        rotary-slider and rotary-direct; refuses coil and other
    Source:
        simple harmonic motion
    Does not know:
        give, cartridge membrane and skin; the running speed under load
    """
    if drive not in SINE_DRIVES:
        known = drive in OTHER_DRIVES
        raise NotASineDrive(
            "drive",
            repr(drive),
            f"one of {', '.join(SINE_DRIVES)}",
            "leave the tip's speeds out: on this drive the needle does not follow a sine"
            if known
            else f"write one of {', '.join(SINE_DRIVES + OTHER_DRIVES)} in the machine's record",
        )
    return TipMotion(
        peak_tip_speed(stroke, frequency),
        mean_tip_speed(stroke, frequency),
        peak_acceleration(stroke, frequency),
        needle_down_share(depth, stroke),
    )
