"""Something asked of every job of a studio."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from generator.diagnostics import Report
from generator.planning.each_job import Diary, PlannedJob, any_job, plan_jobs
from generator.planning.timing.learning import NOTHING, Learned
from generator.records.drafts import as_drafts, drafts
from generator.records.families import Records
from generator.records.jobs import Job
from generator.records.reading import Reading

_Answer = TypeVar("_Answer")


def of_every_job(
    content: Path,
    reading: Reading,
    answer: Callable[[Records, PlannedJob], _Answer | None],
    wanted: Callable[[Job], bool] = any_job,
    learned: Learned = NOTHING,
    diary: Diary | None = None,
) -> tuple[list[_Answer], Report]:
    """What the jobs answer, and all that is wrong with records and jobs; a draft stops nothing.

    wanted: which of them are planned. Nothing is asked while there are mistakes in the records.
    """
    answers: list[_Answer] = []
    report = list(reading.report)
    for planned in plan_jobs(content, reading, learned, wanted, diary):
        report += planned.report
        found = None if reading.records is None else answer(reading.records, planned)
        answers += [] if found is None else [found]
    return answers, tuple(as_drafts(report, drafts(content)))
