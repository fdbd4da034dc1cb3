"""The map of a piece as SVG: black on white, nothing said by colour alone, with a text alternative.

An existing tattoo has dots by its darkness, so that black and white show how dark it is; what lies on a scar, on an
existing tattoo or in a mole's ring is hatched.
"""

from __future__ import annotations

import functools
import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import NamedTuple

from markupsafe import Markup

from generator.planning.plan import JobPlan
from generator.planning.working.scars import strip_of
from generator.planning.working.shapes import middle_of, shape_of
from generator.press.drawings.map_labels import (
    APART,
    LONG_TRACK,
    TALL,
    TRACK,
    Edge,
    Frame,
    Tag,
    Tagged,
    drawn_tag,
    frame_round,
    led_out,
    tag_width,
)
from generator.press.drawings.map_words import (
    in_words,
    laid_over,
    old_names,
    part_letters,
    rings_of,
    scar_ends,
    seen_limits,
)
from generator.press.drawings.svg import element, n, path, round_step, words
from generator.press.words.text_width import POINT, width_of
from generator.quantities import Quantity, from_canonical, shown, to_canonical
from generator.records.jobs import Job
from generator.trade import shapes
from generator.units import SYSTEMS, Shows, bands

# The height of the letters on the smallest map, in mm: a little over ten points.
_LETTERS = 10.2 * POINT
# Radius of the dots of an existing tattoo by its darkness, as a share of the distance between two of them.
_DOTS = {"light": 0.12, "medium": 0.22, "dark": 0.34}
# The strokes on scars and on what else is hatched: how many times thinner than a letter is tall.
_STROKES = {"hatch": 6, "thin": 12}
# Radius of a mole's spot, at most, as a share of its ring's: a small ring is not hidden by its own mole.
_SPOT = 0.4
# Air round the map, and the height of the strip below it with the bar and the arrow, of the height of a letter.
_AIR, _STRIP = 0.15, 1.5
# Into how many straight bits a quarter of a round edge is divided to find the way of a leader.
_QUARTER_BITS = 8
# What it costs when a leader crosses something that it does not name.
_OVER_A_MARK, _OVER_A_PART, _OVER_EXISTING_TATTOO, _OVER_FOCUS = 12.0, 3.0, 2.0, 6.0


class Room(NamedTuple):
    """What a map is drawn for, in mm on paper; `name` keeps the ids of two maps on one page apart.

    width, height: what the piece may take; its tags stand outside and make the map taller. widest: what piece and
    tags may take together. shows: what the studio shows lengths in.
    """

    name: str
    width: float
    height: float
    widest: float
    shows: Shows = SYSTEMS["metric"]


# On a sheet a map is so tall at least, where it has the width; then it takes what the order leaves free.
LEAST_ON_SHEET = 60.0
# Of the height of a map, about what its tags and its strip take.
_BEYOND_THE_PIECE = 8.0
ON_SHEET = Room("small", 140.0, LEAST_ON_SHEET - _BEYOND_THE_PIECE, 140.0)
ON_SHEET_FLAT = Room("small", 188.0, LEAST_ON_SHEET - _BEYOND_THE_PIECE, 188.0)
ON_PAGE = Room("large", 142.1, 123.9, 188.0)
ON_PHONE = Room("phone", 72.0, 90.0, 72.0)


# From so many times as wide as tall a piece is a ribbon: its map is over the words, its tags above and below it.
_FLAT = 3


def is_flat(width: float, height: float) -> bool:
    """Whether a piece of this size, in mm of skin, needs more width than a column beside the words."""
    return width >= _FLAT * height


class _Pen(NamedTuple):
    """The piece with the height of a letter, both in mm of skin; `ids` ends every id of the map."""

    width: float
    height: float
    text: float
    ids: str


@dataclass
class DrawnMap:
    """A map of which everything has its place; it is drawn when its SVG is asked for, because most are only measured.

    start: the part that is lined first. view: all of it, in mm of skin.
    """

    plan: JobPlan
    mole_clearance: Quantity
    start: str | None
    shows: Shows
    pen: _Pen
    tags: tuple[Tag, ...]
    bar: _Bar
    view: Frame

    @property
    def width(self) -> float:
        """In mm on paper, when its letters have ten points."""
        return (self.view.right - self.view.left) * _LETTERS / self.pen.text

    @property
    def height(self) -> float:
        """In mm on paper, when its letters have ten points."""
        return (self.view.foot - self.view.top) * _LETTERS / self.pen.text

    @functools.cached_property
    def svg(self) -> Markup:
        """The map as SVG."""
        job, pen, view = self.plan.job, self.pen, self.view
        return element(
            "svg",
            _patterns(job, pen),
            element("rect", class_="area", x=0, y=0, width=pen.width, height=pen.height),
            path("centre", f"M{n(pen.width / 2)} 0V{n(pen.height)}"),
            *(path("seen", f"M{n(across)} 0V{n(pen.height)}") for across in seen_limits(self.plan) or ()),
            *_existing_tattoo(job, pen),
            *_parts(job, pen),
            *_scars(self.plan, pen),
            *_moles(job, pen, self.mole_clearance),
            *(drawn_tag(tag, pen.text) for tag in self.tags),
            *_strip(view, pen.text, self.bar),
            class_="map",
            viewBox=" ".join(map(n, (view.left, view.top, view.right - view.left, view.foot - view.top))),
            role="img",
            style=f"--wide: {self.width:.1f}mm",
            aria_label=in_words(self.plan, self.mole_clearance, self.start, self.shows),
        )


def drawn_map(plan: JobPlan, mole_clearance: Quantity, start: str | None, room: Room = ON_SHEET) -> DrawnMap:
    """The flattened area of a piece with everything that has a place in it, and the names of it all round.

    mole_clearance: the ring drawn round a mole whose own distance is not given. start: the part that is lined
    first. Lengths are mm of skin; the letters come out at ten points in the room that the map is drawn for.
    """
    job = plan.job
    width, height = job.size[0].low, job.size[1].low
    thin = list(_marks(plan, mole_clearance, start, 0.0))
    # Rings and the ends of scars reach over the edge of the piece. Existing tattoos are cut at it.
    around = frame_round(((0.0, 0.0), (width, height), *(spot for mark in thin for spot in mark.edge)))
    named = [mark.words for mark in thin]
    # Whether the tags have room above and below the piece.
    row = sum(tag_width(name, _LETTERS) + APART * _LETTERS for name in named) / 2
    flat = is_flat(width, height) and row <= 0.9 * room.widest
    scale, track = _scale_and_track(job, around, named, room, row if flat else None)
    size = _LETTERS / scale
    pen = _Pen(width, height, size, f"{room.name}-{job.id}")
    marks = list(_marks(plan, mole_clearance, start, size))
    tags = led_out(marks, list(_focal_points(job, pen)), around, size, track * size, flat)
    bar = _bar(size, room.shows)
    view = _view(around, tags, size, bar)
    return DrawnMap(plan, mole_clearance, start, room.shows, pen, tags, bar, view)


def _scale_and_track(job: Job, around: Frame, words: list[str], room: Room, row: float | None) -> tuple[float, float]:
    """How many mm on paper a mm of skin takes, and the room between piece and tags in heights of a letter.

    row: how long each of two rows of tags is, in mm on paper; None where they stand in columns.
    The piece takes what the room gives it, and what its tags take in height where they need more; never so much that
    piece and tags are wider than the room.
    """
    width, height = job.size[0].low, job.size[1].low
    beyond = around.right - around.left
    scale = min(room.width / width, room.height / height)
    if row is not None:
        scale = min(scale, (room.widest - 2 * _AIR * _LETTERS) / beyond)
        return scale, LONG_TRACK if row > scale * width else TRACK
    column = math.ceil(len(words) / 2) * (TALL + APART) * _LETTERS
    track = LONG_TRACK if column > scale * height else TRACK
    aside = max(tag_width(name, _LETTERS) for name in words) + (track + _AIR) * _LETTERS
    return min(max(scale, column / height), (room.widest - 2 * aside) / beyond), track


def _view(around: Frame, tags: tuple[Tag, ...], size: float, bar: _Bar) -> Frame:
    """Everything that is drawn with air round it, and the strip below; wide enough for what is in the strip."""
    boxes = [around, *(tag.box for tag in tags)]
    left, right = min(box.left for box in boxes), max(box.right for box in boxes)
    top, foot = min(box.top for box in boxes), max(box.foot for box in boxes)
    air = _AIR * size
    strip = bar.long + (width_of(bar.words, 1, True) + width_of("up", 1, True)) / POINT * size + 2.2 * size
    more = max(0.0, strip - (right - left)) / 2
    return Frame(left - air - more, top - air, right + air + more, foot + air + _STRIP * size)


class _Bar(NamedTuple):
    """The bar that gives the scale: its length in mm, and what is written beside it."""

    long: float
    words: str


def _bar(size: float, shows: Shows) -> _Bar:
    """A round length in the unit that the studio shows."""
    unit = bands("length", shows)[-1][1]
    if unit != "in":
        long = round_step(1.4 * size)
        return _Bar(long, f"{long:g} mm")
    least = from_canonical(1.4 * size, unit)
    parts = next((parts for parts in (8, 4, 2) if 1 / parts >= least), None)
    long = to_canonical(1 / parts if parts else round_step(least), unit)
    return _Bar(long, shown(long, long, "length", shows, f"{from_canonical(long, unit):g} in").replace("\u00a0", " "))


def _strip(view: Frame, size: float, bar: _Bar) -> Iterator[Markup]:
    """The bar at the left and the arrow at the right, below everything else."""
    long, air = bar.long, _AIR * size
    top, left = view.foot - (_STRIP - 0.4) * size, view.left + air
    quarter, half = n(-size / 4), n(size / 2)
    yield path("bar", f"M{n(left)} {n(top)}v{half}m0 {quarter}h{n(long)}m0 {quarter}v{half}")
    yield words(left + long + size / 4, top + size * 0.65, bar.words, font_size=size)
    x = view.right - air - width_of("up", 1, True) / POINT * size
    arrow, foot = x - size * 0.55, top + size * 0.75
    head = f"M{n(arrow)} {n(foot)}V{n(foot - size)}m{n(-size / 3)} {n(size / 3)}l{n(size / 3)} {n(-size / 3)}"
    yield path("up", f"{head}l{n(size / 3)} {n(size / 3)}")
    yield words(x, top + size * 0.65, "up", font_size=size)


def outlined(shape: shapes.Shape, **attributes: str) -> Markup:
    """A shape as an SVG element."""
    match shape:
        case shapes.Outline(points):
            return element("polygon", points=" ".join(f"{n(x)},{n(y)}" for x, y in points), **attributes)
        case shapes.Ellipse(x, y, width, height):
            half = width / 2, height / 2
            return element("ellipse", cx=x + half[0], cy=y + half[1], rx=half[0], ry=half[1], **attributes)
        case shapes.Box(x, y, width, height):
            return element("rect", x=x, y=y, width=width, height=height, **attributes)


def _patterns(job: Job, pen: _Pen) -> Markup:
    """Strokes for what lies on something, dots for existing tattoos, the piece to clip what reaches beyond it."""

    def tile(name: str, step: float, drawn: Markup, **turned: str) -> Markup:
        named = f"{name}-{pen.ids}"
        return element("pattern", drawn, id=named, width=step, height=step, patternUnits="userSpaceOnUse", **turned)

    step, apart = pen.text / 3.5, pen.text / 4
    hatch, dots = [], []
    for name, thin in _STROKES.items():
        stroke = path("hatch", f"M0 0V{n(step)}", stroke_width=pen.text / thin)
        hatch.append(tile(name, step, stroke, patternTransform="rotate(45)"))
    for darkness in dict.fromkeys(old.darkness for old in job.existing_tattoos or () if old.darkness):
        dot = element("circle", cx=apart / 2, cy=apart / 2, r=apart * _DOTS[darkness])
        dots.append(tile(f"dots-{darkness}", apart, dot))
    piece = element("clipPath", element("rect", width=pen.width, height=pen.height), id=f"piece-{pen.ids}")
    clips = (element("clipPath", outlined(shape_of(part)), id=f"on-{part.id}-{pen.ids}") for part in job.parts)
    return element("defs", *hatch, *dots, piece, *clips)


def _existing_tattoo(job: Job, pen: _Pen) -> Iterator[Markup]:
    """An existing tattoo with dots, the denser the darker it is; without any where nobody knows.

    It may reach over the edge.
    """
    for old in job.existing_tattoos or ():
        shape = shape_of(old)
        fill = f"url(#dots-{old.darkness}-{pen.ids})" if old.darkness else "none"
        dotted = outlined(shape, class_="old", fill=fill)
        hatched = outlined(shape, fill=f"url(#thin-{pen.ids})")
        over = (_over(hatched, part, pen) for part in laid_over(job, shape))
        yield element("g", dotted, *over, clip_path=f"url(#piece-{pen.ids})")


def _over(drawn: Markup, part: str, pen: _Pen) -> Markup:
    """What is drawn, as far as a part lies on it."""
    return element("g", drawn, class_="over", clip_path=f"url(#on-{part}-{pen.ids})")


def _parts(job: Job, pen: _Pen) -> Iterator[Markup]:
    for part in job.parts:
        yield outlined(shape_of(part), class_="part focal" if part.focal else "part")
        if part.focal:
            (across, down), half = middle_of(part), pen.text / 3
            yield element("circle", class_="focus", cx=across, cy=down, r=half)
            cross = f"M{n(across - half)} {n(down)}h{n(2 * half)}M{n(across)} {n(down - half)}v{n(2 * half)}"
            yield path("focus", cross)


def _scars(plan: JobPlan, pen: _Pen) -> Iterator[Markup]:
    """Scars in outline; what a part lays over them is hatched."""
    for scar in plan.scars:
        x1, y1, x2, y2 = scar_ends(scar.scar)
        wide = _drawn_width(scar.scar.width, pen.text)
        # Where both ends are one spot there is no line to draw without a length.
        line = f"M{n(x1)} {n(y1)}L{n(x2 + (0.01 if (x1, y1) == (x2, y2) else 0))} {n(y2)}"
        yield path("scar", line, stroke_width=wide)
        yield path("ridge", line, stroke_width=wide - pen.text / 4)
        hatched, broad = f"url(#hatch-{pen.ids})", wide + pen.text / 5
        stroke = element("path", d=line, fill="none", stroke=hatched, stroke_width=broad)
        yield from (_over(stroke, crossed, pen) for crossed in scar.crossed_by)


def _drawn_width(width: Quantity, text: float) -> float:
    """How wide a scar is drawn, with its edge. text: the height of a letter."""
    return max(width.high, text / 5) + text / 8


def _moles(job: Job, pen: _Pen, mole_clearance: Quantity) -> Iterator[Markup]:
    for ring in rings_of(job, mole_clearance):
        around = {"cx": ring.x, "cy": ring.y, "r": ring.keep}
        inside_ring = element("circle", **around, fill=f"url(#thin-{pen.ids})")
        yield from (_over(inside_ring, part, pen) for part in laid_over(job, ring))
        yield element("circle", class_="keep", **around)
        spot = min(pen.text / 4, ring.keep * _SPOT)
        yield element("circle", class_="mole", cx=ring.x, cy=ring.y, r=spot)


def _marks(plan: JobPlan, mole_clearance: Quantity, start: str | None, text: float) -> Iterator[Tagged]:
    """Everything that has a name, each kind in the order of the job. text: the height of a letter."""
    job, letters = plan.job, part_letters(plan.job)
    for part in job.parts:
        name = f"▶{letters[part.id]}" if part.id == start else letters[part.id]
        yield Tagged(name, _edge(shape_of(part)), _OVER_A_PART)
    for old, name in zip(job.existing_tattoos or (), old_names(job).values(), strict=True):
        yield Tagged(name, _on_the_piece(_edge(shape_of(old)), job), _OVER_EXISTING_TATTOO)
    for scar in (read.scar for read in plan.scars):
        drawn = replace(strip_of(scar), width=_drawn_width(scar.width, text))
        yield Tagged(str(scar.id), _edge(drawn), _OVER_A_MARK)
    for number, ring in enumerate(rings_of(job, mole_clearance), 1):
        yield Tagged(f"m{number}", _edge(ring), _OVER_A_MARK)


def _focal_points(job: Job, pen: _Pen) -> Iterator[Tagged]:
    half = pen.text / 3
    for part in job.parts:
        if part.focal:
            across, down = middle_of(part)
            box = shapes.Box(across - half, down - half, 2 * half, 2 * half)
            yield Tagged("", _edge(box), _OVER_FOCUS)


def _edge(thing: shapes.Shape | shapes.Spot | shapes.Strip) -> Edge:
    """The edge of a thing as points; a round one is divided into straight bits."""
    import shapely

    match thing:
        case shapes.Outline(points):
            return points
        case shapes.Ellipse(x, y, width, height):
            circle = shapely.Point(0, 0).buffer(1, quad_segs=_QUARTER_BITS).exterior.coords[1:]
            return tuple((x + (1 + across) * width / 2, y + (1 + down) * height / 2) for across, down in circle)
        case shapes.Box(x, y, width, height):
            return (x, y), (x + width, y), (x + width, y + height), (x, y + height)
        case shapes.Spot(x, y, keep):
            return tuple(shapely.Point(x, y).buffer(keep, quad_segs=_QUARTER_BITS).exterior.coords[1:])
        case shapes.Strip(points, width):
            return tuple(shapely.LineString(points).buffer(width / 2, quad_segs=_QUARTER_BITS).exterior.coords[1:])


def _on_the_piece(edge: Edge, job: Job) -> Edge:
    """What of an edge lies on the piece, the largest of several; of what lies wholly beyond it the spot next to it."""
    import shapely

    piece = shapely.box(0, 0, job.size[0].low, job.size[1].low)
    thing = shapely.Polygon(edge)
    on_it = max(shapely.get_parts(piece.intersection(thing)), key=lambda each: each.area, default=None)
    if on_it is None or not on_it.area:
        return tuple(shapely.shortest_line(piece, thing).coords[:1])
    return tuple(on_it.exterior.coords[1:])
