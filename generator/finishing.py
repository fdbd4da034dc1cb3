"""Finishing a job: what happened goes into its file, and what it was worked with is kept beside it.

The kept values are written first. When the run is stopped between the two files, the job is not finished, the check
says so, and finishing it again writes both.
"""

from __future__ import annotations

import re
import tempfile
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import NamedTuple

from generator.diagnostics import Diagnostic, Place, Report, has_errors
from generator.kept.times import around_a_job
from generator.planning.each_job import plan_before_work, ready_job
from generator.press.sheet.finished_block import finished_block
from generator.press.sheet.frozen import Frozen, frozen_of, frozen_text, read_frozen
from generator.records.corrections import written_of
from generator.records.jobs import Job
from generator.records.located import Mapping, read_located
from generator.records.once_read import still_to_come
from generator.records.quoting import fill_in_job
from generator.records.reading import JobReading, Reading, has_kept_values, read_job, worked_file
from generator.records.text_file import read_text
from generator.records.typed_command import typed_command
from generator.whole_files import write_whole


class Finishing(NamedTuple):
    """What is about to be written: the kept values, and the text of the job's file. None where the job has it already.

    gone_through: whether only that is new which somebody has written there since.

    The text keeps every byte of the job that is there.
    """

    path: Path
    frozen: Frozen
    text: str | None
    gone_through: bool = False


def finishing(
    content: Path, reading: Reading, read: JobReading, told: Path | None = None
) -> tuple[Finishing | None, Report]:
    """What finishing a job would write, or what is in the way. Nothing is written.

    told: a file with the block `finished`, such as a sheet on a tablet gives it; what was planned where there is none.
    """
    path, records = read.path, reading.records
    report = (*reading.report, *read.report)
    if records is None or read.job is None or has_errors(report):
        return None, report
    job, misquoted = fill_in_job(read.job, records)
    if has_errors(misquoted):
        return None, misquoted
    if job.not_worked is not None:
        help_ = "take `not_worked` away if it was worked after all"
        return None, (_refused(path, job, f"`not_worked: {job.not_worked}`", "a job that was worked", help_),)
    if job.draft:
        help_ = "take `draft` away, and look at its sheet, before it is worked"
        return None, (_refused(path, job, "`draft: yes`", "a job that is filled in", help_),)
    if job.finished is not None and has_kept_values(path):
        return _gone_through(path, job)
    if job.finished is None and job.date > reading.as_of:
        found, until = f"the day {job.date.isoformat()}", f"a day up to {reading.as_of.isoformat()}"
        return None, (_refused(path, job, found, until, "finish it when it is worked, or mend `date`"),)
    # A finished job does not teach about itself, nor does what came after it.
    by = None if job.finished is None else job.date
    made, refused = plan_before_work(records, job, *around_a_job(content, reading, ready_job(read, reading), by))
    if made is None:
        return None, refused
    if made.work is None:
        found = f"“{made.verdict.heading}”"
        return None, (_refused(path, job, found, "a job that may go ahead", "write into the job what was cleared"),)
    frozen = frozen_of(records, made, reading.as_of)
    if job.finished is not None:
        return Finishing(path, replace(frozen, told=job.finished.written), None), ()
    if told is None:
        block = finished_block(records, made)
    else:
        block, unread = _told_block(told)
        if unread:
            return None, unread
    text = _with_block(path, block)
    if told is not None:
        # The tablet has what happened from the artist.
        frozen = replace(frozen, told=_told_of(text, path))
    # A block that was told is shown by its own lines; one that was filled in is counted with those of the job.
    before = 0 if told is None else text.count("\n") - block.count("\n")
    wrong_block = [
        replace(
            d,
            place=Place(str(told or path), max(1, d.place.line - before), d.place.column, d.place.end),
            help=f"{d.help}; nothing was written",
        )
        for d in _read_again(text, path.name, reading)
    ]
    return (None, tuple(wrong_block)) if has_errors(wrong_block) else (Finishing(path, frozen, text), ())


def written(made: Finishing, paper: str) -> None:
    """Write both files, each whole or not at all. paper: the stamp on the paper, empty where nobody looked."""
    write_whole(worked_file(made.path), frozen_text(replace(made.frozen, paper=paper or made.frozen.paper)))
    if made.text is not None:
        write_whole(made.path, made.text)


def after_finishing(made: Finishing, paper: str) -> Iterator[str]:
    """What was written, in lines; and when the paper carries another stamp than the sheet that is kept."""
    kept = worked_file(made.path)
    if made.gone_through:
        yield f"{kept} keeps what happened, as {made.path} says it; write a mistake that is found later"
        yield "under `corrections` of `finished`, beside the old value"
        if paper:
            yield from _about_paper(made, paper)
        return
    if made.text is not None and made.frozen.told:
        yield f"{made.path} says now what happened, as it was told; write a mistake that is found later"
        yield "under `corrections` of `finished`, beside the old value"
    elif made.text is not None:
        yield f"{made.path} says now what happened, as it was planned: correct every line that was otherwise,"
        again = typed_command(f"finish {made.frozen.job}", made.path)
        yield f"then run {again} again; what is changed later, the check notices"
    yield f"{kept} keeps what it was worked with, stamp {made.frozen.stamp}; no changed record changes that"
    if not paper:
        yield "Nobody looked at the stamp on the paper; the job's page says so"
        return
    yield from _about_paper(made, paper)


def _about_paper(made: Finishing, paper: str) -> Iterator[str]:
    if paper == made.frozen.stamp:
        yield "The paper carries the same stamp"
    else:
        yield f"The paper carries another stamp, {paper}: it was printed before a record changed. Keep the paper"
        yield "and go through the block `finished` with it in hand: what is filled in is what today's sheet says"


def stamp_in(text: str) -> str | None:
    """The stamp in what was typed or scanned from the foot of a sheet; empty for nothing typed, None for no stamp."""
    if not text.strip():
        return ""
    found = re.findall(r"(?<![0-9a-z-])[0-9a-f]{8}(?![0-9a-z-])", text.lower())
    return str(found[-1]) if found else None


def _gone_through(path: Path, job: Job) -> tuple[Finishing | None, Report]:
    """The kept values of a finished job, which get what happened now that somebody has gone through it."""
    assert job.finished is not None
    kept, report = read_frozen(worked_file(path))
    if kept is None:
        return None, report
    if kept.told:
        help_ = "a mistake is corrected under `corrections` of `finished`, beside the old value; what is kept stays"
        return None, (_refused(path, job, "`finished`, and its kept values", "a job that is not finished", help_),)
    return Finishing(path, replace(kept, told=job.finished.written), None, True), ()


def _told_of(text: str, path: Path) -> tuple[tuple[str, str], ...]:
    node = read_located(text, str(path)).node
    block = node.get("finished") if isinstance(node, Mapping) else None
    return tuple((way, str(said)) for way, said in written_of(block)) if isinstance(block, Mapping) else ()


def _refused(path: Path, job: Job, found: str, expected: str, help_: str) -> Diagnostic:
    return Diagnostic(
        "F810",
        Place(str(path), 1, 1, 2),
        found=found,
        expected=expected,
        help=f"{help_}; nothing was written",
        says=f"`{job.id}` cannot be finished: found {found}",
    )


def _with_block(path: Path, block: str) -> str:
    """The text of the file, byte for byte, and the block behind it, with the ends of lines that the file has."""
    text = path.read_bytes().decode("utf-8")
    end = "\r\n" if "\r\n" in text else "\n"
    return text + ("" if text.endswith("\n") else end) + block.replace("\n", end)


def _told_block(told: Path) -> tuple[str, Report]:
    """The block of a file, which holds nothing else."""
    text, report = read_text(told)
    if text is None:
        (found,) = report
        mend = "look at what stands behind `--from`" if found.code == "F801" else found.help
        return "", (replace(found, help=f"{mend}; nothing was written"),)
    lines = text.replace("\r\n", "\n").rstrip("\n").split("\n")
    at = next((n for n, line in enumerate(lines) if line.strip() and not line.lstrip().startswith("#")), 0)
    if re.match(r"finished:\s*(#.*)?$", lines[at]):
        return "\n".join(lines) + "\n", ()
    first = lines[at].strip()
    return "", (
        Diagnostic(
            "F811",
            Place(str(told), at + 1, 1, max(2, len(lines[at]) + 1)),
            found=f"“{first[:40]}”" if first else "nothing",
            expected="`finished:`, and below it what happened",
            help="copy the whole text that the sheet gives; nothing was written",
            says="this is no block `finished`",
        ),
    )


def _read_again(text: str, name: str, reading: Reading) -> Report:
    """What would be wrong with the job's file once it is written."""
    with tempfile.TemporaryDirectory() as folder:
        tried = Path(folder) / name
        tried.write_bytes(text.encode())
        read = read_job(tried, reading.known)
        late = () if read.job is None else tuple(still_to_come(read.job, reading.as_of))
    return (*read.report, *late)
