"""What a published site was made of, kept beside the records: `.published.json`.

The site itself has the sheets. What is kept here is the text of the studio's records as it was then, so that a change
of a sheet can be told by its record; and of each job a short hash of each of its keys, so that no answer is kept twice.
A file that cannot be read, or is of another form, is taken as none.
"""

from __future__ import annotations

import datetime
import hashlib
import json
import os
import re
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import NamedTuple

from generator.records.families import ALL, JOBS
from generator.records.reading import job_files
from generator.records.text_file import bytes_in, bytes_of
from generator.whole_files import write_whole

NAME = ".published.json"
_FORM = 1
_KEY = re.compile(r"(?m)^([a-z_]+):")
BEGUN = ".next"  # a copy that has no name yet, or that a killed run left
_DATED = re.compile(r"\d{4}-\d{2}-\d{2}(?:-(\d+))?")


class Published(NamedTuple):
    """The last published site. files: text of each record file, by name. jobs: hash of each key, by job."""

    site: Path
    day: datetime.date
    files: Mapping[str, str]
    jobs: Mapping[str, Mapping[str, str]]


def note_published(content: Path, site: Path, day: datetime.date) -> None:
    """Keep what a site was made of that has just taken its place. Raises OSError."""
    kept = {
        "form": _FORM,
        "site": os.path.relpath(site, content.parent),
        "day": day.isoformat(),
        "files": texts_of(content),
        "jobs": {path.stem: keys_of(path) for path in job_files(content)},
    }
    write_whole(content.parent / NAME, json.dumps(kept, ensure_ascii=False, separators=(",", ":")))


def texts_of(content: Path) -> dict[str, str]:
    """The text of each record file, by name."""
    files = sorted(family.file for family in ALL if family is not JOBS)
    return {file: raw.decode("utf-8-sig", "replace") for file in files if (raw := bytes_of(content / file))}


def last_published(content: Path) -> Published | None:
    """What the last published site was made of; None where nobody knows."""
    try:
        kept = json.loads(bytes_in(content.parent / NAME))
        if kept["form"] != _FORM:
            return None
        site = Path(os.path.normpath(content.parent / kept["site"]))
        day = datetime.date.fromisoformat(kept["day"])
        files = {str(name): str(text) for name, text in kept["files"].items() if Path(name).name == name}
        jobs = {str(job): {str(k): str(v) for k, v in keys.items()} for job, keys in kept["jobs"].items()}
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return None
    return Published(site, day, files, jobs)


def keys_of(job: Path) -> dict[str, str]:
    """A short hash of what stands under each key of a job, without comments; nothing of a file that is not there."""
    pieces = _KEY.split(bytes_of(job).decode("utf-8-sig", "replace").replace("\r\n", "\n"))
    return {key: _hash(said) for key, said in zip(pieces[1::2], pieces[2::2], strict=True)}


def _hash(said: str) -> str:
    lines = (line.rstrip() for line in said.split("\n") if line.strip() and not line.lstrip().startswith("#"))
    return hashlib.sha256("\n".join(lines).encode()).hexdigest()[:12]


def kept_folder(site: Path) -> Path:
    """Where the sites before a site are kept, each in a folder named by the day on which it was published."""
    return site.with_name(f".{site.name}.kept")


def kept_sites(site: Path) -> list[Path]:
    """The sites before a site, the oldest first."""
    folder = kept_folder(site)
    found = [path for path in (folder.iterdir() if folder.is_dir() else ()) if _DATED.fullmatch(path.name)]
    return sorted((path for path in found if path.is_dir() and not path.is_symlink()), key=_age)


def _age(kept: Path) -> tuple[str, int]:
    number = _DATED.fullmatch(kept.name)
    return kept.name[: len("2027-05-12")], int(number[1] or 1) if number else 0


def sheets_of(site: Path) -> Iterator[tuple[str, Path]]:
    """The sheets of a published site by job; their explanations are pages of their own."""
    for path in sorted((site / "sheets").glob("*.html")):
        if "--" not in path.stem:
            yield path.stem, path


def job_file(content: Path, job: str) -> Path:
    """Where the record of a job is."""
    return content / JOBS.name / f"{job}.yml"
