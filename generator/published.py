"""What each site was made of that was built from some records, kept beside them: `.published.json`.

Published is what a build into the studio's own folder writes, and what `publish` writes; what `mkdocs build -d` writes
is noted too, so that a deletion looks there. A site itself has the sheets. What is kept here is the text of the
studio's records as it was then, so that a change of a sheet can be told by its record; and of each job a short hash of
each of its keys, so that no answer is kept twice.

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
_FORM = 2
_INDEX = "index.html"
_KEY = re.compile(r"(?m)^([a-z_]+):")
BEGUN = ".next"  # a copy that has no name yet, or that a killed run left
_DATED = re.compile(r"\d{4}-\d{2}-\d{2}(?:-(\d+))?")


class Published(NamedTuple):
    """A site that was built. files: text of each record file, by name. jobs: hash of each key, by job.

    counts: whether it is one that was published.
    """

    site: Path
    day: datetime.date
    files: Mapping[str, str]
    jobs: Mapping[str, Mapping[str, str]]
    counts: bool = True


def note_published(content: Path, site: Path, day: datetime.date, *, counts: bool = True) -> None:
    """Keep what a site was made of that has just taken its place. Raises OSError.

    counts: whether it is published by that; a place that was published before goes on to be.
    """
    before = built_sites(content)
    counts = counts or any(one.counts for one in before if _same(one.site, site))
    jobs = {path.stem: keys_of(path) for path in job_files(content)}
    made = Published(site, day, texts_of(content), jobs, counts)
    sites = [
        {**one._asdict(), "site": os.path.relpath(one.site, content.parent), "day": one.day.isoformat()}
        for one in (*(one for one in before if not _same(one.site, site)), made)
    ]
    kept = {"form": _FORM, "sites": sites}
    write_whole(content.parent / NAME, json.dumps(kept, ensure_ascii=False, separators=(",", ":")))


def _same(one: Path, other: Path) -> bool:
    return os.path.realpath(one) == os.path.realpath(other)


def texts_of(content: Path) -> dict[str, str]:
    """The text of each record file, by name."""
    files = sorted(family.file for family in ALL if family is not JOBS)
    return {file: raw.decode("utf-8-sig", "replace") for file in files if (raw := bytes_of(content / file))}


def built_sites(content: Path) -> tuple[Published, ...]:
    """The sites that were built from these records and are still there, the last one last."""
    found = []
    try:
        kept = json.loads(bytes_in(content.parent / NAME))
        for one in kept["sites"] if kept["form"] == _FORM else ():
            site = Path(os.path.normpath(content.parent / one["site"]))
            files = {str(name): str(text) for name, text in one["files"].items() if Path(name).name == name}
            jobs = {str(job): {str(k): str(v) for k, v in keys.items()} for job, keys in one["jobs"].items()}
            found.append(Published(site, datetime.date.fromisoformat(one["day"]), files, jobs, bool(one["counts"])))
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return ()
    return tuple(one for one in found if (one.site / _INDEX).is_file())


def last_published(content: Path) -> Published | None:
    """The last published site; None where nobody knows."""
    return next((one for one in reversed(built_sites(content)) if one.counts), None)


def published_at(content: Path, site: Path) -> Published | None:
    """The site that is there, with the records that it was made of where they are known; None for none."""
    if not (site / _INDEX).is_file():
        return None
    unknown = Published(site, datetime.date.fromtimestamp((site / _INDEX).stat().st_mtime), {}, {})
    return next((one for one in built_sites(content) if _same(one.site, site)), unknown)


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
