"""One worked example for each formula, with the studio's own numbers, computed when the pages are built."""

from __future__ import annotations

import datetime
import inspect
import itertools
from collections.abc import Callable
from typing import NamedTuple

from generator.planning.plan import JobPlan
from generator.press.explained.docstrings import formulas
from generator.press.explained.worked import WorkedOut, worked
from generator.press.formulas.carried import applied_in, calculated
from generator.press.formulas.from_a_job import from_a_job
from generator.press.formulas.from_records import from_records
from generator.records.families import Records
from generator.trade import layout, palette, paper, scars, skin_tone, sterilization
from generator.trade.refusal import Refusal


class TakenFrom(NamedTuple):
    """What examples are taken from, and the day of the build.

    plan: that of one job which goes ahead; None while the studio has none. pages: what else the pages calculate,
    such as what is to be ordered and what finished jobs teach.
    """

    records: Records
    plan: JobPlan | None
    as_of: datetime.date
    pages: tuple[object, ...] = ()


_HEALTH = "a wound and a scar are a client’s answers about health, which no page shows"
_READING = "no record holds a reading of skin by a colour meter"
_PRINTER = "no record holds a printer or a canvas"

# Why a formula has no example. Nothing is typed in to have one: a number is in a record or it is not there.
WITHOUT: dict[Callable[..., object], str] = {
    palette.evenness: "no record says from when on a step jumps; the artist’s eye does",
    layout.light_before_dark: "no record says how near counts as beside and how much lighter counts as light",
    paper.strips_across: _PRINTER,
    paper.dots_per_mm: _PRINTER,
    paper.canvas_pixels: _PRINTER,
    sterilization.a0: "only loads of a sterilizer are on file, none of a washer",
    scars.maturity_months: _HEALTH,
    scars.earliest_date_by_age: _HEALTH,
    scars.scar_scale_total: _HEALTH,
    skin_tone.typology_angle: _READING,
    skin_tone.skin_class: _READING,
    skin_tone.ink_on_skin: _READING,
}


def examples(taken_from: TakenFrom) -> dict[Callable[..., object], WorkedOut]:
    """By formula the first example that it answers for; what plans and pages carry comes before what is looked up."""
    records, plan, as_of, pages = taken_from
    carried = applied_in((plan, *calculated(records), *pages))
    looked_up = itertools.chain(from_a_job(plan, records) if plan else (), from_records(records, as_of))
    shown: dict[Callable[..., object], WorkedOut] = {}
    for function, inputs in itertools.chain(carried, looked_up):
        if function in shown or function in WITHOUT or function not in formulas():
            continue
        # What a published standard fixes is the formula's own default, and no record has to repeat it.
        wanted = {name: inputs[name] for name in inspect.signature(function).parameters if name in inputs}
        try:
            shown[function] = worked(function, records, **wanted)
        except Refusal:
            continue
    return shown
