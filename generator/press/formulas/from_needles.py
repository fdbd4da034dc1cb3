"""Inputs for live examples from needles, techniques and machines: the first record that fits, whatever its id."""

from __future__ import annotations

from collections.abc import Callable

from generator.planning.computed import Named, Operand, Recorded, plain, recorded
from generator.planning.working.calibration import cartridge_for, dial_for_speed
from generator.planning.working.settings import computed_width, dial_row
from generator.planning.working.swapping import count_of, hand_of, misleading_speed, speed_of, swap_to_show
from generator.press.formulas.example_inputs import Inputs, TakenFrom, Taking
from generator.records.machines import Machine
from generator.records.needles import Grouping
from generator.trade import calibration, density, labels, motion, needle_positions, needles
from generator.trade.refusal import Refusal


def _grouping(fits: Callable[[Grouping], bool]) -> Taking:
    def taking(taken_from: TakenFrom) -> Inputs:
        for grouping in taken_from.records.groupings.values():
            if fits(grouping):
                return _needles(grouping)
        return None

    return taking


def _needles(grouping: Grouping) -> dict[str, Operand]:
    label = labels.read_label(grouping.label)
    where = f"groupings.{grouping.id}.label"
    return {
        **dict(computed_width(grouping).inputs),
        # Where only a row is asked for, its spread is a number and not perhaps none.
        **({} if grouping.spread is None else {"spread": plain(grouping.spread, f"groupings.{grouping.id}.spread")}),
        "code": Named(label.code, label.code, where, grouping.source),
        "written": Named(grouping.label, grouping.label, where, grouping.source),
        "letters": Named(label.configuration, label.configuration, where, grouping.source),
    }


def _letters(*configurations: str) -> Callable[[Grouping], bool]:
    return lambda grouping: labels.read_label(grouping.label).configuration in configurations


def _tight(grouping: Grouping) -> bool:
    return grouping.packed == "tight"


def _hollow(grouping: Grouping) -> bool:
    return grouping.packed == "hollow"


def _running(taken_from: TakenFrom) -> Inputs:
    """The first technique with its usual grouping."""
    records = taken_from.records
    for technique in records.techniques.values():
        grouping = records.groupings[technique.usual_grouping]
        if dial_row(technique, grouping) is not None:
            return {"frequency": speed_of(technique, grouping), "hand_speed": hand_of(technique)}
    return None


def _stroke(machine: Machine, low: float, high: float) -> Recorded | None:
    fits = (stroke for stroke in machine.strokes if low <= stroke.low <= high)
    return next((recorded(s, f"machines.{machine.id}.strokes", machine.source) for s in fits), None)


def _swap(taken_from: TakenFrom) -> Inputs:
    swap = swap_to_show(taken_from.records)
    if swap is None:
        return None
    return {
        **dict(misleading_speed(swap).inputs),
        "hand_speed": hand_of(swap.technique),
        "new_frequency": speed_of(swap.technique, swap.after),
        "count": count_of(swap.before),
    }


def _calibrated(taken_from: TakenFrom) -> Inputs:
    """The first machine that was measured at the speed of a technique it is used for."""
    records = taken_from.records
    for technique in records.techniques.values():
        for machine in (records.machines[m] for m in technique.machines):
            stroke = _stroke(machine, technique.stroke.low, technique.stroke.high)
            if machine.dial != "volts" or stroke is None:
                continue
            speed = recorded(technique.dials[0].usual, f"techniques.{technique.id}.dials.usual", technique.source)
            try:
                volts = dial_for_speed(
                    records, machine, stroke.low, cartridge_for(technique.dials[0].configurations[0]), speed
                )
            except Refusal:
                continue
            return {**dict(volts.inputs), "volts": volts}
    return None


SETTINGS: dict[Callable[..., object], Taking] = {
    labels.wire_diameter: _grouping(lambda _: True),
    labels.read_label: _grouping(lambda _: True),
    labels.known_configuration: _grouping(lambda _: True),
    needles.tightest_packing: _grouping(_tight),
    needles.tightest_bundle: _grouping(_tight),
    needles.hollow_ring: _grouping(_hollow),
    needles.flat_width: _grouping(_letters("F")),
    needles.weaved_magnum_width: _grouping(_letters("M1", "CM", "RM")),
    needles.double_stack_width: _grouping(_letters("M2")),
    needles.grouping_width: _grouping(lambda _: True),
    needles.bugpin: _grouping(lambda _: True),
    needle_positions.round_positions: _grouping(_tight),
    needle_positions.ring_positions: _grouping(_hollow),
    needle_positions.row_positions: _grouping(_letters("F")),
    needle_positions.weaved_positions: _grouping(_letters("M1")),
    needle_positions.stacked_positions: _grouping(_letters("M2")),
    needle_positions.curved_positions: _grouping(_letters("CM", "RM")),
    needle_positions.needle_positions: _grouping(lambda _: True),
    motion.spacing: _running,
    density.hand_speed_after_swap: _swap,
    density.constant_density_frequency: _swap,
    calibration.frequency_at: _calibrated,
    calibration.volts_for: _calibrated,
}
