"""The command line: check the records, begin a job, plan it, print its sheet."""

from __future__ import annotations

import argparse
import datetime
import io
import json
import os
import shutil
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from generator.dates import AsOf, as_of, not_today
from generator.diagnostics import Diagnostic, Place, Report, as_json, as_text, has_errors, in_reading_order, summary
from generator.faults import no_traceback
from generator.records.regions import CUSTOMS
from generator.shipped import FIRST_AFTERNOON, demo
from generator.whole_files import is_no_page, lies_in, write_new, write_whole

if TYPE_CHECKING:
    from generator.impact import Impact
    from generator.planning.each_job import PlannedJob
    from generator.planning.plan import JobPlan
    from generator.planning.supplies.restock import JobNeeds
    from generator.planning.supplies.tracing import JobLots
    from generator.press.lists.day import OnItsDay
    from generator.press.sheet.frozen import Frozen
    from generator.press.sheet.view import Sheet
    from generator.records.families import Records
    from generator.records.jobs import Job
    from generator.records.reading import Reading


OK, MISTAKES, WRONG_CALL = 0, 1, 2


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command.

    The exit status is 0, 1 for mistakes in the records, 2 for a wrong call, 3 for a fault of the program.
    """
    _speak_utf8()
    options = _parser().parse_args(arguments)
    with no_traceback():
        options.today = as_of(options.as_of)  # once, so that a run over midnight is of one day
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
    called = Path(sys.argv[0]).stem
    parser = argparse.ArgumentParser(
        prog=called if called == "studio-handbook" else "python -m generator",
        description="A tattoo studio's records: check, plan, sheet.",
    )
    commands = parser.add_subparsers(required=True, metavar="command")
    check = commands.add_parser("check", help="read and check every record, job and page; tell what is due")
    check.add_argument("--format", choices=("text", "json"), default="text", help="how mistakes are shown")
    check.add_argument(
        "--handbook", metavar="DIR", type=Path, help="the authored pages; otherwise `handbook` beside the content"
    )
    check.add_argument(
        "--undecided", action="store_true", help="list what nobody here has decided, what matters most first"
    )
    check.add_argument(
        "--impact", action="store_true", help="compare with the last published site: which sheets change, and why"
    )
    check.set_defaults(run=_check)
    published = commands.add_parser("publish", help="check, say what changes, build, and keep the last sites by date")
    published.add_argument("folder", metavar="DIR", type=Path, help="where the site goes; nothing else may be there")
    published.set_defaults(run=_publish)
    planned = commands.add_parser("plan", help="the computed plan of one job")
    planned.add_argument("job", metavar="JOB", help="id of the job")
    planned.add_argument("--json", action="store_true", help="every number with unit, formula, inputs and source")
    planned.set_defaults(run=_plan)
    sheet = commands.add_parser("sheet", help="one job's printable sheet as one HTML file")
    sheet.add_argument("job", metavar="JOB", help="id of the job")
    sheet.add_argument("-o", "--output", metavar="FILE", type=Path, help="where to write it; otherwise it is printed")
    sheet.add_argument(
        "--client", action="store_true", help="the page that the client takes home, instead of the sheet"
    )
    sheet.add_argument("--both-units", action="store_true", help="show the other system of units beside the first")
    sheet.add_argument("--explain", action="store_true", help="add how its numbers came about, on pages of their own")
    sheet.add_argument("--pictures", action="store_true", help="add day, inks, punctures and arcs on further pages")
    sheet.set_defaults(run=_sheet)
    begun = commands.add_parser("new-job", help="a job file to fill in, with a comment on every line")
    begun.add_argument("job", metavar="ID", help="id of the new job: letters, digits, single hyphens")
    begun.add_argument(
        "--from",
        dest="before",
        metavar="JOB",
        help="copy what stays true of the client from this job, and ask the rest",
    )
    which = begun.add_mutually_exclusive_group()
    which.add_argument("--sitting", action="store_true", help="the next sitting of the piece in --from")
    which.add_argument("--touch-up", action="store_true", help="the touch-up of the piece in --from")
    begun.set_defaults(run=_new_job)
    studio = commands.add_parser("new-studio", help="a folder for a studio of your own, that checks and builds")
    studio.add_argument("folder", metavar="DIR", type=Path, help="a folder that is not there yet, or is empty")
    studio.add_argument(
        "--region",
        choices=tuple(CUSTOMS),
        required=True,
        help="where the studio works; it sets units, paper, clock, spelling and the order of a date",
    )
    studio.add_argument("--units", choices=("imperial", "metric"), help="over what is usual in the region")
    studio.add_argument("--paper", choices=("Letter", "A4"), help="over what is usual in the region")
    studio.set_defaults(run=_new_studio, as_of=None)
    schema = commands.add_parser("schema", help="write the schemas for editors anew, beside the records")
    schema.add_argument(
        "--content",
        metavar="DIR",
        type=Path,
        default=Path("content"),
        help="the studio's records, which stay as they are",
    )
    schema.set_defaults(run=_schema, as_of=None)
    finished = commands.add_parser("finish", help="write what happened into a job, and keep what it was worked with")
    finished.add_argument("job", metavar="JOB", help="id of the job")
    finished.add_argument(
        "--stamp", metavar="STAMP", help="stamp on the paper, as typed or scanned; `none` where there is no paper"
    )
    finished.add_argument(
        "--from", dest="told", metavar="FILE", type=Path, help="a file with the block `finished`, as a tablet gives it"
    )
    finished.set_defaults(run=_finish)
    gone = commands.add_parser("delete", help="delete a job, or all of a client, and say where something is left")
    gone.add_argument("job", metavar="JOB", nargs="?", help="id of the job")
    gone.add_argument("--client", metavar="REFERENCE", help="all jobs of this client reference")
    gone.add_argument("--yes", action="store_true", help="delete; otherwise it is only said what would be deleted")
    gone.set_defaults(run=_delete)
    cleared = commands.add_parser(
        "clear-kept", help="delete what earlier runs kept; it is made again when it is needed"
    )
    cleared.set_defaults(run=_clear_kept)
    restocked = commands.add_parser("restock", help="what the coming jobs take from the shelf, and what to order")
    restocked.add_argument("--from", dest="first", metavar="DAY", type=_day, help="first day; otherwise today")
    restocked.add_argument("--to", dest="last", metavar="DAY", type=_day, help="last day; otherwise `plan_ahead` later")
    restocked.set_defaults(run=_restock)
    day = commands.add_parser("day", help="a day on one printed page: who works when, what clashes, what is laid out")
    day.add_argument("day", metavar="DATE", nargs="?", type=_day, help="the day; otherwise today")
    day.add_argument("-o", "--output", metavar="FILE", type=Path, help="where to write it; otherwise it is printed")
    day.set_defaults(run=_day_page)
    recalled = commands.add_parser("recall", help="client references of the jobs that used a lot, one a line")
    recalled.add_argument("lot", metavar="LOT", help="lot of an ink or of cartridges, as on the label")
    recalled.set_defaults(run=_recall)
    for command in (check, published, planned, sheet, begun, finished, gone, cleared, restocked, day, recalled):
        command.add_argument(
            "--content", metavar="DIR", type=Path, default=Path("content"), help="the studio's records"
        )
        command.add_argument(
            "--as-of",
            metavar="DAY",
            type=_day,
            help="the day that counts as today; otherwise SOURCE_DATE_EPOCH, `as_of` in studio.yml, or today",
        )
    return parser


def _check(options: argparse.Namespace) -> int:
    from generator.impact import impact, report_and_impact
    from generator.press.sheet.all_jobs import not_planned
    from generator.press.writing.json_schema import older_schemas
    from generator.published import last_published
    from generator.records.decisions import undecided_findings
    from generator.site import read_site

    settings = options.content.parent / "mkdocs.yml"
    strict = False
    if options.handbook is not None and not options.handbook.is_dir():
        site = read_site(options.content, None, options.today, pages=False)
        report: Report = (*site.report, _no_such_handbook(options.handbook))
    elif settings.is_file() and options.content.is_dir():
        from generator.dry_build import dry_build  # takes as long to import as all the rest

        told = options.as_of is not None
        site, report, strict = dry_build(settings, options.content, options.handbook, options.today, told=told)
    else:
        handbook = options.handbook or options.content.parent / "handbook"
        site = read_site(options.content, handbook, options.today, pages=False)
        report = site.report
    report = (*report, *older_schemas(options.content.parent))
    in_order = options.undecided and site.records is not None
    if in_order and site.records is not None:
        # Errors come first, because what has one may be read otherwise when it is mended.
        listed = tuple(undecided_findings(site.records, site.as_of))
        report = (*in_reading_order(d for d in report if d.level == "error"), *listed)
    before = last_published(options.content) if options.impact else None
    found = None if before is None or has_errors(report) else impact(options.content, site, before)
    # Before everything else, and where it is in the way of nothing that reads the report.
    if said := not_today(site.as_of):
        _say(said) if options.format == "json" else _out(_bold(said))
    stops = has_errors(report) or (strict and any(d.level == "warning" for d in report))
    if options.format == "json":
        as_data = as_json(report, in_order)
        _out(report_and_impact(as_data, found) if options.impact else as_data)
    else:
        if report:
            _out(as_text(report, in_order) + "\n")
        if has_errors(report) and (unplanned := not_planned(options.content, site.records)):
            _out(unplanned)
        _out(summary(report))
        if stops and not has_errors(report):
            _out("a warning stops the build, because mkdocs.yml says `strict`")
        if options.impact:
            _out(_impact_said(found, before is not None))
    return MISTAKES if stops else OK


def _impact_said(found: Impact | None, published: bool) -> str:
    from generator.impact import impact_text

    if found is not None:
        return f"\n{impact_text(found)}"
    return "nothing is compared while there are errors" if published else NEVER_PUBLISHED


NEVER_PUBLISHED = "nothing was published from these records yet; build or publish the site once, then it is compared"


def _publish(options: argparse.Namespace) -> int:
    """Check, say what changes, build and exchange; whatever fails, the last good site stays."""
    from generator.dry_build import dry_build  # takes as long to import as all the rest
    from generator.impact import impact, impact_text
    from generator.published import kept_sites
    from generator.publishing import keeping, published_at
    from generator.site_build import build_site

    settings, told = options.content.parent / "mkdocs.yml", options.as_of is not None
    if not settings.is_file():
        _say(f"error: there is no {settings}; publish from the folder of a studio, or name its records with --content")
        return WRONG_CALL
    checked = dry_build(settings, options.content, None, options.today, told=told)
    report, records = checked.report, checked.site.records
    if said := not_today(checked.site.as_of):
        _out(_bold(said))
    if report:
        _out(as_text(report) + "\n")
    _out(summary(report))
    if records is None or has_errors(report) or (checked.strict and any(d.level == "warning" for d in report)):
        _say(f"nothing was published; {options.folder} is as it was")
        return MISTAKES
    before = published_at(options.content, options.folder)
    found = None if before is None else impact(options.content, checked.site, before)
    if found is not None:
        _out(f"\n{impact_text(found)}\n")
    with keeping(before, records.studio.kept_sites) as done:
        stopped = build_site(settings, options.folder, options.today if told else None)
        done += [] if stopped else [options.folder]
    if stopped:
        _say("\n".join((*stopped, f"nothing was published; {options.folder} is as it was")))
        return MISTAKES
    kept = kept_sites(Path(os.path.realpath(options.folder)))
    _out(f"published: {options.folder / 'index.html'}")
    if kept:
        _out(f"kept: {', '.join(path.name for path in kept)} in {kept[0].parent}")
    return OK


def _bold(text: str) -> str:
    """In bold on a terminal; plain in a file."""
    return f"\N{ESCAPE}[1m{text}\N{ESCAPE}[0m" if sys.stdout.isatty() else text


def _no_such_handbook(handbook: Path) -> Diagnostic:
    """An error, because somebody named it; without the option a handbook may be lacking."""
    return Diagnostic(
        "F801",
        Place(str(handbook), 1, 1, 2),
        found="nothing",
        expected="a folder with the handbook's pages",
        help="mend what stands behind `--handbook`",
        says="the folder of the handbook is not there",
    )


def check_all(content: Path, today: AsOf) -> Report:
    """Everything wrong with the records and all jobs. Jobs are planned only on records without a mistake."""
    from generator.site import read_site

    return read_site(content, None, today, pages=False).report


def _plan(options: argparse.Namespace) -> int:
    from generator.planning.as_json import plan_as_data
    from generator.press.sheet.plan_text import plan_text
    from generator.press.words.regional import in_region

    made = _planned(options.content, options.job, options.today)
    if made is None:
        return MISTAKES
    records, job_plan, day = made
    _say_set_date(day)
    if job_plan.job.finished is not None:
        _say(f"{job_plan.job.id} is finished; this is what today's rules say, and its sheet is what it was worked with")
    if options.json:
        _out(json.dumps(plan_as_data(job_plan), ensure_ascii=False, indent=2))
    else:
        _out(in_region(records)(plan_text(records, job_plan)))
    return OK


def _sheet(options: argparse.Namespace) -> int:
    from generator.press.drawings.pictures import pictures_of
    from generator.press.sheet.appendix import appendix_of
    from generator.press.sheet.contents import sheet_of
    from generator.press.sheet.number_links import NOWHERE, NumberLinks
    from generator.press.sheet.printing import sheet_html
    from generator.press.words.regional import in_region

    if options.client and (options.both_units or options.explain or options.pictures):
        _say("error: --client prints a page of its own; leave out --both-units, --explain and --pictures")
        return WRONG_CALL
    if options.output is not None and (taken := _not_over(options.output, options.content)):
        _say(f"{as_text(taken)}\n\n{summary(taken)}")
        return MISTAKES
    if options.client:
        return _client(options)
    if kept := _kept(options.content, options.job, options.today):
        record, frozen = kept
        explained = frozen.explained_alone if options.explain else None
        lines = NOWHERE if explained is None else NumberLinks("", explained.lines)
        html = sheet_html(record, frozen.day, explained, frozen.drawn.pictures if options.pictures else (), lines)
        if options.both_units:
            _say("the sheet of a finished job is kept in one system of units")
        return _written_out(html, options.output)
    made = _planned(options.content, options.job, options.today)
    if made is None:
        return MISTAKES
    records, job_plan, day = made
    if job_plan.job.draft:
        return _no_sheet_of_a_draft(job_plan.job)
    sheet = sheet_of(records, job_plan, options.both_units)
    appendix = appendix_of(records, job_plan, sheet) if options.explain else None
    links = NOWHERE if appendix is None else NumberLinks("", appendix.lines)
    pictures = pictures_of(records, job_plan) if options.pictures else ()
    html = sheet_html(sheet, day, appendix, pictures, links, sheet_of(records, job_plan))
    return _written_out(in_region(records)(html), options.output)


def _client(options: argparse.Namespace) -> int:
    """The client's page. A finished job has one also where today's rules make no plan of it."""
    from generator.press.sheet.client_page import client_html, client_page_of
    from generator.press.words.regional import in_region

    reading, planned, report = _read_and_planned(options.content, options.job, options.today)
    if reading.records is None or planned is None or planned.job is None or has_errors(report):
        _say(f"{as_text(report)}\n\n{summary(report)}")
        return MISTAKES
    if planned.job.not_worked is not None:
        _say(f"error: {planned.job.id} is {planned.job.not_worked}; the client has no page of it to take home")
        return MISTAKES
    if planned.job.draft:
        return _no_sheet_of_a_draft(planned.job)
    page = client_page_of(reading.records, planned.job, planned.plan)
    html = in_region(reading.records)(client_html(page, reading.as_of))
    return _written_out(html, options.output)


def _no_sheet_of_a_draft(job: Job) -> int:
    _say(f"error: {job.id} is a draft and has no sheet; take `draft` away when everything is filled in")
    return MISTAKES


def _written_out(html: str, output: Path | None) -> int:
    if output is None:
        _out(html)
    else:
        write_whole(output, html)
    return OK


def _kept(content: Path, job_id: str, today: AsOf) -> tuple[Sheet, Frozen] | None:
    """The sheet of a finished job as it was worked, where that is kept and can be read."""
    from generator.press.sheet.frozen import frozen_with
    from generator.records.reading import job_files, read_job, read_records, worked_file

    path = content / "jobs" / f"{job_id}.yml"
    if not worked_file(path).is_file() or path not in job_files(content):
        return None
    job = read_job(path, read_records(content, today).known).job
    frozen = None if job is None else frozen_with(content, job)[0]
    return None if job is None or frozen is None else (frozen.as_record(job), frozen)


def _not_over(output: Path, content: Path) -> Report:
    """What keeps a sheet from being written there: a record, or another file that somebody wrote."""
    inside = lies_in(output, content)
    if not inside and not is_no_page(output):
        return ()
    found = "a place among the records" if inside else "a file that is no sheet"
    expected = "a place outside the records, and no other file there than a sheet"
    help_ = "nothing was written; give `-o` another name, such as `sheet.html`"
    return (
        Diagnostic(
            "F806",
            Place(str(output), 1, 1, 2),
            found=found,
            expected=expected,
            help=help_,
            says=f"the sheet is not written over {found}",
        ),
    )


def _new_job(options: argparse.Namespace) -> int:
    from generator.press.writing.new_job import id_mistake, new_job
    from generator.press.writing.next_job import Follows, next_job
    from generator.records.reading import job_files, read_records

    follows = Follows.ANOTHER_PIECE
    if options.sitting or options.touch_up:
        follows = Follows.NEXT_SITTING if options.sitting else Follows.TOUCH_UP
    if options.before is None and follows is not Follows.ANOTHER_PIECE:
        _say(f"error: {follows.value} of which job? Name it with --from")
        return WRONG_CALL
    reading = read_records(options.content, options.today)
    path = options.content / "jobs" / f"{options.job}.yml"
    mistake = id_mistake(options.job, Place(str(path.parent), 1, 1, 2))
    report = (*reading.report, *([mistake] if mistake else []))
    before = None
    if options.before is not None:
        before, unread = _job_before(options.content, options.before, reading)
        report = (*report, *unread)
    if reading.records is None or has_errors(report):
        _say(f"{as_text(report)}\n\n{summary(report)}")
        return MISTAKES
    records = reading.records
    text = new_job(records, options.job) if before is None else next_job(records, before, options.job, follows)
    path.parent.mkdir(exist_ok=True)
    twin = next((file for file in job_files(options.content) if file.stem.lower() == options.job.lower()), path)
    try:
        if twin != path:  # one file where capitals do not count
            raise FileExistsError
        write_new(path, _schema_line(options.content) + text)  # never over a job
    except FileExistsError:
        there = (_there_already(twin, twin.stem),)
        _say(f"{as_text(there)}\n\n{summary(there)}")
        return MISTAKES
    _out(f"{path} is there to be filled in; `python -m generator check` points at each place that is left")
    return OK


def _job_before(content: Path, job_id: str, reading: Reading) -> tuple[Job | None, Report]:
    """The job that a new one follows, as it is written."""
    from generator.records.reading import job_files, read_job

    path = content / "jobs" / f"{job_id}.yml"
    if path not in job_files(content):
        return None, (_no_such_job(content, job_id),)
    read = read_job(path, reading.known)
    return read.job, read.report


def _schema_line(content: Path) -> str:
    """The line by which an editor finds the schema of jobs, where the studio's folder has one."""
    from generator.press.writing.json_schema import schema_file
    from generator.records.families import JOBS

    schema = Path("schema") / schema_file(JOBS)
    there = (content.parent / schema).is_file()
    return f"# yaml-language-server: $schema=../../{schema.as_posix()}\n" if there else ""


def _new_studio(options: argparse.Namespace) -> int:
    from generator.press.writing.new_studio import new_studio, starting

    folder: Path = options.folder
    if folder.is_file() or (folder.is_dir() and any(folder.iterdir())):
        there = (_not_empty(folder),)
        _say(f"{as_text(there)}\n\n{summary(there)}")
        return MISTAKES
    name = " ".join(folder.resolve().name.replace("_", " ").replace("-", " ").split()).capitalize() or "New studio"
    start = starting(name[:80], options.region, options.units, options.paper, options.today)
    beginning = demo()
    files = new_studio(beginning / "content", beginning / "handbook", start)
    files["handbook/first-afternoon.md"] = FIRST_AFTERNOON.read_text("utf-8")
    for path, text in files.items():
        to = folder / path
        to.parent.mkdir(parents=True, exist_ok=True)
        write_new(to, text)
    _out(
        f"{folder} is there: {start.units} units, {start.paper} paper. Go into it and run `python -m generator check`; "
        f"then read handbook/first-afternoon.md"
    )
    return OK


def _schema(options: argparse.Namespace) -> int:
    """Over what is there: nobody writes a schema by hand."""
    from generator.press.writing.json_schema import schema_files

    if not options.content.is_dir():
        _say(f"error: there are no records in {options.content}; name their folder with --content")
        return WRONG_CALL
    for path, text in schema_files().items():
        to = options.content.parent / path
        to.parent.mkdir(exist_ok=True)
        write_whole(to, text)
        _out(f"written: {to}")
    return OK


def _not_empty(folder: Path) -> Diagnostic:
    return Diagnostic(
        "F820",
        Place(str(folder), 1, 1, 2),
        found="a file" if folder.is_file() else "a folder that holds something",
        expected="a folder that is not there yet, or is empty",
        help="nothing was written; give the new studio another folder",
        says="a new studio is not written over what is there",
    )


def _finish(options: argparse.Namespace) -> int:
    from generator.finishing import after_finishing, finishing, written
    from generator.records.reading import job_files

    if f"{options.job}.yml" not in {path.name for path in job_files(options.content)}:
        missing = (_no_such_job(options.content, options.job),)
        _say(f"{as_text(missing)}\n\n{summary(missing)}")
        return MISTAKES
    made, report = finishing(options.content, options.today, options.job, options.told)
    if made is None:
        _say(f"{as_text(report)}\n\n{summary(report)}")
        return MISTAKES
    paper = "" if made.gone_through else _stamp_on_paper(options.stamp)
    if paper is None:
        _say("error: that is no stamp; write the eight letters and digits behind “stamp” at the foot of the paper")
        return MISTAKES
    written(made, paper)
    for line in after_finishing(made, paper):
        _out(line)
    return OK


def _delete(options: argparse.Namespace) -> int:
    """Deleting is done when nothing is left: until then the exit status is 1, also when it is given again."""
    from generator.deleting import client_to_delete, delete, job_to_delete, left_of, older_sites, published_elsewhere
    from generator.kept.folder import Folder

    if bool(options.job) == bool(options.client):
        _say("error: name a job or `--client` with a reference, and not both")
        return WRONG_CALL
    content = options.content
    what = job_to_delete(content, options.job) if options.job else client_to_delete(content, options.client)
    older = list(older_sites(content, what))
    for path in (*what.files, *older):
        _out(f"{'deleted' if options.yes else 'would be deleted'}: {path}")
    if (what.files or older) and not options.yes:
        _say("nothing was deleted: there is no way back from it; give the same command with `--yes`")
        return MISTAKES
    delete(what)
    for path in older:
        shutil.rmtree(path)
    Folder(content).forget(what.words)
    elsewhere = published_elsewhere(content)
    left = [path for root in filter(None, (content.parent, elsewhere)) for path in left_of(root, what)]
    for path in left:
        _out(f"still names {what.words[0]}: {path}")
    if left:
        _say("build the handbook again, and give the same command once more; what then is left is yours to delete")
        return MISTAKES
    _out(f"nothing here names {what.words[0]} any more; look into backups, version control and printed sheets too")
    return OK


def _clear_kept(options: argparse.Namespace) -> int:
    from generator.kept.folder import Folder

    kept = Folder(options.content)
    _out(f"{kept.path} is deleted" if kept.clear() else f"nothing is kept: there is no {kept.path}")
    return OK


def _stamp_on_paper(told: str | None) -> str | None:
    """The stamp as it was told or is asked for: empty where there is none to look at, None for what is no stamp."""
    from generator.finishing import stamp_in

    if told is None and sys.stdin.isatty():
        told = input("Stamp on the paper (at its foot; empty where there is no paper): ")
    return stamp_in("" if told is None or told.strip().lower() == "none" else told)


def _there_already(path: Path, job_id: str) -> Diagnostic:
    return Diagnostic(
        "F804",
        Place(str(path), 1, 1, 2),
        found=f"“{job_id}”",
        expected="an id that is free",
        help="give the new job another id, or write into this file",
        says=f"there is a job `{job_id}` already",
    )


def _day(text: str) -> datetime.date:
    """A day that a record may have as well, so that nothing counted from it leads out of the calendar."""
    from generator.records.days import typed_day

    found = typed_day(text)
    if isinstance(found, Diagnostic):
        raise argparse.ArgumentTypeError(f"{found.message}; {found.help}")
    return found


def _restock(options: argparse.Namespace) -> int:
    from generator.planning.each_job import plan_jobs
    from generator.planning.for_lists import needs_of
    from generator.planning.supplies.restock import restock, span_ahead
    from generator.press.lists.restock import restock_text
    from generator.records.drafts import as_drafts, drafts
    from generator.records.reading import read_records

    reading = read_records(options.content, options.today)
    report = list(reading.report)
    first = options.first or reading.as_of
    span = None if reading.records is None else span_ahead(reading.records, first)
    if span is not None and options.last is not None:
        span = span._replace(last=options.last)
    if options.last is not None and options.last < first:
        _say(f"error: the last day, {options.last}, lies before the first, {first}; exchange --from and --to")
        return MISTAKES
    needs: list[JobNeeds] = []

    def wanted(job: Job) -> bool:
        return span is not None and span.holds(job.date) and not job.draft

    for planned in plan_jobs(options.content, reading, wanted=wanted):
        report += planned.report
        if reading.records is not None and planned.plan is not None:
            found = needs_of(reading.records, planned.plan)
            needs += [] if found is None else [found]
    # An order that leaves out a job which cannot be read would come up short without saying so.
    report = list(as_drafts(report, drafts(options.content)))
    if has_errors(report) or reading.records is None or span is None:
        _say(f"{as_text(report)}\n\n{summary(report)}")
        return MISTAKES
    _say_set_date(reading.as_of)
    _out(restock_text(reading.records, restock(reading.records, span, needs)))
    return OK


def _day_page(options: argparse.Namespace) -> int:
    from generator.kept.folder import Folder
    from generator.kept.keys import base_of
    from generator.kept.times import learn_from_kept
    from generator.planning.each_job import diary_of, plan_jobs
    from generator.press.lists.day import day_html, day_view, on_its_day
    from generator.press.words.regional import in_region
    from generator.records.reading import read_records

    if options.output is not None and (taken := _not_over(options.output, options.content)):
        _say(f"{as_text(taken)}\n\n{summary(taken)}")
        return MISTAKES
    reading = read_records(options.content, options.today)
    report = list(reading.report)
    day = options.day or reading.as_of
    kept, base = Folder(options.content), base_of(options.content, reading)
    learned = learn_from_kept(kept, base, options.content, reading)[0]
    diary = diary_of(options.content, reading, learned)
    jobs: list[OnItsDay] = []
    for planned in plan_jobs(options.content, reading, learned, lambda job: job.date == day, diary):
        report += planned.report
        if reading.records is not None and planned.job is not None and planned.job.date == day:
            state = "finished" if planned.plan is None else planned.plan.state.listed
            found = on_its_day(reading.records, planned.job, planned.plan, state, diary.booked(planned.job))
            jobs += [] if found is None else [found]
    # A page that leaves out a job which cannot be read would show an hour as free.
    if has_errors(report) or reading.records is None:
        _say(f"{as_text(report)}\n\n{summary(report)}")
        return MISTAKES
    view = day_view(reading.records, day, jobs)
    return _written_out(in_region(reading.records)(day_html(view, reading.as_of)), options.output)


def _recall(options: argparse.Namespace) -> int:
    """References to standard output and nothing else; what they do not say goes beside them."""
    from generator.planning.each_job import plan_jobs
    from generator.planning.supplies.tracing import matching, traces
    from generator.press.lists.lots import recall_notes, recall_text
    from generator.press.sheet.all_jobs import lots_left
    from generator.records.drafts import as_drafts, drafts
    from generator.records.reading import read_records

    reading = read_records(options.content, options.today)
    report = list(reading.report)
    left: list[JobLots] = []
    for planned in plan_jobs(options.content, reading):
        report += planned.report
        if reading.records is not None and not (planned.job and planned.job.draft):
            lots, found_wrong = lots_left(options.content, reading.records, planned)
            left += [] if lots is None else [lots]
            report += found_wrong
    report = list(as_drafts(report, drafts(options.content)))
    records = reading.records
    _say_set_date(reading.as_of)
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


def _planned(content: Path, job_id: str, today: AsOf) -> tuple[Records, JobPlan, AsOf] | None:
    """The plan of one job and the day that counts as today, or None when its mistakes were shown."""
    reading, planned, report = _read_and_planned(content, job_id, today)
    if planned is not None:
        report = (*report, *planned.refused)
        if reading.records is not None and planned.plan is not None and not has_errors(report):
            return reading.records, planned.plan, reading.as_of
    _say(f"{as_text(report)}\n\n{summary(report)}")
    return None


def _read_and_planned(content: Path, job_id: str, today: AsOf) -> tuple[Reading, PlannedJob | None, Report]:
    """The records, one job of them, and everything that is wrong; None where there is no such job."""
    from generator.kept.folder import Folder
    from generator.kept.keys import base_of
    from generator.kept.times import learn_from_kept
    from generator.planning.each_job import diary_of, plan_one
    from generator.planning.timing.learning import NOTHING
    from generator.press.manual.typed_numbers import job_findings
    from generator.press.sheet.frozen import frozen_with
    from generator.records.reading import job_files, read_job, read_records

    reading = read_records(content, today)
    report: list[Diagnostic] = list(reading.report)
    path = content / "jobs" / f"{job_id}.yml"
    if path not in job_files(content):
        return reading, None, (*report, _no_such_job(content, job_id))
    read = read_job(path, reading.known)
    learned, diary = NOTHING, None
    if read.job is not None:
        kept, base = Folder(content), base_of(content, reading)
        # What others teach counts only where there are others on its day.
        beside = diary_of(content, reading, NOTHING).has_others(read.job.date)
        learned = learn_from_kept(kept, base, content, reading, "" if beside else str(read.job.artist))[0]
        diary = diary_of(content, reading, learned) if beside else None
    planned = plan_one(read, reading, learned, diary)
    report += planned.report
    if reading.records is not None and planned.job is not None:
        report += job_findings(reading.records, planned.job)
        report += frozen_with(content, planned.job)[1]
    return reading, planned, tuple(report)


def _no_such_job(content: Path, job_id: str) -> Diagnostic:
    from generator.records.reading import job_files

    ids = ", ".join(path.stem for path in job_files(content)) or "none"
    place = Place(str(content / "jobs" / f"{job_id}.yml"), 1, 1, 2)
    return Diagnostic(
        "F803",
        place,
        found=f"“{job_id}”",
        expected="the id of a job",
        help=f"jobs there: {ids}",
        says=f"there is no job `{job_id}`",
    )


def _speak_utf8() -> None:
    """What goes into a file or another program is UTF-8, as sheets and JSON have to be; a terminal keeps its own code.

    A sign that it cannot show, or a file name that is no text, is written out as its number and stops nothing.
    """
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            code = stream.encoding if stream.isatty() else "utf-8"
            stream.reconfigure(encoding=code, errors="backslashreplace")


def _say(text: str) -> None:
    sys.stderr.write(text + "\n")


def _say_set_date(day: AsOf) -> None:
    """Beside what a command hands out, because that may go into a file."""
    if said := not_today(day):
        _say(said)


def _out(text: str) -> None:
    sys.stdout.write(text.rstrip("\n") + "\n")
