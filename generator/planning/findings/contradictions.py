"""What a job says against itself.

A `last_worked` without a second sitting is a mistake, so that taking `sitting` away never relaxes a plan.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterator

from generator.diagnostics import Diagnostic, Place
from generator.planning.working.scars import strip_of
from generator.planning.working.shapes import begin_of, beyond_the_piece, shape_of
from generator.records.days import Date
from generator.records.drawn import Spot
from generator.records.families import Records
from generator.records.jobs import Job
from generator.trade import shapes


def contradictions(records: Records, job: Job) -> Iterator[Diagnostic]:
    """What the job says against itself."""
    yield from beyond_the_piece(job)
    yield from _beside_the_piece(records, job)
    for scar in job.scars or ():
        if scar.wound is not None and scar.wound.first > job.date:
            yield _late(scar.wound.place or scar.id.place, f"the wound of scar {scar.id}", scar.wound.day, job.date)
    if job.screening is not None and job.screening.asked > job.date:
        yield _late(job.screening.asked.place, "the screening", job.screening.asked, job.date)
    given: list[tuple[str, Date]] = [("a numbing product", product.on) for product in job.numbing or ()]
    given += [("the last sitting", job.last_worked)] if job.last_worked is not None else []
    given += [(f"the laser on {old.id}", day) for old in job.existing_tattoos or () for day in old.laser or ()]
    yield from (_late(day.place, what, day, job.date) for what, day in given if day > job.date)


def _late(place: Place, what: str, when: datetime.date, on: datetime.date) -> Diagnostic:
    return Diagnostic(
        "J612",
        place,
        found=str(when),
        expected=f"a day up to {on}",
        help="mend one of the two dates",
        says=f"{what} is dated after the sitting",
    )


def _beside_the_piece(records: Records, job: Job) -> Iterator[Diagnostic]:
    """What lies on the skin beside the piece: most often a unit that slipped, and the safety it carries with it.

    Moles farther outside than the distance to keep; scars and existing tattoos that lie wholly outside.
    """
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
