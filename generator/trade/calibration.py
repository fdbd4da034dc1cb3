"""From the dial of a machine that shows volts to strokes per second and back, on measured points only."""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from generator.trade._bounds import positive
from generator.trade.refusal import Refusal


class Point(NamedTuple):
    """One measurement: dial in V, strokes per second in Hz."""

    volts: float
    frequency: float


@dataclass(frozen=True)
class Conditions:
    """What a voltage belongs to: machine, stroke in mm, kind of cartridge, power supply."""

    machine: str
    stroke: float
    cartridge: str
    supply: str


def frequency_at(volts: float, points: Sequence[Point], measured: Conditions, asked: Conditions) -> float:
    r"""How many strokes a second does this machine make at these volts?

    Formula:
        f = f_i + (f_{i+1} - f_i) \cdot \frac{V - V_i}{V_{i+1} - V_i}
    Where:
        volts: V, V, what the dial shows
        points: P_i, V and Hz, the measured points, each a voltage and the strokes per second it gave
        measured: M, -, machine, stroke, cartridge and supply of the measurement
        asked: Q, -, machine, stroke, cartridge and supply to be used now
        return: f, Hz, strokes in one second
    Valid:
        between the lowest and the highest measured volts, under the same conditions
    Source:
        arithmetic: straight lines between the studio's own measured points
    Does not know:
        the running speed in the skin; wear since the day of the measurement
    """
    rising = _rising(points, measured, asked)
    return _between(volts, [(p.volts, p.frequency) for p in rising], "volts", "V")


def volts_for(frequency: float, points: Sequence[Point], measured: Conditions, asked: Conditions) -> float:
    r"""To how many volts must the dial be set for so many strokes a second?

    Formula:
        V = V_i + (V_{i+1} - V_i) \cdot \frac{f - f_i}{f_{i+1} - f_i}
    Where:
        frequency: f, Hz, strokes in one second wanted
        points: P_i, V and Hz, the measured points, each a voltage and the strokes per second it gave
        measured: M, -, machine, stroke, cartridge and supply of the measurement
        asked: Q, -, machine, stroke, cartridge and supply to be used now
        return: V, V, what to set on the dial
    Valid:
        between the lowest and the highest measured frequency, under the same conditions
    Source:
        arithmetic: straight lines between the studio's own measured points
    Does not know:
        the running speed in the skin; wear since the day of the measurement
    """
    rising = _rising(points, measured, asked)
    return _between(frequency, [(p.frequency, p.volts) for p in rising], "frequency", "Hz")


def _rising(points: Sequence[Point], measured: Conditions, asked: Conditions) -> list[Point]:
    """The points in rising order, if they may be used here at all."""
    _check_conditions(measured, asked)
    if len(points) < 2:
        raise Refusal(
            "points",
            f"{len(points)} measured point(s)",
            "two at least",
            f"measure the strokes per second of {_described(asked)} at the lowest and highest dial setting",
        )
    again = f"measure {_described(asked)} again; every step up on the dial must give more strokes"
    for point in points:
        if not all(positive(part) for part in point):
            raise Refusal("points", _shown(point), "volts and strokes per second above 0", again)
    rising = sorted(points, key=lambda point: point.volts)
    for lower, upper in itertools.pairwise(rising):
        if not (upper.volts > lower.volts and upper.frequency > lower.frequency):
            raise Refusal(
                "points",
                f"{_shown(lower)} and {_shown(upper)}",
                "more strokes at more volts",
                again,
            )
    return rising


def _check_conditions(measured: Conditions, asked: Conditions) -> None:
    """Refuse a measurement made with something else."""
    for name in ("machine", "stroke", "cartridge", "supply"):
        there, here = getattr(measured, name), getattr(asked, name)
        if there != here:
            raise Refusal(
                name,
                f"points measured with {name} {there}",
                f"points for {name} {here}",
                f"measure the strokes per second of {_described(asked)} at several dial settings",
            )


def _between(wanted: float, rising: list[tuple[float, float]], argument: str, unit: str) -> float:
    """Straight line between the two measured points around what is wanted."""
    lowest, highest = rising[0][0], rising[-1][0]
    if not lowest <= wanted <= highest:
        raise Refusal(
            argument,
            f"{wanted} {unit}",
            f"{lowest} to {highest} {unit}, where points were measured",
            f"stay inside {lowest} to {highest} {unit}, or measure one more point there and add it",
        )
    (start, low), (end, high) = next(pair for pair in itertools.pairwise(rising) if wanted <= pair[1][0])
    share = (wanted - start) / (end - start)
    # Weighing both ends keeps a measured point exactly as it was measured.
    return low * (1 - share) + high * share


def _described(conditions: Conditions) -> str:
    """The conditions as a person would set them up."""
    return (
        f"{conditions.machine} with stroke {conditions.stroke} mm, cartridge {conditions.cartridge} "
        f"and supply {conditions.supply}"
    )


def _shown(point: Point) -> str:
    """A point as a person would read it."""
    return f"{point.volts} V at {point.frequency} Hz"
