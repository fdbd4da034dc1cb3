"""Tattoos that lie in the area already: what is asked about them, what stays free, what covers them.

They are asked about like scars: silence waits. Numbing and the day of the last sitting are asked the same way.
"""

from __future__ import annotations

from collections.abc import Iterator

from generator.planning.findings.verdict import About, Finding
from generator.planning.timing.coming_back import weeks_later
from generator.planning.working.shapes import shape_of
from generator.quantities import shown
from generator.records.families import Records
from generator.records.jobs import Job
from generator.records.parts import Colour, Part
from generator.records.skin import ExistingTattoo
from generator.trade import colour, shapes

# What is asked about every existing tattoo: the key in the job, and the question.
QUESTIONS = (
    ("darkness", "how dark it is"),
    ("wish", "what the client wants for it"),
    ("laser", "whether and when it was lasered"),
)


def existing_tattoo_findings(records: Records, job: Job) -> Iterator[Finding]:
    """Silence about existing tattoos is a question, not a no."""
    if job.existing_tattoos is None:
        yield About("existing_tattoos", records.studio.limits.same_skin_again).ask(
            "Existing tattoos in the area are not on file.", "Look, ask, and write “none” or what is there."
        )
    for old in job.existing_tattoos or ():
        over = [part for part in job.parts if shapes.overlap(shape_of(part), shape_of(old)) > 0]
        yield from _open_or_healing(records, job, old, over)
        if old.wish in ("leave", "work around") and over:
            by = old.origin_at("wish").resting_on(records.studio.source)
            yield About(old, by).wait(
                f"Existing tattoo {old.id}: the client wants it left free.",
                "Redraw so that it stays free, or get another wish from the client in writing.",
            )
        if old.wish == "cover":
            yield from _too_small(records, old, over)
            yield from _too_light(records, old, over)


def _open_or_healing(records: Records, job: Job, old: ExistingTattoo, over: list[Part]) -> Iterator[Finding]:
    """What nobody answered about a tattoo, and whether the skin that is worked over it rested long enough."""
    rest = records.studio.limits.after_laser
    for key, question in QUESTIONS:
        if getattr(old, key) is None:
            yield About(old.origin_at(key), rest).ask(
                f"Existing tattoo {old.id}: not on file {question}.", "Look, ask, and write it into the job."
            )
    if over and old.laser and (again := weeks_later(max(old.laser), rest.high)) > job.date:
        yield About(old.origin_at("laser"), rest).wait(
            f"Existing tattoo {old.id}: the skin rests {rest.text} before it is worked over.",
            "Look at the skin again on that day; a date alone clears nothing.",
            until=again,
        )


def _too_small(records: Records, old: ExistingTattoo, over: list[Part]) -> Iterator[Finding]:
    ratio, units = records.studio.limits.cover_ratio, records.studio.shows
    covering, covered = shapes.covered([shape_of(part) for part in over]), shapes.area(shape_of(old))
    if covering < ratio * covered:
        wanted = shown(ratio * covered, ratio * covered, "area", units)
        yield About(old, ratio).care(
            f"Existing tattoo {old.id}: what covers it is less than {ratio:g} times as large.",
            f"Draw the cover-up larger, over {wanted} at least, or talk about laser first.",
        )


def _too_light(records: Records, old: ExistingTattoo, over: list[Part]) -> Iterator[Finding]:
    """Old darks shine through what is not darker itself. White covers nothing."""
    if old.darkness is None:
        return
    lightness = records.studio.limits.cover_lightness
    darkest: float = getattr(lightness, old.darkness)

    def covers(laid: Colour) -> bool:
        ink = records.inks[laid.ink]
        return ink.kind != "white" and colour.lab(ink.swatch).lightness <= darkest

    darks = [laid for part in over for laid in part.colours if covers(laid)]
    filled = [laid.area.high for laid in darks if laid.area is not None]
    # An ink without an area shares its whole part, and nobody wrote how much of it.
    if darks and len(filled) == len(darks) and sum(filled) < shapes.area(shape_of(old)):
        yield About(old, lightness).care(
            f"Existing tattoo {old.id}: the dark inks over it fill less than it does.",
            "Give the darks of the drawing the room of the darks below.",
        )
    for part in over:
        if not any(covers(laid) for laid in part.colours):
            yield About(old, lightness).care(
                f"Existing tattoo {old.id}: part {part.id} has no ink dark enough to cover it.",
                "Put the darks of the drawing over the darks of the existing tattoo.",
            )
