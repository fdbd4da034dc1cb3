"""Where every needle of a grouping stands, for the figure that draws it to scale."""

import math
from collections.abc import Iterable

from generator.trade.needles import flat_width, grouping_width, hollow_ring, tightest_bundle
from generator.trade.packings import PACKED

Positions = tuple[tuple[float, float], ...]


def round_positions(count: int, needle_diameter: float) -> Positions:
    r"""Where do the needles of a tight round stand?

    Formula:
        (x, y) = \frac{d}{2} \cdot \text{a tightest packing of unit circles}
    Where:
        count: N, -, needles in the round
        needle_diameter: d, mm, diameter of the full wire
        return: p_i, mm, the centre of every needle, counted from the middle of the round
    Valid:
        1 to 20 needles
    Source:
        geometry for 1 to 9, 18 and 19; an optimiser for the others, checked against the table of packings
    Does not know:
        how a maker solders the round; other bundles are as tight, and loose needles have room to move
    """
    tightest_bundle(count, needle_diameter)
    return _scaled(_unit_bundle(count), needle_diameter)


def ring_positions(count: int, needle_diameter: float) -> Positions:
    r"""Where do the needles of a hollow round stand?

    Formula:
        (x, y) = \frac{d}{2 \sin(\pi / N)} \cdot (\sin \alpha, \cos \alpha)
        \alpha = \frac{2 \pi i}{N}
    Where:
        count: N, -, needles on the ring
        needle_diameter: d, mm, diameter of the full wire
        return: p_i, mm, the centre of every needle, counted from the middle of the ring
    Valid:
        3 needles or more
    Source:
        geometry
    Does not know:
        whether the maker's ring closes exactly
    """
    hollow_ring(count, needle_diameter)
    return _scaled(_ring(count, _touching(count)), needle_diameter)


def row_positions(count: int, needle_diameter: float, spread: float) -> Positions:
    r"""Where do the needles of a flat stand?

    Formula:
        x = \left(i - \frac{N - 1}{2}\right) \cdot q \cdot d
        y = 0
    Where:
        count: N, -, needles in the row
        needle_diameter: d, mm, diameter of the full wire
        spread: q, -, distance between neighbours' centres in needle diameters, 1 when they touch
        return: p_i, mm, the centre of every needle, counted from the middle of the row
    Valid:
        2 needles or more; spread from 1
    Source:
        geometry
    Does not know:
        how far the needles splay in use
    """
    flat_width(count, needle_diameter, spread)
    return _scaled(_row(count, spread), needle_diameter)


def weaved_positions(count: int, needle_diameter: float, spread: float) -> Positions:
    r"""Where do the needles of a weaved magnum stand?

    Formula:
        x = \left(i - \frac{N - 1}{2}\right) \cdot \frac{q \cdot d}{2}
        y = \pm \frac{\sqrt{3}}{4} \cdot d
    Where:
        count: N, -, needles in both rows together
        needle_diameter: d, mm, diameter of the full wire
        spread: q, -, distance between neighbours of one row in needle diameters, 1 when they touch
        return: p_i, mm, the centre of every needle, counted from the middle of the magnum
    Valid:
        3 needles or more; spread from 1
    Source:
        geometry; assumed: at every spread the rows stay as far apart as in a nested magnum that touches
    Does not know:
        how far apart the maker's rows really are
    """
    grouping_width("M1", count, needle_diameter, spread)
    return _scaled(_weaved(count, spread, math.sqrt(3)), needle_diameter)


def stacked_positions(count: int, needle_diameter: float, spread: float) -> Positions:
    r"""Where do the needles of a double-stack magnum stand?

    Formula:
        x = \left(i - \frac{n - 1}{2}\right) \cdot q \cdot d
        y = \pm \frac{d}{2}
    Where:
        count: N, -, needles in both rows together; the lower row holds the odd one
        needle_diameter: d, mm, diameter of the full wire
        spread: q, -, distance between neighbours of one row in needle diameters, 1 when they touch
        return: p_i, mm, the centre of every needle, counted from the middle of the magnum
    Valid:
        3 needles or more; spread from 1
    Source:
        geometry; assumed: one row lies on the other, each centred, n needles in a row
    Does not know:
        how the maker really stacks the rows
    """
    grouping_width("M2", count, needle_diameter, spread)
    lower = [(x, -1.0) for x, _ in _row((count + 1) // 2, spread)]
    upper = [(x, 1.0) for x, _ in _row(count // 2, spread)]
    return _scaled(lower + upper, needle_diameter)


def curved_positions(count: int, needle_diameter: float, spread: float) -> Positions:
    r"""Where do the needles of a curved magnum stand, its arc drawn into the same picture?

    Formula:
        x = \left(i - \frac{N - 1}{2}\right) \cdot \frac{q \cdot d}{2}
        y = \pm \frac{h}{2} - \left(R - \sqrt{R^2 - x^2}\right)
        R = \frac{N - 1}{2} \cdot q \cdot d
    Where:
        count: N, -, needles in both rows together
        needle_diameter: d, mm, diameter of the full wire
        spread: q, -, distance between neighbours of one row in needle diameters, 1 when they touch
        return: p_i, mm, the centre of every needle, the middle of the arc highest
    Valid:
        3 needles or more; spread from 1
    Source:
        geometry; assumed: the arc's radius R is the distance between the outermost needles, and the two rows
        stand h apart so that no needle covers another
    Does not know:
        the arc the maker cuts; on the real grouping the tips in the middle stand further out towards the skin
    """
    grouping_width("CM", count, needle_diameter, spread)
    radius = (count - 1) * spread  # in needle radii, as all unit positions are
    drops = [radius - math.sqrt(radius**2 - x**2) for x, _ in _weaved(count, spread, 0.0)]
    # Where the arc is steepest a needle of the upper row comes down towards its neighbour below by this much.
    steepest = drops[0] - drops[1]
    bent = [(x, y - drop) for (x, y), drop in zip(_weaved(count, spread, math.sqrt(3) + steepest), drops, strict=True)]
    return _scaled(bent, needle_diameter)


def needle_positions(
    configuration: str, count: int, needle_diameter: float, spread: float | None = None, hollow: bool = False
) -> Positions:
    r"""Where does every needle of this grouping stand?

    Formula:
        (x, y) = \text{the places in the tight or hollow round, row, or magnum}
    Where:
        configuration: k, -, RL, RS, M1, M2, CM, RM or F
        count: N, -, needles in the grouping
        needle_diameter: d, mm, diameter of the full wire
        spread: q, -, distance between neighbours of one row in needle diameters, not for rounds
        hollow: h, -, whether a round is a hollow ring
        return: p_i, mm, the centre of every needle, x across the grouping
    Valid:
        rounds need no spread; magnums and flats need one, from 1
    Source:
        geometry; circle packing for rounds
    Does not know:
        taper, and what the maker really soldered: the figure shows full wires in the ideal arrangement
    """
    grouping_width(configuration, count, needle_diameter, spread, hollow)
    if spread is None:
        return (ring_positions if hollow else round_positions)(count, needle_diameter)
    places = {
        "F": row_positions,
        "M1": weaved_positions,
        "M2": stacked_positions,
        "CM": curved_positions,
        "RM": curved_positions,
    }
    return places[configuration](count, needle_diameter, spread)


def _scaled(unit_places: Iterable[tuple[float, float]], needle_diameter: float) -> Positions:
    """Places counted in needle radii, brought to the needle's size."""
    return tuple((x / 2 * needle_diameter, y / 2 * needle_diameter) for x, y in unit_places)


def _unit_bundle(count: int) -> Iterable[tuple[float, float]]:
    """A tightest bundle of circles of radius 1."""
    if count in PACKED:
        return PACKED[count]
    middle = [(0.0, 0.0)]
    if count == 1:
        return middle
    if count < 6:
        return _ring(count, _touching(count))
    if count < 10:
        # Six stand as five around one: as tight as a ring of six, but not hollow.
        return middle + _ring(count - 1, max(2.0, _touching(count - 1)))
    inner, outer = _ring(6, 2.0), _ring(12, _touching(12), turned=math.pi / 12)
    return (middle + inner + outer)[:count]


def _touching(count: int) -> float:
    """Radius of the ring on which the centres of touching unit circles lie."""
    return 1 / math.sin(math.pi / count)


def _ring(count: int, radius: float, turned: float = 0.0) -> list[tuple[float, float]]:
    """Centres evenly on a ring, the first one at the top unless turned."""
    angles = [turned + 2 * math.pi * index / count for index in range(count)]
    return [(radius * math.sin(angle), radius * math.cos(angle)) for angle in angles]


def _row(count: int, spread: float) -> list[tuple[float, float]]:
    """Centres in one row."""
    return [((2 * index - (count - 1)) * spread, 0.0) for index in range(count)]


def _weaved(count: int, spread: float, gap: float) -> list[tuple[float, float]]:
    """Centres in two rows that are the gap apart, each needle over a gap of the other row."""
    return [((index - (count - 1) / 2) * spread, gap / 2 if index % 2 else -gap / 2) for index in range(count)]
