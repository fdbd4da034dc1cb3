"""A machine's vibration in the hand for one longest sitting."""

from __future__ import annotations

from generator.planning.computed import Named, Operand, compute, plain, recorded
from generator.records.families import Records
from generator.records.machines import Machine
from generator.trade import vibration


def in_hand(records: Records, machine: Machine) -> dict[str, Operand] | None:
    """A machine in the hand for one longest sitting; None when the maker gives no figure."""
    if machine.vibration is None:
        return None
    studio = records.studio
    acceleration = recorded(machine.vibration, f"machines.{machine.id}.vibration", machine.source)
    hours = plain(studio.limits.sitting.low / 60, "studio.limits.sitting", studio.source)
    both: dict[str, Operand] = {"acceleration": acceleration, "hours": hours}
    day = compute(vibration.daily_exposure, "acceleration", **both)
    return {
        **both,
        "exposures": Named([day.low], f"{machine.name} alone, {day.low:.1f}\u00a0m/s²", f"machines.{machine.id}"),
        "points_used": compute(vibration.exposure_points, "number", **both),
    }
