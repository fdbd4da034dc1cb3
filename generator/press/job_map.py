"""The map of a piece as SVG: black on white, nothing told by colour, with a text alternative."""

from __future__ import annotations

from collections.abc import Iterator
from string import ascii_lowercase, ascii_uppercase
from typing import NamedTuple

from markupsafe import Markup, escape

from generator.planning.drawn import shape_of
from generator.planning.plan import JobPlan
from generator.press.text_width import POINT, width_of
from generator.quantities import Quantity
from generator.records.jobs import Job, Scar
from generator.trade import shapes

# The height of the letters on the sheet, in mm: a little over ten points.
_LETTERS = 10.2 * POINT


class Room(NamedTuple):
    """What a map is drawn for. Lengths are mm on paper; `name` keeps the ids of two maps on one page apart."""

    name: str
    width: float
    height: float


ON_SHEET = Room("small", 40.0, 36.0)
ON_PAGE = Room("large", 150.0, 130.0)


class _Pen(NamedTuple):
    """The piece with the height of a letter, both in mm of skin."""

    width: float
    height: float
    text: float
    hatch: str


def part_letters(job: Job) -> dict[str, str]:
    """A letter for each part, in the order of the job: names do not fit on a small map."""
    return {str(part.id): letter for part, letter in zip(job.parts, ascii_uppercase + ascii_lowercase, strict=False)}


def job_map(plan: JobPlan, mole_clearance: Quantity, start: str | None, room: Room = ON_SHEET) -> Markup:
    """The flattened area of a piece with everything that has a place in it.

    mole_clearance: the ring drawn round a mole whose own distance is not given. start: the part that is lined
    first. Lengths are mm of skin; the letters come out at ten points in the room that the map is drawn for.
    """
    job = plan.job
    width, height = job.size[0].low, job.size[1].low
    # The letters stand around the piece too, so the scale is solved with their own size in it.
    text = max(
        _LETTERS * width / (room.width - 2.2 * _LETTERS), _LETTERS * height / (room.height - 1.7 * _LETTERS)
    )  # fmt: skip
    pen = _Pen(width, height, text, f"hatch-{room.name}-{job.id}")
    drawn = [
        _hatch(pen),
        f'<rect class="area" x="0" y="0" width="{n(width)}" height="{n(height)}"/>',
        f'<path class="centre" d="M{n(width / 2)} 0V{n(height)}"/>',
        *_seen(plan, pen), *_parts(plan, pen), *_scars(plan, pen, room), *_moles(plan, pen, mole_clearance),
        *_names(plan, pen, start), _up_arrow(width + text / 2, text), _scale_bar(height + text / 3, text),
    ]  # fmt: skip
    view = f"{n(-text / 4)} {n(-text / 4)} {n(width + 2.2 * text)} {n(height + 1.7 * text)}"
    words = escape(in_words(plan, start))
    return Markup(f'<svg class="map" viewBox="{view}" role="img" aria-label="{words}">{"".join(drawn)}</svg>')


def geometry_of(plan: JobPlan, mole_clearance: Quantity) -> tuple[tuple[object, ...], ...]:
    """Every number of the job that its map draws, whatever it is drawn like."""
    job = plan.job
    drawn: list[tuple[object, ...]] = [("piece", job.size[0].low, job.size[1].low)]
    drawn += [("part", str(part.id), part.focal, repr(shape_of(part))) for part in job.parts]
    for scar in job.scars or ():
        drawn.append(("scar", str(scar.id), *_ends(scar), scar.width.high))
    drawn += [("mole", *(side.low for side in mole.at), (mole.keep or mole_clearance).low) for mole in job.moles or ()]
    limits = _limits(plan)
    return (*drawn, ("seen", *limits)) if limits else tuple(drawn)


def in_words(plan: JobPlan, start: str | None) -> str:
    """The text alternative: everything that the map shows."""
    job = plan.job
    letters = part_letters(job)
    said = [f"Map of the piece, {job.size[0].low:g} by {job.size[1].low:g} mm, upper edge up, centre line dashed."]
    for part in job.parts:
        x, y, width, height = frame(shape_of(part))
        focal = ", focal point" if part.focal else ""
        where = f"{x:g} mm from the left, {y:g} mm down"
        said.append(f"{letters[part.id]}, {part.id}{focal}: {where}, {width:g} by {height:g} mm.")
    for scar in plan.scars:
        crossed = f"crossed by {', '.join(scar.crossed_by)}, hatched there" if scar.crossed_by else "crossed by nothing"
        said.append(f"Scar {scar.scar.id}: {crossed}.")
    said += [f"Mole {number}: kept clear, ring drawn." for number, _ in enumerate(job.moles or (), 1)]
    if limits := _limits(plan):
        said.append(f"Seen at once from the front: from {limits[0]:.0f} to {limits[1]:.0f} mm, dotted limits.")
    if start:
        said.append(f"Lining starts at {start}.")
    return " ".join(said)


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


def _limits(plan: JobPlan) -> tuple[float, float] | None:
    """Where the view from the front ends, left and right; None when no girth is taped or all of it is seen."""
    seen = plan.placement.seen
    if seen is None or seen.low >= 1:
        return None
    width = plan.job.size[0].low
    return width * (1 - seen.low) / 2, width * (1 + seen.low) / 2


def _hatch(pen: _Pen) -> str:
    step = n(pen.text / 3.5)
    return (
        f'<defs><pattern id="{pen.hatch}" width="{step}" height="{step}" patternUnits="userSpaceOnUse" '
        f'patternTransform="rotate(45)"><path class="hatch" d="M0 0V{step}" stroke-width="{n(pen.text / 6)}"/>'
        "</pattern></defs>"
    )


def _seen(plan: JobPlan, pen: _Pen) -> Iterator[str]:
    for across in _limits(plan) or ():
        yield f'<path class="seen" d="M{n(across)} 0V{n(pen.height)}"/>'


def _parts(plan: JobPlan, pen: _Pen) -> Iterator[str]:
    for part in plan.job.parts:
        shape = shape_of(part)
        yield outlined(shape, f' class="part{" focal" if part.focal else ""}"')
        if part.focal:
            x, y, width, height = frame(shape)
            across, down, half = x + width / 2, y + height / 2, pen.text / 3
            yield f'<circle class="focus" cx="{n(across)}" cy="{n(down)}" r="{n(half)}"/>'
            cross = f"M{n(across - half)} {n(down)}h{n(2 * half)}M{n(across)} {n(down - half)}v{n(2 * half)}"
            yield f'<path class="focus" d="{cross}"/>'


def _ends(scar: Scar) -> tuple[float, float, float, float]:
    return scar.from_[0].low, scar.from_[1].low, scar.to[0].low, scar.to[1].low


def _scars(plan: JobPlan, pen: _Pen, room: Room) -> Iterator[str]:
    """Scars in outline; what a part lays over them is hatched."""
    by_id = {str(part.id): shape_of(part) for part in plan.job.parts}
    for scar in plan.scars:
        x1, y1, x2, y2 = _ends(scar.scar)
        wide = max(scar.scar.width.high, pen.text / 5)
        # Where both ends are one spot there is no line to draw without a length.
        line = f'd="M{n(x1)} {n(y1)}L{n(x2 + (0.01 if (x1, y1) == (x2, y2) else 0))} {n(y2)}"'
        yield f'<path class="scar" {line} stroke-width="{n(wide + pen.text / 8)}"/>'
        yield f'<path class="ridge" {line} stroke-width="{n(wide - pen.text / 8)}"/>'
        for crossed in scar.crossed_by:
            clip = f"over-{room.name}-{plan.job.id}-{scar.scar.id}-{crossed}"
            yield f'<clipPath id="{clip}">{outlined(by_id[crossed])}</clipPath>'
            yield (f'<path class="over" {line} stroke="url(#{pen.hatch})" stroke-width="{n(wide + pen.text / 3)}" '
                   f'clip-path="url(#{clip})"/>')  # fmt: skip


def _moles(plan: JobPlan, pen: _Pen, mole_clearance: Quantity) -> Iterator[str]:
    for mole in plan.job.moles or ():
        x, y = mole.at[0].low, mole.at[1].low
        yield f'<circle class="keep" cx="{n(x)}" cy="{n(y)}" r="{n((mole.keep or mole_clearance).low)}"/>'
        yield f'<circle class="mole" cx="{n(x)}" cy="{n(y)}" r="{n(pen.text / 4)}"/>'


def _names(plan: JobPlan, pen: _Pen, start: str | None) -> Iterator[str]:
    """Letters last, so that no line runs through them."""
    text = pen.text
    for scar in plan.scars:
        _, _, x, y = _ends(scar.scar)
        yield _label(x + text / 4, y + text / 3, str(scar.scar.id), pen)
    for number, mole in enumerate(plan.job.moles or (), 1):
        yield _label(mole.at[0].low + text / 3, mole.at[1].low + text, f"m{number}", pen)
    letters = part_letters(plan.job)
    for part in plan.job.parts:
        x, y, width, _ = frame(shape_of(part))
        words = f"▶{letters[part.id]}" if part.id == start else letters[part.id]
        # An ellipse or outline may not reach the corner of its frame.
        inset = text / 5 if isinstance(shape_of(part), shapes.Box) else width / 2 - text / 3
        yield _label(x + inset, y + text, words, pen)


def _label(x: float, y: float, words: str, pen: _Pen) -> str:
    """A word that stays inside the picture; `y` is its foot."""
    wide = width_of(words, 1, bold=True) / POINT * pen.text
    x, y = max(0.0, min(x, pen.width - wide)), max(pen.text, min(y, pen.height))
    return _text(x, y, words, pen.text)


def _text(x: float, y: float, words: str, size: float) -> str:
    return f'<text x="{n(x)}" y="{n(y)}" font-size="{n(size)}">{escape(words)}</text>'


def _up_arrow(x: float, size: float) -> str:
    head = f"M{n(x)} {n(2 * size)}V0m{n(-size / 3)} {n(size / 2)}l{n(size / 3)} {n(-size / 2)}"
    return f'<path class="up" d="{head}l{n(size / 3)} {n(size / 2)}"/>' + _text(x - size / 4, size * 3, "up", size)


def _scale_bar(y: float, size: float) -> str:
    return (
        f'<path class="bar" d="M0 {n(y)}v{n(size / 2)}m0 {n(-size / 4)}h20m0 {n(-size / 4)}v{n(size / 2)}"/>'
        + _text(20 + size / 4, y + size * 0.8, "20 mm", size)
    )


def n(number: float) -> str:
    """A coordinate with two decimals at most."""
    return f"{number:.2f}".rstrip("0").rstrip(".")
