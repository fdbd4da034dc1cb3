"""What is wrong with each job, from reports that were kept: an archive is then compared, and not planned again."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from generator.diagnostics import Diagnostic, Report
from generator.kept.folder import Folder
from generator.kept.keys import Base, Paces, job_bytes, key_of
from generator.planning.each_job import plan_one
from generator.planning.supplies.tracing import unknown_lots
from generator.planning.timing.coming_back import past_retention
from generator.planning.timing.learning import Learned
from generator.press.manual.typed_numbers import job_findings
from generator.press.sheet.client_page import beyond_one_side
from generator.press.sheet.frozen import frozen_with
from generator.press.sheet.stored import NotAsStored, from_stored, to_stored
from generator.progress import counted
from generator.records.reading import Reading, job_files, read_job

_NAME = "reports"


def all_reports(folder: Folder, base: Base, content: Path, reading: Reading, learned: Learned) -> Report:
    """Everything that is wrong with the jobs, in the order of their files."""
    before = folder.rows(_NAME)
    rows: dict[str, tuple[str, object]] = {}
    paces = Paces(learned)
    found: list[Diagnostic] = []
    for path in counted(job_files(content), "jobs"):
        was = job_bytes(path)
        key = key_of(_NAME, base, was, paces.of(was))
        kept_key, stored = before.get(path.stem, ("", None))
        report = _stored(stored) if key == kept_key else None
        if report is None:
            report = tuple(_made(path, content, reading, learned))
            stored = to_stored(report)
        rows[path.stem] = (key, stored)
        found += report
    if reading.records is not None:
        folder.keep_rows(_NAME, rows, before)
    return tuple(found)


def _stored(stored: object) -> Report | None:
    try:
        return from_stored(Report, stored)
    except NotAsStored:
        return None


def _made(path: Path, content: Path, reading: Reading, learned: Learned) -> Iterator[Diagnostic]:
    planned = plan_one(read_job(path, reading.known), reading, learned)
    yield from planned.report
    if reading.records is None or planned.job is None:
        return
    yield from unknown_lots(reading.records, planned.job)
    yield from job_findings(reading.records, planned.job)
    yield from frozen_with(content, planned.job)[1]
    yield from past_retention(reading.records, planned.job, reading.as_of)
    if planned.plan is not None or planned.refused:
        yield from beyond_one_side(reading.records, planned.job, planned.plan)
