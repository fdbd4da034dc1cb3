"""To what the dial of a machine is set for a row, and at which speed it then runs."""

from __future__ import annotations

import contextlib
from collections.abc import Iterator

from generator.planning.computed import Value, counted, recorded
from generator.planning.working.calibration import cartridge_of, dial_for_speed, speed_at
from generator.planning.working.choices import Wanted
from generator.planning.working.pieces import NoSetting, Piece
from generator.quantities import Quantity, within
from generator.records.families import Records
from generator.records.machines import Machine
from generator.records.needles import Dial
from generator.trade.refusal import Refusal


def dial_of(
    records: Records, piece: Piece, row: Dial, machine: Machine, stroke: Quantity, chosen: Wanted
) -> tuple[Value | None, Value, bool]:
    """Speed in Hz, the dial setting that gives it, and whether it lies outside the usual speeds.

    Volts that are typed need no measured speed: where there is none, the speed is not known.
    """
    place, limits, cartridge = piece.place, machine.limits, cartridge_of(piece.grouping)
    odd = False
    if chosen.dial is None:
        usual: Value = recorded(row.usual)
        speed: Value | None = usual
        try:
            dial = usual if machine.dial == "Hz" else dial_for_speed(records, machine, stroke.low, cartridge, usual)
        except Refusal as refusal:
            remedy = f"{refusal.remedy}; or type the `dial` in volts, and its speed counts as not known"
            raise NoSetting("A902", place, found=refusal.found, expected=refusal.expected, help=remedy) from None
    else:
        place = chosen.dial.place or place
        if chosen.dial.kind != limits.kind:
            raise NoSetting(
                "J604",
                place,
                found=f"“{chosen.dial.text}”",
                expected=f"a setting in {machine.dial}",
                help=f"write it in {machine.dial}, or choose another machine",
                says=f"the dial of {machine.id} shows {machine.dial}",
            )
        dial = speed = recorded(chosen.dial)
        if machine.dial != "Hz":
            speed = speed_at(records, machine, stroke.low, cartridge, dial)
        # An end of the range in volts counts as the tables print it.
        ends = _ends_in_volts(records, row.speed, machine, stroke, cartridge)
        odd = (
            speed is not None
            and not within(speed.low, row.speed.low, row.speed.high, "frequency")
            and not any(within(dial.low, end, end, "voltage") for end in ends)
        )
    if not within(dial.low, limits.low, limits.high, limits.kind):
        raise NoSetting(
            "J606",
            place,
            found=f"{dial.low:g}",
            expected=limits.text,
            help="choose another machine or another dial setting",
            says=f"{machine.id} cannot be set to this for {piece.technique.id}",
        )
    return speed, dial, odd


def _ends_in_volts(
    records: Records, speeds: Quantity, machine: Machine, stroke: Quantity, cartridge: str
) -> Iterator[float]:
    """The ends of a range of speeds in the volts of this machine, as far as it was measured."""
    for end in (speeds.low, speeds.high) if machine.dial == "volts" else ():
        with contextlib.suppress(Refusal):
            speed = counted(end, speeds, "frequency")
            yield dial_for_speed(records, machine, stroke.low, cartridge, speed).low
