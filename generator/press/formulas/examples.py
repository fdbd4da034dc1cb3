"""One worked example for each formula, with the studio's own numbers, computed when the pages are built."""

from __future__ import annotations

import inspect
from collections.abc import Callable

from generator.press.explained.worked import WorkedOut, worked
from generator.press.formulas.example_inputs import TakenFrom, Taking
from generator.press.formulas.from_a_job import PIECE
from generator.press.formulas.from_inks_and_hygiene import INKS_AND_HYGIENE
from generator.press.formulas.from_needles import SETTINGS
from generator.trade import layout, palette, paper, scars, skin_tone
from generator.trade.refusal import Refusal

# How the inputs of a formula are taken from the records.
TAKEN: dict[Callable[..., object], Taking] = {**SETTINGS, **INKS_AND_HYGIENE, **PIECE}

_HEALTH = "a wound and a scar are a client’s answers about health, which no page shows"
_READING = "no record holds a reading of skin by a colour meter"
_PRINTER = "no record holds a printer or a canvas"

# Why a formula has no example. Nothing is typed in to have one: a number stands in a record or it is not there.
WITHOUT: dict[Callable[..., object], str] = {
    palette.evenness: "no record says from when on a step jumps; the artist’s eye does",
    layout.light_before_dark: "no record says how near counts as beside and how much lighter counts as light",
    paper.strips_across: _PRINTER,
    paper.stencil_strips: _PRINTER,
    paper.dots_per_mm: _PRINTER,
    paper.canvas_pixels: _PRINTER,
    scars.wound_day: _HEALTH,
    scars.maturity_months: _HEALTH,
    scars.earliest_date_by_age: _HEALTH,
    scars.scar_scale_total: _HEALTH,
    skin_tone.typology_angle: _READING,
    skin_tone.skin_class: _READING,
    skin_tone.ink_on_skin: _READING,
}


def example_of(function: Callable[..., object], taken_from: TakenFrom) -> WorkedOut | None:
    """The example, or None where no record of this studio fits."""
    taking = TAKEN.get(function)
    found = None if taking is None else taking(taken_from)
    if found is None:
        return None
    # What a published standard fixes is the formula's own default, and no record has to repeat it.
    wanted = {
        name: found[name]
        for name, parameter in inspect.signature(function).parameters.items()
        if name in found or parameter.default is inspect.Parameter.empty
    }
    try:
        return worked(function, taken_from.records, **wanted)
    except Refusal:
        # This studio's first record is one that the formula cannot answer for.
        return None
