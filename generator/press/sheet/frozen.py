"""What was worked with, kept for ever: the views of a job's sheet on the day when it was finished.

What is frozen are the views that templates take: every value of sheet, explanations, pictures and map as it was
formatted, the stamp, the names with which it is told what happened, and the day it was made for. So no change of a
record, a rule or a formula changes a byte of these pages. Templates and style sheets are the frame and may change.
Rendered pages are not kept: they would hold the frame too, and a mistake in that could never be mended.

The sheet is kept as it was printed before the work, because that is the paper with its stamp. The page of today puts
“finished” in the place of its verdict. What happened is in the job's own file, where lots are corrected.

A file says with a checksum that nobody has changed it. It holds what the pages show and nothing else: no answer about
health, no cause of a scar, no name of a client.
"""

from __future__ import annotations

import datetime
import hashlib
import json
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from generator.diagnostics import Diagnostic, Place, Report
from generator.planning.computed import Computed, Data, counted
from generator.planning.findings.states import State
from generator.planning.plan import JobPlan
from generator.planning.timing.learning import Learned, Lesson
from generator.press.sheet.afterwards import Wording, words_of
from generator.press.sheet.appendix import Appendix, appendix_of
from generator.press.sheet.contents import sheet_of
from generator.press.sheet.printing import JobDrawn, job_drawn
from generator.press.sheet.stamp import stamp_of
from generator.press.sheet.stored import NotAsStored, Way, from_stored, to_stored
from generator.press.sheet.view import Sheet
from generator.records.families import JOBS, Records
from generator.records.jobs import Job
from generator.records.located import Text, innermost, read_located
from generator.records.reading import has_kept_values, worked_file
from generator.records.text_file import read_text
from generator.records.typed_command import typed_command
from generator.trade import clock

FORMAT = 1


@dataclass(frozen=True, slots=True)
class Frozen:
    """One job as it was worked.

    made: the day that counted as today. paper: the stamp that was found on the paper, empty where nobody looked.
    told: what happened, by its way in the block `finished`, once somebody has gone through it; empty until then.
    sheet: as it was printed before the work. factors: the artist's own factor by technique, which its times rest on.
    """

    job: str
    made: datetime.date
    stamp: str
    paper: str
    sheet: Sheet
    explained: Appendix | None
    drawn: JobDrawn
    words: Wording
    factors: tuple[tuple[str, float], ...]
    told: tuple[tuple[str, str], ...] = ()

    def as_record(self, job: Job) -> Sheet:
        """The sheet as a record: finished in place of its verdict."""
        assert job.finished is not None
        return replace(
            self.sheet,
            verdict=f"{State.FINISHED.printed} {job.finished.on.isoformat()}",
            mark=State.FINISHED.mark,
            meaning=f"Planned as “{self.sheet.verdict}”. A record, and no plan.",
            finished=True,
            stamp=self.stamp,
        )

    def learned(self, artist: str) -> Learned:
        """What had been learned of the artist's pace by then."""
        learned = {}
        for technique, factor in self.factors:
            jobs = (("jobs", counted(factor, factor)),)
            made = Computed(factor, factor, "number", clock.learned_factor, jobs)
            learned[artist, technique] = Lesson(artist, technique, (), made)
        return learned


def frozen_of(records: Records, plan: JobPlan, as_of: datetime.date) -> Frozen:
    """The plan of a job that is not finished yet, as it is to be kept."""
    sheet = sheet_of(records, plan)
    work = plan.work
    factors = () if work is None else work.lessons
    return Frozen(
        str(plan.job.id),
        as_of,
        stamp_of(sheet),
        "",
        sheet,
        None if work is None else appendix_of(records, plan, sheet),
        job_drawn(records, plan),
        words_of(records, work),
        tuple((lesson.technique, lesson.factor.low) for lesson in factors if lesson.factor is not None),
    )


def frozen_text(frozen: Frozen) -> str:
    """The text of its file: the same values, the same text."""
    values = to_stored(frozen)
    kept = {"format": FORMAT, "sum": checksum(values), "values": values}
    return json.dumps(kept, ensure_ascii=False, indent=1) + "\n"


def read_frozen(path: Path) -> tuple[Frozen | None, Report]:
    """The kept values of the job whose name the file has, or what is wrong with the file."""
    text, report = read_text(path)
    if text is None:
        return None, tuple(replace(d, help="bring the file back from your backup") for d in report)
    try:
        stored = json.loads(text)
    except json.JSONDecodeError as error:
        found = repr(text[error.pos : error.pos + 1]) if error.pos < len(text) else "the end of the file"
        at = Place(str(path), error.lineno, error.colno, error.colno + 1)
        return None, (_damaged(at, found, "the text that `finish` wrote"),)
    except RecursionError:
        return None, (_damaged(Place(str(path), 1, 1, 2), "lists in lists without end", "what `finish` wrote"),)
    try:
        return _checked(stored, path.name.split(".")[0]), ()
    except NotAsStored as refused:
        return None, (_damaged(place_of(text, refused.way, str(path)), refused.found, refused.expected),)


def frozen_with(content: Path, job: Job) -> tuple[Frozen | None, Report]:
    """The kept values of a job, where it is finished, and what is wrong with them or with what is said beside them."""
    file = content / JOBS.name / f"{job.id}.yml"
    path, kept = worked_file(file), has_kept_values(file)
    if job.finished is None or not kept:
        return None, () if (job.finished is not None) == kept else (_apart(path, job),)
    made, report = read_frozen(path)
    if made is None:
        return None, report
    parts = {step.number: step.part for step in made.words.steps}
    return made, (*wrong_steps(job, parts), *changed_since(job, made))


def changed_since(job: Job, frozen: Frozen) -> Iterator[Diagnostic]:
    """What is otherwise in the block than when somebody had gone through it; a mistake is corrected beside it."""
    if job.finished is None or not frozen.told:
        return
    was, now = dict(frozen.told), dict(job.finished.written)
    for way in dict.fromkeys((*was, *now)):
        if was.get(way) != now.get(way):
            place = job.finished.place_of(way) or job.id.place
            right = f"of: {way}, right: {now.get(way, 'WHAT IS RIGHT')}"
            if way == "lots":
                right = "lot: THE WRONG ONE, right: THE RIGHT ONE"
            yield Diagnostic(
                "J641",
                place,
                found=f"“{now[way]}”" if way in now else "nothing",
                expected=f"“{was[way]}”, as it was when it was finished" if way in was else f"no `{way}`",
                help="put the old value back, and write under `corrections` of `finished`: "
                f"`{{on: DAY, by: WHO, why: HOW IT WAS FOUND, {right}}}`",
                says=f"`{way}` of what happened was changed by hand",
            )


def wrong_steps(job: Job, parts: dict[int, str]) -> Iterator[Diagnostic]:
    """Steps that the sheet does not have, or that it has of another part than the one they are named for.

    parts: what each of its steps is worked on.
    """
    named: list[tuple[Text, Text | None]] = []
    if job.finished is not None:
        named = [(one.step, None) for one in job.finished.steps]
    named += [(seen.step, seen.part) for look in job.healed for seen in look.parts if seen.step is not None]
    for step, part in named:
        of = parts.get(int(step))
        if of is not None and part in (None, of):
            continue
        own = [str(number) for number, worked in parts.items() if of is None or worked == part]
        those = "steps" if of is None else f"steps of {part}:"
        yield Diagnostic(
            "J631",
            step.place,
            found=f"step {step}" if of is None else f"step {step}, which is of {of}",
            expected=f"one of the {those} {', '.join(own)}" if parts else "no step: the sheet has none",
            help="look at the number at the left edge of the sheet",
            says=f"the sheet has no step {step}" if of is None else f"step {step} is not of {part}",
        )


def _apart(path: Path, job: Job) -> Diagnostic:
    """Either the job says that it is finished, or there are kept values; the two belong together."""
    finished = job.finished is not None
    return Diagnostic(
        "J630",
        Place(str(path), 1, 1, 2),
        found="nothing" if finished else "values that were kept",
        expected="the values it was worked with" if finished else f"`finished` in the job `{job.id}`",
        help=f"run {typed_command(f'finish {job.id}', path)}",
        says=f"`{job.id}` is finished, and what it was worked with is not kept: a changed record changes its sheet"
        if finished
        else f"the values of `{job.id}` are kept, and the job does not say that it is finished",
    )


def _checked(stored: object, job: str) -> Frozen:
    kept = stored if isinstance(stored, dict) else {}
    for key in ("format", "sum", "values"):
        if key not in kept:
            raise NotAsStored((), f"no “{key}”", "an object with `format`, `sum` and `values`")
    if kept["format"] != FORMAT:
        raise NotAsStored(("format",), f"“{kept['format']}”", f"{FORMAT}, the format that this program reads")
    made = from_stored(Frozen, kept["values"])
    if made.job != job:
        raise NotAsStored(("values", "job"), f"“{made.job}”", f"“{job}”, as the file is called")
    if kept["sum"] != checksum(kept["values"]):
        raise NotAsStored(("sum",), "values that were changed since", "the values that `finish` wrote")
    return made


def checksum(values: Data) -> str:
    """The checksum of values: SHA-256 of their text in one fixed form (FIPS 180-4)."""
    text = json.dumps(values, ensure_ascii=True, sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(text.encode()).hexdigest()


def _damaged(at: Place, found: str, expected: str) -> Diagnostic:
    return Diagnostic(
        "F808",
        at,
        found=found,
        expected=expected,
        help="bring the file back from your backup as it was; it is never written by hand, and a wrong lot is "
        "corrected under `corrections` of the job",
        says=f"the kept values of a finished job are damaged: {found}",
    )


def place_of(text: str, way: Way, file: str) -> Place:
    """Where a value is in a text of JSON, which is read as YAML; where it is lacking, what should hold it."""
    node = read_located(text, file).node
    if node is None or not way:
        return Place(file, 1, 1, 2)
    return innermost(node, way if way[0] in ("format", "sum", "values") else ("values", *way)).place
