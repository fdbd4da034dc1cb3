"""The command line: check the records, plan a job, print its sheet."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Sequence
from pathlib import Path

from generator.dates import as_of
from generator.diagnostics import Diagnostic, Place, Report, as_json, as_text, has_errors, summary
from generator.faults import no_traceback
from generator.planning.as_json import plan_as_data
from generator.planning.plan import JobPlan, plan
from generator.press.plan_text import plan_text
from generator.press.sheet import sheet_html, sheet_of
from generator.records.families import Records
from generator.records.reading import job_files, read_job, read_jobs, read_records

OK, MISTAKES = 0, 1


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command.

    The exit status is 0, 1 for mistakes in the records, 2 for a wrong call, 3 for a fault of the program.
    """
    options = _parser().parse_args(arguments)
    with no_traceback():
        try:
            status: int = options.run(options)
            return status
        except BrokenPipeError:
            sys.stderr.close()  # the reader, such as `head`, has seen enough
            return OK
        except OSError as error:
            _say(f"error: {error.filename or 'a file'}: {error.strerror}; choose a place that can be written")
            return MISTAKES


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="python -m generator", description="A tattoo studio's records: check, plan, sheet."
    )
    commands = parser.add_subparsers(required=True, metavar="command")
    check = commands.add_parser("check", help="read and check every record and job")
    check.add_argument("--format", choices=("text", "json"), default="text", help="how mistakes are shown")
    check.set_defaults(run=_check)
    planned = commands.add_parser("plan", help="the computed plan of one job")
    planned.add_argument("job", metavar="JOB", help="id of the job")
    planned.add_argument("--json", action="store_true", help="every number with unit, formula, inputs and source")
    planned.set_defaults(run=_plan)
    sheet = commands.add_parser("sheet", help="one job's printable sheet as one HTML file")
    sheet.add_argument("job", metavar="JOB", help="id of the job")
    sheet.add_argument("-o", "--output", metavar="FILE", type=Path, help="where to write it; otherwise it is printed")
    sheet.add_argument("--both-units", action="store_true", help="show the other system of units beside the first")
    sheet.set_defaults(run=_sheet)
    for command in (check, planned, sheet):
        command.add_argument(
            "--content", metavar="DIR", type=Path, default=Path("content"), help="the studio's records"
        )
    return parser


def _check(options: argparse.Namespace) -> int:
    report = check_all(options.content)
    if options.format == "json":
        _out(as_json(report))
    else:
        if report:
            _out(as_text(report) + "\n")
        _out(summary(report))
    return MISTAKES if has_errors(report) else OK


def check_all(content: Path) -> Report:
    """Everything wrong with the records and all jobs. Jobs are planned only on records without a mistake."""
    reading = read_records(content)
    report = list(reading.report)
    for job in read_jobs(content, reading.known):
        report += job.report
        if reading.records is not None and job.job is not None:
            report += plan(reading.records, job.job)[1]
    return tuple(report)


def _plan(options: argparse.Namespace) -> int:
    made = _planned(options.content, options.job)
    if made is None:
        return MISTAKES
    records, job_plan = made
    if options.json:
        _out(json.dumps(plan_as_data(job_plan), ensure_ascii=False, indent=2))
    else:
        _out(plan_text(records, job_plan))
    return OK


def _sheet(options: argparse.Namespace) -> int:
    made = _planned(options.content, options.job)
    if made is None:
        return MISTAKES
    records, job_plan = made
    day = as_of()
    html = sheet_html(sheet_of(records, job_plan, options.both_units), day)
    if options.output is None:
        _out(html)
    else:
        options.output.write_text(html, "utf-8")
    return OK


def _planned(content: Path, job_id: str) -> tuple[Records, JobPlan] | None:
    """The plan of one job, or None when its mistakes were shown."""
    reading = read_records(content)
    report: list[Diagnostic] = list(reading.report)
    path = content / "jobs" / f"{job_id}.yml"
    if path not in job_files(content):
        report.append(_no_such_job(content, job_id))
    else:
        job = read_job(path, reading.known)
        report += job.report
        if reading.records is not None and job.job is not None:
            made, more = plan(reading.records, job.job)
            report += more
            if made is not None:
                return reading.records, made
    _say(f"{as_text(report)}\n\n{summary(report)}")
    return None


def _no_such_job(content: Path, job_id: str) -> Diagnostic:
    ids = ", ".join(path.stem for path in job_files(content)) or "none"
    place = Place(str(content / "jobs" / f"{job_id}.yml"), 1, 1, 2)
    return Diagnostic(
        "F803", place, f"there is no job `{job_id}`", f"“{job_id}”", "the id of a job", f"jobs there: {ids}"
    )


def _say(text: str) -> None:
    sys.stderr.write(text + "\n")


def _out(text: str) -> None:
    sys.stdout.write(text.rstrip("\n") + "\n")
