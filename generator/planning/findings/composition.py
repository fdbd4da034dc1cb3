"""What the eye may say about a piece. Notes, never more: the drawing is the artist's.

A piece with too many strong colours gets no second note that one of them is alone. Washes are left out where a light
ink lies beside a darker, later one: they are laid first on purpose.
"""

from __future__ import annotations

from collections.abc import Iterator

from generator.origins import Origin, origin_of
from generator.planning.findings.tone import Tone
from generator.planning.findings.verdict import Finding
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
    families = _strong(records, job)
    strong = tuple(ink for inks in families.values() for ink in inks)
    noted = tuple(_colours(records, job, families))
    yield from noted
    yield from weight_findings(records, job, steps, strong, strong if noted else ())
    yield from _centre(records, job)
    for part in job.parts:
        yield from _blends(records, part)
    yield from _seen(records, job, ends)
    if tone is not None:
        yield from _on_the_skin(records, job, tone)
    yield from _white(records, steps)


def _note(records: Records, reason: str, remedy: str, about: str, by: Origin) -> Finding:
    return Finding("note", reason, remedy, about, by.resting_on(records.studio.source))


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
        yield _note(
            records,
            f"Wraps out of sight. From the front: {seen}.",
            "Keep what belongs together on the side that is looked at.",
            "size",
            records.sites[job.place].origin,
        )
    elif any(end.looks.low * 100 < limit.low * width for end in ends):
        yield _note(
            records,
            "Its sides are seen side-on: from the front it looks "
            + ", ".join(f"{wide} wide {name}".rstrip() for name, wide in looks.items())
            + ".",
            "Keep faces and letters off the sides, or draw them wider there.",
            "size",
            limit.origin,
        )


def _two_blacks(records: Records, job: Job, steps: tuple[Step, ...]) -> Iterator[Finding]:
    """Lines in more than one black, of which some name it and others take what is usual."""
    blacks = {step.ink.id: step.ink.name for step in steps if step.section == LINES and step.ink.kind == "black"}
    lines = [line for part in job.parts for line in part.lines]
    if len(blacks) > 1 and any(line.ink is None for line in lines):
        yield _note(
            records,
            f"Lines in {len(blacks)} blacks: {', '.join(blacks.values())}.",
            "Run them all in one, or name the ink of every line.",
            "parts",
            next(line.ink for line in lines if line.ink in blacks).origin,
        )


def _strong(records: Records, job: Job) -> dict[str, tuple[str, ...]]:
    """The strong inks of a piece under the family of their hue."""
    used = {str(c.ink) for part in job.parts for c in part.colours}
    return strong_of(records, {ink: _lab(records.inks[ink]) for ink in used if records.inks[ink].kind == "colour"})


def _colours(records: Records, job: Job, families: dict[str, tuple[str, ...]]) -> Iterator[Finding]:
    """Too many strong colours; else one that is alone."""
    limits = records.studio.limits
    strong = tuple(ink for inks in families.values() for ink in inks)
    if len(families) > limits.strong_colours:
        # Inks of one family are one colour to the eye.
        hues = sorted(" and ".join(sorted(records.inks[ink].name for ink in inks)) for inks in families.values())
        yield _note(
            records,
            f"{len(families)} strong colours: {', '.join(hues)}.",
            f"{limits.strong_colours} commonly carry a piece and the rest steps back.",
            "parts",
            origin_of(records.studio.limits.strong_colours),
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
            yield _note(
                records,
                f"{records.inks[ink].name} sits in one place only: {place}.",
                "Take it up once more elsewhere, or let it stand alone on purpose.",
                "parts",
                origin_of(records.studio.limits.one_place),
            )


def _centre(records: Records, job: Job) -> Iterator[Finding]:
    """Where the eye is meant to rest, and whether the main motif is where it looks first."""
    if not any(part.focal for part in job.parts):
        yield _note(
            records,
            "No part is marked as the focal point.",
            "Say which one the eye rests on; until then the main part counts as it over a scar.",
            "parts",
            job.origin_at("parts"),
        )
    main = [part for part in job.parts if part.role == "main"]
    if not main:
        return
    motif = max(main, key=lambda part: (part.focal, shapes.area(shape_of(part))))
    across, down = middle_of(motif)
    centre = layout.nine_places(*(side.low for side in job.size))["centre"]
    if not (centre.x <= across <= centre.x + centre.width and centre.y <= down <= centre.y + centre.height):
        yield _note(
            records,
            f"The middle of {motif.id} lies outside the middle third of the piece.",
            "Move it there, or let it stand aside on purpose.",
            f"parts.{motif.id}",
            motif.origin_at("role"),
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
            yield _note(
                records,
                f"Part {part.id}: from {ordered[jump].name} to {ordered[jump + 1].name} the blend jumps.",
                "Put a step between the two, or blend it by hand.",
                f"parts.{part.id}",
                origin_of(records.studio.limits.blend_jump),
            )


def _on_the_skin(records: Records, job: Job, tone: Tone) -> Iterator[Finding]:
    """Colours and washes that may read quietly on this skin. Black carries, and white is a note of its own."""
    quiet: dict[str, None] = {}
    for ink in (records.inks[laid.ink] for part in job.parts for laid in part.colours):
        if ink.kind in ("colour", "wash"):
            seen = skin_tone.ink_on_skin(ink.swatch, tone.swatch, records.studio.limits.quiet_ink)
            if seen.difference < records.studio.limits.quiet_ink:
                quiet[ink.name] = None
    if quiet:
        yield _note(
            records,
            f"Estimated to read quietly on this skin: {', '.join(quiet)}.",
            "Let line and dark carry the shape; the tone picker and healed photos decide.",
            "skin",
            origin_of(records.studio.limits.quiet_ink),
        )


def _white(records: Records, steps: tuple[Step, ...]) -> Iterator[Finding]:
    limit, units = records.studio.limits.white_area, records.studio.shows
    area = sum(step.amount.high for step in steps if step.section == WHITES)
    if area > limit.low:
        yield _note(
            records,
            f"White over {shown(area, area, 'area', units)} in all.",
            "White heals towards the skin’s tone; keep it to small lights.",
            "parts",
            origin_of(records.studio.limits.white_area),
        )


def _lab(ink: Ink) -> Lab:
    return colour.lab(ink.swatch)
