"""Inputs for live examples from one planned job: what only a piece has, such as its parts, its size and its tray."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterator
from dataclasses import fields, is_dataclass
from typing import Any

from generator.planning.computed import Computed, Named, Operand, Recorded, plain, recorded
from generator.planning.plan import JobPlan
from generator.planning.working.scars import strip_of
from generator.planning.working.shapes import edges_of, shape_key, shape_of, sides_of
from generator.press.formulas.example_inputs import Inputs, TakenFrom, Taking
from generator.records.jobs import Job, Part
from generator.trade import body, clock, colour, dates, disinfection, layout, palette, paper, shapes, supplies


def computed_in(found: object) -> Iterator[Computed]:
    """Every computed value in a plan or a piece of one, the inputs of computed values included."""
    if isinstance(found, Computed):
        yield found
        for _, operand in found.inputs:
            yield from computed_in(operand)
    elif isinstance(found, tuple):
        for item in found:
            yield from computed_in(item)
    elif is_dataclass(found) and found.__class__.__module__.startswith("generator.planning."):
        for field in fields(found):
            yield from computed_in(getattr(found, field.name))


def _planned(function: Callable[..., Any]) -> Taking:
    """The inputs of the first value in the plan that this formula gave."""

    def taking(taken_from: TakenFrom) -> Inputs:
        found = (value for value in computed_in(taken_from.plan) if value.function is function)
        return next((dict(value.inputs) for value in found), None)

    return taking


def _piece(taking: Callable[[JobPlan, TakenFrom], Inputs]) -> Taking:
    """A taking that needs a planned job."""
    return lambda taken_from: None if taken_from.plan is None else taking(taken_from.plan, taken_from)


def _box(job: Job, part: Part) -> Named:
    left, top, _, _ = edges_of(part)
    width, height = sides_of(part)
    said = f"{part.id}, {width:g} × {height:g} mm at {left:g} and {top:g} mm"
    return Named(shape_of(part), said, f"jobs.{job.id}.parts.{part.id}.{shape_key(part)}")


def _sides(job: Job) -> dict[str, Operand]:
    width, height = (recorded(side, f"jobs.{job.id}.size") for side in job.size)
    return {"width": width, "height": height}


def _wrapped(plan: JobPlan, taken_from: TakenFrom) -> Inputs:
    return None if plan.placement.wrap is None else dict(plan.placement.wrap.inputs)


def _taped(plan: JobPlan, taken_from: TakenFrom) -> Inputs:
    """The limb between the tapes at the upper and the lower edge of the piece, at its first part."""
    job = plan.job
    if job.girth is None or plan.placement.wrap is None:
        return None
    sides, part = _sides(job), job.parts[0]
    _, top, _, _ = edges_of(part)
    return {
        "width": sides["width"],
        "distance": sides["height"],
        "below_top": Recorded(
            top, top, "length", f"jobs.{job.id}.parts.{part.id}.{shape_key(part)}", text=f"{top:g} mm"
        ),
        "girth_top": recorded(job.girth.top, f"jobs.{job.id}.girth.top"),
        "girth_bottom": recorded(job.girth.bottom, f"jobs.{job.id}.girth.bottom"),
    }


def _poured(plan: JobPlan, taken_from: TakenFrom) -> Inputs:
    """All inks of the job at the most that each may take."""
    if plan.work is None:
        return None
    amounts = [poured.millilitres.high for poured in plan.work.tray.inks]
    limits = taken_from.records.studio.limits
    return {
        "millilitres": Named(
            amounts, ", ".join(f"{ml:.2f}" for ml in amounts) + "\u00a0mL, at the most", f"jobs.{plan.job.id}.parts"
        ),
        "cap": recorded(limits.cap, "studio.limits.cap", taken_from.records.studio.source),
    }


def _bought(plan: JobPlan, taken_from: TakenFrom) -> Inputs:
    """The first article of the tray against the shelf, as if this job were the only one coming."""
    for counted in plan.work.tray.supplies if plan.work else ():
        supply = counted.supply
        where = f"supplies.{supply.id}"
        return {
            "need": counted.number,
            "stock": plain(supply.stock, f"{where}.stock", supply.source),
            "reserve": plain(supply.reserve, f"{where}.reserve", supply.source),
            "pack": plain(supply.pack, f"{where}.pack", supply.source),
        }
    return None


def _weeks(plan: JobPlan, taken_from: TakenFrom) -> Inputs:
    """Weeks between sittings and to the touch-up, from the day of the job."""
    job, limits, source = plan.job, taken_from.records.studio.limits, taken_from.records.studio.source
    day = Named(job.date, job.date.isoformat(), f"jobs.{job.id}.date")
    again = -int(-limits.same_skin_again.low // 7)
    rest = Named(again, limits.same_skin_again.text, "studio.limits.same_skin_again", source)
    first, last = (-int(-days // 7) for days in (limits.touch_up.low, limits.touch_up.high))
    where = "studio.limits.touch_up"
    return {
        "start": day,
        "done": day,
        "weeks": rest,
        "first_weeks": Named(first, f"{first} weeks", where, source),
        "last_weeks": Named(last, f"{last} weeks", where, source),
    }


def _kept(plan: JobPlan, taken_from: TakenFrom) -> Inputs:
    """How long the record of the job is kept, as if the day of the job were its last entry."""
    job, limits = plan.job, taken_from.records.studio.limits
    years = int(limits.retention.low) // 12
    return {
        "last_entry": Named(job.date, job.date.isoformat(), f"jobs.{job.id}.date"),
        "years": Named(years, limits.retention.text, "studio.limits.retention", limits.retention_source),
    }


def _mixed_on_the_day(taken_from: TakenFrom) -> Inputs:
    """A mix that is made when the client of the job comes."""
    life = next((p for p in taken_from.records.disinfectants.values() if p.mix_life is not None), None)
    if taken_from.plan is None or life is None or life.mix_life is None:
        return None
    job = taken_from.plan.job
    mixed = datetime.datetime.combine(job.date, job.start)
    return {
        "mixed": Named(mixed, f"{mixed:%Y-%m-%d, %H:%M}", f"jobs.{job.id}.start"),
        "shelf_life": recorded(life.mix_life, f"disinfectants.{life.id}.mix_life", life.source),
    }


def _divided(plan: JobPlan, taken_from: TakenFrom) -> Inputs:
    """The parts with their strong colours over the nine places of the piece."""
    job, records = plan.job, taken_from.records
    parts = {str(part.id): shape_of(part) for part in job.parts}
    strong = {str(part.id): [str(c.ink) for c in part.colours if _strong(taken_from, str(c.ink))] for part in job.parts}
    named = {part: inks for part, inks in strong.items() if inks}
    if not named:
        return None
    said = "; ".join(f"{part}: {', '.join(records.inks[ink].name for ink in inks)}" for part, inks in named.items())
    sides = [side.low for side in job.size]
    return {
        "parts": Named(parts, f"{len(parts)} parts", f"jobs.{job.id}.parts"),
        "colours": Named(named, said, f"jobs.{job.id}.parts"),
        "places": Named(layout.nine_places(*sides), "the nine places of the piece", f"jobs.{job.id}.size"),
    }


def _strong(taken_from: TakenFrom, ink: str) -> bool:
    record = taken_from.records.inks[ink]
    labs = {ink: colour.lab(record.swatch)}
    return record.kind == "colour" and bool(
        palette.strong_colours(labs, taken_from.records.studio.limits.strong_chroma)
    )


def _lined(plan: JobPlan, taken_from: TakenFrom) -> Inputs:
    job, limits = plan.job, taken_from.records.studio.limits
    return {
        "parts": Named(
            {str(part.id): shape_of(part) for part in job.parts}, f"{len(job.parts)} parts", f"jobs.{job.id}.parts"
        ),
        "hand": Named(plan.artist.hand, plan.artist.hand, f"people.{plan.artist.id}.hand"),
        "turned": _turned(job),
        "row": recorded(limits.lining_row, "studio.limits.lining_row", taken_from.records.studio.source),
    }


def _turned(job: Job) -> Named:
    if job.pose_turned is None:
        return Named(0.0, "not turned, its top points away from the artist", f"jobs.{job.id}.pose")
    return Named(job.pose_turned.low, job.pose_turned.text, f"jobs.{job.id}.pose_turned")


def _parts(plan: JobPlan, taken_from: TakenFrom) -> Inputs:
    """The first part, the second beside it, and everything else that it could be near to."""
    job = plan.job
    first, *others = job.parts
    if not others:
        return None
    named = {str(part.id): shape_of(part) for part in others}
    said = ", ".join(str(part.id) for part in job.parts)
    return {
        "shapes": Named(tuple(shape_of(part) for part in job.parts), said, f"jobs.{job.id}.parts"),
        "shape": _box(job, first),
        "first": _box(job, first),
        "second": _box(job, others[0]),
        "thing": _box(job, first),
        "others": Named(named, ", ".join(named), f"jobs.{job.id}.parts"),
        "direction": Named(90.0, "90°, down", ""),
    }


def _crossing(plan: JobPlan, taken_from: TakenFrom) -> Inputs:
    """A scar and the part that lies over it; only where it lies, never what it is."""
    job = plan.job
    for reading in plan.scars:
        scar = reading.scar
        for part in job.parts:
            if part.id in reading.crossed_by:
                said = f"scar {scar.id} as it lies on the map"
                strip = Named(strip_of(scar), said, f"jobs.{job.id}.scars.{scar.id}")
                return {"first": _box(job, part), "second": strip}
    return None


def _beside_a_mole(plan: JobPlan, taken_from: TakenFrom) -> Inputs:
    job = plan.job
    for mole in job.moles or ():
        keep = mole.keep or taken_from.records.studio.limits.mole_clearance
        spot = shapes.Spot(mole.at[0].low, mole.at[1].low, keep.low)
        said = f"at {spot.x:g} and {spot.y:g} mm, {spot.keep:g} mm kept clear"
        return {"shape": _box(job, job.parts[0]), "mole": Named(spot, said, f"jobs.{job.id}.moles")}
    return None


def _gap(plan: JobPlan, taken_from: TakenFrom) -> Inputs:
    studio = taken_from.records.studio
    limit = recorded(studio.limits.line_gap, "studio.limits.line_gap", studio.source)
    for part in plan.job.parts:
        if part.gap is not None:
            gap: Recorded = recorded(part.gap, f"jobs.{plan.job.id}.parts.{part.id}.gap")
            return {"gap": gap, "limit": limit}
    return None


PIECE: dict[Callable[..., object], Taking] = {
    body.wrap_angle: _piece(_wrapped),
    body.share_seen: _piece(_wrapped),
    body.projected_width: _piece(_wrapped),
    body.girth_at: _piece(_taped),
    body.band: _piece(_taped),
    clock.line_minutes: _planned(clock.line_minutes),
    clock.area_minutes: _planned(clock.area_minutes),
    clock.breaks_needed: _planned(clock.breaks_needed),
    clock.sittings: _planned(clock.sittings),
    clock.learned_factor: _planned(clock.learned_factor),
    supplies.ink_millilitres: _planned(supplies.ink_millilitres),
    supplies.ink_caps: _piece(_poured),
    supplies.packs_to_order: _piece(_bought),
    dates.add_weeks: _piece(_weeks),
    dates.touch_up_window: _piece(_weeks),
    dates.next_sitting_earliest: _piece(_weeks),
    dates.retention_end: _piece(_kept),
    disinfection.mix_expires: _mixed_on_the_day,
    layout.nine_places: _piece(lambda plan, _: _sides(plan.job)),
    layout.colour_by_place: _piece(_divided),
    layout.lining_order: _piece(_lined),
    paper.will_close: _piece(_gap),
    shapes.area: _piece(_parts),
    shapes.overlap: _piece(_crossing),
    shapes.covered: _piece(_parts),
    shapes.gap: _piece(_parts),
    shapes.reach: _piece(_parts),
    shapes.mole_clearance: _piece(_beside_a_mole),
}
