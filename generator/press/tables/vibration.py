"""Vibration on the artist's hand, for the machines whose maker states a figure; for the others nothing is said."""

from __future__ import annotations

from collections.abc import Sequence

from markupsafe import Markup

from generator.origins import NOWHERE
from generator.planning.computed import compute, named
from generator.planning.working.vibration import in_hand
from generator.press.explained.worked import as_worked, worked
from generator.press.lists.here import Here, Step
from generator.press.words.addresses import anchor
from generator.press.words.markup import heading, paragraph, table_of
from generator.records.machines import Machine
from generator.trade import vibration

NOT_ASSESSED = "not assessed: the maker gives no figure"
_HOURS_IN_A_DAY = 24


def vibration_section(here: Here) -> list[str]:
    """The section of the machines' page: each machine in the hand for one longest sitting of the studio."""
    sitting = here.measured(here.records.studio.limits.sitting)
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
    for machine in here.records.machines.values():
        cells, computed = _machine(machine, here)
        rows.append((anchor("vibration", machine.id), [*zip(columns, cells, strict=True)]))
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
                here.calculated(vibration.ACTION_VALUE, vibration.ACTION_VALUE, "acceleration"),
                here.calculated(vibration.LIMIT_VALUE, vibration.LIMIT_VALUE, "acceleration"),
                f"{vibration.ACTION_POINTS:.0f}",
                f"{vibration.LIMIT_POINTS:.0f}",
                here.to_formula(vibration.combined_exposure),
            )
        ),
        table_of("Vibration by machine", rows),
        here.how_computed("vibration", how),
    ]


def _machine(machine: Machine, here: Here) -> tuple[Sequence[str], list[Step]]:
    records, at = here.records, anchor("vibration", machine.id)
    found = in_hand(records, machine)
    if machine.vibration is None or found is None:
        return (machine.name, NOT_ASSESSED, *["not assessed"] * 6), []
    both = {"acceleration": found["acceleration"], "hours": found["hours"]}
    day = as_worked(compute(vibration.daily_exposure, "acceleration", **both), records)
    points = worked(vibration.exposure_points, records, **both)
    nothing_yet = named(0, NOWHERE, "0\u00a0points, nothing done yet today")
    used_up = compute(vibration.exposure_points, "number", **both)
    rested, worn = (
        worked(vibration.hours_left, records, acceleration=found["acceleration"], points_used=used)
        for used in (nothing_yet, used_up)
    )
    before, after = (vibration.hours_left(machine.vibration.low, used) for used in (0.0, used_up.low))
    cells = (
        machine.name,
        here.measured(machine.vibration),
        here.to_formula(vibration.daily_exposure, day.words),
        here.to_formula(vibration.exposure_points, points.words),
        *(
            here.to_formula(vibration.hours_left, _hours(hours))
            for hours in (before.to_action, after.to_action, before.to_limit, after.to_limit)
        ),
    )
    steps: list[Step] = [
        (f"{at}-day", f"{machine.name}, A(8)", day),
        (f"{at}-points", f"{machine.name}, points", points),
        (f"{at}-rested", f"{machine.name}, hours, rested", rested),
        (f"{at}-after", f"{machine.name}, hours, after a sitting", worn),
    ]
    return cells, steps


def _hours(hours: float) -> str:
    return "more than a day" if hours > _HOURS_IN_A_DAY else f"{hours:.1f}\u00a0h"
