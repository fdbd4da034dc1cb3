"""What a job says against itself.

A `last_worked` without a second sitting is a mistake, so that taking `sitting` away never relaxes a plan.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterator

from generator.diagnostics import Diagnostic, Place
from generator.planning.findings.outside import beside_the_piece
from generator.planning.working.shapes import beyond_the_piece
from generator.records.families import Records
from generator.records.jobs import Job
from generator.records.noted import Date


def contradictions(records: Records, job: Job) -> Iterator[Diagnostic]:
    """What the job says against itself."""
    yield from beyond_the_piece(job)
    yield from beside_the_piece(records, job)
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
