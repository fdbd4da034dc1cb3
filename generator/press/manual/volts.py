"""A speed of a technique in volts, for a studio where no machine's dial shows hertz."""

from __future__ import annotations

import re
from collections.abc import Iterator

from generator.planning.working.calibration import volts_for_row
from generator.planning.working.strokes import usual_strokes
from generator.quantities import Quantity, shown
from generator.records.families import Records
from generator.records.machines import Machine
from generator.records.needles import Dial, Technique

_NOT_MEASURED = "not measured, measure it first"
_SPEED = re.compile(r"techniques\.([\w-]+)\.dials\.(\d+)\.(?:usual|speed)")


def in_volts(path: str, speed: Quantity, records: Records) -> str:
    """What stands behind a speed that a page quotes: each machine's volts with each stroke of the technique.

    Nothing where a machine's dial shows hertz, and for what is no row of a technique's speeds.
    """
    quoted = _SPEED.fullmatch(path)
    machines = list(records.machines.values())
    if quoted is None or not machines or any(machine.dial != "volts" for machine in machines):
        return ""
    technique = records.techniques[quoted[1]]
    row = technique.dials[int(quoted[2])]
    return "; ".join(said for machine in machines for said in _of(records, technique, row, machine, speed))


def _of(records: Records, technique: Technique, row: Dial, machine: Machine, speed: Quantity) -> Iterator[str]:
    for stroke in usual_strokes(technique, machine.strokes):
        length = shown(stroke.low, stroke.high, stroke.kind, records.studio.shows, stroke.text)
        volts = [_volts(records, machine, stroke, row, end, speed) for end in sorted({speed.low, speed.high})]
        known = [end for end in volts if end is not None]
        said = (
            shown(known[0], known[-1], "voltage", records.studio.shows) if len(known) == len(volts) else _NOT_MEASURED
        )
        yield f"{machine.name}, stroke {length}: {said}"


def _volts(records: Records, machine: Machine, stroke: Quantity, row: Dial, speed: float, of: Quantity) -> float | None:
    """The dial for a speed; None beyond what was measured, and beyond the dial."""
    found = volts_for_row(records, machine, stroke, row, speed, of)
    return found.low if found is not None and machine.limits.low <= found.low <= machine.limits.high else None
