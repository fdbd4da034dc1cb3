"""What lies on the piece's area: parts, scars, moles, and how far they reach and overlap.

Lengths are mm; x grows to the right and y grows downwards from the upper left corner of the piece's area.
"""

import math
from collections.abc import Sequence
from dataclasses import astuple, dataclass
from functools import lru_cache
from itertools import count
from typing import TYPE_CHECKING, NamedTuple

from generator.trade._bounds import positive, zero_or_more
from generator.trade.refusal import Refusal

if TYPE_CHECKING:
    import shapely

# A quarter circle in this many straight bits: its area is then short of the true one by less than 0.02 %.
_QUARTER_BITS = 48
# How far a corner may stick out, over the distance of its sides: a right angle does by the root of 2.
_RIGHT_ANGLE = 1.4143
_NOTHING = 1e-6  # mm² that the last bits of a float may leave where two shapes only touch


@dataclass(frozen=True, slots=True)
class Box:
    """An upright rectangle; x and y are its upper left corner."""

    x: float
    y: float
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class Ellipse:
    """An upright ellipse, given by the box that just holds it."""

    x: float
    y: float
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class Outline:
    """A closed outline through at least three points; the last is joined to the first."""

    points: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Strip:
    """A scar or another line of some width, through at least two points, with round ends."""

    points: tuple[tuple[float, float], ...]
    width: float


@dataclass(frozen=True, slots=True)
class Spot:
    """A mole or another point from which ink keeps a distance all round."""

    x: float
    y: float
    keep: float


@dataclass(frozen=True, slots=True)
class Focus:
    """A single point, such as the focal point of the piece."""

    x: float
    y: float


Shape = Box | Ellipse | Outline
Thing = Shape | Strip | Spot | Focus
_Measure = float | tuple["_Measure", ...]


class Shift(NamedTuple):
    """How far a part is moved in mm: to the right, and down; below 0 to the left, and up."""

    across: float
    down: float


def _finite(measure: _Measure) -> bool:
    """Whether a measure, or each of several, is a finite number."""
    return all(map(_finite, measure)) if isinstance(measure, tuple) else math.isfinite(measure)


@lru_cache(maxsize=4096)
def _geometry(thing: Thing) -> "shapely.Geometry":
    """The thing as shapely's geometry; a mole is the circle that is kept clear around it."""
    import shapely
    from shapely import affinity

    if not _finite(astuple(thing)):
        raise Refusal("shape", str(thing), "finite measures in mm", "measure it again in mm")
    match thing:
        case Box(_, _, width, height) | Ellipse(_, _, width, height) if not (width > 0 and height > 0):
            raise Refusal("shape", str(thing), "a width and a height above 0", "write both sides")
        case Strip(points, width) if len(points) < 2 or not width > 0:
            raise Refusal("shape", str(thing), "two points or more and a width above 0", "tape its ends and its width")
        case Spot(_, _, keep) if not keep > 0:
            raise Refusal("shape", str(thing), "a distance to keep above 0", "write how far ink stays away")
        case Box(x, y, width, height):
            return shapely.box(x, y, x + width, y + height)
        case Ellipse(x, y, width, height):
            circle = shapely.Point(x + width / 2, y + height / 2).buffer(1, quad_segs=_QUARTER_BITS)
            return affinity.scale(circle, width / 2, height / 2)
        case Outline(points):
            polygon = shapely.Polygon(points) if len(points) > 2 else shapely.Polygon()
            if not (polygon.is_valid and polygon.area > 0):
                raise Refusal(
                    "shape",
                    str(thing),
                    "three points or more, not crossing themselves",
                    "go round the edge once, in order, and do not repeat the first point",
                )
            return polygon
        case Strip(points, width):
            return shapely.LineString(points).buffer(width / 2, quad_segs=_QUARTER_BITS)
        case Spot(x, y, keep):
            return shapely.Point(x, y).buffer(keep, quad_segs=_QUARTER_BITS)
        case Focus(x, y):
            return shapely.Point(x, y)


def area(shape: Shape) -> float:
    r"""How much skin does a part cover?

    Formula:
        A_{\text{box}} = w h
        A_{\text{ellipse}} = \frac{\pi}{4} w h
        A_{\text{outline}} = \frac{1}{2} \left| \sum_i (x_i y_{i+1} - x_{i+1} y_i) \right|
    Where:
        shape: \text{shape}, mm, box or ellipse or outline of the part
        return: A, mm², the area inside it
    Valid:
        sides above 0; an outline of three points or more that does not cross itself
    Source:
        geometry
    Does not know:
        the curve of the body, and skin left open inside the part
    """
    geometry = _geometry(shape)
    if isinstance(shape, Ellipse):
        return math.pi / 4 * shape.width * shape.height
    return float(geometry.area)


def centroid(shape: Shape) -> Focus:
    r"""Where is the middle of a part's area?

    Formula:
        c = \frac{1}{A} \int_S p \, dA
    Where:
        shape: S, mm, box or ellipse or outline of the part
        return: c, mm, to the right and down from the upper left corner of the piece
    Valid:
        sides above 0; an outline of three points or more that does not cross itself
    Source:
        geometry, computed by shapely
    Does not know:
        skin left open inside the part
    """
    middle = _geometry(shape).centroid
    return Focus(float(middle.x), float(middle.y))


def overlap(first: Thing, second: Thing) -> float:
    r"""How much of a part lies on a scar, on an existing tattoo or inside a mole's clear ring?

    Formula:
        A = \text{area}(S_1 \cap S_2)
    Where:
        first: S_1, mm, a part
        second: S_2, mm, scar or existing tattoo or another part or a mole with the ring to keep clear
        return: A, mm², the area they share, 0 when they only touch
    Valid:
        shapes with sides above 0, strips of two points or more
    Source:
        geometry, computed by shapely; round edges are drawn with 192 straight bits
    Does not know:
        how exactly the scar was taped and where its edge fades out
    """
    return float(_geometry(first).intersection(_geometry(second)).area)


def covered(shapes: Sequence[Thing]) -> float:
    r"""How much skin do several parts cover together?

    Formula:
        A = \text{area}(S_1 \cup S_2 \cup \dots)
    Where:
        shapes: S_i, mm, the parts
        return: A, mm², the area they cover, counted once where they lie on each other; 0 without a part
    Valid:
        shapes with sides above 0, strips of two points or more
    Source:
        geometry, computed by shapely; round edges are drawn with 192 straight bits
    Does not know:
        the curve of the body, and skin left open inside the parts
    """
    import shapely

    return float(shapely.union_all([_geometry(shape) for shape in shapes]).area)


def gap(first: Thing, second: Thing) -> float:
    r"""How far are two things apart at their nearest edges?

    Formula:
        d = \min \left| p_1 - p_2 \right|, \; p_1 \in S_1, \; p_2 \in S_2
    Where:
        first: S_1, mm, one thing
        second: S_2, mm, the other; a mole counts with its ring to keep clear
        return: d, mm, distance along flat skin, 0 when they touch or overlap
    Valid:
        shapes with sides above 0, strips of two points or more
    Source:
        geometry, computed by shapely
    Does not know:
        the curve of the body and how the skin moves with the pose
    """
    return float(_geometry(first).distance(_geometry(second)))


def mole_clearance(shape: Shape, mole: Spot) -> float:
    r"""How much room is left beyond the distance to keep from a mole?

    Formula:
        c = \text{gap}(S, m) - k
    Where:
        shape: S, mm, the part
        mole: (m ; k), mm, the mole's middle and the distance ink keeps from it
        return: c, mm, room to spare, below 0 when the part comes too near
    Valid:
        a distance to keep above 0
    Source:
        geometry, computed by shapely
    Does not know:
        the mole's own size: the distance counts from the point that was written down
    """
    _geometry(mole)
    return gap(shape, Focus(mole.x, mole.y)) - mole.keep


def reach(shape: Shape, direction: float) -> float:
    r"""How far does a part reach in a direction, measured from the upper left corner of the piece's area?

    Formula:
        r = \max_{p \in S} (x_p \cos\theta + y_p \sin\theta)
    Where:
        shape: S, mm, the part
        direction: \theta, degrees, 0 to the right and 90 down towards the piece's lower edge
        return: r, mm, the farthest point of the part in that direction; may be negative
    Valid:
        finite direction
    Source:
        geometry
    Does not know:
        the curve of the body
    """
    import shapely

    if not math.isfinite(direction):
        raise Refusal("direction", f"{direction}", "an angle in degrees", "write how the piece lies")
    right, down = math.cos(math.radians(direction)), math.sin(math.radians(direction))
    corners = shapely.get_coordinates(_geometry(shape)).tolist()
    return float(max(x * right + y * down for x, y in corners))


def share_near(shape: Shape, thing: Thing, margin: float, besides: Sequence[Thing] = ()) -> float:
    r"""What share of a part lies on a scar, or nearer to it than a margin?

    Formula:
        N_i = \left\{ p : \text{gap}(p, T_i) \le m \right\}
        s = \frac{\text{area}\left(S \cap N_0 \setminus (N_1 \cup N_2 \cup \dots)\right)}{\text{area}(S)}
    Where:
        shape: S, mm, the part
        thing: T_0, mm, the scar
        margin: m, mm, how far beside the scar still counts as over it; the studio's own limit
        besides: T_i, mm, other scars whose share was counted already; none where it is the first
        return: s, fraction, the share of the part's area; lines are taken as lying evenly over the part
    Valid:
        a margin of 0 or more; shapes with sides above 0
    Source:
        geometry, computed by shapely; round edges are drawn with 192 straight bits
    Does not know:
        where in the part its lines run, and where the edge of a scar fades out
    """
    import shapely

    ground = _geometry(shape)
    taken = shapely.union_all([_widened(other, margin) for other in besides])
    near = ground.intersection(_widened(thing, margin)).difference(taken)
    return min(1.0, float(near.area / ground.area))


def not_reached(shape: Shape, width: float) -> float:
    r"""Which share of an area is too narrow for a magnum?

    Formula:
        R = \left( (S \ominus \tfrac{w}{2}) \oplus \tfrac{w}{2} \right) \cap S
        u = 100 \left( 1 - \frac{\text{area}(R)}{\text{area}(S)} \right)
    Where:
        shape: S, mm, the area
        width: w, mm, width of the magnum
        return: u, %, the share of the area that it does not reach, from 0 to 100
    Valid:
        a width above 0
    Source:
        geometry, computed by shapely: the shape is eroded by half the width and widened again by as much
    Does not know:
        how the magnum is turned: it is taken to fill a corner of a right angle or wider, and no sharper one
    """
    if not positive(width):
        raise Refusal("width", f"{width}", "a width above 0", "measure the magnum, or mend its spread")
    ground, half = _geometry(shape), width / 2
    inner = ground.buffer(-half, join_style="mitre", mitre_limit=_RIGHT_ANGLE)
    reached = inner.buffer(half, join_style="mitre", mitre_limit=_RIGHT_ANGLE).intersection(ground)
    return 100 * max(0.0, 1 - float(reached.area / ground.area))


def not_reached_by_taper(narrowest: float, widest: float, width: float) -> float:
    r"""Which share of an area is too narrow for a magnum, when only its narrowest and its widest place are known?

    Formula:
        u = 100 \cdot \frac{w^2 - n^2}{W^2 - n^2}, \; n < w < W
    Where:
        narrowest: n, mm, the narrowest place
        widest: W, mm, the widest place
        width: w, mm, width of the magnum
        return: u, %, the share of the area that it does not reach; 0 when w ≤ n and 100 when w ≥ W
    Valid:
        everything above 0
    Source:
        geometry: an area that tapers evenly from its widest place to its narrowest
    Does not know:
        where the area is narrow, and for how long; an outline of the part says it
    """
    if not all(positive(side) for side in (narrowest, widest, width)):
        raise Refusal("width", f"{narrowest}, {widest}, {width}", "widths above 0", "measure them again")
    if width <= narrowest:
        return 0.0
    if width >= widest:
        return 100.0
    return 100 * (width**2 - narrowest**2) / (widest**2 - narrowest**2)


def nearest_shift(shape: Shape, keep_off: Sequence[Thing], margin: float, within: Box, step: float) -> Shift | None:
    r"""How far has a part to be moved so that it is clear of all scars and moles?

    Formula:
        \delta = \min \left\{ k \cdot q : S + k q \, e \subseteq B, \; \text{gap}(S + k q \, e, T_i) \ge m \right\}
        e \in \{ \text{down, up, left, right} \}, \; \text{else along the diagonals}
    Where:
        shape: S, mm, the part
        keep_off: T_i, mm, scars and older tattoos to keep off, and moles with the ring to keep clear
        margin: m, mm, how far the part stays off scars and tattoos; a ring is its own margin
        within: B, mm, the area that the part may not leave
        step: q, mm, in what steps it is moved
        return: \delta, mm, to the right and down, 0 where it is clear already; none where no such shift is in the area
    Valid:
        a margin of 0 or more; steps above 0
    Source:
        geometry, computed by shapely
    Does not know:
        the other parts of the drawing, and whether the drawing is still good there
    """
    import shapely
    from shapely import affinity

    if not positive(step):
        raise Refusal("step", f"{step}", "steps above 0 mm", "write in what steps a part is moved")
    drawn = _geometry(shape)
    closed = shapely.union_all([_widened(thing, margin) for thing in keep_off])
    shapely.prepare(closed)
    left, top, right, foot = drawn.bounds
    # How far it can go to each side; nine digits, so that the last bits of a float do not cost a step.
    to_right = round(within.x + within.width - right, 9)
    to_left, up, down = round(left - within.x, 9), round(top - within.y, 9), round(within.y + within.height - foot, 9)
    straight = [(0, 1, down), (0, -1, up), (-1, 0, to_left), (1, 0, to_right)]
    diagonal = [(x, y, min(a, b)) for x, _, a in straight if x for _, y, b in straight if y]
    if not _on_each_other(closed, drawn):
        return Shift(0, 0)
    for ways in (straight, diagonal):
        for far in (number * step for number in count()):
            there_is_room = [(x, y) for x, y, room in ways if far <= room]
            if not there_is_room:
                break
            for x, y in there_is_room:
                if not _on_each_other(closed, affinity.translate(drawn, x * far, y * far)):
                    return Shift(x * far, y * far)
    return None


def _on_each_other(prepared: "shapely.Geometry", other: "shapely.Geometry") -> bool:
    return bool(prepared.intersects(other)) and prepared.intersection(other).area > _NOTHING


def _widened(thing: Thing, margin: float) -> "shapely.Geometry":
    """The thing with its margin; the ring of a mole is its own."""
    if not zero_or_more(margin):
        raise Refusal("margin", f"{margin}", "a margin of 0 mm or more", "write how far beside a scar counts")
    geometry = _geometry(thing)
    return geometry if isinstance(thing, Spot) or margin == 0 else geometry.buffer(margin, quad_segs=_QUARTER_BITS)
