"""Which sitting of a piece a sheet is for, what the others hold, and when the client comes back."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from generator.planning.plan import Work
from generator.planning.timing.sittings import Sitting
from generator.records.jobs import Job


@dataclass(frozen=True, slots=True)
class Labelled:
    """A label and what stands beside it."""

    label: str
    value: str


def sitting_of(job: Job, work: Work | None) -> Iterator[Labelled]:
    """The number of the sitting, where a piece has several."""
    count = len(work.sittings) if work is not None else job.sitting
    if job.sitting > count:
        yield Labelled("Sitting", f"{job.sitting}, {count} were planned")
    elif count > 1:
        yield Labelled("Sitting", str(job.sitting) if work is None else f"{job.sitting} of {count}")


def other_sittings(work: Work) -> tuple[Labelled, ...]:
    """The other sittings with their steps, and from which day on those that are left may be."""
    today = work.at_hand.sitting.number
    return tuple(
        Labelled(
            f"Sitting {sitting.number}",
            f"{_steps(sitting)}, "
            + ("planned before today" if sitting.earliest is None else f"not before {sitting.earliest.isoformat()}"),
        )
        for sitting in work.sittings
        if sitting.number != today
    )


def _steps(sitting: Sitting) -> str:
    """The steps of a sitting follow one another; the first and the last of them may be parted."""
    ends = [f"{'part of ' if stint.share < 1 else ''}{stint.number}" for stint in sitting.stints]
    if len(ends) == 1:
        return f"step {ends[0]}" if sitting.stints[0].share == 1 else f"part of step {sitting.stints[0].number}"
    return f"steps {ends[0]} to {ends[-1]}"


def come_back(work: Work) -> tuple[Labelled, ...]:
    """A piece that is not finished today has a next sitting; one that is has its touch-up."""
    if work.next_sitting is not None and work.next_sitting.earliest is not None:
        return (Labelled("Next sitting, at the earliest", work.next_sitting.earliest.isoformat()),)
    first, last = work.touch_up.answer
    return (Labelled("Touch-up, looked at between", f"{first.isoformat()} and {last.isoformat()}"),)
