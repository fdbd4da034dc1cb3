"""What to set each machine's dial to, by technique and grouping: one section a machine, in what its dial shows.

Machines come first, because one of them is before whoever looks; the page of techniques has them as columns.
"""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from generator.planning.working.technique import dial_row
from generator.press.explained.worked import WorkedOut, how_computed
from generator.press.tables.dial_settings import NOT_MEASURED, on_dial
from generator.press.words.addresses import PAGE_OF, address, anchor, to_record, to_source
from generator.press.words.formatted import calculated, measured
from generator.press.words.markup import Row, bullets, heading, link, note, page, paragraph, table, valued, worth_of
from generator.records.families import Records
from generator.records.machines import Machine
from generator.records.needles import Dial, Technique
from generator.trade import labels

DIALS = "reference/dials.md"
_COLUMNS = (
    "Technique",
    "Kind of grouping",
    "Needles",
    "On the shelf",
    "Set the dial to",
    "Range",
    "Stroke",
    "Hang-out",
    "Passes at most, then stop",
    "Source",
)


def dials_page(records: Records, here: str) -> str:
    """One section for each machine, after the words that the labels are written in."""
    blocks: list[str] = []
    for machine in records.machines.values():
        blocks += _machine(machine, records, here)
    return page(
        "Dial by machine",
        paragraph(
            "Find your machine, then the technique and the row that has your grouping. A number in volts belongs to "
            "one machine with one stroke and is carried to no other."
        ),
        bullets(link(f"#{anchor('dials', m.id)}", f"{m.name}, set in {m.dial}") for m in records.machines.values())
        or paragraph("No machine is on file yet."),
        note(
            "How a label reads",
            *_label_in_words(records),
            bullets(_configurations(records)),
            Markup("Needle diameters of all codes: {}.").format(
                link(address(here, "reference/needle-diameters.md"), "needle diameters")
            ),
        ),
        *blocks,
        contents=False,
    )


def _label_in_words(records: Records) -> Iterator[str]:
    """The first label on the shelf, taken apart."""
    for grouping in list(records.groupings.values())[:1]:
        label = labels.read_label(grouping.label)
        yield (
            f"{grouping.label} is {label.count} needles of "
            f"{calculated(label.needle_diameter, label.needle_diameter, 'needle length', records)} (the first two "
            f"digits stand for it), set as a {labels.CONFIGURATIONS[label.configuration]} ({label.configuration})."
        )


def _configurations(records: Records) -> Iterator[str]:
    """The letters that the shelf or a technique uses, in the order of the trade's list."""
    used = {labels.read_label(g.label).configuration for g in records.groupings.values()}
    used |= {c for technique in records.techniques.values() for row in technique.dials for c in row.configurations}
    return (f"{letters}: {name}" for letters, name in labels.CONFIGURATIONS.items() if letters in used)


def _machine(machine: Machine, records: Records, here: str) -> Iterator[str]:
    rows, how = [], []
    for technique in records.techniques.values():
        if machine.id in technique.machines:
            for place in range(len(technique.dials)):
                for row, computed in _rows(technique, place, machine, records, here):
                    rows.append(row)
                    how += computed
    others = [t.name for t in records.techniques.values() if machine.id not in t.machines]
    yield heading(machine.name, anchor("dials", machine.id))
    yield paragraph(
        Markup("The dial shows {}, from {}. Strokes: {}. {}{}").format(
            "strokes a second (Hz)" if machine.dial == "Hz" else "volts",
            measured(machine.limits, records),
            "; ".join(measured(stroke, records) for stroke in machine.strokes),
            "" if machine.dial == "Hz" else f"“{NOT_MEASURED}” is never filled from another machine. ",
            f"Not worked with it: {', '.join(others)}." if others else "",
        )
    )
    yield table(f"{machine.name}: what to set its dial to", _COLUMNS, rows, "No technique is worked with it yet.")
    yield how_computed(f"volts of {machine.name}", how, records, here)


def _rows(
    technique: Technique, place: int, machine: Machine, records: Records, here: str
) -> Iterator[tuple[Row, list[tuple[str, str, WorkedOut]]]]:
    dial = technique.dials[place]
    for number, found in enumerate(on_dial(records, technique, place, machine, here)):
        at = anchor("dial", machine.id, technique.id, str(place), *([str(number)] if number else []))
        setting = Markup('<span class="dial">{}</span>').format(found.usual)
        yield (
            Row(
                at,
                (
                    to_record(here, "techniques", technique.id, technique.name),
                    _kinds(dial),
                    valued(
                        str(dial.fewest) if dial.fewest == dial.most else f"{dial.fewest}–{dial.most}",
                        dial.fewest,
                        dial.most,
                    ),
                    Markup(", ").join(_shelf(technique, dial, records, here)) or "none",
                    valued(setting, *worth_of(found.usual)) if worth_of(found.usual) else found.usual,
                    found.span or "no range",
                    found.stroke,
                    _hang_out(technique, dial, machine, records),
                    str(dial.passes),
                    to_source(here, technique.source, records),
                ),
            ),
            list(found.computed),
        )


def _hang_out(technique: Technique, dial: Dial, machine: Machine, records: Records) -> str:
    """The part of the technique's range that the machine and every grouping of the row on the shelf can be set to."""
    usual = technique.hang_out
    groupings = (g for g in records.groupings.values() if dial_row(technique, g) is dial)
    limits = [usual, machine.hang_out, *(g.hang_out for g in groupings)]
    low, high = max(r.low for r in limits), min(r.high for r in limits)
    if low > high or (low, high) == (usual.low, usual.high):
        return measured(usual, records)
    return calculated(low, high, "needle length", records)


def _kinds(dial: Dial) -> str:
    """The configurations in words, with their letters: two sets of letters may mean the same thing."""
    names: dict[str, list[str]] = {}
    for letters in dial.configurations:
        names.setdefault(labels.CONFIGURATIONS[letters], []).append(letters)
    return ", ".join(f"{name} ({' or '.join(letters)})" for name, letters in names.items())


def _shelf(technique: Technique, dial: Dial, records: Records, here: str) -> Iterator[Markup]:
    for grouping in records.groupings.values():
        if dial_row(technique, grouping) is dial:
            yield link(address(here, PAGE_OF["groupings"], anchor("groupings", grouping.id)), grouping.label)
