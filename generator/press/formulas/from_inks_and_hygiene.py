"""Inputs for live examples from inks, disinfectants and vibration: the first record that fits, whatever its id."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from generator.planning.computed import Named, Operand, plain, recorded
from generator.planning.supplies.mixes import measured_mix, mix_inputs
from generator.planning.working.vibration import in_hand
from generator.press.formulas.example_inputs import Inputs, TakenFrom, Taking
from generator.quantities import shown
from generator.records.hygiene import Disinfectant
from generator.records.inks import Ink
from generator.trade import colour, dates, disinfection, palette, sterilization, vibration
from generator.trade.refusal import Refusal


def _shown_as(ink: Ink) -> Named:
    return Named(ink.swatch, ink.swatch, f"inks.{ink.id}.swatch", ink.source)


def _lab_of(ink: Ink) -> Named:
    found = colour.lab(ink.swatch)
    said = f"L* {found.lightness:.0f}, a* {found.a:.0f}, b* {found.b:.0f} from {ink.swatch}"
    return Named(found, said, f"inks.{ink.id}.swatch", ink.source)


def _of_kind(taken_from: TakenFrom, kind: str) -> list[Ink]:
    return [ink for ink in taken_from.records.inks.values() if ink.kind == kind]


def _colours(taken_from: TakenFrom) -> Inputs:
    """One coloured ink, two of them, and all of them together."""
    inks = _of_kind(taken_from, "colour")
    if len(inks) < 2:
        return None
    first, second = inks[:2]
    limits, source = taken_from.records.studio.limits, taken_from.records.studio.source
    strong = plain(limits.strong_chroma, "studio.limits.strong_chroma", source)
    together = Named({ink.id: colour.lab(ink.swatch) for ink in inks}, f"{len(inks)} inks of kind colour", "inks")
    return {
        "swatch": _shown_as(first),
        "colour": _lab_of(first),
        "ink": _lab_of(first),
        "first": _lab_of(first),
        "second": _lab_of(second),
        "inks": together,
        "neutral_below": strong,
        "chroma_from": strong,
        "kind": Named(first.kind, first.kind, f"inks.{first.id}.kind", first.source),
        "lightness": plain(colour.lab(first.swatch).lightness, f"inks.{first.id}.swatch", first.source),
    }


def _opened(taken_from: TakenFrom) -> Inputs:
    """The first bottle that is open."""
    for ink in taken_from.records.inks.values():
        for lot in ink.lots:
            if lot.opened is None:
                continue
            where = f"inks.{ink.id}.lots"
            opened = Named(lot.opened, lot.opened.isoformat(), where, ink.source)
            life = int(ink.opened_life.low)
            months = Named(life, f"{life}\u00a0months", f"inks.{ink.id}.opened_life", ink.source)
            printed = Named(lot.expires, lot.expires.isoformat(), where, ink.source)
            return {
                "start": opened,
                "months": months,
                "opened": opened,
                "life_months": months,
                "printed": printed,
                "due": printed,
                "on": Named(taken_from.as_of, f"{taken_from.as_of.isoformat()}, the day of these pages", ""),
            }
    return None


def _reviewed(taken_from: TakenFrom) -> Inputs:
    """The first procedure."""
    for procedure in taken_from.records.procedures.values():
        where = f"procedures.{procedure.id}"
        months = int(procedure.interval.low)
        return {
            "reviewed": Named(procedure.reviewed, procedure.reviewed.isoformat(), f"{where}.reviewed"),
            "months": Named(months, f"{months}\u00a0months", f"{where}.interval"),
        }
    return None


def _disinfectant(form: str) -> Taking:
    def taking(taken_from: TakenFrom) -> Inputs:
        return next((i for i in _mixed(taken_from, form)), None)

    return taking


def _mixed(taken_from: TakenFrom, form: str) -> Iterator[Mapping[str, Operand]]:
    for product in taken_from.records.disinfectants.values():
        if product.form == form:
            found = _batch(product, taken_from)
            if found is not None:
                yield found


def _batch(product: Disinfectant, taken_from: TakenFrom) -> Inputs:
    """One batch of a product, in the studio's first system of units; None for one that is ready to use."""
    if product.batch is None:
        return None
    return mix_inputs(product, product.batch, taken_from.records.studio.units)


def _measured(form: str) -> Taking:
    """One batch as it is measured, in the studio's first system of units."""

    def taking(taken_from: TakenFrom) -> Inputs:
        for product in taken_from.records.disinfectants.values():
            if product.form == form and product.batch is not None:
                units = taken_from.records.studio.units
                mix = measured_mix(product, product.batch, units, taken_from.records)
                if not isinstance(mix, Refusal):
                    return dict(mix.inputs)
        return None

    return taking


def _made(form: str) -> Taking:
    """What one batch holds, with the product and the water of it as they are measured."""

    def taking(taken_from: TakenFrom) -> Inputs:
        found, units = _measured(form)(taken_from), taken_from.records.studio.units
        if found is None:
            return None
        name, kind = ("powder", "weight") if form == "powder" else ("product", "volume")
        mix: Callable[..., tuple[float, float]] = disinfection.powder_for if form == "powder" else disinfection.mix_for
        taken, water = mix(**{name: o.value if isinstance(o, Named) else o.low for name, o in found.items()})
        return {
            "strength": found[name],
            name: Named(taken, shown(taken, taken, kind, units), ""),
            "water": Named(water, shown(water, water, "volume", units), ""),
        }

    return taking


def _vibrating(taken_from: TakenFrom) -> Inputs:
    """The first machine whose maker states a figure, in the hand for one longest sitting."""
    for machine in taken_from.records.machines.values():
        found = in_hand(taken_from.records, machine)
        if found is not None:
            return found
    return None


def _load(seconds: int) -> Taking:
    """The first logged load against its cycle; readings last so many seconds to the unit that the formula takes."""

    def taking(taken_from: TakenFrom) -> Inputs:
        limits, source = taken_from.records.studio.limits, taken_from.records.studio.source
        for load in taken_from.records.loads.values():
            cycle = taken_from.records.cycles[load.cycle]
            if cycle.upper is None:
                continue
            where = f"cycles.{cycle.id}"
            samples = [sterilization.Sample(held.low * 60 / seconds, read.low) for held, read in load.samples]
            return {
                "samples": Named(samples, f"{len(samples)} readings", f"loads.{load.id}.samples", load.source or ""),
                "reference": recorded(limits.f0_reference, "studio.limits.f0_reference", source),
                "z": recorded(limits.f0_z, "studio.limits.f0_z", source),
                "temperature": recorded(cycle.temperature, f"{where}.temperature", cycle.source),
                "minutes": recorded(cycle.holding_time, f"{where}.holding_time", cycle.source),
                "upper_limit": recorded(cycle.upper, f"{where}.upper", cycle.source),
            }
        return None

    return taking


def _washed(taken_from: TakenFrom) -> Inputs:
    """A0 has the reference of its standard; only the readings are the load's."""
    found = _load(1)(taken_from)
    return found and {"samples": found["samples"]}


INKS_AND_HYGIENE: dict[Callable[..., object], Taking] = {
    colour.lab: _colours,
    colour.chroma: _colours,
    colour.hue: _colours,
    colour.difference: _colours,
    palette.hue_family: _colours,
    palette.hue_families: _colours,
    palette.strong_colours: _colours,
    palette.laying_order: _colours,
    dates.add_months: _opened,
    dates.opened_ink_expiry: _opened,
    dates.overdue: _opened,
    dates.next_review: _reviewed,
    disinfection.powder_per_litre: _disinfectant("powder"),
    disinfection.mix_for: _measured("liquid"),
    disinfection.powder_for: _measured("powder"),
    disinfection.dissolved_strength: _made("powder"),
    disinfection.mixed_strength: _made("liquid"),
    sterilization.a0: _washed,
    sterilization.f0: _load(60),
    sterilization.hold_against_cycle: _load(60),
    vibration.daily_exposure: _vibrating,
    vibration.combined_exposure: _vibrating,
    vibration.exposure_points: _vibrating,
    vibration.hours_left: _vibrating,
}
