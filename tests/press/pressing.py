"""All jobs of a content folder, pressed one after the other."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from generator.planning.each_job import diary_of
from generator.planning.timing.learning import NOTHING
from generator.press.sheet.all_jobs import Pressed, press_job
from generator.records.reading import Reading, job_files


def press_jobs(content: Path, reading: Reading) -> Iterator[Pressed]:
    """Every job with its pages and its report, in the order of the files."""
    diary = diary_of(content, reading, NOTHING)
    return (press_job(content, diary.ready(path), reading, NOTHING, diary) for path in job_files(content))
