"""With what a piece of work is done: technique, grouping, machine, stroke, dial, hang-out.

A job may choose each of them; what it leaves open comes from the technique's record. Every choice is held
against the ranges of technique, grouping and machine. Hang-out is never held against the thickness of skin:
it is not the depth.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from generator.diagnostics import Diagnostic, Place
from generator.planning.computed import Computed, Recorded, Value, compute, named, recorded
from generator.planning.working.calibration import cartridge_of, dial_for_speed, speed_for_dial
from generator.planning.working.widths import width_of
from generator.quantities import Quantity, significant
from generator.records.families import Records
from generator.records.jobs import Job
from generator.records.machines import Machine
from generator.records.needles import Dial, Grouping, Technique
from generator.records.parts import Colour, Lines, Part, Settings
from generator.trade import labels, motion
from generator.trade.refusal import Refusal

_Span = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Setting:
    """One chosen point inside every range. `dial` is in what the machine's dial shows, `speed` in Hz."""

    technique: Technique
    grouping: Grouping
    machine: Machine
    stroke: Recorded
    speed: Value
    dial: Value
    hang_out: Value
    spacing: Computed
    width: Value
    passes: Recorded


class NoSetting(Exception):
    """The work cannot be set up as the records stand; carries the diagnostic."""

    def __init__(self, diagnostic: Diagnostic) -> None:
        self.diagnostic = diagnostic


def technique_for(records: Records, part: Part, work: Lines | Colour) -> Technique:
    """The technique the job names, or the one whose record says it is usual for such work."""
    if work.technique is not None:
        return records.techniques[work.technique]
    if isinstance(work, Colour):
        wanted = [records.inks[work.ink].kind]
    else:
        wanted = ["fine lines", "lines"] if part.detail == "fine" else ["lines"]
    for need in wanted:
        for technique in records.techniques.values():
            if need not in technique.usual_for:
                continue
            chosen = records.groupings[work.needle or technique.usual_grouping]
            if need != "fine lines" or dial_row(technique, chosen) is not None:
                return technique
    place = work.ink.place if isinstance(work, Colour) else part.id.place
    raise NoSetting(
        Diagnostic(
            "J601",
            place,
            found=wanted[-1],
            expected="a technique with it in `usual_for`",
            help=f"name a `technique` here, or add `{wanted[-1]}` to `usual_for` of one in techniques.yml",
            says=f"no technique is usual for {wanted[-1]}",
        )
    )


def dial_row(technique: Technique, grouping: Grouping) -> Dial | None:
    """The row of the technique's speeds that holds for this grouping."""
    label = labels.read_label(grouping.label)
    for row in technique.dials:
        if label.configuration in row.configurations and row.fewest <= label.count <= row.most:
            return row
    return None


def setting_for(records: Records, job: Job, part: Part, work: Lines | Colour) -> Setting:
    """Choose one setting for a piece of work. Raises NoSetting with a diagnostic at the job's line."""
    technique = technique_for(records, part, work)
    grouping = records.groupings[work.needle or technique.usual_grouping]
    row = dial_row(technique, grouping)
    place = (work.needle or work.technique or (work.ink if isinstance(work, Colour) else part.id)).place
    if row is None:
        fitting = ", ".join(sorted({c for r in technique.dials for c in r.configurations}))
        raise NoSetting(
            Diagnostic(
                "J602",
                place,
                found=f"“{grouping.label}”",
                expected=f"a grouping that {technique.id} is worked with ({fitting})",
                help=f"choose another needle or technique, or add {grouping.label} to `dials` of {technique.id}",
                says=f"{technique.id} has no speed for {grouping.label}",
            )
        )
    first: NoSetting | None = None
    for machine in _machines(records, technique, work):
        try:
            return _on(records, job, technique, grouping, row, machine, work, place)
        except NoSetting as refused:
            first = first or refused
    assert first is not None
    raise first


def _machines(records: Records, technique: Technique, work: Settings) -> Iterator[Machine]:
    if work.machine is not None:
        yield records.machines[work.machine]
        return
    for machine_id in technique.machines:
        machine = records.machines[machine_id]
        # A dial setting in volts is meant for a machine whose dial shows volts.
        if work.dial is None or work.dial.kind == machine.limits.kind:
            yield machine
    if work.dial is not None and all(records.machines[m].limits.kind != work.dial.kind for m in technique.machines):
        yield records.machines[technique.machines[0]]


def _on(
    records: Records,
    job: Job,
    technique: Technique,
    grouping: Grouping,
    row: Dial,
    machine: Machine,
    work: Settings,
    place: Place,
) -> Setting:
    stroke = _stroke(records, technique, machine, place)
    speed, dial = _dial(records, job, technique, grouping, row, machine, stroke, work, place)
    hang_out = _hang_out(records, job, technique, grouping, machine, work, place)
    hand = recorded(technique.hand_speed)
    return Setting(
        technique,
        grouping,
        machine,
        recorded(stroke),
        speed,
        dial,
        hang_out,
        compute(motion.spacing, "length", hand_speed=hand, frequency=speed),
        width_of(grouping),
        recorded(row.passes),
    )


def _stroke(records: Records, technique: Technique, machine: Machine, place: Place) -> Quantity:
    """The machine's stroke nearest to the middle of the technique's, among those that fit."""
    fits = [s for s in machine.strokes if technique.stroke.low <= s.low <= technique.stroke.high]
    if machine.dial == "volts":
        measured = {c.stroke.low for c in records.calibrations.values() if c.machine == machine.id}
        fits = [s for s in fits if s.low in measured]
    if not fits:
        raise NoSetting(
            Diagnostic(
                "J603",
                place,
                found=", ".join(s.text for s in machine.strokes),
                expected=technique.stroke.text,
                help=(
                    "choose another machine"
                    + (", or measure this one with such a stroke" if machine.dial == "volts" else "")
                ),
                says=(
                    f"{machine.id} has no stroke for {technique.id} that it was measured with"
                    if machine.dial == "volts"
                    else f"{machine.id} has no stroke for {technique.id}"
                ),
            )
        )
    return min(fits, key=lambda s: (abs(s.low - technique.stroke.middle), s.low))


def _dial(
    records: Records,
    job: Job,
    technique: Technique,
    grouping: Grouping,
    row: Dial,
    machine: Machine,
    stroke: Quantity,
    work: Settings,
    place: Place,
) -> tuple[Value, Value]:
    """Speed in Hz, and the dial setting that gives it."""
    if work.dial is None:
        speed: Value = recorded(row.usual)
        dial = (
            speed
            if machine.dial == "Hz"
            else _calibrated(dial_for_speed, records, machine, stroke, grouping, speed, place)
        )
    else:
        at = work.dial.place or place
        if work.dial.kind != machine.limits.kind:
            raise NoSetting(
                Diagnostic(
                    "J604",
                    at,
                    found=f"“{work.dial.text}”",
                    expected=f"a setting in {machine.dial}",
                    help=f"write it in {machine.dial}, or choose another machine",
                    says=f"the dial of {machine.id} shows {machine.dial}",
                )
            )
        dial = recorded(work.dial)
        speed = (
            dial if machine.dial == "Hz" else _calibrated(speed_for_dial, records, machine, stroke, grouping, dial, at)
        )
        if not row.speed.low <= speed.low <= row.speed.high:
            raise NoSetting(
                Diagnostic(
                    "J605",
                    at,
                    found=f"“{work.dial.text}”",
                    expected=row.speed.text,
                    help=f"choose a dial setting that gives {row.speed.text}, or take `dial` away",
                    says=f"{technique.id} is not run at this speed with such a grouping",
                )
            )
        place = at
    limits = machine.limits
    if not limits.low <= dial.low <= limits.high:
        raise NoSetting(
            Diagnostic(
                "J606",
                place,
                found=f"{dial.low:g}",
                expected=limits.text,
                help="choose another machine or another dial setting",
                says=f"{machine.id} cannot be set to this for {technique.id}",
            )
        )
    return speed, dial


def _calibrated(
    calculated: Callable[[Records, Machine, float, str, Value], Computed],
    records: Records,
    machine: Machine,
    stroke: Quantity,
    grouping: Grouping,
    given: Value,
    place: Place,
) -> Value:
    try:
        return calculated(records, machine, stroke.low, cartridge_of(grouping), given)
    except Refusal as refusal:
        raise NoSetting(_refused(refusal, place)) from None


def _refused(refusal: Refusal, place: Place) -> Diagnostic:
    return Diagnostic("A902", place, found=refusal.found, expected=refusal.expected, help=refusal.remedy)


def _hang_out(
    records: Records, job: Job, technique: Technique, grouping: Grouping, machine: Machine, work: Settings, place: Place
) -> Value:
    limits = (technique.hang_out, grouping.hang_out, machine.hang_out)
    low, high = max(r.low for r in limits), min(r.high for r in limits)
    ranges = (
        f"{technique.id} {technique.hang_out.text}, {grouping.id} {grouping.hang_out.text}, "
        f"{machine.id} {machine.hang_out.text}"
    )
    if work.hang_out is not None:
        if not low <= work.hang_out.low <= high:
            raise NoSetting(
                Diagnostic(
                    "J607",
                    work.hang_out.place or place,
                    found=f"“{work.hang_out.text}”",
                    expected=ranges,
                    help="choose a hang-out inside all three, or take it away",
                    says="this hang-out is outside what technique, grouping and machine allow",
                )
            )
        return recorded(work.hang_out)
    if low > high:
        raise NoSetting(
            Diagnostic(
                "J608",
                place,
                found=ranges,
                expected="ranges that meet",
                help="choose another grouping or machine, or mend one of the three records",
                says=f"no hang-out suits {technique.id}, {grouping.id} and {machine.id} at once",
            )
        )
    allowed = {
        name: named((range_.low, range_.high), range_, range_.text)
        for name, range_ in zip(("technique", "grouping", "machine"), limits, strict=True)
    }
    step = recorded(records.studio.limits.hang_out_step)
    return compute(middle_hang_out, "length", **allowed, step=step)


def middle_hang_out(technique: _Span, grouping: _Span, machine: _Span, step: float) -> float:
    """The middle of what technique, grouping and machine allow, in whole steps; between two, the shorter."""
    lows, highs = zip(technique, grouping, machine, strict=True)
    low, high = max(lows), min(highs)
    # Nine digits, so that the last bits of a float do not choose between two steps.
    stepped = math.ceil(significant((low + high) / 2 / step - 0.5)) * step
    return min(max(stepped, low), high)
