"""What the eye may say about a piece. Notes, never more: the drawing is the artist's.

A piece with too many strong colours gets no second note that one of them is alone. Washes are left out where a light
ink lies beside a darker, later one: they are laid first on purpose.
"""

from __future__ import annotations

from collections.abc import Iterator

from generator.planning.findings.tone import Tone
from generator.planning.findings.verdict import About, Finding
from generator.planning.findings.weight import strong_of, weight_findings
from generator.planning.working.placement import LimbEnd
from generator.planning.working.shapes import middle_of, shape_of
from generator.planning.working.steps import LINES, WHITES, Step
from generator.quantities import shown
from generator.records.families import Records
from generator.records.inks import Ink
from generator.records.jobs import Job
from generator.records.parts import Part
from generator.trade import colour, layout, palette, shapes, skin_tone
from generator.trade.colour import Lab


def composition_findings(
    records: Records, job: Job, steps: tuple[Step, ...], ends: tuple[LimbEnd, ...], tone: Tone | None
) -> Iterator[Finding]:
    """All notes of a piece. ends: those of the limb it wraps round, where a girth is taped."""
    yield from _two_blacks(records, job, steps)
    used = {str(c.ink) for part in job.parts for c in part.colours}
    families = strong_of(records, {ink: _lab(records.inks[ink]) for ink in used if records.inks[ink].kind == "colour"})
    strong = tuple(ink for inks in families.values() for ink in inks)
    noted = tuple(_colours(records, job, families, strong))
    yield from noted
    yield from weight_findings(records, job, steps, strong, bool(noted))
    yield from _centre(records, job)
    for part in job.parts:
        yield from _blends(records, part)
    yield from _seen(records, job, ends)
    if tone is not None:
        yield from _on_the_skin(records, job, tone)
    yield from _white(records, steps)


def _seen(records: Records, job: Job, ends: tuple[LimbEnd, ...]) -> Iterator[Finding]:
    """What lies behind the limb, or so far round that it is seen side-on, at the end where more of it does."""
    if not ends:
        return
    limit, width = records.studio.limits.seen_flat, job.size[0].low
    looks = {end.name: shown(end.looks.low, end.looks.high, "length", records.studio.shows) for end in ends}
    if any(end.seen.low < 1 for end in ends):
        seen = "; ".join(
            f"{end.seen.low * 100:.0f}\u00a0% is seen at once {end.name}".rstrip() + f", {looks[end.name]} wide"
            for end in ends
        )
        yield About("size", records.sites[job.place], records.studio).note(
            f"Wraps out of sight. From the front: {seen}.", "Keep what belongs together on the side that is looked at."
        )
    elif any(end.looks.low * 100 < limit.low * width for end in ends):
        yield About("size", limit, records.studio).note(
            "Its sides are seen side-on: from the front it looks "
            + ", ".join(f"{wide} wide {name}".rstrip() for name, wide in looks.items())
            + ".",
            "Keep faces and letters off the sides, or draw them wider there.",
        )


def _two_blacks(records: Records, job: Job, steps: tuple[Step, ...]) -> Iterator[Finding]:
    """Lines in more than one black, of which some name it and others take what is usual."""
    blacks = {step.ink.id: step.ink.name for step in steps if step.section == LINES and step.ink.kind == "black"}
    lines = [line for part in job.parts for line in part.lines]
    if len(blacks) > 1 and any(line.ink is None for line in lines):
        yield About("parts", next(line.ink for line in lines if line.ink in blacks), records.studio).note(
            f"Lines in {len(blacks)} blacks: {', '.join(blacks.values())}.",
            "Run them all in one, or name the ink of every line.",
        )


def _colours(
    records: Records, job: Job, families: dict[str, tuple[str, ...]], strong: tuple[str, ...]
) -> Iterator[Finding]:
    """Too many strong colours, by the families of their hues; else one that is alone."""
    limits = records.studio.limits
    if len(families) > limits.strong_colours:
        # Inks of one family are one colour to the eye.
        hues = sorted(" and ".join(sorted(records.inks[ink].name for ink in inks)) for inks in families.values())
        yield About("parts", limits.strong_colours, records.studio).note(
            f"{len(families)} strong colours: {', '.join(hues)}.",
            f"{limits.strong_colours} commonly carry a piece and the rest steps back.",
        )
        return  # one that is to step back need not come again elsewhere
    width, height = (side.low for side in job.size)
    laid = {str(part.id): [str(c.ink) for c in part.colours if c.ink in strong] for part in job.parts}
    places = layout.colour_by_place(
        {str(part.id): shape_of(part) for part in job.parts},
        {part: inks for part, inks in laid.items() if inks},
        layout.nine_places(width, height),
    )
    for ink in sorted(places):
        place, share = max(places[ink].items(), key=lambda found: found[1])
        if share * 100 >= limits.one_place.low:
            yield About("parts", limits.one_place, records.studio).note(
                f"{records.inks[ink].name} sits in one place only: {place}.",
                "Take it up once more elsewhere, or let it stand alone on purpose.",
            )


def _centre(records: Records, job: Job) -> Iterator[Finding]:
    """Where the eye is meant to rest, and whether the main motif is where it looks first."""
    if not any(part.focal for part in job.parts):
        yield About("parts", job.origin_at("parts"), records.studio).note(
            "No part is marked as the focal point.",
            "Say which one the eye rests on; until then the main part counts as it over a scar.",
        )
    main = [part for part in job.parts if part.role == "main"]
    if not main:
        return
    motif = max(main, key=lambda part: (part.focal, shapes.area(shape_of(part))))
    across, down = middle_of(motif)
    centre = layout.nine_places(*(side.low for side in job.size))["centre"]
    if not (centre.x <= across <= centre.x + centre.width and centre.y <= down <= centre.y + centre.height):
        yield About(motif, motif.origin_at("role"), records.studio).note(
            f"The middle of {motif.id} lies outside the middle third of the piece.",
            "Move it there, or let it stand aside on purpose.",
        )


def _blends(records: Records, part: Part) -> Iterator[Finding]:
    """Blacks with their washes, and the tints of one colour, run as a blend where there are enough of them."""
    limits = records.studio.limits
    inks = [records.inks[laid.ink] for laid in part.colours]
    greys = [ink for ink in inks if ink.kind in ("black", "wash")]
    families = strong_of(records, {str(ink.id): _lab(ink) for ink in inks if ink.kind == "colour"})
    tints = [[records.inks[ink] for ink in names] for names in families.values()]
    for blend in (greys, *tints):
        ordered = sorted(blend, key=lambda ink: (_lab(ink).lightness, ink.id))
        if len(ordered) < 2:
            continue
        for jump in palette.evenness([_lab(ink) for ink in ordered], limits.blend_jump).jumps:
            yield About(part, limits.blend_jump, records.studio).note(
                f"Part {part.id}: from {ordered[jump].name} to {ordered[jump + 1].name} the blend jumps.",
                "Put a step between the two, or blend it by hand.",
            )


def _on_the_skin(records: Records, job: Job, tone: Tone) -> Iterator[Finding]:
    """Colours and washes that may read quietly on this skin. Black carries, and white is a note of its own."""
    limit = records.studio.limits.quiet_ink
    laid = (records.inks[laid.ink] for part in job.parts for laid in part.colours)
    quiet = [
        ink.name
        for ink in laid
        if ink.kind in ("colour", "wash") and skin_tone.ink_on_skin(ink.swatch, tone.swatch, limit).difference < limit
    ]
    if quiet:
        yield About("skin", limit, records.studio).note(
            f"Estimated to read quietly on this skin: {', '.join(dict.fromkeys(quiet))}.",
            "Let line and dark carry the shape; the tone picker and healed photos decide.",
        )


def _white(records: Records, steps: tuple[Step, ...]) -> Iterator[Finding]:
    limit, units = records.studio.limits.white_area, records.studio.shows
    area = sum(step.amount.high for step in steps if step.section == WHITES)
    if area > limit.low:
        yield About("parts", limit, records.studio).note(
            f"White over {shown(area, area, 'area', units)} in all.",
            "White heals towards the skin’s tone; keep it to small lights.",
        )


def _lab(ink: Ink) -> Lab:
    return colour.lab(ink.swatch)
