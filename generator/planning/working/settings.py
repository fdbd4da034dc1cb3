"""With what a piece of work is done: technique, grouping, machine, stroke, dial, hang-out.

Row, part, job and artist may choose; what they leave open comes from the technique's record. What lies outside a
technique's usual range, and inside what machine and needle can do, is planned and said to be unusual; refused is only
what one of the two cannot do, with what could.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from generator.origins import Origin
from generator.planning.computed import Computed, Recorded, Value, compute, recorded
from generator.planning.working.choices import KEYS, NOTHING, Wanted, asked_for, with_habits
from generator.planning.working.dial import dial_of
from generator.planning.working.hang_out import hang_out_of
from generator.planning.working.pieces import NoSetting, Piece
from generator.planning.working.strokes import fewest_strokes, same_stroke, strokes_of
from generator.planning.working.technique import dial_row, nearest_row
from generator.planning.working.widths import width_of
from generator.quantities import Quantity, within
from generator.records.families import Records
from generator.records.jobs import Job
from generator.records.machines import Machine
from generator.records.needles import Dial, Grouping, Technique
from generator.trade import motion

_Possible = Mapping[float, "Setting"]
# What is possible by technique, grouping and what was chosen.
_Known = dict[tuple[str, str, Wanted], _Possible]


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


def settings_for(records: Records, job: Job, pieces: Sequence[Piece]) -> list[Setting | NoSetting]:
    """One setting for each row, with one stroke on each machine where one fits; or why there is none."""
    known: _Known = {}
    asked = [_chosen(records, job, piece, known) for piece in pieces]
    made = _settings(records, pieces, asked, known)
    if all(chosen == NOTHING for chosen in asked):
        return made
    usual = _settings(records, pieces, [NOTHING] * len(pieces), known)
    return [
        setting if isinstance(setting, NoSetting) else replace(setting, other=_other(setting, plain))
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
    row = nearest_row(piece)
    if not (piece.technique.machines or chosen.machine):
        raise NoSetting(
            "J603",
            piece.place,
            found="no machine",
            expected="a machine that the technique is worked with",
            help="write the studio's machines into machines.yml; their example shows how",
            says="no machine is on file",
        )
    refused: list[NoSetting] = []
    # A stroke outside the technique's is taken only where no machine has one inside.
    for usual in (True, False):
        for machine in _machines(records, piece.technique, chosen):
            found: dict[float, Setting] = {}
            try:
                strokes = strokes_of(records, piece, machine, chosen, usual)
            except NoSetting as one:
                refused.append(one)
                continue
            for stroke in strokes:
                try:
                    found[stroke.low] = _on(records, piece, row, machine, stroke, chosen)
                except NoSetting as one:
                    refused.append(one)
            if found:
                return found
    raise refused[0]


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
    refused.diagnostic = replace(refused.diagnostic, help=f"{refused.diagnostic.help}; {said}")
    return refused


def _choices_of(setting: Setting) -> dict[str, object]:
    """What somebody may choose of a setting, by its name on the sheet."""
    return {
        "machine": setting.machine.id,
        "stroke": setting.stroke.low,
        "dial": None if setting.speed is None else round(setting.speed.low, 2),
        "hang-out": round(setting.hang_out.low, 2),
    }


def _other(setting: Setting, usual: Setting | NoSetting) -> tuple[str, ...]:
    """What is set otherwise than the studio would set it, had nobody chosen anything."""
    plain = {} if isinstance(usual, NoSetting) else _choices_of(usual)
    return tuple(what for what, chosen in _choices_of(setting).items() if what not in plain or chosen != plain[what])


def _machines(records: Records, technique: Technique, chosen: Wanted) -> Iterable[Machine]:
    """The machine that is named, else those of the technique that show such a dial and have such a stroke."""
    if chosen.machine is not None:
        return [records.machines[chosen.machine]]
    listed = [records.machines[machine] for machine in technique.machines]
    return [machine for machine in listed if _suits(technique, machine, chosen)] or listed[:1]


def _suits(technique: Technique, machine: Machine, chosen: Wanted) -> bool:
    # A dial setting in volts is meant for a machine whose dial shows volts.
    shows_it = chosen.dial is None or chosen.dial.kind == machine.limits.kind
    return shows_it and (chosen.stroke is None or same_stroke(technique, machine, chosen.stroke) is not None)


def _on(records: Records, piece: Piece, row: Dial, machine: Machine, stroke: Quantity, chosen: Wanted) -> Setting:
    technique, grouping = piece.technique, piece.grouping
    speed, dial, odd_speed = dial_of(records, piece, row, machine, stroke, chosen)
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
