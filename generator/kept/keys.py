"""What a result is found by: a hash of everything that it is made of.

That is the job's file and its kept values, the records, the program with the versions of what it is made with, the day
that counts as today, what finished jobs teach about its artist's pace, and the other jobs of its day; nothing of the
last two for a job that stands for itself. A result that rests on less than it is found by is made anew more often than
it would have to be, and is never wrong.
"""

from __future__ import annotations

import datetime
import hashlib
import importlib.metadata
import os
import secrets
import sys
import time
from collections.abc import Iterable, Iterator
from functools import cache
from pathlib import Path
from typing import NamedTuple

from generator.planning.each_job import Diary
from generator.planning.timing.learning import Learned
from generator.press.lists.days import first_with_a_page
from generator.records.reading import Reading, files_digest, has_kept_values, worked_file
from generator.records.text_file import bytes_in

# What shapes a page or a reading, and is no part of the program. Those that are not there have no version.
_MADE_WITH = (
    "jinja2",
    "markupsafe",
    "pydantic",
    "pydantic-core",
    "pyyaml",
    "segno",
    "shapely",
    "coloraide",
    "python-dateutil",
)
_SOURCES = (".py", ".j2", ".css", ".js", ".svg", ".yml")


def digest(parts: Iterable[bytes]) -> str:
    """One hash of several parts, of which none can be taken for two."""
    made = hashlib.blake2b(digest_size=20)
    for part in parts:
        made.update(len(part).to_bytes(8, "big"))
        made.update(part)
    return made.hexdigest()


@cache
def program() -> str:
    """The program: each of its files, and what it is made with."""
    root = Path(__file__).parent.parent
    files = sorted(path for path in root.rglob("*") if path.suffix in _SOURCES)
    return digest(
        [sys.version.encode()]
        + [f"{name} {_version(name)}".encode() for name in _MADE_WITH]
        + [part for path in files for part in (path.relative_to(root).as_posix().encode(), path.read_bytes())]
    )


def _version(name: str) -> str:
    try:
        return importlib.metadata.version(name)
    except importlib.metadata.PackageNotFoundError:
        return ""


class Base(NamedTuple):
    """What is the same for all jobs of a run: the program with the records, and the day with what set it."""

    made_of: str
    day: str


def base_of(content: Path, reading: Reading) -> Base:
    """The part of each key that does not change from job to job.

    The records are their files and where they are, because a mistake names its file. Those that somebody saved while
    they were read may be some of before and some of after: what rests on them is found by nothing.
    """
    as_of, now = reading.as_of, files_digest(content)
    files = now if now == reading.files else secrets.token_hex()
    return Base(
        digest([program().encode(), str(content).encode(), files.encode()]), f"{as_of.isoformat()} {as_of.set_by}"
    )


def job_bytes(path: Path) -> tuple[bytes, bytes]:
    """A job's file and its kept values, each behind a sign that it is there."""
    return _found(path), _found(worked_file(path))


def _found(path: Path) -> bytes:
    try:
        return b"+" + bytes_in(path)
    except OSError as error:
        if isinstance(error, FileNotFoundError) and not path.is_symlink():
            return b"-"
        return secrets.token_bytes()  # why it cannot be read is said, and may be another reason next time


# Nanoseconds: the clock of a disk may stand still for so long, and what is written twice meanwhile shows only one time.
_TICK = 2_000_000_000


def on_disk(jobs: Iterable[Path]) -> int | None:
    """How the files of some jobs stand on the disk, as one number that is another one after they were written.

    None where one was written just now: written once more it might look the same.
    """
    now = time.time_ns()
    found: list[tuple[int, ...]] = []
    for path in jobs:
        for file in (path, worked_file(path)):
            try:
                at = os.stat(file)
            except OSError:
                found.append(())
                continue
            if now - max(at.st_mtime_ns, at.st_ctime_ns) < _TICK:
                return None
            found.append((at.st_ino, at.st_size, at.st_mtime_ns, at.st_ctime_ns))
    return hash(tuple(found))


def key_of(base: Base, job: tuple[bytes, bytes], pace: str) -> str:
    """The key of a job's pages, and of what is said about it.

    pace: of its artist, by `Paces`, and what else is on its day, by `DaysBeside`.
    """
    return digest([base.made_of.encode(), base.day.encode(), *job, pace.encode()])


def times_key(base: Base, job: bytes) -> str:
    """The key of the times of a finished job, which rest neither on the day nor on anybody's pace."""
    return digest([b"times", base.made_of.encode(), job])


def standing_for_themselves(files: Iterable[Path], diary: Diary, as_of: datetime.date) -> list[Path]:
    """The jobs that are kept as they were worked, with all others of their day, on a day that has no page any more.

    They rest on nobody's pace of today: what stood beside them on a day that is over took its plain estimate. Where a
    file does not say on which day its job is, nobody can tell. In order of their days.
    """
    worked = {path for path in files if has_kept_values(path)}
    with_a_page = first_with_a_page(as_of).isoformat()

    def over(path: Path) -> bool:
        days = diary.dated.get(path, ())
        return bool(days) and all(day < with_a_page and worked.issuperset(diary.files(day)) for day in days)

    return sorted(filter(over, worked), key=lambda path: (diary.dated[path], path))


class Paces:
    """The hash of what is known about the pace of the artists that a job's file names."""

    def __init__(self, learned: Learned) -> None:
        artists = dict.fromkeys(artist for artist, _ in learned)
        self._by = [(artist.encode(), _pace(learned, artist)) for artist in artists]

    def of(self, text: bytes) -> str:
        """Those that the text of a job's file names."""
        # With a backslash a name can be written that does not look like one.
        return " ".join(pace for artist, pace in self._by if artist in text or b"\\" in text)


class DaysBeside:
    """The hash of all jobs of a job's day, where there are others: what they want at once is said on each sheet."""

    def __init__(self, diary: Diary, paces: Paces) -> None:
        self._diary, self._paces = diary, paces
        self._of: dict[str, str] = {}
        self._on_disk: dict[str, int | None] = {}

    def on_disk(self, path: Path) -> tuple[int | None, ...]:
        """How the job and those of its days stand on the disk; of each day as it was before it was read."""
        days = self._diary.shared(path)
        return tuple(map(self._seen, days)) if days else (on_disk((path,)),)

    def _seen(self, day: str) -> int | None:
        if day not in self._on_disk:
            self._on_disk[day] = on_disk(self._diary.files(day))
        return self._on_disk[day]

    def beside(self, path: Path) -> str:
        """Nothing for a job that is alone on its day."""
        days = self._diary.shared(path)
        for day in days:
            if day not in self._of:
                self._seen(day)
                self._of[day] = digest(self._parts(day))
        return " ".join(self._of[day] for day in days)

    def _parts(self, day: str) -> Iterator[bytes]:
        for path in self._diary.files(day):
            text, kept = job_bytes(path)
            # What others take of the day rests on their pace also when they are finished.
            yield from (path.name.encode(), text, kept, self._paces.of(text).encode())


def _pace(learned: Learned, artist: str) -> str:
    """What is known about an artist's pace, with the jobs that it rests on, which are named beside it."""
    said = (
        repr((key, lesson.jobs, lesson.why_not, lesson.rate_in_doubt, None if f is None else (f.low, f.high)))
        for key, lesson in learned.items()
        for f in (lesson.factor,)
        if key[0] == artist
    )
    return digest([each.encode() for each in said])
