"""Vibration on the artist's hand, for the machines whose maker states a figure; for the others nothing is said."""

from __future__ import annotations

from markupsafe import Markup

from generator.origins import NOWHERE
from generator.planning.computed import Operand, compute, named
from generator.planning.working.vibration import in_hand
from generator.press.explained.worked import WorkedOut, as_worked, how_computed, to_formula, worked
from generator.press.words.addresses import anchor
from generator.press.words.formatted import calculated, measured
from generator.press.words.markup import Row, heading, paragraph, table
from generator.records.families import Records
from generator.records.machines import Machine
from generator.trade import vibration

NOT_ASSESSED = "not assessed: the maker gives no figure"
_HOURS_IN_A_DAY = 24


def vibration_section(records: Records, here: str) -> list[str]:
    """The section of the machines' page: each machine in the hand for one longest sitting of the studio."""
    sitting = measured(records.studio.limits.sitting, records)
    columns = (
        "Machine",
        "Maker’s figure",
        f"A(8) after {sitting}",
        f"Points after {sitting}",
        "Hours to the action value, rested",
        f"and after {sitting}",
        "Hours to the limit value, rested",
        f"and after {sitting}",
    )
    rows, how = [], []
    for machine in records.machines.values():
        row, computed = _machine(machine, records, here)
        rows.append(row)
        how += computed
    return [
        heading("Vibration on the hand", "vibration"),
        paragraph(
            Markup(
                "As if the machine ran in the hand through one longest sitting of {} without a stop, which is more "
                "than anybody works. Action and limit value are those of Directive 2002/44/EC, {} and {} as A(8); "
                "the points are those of the HSE’s ready reckoner, {} and {}. Several machines in a day add up: "
                "points are added, A(8) is combined by the formula “{}”. Numbness or tingling comes before any "
                "table."
            ).format(
                sitting,
                _acceleration(vibration.ACTION_VALUE, records),
                _acceleration(vibration.LIMIT_VALUE, records),
                f"{vibration.ACTION_POINTS:.0f}",
                f"{vibration.LIMIT_POINTS:.0f}",
                to_formula(here, vibration.combined_exposure),
            )
        ),
        table("Vibration by machine", columns, rows),
        how_computed("vibration", how, records, here),
    ]


def _acceleration(value: float, records: Records) -> str:
    return calculated(value, value, "acceleration", records)


def _machine(machine: Machine, records: Records, here: str) -> tuple[Row, list[tuple[str, str, WorkedOut]]]:
    at = anchor("vibration", machine.id)
    found = in_hand(records, machine)
    if machine.vibration is None or found is None:
        return Row(at, (machine.name, NOT_ASSESSED, *["not assessed"] * 6)), []
    both = {"acceleration": found["acceleration"], "hours": found["hours"]}
    day = as_worked(compute(vibration.daily_exposure, "acceleration", **both), records)
    points = worked(vibration.exposure_points, records, **both)
    rested: dict[str, Operand] = {
        "acceleration": both["acceleration"],
        "points_used": named(0, NOWHERE, "0\u00a0points, nothing done yet today"),
    }
    worn: dict[str, Operand] = {"acceleration": both["acceleration"], "points_used": found["points_used"]}
    before, after = (vibration.hours_left(machine.vibration.low, used) for used in (0.0, _number(found["points_used"])))
    cells = (
        machine.name,
        measured(machine.vibration, records),
        to_formula(here, vibration.daily_exposure, day.words),
        to_formula(here, vibration.exposure_points, points.words),
        *(
            to_formula(here, vibration.hours_left, _hours(hours))
            for hours in (before.to_action, after.to_action, before.to_limit, after.to_limit)
        ),
    )
    steps = [
        (f"{at}-day", f"{machine.name}, A(8)", day),
        (f"{at}-points", f"{machine.name}, points", points),
        (f"{at}-rested", f"{machine.name}, hours, rested", worked(vibration.hours_left, records, **rested)),
        (f"{at}-after", f"{machine.name}, hours, after a sitting", worked(vibration.hours_left, records, **worn)),
    ]
    return Row(at, cells), steps


def _number(operand: Operand) -> float:
    low = getattr(operand, "low", 0.0)
    return float(low)


def _hours(hours: float) -> str:
    return "more than a day" if hours > _HOURS_IN_A_DAY else f"{hours:.1f}\u00a0h"
