"""A job file to fill in."""

from __future__ import annotations

import argparse
from pathlib import Path

from generator.commands.one_job import read_by_id
from generator.commands.says import OK, WRONG_CALL, out, refused, say
from generator.diagnostics import Diagnostic, Place, has_errors
from generator.press.writing.new_job import id_mistake, new_job
from generator.press.writing.next_job import Follows, next_job
from generator.press.writing.schema import schema_file
from generator.records.families import JOBS
from generator.records.reading import job_files, read_records
from generator.whole_files import write_new


def run(options: argparse.Namespace) -> int:
    follows = Follows.ANOTHER_PIECE
    if options.sitting or options.touch_up:
        follows = Follows.NEXT_SITTING if options.sitting else Follows.TOUCH_UP
    if options.before is None and follows is not Follows.ANOTHER_PIECE:
        say(f"error: {follows.value} of which job? Name it with --from")
        return WRONG_CALL
    reading = read_records(options.content, options.today)
    path = options.content / "jobs" / f"{options.job}.yml"
    mistake = id_mistake(options.job, Place(str(path.parent), 1, 1, 2))
    before = None if options.before is None else read_by_id(options.content, options.before, reading.known)
    report = (*reading.report, *([mistake] if mistake else []), *(before.report if before else ()))
    records = reading.records
    last = None if before is None else before.job
    if records is None or has_errors(report):
        return refused(report)
    text = new_job(records, options.job) if last is None else next_job(records, last, options.job, follows)
    path.parent.mkdir(exist_ok=True)
    twin = next((file for file in job_files(options.content) if file.stem.lower() == options.job.lower()), path)
    try:
        if twin != path:  # one file where capitals do not count
            raise FileExistsError
        write_new(path, _schema_line(options.content) + text)  # never over a job
    except FileExistsError:
        return refused([_there_already(twin)])
    out(f"{path} is there to be filled in; `python -m generator check` points at each place that is left")
    return OK


def _schema_line(content: Path) -> str:
    """The line by which an editor finds the schema of jobs, where the studio's folder has one."""
    schema = Path("schema") / schema_file(JOBS)
    there = (content.parent / schema).is_file()
    return f"# yaml-language-server: $schema=../../{schema.as_posix()}\n" if there else ""


def _there_already(path: Path) -> Diagnostic:
    return Diagnostic(
        "F804",
        Place(str(path), 1, 1, 2),
        found=f"“{path.stem}”",
        expected="an id that is free",
        help="give the new job another id, or write into this file",
        says=f"there is a job `{path.stem}` already",
    )
