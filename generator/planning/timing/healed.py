"""How finished work healed, counted by technique, grouping and place, with what was looked at beside it.

The jobs are streamed; of each only a few words stay behind. What nobody looked at again is not counted as held. Where
a part was worked with several techniques and nobody wrote which step it was, the outcome counts for the place alone.
A part counts as touched up where a finished touch-up that names its job in `earlier` goes over it again.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import NamedTuple

from generator.records.afterwards import GAP, HELD, LIGHT, SPREAD
from generator.records.families import Records
from generator.records.jobs import Job


class WorkedStep(NamedTuple):
    """One step as it was really worked."""

    number: int
    part: str
    technique: str
    grouping: str


class Healed(NamedTuple):
    """What one finished job leaves: its steps, how parts came out, and what it touched up.

    came: part and step, where one is named, and how it came out; the latest look counts.
    touches_up: the jobs whose parts it went over again.
    """

    job: str
    place: str
    steps: tuple[WorkedStep, ...]
    came: tuple[tuple[str, int | None, str], ...]
    touches_up: tuple[str, ...]

    @property
    def looked_at(self) -> bool:
        """Whether how any part came out is on file."""
        return bool(self.came)


def healed_of(job: Job, steps: Sequence[WorkedStep]) -> Healed | None:
    """What a job leaves; None for one that is not finished."""
    if job.finished is None:
        return None
    came: dict[tuple[str, int | None], str] = {}
    for look in sorted(job.healed, key=lambda look: look.on):
        for seen in look.parts:
            came[str(seen.part), None if seen.step is None else int(seen.step)] = seen.came
    used = {one.number: str(one.needle) for one in job.finished.as_corrected.steps if one.needle is not None}
    worked = tuple(step._replace(grouping=used.get(step.number, step.grouping)) for step in steps)
    before = tuple(str(one.job) for one in job.earlier if one.job is not None) if job.touch_up else ()
    return Healed(
        str(job.id), str(job.place), worked, tuple((part, step, how) for (part, step), how in came.items()), before
    )


class Tally(NamedTuple):
    """How many parts were worked, how many of them were looked at again, and how those came out."""

    worked: int
    looked_at: int
    held: int
    light: int
    gaps: int
    blowouts: int
    touched_up: int


# What a step is counted under.
By = Callable[[Healed, WorkedStep], str]
BY: dict[str, By] = {
    "techniques": lambda job, step: step.technique,
    "groupings": lambda job, step: step.grouping,
    "sites": lambda job, step: job.place,
}


def tallies(records: Records, jobs: Iterable[Healed]) -> dict[str, dict[str, Tally]]:
    """By family and entry, in the order of the records. A touch-up is counted with the piece that it goes over."""
    every = sorted(jobs, key=lambda job: job.job)
    found = {family: _tallied([job for job in every if not job.touches_up], every, by) for family, by in BY.items()}
    return {
        family: {entry: counts[entry] for entry in (*records.family(family), *sorted(counts)) if entry in counts}
        for family, counts in found.items()
    }


def _tallied(jobs: Sequence[Healed], every: Sequence[Healed], by: By) -> dict[str, Tally]:
    again = {(before, step.part, by(job, step)) for job in every for before in job.touches_up for step in job.steps}
    counts: dict[str, list[Tally]] = {}
    for job in jobs:
        for part, entry in dict.fromkeys((step.part, by(job, step)) for step in job.steps):
            how = _outcomes(job, part, entry, by)
            counts.setdefault(entry, []).append(
                Tally(
                    1,
                    bool(how),
                    bool(how) and how <= {HELD},
                    LIGHT in how,
                    GAP in how,
                    SPREAD in how,
                    (job.job, part, entry) in again,
                )
            )
    return {entry: Tally(*map(sum, zip(*found, strict=True))) for entry, found in counts.items()}


def _outcomes(job: Healed, part: str, entry: str, by: By) -> set[str]:
    """How a part came out, as far as it is known for what it is counted under."""
    own = [step for step in job.steps if step.part == part]
    here = {step.number for step in own if by(job, step) == entry}
    several = len({by(job, step) for step in own}) > 1
    return set(_said(job, part, here, several))


def _said(job: Healed, part: str, here: set[int], several: bool) -> Iterator[str]:
    for name, step, how in job.came:
        if name == part and (step in here if step is not None else how == HELD or not several):
            yield how
