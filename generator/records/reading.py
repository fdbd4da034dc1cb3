"""The content folder into typed records and a report. Jobs are read one at a time and not kept."""

from __future__ import annotations

import difflib
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

from pydantic import BaseModel, TypeAdapter, ValidationError

from generator.diagnostics import Diagnostic, Place, Report, has_errors
from generator.records.conditions import ANSWER, facts_named
from generator.records.families import ALL, JOBS, LISTED, STUDIO, Family, Known, Records
from generator.records.fields import Reference
from generator.records.jobs import Job
from generator.records.located import Listing, Mapping, Node, Text, read_located
from generator.records.mistakes import diagnostics
from generator.records.rules import ScarRule


class Reading(NamedTuple):
    """All records but the jobs. `records` is None when any of them has an error."""

    records: Records | None
    known: Known
    report: Report


class JobReading(NamedTuple):
    """One job. `job` is None when it has an error."""

    path: Path
    job: Job | None
    report: Report


def read_records(folder: Path) -> Reading:
    """Read every family of the content folder."""
    if not folder.is_dir():
        at = Place(str(folder), 1, 1, 2)
        missing = Diagnostic(
            "F801", at, "the content folder is not there", "nothing", "a folder with the studio's records",
            "give the folder with `--content`, or set `content` for the plugin in mkdocs.yml",
        )  # fmt: skip
        return Reading(None, Known({}, frozenset()), (missing,))
    report: list[Diagnostic] = list(_strangers(folder))
    head, studio_report = _read_one(folder / STUDIO.file, STUDIO)
    report += studio_report
    families: dict[str, dict[str, Any]] = {}
    ids: dict[str, dict[str, Place]] = {}
    incomplete: set[str] = set()
    for family in LISTED:
        entries, places, whole, family_report = _read_listed(folder / family.file, family)
        families[family.name], ids[family.name] = entries, places
        if not whole:
            incomplete.add(family.name)
        report += family_report
    known = Known(ids, frozenset(incomplete))
    for entry in [head, *(e for entries in families.values() for e in entries.values())]:
        report += _dangling(entry, known)
    if head is None or has_errors(report):
        return Reading(None, known, tuple(report))
    named = {name.replace("-", "_"): entries for name, entries in families.items()}
    return Reading(Records(folder=str(folder), studio=head, **named), known, tuple(report))


def job_files(folder: Path) -> list[Path]:
    """The files of all jobs, by name."""
    return sorted((folder / JOBS.name).glob("*.yml"))


def read_jobs(folder: Path, known: Known) -> Iterator[JobReading]:
    """Read the jobs one after the other."""
    for path in job_files(folder):
        yield read_job(path, known)


def read_job(path: Path, known: Known) -> JobReading:
    """Read one job and check that what it refers to is there."""
    job, report = _read_one(path, JOBS)
    if job is None:
        return JobReading(path, None, report)
    more = list(_dangling(job, known))
    if job.id != path.stem:
        more.append(
            Diagnostic(
                "R320", job.id.place, f"the job's id is `{job.id}`, its file is `{path.name}`", f"“{job.id}”",
                f"`{path.stem}`", f"write `id: {path.stem}`, or name the file `{job.id}.yml`",
            )
        )  # fmt: skip
    more += _twice(job)
    return JobReading(path, None if has_errors(more) else job, (*report, *more))


def _strangers(folder: Path) -> Iterator[Diagnostic]:
    files = {family.file for family in ALL if family is not JOBS}
    for path in sorted(folder.rglob("*")):
        inside = path.relative_to(folder)
        if path.is_dir() or path.name.startswith("."):
            continue
        if str(inside) in files or (inside.parts[0] == JOBS.name and len(inside.parts) == 2 and path.suffix == ".yml"):
            continue
        near = difflib.get_close_matches(path.name, files, n=1, cutoff=0.5)
        hint = f"did you mean `{near[0]}`?" if near else f"files here: {', '.join(sorted(files))}, jobs/*.yml"
        yield Diagnostic(
            "F802", Place(str(path), 1, 1, 2), "this file is not one that is read", f"`{inside}`",
            "a family's file, or a job", hint,
        )  # fmt: skip


def _text(path: Path) -> tuple[str | None, Report]:
    try:
        return path.read_bytes().decode("utf-8-sig"), ()
    except FileNotFoundError:
        found, code = "nothing", "F801"
        help_ = f"add `{path.name}`; an empty family is written `[]`"
        at = Place(str(path), 1, 1, 2)
    except UnicodeDecodeError as error:
        before = error.object[: error.start].decode("utf-8-sig", errors="replace").split("\n")
        at = Place(str(path), len(before), len(before[-1]) + 1, len(before[-1]) + 2)
        found, code = f"the byte 0x{error.object[error.start]:02X}", "Y102"
        help_ = "save the file as UTF-8 text"
    except OSError as error:
        found, code, help_ = str(error.strerror), "F801", "make the file readable"
        at = Place(str(path), 1, 1, 2)
    message = f"the file cannot be read: {found}" if found != "nothing" else "the file is not there"
    return None, (Diagnostic(code, at, message, found, "a text file in UTF-8", help_),)


def _node(path: Path, shape: type[Mapping] | type[Listing], wanted: str) -> tuple[Any, Report]:
    text, report = _text(path)
    if text is None:
        return None, report
    node, report = read_located(text, str(path))
    if not isinstance(node, shape) and not has_errors(report):
        at = node.place if node is not None else Place(str(path), 1, 1, 2)
        found = {Text: "a single value", Mapping: "a mapping", Listing: "a list", type(None): "an empty file"}[
            type(node)
        ]
        help_ = "start each entry with a dash: `- id: ...`" if shape is Listing else "write `key: value`, one a line"
        return None, (Diagnostic("R303", at, f"expected {wanted}, found {found}", found, wanted, help_),)
    return node if isinstance(node, shape) else None, report


@cache
def _adapter(model: type[BaseModel]) -> TypeAdapter[Any]:
    return TypeAdapter(model)


def _validated(node: Node, family: Family) -> tuple[Any, list[Diagnostic]]:
    try:
        return _adapter(family.model).validate_python(node), []
    except ValidationError as error:
        return None, diagnostics(error, family.model, node)


def _read_one(path: Path, family: Family) -> tuple[Any, Report]:
    node, report = _node(path, Mapping, "a mapping of keys and values")
    if node is None:
        return None, report
    value, found = _validated(node, family)
    return (None if has_errors(report) else value), (*report, *found)


def _read_listed(path: Path, family: Family) -> tuple[dict[str, Any], dict[str, Place], bool, Report]:
    """The good entries, the ids of all entries, whether all ids are known, and the report."""
    listing, first = _node(path, Listing, "a list of entries")
    if listing is None:
        return {}, {}, False, first
    report = list(first)
    entries: dict[str, Any] = {}
    places: dict[str, Place] = {}
    whole = not has_errors(first)
    for node in listing:
        value, found = _validated(node, family)
        report += found
        written = node.get("id") if isinstance(node, Mapping) else None
        bad_id = not isinstance(written, Text) or any(d.place == written.place for d in found)
        if bad_id:
            whole = False
        if isinstance(written, Text):
            if written in places:
                report.append(_again(written, places[written], "id"))
                continue
            places[written] = written.place
        if value is not None:
            entries[value.id] = value
    return entries, places, whole, tuple(report)


def _again(text: Text, first: Place, what: str) -> Diagnostic:
    return Diagnostic(
        "R318", text.place, f"the {what} `{text}` stands twice (first on line {first.line})", f"“{text}”",
        f"an {what} of its own", "rename one of the two, or take it away",
    )  # fmt: skip


def _twice(job: Job) -> Iterator[Diagnostic]:
    for named in (job.parts, job.scars or ()):
        seen: dict[str, Place] = {}
        for item in named:
            if item.id in seen:
                yield _again(item.id, seen[item.id], "id")
            seen.setdefault(item.id, item.id.place)


def references(value: object) -> Iterator[Reference]:
    """Every reference inside a record."""
    if isinstance(value, Reference):
        yield value
    elif isinstance(value, BaseModel):
        for name in type(value).model_fields:
            yield from references(getattr(value, name))
    elif isinstance(value, tuple | list):
        for item in value:
            yield from references(item)
    elif isinstance(value, dict):
        for key in value:
            yield from references(key)


def _dangling(entry: object, known: Known) -> Iterator[Diagnostic]:
    for reference in references(entry):
        if diagnostic := _missing(reference, reference.family, reference.place, known):
            yield diagnostic
    if isinstance(entry, ScarRule):
        for fact in facts_named(entry.when):
            if fact.startswith(ANSWER):
                asked = fact.removeprefix(ANSWER)
                if diagnostic := _missing(asked, "screening", entry.id.place, known):
                    yield diagnostic


def _missing(wanted: str, family: str, place: Place, known: Known) -> Diagnostic | None:
    ids = known.ids.get(family, {})
    if wanted in ids or family in known.open:
        return None
    near = difflib.get_close_matches(wanted, ids, n=1, cutoff=0.5)
    listed = ", ".join(list(ids)[:12]) + (", …" if len(ids) > 12 else "")
    hint = f"did you mean `{near[0]}`?" if near else f"ids there: {listed}" if ids else f"`{family}.yml` is empty"
    return Diagnostic(
        "L401", place, f"there is no `{wanted}` in {family}", f"“{wanted}”", f"the id of an entry in `{family}`", hint
    )
