"""A row of a technique's speeds in the setting of each machine: hertz where its dial shows them, else its volts."""

from __future__ import annotations

from typing import NamedTuple

from generator.planning.calibrated import cartridge_for, dial_for_speed
from generator.planning.reckoning import Reckoned, recorded
from generator.press.addresses import anchor
from generator.press.markup import Markup
from generator.press.worded import measured
from generator.press.worked import Worked, as_worked, to_formula
from generator.quantities import Quantity, shown
from generator.records.families import Records
from generator.records.machines import Machine
from generator.records.needles import Dial, Technique
from generator.trade.refusal import Refusal

NOT_MEASURED = "not measured – measure it"


class Setting(NamedTuple):
    """A machine's setting as a cell of a table, and how its volts came about: row, what of, worked."""

    shown: str
    computed: tuple[tuple[str, str, Worked], ...]


def machine_setting(records: Records, technique: Technique, place: int, machine: Machine, here: str) -> Setting:
    """The machine's own dial for a row of the technique: the usual setting, and the range that dial and points allow.

    place: the number of the row, from 0.
    """
    row = technique.dials[place]
    strokes = [s for s in machine.strokes if technique.stroke.low <= s.low <= technique.stroke.high]
    if not strokes:
        return Setting("no stroke for it", ())
    if machine.dial == "Hz":
        return Setting(_within(machine, (row.usual.low, row.speed.low, row.speed.high), "frequency"), ())
    cells, computed = [], []
    for stroke in strokes:
        said, usual = _volts(records, technique, row, machine, stroke, here)
        cells.append(said)
        if usual is not None:
            at = anchor(technique.id, str(place), machine.id, f"{stroke.low:g}".replace(".", "-"))
            of = f"{machine.name}, stroke {measured(stroke, records)}, {groupings_of(row)}"
            computed.append((at, of, as_worked(usual, records)))
    return Setting(Markup("; ").join(cells), tuple(computed))


def groupings_of(row: Dial) -> str:
    """The groupings that a row of speeds holds for."""
    return f"{', '.join(row.configurations)} of {row.fewest} to {row.most}"


def _volts(
    records: Records, technique: Technique, row: Dial, machine: Machine, stroke: Quantity, here: str
) -> tuple[str, Reckoned | None]:
    at = f"with a stroke of {measured(stroke, records)}: "
    usual, low, high = (
        _volts_for(records, technique, machine, stroke, cartridge_for(row.configurations[0]), speed, field)
        for speed, field in ((row.usual.low, "usual"), (row.speed.low, "speed"), (row.speed.high, "speed"))
    )
    if usual is None:
        return at + NOT_MEASURED, None
    # Where an end of the range lies beyond the measured points, only the usual setting is known.
    ends = [(usual if end is None else end).low for end in (low, high)]
    said = _within(machine, (usual.low, ends[0], ends[1]), "voltage")
    shown_as = Markup("{}{}").format(at, to_formula(here, usual.function, said))
    if low is None or high is None:
        return Markup("{}, the rest of the range is {}").format(shown_as, NOT_MEASURED), usual
    return shown_as, usual


def _volts_for(
    records: Records, technique: Technique, machine: Machine, stroke: Quantity, cartridge: str, speed: float, field: str
) -> Reckoned | None:
    frequency = recorded(Quantity(speed, speed, "frequency"), f"techniques.{technique.id}.dials.{field}",
                         technique.source)  # fmt: skip
    try:
        return dial_for_speed(records, machine, stroke.low, cartridge, frequency)
    except Refusal:
        return None


def _within(machine: Machine, setting: tuple[float, float, float], kind: str) -> str:
    usual, low, high = setting
    if not machine.limits.low <= usual <= machine.limits.high:
        return "beyond its dial"
    low, high = max(low, machine.limits.low), min(high, machine.limits.high)
    one = shown(usual, usual, kind, "metric")
    return one if low == high else f"{one} ({shown(low, high, kind, 'metric')})"
