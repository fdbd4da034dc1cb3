"""Sterilizer cycles, which every studio may know, and its loads, for a studio that sterilizes anything."""

from __future__ import annotations

from markupsafe import Markup

from generator.planning.supplies.sterilizer import LoadReading, read_loads
from generator.press.explained.worked import as_worked, how_computed, to_formula, value_in_words
from generator.press.words.addresses import PAGE_OF, address, anchor, to_record, to_source
from generator.press.words.formatted import measured, yes_no
from generator.press.words.markup import Row, bullets, link, note, page, paragraph, table
from generator.records.families import Records
from generator.records.sterilizer import Cycle
from generator.trade import sterilization

CYCLES, LOADS = PAGE_OF["cycles"], PAGE_OF["loads"]
_SAYS = {
    "out": "out: do not use",
    "wait": "wait: do not use yet",
    "ask": "ask before use",
    "nothing against it": "nothing on file against it; whoever ran it looks at packs and indicators, and decides",
}


def cycles_page(records: Records, here: str) -> str:
    """The cycles as knowledge, and where the loads stand."""
    columns = ("Cycle", "Air leaves by", "Temperature", "Hold", "Upper limit", "Drying", "For", "Source")
    if records.studio.reprocessing:
        used = paragraph(Markup("Loads against their cycles: {}.").format(link(address(here, LOADS), "the sterilizer")))
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
        table("Steam cycles", columns, (_cycle(cycle, records, here) for cycle in records.cycles.values())),
    )


def _cycle(cycle: Cycle, records: Records, here: str) -> Row:
    return Row(
        anchor("cycles", cycle.id),
        (
            cycle.name,
            cycle.method,
            measured(cycle.temperature, records),
            measured(cycle.holding_time, records),
            "none on file – ask the maker" if cycle.upper is None else measured(cycle.upper, records),
            measured(cycle.dry, records),
            cycle.good_for,
            to_source(here, cycle.source, records),
        ),
    )


def sterilizer_page(records: Records, here: str) -> str:
    """Every load against its cycle."""
    reference = records.studio.limits.f0_reference.text
    columns = (
        "Load",
        "Standing",
        "What was found",
        "Day",
        "Cycle",
        "Longest hold",
        "Cycle asks for",
        f"F0 at {reference}",
        "Chemical indicators passed",
        "Biological indicator",
        "Logged",
        "Run by",
        "Source",
    )
    readings = read_loads(records)
    how = [
        row
        for reading in readings
        for row in (
            (f"{_at(reading)}-hold", f"{reading.load.id}, hold", as_worked(reading.held, records)),
            (f"{_at(reading)}-f0", f"{reading.load.id}, F0 at {reference}", as_worked(reading.lethality, records)),
        )
    ]
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
                reference,
                measured(records.studio.limits.f0_z, records),
                to_formula(here, sterilization.f0),
                to_formula(here, sterilization.hold_against_cycle),
            )
        ),
        table("Loads against their cycles", columns, (_load(reading, records, here) for reading in readings)),
        how_computed("holds and F0", how, records, here),
    )


def _at(reading: LoadReading) -> str:
    return anchor("loads", reading.load.id)


def _load(reading: LoadReading, records: Records, here: str) -> Row:
    load, cycle = reading.load, reading.cycle
    return Row(
        _at(reading),
        (
            load.id,
            _SAYS[reading.standing],
            bullets(f"{standing}: {reason}" for standing, reason in reading.found) or "nothing",
            load.date.isoformat(),
            to_record(here, "cycles", cycle.id, cycle.name),
            value_in_words(reading.held, records),
            f"{cycle.holding_time.text} at {cycle.temperature.text}",
            f"{value_in_words(reading.lethality, records)} at {records.studio.limits.f0_reference.text}",
            yes_no(load.chemical_passed),
            load.biological or "none in this load",
            "; ".join(f"{lasted.text} at {reading.text}" for lasted, reading in load.samples),
            to_record(here, "people", load.who, records.people[load.who].name),
            "none named" if load.source is None else to_source(here, load.source, records),
        ),
    )
