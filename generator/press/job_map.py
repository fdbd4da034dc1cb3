"""The map of a piece as SVG: black on white, nothing told by colour, with a text alternative."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from markupsafe import Markup, escape

from generator.planning.drawn import shape_of
from generator.planning.plan import JobPlan
from generator.press.map_labels import Label, Patch, beside, inside, n, placed, text
from generator.press.map_told import frame_of, in_words, laid_over, part_letters, ring_of, scar_ends, seen_limits
from generator.press.text_width import POINT
from generator.quantities import Quantity
from generator.records.jobs import Job
from generator.trade import shapes

# The height of the letters on the sheet, in mm: a little over ten points.
_LETTERS = 10.2 * POINT
# Radius of the dots of old work by its darkness, as a share of the distance between two of them.
_DOTS = {"light": 0.12, "medium": 0.22, "dark": 0.34}


class Room(NamedTuple):
    """What a map is drawn for. Lengths are mm on paper; `name` keeps the ids of two maps on one page apart."""

    name: str
    width: float
    height: float


ON_SHEET = Room("small", 40.0, 36.0)
ON_SHEET_FLAT = Room("small", 120.0, 36.0)
ON_PAGE = Room("large", 150.0, 130.0)


# From so many times as wide as tall a piece is a ribbon beside the words, and its letters hide it.
_FLAT = 3


def is_flat(width: float, height: float) -> bool:
    """Whether a piece of this size, in mm of skin, needs more width than a column beside the words."""
    return width >= _FLAT * height


def room_on_sheet(job: Job) -> Room:
    """What the map of a job is drawn for on its sheet."""
    return ON_SHEET_FLAT if is_flat(job.size[0].low, job.size[1].low) else ON_SHEET


class _Pen(NamedTuple):
    """The piece with the height of a letter, both in mm of skin; `ids` ends every id of the map."""

    width: float
    height: float
    text: float
    ids: str


def job_map(plan: JobPlan, mole_clearance: Quantity, start: str | None, room: Room = ON_SHEET) -> Markup:
    """The flattened area of a piece with everything that has a place in it.

    mole_clearance: the ring drawn round a mole whose own distance is not given. start: the part that is lined
    first. Lengths are mm of skin; the letters come out at ten points in the room that the map is drawn for.
    """
    job = plan.job
    width, height = job.size[0].low, job.size[1].low
    # The letters stand around the piece too, so the scale is solved with their own size in it.
    size = max(_LETTERS * width / (room.width - 2.2 * _LETTERS), _LETTERS * height / (room.height - 1.7 * _LETTERS))
    pen = _Pen(width, height, size, f"{room.name}-{job.id}")
    labels = _labels(plan, pen, start)
    drawn = [
        _patterns(job, pen),
        f'<rect class="area" x="0" y="0" width="{n(width)}" height="{n(height)}"/>',
        f'<path class="centre" d="M{n(width / 2)} 0V{n(height)}"/>',
        *_seen(plan, pen),
        *_old_work(job, pen),
        *_parts(job, pen),
        *_scars(plan, pen),
        *_moles(job, pen, mole_clearance),
        *placed(labels, _taken(plan, pen), width, height, size),
        _up_arrow(width + size / 2, size),
        _scale_bar(height + size / 3, size),
    ]
    view = f"{n(-size / 4)} {n(-size / 4)} {n(width + 2.2 * size)} {n(height + 1.7 * size)}"
    words = escape(in_words(plan, mole_clearance, start))
    return Markup(f'<svg class="map" viewBox="{view}" role="img" aria-label="{words}">{"".join(drawn)}</svg>')


def frame(shape: shapes.Shape) -> tuple[float, float, float, float]:
    """The box round a shape: left, top, width, height."""
    if isinstance(shape, shapes.Outline):
        across, down = zip(*shape.points, strict=True)
        return min(across), min(down), max(across) - min(across), max(down) - min(down)
    return shape.x, shape.y, shape.width, shape.height


def outlined(shape: shapes.Shape, attributes: str = "") -> str:
    """A shape as an SVG element."""
    x, y, width, height = frame(shape)
    if isinstance(shape, shapes.Outline):
        points = " ".join(f"{n(across)},{n(down)}" for across, down in shape.points)
        return f'<polygon points="{points}"{attributes}/>'
    if isinstance(shape, shapes.Ellipse):
        half = f'rx="{n(width / 2)}" ry="{n(height / 2)}"'
        return f'<ellipse cx="{n(x + width / 2)}" cy="{n(y + height / 2)}" {half}{attributes}/>'
    return f'<rect x="{n(x)}" y="{n(y)}" width="{n(width)}" height="{n(height)}"{attributes}/>'


def _patterns(job: Job, pen: _Pen) -> str:
    """Strokes for what lies on something, dots for old work, the piece to clip what reaches beyond it."""
    step, apart = n(pen.text / 3.5), pen.text / 4
    hatch = "".join(
        f'<pattern id="{name}-{pen.ids}" width="{step}" height="{step}" patternUnits="userSpaceOnUse" '
        f'patternTransform="rotate(45)"><path class="hatch" d="M0 0V{step}" stroke-width="{n(pen.text / thin)}"/>'
        "</pattern>"
        for name, thin in (("hatch", 6), ("thin", 12))
    )
    dots = "".join(
        f'<pattern id="dots-{dark}-{pen.ids}" width="{n(apart)}" height="{n(apart)}" patternUnits="userSpaceOnUse">'
        f'<circle cx="{n(apart / 2)}" cy="{n(apart / 2)}" r="{n(apart * _DOTS[dark])}"/></pattern>'
        for dark in dict.fromkeys(old.darkness for old in job.old_work or () if old.darkness)
    )
    piece = f'<clipPath id="piece-{pen.ids}"><rect width="{n(pen.width)}" height="{n(pen.height)}"/></clipPath>'
    clips = "".join(
        f'<clipPath id="on-{part.id}-{pen.ids}">{outlined(shape_of(part))}</clipPath>' for part in job.parts
    )
    return f"<defs>{hatch}{dots}{piece}{clips}</defs>"


def _seen(plan: JobPlan, pen: _Pen) -> Iterator[str]:
    for across in seen_limits(plan) or ():
        yield f'<path class="seen" d="M{n(across)} 0V{n(pen.height)}"/>'


def _old_work(job: Job, pen: _Pen) -> Iterator[str]:
    """Old work with dots, the denser the darker it is; without any where nobody knows. It may reach over the edge."""
    for old in job.old_work or ():
        shape = shape_of(old)
        fill = f"url(#dots-{old.darkness}-{pen.ids})" if old.darkness else "none"
        dotted = outlined(shape, f' class="old" fill="{fill}"')
        hatched = outlined(shape, f' fill="url(#thin-{pen.ids})"')
        over = "".join(_over(hatched, part, pen) for part in laid_over(job, shape))
        yield f'<g clip-path="url(#piece-{pen.ids})">{dotted}{over}</g>'


def _over(drawn: str, part: str, pen: _Pen) -> str:
    """What is drawn, as far as a part lies on it."""
    return f'<g class="over" clip-path="url(#on-{part}-{pen.ids})">{drawn}</g>'


def _parts(job: Job, pen: _Pen) -> Iterator[str]:
    for part in job.parts:
        shape = shape_of(part)
        yield outlined(shape, f' class="part{" focal" if part.focal else ""}"')
        if part.focal:
            x, y, width, height = frame(shape)
            across, down, half = x + width / 2, y + height / 2, pen.text / 3
            yield f'<circle class="focus" cx="{n(across)}" cy="{n(down)}" r="{n(half)}"/>'
            cross = f"M{n(across - half)} {n(down)}h{n(2 * half)}M{n(across)} {n(down - half)}v{n(2 * half)}"
            yield f'<path class="focus" d="{cross}"/>'


def _scars(plan: JobPlan, pen: _Pen) -> Iterator[str]:
    """Scars in outline; what a part lays over them is hatched."""
    for scar in plan.scars:
        x1, y1, x2, y2 = scar_ends(scar.scar)
        wide = max(scar.scar.width.high, pen.text / 5)
        # Where both ends are one spot there is no line to draw without a length.
        line = f'd="M{n(x1)} {n(y1)}L{n(x2 + (0.01 if (x1, y1) == (x2, y2) else 0))} {n(y2)}"'
        yield f'<path class="scar" {line} stroke-width="{n(wide + pen.text / 8)}"/>'
        yield f'<path class="ridge" {line} stroke-width="{n(wide - pen.text / 8)}"/>'
        stroke = f'<path {line} fill="none" stroke="url(#hatch-{pen.ids})" stroke-width="{n(wide + pen.text / 3)}"/>'
        yield from (_over(stroke, crossed, pen) for crossed in scar.crossed_by)


def _moles(job: Job, pen: _Pen, mole_clearance: Quantity) -> Iterator[str]:
    for mole in job.moles or ():
        ring = ring_of(mole, mole_clearance)
        around = f'cx="{n(ring.x)}" cy="{n(ring.y)}" r="{n(ring.keep)}"'
        inside_ring = f'<circle {around} fill="url(#thin-{pen.ids})"/>'
        yield from (_over(inside_ring, part, pen) for part in laid_over(job, ring))
        yield f'<circle class="keep" {around}/>'
        yield f'<circle class="mole" cx="{n(ring.x)}" cy="{n(ring.y)}" r="{n(pen.text / 4)}"/>'


def _labels(plan: JobPlan, pen: _Pen, start: str | None) -> list[Label]:
    """Large areas first: what is small has more places."""
    job, size, letters = plan.job, pen.text, part_letters(plan.job)
    labels = []
    for part in job.parts:
        words = f"▶{letters[part.id]}" if part.id == start else letters[part.id]
        labels.append(inside(Patch(*frame_of(part)), words, size, corners=part.box is not None))
    for old in job.old_work or ():
        labels.append(inside(Patch(*frame_of(old)), str(old.id), size, corners=old.box is not None))
    labels += [beside(_round_scar(plan, at), str(scar.scar.id), size) for at, scar in enumerate(plan.scars)]
    labels += [beside(_round_mole(job, at, size), f"m{at + 1}", size) for at in range(len(job.moles or ()))]
    return labels


def _taken(plan: JobPlan, pen: _Pen) -> list[Patch]:
    """Scars, moles and the focal point, over which no letter should stand."""
    job, half = plan.job, pen.text / 3
    focal = [frame_of(part) for part in job.parts if part.focal]
    return [
        *(_round_scar(plan, at) for at in range(len(plan.scars))),
        *(_round_mole(job, at, pen.text) for at in range(len(job.moles or ()))),
        *(Patch(x + wide / 2 - half, y + tall / 2 - half, 2 * half, 2 * half) for x, y, wide, tall in focal),
    ]


def _round_scar(plan: JobPlan, at: int) -> Patch:
    scar = plan.scars[at].scar
    x1, y1, x2, y2 = scar_ends(scar)
    wide = scar.width.high
    return Patch(min(x1, x2) - wide / 2, min(y1, y2) - wide / 2, abs(x2 - x1) + wide, abs(y2 - y1) + wide)


def _round_mole(job: Job, at: int, size: float) -> Patch:
    x, y = (side.low for side in (job.moles or ())[at].at)
    return Patch(x - size / 4, y - size / 4, size / 2, size / 2)


def _up_arrow(x: float, size: float) -> str:
    head = f"M{n(x)} {n(2 * size)}V0m{n(-size / 3)} {n(size / 2)}l{n(size / 3)} {n(-size / 2)}"
    return f'<path class="up" d="{head}l{n(size / 3)} {n(size / 2)}"/>' + text(x - size / 4, size * 3, "up", size)


def _scale_bar(y: float, size: float) -> str:
    """A round length that is long enough to be compared with."""
    long = next((length for length in (20, 50, 100, 200) if length >= 1.4 * size), 500)
    return (
        f'<path class="bar" d="M0 {n(y)}v{n(size / 2)}m0 {n(-size / 4)}h{long}m0 {n(-size / 4)}v{n(size / 2)}"/>'
        + text(long + size / 4, y + size * 0.8, f"{long} mm", size)
    )
