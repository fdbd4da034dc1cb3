"""A machine's vibration in the hand for one longest sitting."""

from __future__ import annotations

from generator.planning.computed import Operand, compute, counted, named, recorded
from generator.records.families import Records
from generator.records.machines import Machine
from generator.trade import vibration


def in_hand(records: Records, machine: Machine) -> dict[str, Operand] | None:
    """A machine in the hand for one longest sitting; None when the maker gives no figure."""
    if machine.vibration is None:
        return None
    longest = records.studio.limits.sitting
    acceleration = recorded(machine.vibration)
    hours = counted(longest.low / 60, longest)
    both: dict[str, Operand] = {"acceleration": acceleration, "hours": hours}
    day = compute(vibration.daily_exposure, "acceleration", **both)
    return {
        **both,
        "exposures": named([day.low], machine.vibration, f"{machine.name} alone, {day.low:.1f}\u00a0m/s²"),
        "points_used": compute(vibration.exposure_points, "number", **both),
    }
