"""How colours and sizes balance over a piece. Notes, never more: the drawing is the artist's.

Weight is chroma times area; black, grey and white weigh next to nothing and are left out.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import pairwise

from generator.grouped import grouped
from generator.planning.findings.verdict import About, Finding
from generator.planning.working.shapes import shape_of
from generator.planning.working.steps import COLOURS, Step
from generator.records.families import Records
from generator.records.jobs import Job
from generator.trade import colour, layout, palette, shapes
from generator.trade.colour import Lab
from generator.trade.layout import Weighed

_ROLES = ("main", "secondary", "filler")


def strong_of(records: Records, labs: Mapping[str, Lab]) -> dict[str, tuple[str, ...]]:
    """The strong inks under the family of their hue. A deep red is one of the reds, although its chroma is less."""
    limits = records.studio.limits
    strong = palette.strong_colours(labs, limits.strong_chroma)
    deep = [
        ink
        for ink, lab in labs.items()
        if palette.deep_red(lab, limits.composition.deep_red_lightness, limits.composition.deep_red_chroma)
    ]
    families = palette.hue_families({ink: labs[ink] for ink in strong if ink not in deep}, limits.strong_chroma)
    return {**families, "red": (*families.get("red", ()), *deep)} if deep else families


def weight_findings(
    records: Records, job: Job, steps: tuple[Step, ...], strong: tuple[str, ...], noted: bool
) -> Iterator[Finding]:
    """All notes on weight and size. strong: the strong inks; noted: whether a note on them was made already."""
    laid = [(step, weighed(step)) for step in steps if step.section == COLOURS]
    yield from _by_thirds(records, job, laid, () if noted else strong)
    yield from _round_the_middle(records, job, [one for _, one in laid])
    yield from _used_once(records, laid, strong if noted else ())
    yield from _louder(records, job, laid)
    yield from _sizes(records, job)


_Laid = list[tuple[Step, Weighed]]


def weighed(step: Step) -> Weighed:
    """What an ink of one row weighs on the eye, in the shape of its part; the middle of an area that is a range."""
    area = (step.amount.low + step.amount.high) / 2
    return Weighed(shape_of(step.part), palette.colour_weight(colour.lab(step.ink.swatch), area))


def _by_thirds(records: Records, job: Job, laid: _Laid, strong: tuple[str, ...]) -> Iterator[Finding]:
    """Strong colour that is collected in one third; else weight that is, but in the middle, where it balances.

    A piece of one part has its place anyway.
    """
    limits = records.studio.limits.composition
    if len(job.parts) < 2:
        return
    places = layout.thirds(*(side.low for side in job.size))
    vivid = [one for step, one in laid if step.ink.id in strong]
    for inks, limit, said in (
        (vivid, limits.strong_third, "Strong colour is collected"),
        ([one for _, one in laid], limits.third, "The weight of colour lies"),
    ):
        if sum(one.weight for one in inks) <= 0:
            continue
        place, share = max(layout.weight_by_place(inks, places).items(), key=lambda found: found[1])
        if share * 100 >= limit.low and not (inks is not vivid and place == layout.MIDDLE):
            yield About("parts", limit).note(
                f"{said} in the {place} third: {share * 100:.0f}\u00a0% of it.",
                "Take colour up again in another third.",
            )
            return


def _round_the_middle(records: Records, job: Job, laid: list[Weighed]) -> Iterator[Finding]:
    limit = records.studio.limits.composition.off_centre
    if len(job.parts) < 2 or sum(one.weight for one in laid) <= 0:
        return
    width, height = (side.low for side in job.size)
    point = layout.centre_of_weight(laid)
    beside = {
        "right of": point.x / width - 0.5,
        "left of": 0.5 - point.x / width,
        "below": point.y / height - 0.5,
        "above": 0.5 - point.y / height,
    }
    far = {way: share for way, share in beside.items() if share * 100 > limit.low}
    if far:
        said = " and ".join(f"{share * 100:.0f}\u00a0% {way}" for way, share in far.items())
        yield About("parts", limit).note(
            f"The weight of colour balances {said} the middle.", "Set a smaller colour against it."
        )


def _used_once(records: Records, laid: _Laid, named: tuple[str, ...]) -> Iterator[Finding]:
    """Inks that are found in fewer parts than the studio aims at, where other parts are coloured too."""
    least = records.studio.limits.composition.ink_in_parts
    parts = grouped(dict.fromkeys((str(step.ink.id), str(step.part.id)) for step, _ in laid))
    coloured = {part for of in parts.values() for part in of}
    if len(coloured) < least:
        return
    alone = {ink: of for ink, of in parts.items() if len(of) < least and ink not in named}
    if alone:
        said = ", ".join(f"{records.inks[ink].name} ({', '.join(of)})" for ink, of in alone.items())
        yield About("parts", least).note(
            f"Used once: {said}." if least <= 2 else f"Used in few parts: {said}.",
            f"Take {'it' if len(alone) == 1 else 'them'} up again elsewhere.",
        )


def _louder(records: Records, job: Job, laid: _Laid) -> Iterator[Finding]:
    limit = records.studio.limits.composition.filler_louder
    weights = {part.id: sum(one.weight for step, one in laid if step.part.id == part.id) for part in job.parts}
    main = [weights[part.id] for part in job.parts if part.role == "main"]
    if not main:
        return
    for part in job.parts:
        weight = weights[part.id]
        if part.role == "filler" and weight * 100 > limit.low * max(main):
            times = f"{weight / max(main):.1f} times" if max(main) > 0 else "that has none"
            yield About(part, limit).note(
                f"Filler {part.id} is louder in colour than the main part: {times}.", "Take a quieter ink there."
            )


def _sizes(records: Records, job: Job) -> Iterator[Finding]:
    """The largest part of each role against the largest of the next one."""
    limit = records.studio.limits.composition.size_step
    parts = grouped((part.role, part) for part in job.parts)
    largest = [max(parts[role], key=lambda part: shapes.area(shape_of(part))) for role in _ROLES if role in parts]
    for first, second in pairwise(largest):
        step = layout.size_step(*(shapes.area(shape_of(part)) for part in (first, second)))
        if step < limit:
            yield About(second, limit).note(
                f"{first.id}, {first.role}, and {second.id}, {second.role}, are nearly as large: {step:.1f} to 1.",
                f"Let sizes step by {limit:g} or more.",
            )
