"""The steps of a job in the order in which they are worked.

Lines first, in the order that keeps the stencil; then part by part or ink by ink, black and washes before colours and
dark before light, because a strong ink laid later dirties the pale one beside it; white highlights last over all.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from generator.diagnostics import Diagnostic, Report
from generator.grouped import grouped
from generator.planning.computed import (
    Computed,
    Recorded,
    Value,
    compute,
    counted,
    recorded,
    rectangle,
    total,
    with_added_share,
)
from generator.planning.working.open_needles import in_one_row, with_open_needles
from generator.planning.working.order import Area, ink_by_ink, lined_first, lines_in_order, part_by_part
from generator.planning.working.pieces import NoSetting, Piece
from generator.planning.working.reach import pieces_of, share_of_area
from generator.planning.working.scars import OverScar, ScarReading, over_scars, read_scars
from generator.planning.working.settings import Setting, settings_for
from generator.planning.working.shapes import shape_as_operand, shape_of
from generator.planning.working.technique import dial_row, technique_for
from generator.records.families import Records
from generator.records.inks import Ink
from generator.records.jobs import Job
from generator.records.parts import Colour, Lines, Part
from generator.records.people import BY_INK, BY_PART
from generator.trade import clock, colour, layout, palette, shapes
from generator.trade import scars as scarred

LINES, BLACKS, COLOURS, WHITES = "lines", "black and washes", "colours", "white highlights"
_SECTIONS = {"black": BLACKS, "wash": BLACKS, "colour": COLOURS, "white": WHITES}

# What a job may leave out of an area, and what is then assumed.
Assumed = Literal["area", "narrowest place"]
AREA: Assumed = "area"
NARROWEST: Assumed = "narrowest place"


@dataclass(frozen=True, slots=True)
class Step:
    """One row of the order. `amount` is the length or the area worked, `passes` the most for one spot off any scar.

    piece: what was set up. places: which places of a part it is for, where a row was split between a magnum and a
    round. minutes_learned: the same minutes at the artist's own pace, where finished jobs have taught it; booked: the
    minutes that everything rests on. over: what of it lies over a scar, with the passes and the added time that hold
    there. assumed: what the job does not say of it, so that a default stands in.
    """

    section: str
    part: Part
    ink: Ink
    setting: Setting
    amount: Value
    minutes: Value
    passes: Recorded
    piece: Piece
    minutes_learned: Computed | None = None
    over: tuple[OverScar, ...] = ()
    places: str = ""
    assumed: tuple[Assumed, ...] = ()

    @property
    def booked(self) -> Value:
        """The time that is booked: at the artist's own pace where it was learned, else the plain estimate."""
        return self.minutes if self.minutes_learned is None else self.minutes_learned


@dataclass(frozen=True, slots=True)
class Changes:
    """How often something else is taken in hand from the first step of the piece to the last."""

    cartridges: Recorded
    inks: Recorded


@dataclass(frozen=True, slots=True)
class Chosen:
    """How areas are ordered, `by`; who decided it; and what is changed in this order and in the other one."""

    by: str
    decided_by: Literal["job", "artist", "studio"]
    changes: Changes
    other: str
    other_changes: Changes


@dataclass(frozen=True, slots=True)
class LaidOut:
    """The steps of a job in order: the same whatever was learned, and whether or not it is finished.

    everything: all records, and records: those that are here on its day.
    """

    everything: Records
    records: Records
    scars: tuple[ScarReading, ...]
    steps: tuple[Step, ...]
    order: Chosen


def order_of_work(everything: Records, job: Job, records: Records) -> tuple[LaidOut | None, Report]:
    """All steps of the job in order by some of the records; or what stands in the way of setting some of them up."""
    scars = read_scars(records, job)
    pieces, report = _pieces(records, job)
    steps, refused = steps_of(records, job, pieces, scars)
    if not (report or refused):
        chosen = tuple(in_one_row(open_for(records, job, pieces, [step.minutes.high for step in steps])))
        if chosen != pieces:
            steps, refused = steps_of(records, job, chosen, scars)
    report += refused
    if report:
        # What is named for a whole part or job is one mistake, however many rows it does not suit.
        first = {(mistake.code, mistake.place): mistake for mistake in reversed(report)}
        return None, tuple(mistake for mistake in report if mistake is first[mistake.code, mistake.place])
    by, decided_by = _decided(records, job)
    other = BY_INK if by == BY_PART else BY_PART
    ways = _in_order(records, job, steps)
    ordered, otherwise = ways[by], ways[other]
    order = Chosen(by, decided_by, changes_of(job, ordered), other, changes_of(job, otherwise))
    return LaidOut(everything, records, scars, ordered, order), ()


def open_for(records: Records, job: Job, pieces: Sequence[Piece], minutes: Sequence[float]) -> tuple[Piece, ...]:
    """The rows of a piece, or of one of its sittings, with the needles open in it. minutes: at the slow end."""

    def can(piece: Piece) -> bool:
        return not isinstance(settings_for(records, job, [piece])[0], NoSetting)

    return with_open_needles(records, pieces, minutes, can)


def steps_of(
    records: Records, job: Job, pieces: Sequence[Piece], scars: tuple[ScarReading, ...]
) -> tuple[list[Step], list[Diagnostic]]:
    """A step for each row, and what cannot be set up."""
    steps: list[Step] = []
    report: list[Diagnostic] = []
    for piece, setting in zip(pieces, settings_for(records, job, pieces), strict=True):
        try:
            if isinstance(setting, NoSetting):
                raise setting
            steps.append(_step(records, job, piece, setting, scars))
        except NoSetting as refused:
            report.append(refused.diagnostic)
    return steps, report


def _decided(records: Records, job: Job) -> tuple[str, Literal["job", "artist", "studio"]]:
    """By part or by ink: what the job says, else the artist's habit, else the studio's way."""
    habit = records.people[job.artist].order
    if job.order is not None:
        return job.order, "job"
    return (habit, "artist") if habit is not None else (records.studio.order, "studio")


def changes_of(job: Job, steps: Sequence[Step]) -> Changes:
    """How often needle and ink are changed in these steps."""
    # White is laid with a needle that has touched no other ink.
    needles = [(step.setting.grouping.id, step.section == WHITES) for step in steps]
    inks = [step.ink.id for step in steps]
    parts = job.origin_at("parts")
    return Changes(counted(_changed(needles), parts), counted(_changed(inks), parts))


def _changed(held: Sequence[object]) -> int:
    return sum(before != after for before, after in pairwise(held))


def _pieces(records: Records, job: Job) -> tuple[tuple[Piece, ...], list[Diagnostic]]:
    """Everything that is to be set up, and what has no technique."""
    pieces: list[Piece] = []
    report: list[Diagnostic] = []
    for part in job.parts:
        works: tuple[Lines | Colour, ...] = (*part.lines, *part.colours)
        for work in works:
            try:
                pieces += pieces_of(records, part, work, technique_for(records, part, work))
            except NoSetting as refused:
                report.append(refused.diagnostic)
    return tuple(pieces), report


def _in_order(records: Records, job: Job, steps: list[Step]) -> dict[str, tuple[Step, ...]]:
    """By part and by ink. Cartridges and inks are changed as seldom as stencil and inks allow."""
    parts: dict[str, shapes.Shape] = {part.id: shape_of(part) for part in job.parts}
    turned = job.pose_turned.low if job.pose_turned is not None else 0.0
    hand = records.people[job.artist].hand
    before = lined_first(parts, hand, turned, records.studio.limits.lining_row.low)
    lines = lines_in_order(
        [(step.part.id, (step.setting.grouping.id, step.ink.id), step) for step in steps if step.section == LINES],
        before,
    )
    place = {part: number for number, part in enumerate(before)}
    filled = [_area_of(records, step) for step in steps if step.section != LINES]
    filled.sort(key=lambda area: (area.rank, place[area.part]))
    areas = sorted((a for a in filled if a.work.section != WHITES), key=lambda area: place[area.part])
    by_part = part_by_part(areas, _laid_first(records, areas), palette.LAYERS["colour"])
    whites = ink_by_ink([area for area in filled if area.work.section == WHITES])
    return {BY_INK: (*lines, *ink_by_ink(filled)), BY_PART: (*lines, *by_part, *whites)}


def _area_of(records: Records, step: Step) -> Area[Step]:
    lab = colour.lab(step.ink.swatch)
    layer, lightness = palette.laying_order(step.ink.kind, lab.lightness)
    family = palette.hue_family(lab, records.studio.limits.blend_chroma)
    return Area(
        part=step.part.id,
        ink=str(step.ink.id),
        tool=step.setting.grouping.id,
        layer=layer,
        lightness=lightness,
        chroma=colour.chroma(lab),
        hue="" if family == palette.NEUTRAL else family,
        work=step,
    )


def _laid_first(records: Records, areas: Sequence[Area[Step]]) -> dict[int, frozenset[int]]:
    """For each light colour the darker inks beside it. Washes are left out: they are thin, and grey themselves."""
    limits = records.studio.limits
    inks = [number for number, area in enumerate(areas) if area.work.ink.kind != "wash"]
    inks.sort(key=lambda number: -areas[number].lightness)
    laid = [layout.Laid(str(n), shape_of(areas[n].work.part), areas[n].lightness) for n in inks]
    pairs = layout.light_before_dark(laid, limits.beside.low, limits.darker_by)
    found = grouped((int(p.light), int(p.dark)) for p in pairs if areas[int(p.light)].work.section == COLOURS)
    return {light: frozenset(darker) for light, darker in found.items()}


def _step(records: Records, job: Job, piece: Piece, setting: Setting, scars: tuple[ScarReading, ...]) -> Step:
    part, work = piece.part, piece.work
    over = over_scars(records, job, piece, scars)
    technique = setting.technique
    rate = recorded(technique.pace)
    amount: Value
    wanted = "lines" if isinstance(work, Lines) else "areas"
    if technique.works != wanted:
        raise NoSetting(
            "J609",
            (work.technique or part.id).place,
            found=technique.id,
            expected=f"a technique for {wanted}",
            help="choose another technique",
            says=f"{technique.id} is measured in {technique.works}, this work in {wanted}",
        )
    if isinstance(work, Lines):
        section, ink = LINES, _lining_ink(records, job, part, work)
        amount = recorded(work.length)
        minutes: Value = compute(clock.line_minutes, "duration", length=amount, pace=rate)
    else:
        ink = records.inks[work.ink]
        section = _SECTIONS[ink.kind]
        amount = _area(records, part, work, ink)
        if piece.share is not None:
            amount = compute(share_of_area, "area", area=amount, share=piece.share)
        minutes = compute(
            clock.area_minutes,
            "duration",
            area=amount,
            pace=rate,
            # The pace is that of the finished area: going over again is inside it.
            passes=counted(1, technique.pace),
        )
    added = [
        compute(scarred.added_over_scar, "share", slower=there.slower, share=there.share)
        for there in over
        if there.slower is not None
    ]
    if added:
        share = added[0] if len(added) == 1 else total(list(added), "share")
        minutes = compute(with_added_share, "duration", value=minutes, share=share)
    assumed = tuple(_assumed(part, work)) if isinstance(work, Colour) else ()
    times = setting.passes
    if NARROWEST in assumed and (fewer := _passes_of_rounds(records, setting)) is not None:
        times = fewer
    return Step(
        section, part, ink, setting, amount, minutes, times, piece, over=over, places=piece.places, assumed=assumed
    )


def _passes_of_rounds(records: Records, setting: Setting) -> Recorded | None:
    """How often a round would go over it, where that is less often than the needle that is planned."""
    rows = [dial_row(setting.technique, records.groupings[name]) for name in setting.technique.rounds]
    fewest = min((row.passes for row in rows if row is not None), default=setting.passes.low)
    return recorded(fewest) if fewest < setting.passes.low else None


def _assumed(part: Part, work: Colour) -> Iterator[Assumed]:
    """An outline tells its narrowest place itself."""
    if work.area is None:
        yield AREA
    if work.narrowest is None and part.narrowest is None and part.outline is None:
        yield NARROWEST


def _lining_ink(records: Records, job: Job, part: Part, work: Lines) -> Ink:
    """The ink that the lines name, else the job, else the studio; the first black on the shelf where nobody does.

    The black that a part is filled with is left out: two parts would then be lined in two blacks by accident.
    """
    named = work.ink or job.line_ink or records.studio.line_ink
    if named is not None:
        return records.inks[named]
    blacks = [ink for ink in records.inks.values() if ink.kind == "black"]
    if not blacks:
        raise NoSetting(
            "J610",
            part.id.place,
            found="none",
            expected="an ink of kind `black`",
            help="add one to inks.yml",
            says="there is no black ink for the lines",
        )
    return blacks[0]


def _area(records: Records, part: Part, work: Colour, ink: Ink) -> Value:
    """The area the job gives; otherwise an equal share of what is filled, or highlighted, in the part."""
    if work.area is not None:
        return recorded(work.area)
    limits = records.studio.limits
    share = recorded(limits.highlight if ink.kind == "white" else limits.filled)
    sharing = [
        c for c in part.colours if c.area is None and (records.inks[c.ink].kind == "white") == (ink.kind == "white")
    ]
    return compute(
        share_of_part,
        "area",
        part=_whole_area(part),
        share=share,
        inks=counted(len(sharing), part.origin_at("colours")),
    )


def _whole_area(part: Part) -> Computed:
    if part.box is not None:
        width, height = map(recorded, part.box[2:])
        return compute(rectangle, "area", width=width, height=height)
    return compute(shapes.area, "area", shape=shape_as_operand(part))


def share_of_part(part: float, share: float, inks: float) -> float:
    """part · share / 100 / inks: the filled share of a part, split evenly among its inks."""
    return part * share / 100 / inks
