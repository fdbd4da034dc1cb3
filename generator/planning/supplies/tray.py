"""What lies on the tray: inks with their caps and lots, and what is used up, counted for one sitting of a job.

White takes a needle of its own in the count of cartridges. A sitting without a stencil takes nothing that is for the
stencil, and of a piece of several sittings each dresses what was worked in it.
"""

from __future__ import annotations

import datetime
import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from generator.grouped import grouped
from generator.origins import Origin
from generator.planning.computed import Computed, Value, compute, counted, recorded, rectangle, total
from generator.planning.timing.sittings import Visit
from generator.planning.timing.timetable import Timetable
from generator.planning.working.bands import template_of
from generator.planning.working.calibration import cartridge_of
from generator.planning.working.shapes import edges_of
from generator.planning.working.steps import LINES, NARROWEST, WHITES, Step
from generator.quantities import significant
from generator.records.ended import RECALLED, is_over
from generator.records.families import Records
from generator.records.hygiene import EVERY_SITTING
from generator.records.inks import Ink, Lot
from generator.records.jobs import Job
from generator.records.parts import Part
from generator.records.supplies import Supply
from generator.trade import dates, paper, supplies

# Width and height round what is drawn.
_Frame = Mapping[str, Value]


@dataclass(frozen=True, slots=True)
class Poured:
    """One ink of the job: millilitres, caps, and the bottles in date on the day.

    in_washes: how much of the millilitres goes into washes. caps: None where all of it does.
    """

    ink: Ink
    millilitres: Computed
    caps: Computed | None
    in_washes: Computed | None
    lots: tuple[Lot, ...]


@dataclass(frozen=True, slots=True)
class Counted:
    """One article of the tray with how many are needed; `instead` when the client may not touch it.

    or_else: what may be taken in its place, with its own number; one of the two is used.
    """

    supply: Supply
    number: Computed
    instead: str
    or_else: Counted | None = None


@dataclass(frozen=True, slots=True)
class Tray:
    inks: tuple[Poured, ...]
    groupings: tuple[str, ...]
    supplies: tuple[Counted, ...]


def tray_of(records: Records, job: Job, visit: Visit, timetable: Timetable, on_the_day: bool) -> Tray:
    """The tray of one sitting whose steps and times are known. on_the_day: whether the job is for this one."""
    steps, stencil = visit.steps, visit.stencil
    inks = tuple(_poured(records, job, steps))
    groupings = tuple(dict.fromkeys(step.setting.grouping.id for step in steps))
    parts = job.origin_at("parts")
    worked = {str(step.part.id) for step in steps}
    drawn = {str(s.part.id) for s in steps if s.section == LINES or not (s.part.lines or visit.touch_up)}
    again = visit.number > 1 or visit.touch_up
    # The whole stencil is placed at once; later it is what is still to be lined.
    size = _on_the_arc(records, job, drawn, _frame(job, drawn if stencil and again else None))
    counts: dict[str, Value] = {
        "sitting": counted(1, job.date),
        # White is laid with a needle that has touched no other ink.
        "grouping": counted(len(_needles(steps)) + len(_rounds(steps)), parts),
        "machine": counted(len({step.setting.machine.id for step in steps}), parts),
        "bottle": counted(len({bottle_of(records, poured.ink).id for poured in inks}), parts),
        "cap": total([poured.caps for poured in inks if poured.caps is not None], "number"),
        "hour": timetable.whole,
        "interruption": _gloves(records, job, timetable, stencil, on_the_day),
        "area": compute(rectangle, "area", **_frame(job, worked)),
    }
    used = [s for s in records.supplies.values() if stencil or not (s.for_stencil or s.per == "strip")]
    return Tray(inks, groupings, tuple(_articles(records, job, used, counts, size)))


def _needles(steps: tuple[Step, ...]) -> set[tuple[str, ...]]:
    """A cartridge for each grouping, and one for white."""
    return {(str(step.setting.grouping.id), "white" if step.section == WHITES else "") for step in steps}


def _rounds(steps: tuple[Step, ...]) -> set[tuple[str, str]]:
    """Where a row is planned and nobody has measured how narrow it gets, a round lies ready for each part."""
    return {
        (str(step.part.id), str(step.setting.technique.id))
        for step in steps
        if NARROWEST in step.assumed and step.setting.technique.rounds and cartridge_of(step.setting.grouping) == "row"
    }


def trays_together(trays: Sequence[Tray]) -> Tray:
    """What all sittings of a piece take."""
    if len(trays) == 1:
        return trays[0]
    inks = grouped((poured.ink.id, poured) for tray in trays for poured in tray.inks)
    articles = grouped((article.supply.id, article) for tray in trays for article in tray.supplies)
    groupings = tuple(dict.fromkeys(grouping for tray in trays for grouping in tray.groupings))
    return Tray(
        tuple(_poured_together(same) for same in inks.values()),
        groupings,
        tuple(_counted_together(same) for same in articles.values()),
    )


def _poured_together(same: Sequence[Poured]) -> Poured:
    def both(values: Iterable[Computed | None], kind: str) -> Computed | None:
        found: list[Value] = [value for value in values if value is not None]
        return total(found, kind) if found else None

    return replace(
        same[0],
        millilitres=total([poured.millilitres for poured in same], "volume"),
        caps=both((poured.caps for poured in same), "number"),
        in_washes=both((poured.in_washes for poured in same), "volume"),
    )


def _counted_together(same: Sequence[Counted]) -> Counted:
    others = [article.or_else for article in same if article.or_else is not None]
    return replace(
        same[0],
        number=total([article.number for article in same], "number"),
        or_else=_counted_together(others) if others else None,
    )


def _articles(
    records: Records, job: Job, used: list[Supply], counts: dict[str, Value], stencil: _Frame
) -> Iterator[Counted]:
    """What is used up; what may be taken in place of another stands beside it, while the client may touch both."""
    allergies = {allergy.to for allergy in job.allergies or ()}
    made = {
        str(supply.id): Counted(
            supply,
            _count(records, supply, counts, stencil),
            (supply.instead or "leave it off the tray") if set(supply.contains or ()) & allergies else "",
        )
        for supply in used
    }
    beside: set[str] = set()
    for name, article in list(made.items()):
        other = made.get(str(article.supply.or_else)) if article.supply.or_else is not None else None
        alone = name not in beside and (other is None or other.or_else is None)
        if other is not None and alone and not article.instead and not other.instead:
            made[name] = replace(article, or_else=other)
            beside.add(str(other.supply.id))
    yield from (article for name, article in made.items() if name not in beside)


def exchanged(records: Records) -> frozenset[str]:
    """The articles that a client's allergies may exchange, and those that may be taken in their place.

    That is read off the records alone: which of them lies on a tray would tell what its client answered.
    """
    # What nobody has read may hold anything.
    touched = (str(one.id) for one in records.supplies.values() if one.contains != ())
    return frozenset((*touched, *one_of_two(records)))


def one_of_two(records: Records) -> dict[str, Origin]:
    """The articles of which either they or another one is taken, each with where that is written."""
    pairs = [(one, one.origin_at("or_else")) for one in records.supplies.values() if one.or_else is not None]
    return {str(name): at for one, at in pairs for name in (one.id, one.or_else)}


def _frame(job: Job, parts: set[str] | None) -> _Frame:
    """Width and height round some parts of the piece; of the whole piece where these are all, or None is given."""
    some: list[Part] = [part for part in job.parts if parts is not None and str(part.id) in parts]
    if parts is None or len(some) == len(job.parts):
        width, height = map(recorded, job.size)
        return {"width": width, "height": height}
    left, top, right, foot = zip(*map(edges_of, some), strict=True)
    sides = {"width": max(right) - min(left), "height": max(foot) - min(top)}
    return {name: counted(side, job.origin_at("parts"), "length") for name, side in sides.items()}


def _on_the_arc(records: Records, job: Job, drawn: set[str], frame: _Frame) -> _Frame:
    """The stencil of bands is bent: as wide and as tall as their arc template, and no smaller than the rest."""
    template = template_of(records, job) if job.girth is not None else None
    if template is None or job.girth is None or not drawn & set(template.arcs):
        return frame
    bent = {"width": template.right - template.left, "height": template.foot - template.top}
    return {
        name: side if side.high >= bent[name] else counted(significant(bent[name]), job.girth.origin, "length")
        for name, side in frame.items()
    }


def bottle_of(records: Records, ink: Ink) -> Ink:
    """The ink whose bottle is opened."""
    return records.inks[ink.mixed.of] if ink.mixed else ink


def in_date(ink: Ink, on: datetime.date) -> tuple[Lot, ...]:
    """The lots that may be used on this day: not used up or recalled, before expiry and within their opened life.

    A recalled lot may be used on no day, also on one before its recall.
    """
    return tuple(lot for lot in ink.lots if not _is_gone(lot, on) and on <= good_until(ink, lot))


def _is_gone(lot: Lot, on: datetime.date) -> bool:
    return lot.until is not None and (lot.until.why == RECALLED or is_over(lot.until, on))


def good_until(ink: Ink, lot: Lot) -> datetime.date:
    """The earlier of the printed expiry and the end of the opened life."""
    if lot.opened is None:
        return lot.expires
    return dates.opened_ink_expiry(lot.opened, int(ink.opened_life.low), lot.expires)


def _poured(records: Records, job: Job, steps: tuple[Step, ...]) -> Iterator[Poured]:
    """Each ink, before the first wash that is mixed of it; what its washes take is part of what is poured of it."""
    limits = records.studio.limits
    rate = recorded(limits.ink_rate)
    cap = recorded(limits.cap)
    strip = recorded(limits.line_ink_width)
    worked: dict[str, Computed] = {}
    for ink_id in dict.fromkeys(str(step.ink.id) for step in steps):
        areas: list[Value] = [
            compute(strip_area, "area", length=step.amount, width=strip) if step.section == LINES else step.amount
            for step in steps
            if str(step.ink.id) == ink_id
        ]
        worked[ink_id] = compute(supplies.ink_millilitres, "volume", area=total(areas, "area"), house_rate=rate)
    mixed: dict[str, list[Value]] = {}
    for ink_id, millilitres in worked.items():
        if (mix := records.inks[ink_id].mixed) is not None:
            taken = compute(
                ink_in_wash,
                "volume",
                millilitres=millilitres,
                parts_ink=recorded(mix.parts_ink),
                parts_water=recorded(mix.parts_water),
            )
            mixed.setdefault(str(mix.of), []).append(taken)
    poured = dict.fromkeys(i for each in worked for i in (str(bottle_of(records, records.inks[each]).id), each))
    for each in poured:
        ink, neat = records.inks[each], worked.get(each)
        in_washes = total(mixed[each], "volume") if each in mixed else None
        both: list[Value] = [value for value in (neat, in_washes) if value is not None]
        yield Poured(
            ink,
            neat if neat is not None and in_washes is None else total(both, "volume"),
            compute(caps_for, "number", millilitres=neat, cap=cap) if neat is not None else None,
            in_washes,
            in_date(bottle_of(records, ink), job.date),
        )


def ink_in_wash(millilitres: float, parts_ink: float, parts_water: float) -> float:
    """millilitres · parts of ink / all parts: what a wash takes from the bottle it is mixed of."""
    return millilitres * parts_ink / (parts_ink + parts_water)


def strip_area(length: float, width: float) -> float:
    """length · width: the strip that a line counts as when its ink is calculated by area."""
    return length * width


def caps_for(millilitres: float, cap: float) -> int:
    """The caps of one ink: one at least, more when it does not fit."""
    return supplies.ink_caps([millilitres], cap)


def _gloves(records: Records, job: Job, timetable: Timetable, stencil: bool, on_the_day: bool) -> Computed:
    steps = [s for s in records.hygiene.values() if s.new_gloves == EVERY_SITTING or (s.new_gloves and stencil)]
    return compute(
        interruptions,
        "number",
        breaks=timetable.break_count,
        # What else interrupts is expected for the day of the job, and not for every sitting of its piece.
        others=recorded(job.interruptions) if on_the_day else counted(0, job.date),
        procedures=total([counted(1, step.origin_at("new_gloves")) for step in steps], "number"),
    )


def interruptions(breaks: float, others: float, procedures: float) -> float:
    """max(breaks, others) + procedures: how often a fresh pair of gloves is put on.

    What else interrupts falls into a break as far as there are any: then gloves are changed once for both.
    """
    return max(breaks, others) + procedures


def _count(records: Records, supply: Supply, counts: dict[str, Value], stencil: _Frame) -> Computed:
    amount = recorded(supply.amount)
    if supply.sheet is not None:
        sheet = {name: recorded(side) for name, side in zip(("paper_width", "paper_length"), supply.sheet, strict=True)}
        overlap = recorded(records.studio.limits.strip_overlap)
        sheets = compute(paper.stencil_sheets, "number", **stencil, **sheet, overlap=overlap)
        return compute(pieces, "number", number=sheets, each=amount)
    if supply.per == "hour":
        return compute(pieces_by_time, "number", minutes=counts["hour"], an_hour=amount)
    if supply.area is not None:
        area = compute(rectangle, "area", **stencil) if supply.for_stencil else counts["area"]
        return compute(pieces_by_area, "number", area=area, served=recorded(supply.area), amount=amount)
    return compute(pieces, "number", number=counts[supply.per], each=amount)


def pieces(number: float, each: float) -> int:
    """number · each, rounded up to whole pieces."""
    return _up(number * each)


def pieces_by_time(minutes: float, an_hour: float) -> int:
    """minutes / 60 · an_hour, rounded up to whole pieces."""
    return _up(minutes / 60 * an_hour)


def pieces_by_area(area: float, served: float, amount: float) -> int:
    """area / served · amount, rounded up to whole pieces."""
    return _up(area / served * amount)


def _up(number: float) -> int:
    # Nine digits, so that the last bits of a float do not add a piece.
    return math.ceil(round(number, 9))
