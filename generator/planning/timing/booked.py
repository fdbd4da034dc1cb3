"""What one sitting takes of its day: people, a chair, machines, from the quickest to the slowest.

A machine may be in use from the quickest beginning of its steps to their slowest end, each as the estimate has it or as
it is printed, whichever is further out. A sitting that may not go ahead yet is booked like any other: what is open may
be cleared until then.
"""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from typing import NamedTuple

from generator.planning.computed import Value
from generator.planning.timing.day import WORK, Stretch, by_clock
from generator.planning.timing.learning import Learned
from generator.planning.timing.open_in_sittings import in_sittings
from generator.planning.timing.rounding import ends_printed
from generator.planning.working.steps import LaidOut
from generator.records.jobs import Job


class Use(NamedTuple):
    """A machine that may be wanted from one time to another."""

    machine: str
    begins: datetime.datetime
    ends: datetime.datetime


@dataclass(frozen=True, slots=True)
class Booked:
    """One sitting, by ids. `stretches` and `ends` are those of the slow estimate, `ends_soonest` of the quick one.

    begins: when its station is set up; seated: when the client comes. uses: each machine, by its beginning. minutes: of
    work with each machine, at the slow end.
    """

    job: str
    artist: str
    supervisor: str
    begins: datetime.datetime
    seated: datetime.datetime
    ends_soonest: datetime.datetime
    ends: datetime.datetime
    stretches: tuple[Stretch, ...]
    uses: tuple[Use, ...]
    minutes: tuple[tuple[str, float], ...]


def booked_in(laid: LaidOut, job: Job, learned: Learned) -> Booked:
    """What the sitting of a job that is laid out takes of its day."""
    steps, sittings = in_sittings(laid, job, learned)
    sitting = sittings[min(job.sitting, len(sittings)) - 1]
    quick, slow = by_clock(laid.records, job, steps, sitting, _soonest, lambda value: ends_printed(value)[1])
    uses: list[Use] = []
    minutes: dict[str, float] = {}
    for soon, late in zip(quick.stretches, slow.stretches, strict=True):
        if late.kind != WORK:
            continue
        machine = str(steps[late.step - 1].setting.machine.id)
        minutes[machine] = minutes.get(machine, 0.0) + late.minutes
        uses.append(Use(machine, soon.begins, late.ends))
    return Booked(
        str(job.id),
        str(job.artist),
        "" if job.supervisor is None else str(job.supervisor),
        slow.stretches[0].begins,
        datetime.datetime.combine(job.date, job.start),
        quick.stretches[-1].ends,
        slow.stretches[-1].ends,
        slow.stretches,
        tuple(_together(uses)),
        tuple(minutes.items()),
    )


def _together(uses: list[Use]) -> list[Use]:
    """Uses of one machine that touch or overlap are one."""
    made: list[Use] = []
    for use in sorted(uses, key=lambda use: (use.machine, use.begins)):
        last = made[-1] if made else None
        if last is not None and last.machine == use.machine and use.begins <= last.ends:
            made[-1] = last._replace(ends=max(last.ends, use.ends))
        else:
            made.append(use)
    return sorted(made, key=lambda use: (use.begins, use.machine))


def _soonest(value: Value) -> float:
    """The quick end as a row prints it; as it was estimated where that is less, as with what is printed as 1 min."""
    return min(value.low, ends_printed(value)[0])
