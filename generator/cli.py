"""The command line: check the records, begin a job, plan it, print its sheet."""

from __future__ import annotations

import argparse
import datetime
import json
import sys
from collections.abc import Sequence
from pathlib import Path

from generator.dates import as_of
from generator.diagnostics import Diagnostic, Place, Report, as_json, as_text, has_errors, summary
from generator.faults import no_traceback
from generator.planning.as_json import plan_as_data
from generator.planning.learning import learn_from
from generator.planning.plan import JobPlan, plan
from generator.planning.restock import JobNeeds, needs_of, restock, span_ahead
from generator.planning.tracing import JobLots, lots_of, matching, traces, unknown_lots
from generator.press.appendix import appendix_of
from generator.press.handbook import handbook_report
from generator.press.lots_page import recall_notes, recall_text
from generator.press.new_job import id_mistake, new_job
from generator.press.number_links import NOWHERE, NumberLinks
from generator.press.pictures import pictures_of
from generator.press.plan_text import plan_text
from generator.press.printing import sheet_html
from generator.press.restock_page import restock_text
from generator.press.sheet import sheet_of
from generator.records.allergies import checked_later
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
    check = commands.add_parser("check", help="read and check every record, job and page; tell what is due")
    check.add_argument("--format", choices=("text", "json"), default="text", help="how mistakes are shown")
    check.add_argument(
        "--handbook", metavar="DIR", type=Path, help="the authored pages; otherwise `handbook` beside the content"
    )
    check.set_defaults(run=_check)
    planned = commands.add_parser("plan", help="the computed plan of one job")
    planned.add_argument("job", metavar="JOB", help="id of the job")
    planned.add_argument("--json", action="store_true", help="every number with unit, formula, inputs and source")
    planned.set_defaults(run=_plan)
    sheet = commands.add_parser("sheet", help="one job's printable sheet as one HTML file")
    sheet.add_argument("job", metavar="JOB", help="id of the job")
    sheet.add_argument("-o", "--output", metavar="FILE", type=Path, help="where to write it; otherwise it is printed")
    sheet.add_argument("--both-units", action="store_true", help="show the other system of units beside the first")
    sheet.add_argument("--explain", action="store_true", help="add how its numbers came about, on pages of their own")
    sheet.add_argument("--pictures", action="store_true", help="add day, inks, punctures and arcs on further pages")
    sheet.set_defaults(run=_sheet)
    begun = commands.add_parser("new-job", help="a job file to fill in, with a comment on every line")
    begun.add_argument("job", metavar="ID", help="id of the new job: letters, digits, single hyphens")
    begun.set_defaults(run=_new_job)
    restocked = commands.add_parser("restock", help="what the coming jobs take from the shelf, and what to order")
    restocked.add_argument("--from", dest="first", metavar="DAY", type=_day, help="first day; otherwise today")
    restocked.add_argument("--to", dest="last", metavar="DAY", type=_day, help="last day; otherwise `plan_ahead` later")
    restocked.set_defaults(run=_restock)
    recalled = commands.add_parser("recall", help="client references of the jobs that used a lot, one a line")
    recalled.add_argument("lot", metavar="LOT", help="lot of an ink or of cartridges, as on the label")
    recalled.set_defaults(run=_recall)
    for command in (check, planned, sheet, begun, restocked, recalled):
        command.add_argument(
            "--content", metavar="DIR", type=Path, default=Path("content"), help="the studio's records"
        )
    return parser


def _check(options: argparse.Namespace) -> int:
    handbook = options.handbook or options.content.parent / "handbook"
    report = check_all(options.content)
    if options.handbook is None or handbook.is_dir():
        report += check_handbook(options.content, handbook)
    else:
        report += (_no_such_handbook(handbook),)
    if options.format == "json":
        _out(as_json(report))
    else:
        if report:
            _out(as_text(report) + "\n")
        _out(summary(report))
    return MISTAKES if has_errors(report) else OK


def _no_such_handbook(handbook: Path) -> Diagnostic:
    """An error, because somebody named it; without the option a handbook may be lacking."""
    return Diagnostic(
        "F801",
        Place(str(handbook), 1, 1, 2),
        "the folder of the handbook is not there",
        "nothing",
        "a folder with the handbook's pages",
        "mend what stands behind `--handbook`",
    )


def check_all(content: Path) -> Report:
    """Everything wrong with the records and all jobs. Jobs are planned only on records without a mistake."""
    reading = read_records(content)
    learned, doubts = learn_from(content, reading)
    report = [*reading.report, *doubts]
    for job in read_jobs(content, reading.known):
        report += job.report
        if reading.records is not None and job.job is not None:
            report += checked_later(job.job.allergies, as_of())
            report += plan(reading.records, job.job, learned)[1]
            report += unknown_lots(reading.records, job.job)
    return tuple(report)


def check_handbook(content: Path, handbook: Path) -> Report:
    """Everything wrong with the authored pages, and reviews overdue; only on records without a mistake."""
    records = read_records(content).records
    return () if records is None else handbook_report(handbook, records, as_of())


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
    sheet = sheet_of(records, job_plan, options.both_units)
    appendix = appendix_of(records, job_plan, sheet) if options.explain else None
    links = NOWHERE if appendix is None else NumberLinks("", appendix.lines)
    pictures = pictures_of(records, job_plan) if options.pictures else ()
    html = sheet_html(sheet, day, appendix, pictures, links, sheet_of(records, job_plan))
    if options.output is None:
        _out(html)
    else:
        options.output.write_text(html, "utf-8")
    return OK


def _new_job(options: argparse.Namespace) -> int:
    reading = read_records(options.content)
    path = options.content / "jobs" / f"{options.job}.yml"
    mistake = id_mistake(options.job, Place(str(path.parent), 1, 1, 2))
    report = (*reading.report, *([mistake] if mistake else []))
    if reading.records is None or has_errors(report):
        _say(f"{as_text(report)}\n\n{summary(report)}")
        return MISTAKES
    path.parent.mkdir(exist_ok=True)
    try:
        with path.open("x", encoding="utf-8") as file:  # never over a job that is there
            file.write(new_job(reading.records, options.job))
    except FileExistsError:
        there = (_there_already(path, options.job),)
        _say(f"{as_text(there)}\n\n{summary(there)}")
        return MISTAKES
    _out(f"{path} is there to be filled in; `python -m generator check` points at each place that is left")
    return OK


def _there_already(path: Path, job_id: str) -> Diagnostic:
    return Diagnostic(
        "F804",
        Place(str(path), 1, 1, 2),
        f"there is a job `{job_id}` already",
        f"“{job_id}”",
        "an id that is free",
        "give the new job another id, or write into this file",
    )


def _day(text: str) -> datetime.date:
    try:
        return datetime.datetime.strptime(text, "%Y-%m-%d").date()
    except ValueError:
        raise argparse.ArgumentTypeError(f"expected a day such as 2027-05-01, found “{text}”") from None


def _restock(options: argparse.Namespace) -> int:
    reading = read_records(options.content)
    report = list(reading.report)
    first = options.first or as_of()
    span = None if reading.records is None else span_ahead(reading.records, first)
    if span is not None and options.last is not None:
        span = span._replace(last=options.last)
    if options.last is not None and options.last < first:
        _say(f"error: the last day, {options.last}, lies before the first, {first}; exchange --from and --to")
        return MISTAKES
    needs: list[JobNeeds] = []
    for job in read_jobs(options.content, reading.known):
        report += job.report
        if reading.records is not None and span is not None and job.job is not None and span.holds(job.job.date):
            made, more = plan(reading.records, job.job)
            report += more
            found = None if made is None else needs_of(reading.records, made)
            needs += [] if found is None else [found]
    # An order that leaves out a job which cannot be read would come up short without saying so.
    if has_errors(report) or reading.records is None or span is None:
        _say(f"{as_text(report)}\n\n{summary(report)}")
        return MISTAKES
    _out(restock_text(reading.records, restock(reading.records, span, needs)))
    return OK


def _recall(options: argparse.Namespace) -> int:
    """References to standard output and nothing else; what they do not say goes beside them."""
    reading = read_records(options.content)
    report = list(reading.report)
    left: list[JobLots] = []
    for job in read_jobs(options.content, reading.known):
        report += job.report
        if reading.records is not None and job.job is not None:
            made, more = plan(reading.records, job.job)
            report += more
            left += [] if made is None else [lots_of(reading.records, made)]
    records = reading.records
    every = [] if records is None else traces(records, left)
    found = matching(every, options.lot)
    if records is not None and found:
        for note in recall_notes(found, every, records):
            _say(note)
        if references := recall_text(found):
            _out(references)
    # Whoever is recalled must not wait for a mistake in another job to be mended; but the list may be short.
    if has_errors(report):
        _say(f"{as_text(report)}\n\n{summary(report)}\nthe list may be short: what has a mistake was not looked at")
        return MISTAKES
    if not found:
        _say(f"error: no record and no finished job names the lot “{options.lot}”; look at the label again")
        return MISTAKES
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
            made, more = plan(reading.records, job.job, learn_from(content, reading, str(job.job.artist))[0])
            report += [*more, *checked_later(job.job.allergies, as_of())]
            if made is not None and not has_errors(report):
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
