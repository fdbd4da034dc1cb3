"""With which strokes a row can be worked on a machine, and one for all its rows where one fits.

A machine is not set anew from row to row.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TypeVar

from generator.planning.working.choices import Wanted
from generator.planning.working.pieces import NoSetting, Piece
from generator.quantities import Quantity, end_as_typed, within
from generator.records.families import Records
from generator.records.machines import Machine
from generator.records.needles import Technique

T = TypeVar("T")

_UNMEASURED = "measure this one, or type its `dial` in volts"


def strokes_of(records: Records, piece: Piece, machine: Machine, chosen: Wanted, usual: bool) -> Sequence[Quantity]:
    """The strokes of the machine that come into question: the one that is named, else those of the technique.

    usual: only what lies inside the technique's range; else what lies nearest to it.
    """
    technique = piece.technique
    measured = {c.stroke.low for c in records.calibrations.values() if c.machine == machine.id}
    can = [s for s in machine.strokes if machine.dial != "volts" or s.low in measured]
    # Volts that somebody typed need no measured speed to be set.
    if chosen.dial is not None and (chosen.stroke is not None or not can):
        can = list(machine.strokes)
    if chosen.stroke is not None:
        named_one = same_stroke(technique, machine, chosen.stroke)
        if named_one is not None and named_one in can:
            return [named_one]
        raise NoSetting(
            "J603",
            chosen.stroke.place or piece.place,
            found=f"“{chosen.stroke.text}”",
            expected=", ".join(s.text for s in can) or "a stroke that it was measured with",
            help="choose a stroke that it has" + (f", {_UNMEASURED}" if named_one else ""),
            says=f"{machine.id} was not measured with this stroke"
            if named_one
            else f"{machine.id} cannot be set to this stroke",
        )
    inside = usual_strokes(technique, can)
    if usual or inside:
        return inside
    if not can:
        raise NoSetting(
            "J603",
            piece.place,
            found=", ".join(s.text for s in machine.strokes),
            expected="a stroke that it was measured with",
            help=f"choose another machine, {_UNMEASURED}",
            says=f"{machine.id} was measured with none of its strokes",
        )
    off = {s.low: max(technique.stroke.low - s.low, s.low - technique.stroke.high) for s in can}
    return [s for s in can if off[s.low] == min(off.values())]


def usual_strokes(technique: Technique, strokes: Sequence[Quantity]) -> list[Quantity]:
    """Those inside the technique's range."""
    return [s for s in strokes if technique.stroke.low <= s.low <= technique.stroke.high]


def same_stroke(technique: Technique, machine: Machine, wanted: Quantity) -> Quantity | None:
    """The machine's stroke that is wanted, also as the tables print it: by itself or as an end of the technique's."""
    usual = technique.stroke
    typed = (wanted.low, end_as_typed(wanted.low, usual.low, usual.high, usual.kind))
    return next((s for s in machine.strokes if any(within(one, s.low, s.low, s.kind) for one in typed)), None)


def fewest_strokes(possible: Sequence[Mapping[float, T]], middles: Sequence[float]) -> list[float]:
    """The stroke of each row of one machine, in mm: one for all where one fits, else as few as may be.

    possible: the strokes that a row can be worked with, with anything beside them; middles: the middle of each row's
    usual strokes. Of strokes that fit as many rows the one nearest to their middles is taken, of two as near the
    shorter.
    """
    chosen: dict[int, float] = {}
    while len(chosen) < len(possible):
        left = [row for row in range(len(possible)) if row not in chosen]
        fits = {stroke: [row for row in left if stroke in possible[row]] for row in left for stroke in possible[row]}

        def worth(stroke: float, fits: Mapping[float, Sequence[int]] = fits) -> tuple[float, float, float]:
            rows = fits[stroke]
            off = sum(abs(stroke - middles[row]) for row in rows)
            return -len(rows), round(off, 9), stroke

        best = min(fits, key=worth)
        chosen |= dict.fromkeys(fits[best], best)
    return [chosen[row] for row in range(len(possible))]
