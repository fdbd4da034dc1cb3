"""What is drawn or lies on the skin as the trade's shapes, and whether it lies inside the piece."""

from __future__ import annotations

from collections.abc import Iterator

from generator.diagnostics import Diagnostic
from generator.planning.computed import Named, named
from generator.quantities import significant
from generator.records.drawn import Drawn, Frame, Spot
from generator.records.jobs import Job
from generator.records.parts import Part
from generator.trade import shapes


def shape_of(thing: Drawn) -> shapes.Shape:
    """The shape of a part or of an existing tattoo, in mm from the upper left corner of the piece."""
    if thing.outline is not None:
        return shapes.Outline(tuple((across.low, down.low) for across, down in thing.outline))
    if thing.ellipse is not None:
        return shapes.Ellipse(*(side.low for side in thing.ellipse))
    return shapes.Box(*(side.low for side in _frame(thing)))


def shape_as_operand(part: Part) -> Named:
    """The shape of a part as an operand, said by its key and its sides."""
    key = shape_key(part)
    sides = " by ".join(f"{side:g} mm" for side in sides_of(part))
    return named(shape_of(part), part.origin_at(key), f"{key}, {sides}")


def shape_key(thing: Drawn) -> str:
    """The key under which the shape is written in the job."""
    return next(key for key in ("outline", "ellipse", "box") if getattr(thing, key) is not None)


def moved(shape: shapes.Shape, shift: shapes.Shift) -> shapes.Shape:
    """The same shape at another place."""
    if isinstance(shape, shapes.Outline):
        return shapes.Outline(tuple((x + shift.across, y + shift.down) for x, y in shape.points))
    return type(shape)(shape.x + shift.across, shape.y + shift.down, shape.width, shape.height)


def sides_of(thing: Drawn) -> tuple[float, float]:
    """Width and height of the upright frame round a shape, in mm."""
    left, top, right, foot = edges_of(thing)
    return significant(right - left), significant(foot - top)


def middle_of(thing: Drawn) -> tuple[float, float]:
    """The middle of the upright frame round a shape, in mm."""
    left, top, right, foot = edges_of(thing)
    return (left + right) / 2, (top + foot) / 2


def edges_of(thing: Drawn) -> tuple[float, float, float, float]:
    """Left, upper, right and lower edge of a shape, in mm."""
    if thing.outline is not None:
        across, down = zip(*((spot[0].low, spot[1].low) for spot in thing.outline), strict=True)
        return min(across), min(down), max(across), max(down)
    x, y, width, height = (side.low for side in thing.ellipse or _frame(thing))
    return x, y, significant(x + width), significant(y + height)


def beyond_the_piece(job: Job) -> Iterator[Diagnostic]:
    """Parts that reach beyond the piece. Existing tattoos may: they were there before."""
    width, height = job.size
    for part in job.parts:
        _, _, right, foot = edges_of(part)
        if right > width.low or foot > height.low:
            yield Diagnostic(
                "J611",
                begin_of(part)[0].place or part.id.place,
                found=f"{right:g} mm across, {foot:g} mm down",
                expected=f"at most {width.low:g} mm across, {height.low:g} mm down",
                help=f"mend its {shape_key(part)}, or the size of the piece",
                says=f"part {part.id} reaches beyond the piece",
            )


def _frame(thing: Drawn) -> Frame:
    assert thing.box is not None, "a record without any shape is not read"
    return thing.box


def begin_of(thing: Drawn) -> Spot:
    """The two numbers with which the shape begins in the job's file."""
    return thing.outline[0] if thing.outline is not None else (thing.ellipse or _frame(thing))[:2]
