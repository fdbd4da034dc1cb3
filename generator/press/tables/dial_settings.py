"""A row of a technique's speeds in the setting of each machine: hertz where its dial shows them, else its volts."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from markupsafe import Markup

from generator.planning.working.calibration import volts_for_row
from generator.planning.working.strokes import usual_strokes
from generator.planning.working.technique import dial_row
from generator.press.lists.here import Here, Step
from generator.press.words.addresses import anchor
from generator.press.words.markup import valued, worth_of
from generator.quantities import Quantity, shown
from generator.records.families import Records
from generator.records.machines import Machine
from generator.records.needles import Dial, Grouping, Technique

NOT_MEASURED = "not measured – measure it"


class OnDial(NamedTuple):
    """What a dial is set to with one of its strokes, or with any of those named: the usual setting and its range."""

    stroke: str
    usual: str
    span: str
    computed: tuple[Step, ...] = ()


def in_one_cell(found: Sequence[OnDial], machine: Machine) -> str:
    """A machine's settings for a row of a technique: the usual one, and the range that dial and points allow."""
    cells = (
        Markup("{}{}{}").format(
            "" if machine.dial == "Hz" else f"with a stroke of {one.stroke}: ",
            one.usual,
            Markup(" ({})").format(one.span) if one.span else "",
        )
        for one in found
    )
    return valued(Markup("; ").join(cells), *worth_of(found[0].usual)) if found else "no stroke for it"


def on_dial(technique: Technique, place: int, machine: Machine, here: Here) -> list[OnDial]:
    """The dial for a row of the technique, for each stroke by itself where the dial shows volts; none for no stroke.

    place: the number of the row, from 0.
    """
    row = technique.dials[place]
    strokes = usual_strokes(technique, machine.strokes)
    if machine.dial == "Hz" and strokes:
        usual, span = _within(
            machine, (row.usual.low, row.speed.low, row.speed.high), "frequency", (row.usual.text, row.speed.text)
        )
        return [OnDial("; ".join(here.measured(s) for s in strokes), usual, span)]
    return [_volts(technique, place, machine, stroke, here) for stroke in strokes]


def groupings_of(row: Dial) -> str:
    """The groupings that a row of speeds holds for."""
    return f"{', '.join(row.configurations)} of {row.fewest} to {row.most}"


def on_shelf(technique: Technique, row: Dial, records: Records) -> list[Grouping]:
    """The groupings on the shelf that a row of speeds holds for."""
    return [grouping for grouping in records.groupings.values() if dial_row(technique, grouping) is row]


def _volts(technique: Technique, place: int, machine: Machine, stroke: Quantity, here: Here) -> OnDial:
    row, said_stroke = technique.dials[place], here.measured(stroke)
    wanted = ((row.usual.low, row.usual), (row.speed.low, row.speed), (row.speed.high, row.speed))
    usual, low, high = (volts_for_row(here.records, machine, stroke, row, *speed) for speed in wanted)
    if usual is None:
        return OnDial(said_stroke, NOT_MEASURED, "")
    # Where an end of the range lies beyond the measured points, only the usual setting is known.
    ends = [(usual if end is None else end).low for end in (low, high)]
    said, span = _within(machine, (usual.low, ends[0], ends[1]), "voltage")
    if low is None or high is None:
        span = f"{span}, the rest of the range is {NOT_MEASURED}" if span else f"the range is {NOT_MEASURED}"
    at = anchor(technique.id, str(place), machine.id, f"{stroke.low:g}".replace(".", "-"))
    of = f"{machine.name}, stroke {said_stroke}, {groupings_of(row)}"
    return OnDial(said_stroke, here.to_formula(usual.function, said), span, ((at, of, usual),))


def _within(
    machine: Machine, setting: tuple[float, float, float], kind: str, texts: tuple[str, str] = ("", "")
) -> tuple[Markup, str]:
    """The usual setting, and the range that lies on the machine's dial; no range where it is one setting.

    texts: how the record has the two; a range that the dial cuts off is not the one that the record has.
    """
    usual, low, high = setting
    if not machine.limits.low <= usual <= machine.limits.high:
        return valued("beyond its dial"), ""
    whole = machine.limits.low <= low and high <= machine.limits.high
    low, high = max(low, machine.limits.low), min(high, machine.limits.high)
    one = valued(shown(usual, usual, kind, "metric", texts[0]), usual)
    span = shown(low, high, kind, "metric", texts[1] if whole else "")
    return one, "" if low == high else valued(span, low, high)
