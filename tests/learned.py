"""What finished jobs teach where each of them is read and planned: what the quicker ways are compared with."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path

from generator.diagnostics import Report
from generator.planning.timing.learning import Learned, learn_of, times_of
from generator.records.families import Known, Records
from generator.records.jobs import Job
from generator.records.reading import Reading, job_files, read_job


def learn_from(content: Path, reading: Reading) -> tuple[Learned, Report]:
    """Nothing while there are mistakes in the records."""
    return ({}, ()) if reading.records is None else learn(reading.records, read_finished(content, reading.known))


def learn(records: Records, jobs: Iterable[Job]) -> tuple[Learned, Report]:
    return learn_of(records, (timed for job in jobs for timed in times_of(records, job)))


def read_finished(content: Path, known: Known) -> Iterator[Job]:
    for path in job_files(content):
        job = read_job(path, known).job
        if job is not None and job.finished is not None:
            yield job
