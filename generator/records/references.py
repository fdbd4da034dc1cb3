"""What records name, and whether it is there."""

from __future__ import annotations

from collections.abc import Iterator

from generator.diagnostics import Diagnostic, Place
from generator.near_miss import did_you_mean, nearest
from generator.records.families import Known
from generator.records.fields import Reference
from generator.records.gone import gone
from generator.records.record import singles


def references(value: object) -> Iterator[Reference]:
    """Every reference inside a record."""
    return (found for found in singles(value) if isinstance(found, Reference))


def dangling(found: list[Reference], known: Known, finished: bool = False) -> Iterator[Diagnostic]:
    """References to entries that are not there. finished: whether they are those of a finished job, which stays."""
    for reference in found:
        if diagnostic := _missing(reference, reference.family, reference.place, known, finished):
            yield diagnostic


def _missing(wanted: str, family: str, place: Place, known: Known, finished: bool) -> Diagnostic | None:
    ids = known.ids.get(family, {})
    if wanted in ids or family in known.open:
        return None
    near = nearest(wanted, ids)
    listed = ", ".join(list(ids)[:12]) + (", …" if len(ids) > 12 else "")
    hint = did_you_mean(near, f"ids there: {listed}" if ids else f"`{family}.yml` is empty")
    if finished:
        hint = (
            f"the job is finished and stays as it was written: write `{wanted}` into {family}.yml again, "
            "with `until: {on: DAY, why: retired}`, or left, used up, recalled"
        )
    return Diagnostic(
        "L401",
        place,
        found=f"“{wanted}”",
        expected=f"the id of an entry in `{family}`",
        help=hint,
        says=f"there is no `{wanted}` in {family}",
        cause=gone(family, wanted),
    )
