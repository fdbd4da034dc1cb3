"""The lanes of a day by the clock: who works or watches, and what each chair and each machine is taken by."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import groupby
from typing import NamedTuple, TypeVar

from generator.planning.timing.booked import Booked
from generator.planning.timing.clashes import cleaning_between, of_each_artist
from generator.planning.timing.day import BREAK, DRYING, REST, SET_UP, SKIN, STENCIL, WORK, WRAP
from generator.press.drawings.day_lanes import Block, Caption, Lane
from generator.press.lists.days import OnItsDay
from generator.records.families import Records

T = TypeVar("T")
_LETTERS = {SET_UP: "S", STENCIL: "T", DRYING: "", SKIN: "T", BREAK: "", REST: "", WRAP: "W"}
_LOOKS = {SET_UP: "set", STENCIL: "set", DRYING: "pause", SKIN: "set", WRAP: "set", WORK: "dark"}
_LOOKS |= dict.fromkeys((BREAK, REST), "pause")


class Coming(NamedTuple):
    """The sittings of a day that are still to be worked. jobs: those of the day, by id; chairs: where there is one."""

    records: Records
    jobs: Mapping[str, OnItsDay]
    sittings: Sequence[Booked]
    chairs: Mapping[str, int]

    @property
    def cleaning(self) -> datetime.timedelta:
        """How long a station is cleaned after a client."""
        return datetime.timedelta(minutes=cleaning_between(self.records).minutes)


class ClockRun(NamedTuple):
    """What is done in one go; of work the first and the last step."""

    kind: str
    begins: datetime.datetime
    ends: datetime.datetime
    first: int
    last: int


def runs_of(one: Booked) -> Iterator[ClockRun]:
    """A sitting by what is done in one go."""
    for kind, found in groupby(one.stretches, key=lambda stretch: stretch.kind):
        run = list(found)
        yield ClockRun(kind, run[0].begins, run[-1].ends, run[0].step, run[-1].step)


def lanes_of(day: Coming) -> Iterator[Lane]:
    """A lane for each artist, for each who watches, for each chair and for each machine."""
    records, cleaning = day.records, day.cleaning
    for artist, own in of_each_artist(day.sittings).items():
        spans = [(one.begins, one.ends + cleaning, one) for one in own]
        for number, row in enumerate(_beside_one_another(spans)):
            blocks = [block for one in row for block in _drawn(one, day)]
            captions = tuple(Caption(one.job, one.begins) for one in row)
            yield Lane("" if number else records.people[artist].name, tuple(blocks), captions)
    for supervisor in dict.fromkeys(one.supervisor for one in day.sittings if one.supervisor):
        watched = (one for one in day.sittings if one.supervisor == supervisor)
        blocks = [Block("watch", "watches", one.seated, one.ends) for one in watched]
        yield Lane(records.people[supervisor].name, tuple(blocks))
    for chair in range(1, (records.studio.chairs or 0) + 1):
        taken = (one for one in day.sittings if day.chairs.get(one.job) == chair)
        yield Lane(f"Chair {chair}", tuple(Block("use", one.job, one.begins, one.ends + cleaning) for one in taken))
    for machine in records.machines.values():
        uses = [
            (use.begins, use.ends, Block("use", one.job, use.begins, use.ends))
            for one in day.sittings
            for use in one.uses
            if use.machine == machine.id
        ]
        for number, used in enumerate(_beside_one_another(uses)):
            yield Lane("" if number else f"{machine.name} ({machine.count})", tuple(used))


def _beside_one_another(spans: Iterable[tuple[datetime.datetime, datetime.datetime, T]]) -> list[list[T]]:
    """Things with their times in as few rows as hold them without one lying over another."""
    rows: list[tuple[datetime.datetime, list[T]]] = []
    for begins, ends, thing in sorted(spans, key=lambda span: span[:2]):
        free = next((at for at, (until, _) in enumerate(rows) if until <= begins), None)
        if free is None:
            rows.append((ends, [thing]))
        else:
            rows[free] = (ends, [*rows[free][1], thing])
    return [row for _, row in rows]


def _drawn(one: Booked, day: Coming) -> Iterator[Block]:
    if not day.jobs[one.job].goes_ahead:
        yield Block("pause", "not yet", one.begins, one.ends)
        return
    for run in runs_of(one):
        label = _LETTERS.get(run.kind, f"{run.first}–{run.last}" if run.first != run.last else f"{run.first}")
        yield Block(_LOOKS[run.kind], label, run.begins, run.ends)
    yield Block("clean", "C", one.ends, one.ends + day.cleaning)
