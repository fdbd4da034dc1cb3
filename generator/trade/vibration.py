"""Vibration on the artist's hand over a day, from the maker's figure for the machine and never without it."""

import math
from collections.abc import Sequence
from typing import NamedTuple

from generator.trade._bounds import from_zero, positive, zero_or_more
from generator.trade.refusal import Refusal

# Directive 2002/44/EC, Article 3: daily exposure A(8) in m/s² over a day of eight hours.
ACTION_VALUE = 2.5
LIMIT_VALUE = 5.0
REFERENCE_HOURS = 8.0

HOURS_IN_A_DAY = 24


class HoursLeft(NamedTuple):
    """Hours that may still be worked with a machine until the action and the limit value are reached."""

    to_action: float
    to_limit: float


def _check_assessed(acceleration: float | None) -> float:
    """The maker's figure, or a refusal that says it was not assessed."""
    if acceleration is None or not positive(acceleration):
        raise Refusal(
            "acceleration",
            "nothing" if acceleration is None else str(acceleration),
            "the maker's vibration figure above 0 m/s²; not assessed without it",
            "ask the maker for the machine's vibration total value in m/s² and write it in the record",
        )
    return acceleration


def _check_hours(hours: float) -> None:
    """Refuse hours that no day holds."""
    if not (zero_or_more(hours) and hours <= HOURS_IN_A_DAY):
        raise Refusal(
            "hours",
            str(hours),
            f"0 to {HOURS_IN_A_DAY} hours",
            "write the hours a day with the running machine in the hand",
        )


def daily_exposure(acceleration: float | None, hours: float) -> float:
    r"""How much vibration does the hand take in a day with one machine?

    Formula:
        A(8) = a \cdot \sqrt{\frac{t}{8}}
    Where:
        acceleration: a, m/s², the maker's vibration figure for the machine, or none
        hours: t, h, hours a day with the machine running in the hand, a plain number of hours
        return: A(8), m/s², exposure as if spread over eight hours
    Valid:
        acceleration above 0; 0 to 24 hours; refuses without the maker's figure
    Source:
        Directive 2002/44/EC
    Does not know:
        this machine with this cartridge in this hand; the maker measured another one
    """
    magnitude = _check_assessed(acceleration)
    _check_hours(hours)
    return magnitude * math.sqrt(hours / REFERENCE_HOURS)


def combined_exposure(exposures: Sequence[float | None]) -> float:
    r"""How much vibration does the hand take in a day with several machines?

    Formula:
        A(8) = \sqrt{\sum_i A_i(8)^2}
    Where:
        exposures: A_i(8), m/s², the daily exposure with each machine
        return: A(8), m/s², exposure of the whole day
    Valid:
        one machine at least, each from 0; refuses when one of them was not assessed
    Source:
        Directive 2002/44/EC
    Does not know:
        other tools and the way to work
    """
    squares = []
    for exposure in exposures:
        if exposure is None or not zero_or_more(exposure):
            raise Refusal(
                "exposures",
                "nothing" if exposure is None else str(exposure),
                "an exposure of 0 m/s² or more for each machine; not assessed otherwise",
                "ask the maker of each machine used that day for its vibration figure",
            )
        squares.append(exposure**2)
    if not squares:
        raise Refusal(
            "exposures",
            "no machine",
            "one machine at least; not assessed otherwise",
            "list the machines used that day",
        )
    total: float = sum(squares[1:], start=squares[0]) ** 0.5
    return total


def exposure_points(acceleration: float | None, hours: float) -> float:
    r"""How many exposure points do these hours with one machine cost?

    Formula:
        p = 2 \cdot a^2 \cdot t
    Where:
        acceleration: a, m/s², the maker's vibration figure for the machine, or none; a plain number
        hours: t, h, hours with the machine running in the hand, a plain number of hours
        return: p, points, points to be added up over the day
    Valid:
        acceleration above 0; 0 to 24 hours; refuses without the maker's figure
    Source:
        HSE, hand-arm vibration exposure points: 100 points are the action value, 400 the limit value
    Does not know:
        this machine with this cartridge in this hand; the maker measured another one
    """
    magnitude = _check_assessed(acceleration)
    _check_hours(hours)
    return 2 * magnitude**2 * hours


# The points of the action and the limit value: a whole day at either.
ACTION_POINTS = exposure_points(ACTION_VALUE, REFERENCE_HOURS)
LIMIT_POINTS = exposure_points(LIMIT_VALUE, REFERENCE_HOURS)


def hours_left(acceleration: float | None, points_used: float) -> HoursLeft:
    r"""How long may this machine still be used today?

    Formula:
        t = \frac{P - p}{2 \cdot a^2}
        P = 100 \text{ to the action value, } 400 \text{ to the limit value}
    Where:
        acceleration: a, m/s², the maker's vibration figure for the machine, or none; a plain number
        points_used: p, points, points already used up today, with any machine
        return: t, h, hours to the action value and to the limit value, 0 when it is reached
    Valid:
        acceleration above 0; points from 0; refuses without the maker's figure
    Source:
        Directive 2002/44/EC; HSE, hand-arm vibration exposure points
    Does not know:
        when to stop: numbness or tingling comes before any table
    """
    magnitude = _check_assessed(acceleration)
    from_zero("points_used", points_used, "0 points or more", "add up the points of the day so far")
    points_an_hour = exposure_points(magnitude, 1)
    return HoursLeft(
        max(0.0, (ACTION_POINTS - points_used) / points_an_hour),
        max(0.0, (LIMIT_POINTS - points_used) / points_an_hour),
    )
