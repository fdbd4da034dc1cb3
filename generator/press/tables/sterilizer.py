"""Sterilizer cycles, which every studio may know, and its loads, for a studio that sterilizes anything."""

from __future__ import annotations

from markupsafe import Markup

from generator.planning.supplies.sterilizer import LoadReading, read_loads
from generator.press.explained.worked import value_in_words
from generator.press.lists.here import Here
from generator.press.words.addresses import PAGE_OF, anchor
from generator.press.words.formatted import yes_no
from generator.press.words.markup import Cells, bullets, note, page, paragraph, table_of
from generator.records.sterilizer import Cycle
from generator.trade import sterilization

CYCLES, LOADS = PAGE_OF["cycles"], PAGE_OF["loads"]
_SAYS = {
    "out": "out: do not use",
    "wait": "wait: do not use yet",
    "ask": "ask before use",
    "nothing against it": "nothing on file against it; whoever ran it looks at packs and indicators, and decides",
}


def cycles_page(here: Here) -> str:
    """The cycles as knowledge, and where the loads stand."""
    if here.records.studio.reprocessing:
        used = paragraph(Markup("Loads against their cycles: {}.").format(here.to(LOADS, "the sterilizer")))
    else:
        used = paragraph("Nothing is sterilized here: all that touches skin is single-use. The cycles are knowledge.")
    return page(
        "Sterilizer cycles",
        note(
            "The manual comes first",
            "The sterilizer’s own manual, the label of the pack and local codes come before "
            "any table. A cycle is run in full, whatever a formula says.",
        ),
        used,
        table_of("Steam cycles", here.rows("cycles", here.records.cycles.values(), _cycle)),
    )


def _cycle(cycle: Cycle, here: Here) -> Cells:
    return {
        "Cycle": cycle.name,
        "Air leaves by": cycle.method,
        "Temperature": here.measured(cycle.temperature),
        "Hold": here.measured(cycle.holding_time),
        "Upper limit": "none on file – ask the maker" if cycle.upper is None else here.measured(cycle.upper),
        "Drying": here.measured(cycle.dry),
        "For": cycle.good_for,
    }


def sterilizer_page(here: Here) -> str:
    """Every load against its cycle."""
    limits = here.records.studio.limits
    readings = [(anchor("loads", reading.load.id), reading) for reading in read_loads(here.records)]
    how = (
        step
        for at, reading in readings
        for step in (
            (f"{at}-hold", f"{reading.load.id}, hold", reading.held),
            (f"{at}-f0", f"{reading.load.id}, F0 at {limits.f0_reference.text}", reading.lethality),
        )
    )
    return page(
        "The sterilizer",
        note(
            "A number clears no load",
            "Nothing here says that a load is free of germs. Hold and F0 come from the "
            "logger; air that stayed in, wet packs and the coldest place are not in them. In doubt a load is not "
            "used.",
        ),
        note(
            "When a biological indicator fails",
            "Out of service at once. Recall everything back to the last negative "
            "one, have the sterilizer looked at, test it again, and return it only when the test is negative.",
        ),
        paragraph(
            Markup(
                "F0 is calculated at a reference of {} with z of {}, by the formula “{}”; published references "
                "differ, so compare it only with one that names the same. Holds by the formula “{}”."
            ).format(
                limits.f0_reference.text,
                here.measured(limits.f0_z),
                here.to_formula(sterilization.f0),
                here.to_formula(sterilization.hold_against_cycle),
            )
        ),
        table_of("Loads against their cycles", ((at, _load(reading, here)) for at, reading in readings)),
        here.how_computed("holds and F0", how),
    )


def _load(reading: LoadReading, here: Here) -> Cells:
    load, cycle, reference = reading.load, reading.cycle, here.records.studio.limits.f0_reference.text
    found = bullets(f"{standing}: {reason}" for standing, reason in reading.found)
    return {
        "Load": load.id,
        "Standing": _SAYS[reading.standing],
        "What was found": found or "nothing",
        "Day": load.date.isoformat(),
        "Cycle": here.to_record("cycles", cycle.id, cycle.name),
        "Longest hold": value_in_words(reading.held, here.records),
        "Cycle asks for": f"{cycle.holding_time.text} at {cycle.temperature.text}",
        f"F0 at {reference}": f"{value_in_words(reading.lethality, here.records)} at {reference}",
        "Chemical indicators passed": yes_no(load.chemical_passed),
        "Biological indicator": load.biological or "none in this load",
        "Logged": "; ".join(f"{lasted.text} at {reading.text}" for lasted, reading in load.samples),
        "Run by": here.to_entry(load.who),
        "Source": "none named" if load.source is None else here.to_source(load.source),
    }
