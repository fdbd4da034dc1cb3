"""What lies on the skin beside the piece: most often a unit that slipped, and the safety it carries with it."""

from __future__ import annotations

from collections.abc import Iterator

from generator.diagnostics import Diagnostic
from generator.planning.working.scars import strip_of
from generator.planning.working.shapes import begin_of, shape_of
from generator.records.drawn import Spot
from generator.records.families import Records
from generator.records.jobs import Job
from generator.trade import shapes


def beside_the_piece(records: Records, job: Job) -> Iterator[Diagnostic]:
    """Moles farther outside than the distance to keep; scars and existing tattoos that lie wholly outside."""
    piece = shapes.Box(0, 0, job.size[0].low, job.size[1].low)
    for number, mole in enumerate(job.moles or (), 1):
        keep = (mole.keep or records.studio.limits.mole_clearance).low
        if shapes.mole_clearance(piece, shapes.Spot(mole.at[0].low, mole.at[1].low, keep)) > 0:
            yield _beside(mole.at, f"mole {number}", job)
    for scar in job.scars or ():
        if shapes.gap(piece, strip_of(scar)) > 0:
            yield _beside(scar.from_, f"scar {scar.id}", job)
    for old in job.existing_tattoos or ():
        if shapes.gap(piece, shape_of(old)) > 0:
            yield _beside(begin_of(old), f"existing tattoo {old.id}", job)


def _beside(spot: Spot, what: str, job: Job) -> Diagnostic:
    width, height = job.size
    at = spot[0] if spot[0].low > width.low else spot[1]
    return Diagnostic(
        "J613",
        at.place or job.id.place,
        found=f"“{at.text}”",
        expected=f"at most {width.text} across, {height.text} down",
        help="look at its unit and mend it, or the size of the piece; what lies beside the piece is left out",
        says=f"{what} lies outside the piece",
    )
