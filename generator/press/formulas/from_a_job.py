"""For formulas that plans apply without keeping how: what one planned job has, such as its parts and its tray."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterator, Mapping

from generator.planning.computed import Named, Operand, Recorded, plain, recorded
from generator.planning.plan import JobPlan
from generator.planning.timing.coming_back import next_sitting, retention
from generator.planning.working.scars import strip_of
from generator.planning.working.shapes import edges_of, shape_key, shape_of, sides_of
from generator.press.formulas.carried import Applied
from generator.records.families import Records
from generator.records.jobs import Job, Part
from generator.trade import body, colour, dates, disinfection, layout, palette, paper, shapes, supplies

_Row = tuple[tuple[Callable[..., object], ...], Mapping[str, Operand]]


def from_a_job(plan: JobPlan, records: Records) -> Iterator[Applied]:
    """Formulas with what they are shown with."""
    for rows in (_on_the_limb, _of_shapes, _of_the_tray, _of_days, _of_gaps):
        for functions, inputs in rows(plan, records):
            for function in functions:
                yield Applied(function, inputs)


def _on_the_limb(plan: JobPlan, records: Records) -> Iterator[_Row]:
    """The limb between the tapes at the upper and the lower edge of the piece, at its first part."""
    job, width, height = plan.job, plan.placement.width, plan.placement.height
    yield (layout.nine_places,), {"width": width, "height": height}
    if job.girth is None or plan.placement.wrap is None:
        return
    yield (body.projected_width,), dict(plan.placement.wrap.inputs)
    part = job.parts[0]
    _, top, _, _ = edges_of(part)
    where = f"jobs.{job.id}.parts.{part.id}.{shape_key(part)}"
    yield (
        (body.girth_at, body.band),
        {
            "width": width,
            "distance": height,
            "below_top": Recorded(top, top, "length", where, text=f"{top:g} mm"),
            "girth_top": recorded(job.girth.top, f"jobs.{job.id}.girth.top"),
            "girth_bottom": recorded(job.girth.bottom, f"jobs.{job.id}.girth.bottom"),
        },
    )


def _of_shapes(plan: JobPlan, records: Records) -> Iterator[_Row]:
    """The first part and the second beside it, all parts together, and the first mole."""
    job, limits, source = plan.job, records.studio.limits, records.studio.source
    named = {str(part.id): shape_of(part) for part in job.parts}
    parts = Named(named, f"{len(named)} parts", f"jobs.{job.id}.parts")
    turned = job.pose_turned
    yield (
        (layout.lining_order,),
        {
            "parts": parts,
            "hand": Named(plan.artist.hand, plan.artist.hand, f"people.{plan.artist.id}.hand"),
            "turned": Named(0.0, "not turned, its top points away from the artist", f"jobs.{job.id}.pose")
            if turned is None
            else Named(turned.low, turned.text, f"jobs.{job.id}.pose_turned"),
            "row": recorded(limits.lining_row, "studio.limits.lining_row", source),
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
                "colours": Named(strong, said, f"jobs.{job.id}.parts"),
                "places": Named(places, "the nine places of the piece", f"jobs.{job.id}.size"),
            },
        )
    first = _box(job, job.parts[0])
    for mole in job.moles or ():
        spot = shapes.Spot(mole.at[0].low, mole.at[1].low, (mole.keep or limits.mole_clearance).low)
        said = f"at {spot.x:g} and {spot.y:g} mm, {spot.keep:g} mm kept clear"
        yield (shapes.mole_clearance,), {"shape": first, "mole": Named(spot, said, f"jobs.{job.id}.moles")}
    for reading in plan.scars:
        # Only where it lies, never what it is.
        strip = Named(
            strip_of(reading.scar),
            f"scar {reading.scar.id} as it lies on the map",
            f"jobs.{job.id}.scars.{reading.scar.id}",
        )
        for part in (part for part in job.parts if part.id in reading.crossed_by):
            yield (shapes.overlap,), {"first": _box(job, part), "second": strip}
    if len(job.parts) > 1:
        yield (
            (shapes.area, shapes.overlap, shapes.covered, shapes.gap, shapes.reach),
            {
                "shapes": Named(tuple(named.values()), ", ".join(named), f"jobs.{job.id}.parts"),
                "shape": first,
                "first": first,
                "second": _box(job, job.parts[1]),
                "direction": Named(90.0, "90°, down", ""),
            },
        )


def _box(job: Job, part: Part) -> Named:
    left, top, _, _ = edges_of(part)
    width, height = sides_of(part)
    said = f"{part.id}, {width:g} × {height:g} mm at {left:g} and {top:g} mm"
    return Named(shape_of(part), said, f"jobs.{job.id}.parts.{part.id}.{shape_key(part)}")


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
    amounts = [poured.millilitres.high for poured in tray.inks]
    said = ", ".join(f"{ml:.2f}" for ml in amounts) + "\u00a0mL, at the most"
    yield (
        (supplies.ink_caps,),
        {
            "millilitres": Named(amounts, said, f"jobs.{plan.job.id}.parts"),
            "cap": recorded(limits.cap, "studio.limits.cap", records.studio.source),
        },
    )
    for counted in tray.supplies:
        supply, where = counted.supply, f"supplies.{counted.supply.id}"
        shelf = {"stock": supply.stock, "reserve": supply.reserve, "pack": supply.pack}
        on_file = {name: plain(number, f"{where}.{name}", supply.source) for name, number in shelf.items()}
        yield (supplies.packs_to_order,), {"need": counted.number, **on_file}


def _of_days(plan: JobPlan, records: Records) -> Iterator[_Row]:
    """As if the day of the job were the last entry of its record, and a mix made when its client comes."""
    job = plan.job
    day = Named(job.date, job.date.isoformat(), f"jobs.{job.id}.date")
    yield (dates.retention_end,), dict(retention(records, day).inputs)
    yield (dates.next_sitting_earliest,), dict(next_sitting(records, job, job.date).inputs)
    if plan.work is not None:
        weeks = dict(plan.work.touch_up.inputs)["first_weeks"]
        yield (dates.add_weeks,), {"start": day, "weeks": weeks}
    mixed = datetime.datetime.combine(job.date, job.start)
    for product in records.disinfectants.values():
        if product.mix_life is not None:
            life = recorded(product.mix_life, f"disinfectants.{product.id}.mix_life", product.source)
            said = f"{mixed:%Y-%m-%d, %H:%M}"
            yield (disinfection.mix_expires,), {"mixed": Named(mixed, said, f"jobs.{job.id}.start"), "shelf_life": life}


def _of_gaps(plan: JobPlan, records: Records) -> Iterator[_Row]:
    studio = records.studio
    limit = recorded(studio.limits.line_gap, "studio.limits.line_gap", studio.source)
    for part in plan.job.parts:
        if part.gap is not None:
            gap = recorded(part.gap, f"jobs.{plan.job.id}.parts.{part.id}.gap")
            yield (paper.will_close,), {"gap": gap, "limit": limit}
