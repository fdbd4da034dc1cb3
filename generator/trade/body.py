"""A flat drawing on a round, tapering limb: how far it wraps, what is seen at once, how a band must bend."""

import math
from typing import Literal, NamedTuple

from generator.trade._bounds import above_zero, from_zero, zero_or_more
from generator.trade.refusal import Refusal


class Band(NamedTuple):
    """How to draw a band on flat paper so that it runs level round a tapered limb.

    radius: mm, of the arc, None where the limb does not taper; angle: degrees the arc sweeps;
    sag: mm between the middle of the arc and the straight line through its ends;
    thin_end: the end to which both ends of the arc bend, None where the limb does not taper.
    """

    radius: float | None
    angle: float
    sag: float
    thin_end: Literal["top", "bottom"] | None


def _check_wrap(width: float, girth: float) -> None:
    """Refuse a piece or a girth that is none, and a piece that would run over itself."""
    _check_girth("girth", girth)
    above_zero("width", width, "a width above 0 mm", "measure the width of the drawing")
    if width > girth:
        raise Refusal(
            "width",
            str(width),
            f"at most the girth, {girth}",
            "make the piece narrower, or measure the girth again, standing and relaxed",
        )


def _check_girth(argument: str, girth: float) -> None:
    """Refuse a girth that is none."""
    above_zero(argument, girth, "a girth above 0 mm", "tape the client there, standing and relaxed")


def wrap_angle(width: float, girth: float) -> float:
    r"""How far round the limb does the piece reach?

    Formula:
        \theta = 360 \cdot \frac{w}{g}
    Where:
        width: w, mm, width of the piece on the skin, round the limb
        girth: g, mm, girth of the limb there
        return: \theta, °, angle round the limb
    Valid:
        width above 0, up to the girth
    Source:
        geometry of a round limb
    Does not know:
        that limbs are not round; the girth in another pose
    """
    _check_wrap(width, girth)
    return 360 * (width / girth)


def share_seen(width: float, girth: float) -> float:
    r"""What share of the piece is seen at once, looking straight at its middle?

    Formula:
        k = \min\left(1, \frac{g}{2 w}\right)
    Where:
        width: w, mm, width of the piece on the skin, round the limb
        girth: g, mm, girth of the limb there
        return: k, -, share of the width that faces the viewer, 0 to 1
    Valid:
        width above 0, up to the girth; seen from far away
    Source:
        geometry of a round limb
    Does not know:
        how narrow the outer parts look; the projected width tells that
    """
    _check_wrap(width, girth)
    return min(1.0, girth / (2 * width))


def projected_width(width: float, girth: float) -> float:
    r"""How wide does the wrapped piece look from straight in front?

    Formula:
        p = 2 r \sin\left(\frac{\theta}{2}\right)
        r = \frac{g}{2 \pi}
        p = 2 r \quad \text{where it wraps more than half the limb}
    Where:
        width: w, mm, width of the piece on the skin, round the limb
        girth: g, mm, girth of the limb there
        return: p, mm, width as seen; beyond half the girth the whole thickness of the limb
    Valid:
        width above 0, up to the girth; seen from far away
    Source:
        geometry of a round limb
    Does not know:
        that limbs are not round; what lies beyond half the girth is not seen at all
    """
    _check_wrap(width, girth)
    half_angle = math.pi * float(width / girth)
    return girth / math.pi * math.sin(min(half_angle, math.pi / 2))


def opening(width: float, girth: float) -> float:
    r"""How far apart are the two ends of a band that runs round the limb?

    Formula:
        o = g - w
    Where:
        width: w, mm, length of the band on the skin, round the limb
        girth: g, mm, girth of the limb at this level of the band
        return: o, mm, bare skin between its ends
    Valid:
        width above 0, up to the girth
    Source:
        geometry of a limb
    Does not know:
        how the skin gives when the arm turns, and the girth in another pose
    """
    _check_wrap(width, girth)
    return girth - width


def angle_of_ends(opening_above: float, opening_below: float, height: float) -> float:
    r"""At what angle do the two ends of a band stand to each other?

    Formula:
        \alpha = 2 \arctan\left(\frac{|o_t - o_b|}{2 h}\right)
    Where:
        opening_above: o_t, mm, bare skin between the ends at the upper edge of the band
        opening_below: o_b, mm, bare skin between the ends at its lower edge
        height: h, mm, height of the band along the limb
        return: \alpha, degrees, between the two ends, 0 where they are parallel
    Valid:
        openings of 0 or more; a height above 0
    Source:
        geometry: two straight ends, each leaning by half of it
    Does not know:
        that ends of an arc are a little curved
    """
    for argument, open_ in (("opening_above", opening_above), ("opening_below", opening_below)):
        from_zero(argument, open_, "0 mm or more", "make the band shorter, or tape the limb again")
    above_zero("height", height, "a height above 0 mm", "measure the height of the band")
    return math.degrees(2 * math.atan(float(abs(opening_above - opening_below) / (2 * height))))


def girth_at(below_top: float, girth_top: float, girth_bottom: float, distance: float) -> float:
    r"""How thick is the limb between the two places that were taped?

    Formula:
        g = g_t + (g_b - g_t) \cdot \frac{y}{L}
    Where:
        below_top: y, mm, how far below the upper tape, along the skin
        girth_top: g_t, mm, girth at the upper tape
        girth_bottom: g_b, mm, girth at the lower tape
        distance: L, mm, from the upper to the lower tape, along the skin
        return: g, mm, girth there
    Valid:
        between the two tapes
    Source:
        geometry of a limb that tapers evenly
    Does not know:
        a bulging muscle between the tapes: tape it there too
    """
    _check_limb(girth_top, girth_bottom, distance)
    if not (zero_or_more(below_top) and below_top <= distance):
        raise Refusal(
            "below_top",
            str(below_top),
            f"from 0 mm to the distance between the tapes, {distance}",
            "tape the limb above and below the whole piece",
        )
    return girth_top + (girth_bottom - girth_top) * (below_top / distance)


def band(width: float, below_top: float, girth_top: float, girth_bottom: float, distance: float) -> Band:
    r"""On which arc must a band be drawn so that it looks straight round a tapered limb?

    Formula:
        \rho = \frac{g \cdot L}{|g_t - g_b|}
        \varphi = \frac{360 \cdot w}{2 \pi \cdot \rho}
        h = \rho \cdot \left(1 - \cos\left(\frac{\varphi}{2}\right)\right)
    Where:
        width: w, mm, length of the band round the limb
        below_top: y, mm, how far the band lies below the upper tape, along the skin
        girth_top: g_t, mm, girth at the upper tape
        girth_bottom: g_b, mm, girth at the lower tape
        distance: L, mm, from the upper to the lower tape, along the skin
        return: B, -, radius and angle of the arc, sag of a straight band, end towards which its ends bend
    Valid:
        between the two tapes; the band at most the girth g at its place
    Source:
        geometry: the development of a cone
    Does not know:
        bulging muscles and twisting skin: try the stencil, standing and relaxed
    """
    girth = girth_at(below_top, girth_top, girth_bottom, distance)
    _check_wrap(width, girth)
    if girth_top == girth_bottom:
        return Band(None, 0.0, 0 * width, None)
    radius = girth * (distance / abs(girth_top - girth_bottom))
    angle = float(width / radius)
    # 1 - cos loses its digits on a limb that hardly tapers; the squared sine of half the angle does not.
    sag = radius * (2 * math.sin(angle / 4) ** 2)
    return Band(radius, math.degrees(angle), sag, "bottom" if girth_top > girth_bottom else "top")


def _check_limb(girth_top: float, girth_bottom: float, distance: float) -> None:
    """Refuse tapes that no limb could give."""
    _check_girth("girth_top", girth_top)
    _check_girth("girth_bottom", girth_bottom)
    above_zero("distance", distance, "a distance above 0 mm", "measure from the upper to the lower tape")
    # Steeper than flat is impossible: the radius cannot change by more than the way along the skin.
    if abs(girth_top - girth_bottom) >= 2 * math.pi * distance:
        raise Refusal(
            "distance",
            str(distance),
            "more way between two girths so different",
            "measure both girths and the distance along the skin again",
        )
