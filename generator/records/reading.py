"""The content folder into typed records and a report. Jobs are read one at a time and not kept."""

import hashlib
import os
from collections import abc
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

from pydantic import BaseModel, TypeAdapter, ValidationError

from generator.dates import AsOf, clock_day, or_as_the_studio_says
from generator.diagnostics import Diagnostic, Place, Report, has_errors
from generator.near_miss import nearest
from generator.records.across import across_families, names_what_is_over, nothing_is_sterilized
from generator.records.decisions import names_of_nothing
from generator.records.drafts import as_drafts, drafts
from generator.records.families import ALL, JOBS, LISTED, STUDIO, WORKED, Family, Known, Records
from generator.records.hygiene import boxes_that_never_yield
from generator.records.ids import ID, Reference
from generator.records.jobs import Job
from generator.records.kind import mistake_at, repeated
from generator.records.located import Listing, Located, Mapping, Node, Text, read_located
from generator.records.machines import Machine
from generator.records.mistakes import diagnostics
from generator.records.needles import Technique
from generator.records.noted import note
from generator.records.once_read import again, ids_twice, only_in_capitals, still_to_come, words_twice
from generator.records.personal import personal_marks
from generator.records.quoting import fill_in
from generator.records.references import dangling
from generator.records.studio import Studio
from generator.records.text_file import bytes_of, read_text


class Reading(NamedTuple):
    """All records but the jobs. `records` is None when any of them has an error.

    as_of: the day that counts as today. files: the hash of the files, taken before the first of them was read. typed:
    the records with their quotes as they were typed.
    """

    records: Records | None
    known: Known
    report: Report
    as_of: AsOf
    files: str = ""
    typed: Records | None = None


class JobReading(NamedTuple):
    """One job. `job` is None when it has an error."""

    path: Path
    job: Job | None
    report: Report


class FamilyReading(NamedTuple):
    """One family's file: its good entries, the ids of all entries, what they refer to, and the report.

    whole: whether all ids are known; where they are not, a reference to the family cannot be called wrong.
    """

    entries: dict[str, Any]
    ids: dict[Text, Place]
    whole: bool
    references: list[Reference]
    report: list[Diagnostic]


def read_records(folder: Path, run: AsOf | None = None) -> Reading:
    """Read every family of the content folder. run: the day of the run, over which studio.yml may go (`dates`)."""
    files = files_digest(folder)
    return _read_records(folder, run)._replace(files=files)


def files_digest(folder: Path) -> str:
    """The hash of the files of all records but the jobs, by name; one that cannot be read is empty."""
    made = hashlib.blake2b(digest_size=20)
    for family in ALL:
        if family is not JOBS:
            text = bytes_of(folder / family.file)
            made.update(f"{family.file} {len(text)}\n".encode() + text)
    return made.hexdigest()


def _read_records(folder: Path, run: AsOf | None) -> Reading:
    as_of = run or clock_day()
    if not folder.is_dir():
        at = Place(str(folder), 1, 1, 2)
        missing = Diagnostic(
            "F801",
            at,
            expected="a folder with the studio's records",
            help="give the folder with `--content`, or set `content` for the plugin in mkdocs.yml",
            says="the content folder is not there",
        )
        return Reading(None, Known({}, frozenset()), (missing,), as_of)
    report, misnamed = _strangers(folder)
    head = read_single(folder / STUDIO.file, STUDIO)
    house = str(head.value.source) if isinstance(head.value, Studio) else ""
    families = {family.name: read_family(folder / family.file, family, house) for family in LISTED}
    known = Known(
        {name: read.ids for name, read in families.items()},
        frozenset(name for name, read in families.items() if not read.whole),
    )
    files: dict[str, Validated | FamilyReading] = {STUDIO.name: head, **families}
    for name, read in files.items():
        # A file under a wrong name is one mistake, not also a missing file.
        report += [] if f"{name}.yml" in misnamed else read.report
        report += dangling(read.references, known)
    named = {name.replace("-", "_"): read.entries for name, read in families.items()}
    records = Records(folder=str(folder), studio=head.value, **named)
    if head.value is not None:  # whose mistakes leave open which day counts as today
        as_of = or_as_the_studio_says(as_of, head.value.as_of)
        report += still_to_come((head.value, *records.entries()), as_of)
        report += names_of_nothing(head.value, known.ids)
        if not head.value.reprocessing:
            report += nothing_is_sterilized(families["loads"].ids)
    if families["hygiene"].whole:
        report += boxes_that_never_yield(records.hygiene.values())
    report += across_families(records)
    report += names_what_is_over(records, as_of)
    if has_errors(report):  # a draft under a wrong name stops nothing either
        report = list(as_drafts(report, drafts(folder)))
    if head.value is None or has_errors(report):
        return Reading(None, known, tuple(report), as_of)
    typed = replace(records, techniques=_on_any_machine(records.techniques, records.machines))
    records, wrong = fill_in(typed)
    return Reading(None if has_errors(wrong) else records, known, (*report, *wrong), as_of, typed=typed)


def _on_any_machine(techniques: dict[str, Technique], machines: dict[str, Machine]) -> dict[str, Technique]:
    """Techniques that name no machine may be worked with each of them."""
    every = {"machines": tuple(Reference.to(machine.id, "machines", machine.id.place) for machine in machines.values())}
    return {
        name: technique if technique.machines else technique.model_copy(update=every)
        for name, technique in techniques.items()
    }


def job_files(folder: Path) -> list[Path]:
    """The files of all jobs, by name. Hidden ones are an editor's business."""
    return [folder / JOBS.name / name for name in _among_jobs(folder, ".yml")]


def is_a_job(folder: Path, job_id: str) -> bool:
    """Whether a job has this id by its file."""
    return f"{job_id}.yml" in _among_jobs(folder, ".yml")


def worked_file(job: Path) -> Path:
    """Where the values of a job's sheet are kept, as they were when it was worked: beside the job's own file."""
    return job.with_suffix(WORKED)


def has_kept_values(job: Path) -> bool:
    """Whether something stands where the values of a job's sheet are kept, even if nobody can read it."""
    return os.path.lexists(worked_file(job))


def _among_jobs(folder: Path, ending: str) -> list[str]:
    try:
        names = os.listdir(folder / JOBS.name)
    except OSError:
        return []
    return sorted(name for name in names if name.endswith(ending) and not name.startswith("."))


class JobTexts(abc.Mapping[Path, bytes]):
    """What is in the files of the jobs, in the order of their names. A file is read whenever it is asked for; one that
    cannot be read is empty, and is reported when all jobs are read.
    """

    def __init__(self, folder: Path) -> None:
        self._files = job_files(folder)

    def __getitem__(self, path: Path) -> bytes:
        return bytes_of(path)

    def __iter__(self) -> Iterator[Path]:
        return iter(self._files)

    def __len__(self) -> int:
        return len(self._files)


def read_jobs(folder: Path, known: Known) -> Iterator[JobReading]:
    """Read the jobs one after the other."""
    for path in job_files(folder):
        yield read_job(path, known)


def read_job(path: Path, known: Known) -> JobReading:
    """Read one job and check that what it refers to is there."""
    read = read_single(path, JOBS)
    finished = isinstance(read.node, Mapping) and "finished" in read.node
    report = [*read.report, *dangling(read.references, known, finished), *_another_name(read.node, path, read.report)]
    if isinstance(read.value, Job):
        report += (*ids_twice(read.value), *personal_marks(read.value))
    return JobReading(path, None if has_errors(report) else read.value, tuple(report))


def _another_name(node: Node | None, path: Path, report: list[Diagnostic]) -> Iterator[Diagnostic]:
    written = node.get("id") if isinstance(node, Mapping) else None
    if isinstance(written, Text) and written != path.stem and all(d.place != written.place for d in report):
        yield mistake_at(
            "R320",
            written,
            expected=f"`{path.stem}`",
            help_=f"name the file `{written}.yml`"
            + (f", or write `id: {path.stem}`" if ID.fullmatch(path.stem) else ""),
            says=f"the job's id is `{written}`, its file is `{path.name}`",
        )


def _strangers(folder: Path) -> tuple[list[Diagnostic], set[str]]:
    """Files that are not read, and the names under which some of them are looked for."""
    files = {family.file for family in ALL if family is not JOBS}
    lacking = {file for file in files if not (folder / file).exists()}
    report: list[Diagnostic] = []
    misnamed: set[str] = set()
    for path in _beside_jobs(folder):
        in_jobs = path.parent == folder / JOBS.name
        inside = path.relative_to(folder)
        if str(inside) in files:
            continue
        near = nearest(path.name, sorted(lacking - misnamed))
        if in_jobs and path.suffix == ".yaml":
            hint = f"name it `{path.stem}.yml`"
        elif near and not in_jobs:
            hint = f"name it `{near}`"
            misnamed.add(near)
        else:
            hint = f"take it away, or name it like one of {', '.join(sorted(files))}, jobs/*.yml"
        report.append(
            Diagnostic(
                "F802",
                Place(str(path), 1, 1, 2),
                found=f"`{inside}`",
                expected="a family's file, or a job",
                help=hint,
                says="this file is not one that is read",
            )
        )
    return [*report, *_twin_files(folder), *_without_job(folder)], misnamed


def _beside_jobs(folder: Path) -> list[Path]:
    """All files but jobs and their kept values. Editors leave hidden files and copies with a tilde behind."""
    found: list[Path] = []
    for at, folders, names in os.walk(folder):
        inside = Path(at)
        # A folder that is named like a file of records looks like one that is read.
        names += [name for name in folders if name.endswith(".yml")]
        known = (".yml", WORKED, "~") if inside == folder / JOBS.name else "~"
        found += [inside / name for name in names if not name.startswith(".") and not name.endswith(known)]
    return sorted(found)


def _without_job(folder: Path) -> Iterator[Diagnostic]:
    """Kept values whose job is not there: after a deletion nothing of a job may be left."""
    jobs = set(_among_jobs(folder, ".yml"))
    for kept in _among_jobs(folder, WORKED):
        name = kept.removesuffix(WORKED) + ".yml"
        if name not in jobs:
            yield Diagnostic(
                "F809",
                Place(str(folder / JOBS.name / name), 1, 1, 2),
                found=f"`{kept}` without it",
                expected=f"the job `{name}` beside its kept values",
                help=f"bring `{name}` back; or, where the job was deleted, delete `{kept}` too",
                says=f"`{kept}` is there, and its job is not",
            )


def _twin_files(folder: Path) -> Iterator[Diagnostic]:
    """Jobs whose files are one and the same where capitals do not count."""
    for name, first in repeated((name.lower(), name) for name in _among_jobs(folder, ".yml")):
        yield Diagnostic(
            "F807",
            Place(str(folder / JOBS.name / name), 1, 1, 2),
            found=f"`{name}`",
            expected="names that differ in a letter or digit, because some systems take both for one file",
            help="give one of the two jobs another id, and its file the same name",
            says=f"the files `{name}` and `{first}` differ only in capitals",
        )


# What a file has to be, and how it is written.
_SHAPES: dict[type, tuple[str, str]] = {
    Mapping: ("a mapping of keys and values", "write `key: value`, one a line"),
    Listing: ("a list of entries", "start each entry with a dash: `- id: ...`; an empty family is written `[]`"),
}


def _located(path: Path, shape: type[Mapping] | type[Listing]) -> Located:
    """The file's value, None where it has not the shape that is wanted."""
    text, report = read_text(path)
    if text is None:
        return Located(None, report)
    located = read_located(text, str(path))
    node = located.node
    if isinstance(node, shape):
        return located
    if has_errors(located.report):
        return located._replace(node=None)
    at = node.place if node is not None else Place(str(path), 1, 1, 2)
    found = {Text: "a single value", Mapping: "a mapping", Listing: "a list", type(None): "an empty file"}[type(node)]
    expected, help_ = _SHAPES[shape]
    return Located(None, (Diagnostic("R303", at, found=found, expected=expected, help=help_),))


@cache
def _adapter(model: type[BaseModel]) -> TypeAdapter[Any]:
    return TypeAdapter(model)


class Validated(NamedTuple):
    """One record, None when it has a mistake; what it refers to is known either way."""

    value: Any
    node: Node | None
    references: list[Reference]
    report: list[Diagnostic]


def _validated(node: Node, family: Family, hollow: frozenset[Place]) -> Validated:
    references: list[Reference] = []
    value, found = None, []
    try:
        value = _adapter(family.model).validate_python(node, context=references)
    except ValidationError as error:
        found = [d for d in diagnostics(error, family.model, node, family.name) if d.place not in hollow]
    else:
        found = list(words_twice(value))
    return Validated(value, node, [r for r in references if r.place not in hollow], found)


def read_single(path: Path, family: Family) -> Validated:
    located = _located(path, Mapping)
    if located.node is None:
        return Validated(None, None, [], list(located.report))
    note(located.node, (family.name, path.stem) if family is JOBS else (family.name,), "")
    read = _validated(located.node, family, located.hollow)
    report = [*located.report, *read.report]
    return read._replace(value=None if has_errors(report) else read.value, report=report)


def read_family(path: Path, family: Family, house: str = "") -> FamilyReading:
    """Read a family's file. house: the source of what the studio counted itself."""
    located = _located(path, Listing)
    whole = not has_errors(located.report)
    made = FamilyReading({}, {}, whole, [], list(located.report))
    seen: dict[str, Text] = {}
    for node in located.node if isinstance(located.node, Listing) else ():
        written = node.get("id") if isinstance(node, Mapping) else None
        note(node, (family.name, str(written)), "", family.own, house)
        read = _validated(node, family, located.hollow)
        made.report.extend(read.report)
        made.references.extend(read.references)
        if not isinstance(written, Text) or any(d.place == written.place for d in read.report):
            whole = False
        if isinstance(written, Text):
            if written in made.ids:
                # One of the two may be the entry that others refer to by another name.
                whole = False
                made.report.append(again(written, made.ids[written], "id"))
                continue
            made.ids[written] = written.place
            if (first := seen.setdefault(written.lower(), written)) is not written:
                whole = False
                made.report.append(only_in_capitals(written, first))
        if read.value is not None:
            made.entries[read.value.id] = read.value
    return made._replace(whole=whole)
