"""Where things sit in a piece and in which order they are worked: places, lining, light beside dark."""

import math
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from generator.trade import shapes
from generator.trade._bounds import above_zero, from_zero
from generator.trade.refusal import Refusal
from generator.trade.shapes import Box, Focus, Shape

MIDDLE = "middle"
_ROWS = ("upper", MIDDLE, "lower")
_COLUMNS = ("left", MIDDLE, "right")


class Laid(NamedTuple):
    """One colour laid in one part: id, shape and CIELAB lightness."""

    name: str
    shape: Shape
    lightness: float


class Weighed(NamedTuple):
    """One ink on one part: the shape it is laid in, and its weight on the eye."""

    shape: Shape
    weight: float


class Beside(NamedTuple):
    """A light part laid before a darker one beside it, and the gap between them in mm."""

    light: str
    dark: str
    distance: float


def _check_sides(width: float, height: float) -> None:
    """Refuse a piece without an area."""
    for argument, side in (("width", width), ("height", height)):
        above_zero(argument, side, "more than 0 mm", "write the size as width by height")


def _weight_of(laid: Sequence[Weighed]) -> float:
    """The weight of all inks together; refused where there is none."""
    whole = sum(one.weight for one in laid)
    if not whole > 0:
        raise Refusal("laid", f"{whole:g}", "some weight above 0", "there is no colour to weigh")
    return whole


def nine_places(width: float, height: float) -> dict[str, Box]:
    r"""Into which nine places is a piece divided to say where a colour sits?

    Formula:
        w_i = \frac{w}{3}
        h_i = \frac{h}{3}
    Where:
        width: w, mm, width of the piece
        height: h, mm, height of the piece
        return: \text{places}, mm, nine boxes by name from upper left to lower right
    Valid:
        sides above 0
    Source:
        geometry; thirds are common practice, no published source
    Does not know:
        where the eye goes first
    """
    _check_sides(width, height)
    return {
        "centre" if row == column == 1 else f"{_ROWS[row]} {_COLUMNS[column]}": Box(
            column * width / 3, row * height / 3, width / 3, height / 3
        )
        for row in range(3)
        for column in range(3)
    }


def colour_by_place(
    parts: Mapping[str, Shape], colours: Mapping[str, Sequence[str]], places: Mapping[str, Shape]
) -> dict[str, dict[str, float]]:
    r"""How much of each strong colour sits in which place?

    Formula:
        q_{cp} = \frac{\sum_i \text{area}(S_i \cap P_p) / n_i}{\sum_p \sum_i \text{area}(S_i \cap P_p) / n_i}
    Where:
        parts: S_i, mm, the parts of the piece by id
        colours: n_i, -, the strong colours of each part by the part's id; n is how many share the part
        places: P_p, mm, the places by name, such as the nine thirds
        return: q_{cp}, fraction, for each colour the share in each place, adding up to 1
    Valid:
        every part with colours has a shape; a colour that meets no place has no entry
    Source:
        geometry, computed by shapely
    Does not know:
        how a part's area is divided among its colours, taken as equal; parts over each other count twice
    """
    areas: dict[str, dict[str, float]] = {}
    for part, names in colours.items():
        if part not in parts:
            raise Refusal("colours", f"'{part}'", "the id of one of the parts", "check how the part's id is written")
        for place, ground in places.items():
            shared = shapes.overlap(parts[part], ground)
            for name in names:
                in_places = areas.setdefault(name, dict.fromkeys(places, 0.0))
                in_places[place] += shared / len(names)
    totals = {name: sum(in_places.values()) for name, in_places in areas.items()}
    return {
        name: {place: found / totals[name] for place, found in in_places.items()}
        for name, in_places in areas.items()
        if totals[name] > 0
    }


def thirds(width: float, height: float) -> dict[str, Box]:
    r"""Into which thirds is a piece divided along its longer side?

    Formula:
        t = \frac{\max(w, h)}{3}
    Where:
        width: w, mm, width of the piece
        height: h, mm, height of the piece
        return: \text{thirds}, mm, three boxes by name: upper to lower, or left to right where it is wider than tall
    Valid:
        sides above 0
    Source:
        geometry; thirds are common practice, no published source
    Does not know:
        which way the piece is looked at on the body
    """
    _check_sides(width, height)
    if width > height:
        return {name: Box(at * width / 3, 0, width / 3, height) for at, name in enumerate(_COLUMNS)}
    return {name: Box(0, at * height / 3, width, height / 3) for at, name in enumerate(_ROWS)}


def weight_by_place(laid: Sequence[Weighed], places: Mapping[str, Shape]) -> dict[str, float]:
    r"""What share of the weight of colour lies in which place?

    Formula:
        q_p = \frac{\sum_i W_i \cdot \text{area}(S_i \cap P_p) / \text{area}(S_i)}{\sum_i W_i}
    Where:
        laid: (S_i ; W_i), mm, the inks with the shape they are laid in, and their weight
        places: P_p, mm, the places by name, such as the thirds of the piece
        return: q_p, fraction, the share in each place
    Valid:
        some weight above 0
    Source:
        geometry, computed by shapely; weights by chroma and area are common practice, no published source
    Does not know:
        where in its part an ink lies, taken as even
    """
    whole = _weight_of(laid)
    return {
        place: sum(one.weight * shapes.overlap(one.shape, ground) / shapes.area(one.shape) for one in laid) / whole
        for place, ground in places.items()
    }


def centre_of_weight(laid: Sequence[Weighed]) -> Focus:
    r"""Round which point does the weight of colour balance?

    Formula:
        c = \frac{\sum_i W_i \, c_i}{\sum_i W_i}
    Where:
        laid: (S_i ; W_i), mm, the inks with the shape they are laid in, and their weight; its middle is c
        return: c, mm, to the right and down from the upper left corner of the piece
    Valid:
        some weight above 0
    Source:
        mechanics; that a piece balances by chroma and area is common practice, no published source
    Does not know:
        where in its part an ink lies, taken as even, and the weight of black and of open skin
    """
    whole = _weight_of(laid)
    middles = [(one.weight / whole, shapes.centroid(one.shape)) for one in laid]
    return Focus(sum(share * c.x for share, c in middles), sum(share * c.y for share, c in middles))


def size_step(first: float, second: float) -> float:
    r"""How many times as large is one part as another?

    Formula:
        s = \frac{\max(A_1, A_2)}{\min(A_1, A_2)}
    Where:
        first: A_1, mm², area of the one
        second: A_2, mm², area of the other
        return: s, -, 1 where they are equally large
    Valid:
        areas above 0
    Source:
        arithmetic; that sizes should step clearly is common practice, no published source
    Does not know:
        that a dark part looks larger than a light one
    """
    for argument, area in (("first", first), ("second", second)):
        above_zero(argument, area, "an area above 0", "draw the part")
    return max(first, second) / min(first, second)


def lining_order(parts: Mapping[str, Shape], hand: str, turned: float, row: float) -> tuple[str, ...]:
    r"""In which order are the parts lined, so that the hand never rests on stencil that is still needed?

    Formula:
        \text{row}_i = \left\lfloor \frac{\max_j b_j - b_i}{r} \right\rfloor
        \text{order by } (\text{row}_i ; \; \text{hand's side first} ; \; \text{nearer first})
    Where:
        parts: b_i, mm, the parts by id; b is how far a part reaches towards the artist
        hand: \text{hand}, -, right or left
        turned: \theta, degrees, clockwise as the artist sees it; 0 when the top of the piece points away
        row: r, mm, how deep a strip the hand can work without resting farther up; the studio's own measure
        return: \text{order}, -, the ids of the parts, the first is where the lining starts
    Valid:
        row above 0; any finite turn. The heel of the drawing hand rests nearer to the artist than the needle
        and on the hand's own side, so the nearest row comes first, and inside a row a right hand goes from
        right to left, a left hand from left to right: what the hand covers is lined already. A part that lies
        wholly nearer than another comes before it in the same row too
    Source:
        common practice, no published source
    Does not know:
        an arm rest, a second angle of the chair, and lines that run through several parts
    """
    if hand not in ("right", "left"):
        raise Refusal("hand", f"'{hand}'", "right or left", "write it in the people's records")
    if not math.isfinite(turned):
        raise Refusal("turned", f"{turned}", "an angle in degrees", "write how the piece lies")
    above_zero("row", row, "more than 0 mm", "write how far the hand reaches up")
    # Turning the piece clockwise turns the artist's own directions the other way within the piece.
    near = {name: shapes.reach(shape, 90 - turned) for name, shape in parts.items()}
    to_the_hand = (0 if hand == "right" else 180) - turned
    aside = {name: shapes.reach(shape, to_the_hand) for name, shape in parts.items()}
    nearest = max(near.values(), default=0.0)
    far = {name: -shapes.reach(shape, 270 - turned) for name, shape in parts.items()}

    def key(name: str) -> tuple[int, float, float, str]:
        # Nine digits, so that the last bits of a turn do not part what lies in one row.
        reach = -round(aside[name], 9), -round(near[name], 9)
        return math.floor(round((nearest - near[name]) / row, 9)), *reach, name

    # Also inside a row, what lies wholly nearer is lined before what lies behind it.
    waiting = sorted(parts, key=key)
    lined: list[str] = []
    while waiting:
        # What lies wholly nearer begins where this one ends.
        free = next(n for n in waiting if not any(round(far[o] - near[n], 9) >= 0 for o in waiting if o != n))
        lined.append(free)
        waiting.remove(free)
    return tuple(lined)


def light_before_dark(laid: Sequence[Laid], within: float, step: float) -> tuple[Beside, ...]:
    r"""Where would a light colour be laid before a darker one beside it, which then bleeds or wipes into it?

    Formula:
        \text{gap}(S_i, S_j) \le d \text{ and } L^*_i - L^*_j \ge \Delta L, \; i < j
    Where:
        laid: (S_i ; L^*_i), mm, the colours in the order in which they are laid, with shape and lightness
        within: d, mm, up to which gap two parts count as beside each other
        step: \Delta L, -, from how much lightness a colour counts as darker; the studio's own limit
        return: \text{pairs}, mm, each light part with the darker one that comes later, and their gap
    Valid:
        distance from 0; step above 0; colours inside one part count as touching
    Source:
        common practice, no published source
    Does not know:
        whether the light part is covered or has rested to another sitting in between
    """
    from_zero("within", within, "0 mm or more", "write how near counts as beside")
    above_zero("step", step, "more than 0", "write how much darker counts, such as 10")
    for colour in laid:
        if not math.isfinite(colour.lightness):
            raise Refusal("laid", f"{colour.lightness}", "a number", f"check '{colour.name}'")
    return tuple(
        Beside(first.name, later.name, distance)
        for number, first in enumerate(laid)
        for later in laid[number + 1 :]
        if first.lightness - later.lightness >= step and (distance := shapes.gap(first.shape, later.shape)) <= within
    )
