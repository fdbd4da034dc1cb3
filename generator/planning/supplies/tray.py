"""What lies on the tray: inks with their caps and lots, and what is used up, counted for this job.

White takes a needle of its own in the count of cartridges.
"""

from __future__ import annotations

import datetime
import math
from collections.abc import Iterator
from dataclasses import dataclass

from generator.planning.computed import Computed, Value, compute, counted, recorded, rectangle, total
from generator.planning.timing.timetable import Timetable
from generator.planning.working.steps import LINES, WHITES, Step
from generator.records.families import Records
from generator.records.inks import Ink, Lot
from generator.records.jobs import Job
from generator.records.supplies import Supply
from generator.trade import dates, supplies


@dataclass(frozen=True, slots=True)
class Poured:
    """One ink of the job: millilitres, caps, and the bottles in date on the day."""

    ink: Ink
    millilitres: Computed
    caps: Computed
    lots: tuple[Lot, ...]


@dataclass(frozen=True, slots=True)
class Counted:
    """One article of the tray with how many are needed; `instead` when the client may not touch it."""

    supply: Supply
    number: Computed
    instead: str


@dataclass(frozen=True, slots=True)
class Tray:
    inks: tuple[Poured, ...]
    groupings: tuple[str, ...]
    supplies: tuple[Counted, ...]


def tray_of(records: Records, job: Job, steps: tuple[Step, ...], timetable: Timetable) -> Tray:
    """The tray of a job whose steps and times are known."""
    inks = tuple(_poured(records, job, steps))
    groupings = tuple(dict.fromkeys(step.setting.grouping.id for step in steps))
    width, height, parts = *map(recorded, job.size), job.origin_at("parts")
    counts: dict[str, Value] = {
        "sitting": timetable.sittings,
        # White is laid with a needle that has touched no other ink.
        "grouping": counted(len({(step.setting.grouping.id, step.section == WHITES) for step in steps}), parts),
        "machine": counted(len({step.setting.machine.id for step in steps}), parts),
        "ink": counted(len(inks), parts),
        "cap": total([poured.caps for poured in inks], "number"),
        "hour": timetable.whole,
        "interruption": _gloves(records, job, timetable),
        "area": compute(rectangle, "area", width=width, height=height),
    }
    articles = []
    for supply in records.supplies.values():
        clash = set(supply.contains or ()) & {allergy.to for allergy in job.allergies or ()}
        number = _count(supply, counts[supply.per])
        articles.append(Counted(supply, number, (supply.instead or "Leave it off the tray.") if clash else ""))
    return Tray(inks, groupings, tuple(articles))


def bottle_of(records: Records, ink: Ink) -> Ink:
    """The ink whose bottle is opened."""
    return records.inks[ink.mixed.of] if ink.mixed else ink


def in_date(ink: Ink, on: datetime.date) -> tuple[Lot, ...]:
    """The lots that may be used on this day: before their printed expiry and within their opened life."""
    return tuple(lot for lot in ink.lots if on <= good_until(ink, lot))


def good_until(ink: Ink, lot: Lot) -> datetime.date:
    """The earlier of the printed expiry and the end of the opened life."""
    if lot.opened is None:
        return lot.expires
    return dates.opened_ink_expiry(lot.opened, int(ink.opened_life.low), lot.expires)


def _poured(records: Records, job: Job, steps: tuple[Step, ...]) -> Iterator[Poured]:
    limits = records.studio.limits
    rate = recorded(limits.ink_rate)
    cap = recorded(limits.cap)
    strip = recorded(limits.line_ink_width)
    for ink_id in dict.fromkeys(step.ink.id for step in steps):
        areas: list[Value] = [
            compute(strip_area, "area", length=step.amount, width=strip) if step.section == LINES else step.amount
            for step in steps
            if step.ink.id == ink_id
        ]
        ink = records.inks[ink_id]
        millilitres = compute(supplies.ink_millilitres, "volume", area=total(areas, "area"), house_rate=rate)
        caps = compute(caps_for, "number", millilitres=millilitres, cap=cap)
        yield Poured(ink, millilitres, caps, in_date(bottle_of(records, ink), job.date))


def strip_area(length: float, width: float) -> float:
    """length · width: the strip that a line counts as when its ink is calculated by area."""
    return length * width


def caps_for(millilitres: float, cap: float) -> int:
    """The caps of one ink: one at least, more when it does not fit."""
    return supplies.ink_caps([millilitres], cap)


def _gloves(records: Records, job: Job, timetable: Timetable) -> Computed:
    return compute(
        interruptions,
        "number",
        breaks=timetable.break_count,
        others=recorded(job.interruptions),
        besides=recorded(records.studio.limits.glove_pairs),
        sittings=timetable.sittings,
    )


def interruptions(breaks: float, others: float, besides: float, sittings: float) -> float:
    """breaks + others + besides · sittings: how often a fresh pair of gloves is put on."""
    return breaks + others + besides * sittings


def _count(supply: Supply, per: Value) -> Computed:
    amount = recorded(supply.amount)
    if supply.per == "hour":
        return compute(pieces_by_time, "number", minutes=per, an_hour=amount)
    if supply.area is not None:
        served = recorded(supply.area)
        return compute(pieces_by_area, "number", area=per, served=served, amount=amount)
    return compute(pieces, "number", number=per, each=amount)


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
