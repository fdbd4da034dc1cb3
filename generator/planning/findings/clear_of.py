"""How far a part has to be moved to lie clear of scars, moles and tattoos that stay free.

Said where a finding asks for another drawing. Every scar is kept off, not only the one of the finding, so that the part
does not land on the next one; a tattoo that the drawing covers on purpose is not.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.planning.working.scars import strip_of
from generator.planning.working.shapes import moved, shape_of
from generator.quantities import shown
from generator.records.families import Records
from generator.records.jobs import Job
from generator.records.parts import Part
from generator.trade import shapes

# In mm: a stencil is not moved by less.
_STEP = 1.0
# In mm²: less than this is no part that lies on another one.
_TOUCHING = 0.5


def clears_by_moving(records: Records, job: Job, parts: Sequence[Part]) -> str:
    """A sentence for each part: “Move lamp 12 mm lower: clear.” Nothing without a part."""
    closed = tuple(_closed(records, job))
    return " ".join(_moved(records, job, part, closed) for part in parts)


def _moved(records: Records, job: Job, part: Part, closed: tuple[shapes.Thing, ...]) -> str:
    limits, units = records.studio.limits, records.studio.shows
    width, height = (side.low for side in job.size)
    shift = shapes.nearest_shift(shape_of(part), closed, limits.scar_margin.low, shapes.Box(0, 0, width, height), _STEP)
    if shift is None:
        return f"Nowhere in the piece is {part.id} clear as it is: draw it smaller, or move the whole piece."
    ways = [
        f"{shown(abs(far), abs(far), 'length', units)} {there if far > 0 else here}"
        for far, there, here in ((shift.down, "lower", "higher"), (shift.across, "to the right", "to the left"))
        if far
    ]
    before, after = shape_of(part), moved(shape_of(part), shift)
    others = [
        str(other.id)
        for other in job.parts
        if other.id != part.id
        and shapes.overlap(after, shape_of(other)) > shapes.overlap(before, shape_of(other)) + _TOUCHING
    ]
    over = f", then over {', '.join(others)}" if others else ""
    return f"Move {part.id} {' and '.join(ways)}: clear{over}."


def _closed(records: Records, job: Job) -> Iterator[shapes.Thing]:
    """Scars, moles with their rings, and tattoos that the client wants left free or nobody asked about."""
    yield from (strip_of(scar) for scar in job.scars or ())
    house = records.studio.limits.mole_clearance
    for mole in job.moles or ():
        yield shapes.Spot(mole.at[0].low, mole.at[1].low, (mole.keep or house).low)
    yield from (shape_of(old) for old in job.existing_tattoos or () if old.wish != "cover")
