"""What finished jobs teach about the estimates: one factor for each artist and technique, or why there is none.

The jobs are streamed: of each finished one only its times stay behind. A factor is the median of actual over
estimate in the artist's latest finished jobs. A sitting of a longer piece is measured by its own share of the
estimate; one that ended early by nothing, because nobody knows which share it did. The factor corrects planned
jobs only. A finished job keeps its plain estimate for ever, because it may have helped to make the factor, and an
estimate that is corrected by its own outcome is no estimate. A factor beyond the limits of
`trade.clock.learned_factor` is refused: then the technique's pace is in doubt, and nothing is corrected by it.

Steps, breaks, sittings, tray and the end of the day rest on the learned time (`timing/timetable.py`), and the plain
estimate is shown beside it. Order and settings depend on neither, but for a needle that is opened in one sitting or in
two. Estimates of finished jobs are calculated with today's pace, so that mending a pace mends the factor. A refused
factor is one warning for each pace, and a strict build stops at it: a pace twice off spoils every sheet.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import NamedTuple

from generator.diagnostics import Diagnostic, Report
from generator.grouped import grouped
from generator.origins import NOWHERE, Origin
from generator.planning.computed import Computed, Recorded, compute, counted, named, total
from generator.planning.timing.rounding import middle_rounded, rows_printed
from generator.planning.timing.sittings import split_into_sittings, worked_in
from generator.planning.working.steps import Step, order_of_work
from generator.quantities import significant
from generator.records.families import Records
from generator.records.jobs import Job
from generator.trade import clock


class Timed(NamedTuple):
    """The work of one finished job with one technique, in minutes: what was planned, and what the clock said.

    printed: the sum of the rows of what was planned, as a sheet prints them.
    parts, worked: where the job says what was planned, and what the clock said.
    """

    artist: str
    technique: str
    job: str
    on: datetime.date
    planned: tuple[float, float]
    printed: tuple[float, float]
    took: float
    parts: Origin = NOWHERE
    worked: Origin = NOWHERE

    @property
    def estimate(self) -> float:
        return middle(*self.planned)

    @property
    def ratio(self) -> float:
        return over_estimate(self.took, self.estimate)


@dataclass(frozen=True, slots=True)
class Lesson:
    """What an artist's finished jobs say about one technique.

    jobs: those that count, the latest last; factor: None where `why_not` says why.
    """

    artist: str
    technique: str
    jobs: tuple[Timed, ...]
    factor: Computed | None
    why_not: str = ""
    rate_in_doubt: bool = False


# Artist and technique.
Pace = tuple[str, str]
Learned = Mapping[Pace, Lesson]
NOTHING: Learned = {}


def learn_of(records: Records, times: Iterable[Timed]) -> tuple[Learned, Report]:
    """What the times of finished jobs teach, and a warning for each pace that they put in doubt."""
    found = grouped(((timed.artist, timed.technique), timed) for timed in times)
    learned = {
        # In the order of the records, so that the order in which jobs are read does not matter.
        (artist, technique): _lesson(records, found[artist, technique])
        for artist in records.people
        for technique in records.techniques
        if (artist, technique) in found
    }
    return learned, tuple(_doubts(records, learned))


def times_of(records: Records, job: Job, steps: tuple[Step, ...] | None = None) -> Iterator[Timed]:
    """Planned and actual minutes of a finished job, for each technique that was both planned and timed.

    steps: those of its sitting, where they are planned already. One whose work stayed unfinished on its day has no
    times: they belong to less than what was planned.
    """
    done = None if job.finished is None else job.finished.as_corrected
    # Going over healed work again, here and there, has a pace of its own.
    if done is None or not done.worked or job.touch_up or done.stopped not in (None, "done"):
        return
    steps = _planned_for(records, job) if steps is None else steps
    for technique in dict.fromkeys(str(worked.technique) for worked in done.worked):
        rows = [step.minutes for step in steps if step.setting.technique.id == technique]
        planned = total(rows, "duration")
        took = sum(worked.took.low for worked in done.worked if worked.technique == technique)
        # What was worked without having been planned has no estimate to be measured by.
        if planned.low > 0:
            planned_in, worked_in_ = job.origin_at("parts"), done.origin_at("worked")
            span = planned.low, planned.high
            printed = rows_printed(rows)
            yield Timed(str(job.artist), technique, str(job.id), done.on, span, printed, took, planned_in, worked_in_)


def _planned_for(records: Records, job: Job) -> tuple[Step, ...]:
    """What was planned for the day of a job; nothing where the piece should have been done in an earlier sitting."""
    laid, _ = order_of_work(records, job, records)
    if laid is None:
        return ()
    sittings = split_into_sittings(records, job, laid.steps)
    return worked_in(laid.steps, sittings[job.sitting - 1]) if job.sitting <= len(sittings) else ()


def _lesson(records: Records, found: list[Timed]) -> Lesson:
    artist, technique = found[0].artist, found[0].technique
    # Hands change over the years: only the latest jobs count, and an archive does not have to fit into a factor.
    jobs = tuple(sorted(found, key=lambda timed: (timed.on, timed.job))[-records.studio.limits.learned_from :])
    said = "; ".join(
        f"{t.job} {t.took:.3g} min on the clock over {middle_rounded(t.estimate):g} min estimated: "
        f"{significant(t.ratio):.2f}"
        for t in jobs
    )
    times = named(tuple((timed.estimate, timed.took) for timed in jobs), jobs[-1].worked, said)
    try:
        return Lesson(artist, technique, jobs, compute(clock.learned_factor, "number", jobs=times))
    except clock.RateInDoubt as refused:
        return Lesson(artist, technique, jobs, None, f"{refused.found}: {refused.remedy}", True)
    except clock.NothingLearned as refused:
        return Lesson(artist, technique, jobs, None, f"{refused.found}, {refused.expected} are needed")


def _doubts(records: Records, learned: Learned) -> Iterator[Diagnostic]:
    """One warning for each pace in doubt, whoever is slower or faster than it."""
    for technique in records.techniques.values():
        lessons = [lesson for lesson in learned.values() if lesson.technique == technique.id and lesson.rate_in_doubt]
        if not lessons:
            continue
        who = "; ".join(
            f"{records.people[lesson.artist].name} in {', '.join(t.job for t in lesson.jobs)}: {lesson.why_not}"
            for lesson in lessons
        )
        rate = technique.pace
        yield Diagnostic(
            "J621",
            rate.place or technique.id.place,
            found=f"“{rate.text}”",
            expected=f"a rate that finished jobs keep to within a factor of {clock.LARGEST_FACTOR:g}",
            help="time the technique by the clock, wipes and dips included, and mend `pace`; "
            "finished jobs stay as they were written",
            note="nothing is corrected by a factor as large as this",
            says=f"finished jobs put this pace in doubt ({who})",
        )


def at_their_pace(job: Job, steps: tuple[Step, ...], learned: Learned) -> tuple[Step, ...]:
    """The steps with `minutes_learned` wherever the artist's factor is known; a finished job stays as it is."""
    factors = {lesson.technique: lesson.factor for lesson in lessons_for(job, steps, learned)}
    made = []
    for step in steps:
        factor = factors.get(str(step.setting.technique.id))
        if factor is not None:
            step = replace(step, minutes_learned=compute(at_pace, "duration", minutes=step.minutes, factor=factor))
        made.append(step)
    return tuple(made)


def lessons_for(job: Job, steps: tuple[Step, ...], learned: Learned) -> tuple[Lesson, ...]:
    """What is known about the artist's pace with the techniques of a job; nothing for a finished one."""
    if job.finished is not None:
        return ()
    techniques = dict.fromkeys(str(step.setting.technique.id) for step in steps)
    return tuple(learned[key] for key in ((str(job.artist), t) for t in techniques) if key in learned)


def at_pace(minutes: float, factor: float) -> float:
    """minutes · factor: the estimate at the pace of the artist's finished jobs."""
    return minutes * factor


def middle(low: float, high: float) -> float:
    """(low + high) / 2: the middle of an estimate."""
    return (low + high) / 2


def over_estimate(actual: float, estimated: float) -> float:
    """actual / estimated: above 1 took longer than the middle of the estimate."""
    return actual / estimated


class LearningRow(NamedTuple):
    """One finished job's work with one technique, every number with its origin."""

    timed: Timed
    estimate: Computed
    actual: Recorded
    ratio: Computed


def learning_rows(lesson: Lesson) -> tuple[LearningRow, ...]:
    """What a lesson rests on, the latest job last."""
    made = []
    for timed in lesson.jobs:
        low, high = (counted(end, timed.parts, "duration") for end in timed.planned)
        estimate = compute(middle, "duration", low=low, high=high)
        actual = counted(timed.took, timed.worked, "duration")
        ratio = compute(over_estimate, "number", actual=actual, estimated=estimate)
        made.append(LearningRow(timed, estimate, actual, ratio))
    return tuple(made)
