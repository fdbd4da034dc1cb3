"""What happened on the day of a finished job, beside what was planned."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from typing import NamedTuple

from generator.planning.computed import total
from generator.planning.plan import JobPlan
from generator.press.words.estimates import ends_shown
from generator.press.words.formatted import calculated, measured
from generator.quantities import Quantity
from generator.records.afterwards import Cartridge, Finished
from generator.records.families import Records

# What ended a sitting, in the words of the sheet.
_STOPPED = {
    "done": "done as planned",
    "time": "the time was up",
    "skin": "the skin had enough",
    "tap-out": "the client tapped out",
    "unwell": "ended early for the client’s sake",
}
NOT_ON_FILE = "not on file"


class TimedWork(NamedTuple):
    """One technique: planned for this sitting, and by the clock."""

    technique: str
    planned: str
    took: str


class UsedLot(NamedTuple):
    """A batch code with the inks that carry it: their names, and the anchors of their rows in the handbook."""

    code: str
    inks: tuple[tuple[str, str], ...]


class Afterwards(NamedTuple):
    """Everything that was written down afterwards, formatted."""

    on: str
    took: str
    planned: str
    times: tuple[TimedWork, ...]
    lots: tuple[UsedLot, ...]
    cartridges: tuple[str, ...]
    stopped: str
    ended: str
    dressing: str
    kept_until: str


def afterwards_of(records: Records, plan: JobPlan) -> Afterwards | None:
    """None for a job that is not finished."""
    done = plan.job.finished
    if done is None:
        return None
    assert plan.kept_until is not None
    whole = None if plan.work is None else plan.work.at_hand.timetable.whole
    return Afterwards(
        on=done.on.isoformat(),
        took=measured(done.took, records),
        planned=NOT_ON_FILE if whole is None else calculated(*ends_shown(whole), "duration", records),
        times=tuple(_times(records, plan, done)),
        lots=tuple(_lot(records, code) for code in done.lots),
        cartridges=tuple(_cartridge(records, used, done.on) for used in done.cartridges),
        stopped=NOT_ON_FILE if done.stopped is None else _STOPPED[done.stopped],
        ended=done.ended,
        dressing=done.dressing or NOT_ON_FILE,
        kept_until=plan.kept_until.answer.isoformat(),
    )


def _times(records: Records, plan: JobPlan, done: Finished) -> Iterator[TimedWork]:
    """Every technique that was planned for the sitting or timed, in the order of the records."""
    steps = () if plan.work is None else plan.work.at_hand.steps
    for technique in records.techniques.values():
        planned = [step.minutes for step in steps if step.setting.technique.id == technique.id]
        took = [worked.took for worked in done.worked if worked.technique == technique.id]
        if not planned and not took:
            continue
        estimate = "not planned"
        if planned:
            whole = total(planned, "duration")
            estimate = calculated(*ends_shown(whole), "duration", records)
        yield TimedWork(technique.name, estimate, _together(records, took))


def _together(records: Records, took: list[Quantity]) -> str:
    if not took:
        return NOT_ON_FILE
    if len(took) == 1:
        return measured(took[0], records)
    minutes = sum(time.low for time in took)
    return calculated(minutes, minutes, "duration", records)


def _lot(records: Records, code: str) -> UsedLot:
    inks = [ink for ink in records.inks.values() if any(lot.lot == code for lot in ink.lots)]
    return UsedLot(code, tuple((ink.name, f"inks-{ink.id}") for ink in inks))


def _cartridge(records: Records, used: Cartridge, on: datetime.date) -> str:
    """Lot, grouping and expiry, as a record of a job has to hold them."""
    if used.expires is None:
        until = "expiry not written down"
    else:
        until = f"{'expired on' if used.expires < on else 'good until'} {used.expires.isoformat()}"
    return f"{used.lot}, {records.groupings[used.grouping].label}, {until}"
