"""The command line: which commands there are and what each takes; `commands/` runs them."""

from __future__ import annotations

import argparse
import datetime
import importlib
import sys
from collections.abc import Sequence
from pathlib import Path

from generator.commands.says import MISTAKES, OK, say, speak_utf8
from generator.dates import as_of
from generator.diagnostics import Diagnostic
from generator.faults import no_traceback
from generator.records.regions import CUSTOMS


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command.

    The exit status is 0, 1 for mistakes in the records, 2 for a wrong call, 3 for a fault of the program.
    """
    speak_utf8()
    options = _parser().parse_args(arguments)
    with no_traceback():
        options.today = as_of(options.as_of)  # once, so that a run over midnight is of one day
        try:
            # Only the command that runs is imported: what plans and prints takes longer to import than a help to read.
            status: int = importlib.import_module(f"generator.commands.{options.run}").run(options)
            return status
        except BrokenPipeError:
            sys.stderr.close()  # the reader, such as `head`, has seen enough
            return OK
        except OSError as error:
            say(f"error: {error.filename or 'a file'}: {error.strerror}; choose a place that can be written")
            return MISTAKES


def _parser() -> argparse.ArgumentParser:
    called = Path(sys.argv[0]).stem
    parser = argparse.ArgumentParser(
        prog=called if called == "studio-handbook" else "python -m generator",
        description="A tattoo studio's records: check, plan, sheet.",
    )
    parser.set_defaults(as_of=None)
    commands = parser.add_subparsers(required=True, metavar="command")
    of_a_job, to_a_file = (argparse.ArgumentParser(add_help=False) for _ in range(2))
    of_a_job.add_argument("job", metavar="JOB", help="id of the job")
    to_a_file.add_argument(
        "-o", "--output", metavar="FILE", type=Path, help="where to write it; otherwise it is printed"
    )

    def command(name: str, says: str, *parents: argparse.ArgumentParser) -> argparse.ArgumentParser:
        """A command with its module, which has its name."""
        made = commands.add_parser(name, help=says, parents=parents)
        made.set_defaults(run=name.replace("-", "_"))
        return made

    check = command("check", "read and check every record, job and page; tell what is due")
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
    published = command("publish", "check, say what changes, build, and keep the last sites by date")
    published.add_argument("folder", metavar="DIR", type=Path, help="where the site goes; nothing else may be there")
    planned = command("plan", "the computed plan of one job", of_a_job)
    planned.add_argument("--json", action="store_true", help="every number with unit, formula, inputs and source")
    sheet = command("sheet", "one job's printable sheet as one HTML file", of_a_job, to_a_file)
    sheet.add_argument(
        "--client", action="store_true", help="the page that the client takes home, instead of the sheet"
    )
    sheet.add_argument("--both-units", action="store_true", help="show the other system of units beside the first")
    sheet.add_argument("--explain", action="store_true", help="add how its numbers came about, on pages of their own")
    sheet.add_argument("--pictures", action="store_true", help="add day, inks, punctures and arcs on further pages")
    begun = command("new-job", "a job file to fill in, with a comment on every line")
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
    studio = command("new-studio", "a folder for a studio of your own, that checks and builds")
    studio.add_argument("folder", metavar="DIR", type=Path, help="a folder that is not there yet, or is empty")
    studio.add_argument(
        "--region",
        choices=tuple(CUSTOMS),
        required=True,
        help="where the studio works; it sets units, paper, clock, spelling and the order of a date",
    )
    studio.add_argument("--units", choices=("imperial", "metric"), help="over what is usual in the region")
    studio.add_argument("--paper", choices=("Letter", "A4"), help="over what is usual in the region")
    command("schema", "write the schemas for editors anew, beside the records, which stay as they are")
    finished = command("finish", "write what happened into a job, and keep what it was worked with", of_a_job)
    finished.add_argument(
        "--stamp", metavar="STAMP", help="stamp on the paper, as typed or scanned; `none` where there is no paper"
    )
    finished.add_argument(
        "--from", dest="told", metavar="FILE", type=Path, help="a file with the block `finished`, as a tablet gives it"
    )
    gone = command("delete", "delete a job, or all of a client, and say where something is left")
    gone.add_argument("job", metavar="JOB", nargs="?", help="id of the job")
    gone.add_argument("--client", metavar="REFERENCE", help="all jobs of this client reference")
    gone.add_argument("--yes", action="store_true", help="delete; otherwise it is only said what would be deleted")
    command("clear-kept", "delete what earlier runs kept; it is made again when it is needed")
    restocked = command("restock", "what the coming jobs take from the shelf, and what to order")
    restocked.add_argument("--from", dest="first", metavar="DAY", type=_day, help="first day; otherwise today")
    restocked.add_argument("--to", dest="last", metavar="DAY", type=_day, help="last day; otherwise `plan_ahead` later")
    day = command("day", "a day on one printed page: who works when, what clashes, what is laid out", to_a_file)
    day.add_argument("day", metavar="DATE", nargs="?", type=_day, help="the day; otherwise today")
    recalled = command("recall", "client references of the jobs that used a lot, one a line")
    recalled.add_argument("lot", metavar="LOT", help="lot of an ink or of cartridges, as on the label")
    for name, made in commands.choices.items():
        if name != "new-studio":
            made.add_argument(
                "--content", metavar="DIR", type=Path, default=Path("content"), help="the studio's records"
            )
        if name not in ("new-studio", "schema"):
            made.add_argument(
                "--as-of",
                metavar="DAY",
                type=_day,
                help="the day that counts as today; otherwise SOURCE_DATE_EPOCH, `as_of` in studio.yml, or today",
            )
    return parser


def _day(text: str) -> datetime.date:
    """A day that a record may have as well, so that nothing counted from it leads out of the calendar."""
    from generator.records.days import typed_day

    found = typed_day(text)
    if isinstance(found, Diagnostic):
        raise argparse.ArgumentTypeError(f"{found.message}; {found.help}")
    return found
