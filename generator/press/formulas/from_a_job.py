"""For formulas that plans apply without keeping how: what one planned job has, such as its parts and its tray."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from operator import attrgetter

from generator.origins import NOWHERE
from generator.planning.computed import Named, Operand, compute, counted, named, recorded
from generator.planning.findings.weight import weighed
from generator.planning.plan import JobPlan
from generator.planning.timing.coming_back import next_sitting, retention
from generator.planning.working.bands import closed
from generator.planning.working.scars import strip_of
from generator.planning.working.shapes import edges_of, shape_key, shape_of, sides_of
from generator.planning.working.steps import COLOURS
from generator.press.formulas.carried import Applied, applied_in, applied_to
from generator.records.families import Records
from generator.records.parts import Part
from generator.trade import body, colour, dates, disinfection, layout, palette, paper, shapes, supplies
from generator.trade.refusal import Refusal


def from_a_job(plan: JobPlan, records: Records) -> Iterator[Applied]:
    """Formulas with what they are shown with."""
    for rows in (_on_the_limb, _of_places, _of_weights, _of_shapes, _of_the_tray, _of_days):
        yield from rows(plan, records)


def _on_the_limb(plan: JobPlan, records: Records) -> Iterator[Applied]:
    """The limb between the tapes at the upper and the lower edge of the piece, as if its first part were a band."""
    if plan.job.girth is None:
        return
    try:
        band = closed(plan.job, plan.job.girth, plan.job.parts[0])
    except Refusal:
        return
    yield from applied_in(band)
    yield from applied_to({**dict(band.levels[0].girth.inputs), "width": plan.placement.width}, body.band)


def _of_places(plan: JobPlan, records: Records) -> Iterator[Applied]:
    """All parts, and the strong colours of each, in the nine places of the piece; the first two parts by size."""
    job = plan.job
    drawn = {str(part.id): shape_of(part) for part in job.parts}
    turned = job.pose_turned
    inputs: dict[str, Operand] = {
        "width": plan.placement.width,
        "height": plan.placement.height,
        "parts": named(drawn, job.origin_at("parts"), f"{len(drawn)} parts"),
        "hand": named(plan.artist.hand, plan.artist.hand),
        "turned": named(0.0, job.origin_at("pose"), "not turned, its top points away from the artist")
        if turned is None
        else named(turned.low, turned, turned.text),
        "row": recorded(records.studio.limits.lining_row),
    }
    strong = {str(part.id): inks for part in job.parts if (inks := _strong(part, records))}
    if strong:
        said = "; ".join(
            f"{part}: {', '.join(records.inks[ink].name for ink in inks)}" for part, inks in strong.items()
        )
        places = layout.nine_places(*map(attrgetter("low"), job.size))
        inputs["colours"] = named(strong, job.origin_at("parts"), said)
        inputs["places"] = named(places, job.origin_at("size"), "the nine places of the piece")
    sizes = (compute(shapes.area, "area", shape=_box(part)) for part in job.parts)
    yield from applied_to({**inputs, **dict(zip(("first", "second"), sizes, strict=False))}, layout)


def _of_weights(plan: JobPlan, records: Records) -> Iterator[Applied]:
    """The colours of the steps as they weigh on the eye, by thirds of the piece and round its middle."""
    job = plan.job
    steps = [step for step in plan.work.steps if step.section == COLOURS] if plan.work else []
    if not steps:
        return
    first, ink = steps[0], steps[0].ink
    area = counted((first.amount.low + first.amount.high) / 2, first.part.origin_at("colours"), "area")
    yield from applied_to(
        {"ink": named(colour.lab(ink.swatch), ink.origin_at("swatch"), ink.name), "area": area}, palette
    )
    thirds = layout.thirds(*map(attrgetter("low"), job.size))
    said = ", ".join(f"{step.ink.name} on {step.part.id}" for step in steps)
    laid: dict[str, Operand] = {
        "laid": named(tuple(map(weighed, steps)), job.origin_at("parts"), said),
        "places": named(thirds, job.origin_at("size"), "the thirds of the piece"),
    }
    yield from applied_to(laid, layout)


def _of_shapes(plan: JobPlan, records: Records) -> Iterator[Applied]:
    """The first part with a mole, what lies on a scar, the first part and the second beside it, gaps between lines."""
    job, limits = plan.job, records.studio.limits
    shape = _box(job.parts[0])
    piece = shapes.Box(0, 0, *map(attrgetter("low"), job.size))
    for mole in job.moles or ():
        spot = shapes.Spot(mole.at[0].low, mole.at[1].low, (mole.keep or limits.mole_clearance).low)
        said = f"at {spot.x:g} and {spot.y:g} mm, {spot.keep:g} mm kept clear"
        near: dict[str, Operand] = {
            "shape": shape,
            "mole": named(spot, job.origin_at("moles"), said),
            "keep_off": named((spot,), job.origin_at("moles"), f"a mole {said}"),
            "margin": recorded(limits.scar_margin),
            "within": named(piece, job.origin_at("size"), "the piece"),
            "step": named(1.0, job.origin_at("size"), "1 mm"),
        }
        yield from applied_to(near, shapes)
    for reading in plan.scars:
        # Only where it lies, never what it is.
        scar = reading.scar
        strip = named(strip_of(scar), scar.origin, f"scar {scar.id} as it lies on the map")
        for part in (part for part in job.parts if part.id in reading.crossed_by):
            yield from applied_to({"first": _box(part), "second": strip}, shapes.overlap)
    if len(job.parts) > 1:
        drawn = {str(part.id): shape_of(part) for part in job.parts}
        beside: dict[str, Operand] = {
            "shapes": named(tuple(drawn.values()), job.origin_at("parts"), ", ".join(drawn)),
            "shape": shape,
            "first": shape,
            "second": _box(job.parts[1]),
            "direction": named(90.0, NOWHERE, "90°, down"),
        }
        yield from applied_to(beside, shapes)
    for part in job.parts:
        if part.gap is not None:
            yield from applied_to({"gap": recorded(part.gap), "limit": recorded(limits.line_gap)}, paper)


def _box(part: Part) -> Named:
    left, top, _, _ = edges_of(part)
    width, height = sides_of(part)
    said = f"{part.id}, {width:g} × {height:g} mm at {left:g} and {top:g} mm"
    return named(shape_of(part), part.origin_at(shape_key(part)), said)


def _strong(part: Part, records: Records) -> list[str]:
    """The strong colours of a part, by ink."""
    inks = {str(c.ink): records.inks[c.ink] for c in part.colours}
    labs = {ink: colour.lab(record.swatch) for ink, record in inks.items() if record.kind == "colour"}
    return list(palette.strong_colours(labs, records.studio.limits.strong_chroma))


def _of_the_tray(plan: JobPlan, records: Records) -> Iterator[Applied]:
    """All inks at the most that each may take."""
    if plan.work is None:
        return
    # What a bottle gives to washes is in their caps, and not in its own.
    amounts = [
        poured.millilitres.high - (poured.in_washes.high if poured.in_washes is not None else 0.0)
        for poured in plan.work.tray.inks
        if poured.caps is not None
    ]
    said = ", ".join(f"{ml:.2f}" for ml in amounts) + "\u00a0mL, at the most"
    inks: dict[str, Operand] = {
        "millilitres": named(amounts, plan.job.origin_at("parts"), said),
        "cap": recorded(records.studio.limits.cap),
    }
    yield from applied_to(inks, supplies)


def _of_days(plan: JobPlan, records: Records) -> Iterator[Applied]:
    """As if the day of the job were the last entry of its record, and a mix made when its client comes."""
    job = plan.job
    day, again = named(job.date, job.date), next_sitting(records, job, job.date)
    yield from applied_in((retention(records, day), again))
    yield from applied_to({**dict(again.inputs), "start": day}, dates)
    mixed = datetime.datetime.combine(job.date, job.start)
    for product in records.disinfectants.values():
        if product.mix_life is not None:
            made = named(mixed, job.start, f"{mixed:%Y-%m-%d, %H:%M}")
            yield from applied_to({"mixed": made, "shelf_life": recorded(product.mix_life)}, disinfection)
