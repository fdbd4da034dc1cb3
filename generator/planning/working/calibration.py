"""Volts and speeds of a machine by what was measured on it: one machine, stroke, kind of cartridge and supply.

A speed that was not measured has no volts: there is no number that could be printed. Volts that somebody sets where
nothing was measured, or that were measured with a liner and are set for a magnum, have no speed that is known.
"""

from __future__ import annotations

from collections.abc import Callable

from generator.planning.computed import Computed, Named, Value, compute, counted, named, recorded
from generator.quantities import Quantity, within
from generator.records.families import Records
from generator.records.machines import Calibration, Machine
from generator.records.needles import Dial, Grouping
from generator.trade import calibration, labels
from generator.trade.refusal import Refusal


def cartridge_of(grouping: Grouping) -> str:
    """The kind of cartridge that holds a grouping, as calibrations name it."""
    return cartridge_for(labels.read_label(grouping.label).configuration)


def cartridge_for(configuration: str) -> str:
    """A round bundle is pushed through another nozzle, and against another membrane, than a row of needles."""
    return "round" if configuration in labels.ROUNDS else "row"


def calibration_for(records: Records, machine: Machine, stroke: float, cartridge: str) -> Calibration | None:
    """The newest calibration of this machine with this stroke, with this kind of cartridge where there is one."""
    fits = [c for c in records.calibrations.values() if c.machine == machine.id and c.stroke.low == stroke]
    return max(fits, key=lambda c: (c.cartridge == cartridge, c.measured), default=None)


def dial_for_speed(records: Records, machine: Machine, stroke: float, cartridge: str, speed: Value) -> Computed:
    """Volts for a speed. Raises Refusal beyond the measured points and for a cartridge that was not measured."""
    measured = calibration_for(records, machine, stroke, cartridge)
    if measured is None:
        raise Refusal(
            "measured",
            "no calibration",
            f"one for {machine.id} with stroke {stroke:g} mm",
            "measure the frequency at three dial settings or more",
        )
    return _computed(measured, cartridge, calibration.volts_for, "voltage", frequency=speed)


def volts_for_row(
    records: Records, machine: Machine, stroke: Quantity, row: Dial, speed: float, of: Quantity
) -> Computed | None:
    """Volts for a speed of a row of a technique, which `of` holds; None where nobody has measured it."""
    try:
        cartridge = cartridge_for(row.configurations[0])
        return dial_for_speed(records, machine, stroke.low, cartridge, counted(speed, of, "frequency"))
    except Refusal:
        return None


def speed_at(records: Records, machine: Machine, stroke: float, cartridge: str, volts: Value) -> Value | None:
    """Speed for volts; None where nobody has measured it."""
    measured = calibration_for(records, machine, stroke, cartridge)
    if measured is None:
        return None
    # Rounding may print a measured end a little beyond it.
    ends = (recorded(measured.points[place][0]) for place in (0, -1))
    given = next((end for end in ends if within(volts.low, end.low, end.low, "voltage")), volts)
    try:
        return _computed(measured, cartridge, calibration.frequency_at, "frequency", volts=given)
    except Refusal:
        return None


def _computed(
    measured: Calibration, cartridge: str, function: Callable[..., float], kind: str, **given: Value
) -> Computed:
    points = tuple(calibration.Point(v.low, f.low) for v, f in measured.points)
    said = ", ".join(f"{v.text} = {f.text}" for v, f in measured.points)

    def conditions(kind_of_cartridge: str) -> Named:
        # A job does not name its supply: the machine is run on the one it was measured with.
        return named(
            calibration.Conditions(measured.machine, measured.stroke.low, kind_of_cartridge, measured.supply),
            measured,
            f"{measured.machine}, {measured.stroke.text}, {kind_of_cartridge} cartridge, {measured.supply}",
        )

    return compute(
        function,
        kind,
        **given,
        points=named(points, measured.origin_at("points"), said),
        measured=conditions(measured.cartridge),
        asked=conditions(cartridge),
    )
