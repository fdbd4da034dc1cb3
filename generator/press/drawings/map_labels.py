"""Where the names of a map stand: as tags outside the piece, each on a leader that ends at the edge of what it names.

Nothing that is drawn is written on: what is under a label on paper is under it at the skin, too. The tags of a piece
stand in two columns, left and right of it, those of a flat piece in two rows, above and below it. Rows are
calculated as columns of the piece lying on its side. All lengths are mm of skin; x grows to the right and y downwards.
"""

from __future__ import annotations

import functools
import itertools
import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from markupsafe import Markup

from generator.press.drawings.svg import element, n, path, words
from generator.press.words.text_width import POINT, width_of

Point = tuple[float, float]
Edge = tuple[Point, ...]

# Of the height of a letter: how tall a tag is, the air beside its words, how far tags are apart, what a leader needs
# to come from the piece to its tag, and what it needs where more tags than the piece is tall spread out.
TALL, AIR, APART, TRACK, LONG_TRACK = 1.3, 0.5, 0.15, 0.9, 3.0
# How near a leader comes to what it does not name before it seems to name it.
_NEAR = 0.3
# Where along a thing a leader may end, as shares of its height; the middle is best.
_ENDS = (0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9, 0.04, 0.96)
# By how many tags a leader may rise or fall on its way, where level ones are in the way of others.
_SLOPES = (1, -1, 2, -2, 4, -4)
# What a leader does that the eye has to sort out, in the order of how much it costs.
_SAME_WAY, _CROSSING, _PUSHED, _TOO_MANY, _SECOND_ROW = 60.0, 40.0, 1.5, 4.0, 2.0
_ROUNDS = 4


class Frame(NamedTuple):
    """An upright rectangle by its four edges."""

    left: float
    top: float
    right: float
    foot: float


class Tagged(NamedTuple):
    """Something with a name on the map: its closed edge, and what it costs when another leader crosses it."""

    words: str
    edge: Edge
    weight: float


class Tag(NamedTuple):
    """A name outside the piece: the box of its tag, and the leader from the edge of what it names to the tag."""

    words: str
    box: Frame
    leader: tuple[Point, ...]


class _Around(NamedTuple):
    """A thing that has a leader, with all others and their frames; `near` is how near it comes to one."""

    thing: Tagged
    others: tuple[tuple[Tagged, Frame], ...]
    near: float


@dataclass
class _Way:
    """A leader inside the frame of what is drawn: its end at the thing, and where it leaves the frame.

    least: what it costs by its length and its slope, whatever is in its way.
    """

    side: int
    end: Point
    out: Point
    least: float
    around: _Around

    @functools.cached_property
    def frame(self) -> Frame:
        return frame_round((self.end, self.out))

    @functools.cached_property
    def cost(self) -> float:
        """With what is in its way, which is looked for only where a way may be chosen."""
        thing, others, near = self.around
        met = sum(
            other.weight * _meets(self.end, self.out, other.edge, near)
            for other, frame in others
            if not _clear(self.frame, frame, near)
        )
        own = self.end[1] != self.out[1] and _crossings(self.end, self.out, thing.edge) > 1
        return self.least + met + 2 * thing.weight * own


class _Columns(NamedTuple):
    """Where tags may stand: left and right of a frame, `track` away from it, in letters of a height.

    second: what it costs to open the column on the right.
    """

    frame: Frame
    size: float
    track: float
    second: float


def tag_width(words: str, size: float) -> float:
    """The width of a tag for letters of this height; a single letter gets a round one."""
    return max(TALL * size, width_of(words, 1, bold=True) / POINT * size + AIR * size)


def led_out(
    things: Sequence[Tagged], blocks: Sequence[Tagged], frame: Frame, size: float, track: float, flat: bool
) -> tuple[Tag, ...]:
    """The tags of things, in their order.

    blocks: what has no name and is kept off. frame: everything that is drawn. size: height of a letter. track: between
    the frame and the tags. flat: whether the tags stand above and below and not left and right.
    """
    extents = [(tag_width(thing.words, size), TALL * size) for thing in things]
    if not flat:
        return tuple(_in_columns(things, blocks, extents, _Columns(frame, size, track, 0.0)))
    things, blocks = ([thing._replace(edge=_swapped(thing.edge)) for thing in group] for group in (things, blocks))
    columns = _Columns(_lying(frame), size, track, _SECOND_ROW)
    tags = _in_columns(things, blocks, [(down, across) for across, down in extents], columns)
    return tuple(Tag(tag.words, _lying(tag.box), _swapped(tag.leader)) for tag in tags)


def _lying(frame: Frame) -> Frame:
    return Frame(frame.top, frame.left, frame.foot, frame.right)


def _swapped(points: Iterable[Point]) -> Edge:
    return tuple((y, x) for x, y in points)


def _in_columns(
    things: Sequence[Tagged],
    blocks: Sequence[Tagged],
    extents: Sequence[Point],
    columns: _Columns,
) -> list[Tag]:
    """Tags left (side 0) and right (side 1) of the frame."""
    frame, size, track, _ = columns
    tall = [down for _, down in extents]
    framed = [(thing, frame_round(thing.edge)) for thing in (*things, *blocks)]
    ways = [
        list(_ways(_Around(thing, (*framed[:at], *framed[at + 1 :]), _NEAR * size), frame, tall[at] + APART * size))
        for at, thing in enumerate(things)
    ]
    chosen = _chosen(ways, tall, columns)
    placed: dict[int, Tag] = {}
    for side in (0, 1):
        here = sorted((at for at, way in enumerate(chosen) if way.side == side), key=lambda at: chosen[at].out[::-1])
        middles = _apart([chosen[at].out[1] for at in here], [tall[at] for at in here], APART * size, frame)
        for at, middle in zip(here, middles, strict=True):
            wide, down = extents[at]
            near = frame.right + track if side else frame.left - track
            left = near if side else near - wide
            box = Frame(left, middle - down / 2, left + wide, middle + down / 2)
            placed[at] = Tag(things[at].words, box, (chosen[at].end, chosen[at].out, (near, middle)))
    return [placed[at] for at in range(len(things))]


def _ways(around: _Around, frame: Frame, step: float) -> Iterator[_Way]:
    """Every leader that a thing may have: from several places of its edge, a level one and then sloping ones.

    step: from one tag to the next.
    """
    edge = around.thing.edge
    downs = [y for _, y in edge]
    top, foot = min(downs), max(downs)
    for share in _ENDS if foot > top else (0.5,):
        y = top + share * (foot - top)
        across = _across(edge, y)
        for side, x in ((0, min(across)), (1, max(across))):
            for slope in (0, *_SLOPES) if share in (0.5, 0.2, 0.8) else (0,):
                out = (frame.right if side else frame.left, y + slope * step)
                if slope and not frame.top <= out[1] <= frame.foot:
                    continue
                least = 3 * abs(out[0] - x) / (frame.right - frame.left) + abs(share - 0.5) + abs(slope) * 0.8
                yield _Way(side, (x, y), out, least, around)


def _across(edge: Edge, y: float) -> list[float]:
    """Where a level line meets a closed edge."""
    found = []
    for (x1, y1), (x2, y2) in _sides(edge):
        if min(y1, y2) <= y <= max(y1, y2):
            found += [x1, x2] if y1 == y2 else [x1 + (y - y1) / (y2 - y1) * (x2 - x1)]
    return found or [x for x, _ in edge]


def _sides(edge: Edge) -> Iterator[tuple[Point, Point]]:
    return zip(edge, (*edge[1:], edge[0]), strict=True)


def _meets(end: Point, out: Point, edge: Edge, near: float) -> float:
    """How much a leader has to do with an edge that it does not name: it crosses it, or seems to end there."""
    crossed = _crossings(end, out, edge)
    touched = any(_off(spot, end, out) < near for spot in edge)
    ends_there = any(_off(end, one, two) < near for one, two in _sides(edge))
    return crossed + 0.7 * touched + 1.5 * ends_there


def frame_round(edge: Edge) -> Frame:
    """What some spots lie in."""
    across, down = zip(*edge, strict=True)
    return Frame(min(across), min(down), max(across), max(down))


def _crossings(end: Point, out: Point, edge: Edge) -> int:
    """How many sides of an edge a leader crosses: few have their two ends on different sides of it."""
    turns = [_turn(end, out, spot) for spot in edge]
    return sum(_cross(end, out, edge[at - 1], edge[at]) for at in range(len(edge)) if turns[at - 1] * turns[at] <= 0)


def _turn(p: Point, q: Point, r: Point) -> float:
    """On which side of a straight line from p to q a third spot lies: its sign; 0 on the line."""
    return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])


def _cross(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Whether two straight lines share a point."""
    return _turn(a, b, c) * _turn(a, b, d) <= 0 and _turn(c, d, a) * _turn(c, d, b) <= 0 and (a != b) and (c != d)


def _off(point: Point, one: Point, two: Point) -> float:
    """The distance of a point from a straight line between two others."""
    (x, y), (x1, y1), (x2, y2) = point, one, two
    long = (x2 - x1) ** 2 + (y2 - y1) ** 2
    share = max(0.0, min(1.0, ((x - x1) * (x2 - x1) + (y - y1) * (y2 - y1)) / long)) if long else 0.0
    return math.hypot(x - x1 - share * (x2 - x1), y - y1 - share * (y2 - y1))


def _chosen(ways: list[list[_Way]], tall: list[float], columns: _Columns) -> list[_Way]:
    """One way for each thing. Those with the least choice choose first, and all may choose again after the others."""
    order = sorted(range(len(ways)), key=lambda at: max(w.out[1] for w in ways[at]) - min(w.out[1] for w in ways[at]))
    chosen: dict[int, _Way] = {}
    for _ in range(_ROUNDS):
        before = dict(chosen)
        for at in order:
            rest = {other: way for other, way in chosen.items() if other != at}
            chosen[at] = _cheapest(ways[at], at, rest, tall, columns)
        if chosen == before:
            break
    return [chosen[at] for at in range(len(ways))]


def _cheapest(ways: list[_Way], at: int, rest: dict[int, _Way], tall: list[float], columns: _Columns) -> _Way:
    """The first of those that cost least; what costs more by itself is not looked at beside the others."""
    best = math.inf, 0
    for number in sorted(range(len(ways)), key=lambda number: ways[number].least):
        way = ways[number]
        if way.least > best[0]:
            break
        if way.cost <= best[0]:
            best = min(best, (way.cost + _beside(way, at, rest, tall, columns), number))
    return ways[best[1]]


def _beside(way: _Way, at: int, rest: dict[int, _Way], tall: list[float], columns: _Columns) -> float:
    """What a way costs more because of the ways of the others."""
    frame, size, _, second = columns
    cost, stacked = 0.0, tall[at]
    for other, taken in rest.items():
        if taken.side == way.side:
            stacked += tall[other] + APART * size
            need = (tall[at] + tall[other]) / 2 + APART * size
            level = abs(way.out[1] - taken.out[1])
            cost += _PUSHED * max(0.0, need - level) / need
            if level < 0.02 * size:
                cost += _SAME_WAY
        if _clear(way.frame, taken.frame, _NEAR / 2 * size):
            continue
        if _cross(way.end, way.out, taken.end, taken.out):
            cost += _CROSSING
        elif min(_off(way.end, taken.end, taken.out), _off(taken.end, way.end, way.out)) < _NEAR / 2 * size:
            cost += _CROSSING / 4
    room = frame.foot - frame.top
    cost += _TOO_MANY * max(0.0, stacked - room) / (tall[at] + APART * size)
    if second and way.side and not any(taken.side for taken in rest.values()):
        cost += second
    return cost


def _clear(one: Frame, two: Frame, near: float) -> bool:
    """Whether two frames are so far apart that there is nothing to measure."""
    across = one.right + near < two.left or two.right + near < one.left
    return across or one.foot + near < two.top or two.foot + near < one.top


def _apart(wanted: list[float], tall: list[float], apart: float, frame: Frame) -> list[float]:
    """Middles of tags in a column: as near to where they are wanted as they can be without touching.

    `wanted` is sorted. Tags that would touch share the mean of what they want (pool adjacent violators); the column
    stays beside the frame where it is no taller.
    """
    if not wanted:
        return []
    steps = ((one + two) / 2 + apart for one, two in itertools.pairwise(tall))
    offsets = list(itertools.accumulate(steps, initial=0.0))
    pools: list[tuple[float, int]] = []
    for want, offset in zip(wanted, offsets, strict=True):
        mean, number = want - offset, 1
        while pools and pools[-1][0] > mean:
            last, many = pools.pop()
            mean, number = (mean * number + last * many) / (number + many), number + many
        pools.append((mean, number))
    starts = [mean for mean, number in pools for _ in range(number)]
    lowest, highest = frame.top + tall[0] / 2, frame.foot - tall[-1] / 2 - offsets[-1]
    if lowest > highest:
        lowest = highest = (lowest + highest) / 2
    return [min(max(start, lowest), highest) + offset for start, offset in zip(starts, offsets, strict=True)]


def drawn_tag(tag: Tag, size: float) -> Markup:
    """A tag with its leader as SVG; a dot shows where the leader ends, because it may cross other edges on its way."""
    left, top, right, foot = tag.box
    way = "L".join(f"{n(x)} {n(y)}" for x, y in tag.leader)
    x, y = tag.leader[0]
    return Markup("").join(
        (
            path("leader", f"M{way}"),
            element("circle", class_="end", cx=x, cy=y, r=size / 9),
            element("rect", class_="tag", x=left, y=top, width=right - left, height=foot - top, rx=(foot - top) / 2),
            words((left + right) / 2, (top + foot) / 2 + 0.37 * size, tag.words, font_size=size, text_anchor="middle"),
        )
    )
