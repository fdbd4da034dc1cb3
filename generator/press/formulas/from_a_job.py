"""For formulas that plans apply without keeping how: what one planned job has, such as its parts and its tray."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

from generator.origins import NOWHERE
from generator.planning.computed import Named, Operand, compute, counted, named, recorded
from generator.planning.findings.weight import weighed
from generator.planning.plan import JobPlan
from generator.planning.timing.coming_back import next_sitting, retention
from generator.planning.working.scars import strip_of
from generator.planning.working.shapes import edges_of, shape_key, shape_of, sides_of
from generator.planning.working.steps import COLOURS
from generator.planning.working.widths import width_of
from generator.press.formulas.carried import Applied
from generator.records.families import Records
from generator.records.parts import Part
from generator.trade import body, colour, dates, disinfection, layout, palette, paper, shapes, supplies

_Row = tuple[tuple[Callable[..., object], ...], Mapping[str, Operand]]


def from_a_job(plan: JobPlan, records: Records) -> Iterator[Applied]:
    """Formulas with what they are shown with."""
    for rows in (_on_the_limb, _of_shapes, _of_the_tray, _of_days, _of_gaps, _of_narrow_places):
        for functions, inputs in rows(plan, records):
            for function in functions:
                yield Applied(function, inputs)


def _on_the_limb(plan: JobPlan, records: Records) -> Iterator[_Row]:
    """The limb between the tapes at the upper and the lower edge of the piece, at its first part."""
    job, width, height = plan.job, plan.placement.width, plan.placement.height
    yield (layout.nine_places,), {"width": width, "height": height}
    if job.girth is None or plan.placement.wrap is None:
        return
    around = dict(plan.placement.wrap.inputs)
    yield (body.opening,), around
    above, below = (
        compute(body.opening, "length", width=around["width"], girth=recorded(tape))
        for tape in (job.girth.top, job.girth.bottom)
    )
    yield (body.angle_of_ends,), {"opening_above": above, "opening_below": below, "height": height}
    part = job.parts[0]
    _, top, _, _ = edges_of(part)
    yield (
        (body.girth_at, body.band),
        {
            "width": width,
            "distance": height,
            "below_top": replace(counted(top, part.origin_at(shape_key(part)), "length"), text=f"{top:g} mm"),
            "girth_top": recorded(job.girth.top),
            "girth_bottom": recorded(job.girth.bottom),
        },
    )


def _of_shapes(plan: JobPlan, records: Records) -> Iterator[_Row]:
    """The first part and the second beside it, all parts together, and the first mole."""
    job, limits = plan.job, records.studio.limits
    drawn = {str(part.id): shape_of(part) for part in job.parts}
    parts = named(drawn, job.origin_at("parts"), f"{len(drawn)} parts")
    turned = job.pose_turned
    yield (
        (layout.lining_order,),
        {
            "parts": parts,
            "hand": named(plan.artist.hand, plan.artist.hand),
            "turned": named(0.0, job.origin_at("pose"), "not turned, its top points away from the artist")
            if turned is None
            else named(turned.low, turned, turned.text),
            "row": recorded(limits.lining_row),
        },
    )
    strong = {str(part.id): inks for part in job.parts if (inks := _strong(part, records))}
    if strong:
        said = "; ".join(
            f"{part}: {', '.join(records.inks[ink].name for ink in inks)}" for part, inks in strong.items()
        )
        places = layout.nine_places(*(side.low for side in job.size))
        yield (
            (layout.colour_by_place,),
            {
                "parts": parts,
                "colours": named(strong, job.origin_at("parts"), said),
                "places": named(places, job.origin_at("size"), "the nine places of the piece"),
            },
        )
    yield from _weights(plan, records)
    first = _box(job.parts[0])
    sides = job.size[0].low, job.size[1].low
    for mole in job.moles or ():
        spot = shapes.Spot(mole.at[0].low, mole.at[1].low, (mole.keep or limits.mole_clearance).low)
        said = f"at {spot.x:g} and {spot.y:g} mm, {spot.keep:g} mm kept clear"
        yield (shapes.mole_clearance,), {"shape": first, "mole": named(spot, job.origin_at("moles"), said)}
        yield (
            (shapes.nearest_shift,),
            {
                "shape": first,
                "keep_off": named((spot,), job.origin_at("moles"), f"a mole {said}"),
                "margin": recorded(limits.scar_margin),
                "within": named(shapes.Box(0, 0, *sides), job.origin_at("size"), "the piece"),
                "step": named(1.0, job.origin_at("size"), "1 mm"),
            },
        )
    for reading in plan.scars:
        # Only where it lies, never what it is.
        scar = reading.scar
        strip = named(strip_of(scar), scar.origin, f"scar {scar.id} as it lies on the map")
        for part in (part for part in job.parts if part.id in reading.crossed_by):
            yield (shapes.overlap,), {"first": _box(part), "second": strip}
    if len(job.parts) > 1:
        sized = [compute(shapes.area, "area", shape=_box(part)) for part in job.parts[:2]]
        yield (layout.size_step,), dict(zip(("first", "second"), sized, strict=True))
        yield (
            (shapes.area, shapes.centroid, shapes.overlap, shapes.covered, shapes.gap, shapes.reach),
            {
                "shapes": named(tuple(drawn.values()), job.origin_at("parts"), ", ".join(drawn)),
                "shape": first,
                "first": first,
                "second": _box(job.parts[1]),
                "direction": named(90.0, NOWHERE, "90°, down"),
            },
        )


def _weights(plan: JobPlan, records: Records) -> Iterator[_Row]:
    """The colours of the steps as they weigh on the eye, by thirds of the piece and round its middle."""
    job = plan.job
    steps = [step for step in plan.work.steps if step.section == COLOURS] if plan.work else []
    laid = tuple(weighed(step) for step in steps)
    size = job.origin_at("size")
    yield (layout.thirds,), {"width": plan.placement.width, "height": plan.placement.height}
    if not steps:
        return
    said = ", ".join(f"{step.ink.name} on {step.part.id}" for step in steps)
    first, ink = steps[0], named(colour.lab(steps[0].ink.swatch), steps[0].ink.origin_at("swatch"), steps[0].ink.name)
    area = counted((first.amount.low + first.amount.high) / 2, first.part.origin_at("colours"), "area")
    yield (palette.colour_weight,), {"ink": ink, "area": area}
    yield (
        (layout.weight_by_place, layout.centre_of_weight),
        {
            "laid": named(laid, job.origin_at("parts"), said),
            "places": named(layout.thirds(*(side.low for side in job.size)), size, "the thirds of the piece"),
        },
    )


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


def _of_the_tray(plan: JobPlan, records: Records) -> Iterator[_Row]:
    """All inks at the most that each may take, and the first article as if this job were the only one coming."""
    if plan.work is None:
        return
    tray, limits = plan.work.tray, records.studio.limits
    # What a bottle gives to washes is in their caps, and not in its own.
    amounts = [
        poured.millilitres.high - (poured.in_washes.high if poured.in_washes is not None else 0.0)
        for poured in tray.inks
        if poured.caps is not None
    ]
    said = ", ".join(f"{ml:.2f}" for ml in amounts) + "\u00a0mL, at the most"
    yield (
        (supplies.ink_caps,),
        {
            "millilitres": named(amounts, plan.job.origin_at("parts"), said),
            "cap": recorded(limits.cap),
        },
    )
    for taken in tray.supplies:
        supply = taken.supply
        shelf = {"stock": supply.stock, "reserve": supply.reserve, "pack": supply.pack}
        on_file = {name: recorded(number) for name, number in shelf.items()}
        yield (supplies.packs_to_order,), {"need": taken.number, **on_file}


def _of_days(plan: JobPlan, records: Records) -> Iterator[_Row]:
    """As if the day of the job were the last entry of its record, and a mix made when its client comes."""
    job = plan.job
    day = named(job.date, job.date)
    yield (dates.retention_end,), dict(retention(records, day).inputs)
    yield (dates.next_sitting_earliest,), dict(next_sitting(records, job, job.date).inputs)
    if plan.work is not None:
        weeks = dict(plan.work.touch_up.inputs)["first_weeks"]
        yield (dates.add_weeks,), {"start": day, "weeks": weeks}
    mixed = datetime.datetime.combine(job.date, job.start)
    for product in records.disinfectants.values():
        if product.mix_life is not None:
            made = named(mixed, job.start, f"{mixed:%Y-%m-%d, %H:%M}")
            yield (disinfection.mix_expires,), {"mixed": made, "shelf_life": recorded(product.mix_life)}


def _of_gaps(plan: JobPlan, records: Records) -> Iterator[_Row]:
    limit = recorded(records.studio.limits.line_gap)
    for part in plan.job.parts:
        if part.gap is not None:
            yield (paper.will_close,), {"gap": recorded(part.gap), "limit": limit}


def _of_narrow_places(plan: JobPlan, records: Records) -> Iterator[_Row]:
    """An area with a narrow place, as if the usual grouping of the first technique with rounds were to fill it."""
    magnums = (records.groupings[t.usual_grouping] for t in records.techniques.values() if t.rounds)
    wide = next((width_of(grouping) for grouping in magnums), None)
    for part in plan.job.parts:
        narrow = next((one.narrowest for one in part.colours if one.narrowest is not None), None)
        if wide is None or narrow is None:
            continue
        side = min(sides_of(part))
        yield (
            (shapes.not_reached, shapes.not_reached_by_taper),
            {
                "shape": _box(part),
                "narrowest": recorded(narrow),
                "widest": counted(side, part.origin_at(shape_key(part)), "length"),
                "width": wide,
            },
        )
