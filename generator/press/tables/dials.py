"""What to set each machine's dial to, by technique and grouping: one section a machine, in what its dial shows.

Machines come first, because one of them is before whoever looks; the page of techniques has them as columns.
"""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from generator.press.lists.here import Here, Step
from generator.press.tables.dial_settings import NOT_MEASURED, OnDial, on_dial, on_shelf
from generator.press.tables.needles import NEEDLE_DIAMETERS
from generator.press.words.addresses import anchor
from generator.press.words.markup import (
    Cells,
    bullets,
    heading,
    link,
    note,
    page,
    paragraph,
    table_of,
    valued,
    worth_of,
)
from generator.records.families import Records
from generator.records.machines import Machine
from generator.records.needles import Dial, Grouping, Technique
from generator.trade import labels

DIALS = "reference/dials.md"


def dials_page(here: Here) -> str:
    """One section for each machine, after the words that the labels are written in."""
    machines = here.records.machines.values()
    return page(
        "Dial by machine",
        paragraph(
            "Find your machine, then the technique and the row that has your grouping. A number in volts belongs to "
            "one machine with one stroke and is carried to no other."
        ),
        bullets(link(f"#{anchor('dials', m.id)}", f"{m.name}, set in {m.dial}") for m in machines)
        or paragraph("No machine is on file yet."),
        note(
            "How a label reads",
            *(_label_in_words(grouping, here) for grouping in list(here.records.groupings.values())[:1]),
            bullets(_configurations(here.records)),
            Markup("Needle diameters of all codes: {}.").format(here.to(NEEDLE_DIAMETERS, "needle diameters")),
        ),
        *(block for machine in machines for block in _machine(machine, here)),
        contents=False,
    )


def _label_in_words(grouping: Grouping, here: Here) -> str:
    """A label taken apart."""
    label = labels.read_label(grouping.label)
    return (
        f"{grouping.label} is {label.count} needles of "
        f"{here.calculated(label.needle_diameter, label.needle_diameter, 'needle length')} (the first two "
        f"digits stand for it), set as a {labels.CONFIGURATIONS[label.configuration]} ({label.configuration})."
    )


def _configurations(records: Records) -> Iterator[str]:
    """The letters that the shelf or a technique uses, in the order of the trade's list."""
    used = {labels.read_label(g.label).configuration for g in records.groupings.values()}
    used |= {c for technique in records.techniques.values() for row in technique.dials for c in row.configurations}
    return (f"{letters}: {name}" for letters, name in labels.CONFIGURATIONS.items() if letters in used)


def _machine(machine: Machine, here: Here) -> Iterator[str]:
    rows: list[tuple[str, Cells]] = []
    how: list[Step] = []
    for technique in here.records.techniques.values():
        for place, dial in enumerate(technique.dials if machine.id in technique.machines else ()):
            for number, found in enumerate(on_dial(technique, place, machine, here)):
                at = anchor("dial", machine.id, technique.id, str(place), *([str(number)] if number else []))
                rows.append((at, _setting(technique, dial, machine, found, here)))
                how += found.computed
    others = [t.name for t in here.records.techniques.values() if machine.id not in t.machines]
    yield heading(machine.name, anchor("dials", machine.id))
    yield paragraph(
        Markup("The dial shows {}, from {}. Strokes: {}. {}{}").format(
            "strokes a second (Hz)" if machine.dial == "Hz" else "volts",
            here.measured(machine.limits),
            "; ".join(here.measured(stroke) for stroke in machine.strokes),
            "" if machine.dial == "Hz" else f"“{NOT_MEASURED}” is never filled from another machine. ",
            f"Not worked with it: {', '.join(others)}." if others else "",
        )
    )
    yield table_of(f"{machine.name}: what to set its dial to", rows, "No technique is worked with it yet.")
    yield here.how_computed(f"volts of {machine.name}", how)


def _setting(technique: Technique, dial: Dial, machine: Machine, found: OnDial, here: Here) -> Cells:
    many = str(dial.fewest) if dial.fewest == dial.most else f"{dial.fewest}–{dial.most}"
    shelf = [here.to_record("groupings", g.id, g.label) for g in on_shelf(technique, dial, here.records)]
    worth, usual = worth_of(found.usual), Markup('<span class="dial">{}</span>').format(found.usual)
    return {
        "Technique": here.to_record("techniques", technique.id, technique.name),
        "Kind of grouping": _kinds(dial),
        "Needles": valued(many, dial.fewest, dial.most),
        "On the shelf": Markup(", ").join(shelf) or "none",
        "Set the dial to": valued(usual, *worth) if worth else found.usual,
        "Range": found.span or "no range",
        "Stroke": found.stroke,
        "Hang-out": _hang_out(technique, dial, machine, here),
        "Passes at most, then stop": str(dial.passes),
        "Source": here.to_source(technique.source),
    }


def _hang_out(technique: Technique, dial: Dial, machine: Machine, here: Here) -> str:
    """The part of the technique's range that the machine and every grouping of the row on the shelf can be set to."""
    usual = technique.hang_out
    limits = [usual, machine.hang_out, *(g.hang_out for g in on_shelf(technique, dial, here.records))]
    low, high = max(r.low for r in limits), min(r.high for r in limits)
    if low > high or (low, high) == (usual.low, usual.high):
        return here.measured(usual)
    return here.calculated(low, high, "needle length")


def _kinds(dial: Dial) -> str:
    """The configurations in words, with their letters: two sets of letters may mean the same thing."""
    names: dict[str, list[str]] = {}
    for letters in dial.configurations:
        names.setdefault(labels.CONFIGURATIONS[letters], []).append(letters)
    return ", ".join(f"{name} ({' or '.join(letters)})" for name, letters in names.items())
