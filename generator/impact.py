"""What publishing would change: which sheets, in which numbers, because of which record.

Each sheet is compared with the page of the last published site as it is printed. Why a number changes is tried and not
guessed: each changed record is put back to what it was, alone, and the sheet is planned again. Where that gives another
number than today, the record is a reason for it.

What cannot be put back alone, such as an entry that others name, is a reason only where no other was found.
"""

from __future__ import annotations

import dataclasses
import tempfile
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any, NamedTuple

from pydantic import BaseModel

from generator.dates import AsOf
from generator.kept.times import learn_from_texts
from generator.planning.each_job import Diary, diary_of, plan_one
from generator.planning.findings.states import State
from generator.planning.timing.learning import Learned, Pace
from generator.press.sheet.as_printed import OnSheet, SaidOnSheet, as_printed, printed_differences, printed_state
from generator.press.sheet.contents import sheet_of
from generator.press.sheet.differences import Difference
from generator.press.sheet.frozen import frozen_with
from generator.press.sheet.printing import sheet_html
from generator.press.sheet.stamp import stamp_of
from generator.press.sheet.view import Sheet
from generator.press.words.print_line import printed_stamp
from generator.press.words.regional import in_region
from generator.published import Published, job_file, keys_of, sheets_of, texts_of
from generator.records.families import JOBS, LISTED, STUDIO, Records
from generator.records.ids import Reference
from generator.records.jobs import HOLD_ANSWERS
from generator.records.located import Listing, Node, Text, read_located
from generator.records.located import Mapping as YamlMapping
from generator.records.quoting import fill_in
from generator.records.reading import JobReading, JobTexts, Reading, job_files, read_job, read_records
from generator.records.record import Entry, singles
from generator.site import SiteRead

CHANGED, NEW, GONE = "changed", "new", "gone"
PROGRAM = "another version of the program, or another day"
_EVERYTHING = "everything"
_DRAWN = "The map", SaidOnSheet("as it was", "as it was"), SaidOnSheet("drawn otherwise", "drawn otherwise")
# So many sheets are planned again at most to find reasons; beyond, whole families are put back together.
_MOST_TRIES = 2000


class Changed(NamedTuple):
    """One record that is not as it was, with its fields; `was` or `now` is empty where the field was not there."""

    record: str
    fields: tuple[Difference, ...]

    @property
    def name(self) -> str:
        """The record, with its field where only one has changed."""
        return f"{self.record}.{self.fields[0].what}" if len(self.fields) == 1 and self.fields[0].what else self.record


class SaidOtherwise(NamedTuple):
    """One thing that a sheet would say otherwise, and the records that are the reason."""

    what: str
    was: str
    now: str
    because: tuple[str, ...]


class SheetChange(NamedTuple):
    """One sheet that changes, comes or goes.

    untold: whether more changes, that may tell what the client answered and that the sheet alone says. finished:
    whether it is a record now, whose paper is kept.
    """

    job: str
    how: str
    numbers: tuple[SaidOtherwise, ...] = ()
    untold: bool = False
    finished: bool = False


class Impact(NamedTuple):
    """What publishing would change against a site; same: how many sheets stay. known: whether its records are."""

    site: Path
    day: str
    records: tuple[Changed, ...]
    sheets: tuple[SheetChange, ...]
    same: int
    known: bool = True


class _Tried(NamedTuple):
    """A change that can be put back: its name, the records and what was learned without it, and the ids it brought."""

    name: str
    reading: Reading
    learned: Learned
    diary: Diary
    brought: frozenset[tuple[str, str]] = frozenset()


def impact(content: Path, site: SiteRead, before: Published) -> Impact | None:
    """Compare with a published site what was read and checked; None while there are mistakes in the records.

    Only sheets with another stamp are read as they are printed.
    """
    reading, learned = read_records(content, site.as_of), site.gathered.learned
    if reading.records is None:
        return None
    diary = diary_of(content, reading, learned)
    published = dict(sheets_of(before.site))
    changed = tuple(changed_records(before.files, texts_of(content))) if before.files else ()
    differing: list[tuple[JobReading, OnSheet, OnSheet]] = []
    sheets: list[SheetChange] = []
    same = 0
    for job in site.gathered.jobs:
        page = published.pop(job.id, None)
        if page is None:
            sheets.append(SheetChange(job.id, NEW))
            continue
        was = page.read_text("utf-8", "replace")
        stamp = printed_stamp(was)
        as_it_was = (printed_state(was) is State.FINISHED) == job.finished
        if as_it_was and job.stamp == stamp:
            same += 1
            continue
        read = read_job(job_file(content, job.id), reading.known)
        sheet = None if read.job is None else _sheet(read, reading, learned, diary)
        # A check makes no pages, and so no stamps of what is not finished.
        if sheet is not None and as_it_was and stamp_of(sheet) == stamp:
            same += 1
        elif sheet is not None:
            differing.append((read, as_printed(was), _printed(sheet, reading)))
    tries = _tries(content, _Tried("", reading, learned, diary), before, changed, len(differing))
    # What they have taught is gone with them.
    there = {path.stem for path in job_files(content)}
    gone = tuple(
        f"{JOBS.name}.{job}.finished" for job, keys in before.jobs.items() if "finished" in keys and job not in there
    )
    for read, was_said, says in differing:
        own = _keys_changed(content, read.path.stem, before)
        sheets.append(_reasons(read, (was_said, says), tries, (own, gone), changed))
    sheets += [SheetChange(job, GONE) for job in published]
    in_order = tuple(sorted(sheets, key=lambda one: one.job))
    return Impact(before.site, before.day.isoformat(), changed, in_order, same, bool(before.files))


def _sheet(read: JobReading, reading: Reading, learned: Learned, diary: Diary) -> Sheet | None:
    """The sheet of a job as the site would have it; None for a job that has a mistake, or no sheet."""
    assert reading.records is not None and read.job is not None
    frozen = frozen_with(read.path.parent.parent, read.job)[0]
    if frozen is not None:
        return frozen.as_record(read.job)
    planned = plan_one(read, reading, learned, diary)
    return None if planned.plan is None else sheet_of(reading.records, planned.plan)


def _printed(sheet: Sheet, reading: Reading) -> OnSheet:
    assert reading.records is not None
    return as_printed(in_region(reading.records)(sheet_html(sheet, reading.as_of)))


def _reasons(
    read: JobReading,
    said: tuple[OnSheet, OnSheet],
    tries: Sequence[_Tried],
    jobs: tuple[tuple[str, ...], tuple[str, ...]],
    changed: Sequence[Changed],
) -> SheetChange:
    """A sheet with each number that is said otherwise, and with the records by which it is.

    jobs: the keys of the job that have changed, and the finished jobs that are gone.
    """
    assert read.job is not None
    was, now = said
    own, gone = jobs
    named = {(one.family, str(one)) for one in singles(read.job) if isinstance(one, Reference)}
    without: dict[str, OnSheet] = {}
    for tried in tries:
        if not tried.brought & named:
            sheet = _sheet(read, tried.reading, tried.learned, tried.diary)
            without[tried.name] = {} if sheet is None else _printed(sheet, tried.reading)
    # Where all records of then do not give what the sheet said, something else is a reason too.
    then = without.pop(_EVERYTHING, None)
    others = own or tuple(one.name for one in changed if one.name not in without) or gone or (PROGRAM,)
    differ = tuple(printed_differences(was, now)) or (_DRAWN,)
    numbers = []
    for what, before, after in differ:
        if before.told is None or after.told is None or before.told == after.told:
            continue
        by = tuple(name for name, printed in without.items() if printed.get(what) != now.get(what))
        more = not by if then is None else then.get(what) != was.get(what)
        numbers.append(SaidOtherwise(what, before.told, after.told, (*by, *(others if more or not by else ()))))
    untold = len(numbers) < len(differ)
    return SheetChange(read.path.stem, CHANGED, tuple(numbers), untold, read.job.finished is not None)


def _keys_changed(content: Path, job: str, before: Published) -> tuple[str, ...]:
    """The keys of a job that are written otherwise, each by its path; of one that holds answers the job alone."""
    then, now = before.jobs.get(job, {}), keys_of(job_file(content, job))
    keys = [key for key in dict.fromkeys((*now, *then)) if then and then.get(key) != now.get(key)]
    whose = f"{JOBS.name}.{job}"
    return tuple(dict.fromkeys(whose if key in HOLD_ANSWERS else f"{whose}.{key}" for key in keys))


def _newly_finished(path: Path, before: Published) -> bool:
    finished = keys_of(path).get("finished")
    return finished is not None and finished != before.jobs.get(path.stem, {}).get("finished")


def changed_records(was: Mapping[str, str], now: Mapping[str, str]) -> Iterator[Changed]:
    """Every entry of a family, and every field of the studio, that is written otherwise. By text of each file."""
    for family in (STUDIO, *LISTED):
        then, today = _fields(was.get(family.file, "")), _fields(now.get(family.file, ""))
        records: dict[str, list[Difference]] = {}
        for path in dict.fromkeys((*today, *then)):
            if then.get(path) != today.get(path):
                keys = path.split(".")
                # Of the studio each field is one record, and each of its limits.
                depth = 2 if family is STUDIO and keys[0] == "limits" else 1
                record = ".".join((family.name, *keys[:depth]))
                records.setdefault(record, []).append(
                    Difference(".".join(keys[depth:]), then.get(path, ""), today.get(path, ""))
                )
        yield from (Changed(record, tuple(fields)) for record, fields in records.items())


def _fields(text: str) -> dict[str, str]:
    """Every single value of a file by its path, as it is typed; entries and what has an id go by that."""
    node = read_located(text, "").node
    return dict(_values(node, "")) if node is not None else {}


def _values(node: Node, path: str) -> Iterator[tuple[str, str]]:
    if isinstance(node, YamlMapping):
        for key, value in node.items():
            yield from _values(value, f"{path}.{key}" if path else key)
    elif isinstance(node, Listing):
        for number, item in enumerate(node):
            named = item.get("id") if isinstance(item, YamlMapping) else None
            key = str(named) if isinstance(named, Text) else str(number)
            yield from _values(item, f"{path}.{key}" if path else key)
    else:
        yield path, str(node)


def _tries(
    content: Path, today: _Tried, before: Published, changed: Sequence[Changed], sheets: int
) -> tuple[_Tried, ...]:
    """Every change that can be put back by itself."""
    reading, learned = today.reading, today.learned
    records = reading.records
    assert records is not None
    then, typed_then = _records_then(before, reading.as_of) if sheets and changed else (None, None)
    tries: list[_Tried] = []
    texts = dict(JobTexts(content)) if sheets else {}
    new = [path for path in texts if before.jobs and _newly_finished(path, before)]
    taught = {path: text for path, text in texts.items() if path not in new}
    learned_then = learned if then is None else learn_from_texts(then, reading, taught)
    otherwise = [pace for pace in {**learned, **learned_then} if _factor(learned, pace) != _factor(learned_then, pace)]
    others_learned = {pace: lesson for pace, lesson in learned.items() if pace not in otherwise}

    def tried(name: str, reading: Reading, learned: Learned, brought: frozenset[tuple[str, str]] = frozenset()) -> None:
        tries.append(_Tried(name, reading, learned, diary_of(content, reading, learned, today.diary), brought))

    if reading.typed is not None and typed_then is not None:
        together = len(changed) * sheets > _MOST_TRIES
        for name, put_back, brought in _put_back(reading.typed, typed_then, changed, together):
            filled, wrong = fill_in(put_back)
            if not wrong:
                # What finished jobs teach rests on records too.
                again = learn_from_texts(filled, reading, texts, otherwise) if otherwise else {}
                tried(name, reading._replace(records=filled), {**others_learned, **again}, brought)
    if new:
        name = ", ".join(f"{JOBS.name}.{path.stem}.finished" for path in new)
        tried(name, reading, learn_from_texts(records, reading, taught))
    if then is not None and before.jobs:
        brought = frozenset((f.name, e) for f in LISTED for e in records.family(f.name).keys() - then.family(f.name))
        tried(_EVERYTHING, reading._replace(records=then), learned_then, brought)
    return tuple(tries)


def _factor(learned: Learned, pace: Pace) -> tuple[float, float] | None:
    factor = learned[pace].factor if pace in learned else None
    return None if factor is None else (factor.low, factor.high)


def _records_then(before: Published, today: AsOf) -> tuple[Records | None, Records | None]:
    """The records of the published site, and as they were typed; None where this program cannot read them any more."""
    with tempfile.TemporaryDirectory() as folder:
        for name, text in before.files.items():
            (Path(folder) / name).write_text(text, "utf-8")
        read = read_records(Path(folder), today)
    return read.records, None if read.records is None else read.typed


_PutBack = tuple[str, Records, frozenset[tuple[str, str]]]


def _put_back(now: Records, then: Records, changed: Sequence[Changed], together: bool) -> Iterator[_PutBack]:
    """Today's records with one change less each; `together`: with one family less."""
    named = {(one.family, str(one)) for record in _all(now) for one in singles(record) if isinstance(one, Reference)}
    for change in changed:
        family, _, entry = change.record.partition(".")
        if family == STUDIO.name:
            studio = _one_back(now.studio, then.studio, change)
            if studio is not None:
                yield change.name, dataclasses.replace(now, studio=studio), frozenset()
        elif not together:
            entries, old = dict(now.family(family)), then.family(family).get(entry)
            brought = frozenset({(family, entry)}) if old is None else frozenset[tuple[str, str]]()
            if brought & named or (old is not None and not _leads_somewhere(old, now)):
                continue
            if old is None:
                entries.pop(entry, None)
            else:
                entries[entry] = old
            yield change.name, _with_family(now, family, entries), brought
    for family in dict.fromkeys(c.record.partition(".")[0] for c in changed) if together else ():
        if family != STUDIO.name and set(then.family(family)) == set(now.family(family)):
            yield family, _with_family(now, family, then.family(family)), frozenset()


def _with_family(records: Records, family: str, entries: Mapping[str, Entry]) -> Records:
    changed: dict[str, Any] = {family.replace("-", "_"): entries}
    return dataclasses.replace(records, **changed)


def _one_back(now: BaseModel, then: BaseModel, change: Changed) -> Any:
    """The studio with one of its fields, or one of its limits, as it was."""
    keys = change.record.split(".")[1:]
    name = next((n for n, info in type(now).model_fields.items() if (info.alias or n) == keys[0]), None)
    if name is None:
        return None
    mine, old = getattr(now, name), getattr(then, name)
    if keys[0] == "limits" and isinstance(mine, BaseModel) and len(keys) > 1:
        inner = next((n for n, info in type(mine).model_fields.items() if (info.alias or n) == keys[1]), None)
        if inner is not None:
            old = mine.model_copy(update={inner: getattr(old, inner)})
    return now.model_copy(update={name: old})


def _all(records: Records) -> Iterator[BaseModel]:
    yield records.studio
    for family in LISTED:
        yield from records.family(family.name).values()


def _leads_somewhere(entry: Entry, records: Records) -> bool:
    return all(one in records.family(one.family) for one in singles(entry) if isinstance(one, Reference))
