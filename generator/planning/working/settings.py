"""With what a piece of work is done: technique, grouping, machine, stroke, dial, hang-out.

Row, part, job and artist may choose; what they leave open comes from the technique's record. What lies outside a
technique's usual range, and inside what machine and needle can do, is planned and said to be unusual; refused is only
what one of the two cannot do, with what could.
"""

from __future__ import annotations

import contextlib
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from generator.diagnostics import Diagnostic, Place
from generator.origins import Origin
from generator.planning.computed import Computed, Recorded, Value, compute, counted, recorded
from generator.planning.working.calibration import (
    cartridge_for,
    cartridge_of,
    dial_for_speed,
    speed_at,
)
from generator.planning.working.choices import KEYS, NOTHING, Wanted, asked_for, with_habits
from generator.planning.working.hang_out import hang_out_of
from generator.planning.working.pieces import NoSetting, Piece
from generator.planning.working.strokes import fewest_strokes
from generator.planning.working.widths import width_of
from generator.quantities import Quantity, end_as_typed, within
from generator.records.families import Records
from generator.records.jobs import Job
from generator.records.machines import Machine
from generator.records.needles import Dial, Grouping, Technique
from generator.records.parts import Colour, Lines, Part
from generator.trade import labels, motion
from generator.trade.refusal import Refusal

_Possible = Mapping[float, "Setting"]
# What is possible by technique, grouping and what was chosen.
_Known = dict[tuple[str, str, Wanted], _Possible]
_UNMEASURED = "measure this one, or type its `dial` in volts"


class Outside(NamedTuple):
    """Something that lies outside the technique's usual range: what, its value, the range, and whose field it is."""

    what: str
    chosen: Value | str
    usual: Value | str
    by: Origin


@dataclass(frozen=True, slots=True)
class Setting:
    """One chosen point. `dial` is in what the machine's dial shows, `speed` in Hz.

    speed: None where somebody set volts at which nobody has measured it; then the spacing is not known either.
    outside: what lies outside the technique's usual range. other: what is not the studio's usual, by its name.
    """

    technique: Technique
    grouping: Grouping
    machine: Machine
    stroke: Recorded
    speed: Value | None
    dial: Value
    hang_out: Value
    spacing: Computed | None
    width: Value
    passes: Recorded
    outside: tuple[Outside, ...] = ()
    other: tuple[str, ...] = ()


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


def nearest_row(technique: Technique, grouping: Grouping) -> Dial | None:
    """The row that holds for the grouping, else the one of the groupings most like it; none for a row on lines."""
    label = labels.read_label(grouping.label)
    if technique.works == "lines" and label.configuration not in (
        *labels.ROUNDS,
        *(letters for row in technique.dials for letters in row.configurations),
    ):
        return None

    def unlike(row: Dial) -> tuple[bool, bool, int]:
        kinds = {cartridge_for(letters) for letters in row.configurations}
        apart = max(row.fewest - label.count, label.count - row.most, 0)
        return label.configuration not in row.configurations, cartridge_of(grouping) not in kinds, apart

    return dial_row(technique, grouping) or min(technique.dials, key=unlike)


def settings_for(records: Records, job: Job, pieces: Sequence[Piece]) -> list[Setting | NoSetting]:
    """One setting for each row, with one stroke on each machine where one fits; or why there is none."""
    known: _Known = {}
    asked = [_chosen(records, job, piece, known) for piece in pieces]
    made = _settings(records, pieces, asked, known)
    if not any(chosen.anything for chosen in asked):
        return made
    usual = _settings(records, pieces, [NOTHING] * len(pieces), known)
    return [
        setting if isinstance(setting, NoSetting) else replace(setting, other=tuple(_other(setting, plain)))
        for setting, plain in zip(made, usual, strict=True)
    ]


def _chosen(records: Records, job: Job, piece: Piece, known: _Known) -> Wanted:
    """What row, part, job and artist choose. The artist's habit is left out where it cannot be set up."""
    person = records.people[job.artist]
    own = next((own for own in person.own_settings if own.technique == piece.technique.id), None)

    def can(chosen: Wanted) -> bool:
        return bool(_could(records, piece, chosen, known))

    return with_habits(asked_for(piece.work, piece.part, job), own, person.hang_out, can)


def _could(records: Records, piece: Piece, chosen: Wanted, known: _Known) -> _Possible:
    """The settings that can be made; none where it cannot be set up."""
    try:
        return _possible(records, piece, chosen, known)
    except NoSetting:
        return {}


def _settings(
    records: Records, pieces: Sequence[Piece], asked: Sequence[Wanted], known: _Known
) -> list[Setting | NoSetting]:
    made: dict[int, Setting | NoSetting] = {}
    by_machine: dict[str, list[tuple[int, _Possible]]] = {}
    for number, (piece, chosen) in enumerate(zip(pieces, asked, strict=True)):
        try:
            possible = _possible(records, piece, chosen, known)
        except NoSetting as refused:
            made[number] = _with_what_could(records, piece, chosen, refused)
            continue
        machine = next(iter(possible.values())).machine
        by_machine.setdefault(machine.id, []).append((number, possible))
    for rows in by_machine.values():
        middles = [pieces[number].technique.stroke.middle for number, _ in rows]
        strokes = fewest_strokes([possible for _, possible in rows], middles)
        made |= {number: possible[stroke] for (number, possible), stroke in zip(rows, strokes, strict=True)}
    return [made[number] for number in range(len(pieces))]


def _possible(records: Records, piece: Piece, chosen: Wanted, known: _Known) -> _Possible:
    """Settings by stroke, all on one machine. Raises NoSetting with the first reason why there is none.

    known: those of other rows, for what has the same technique and grouping and no number of its own in its setting.
    """
    if chosen.dial is not None or chosen.hang_out is not None:
        return _worked_out(records, piece, chosen)
    key = piece.technique.id, piece.grouping.id, chosen
    if key not in known:
        known[key] = _worked_out(records, piece, chosen)
    return known[key]


def _worked_out(records: Records, piece: Piece, chosen: Wanted) -> _Possible:
    technique, grouping = piece.technique, piece.grouping
    row = nearest_row(technique, grouping)
    if row is None:
        fitting = ", ".join(sorted({c for r in technique.dials for c in r.configurations}))
        raise NoSetting(
            Diagnostic(
                "J602",
                piece.place,
                found=f"“{grouping.label}”",
                expected=f"a grouping that {technique.id} is worked with ({fitting})",
                help=f"choose another needle or technique, or add {grouping.label} to `dials` of {technique.id}",
                says=f"{grouping.label} is a row of needles and runs no line",
            )
        )
    first: NoSetting | None = None if technique.machines or chosen.machine else _no_machine(piece)
    # A stroke outside the technique's is taken only where no machine has one inside.
    for usual in (True, False):
        for machine in _machines(records, technique, chosen):
            found: dict[float, Setting] = {}
            try:
                for stroke in _strokes(records, technique, machine, chosen, usual, piece.place):
                    try:
                        found[stroke.low] = _on(records, piece, row, machine, stroke, chosen)
                    except NoSetting as refused:
                        first = first or refused
            except NoSetting as refused:
                first = first or refused
            if found:
                return found
    assert first is not None
    raise first


def _no_machine(piece: Piece) -> NoSetting:
    return NoSetting(
        Diagnostic(
            "J603",
            piece.place,
            found="no machine",
            expected="a machine that the technique is worked with",
            help="write the studio's machines into machines.yml; their example shows how",
            says="no machine is on file",
        )
    )


def _with_what_could(records: Records, piece: Piece, chosen: Wanted, refused: NoSetting) -> NoSetting:
    """The reason with the machines, and the needles on the shelf, with which it could be set up."""
    machines = [
        machine.name
        for machine in records.machines.values()
        if machine.until is None and _could(records, piece, replace(chosen, machine=machine.id), {})
    ]
    needles = [
        grouping.label
        for grouping in records.groupings.values()
        if grouping.until is None
        and dial_row(piece.technique, grouping) is not None
        and _could(records, piece._replace(grouping=grouping), chosen, {})
    ]
    could = [
        *([f"machines that could: {', '.join(machines)}"] if machines else []),
        *([f"needles that could: {', '.join(needles)}"] if needles else []),
    ]
    said = "; ".join(could) or "no machine or needle on file could"
    # A habit has yielded before this: what the row itself does not name is its part's or its job's.
    wide = [key for key in KEYS if getattr(chosen, key) is not None and getattr(piece.work, key) is None]
    if wide:
        said += f"; `{'`, `'.join(wide)}` of a whole part or job can be named at the rows that it is meant for"
    return NoSetting(replace(refused.diagnostic, help=f"{refused.diagnostic.help}; {said}"))


def _other(setting: Setting, usual: Setting | NoSetting) -> Iterator[str]:
    """What is set otherwise than the studio would set it, had nobody chosen anything."""
    pairs: tuple[tuple[str, Callable[[Setting], object]], ...] = (
        ("machine", lambda s: s.machine.id),
        ("stroke", lambda s: s.stroke.low),
        ("dial", lambda s: None if s.speed is None else round(s.speed.low, 2)),
        ("hang-out", lambda s: round(s.hang_out.low, 2)),
    )
    for what, of in pairs:
        if isinstance(usual, NoSetting) or of(setting) != of(usual):
            yield what


def _machines(records: Records, technique: Technique, chosen: Wanted) -> Iterable[Machine]:
    """The machine that is named, else those of the technique that show such a dial and have such a stroke."""
    if chosen.machine is not None:
        return [records.machines[chosen.machine]]
    listed = [records.machines[machine] for machine in technique.machines]
    return [machine for machine in listed if _suits(technique, machine, chosen)] or listed[:1]


def _suits(technique: Technique, machine: Machine, chosen: Wanted) -> bool:
    # A dial setting in volts is meant for a machine whose dial shows volts.
    shows_it = chosen.dial is None or chosen.dial.kind == machine.limits.kind
    return shows_it and (chosen.stroke is None or _same_stroke(technique, machine, chosen.stroke) is not None)


def _same_stroke(technique: Technique, machine: Machine, wanted: Quantity) -> Quantity | None:
    """The machine's stroke that is wanted, also as the tables print it: by itself or as an end of the technique's."""
    usual = technique.stroke
    typed = (wanted.low, end_as_typed(wanted.low, usual.low, usual.high, usual.kind))
    return next((s for s in machine.strokes if any(within(one, s.low, s.low, s.kind) for one in typed)), None)


def _on(records: Records, piece: Piece, row: Dial, machine: Machine, stroke: Quantity, chosen: Wanted) -> Setting:
    technique, grouping = piece.technique, piece.grouping
    speed, dial, odd_speed = _dial(records, piece, row, machine, stroke, chosen)
    hang_out = hang_out_of(records, piece, machine, chosen)
    hand = recorded(technique.hand_speed)
    outside = []
    if dial_row(technique, grouping) is not row:
        kinds = ", ".join(dict.fromkeys(c for r in technique.dials for c in r.configurations))
        outside.append(Outside("needle", grouping.label, kinds, technique.origin_at("dials")))
    if odd_speed and speed is not None:
        outside.append(Outside("speed", speed, recorded(row.speed), row.speed.origin))
    for what, value, usual in (
        ("stroke", recorded(stroke), technique.stroke),
        ("hang-out", hang_out, technique.hang_out),
    ):
        if not within(value.low, usual.low, usual.high, usual.kind):
            outside.append(Outside(what, value, recorded(usual), usual.origin))
    return Setting(
        technique,
        grouping,
        machine,
        recorded(stroke),
        speed,
        dial,
        hang_out,
        None if speed is None else compute(motion.spacing, "needle length", hand_speed=hand, frequency=speed),
        width_of(grouping),
        recorded(row.passes),
        tuple(outside),
    )


def _strokes(
    records: Records, technique: Technique, machine: Machine, chosen: Wanted, usual: bool, place: Place
) -> Sequence[Quantity]:
    """The strokes of the machine that come into question: the one that is named, else those of the technique.

    usual: only what lies inside the technique's range; else what lies nearest to it.
    """
    measured = {c.stroke.low for c in records.calibrations.values() if c.machine == machine.id}
    can = [s for s in machine.strokes if machine.dial != "volts" or s.low in measured]
    # Volts that somebody typed need no measured speed to be set.
    if chosen.dial is not None and (chosen.stroke is not None or not can):
        can = list(machine.strokes)
    if chosen.stroke is not None:
        named_one = _same_stroke(technique, machine, chosen.stroke)
        if named_one is not None and named_one in can:
            return [named_one]
        raise NoSetting(
            Diagnostic(
                "J603",
                chosen.stroke.place or place,
                found=f"“{chosen.stroke.text}”",
                expected=", ".join(s.text for s in can) or "a stroke that it was measured with",
                help="choose a stroke that it has" + (f", {_UNMEASURED}" if named_one else ""),
                says=f"{machine.id} was not measured with this stroke"
                if named_one
                else f"{machine.id} cannot be set to this stroke",
            )
        )
    inside = [s for s in can if technique.stroke.low <= s.low <= technique.stroke.high]
    if usual or inside:
        return inside
    if not can:
        raise NoSetting(
            Diagnostic(
                "J603",
                place,
                found=", ".join(s.text for s in machine.strokes),
                expected="a stroke that it was measured with",
                help=f"choose another machine, {_UNMEASURED}",
                says=f"{machine.id} was measured with none of its strokes",
            )
        )
    off = {s.low: max(technique.stroke.low - s.low, s.low - technique.stroke.high) for s in can}
    return [s for s in can if off[s.low] == min(off.values())]


def _dial(
    records: Records, piece: Piece, row: Dial, machine: Machine, stroke: Quantity, chosen: Wanted
) -> tuple[Value | None, Value, bool]:
    """Speed in Hz, the dial setting that gives it, and whether it lies outside the usual speeds.

    Volts that are typed need no measured speed: where there is none, the speed is not known.
    """
    place, limits, cartridge = piece.place, machine.limits, cartridge_of(piece.grouping)
    odd = False
    if chosen.dial is None:
        speed: Value | None = recorded(row.usual)
        try:
            dial = (
                recorded(row.usual)
                if machine.dial == "Hz"
                else dial_for_speed(records, machine, stroke.low, cartridge, recorded(row.usual))
            )
        except Refusal as refusal:
            raise NoSetting(_refused(refusal, place)) from None
    else:
        place = chosen.dial.place or place
        if chosen.dial.kind != limits.kind:
            raise NoSetting(
                Diagnostic(
                    "J604",
                    place,
                    found=f"“{chosen.dial.text}”",
                    expected=f"a setting in {machine.dial}",
                    help=f"write it in {machine.dial}, or choose another machine",
                    says=f"the dial of {machine.id} shows {machine.dial}",
                )
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
            Diagnostic(
                "J606",
                place,
                found=f"{dial.low:g}",
                expected=limits.text,
                help="choose another machine or another dial setting",
                says=f"{machine.id} cannot be set to this for {piece.technique.id}",
            )
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


def _refused(refusal: Refusal, place: Place) -> Diagnostic:
    remedy = f"{refusal.remedy}; or type the `dial` in volts, and its speed counts as not known"
    return Diagnostic("A902", place, found=refusal.found, expected=refusal.expected, help=remedy)
