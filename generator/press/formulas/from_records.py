"""For formulas that plans apply without keeping how: the first entry of the records that fits, whatever its id."""

from __future__ import annotations

import contextlib
import datetime
from collections.abc import Callable, Iterator

from generator.origins import NOWHERE
from generator.planning.computed import Named, Operand, counted, named, recorded
from generator.planning.supplies.mixes import measured_mixes
from generator.planning.supplies.sterilizer import read_loads
from generator.planning.working.calibration import volts_for_row
from generator.planning.working.strokes import usual_strokes
from generator.planning.working.swapping import hand_of, speed_of
from generator.planning.working.technique import dial_row
from generator.planning.working.vibration import in_hand
from generator.planning.working.widths import computed_width
from generator.press.formulas.carried import Applied, applied_to
from generator.quantities import Quantity
from generator.records.families import Records
from generator.records.needles import Grouping
from generator.trade import (
    calibration,
    colour,
    dates,
    disinfection,
    labels,
    motion,
    needle_positions,
    needles,
    palette,
    sterilization,
    vibration,
)
from generator.trade.refusal import Refusal

_Functions = tuple[Callable[..., object], ...]

# What a grouping is computed by: its letters, and for rounds how it is packed.
_BY_LETTERS: dict[str, _Functions] = {
    "F": (needles.flat_width, needle_positions.row_positions),
    "M1": (needles.weaved_magnum_width, needle_positions.weaved_positions),
    "M2": (needles.double_stack_width, needle_positions.stacked_positions),
    "CM": (needles.weaved_magnum_width, needle_positions.curved_positions),
    "RM": (needles.weaved_magnum_width, needle_positions.curved_positions),
}
_BY_PACKING: dict[str, _Functions] = {
    "tight": (needles.tightest_packing, needles.tightest_bundle, needle_positions.round_positions),
    "hollow": (needles.hollow_ring, needle_positions.ring_positions),
}


def from_records(records: Records, as_of: datetime.date) -> Iterator[Applied]:
    """Formulas with what they are shown with; several may fit one formula, and the first that it answers counts."""
    for grouping in records.groupings.values():
        configuration = labels.read_label(grouping.label).configuration
        of_kind = (*_BY_LETTERS.get(configuration, ()), *_BY_PACKING.get(grouping.packed, ()))
        with contextlib.suppress(Refusal):
            needles_of = _needles(grouping)
            yield from applied_to(needles_of, labels, needles.bugpin, needle_positions.needle_positions, *of_kind)
    for technique in records.techniques.values():
        usual = records.groupings[technique.usual_grouping]
        if dial_row(technique, usual) is not None:
            yield from applied_to({"frequency": speed_of(technique, usual), "hand_speed": hand_of(technique)}, motion)
    yield from _volts(records)
    yield from _colours(records)
    yield from _bottles(records, as_of)
    for procedure in records.procedures.values():
        if procedure.reviewed_by_owner is not None:
            reviewed = named(procedure.reviewed_by_owner, procedure.reviewed_by_owner)
            yield from applied_to({"reviewed": reviewed, "months": _months(procedure.interval)}, dates)
    yield from _mixed(records)
    for reading in read_loads(records):
        yield from applied_to(dict(reading.held.inputs), sterilization.hold_against_cycle)
    for machine in records.machines.values():
        yield from applied_to(in_hand(records, machine) or {}, vibration)


def _months(time: Quantity) -> Named:
    months = int(time.low)
    return named(months, time, f"{months}\u00a0months")


def _needles(grouping: Grouping) -> dict[str, Operand]:
    label = labels.read_label(grouping.label)
    return {
        **dict(computed_width(grouping).inputs),
        # Where only a row is asked for, its spread is a number and not perhaps none.
        **({} if grouping.spread is None else {"spread": recorded(grouping.spread)}),
        "code": named(label.code, grouping.label),
        "written": named(grouping.label, grouping.label),
        "letters": named(label.configuration, grouping.label),
    }


def _volts(records: Records) -> Iterator[Applied]:
    """Machines that were measured at the speed of a technique they are used for."""
    for technique in records.techniques.values():
        row = technique.dials[0]
        for machine in (records.machines[m] for m in technique.machines if records.machines[m].dial == "volts"):
            for stroke in usual_strokes(technique, machine.strokes)[:1]:
                volts = volts_for_row(records, machine, stroke, row, row.usual.low, row.usual)
                if volts is not None:
                    yield from applied_to({**dict(volts.inputs), "volts": volts}, calibration)


def _colours(records: Records) -> Iterator[Applied]:
    """One coloured ink, two of them, and all of them together."""
    inks = [ink for ink in records.inks.values() if ink.kind == "colour"]
    if len(inks) < 2:
        return
    first, second = (
        named(
            found := colour.lab(ink.swatch),
            ink.swatch,
            f"L* {found.lightness:.0f}, a* {found.a:.0f}, b* {found.b:.0f} from {ink.swatch}",
        )
        for ink in inks[:2]
    )
    swatch, kind = inks[0].swatch, inks[0].kind
    strong = recorded(records.studio.limits.strong_chroma)
    laid: dict[str, Operand] = {
        "swatch": named(swatch, swatch),
        "colour": first,
        "ink": first,
        "first": first,
        "second": second,
        "inks": named(
            {ink.id: colour.lab(ink.swatch) for ink in inks}, inks[0].origin.family, f"{len(inks)} inks of kind colour"
        ),
        "neutral_below": strong,
        "chroma_from": strong,
        "darker_than": recorded(records.studio.limits.composition.deep_red_lightness),
        "vivid_from": recorded(records.studio.limits.composition.deep_red_chroma),
        "kind": named(kind, kind),
        "lightness": counted(colour.lab(swatch).lightness, swatch),
    }
    yield from applied_to(laid, colour, palette)


def _bottles(records: Records, as_of: datetime.date) -> Iterator[Applied]:
    """Bottles that are open."""
    for ink in records.inks.values():
        months = _months(ink.opened_life)
        for lot in ink.lots:
            if lot.opened is not None:
                opened, printed = (named(day, day) for day in (lot.opened, lot.expires))
                bottle = {
                    "start": opened,
                    "months": months,
                    "opened": opened,
                    "life_months": months,
                    "printed": printed,
                    "due": printed,
                    "on": named(as_of, NOWHERE, f"{as_of.isoformat()}, the day of these pages"),
                }
                yield from applied_to(bottle, dates)


def _mixed(records: Records) -> Iterator[Applied]:
    """What one batch holds, with the product and the water of it as they are measured."""
    for product in records.disinfectants.values():
        for mix in measured_mixes(product, product.batch, records) if product.batch is not None else ():
            inputs = dict(mix.inputs)
            yield from applied_to(inputs, disinfection)
            name = "powder" if "powder" in inputs else "product"
            held: dict[str, Operand] = {
                "strength": inputs[name],
                name: named(mix.taken, NOWHERE, mix.product_in_words),
                "water": named(mix.water, NOWHERE, mix.water_in_words),
            }
            yield from applied_to(held, disinfection)
