"""How wide a grouping is where the needles are full wire: circle packing and plain geometry."""

import math
from typing import NamedTuple

from generator.trade._bounds import above_zero, positive
from generator.trade.refusal import Refusal


class Packing(NamedTuple):
    """The smallest circle around equal circles: its radius over theirs, and how firmly that is known."""

    ratio: float
    standing: str


# Index 0 is one needle. Radius of the enclosing circle over the radius of the needle: Birgin & Gentil 2009,
# Table 1, and the public encyclopaedia table of circle packing in a circle.
_PACKINGS = (
    Packing(1.0, "trivial"),
    Packing(2.0, "trivial"),
    Packing(2.1547005384, "trivial"),
    Packing(2.4142135624, "trivial"),
    Packing(2.7013016167, "proved, Graham 1968"),
    Packing(3.0, "proved, Graham 1968"),
    Packing(3.0, "trivial"),
    Packing(3.3047648710, "proved, Pirl 1969"),
    Packing(3.6131259298, "proved, Pirl 1969"),
    Packing(3.8130256314, "proved, Pirl 1969"),
    Packing(3.9238044002, "proved, Melissen 1994"),
    Packing(4.0296019301, "proved, Fodor 2000"),
    Packing(4.2360679775, "proved, Fodor 2003"),
    Packing(4.3284285549, "proved, 2024"),
    Packing(4.5213569647, "best known"),
    Packing(4.6154255949, "best known"),
    Packing(4.7920337483, "best known"),
    Packing(4.8637033052, "best known"),
    Packing(4.8637033052, "proved, Fodor 1999"),
    Packing(5.1223207370, "best known"),
)
LARGEST_ROUND = len(_PACKINGS)

# Thickest needle diameter in mm that the trade still calls bugpin (common practice).
BUGPIN_AT_MOST = 0.30


def _check_needles(count: int, needle_diameter: float, fewest: int) -> None:
    """Refuse a count that is no whole number or too small, and a diameter that is none."""
    if not isinstance(count, int) or isinstance(count, bool) or count < fewest:
        raise Refusal(
            "count",
            str(count),
            f"a whole number of needles, at least {fewest}",
            "write the number of needles from the box",
        )
    _check_diameter(needle_diameter)


def _check_diameter(needle_diameter: float) -> None:
    """Refuse a diameter that is none."""
    above_zero(
        "needle_diameter",
        needle_diameter,
        "a diameter above 0 mm",
        "write the needle diameter from the box, such as 0.35 mm",
    )


def _pitch(needle_diameter: float, spread: float) -> float:
    """Distance between the centres of neighbours in one row."""
    if not (positive(spread) and spread >= 1):
        raise Refusal(
            "spread",
            str(spread),
            "1 or more: at 1 the needles of a row touch",
            "write how far apart the needles of one row stand, in needle diameters",
        )
    return spread * needle_diameter


def tightest_packing(count: int) -> Packing:
    r"""How tight can a round of so many needles be, and is that proved or only the best known?

    Formula:
        \rho_N = \text{the smallest enclosing circle's radius over the needle's, from the table}
    Where:
        count: N, -, needles in the round
        return: \rho_N, -, ratio, and whether it is trivial, proved or best known
    Valid:
        1 to 20 needles
    Source:
        Birgin & Gentil 2009, Table 1; public encyclopaedia table of circle packing in a circle
    Does not know:
        how a maker solders the round; a loose or hollow one is wider
    """
    if not isinstance(count, int) or isinstance(count, bool) or not 1 <= count <= LARGEST_ROUND:
        raise Refusal(
            "count",
            str(count),
            f"1 to {LARGEST_ROUND} needles",
            "check the count on the box, or measure the bundle and write its width in the record",
        )
    return _PACKINGS[count - 1]


def tightest_bundle(count: int, needle_diameter: float) -> float:
    r"""How wide is the tightest round of so many needles?

    Formula:
        w = \rho_N \cdot d
    Where:
        count: N, -, needles in the round
        needle_diameter: d, mm, diameter of the full wire
        return: w, mm, diameter of the smallest circle around the bundle
    Valid:
        1 to 20 needles
    Source:
        Birgin & Gentil 2009, Table 1; public encyclopaedia table of circle packing in a circle
    Does not know:
        the mark: the taper narrows it, ink spreads it; a measured fresh line wins
    """
    packing = tightest_packing(count)
    _check_needles(count, needle_diameter, 1)
    return packing.ratio * needle_diameter


def hollow_ring(count: int, needle_diameter: float) -> float:
    r"""How wide is a hollow round, all needles on one ring and touching?

    Formula:
        w = \frac{d}{\sin(\pi / N)} + d
    Where:
        count: N, -, needles on the ring
        needle_diameter: d, mm, diameter of the full wire
        return: w, mm, outer diameter of the ring
    Valid:
        3 needles or more
    Source:
        geometry
    Does not know:
        the mark: the taper narrows it, ink spreads it; a measured fresh line wins
    """
    _check_needles(count, needle_diameter, 3)
    return needle_diameter / math.sin(math.pi / count) + needle_diameter


def flat_width(count: int, needle_diameter: float, spread: float) -> float:
    r"""How wide is a flat, all needles in one row?

    Formula:
        w = (N - 1) \cdot q \cdot d + d
    Where:
        count: N, -, needles in the row
        needle_diameter: d, mm, diameter of the full wire
        spread: q, -, distance between neighbours' centres in needle diameters, 1 when they touch
        return: w, mm, width of the row
    Valid:
        2 needles or more; spread from 1
    Source:
        geometry
    Does not know:
        the mark: the taper narrows it, ink spreads it
    """
    _check_needles(count, needle_diameter, 2)
    return (count - 1) * _pitch(needle_diameter, spread) + needle_diameter


def weaved_magnum_width(count: int, needle_diameter: float, spread: float) -> float:
    r"""How wide is a weaved magnum, each needle of one row over a gap of the other?

    Formula:
        w = \frac{N - 1}{2} \cdot q \cdot d + d
    Where:
        count: N, -, needles in both rows together
        needle_diameter: d, mm, diameter of the full wire
        spread: q, -, distance between neighbours of one row in needle diameters, 1 when they touch
        return: w, mm, width of the magnum
    Valid:
        3 needles or more; spread from 1
    Source:
        geometry
    Does not know:
        the mark; how far the needles splay in use
    """
    _check_needles(count, needle_diameter, 3)
    return (count - 1) / 2 * _pitch(needle_diameter, spread) + needle_diameter


def double_stack_width(count: int, needle_diameter: float, spread: float) -> float:
    r"""How wide is a double-stack magnum, one row straight on top of the other?

    Formula:
        w = \left(\left\lceil \frac{N}{2} \right\rceil - 1\right) \cdot q \cdot d + d
    Where:
        count: N, -, needles in both rows together
        needle_diameter: d, mm, diameter of the full wire
        spread: q, -, distance between neighbours of one row in needle diameters, 1 when they touch
        return: w, mm, width of the longer row
    Valid:
        3 needles or more; spread from 1
    Source:
        geometry; that the rows stand straight on each other is assumed
    Does not know:
        the mark; how a maker really stacks the rows
    """
    _check_needles(count, needle_diameter, 3)
    return ((count + 1) // 2 - 1) * _pitch(needle_diameter, spread) + needle_diameter


def grouping_width(
    configuration: str, count: int, needle_diameter: float, spread: float | None = None, hollow: bool = False
) -> float:
    r"""How wide is this grouping where its needles are full wire?

    Formula:
        w = \text{the width of a tight or hollow round, flat, weaved or double-stack magnum}
    Where:
        configuration: k, -, RL, RS, M1, M2, CM, RM or F
        count: N, -, needles in the grouping
        needle_diameter: d, mm, diameter of the full wire
        spread: q, -, distance between neighbours of one row in needle diameters, not for rounds
        hollow: h, -, whether a round is a hollow ring
        return: w, mm, width across the grouping; a curved magnum is taken straight across
    Valid:
        rounds need no spread; magnums and flats need one, from 1
    Source:
        geometry; circle packing, Birgin & Gentil 2009, Table 1
    Does not know:
        the mark: the taper narrows it, ink spreads it; a measured fresh line wins
    """
    if configuration in ("RL", "RS"):
        if spread is not None:
            raise Refusal(
                "spread",
                str(spread),
                "no spread on a round",
                "take the spread out, or correct the letters",
            )
        return hollow_ring(count, needle_diameter) if hollow else tightest_bundle(count, needle_diameter)
    width_of = {
        "F": flat_width,
        "M1": weaved_magnum_width,
        "CM": weaved_magnum_width,
        "RM": weaved_magnum_width,
        "M2": double_stack_width,
    }.get(configuration)
    if width_of is None:
        raise Refusal(
            "configuration",
            repr(configuration),
            "RL, RS, M1, M2, CM, RM or F",
            "write the letters from the box, or measure the width and write it in the record",
        )
    if hollow:
        raise Refusal(
            "hollow",
            configuration,
            "RL or RS: only a round can be hollow",
            "take hollow out, or correct the letters",
        )
    if spread is None:
        raise Refusal(
            "spread",
            "nothing",
            f"the spread of this {configuration}",
            "look at the needles with a loupe and write how many needle diameters lie from the middle of one "
            "to the middle of the next in a row; 1 when they touch",
        )
    return width_of(count, needle_diameter, spread)


def bugpin(needle_diameter: float) -> bool:
    r"""Is this needle a bugpin?

    Formula:
        d \le 0.30\ \text{mm}
    Where:
        needle_diameter: d, mm, diameter of the full wire
        return: b, -, true for a bugpin
    Valid:
        diameters above 0; a plain number in mm
    Source:
        common practice, no published source
    Does not know:
        what a certain maker calls bugpin
    """
    _check_diameter(needle_diameter)
    return needle_diameter <= BUGPIN_AT_MOST
