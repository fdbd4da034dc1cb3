"""Which sitting of a piece a sheet is for, what the others hold, and when the client comes back.

The steps of a sheet keep the numbers that they have in the piece, and the other sittings are one line with the day
before which they may not be. A piece that is not finished has a next sitting in place of a touch-up.
"""

from __future__ import annotations

from collections.abc import Iterator

from generator.planning.plan import Work
from generator.planning.timing.sittings import Sitting
from generator.press.sheet.number_links import Explained, Labelled, Once
from generator.records.jobs import Job


def sitting_of(job: Job, work: Work | None) -> Iterator[Labelled]:
    """The number of the sitting, where a piece has several, or that it is a touch-up; and what was worked already."""
    count = len(work.sittings) if work is not None else job.sitting
    if job.touch_up:
        yield Labelled("Sitting", "touch-up")
    elif job.sitting > count:
        yield Labelled("Sitting", f"{job.sitting}, {count} were planned")
    elif count > 1:
        yield Labelled("Sitting", str(job.sitting) if work is None else f"{job.sitting} of {count}")
    if job.earlier:
        yield Labelled("Worked already", "; ".join(f"{one.on.isoformat()}: {one.left}" for one in job.earlier))


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
        earliest = work.next_sitting.earliest.isoformat()
        return (Labelled("Next sitting, at the earliest", earliest, (Explained.NEXT_SITTING, Once.NEXT_SITTING)),)
    between = " and ".join(day.isoformat() for day in work.touch_up.answer)
    return (Labelled("Touch-up, looked at between", between, (Explained.TOUCH_UP, Once.TOUCH_UP)),)
