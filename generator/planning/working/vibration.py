"""Vibration in the hand: of machines over a day, and of one machine for one longest sitting."""

from __future__ import annotations

from collections.abc import Iterable

from generator.planning.computed import Operand, compute, counted, named, recorded
from generator.quantities import Quantity
from generator.records.families import Records
from generator.records.machines import Machine
from generator.trade import vibration


def over_a_day(worked: Iterable[tuple[Quantity, float]]) -> float:
    """What a hand takes from machines, each by its maker's figure and its minutes, in m/s² over eight hours."""
    longest = float(vibration.HOURS_IN_A_DAY)
    return vibration.combined_exposure(
        [vibration.daily_exposure(figure.high, min(minutes / 60, longest)) for figure, minutes in worked]
    )


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
