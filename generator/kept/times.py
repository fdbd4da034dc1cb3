"""What finished jobs teach, from times that were kept: an archive is then read, and not planned again.

Only the latest times of each artist and technique count, so that older jobs are not even read for them.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from types import MappingProxyType

from generator.diagnostics import Report
from generator.kept.folder import Folder, Rows
from generator.kept.keys import Base, times_key
from generator.planning.timing.learning import NOTHING, Learned, Timed, learn_of, times_of
from generator.press.sheet.stored import NotAsStored, from_stored, to_stored
from generator.progress import counted
from generator.records.families import Records
from generator.records.reading import Reading, job_files, read_job

_NAME = "times"


def learn_from_kept(
    folder: Folder, base: Base, content: Path, reading: Reading, artist: str = "", found: Rows = MappingProxyType({})
) -> tuple[Learned, Report]:
    """What `learn_from` answers. found: the rows of jobs whose plans were made in this run."""
    if reading.records is None:
        return NOTHING, ()
    before = folder.rows(_NAME)
    rows: dict[str, tuple[str, object]] = {}
    learned = learn_of(reading.records, _times({**before, **found}, rows, base, content, reading, artist))
    folder.keep_rows(_NAME, {**before, **rows} if artist else rows, before)
    return learned


def _times(
    before: Rows, rows: dict[str, tuple[str, object]], base: Base, content: Path, reading: Reading, artist: str
) -> Iterator[Timed]:
    assert reading.records is not None
    latest = _Latest(reading.records, artist)
    for day, path in counted(_latest_first(content), "finished jobs looked at"):
        text = _bytes(path)
        if not latest.may_come_from(text, day):
            continue
        key = times_key(base, text)
        kept_key, stored = before.get(path.stem, ("", None))
        times = _stored(stored) if key == kept_key else None
        if times is None:
            # What is made and what is kept is read in the same way, so that both are told by the same words.
            stored = to_stored(_made(path, reading))
            times = from_stored(tuple[Timed, ...], stored)
        rows[path.stem] = (key, stored)
        for timed in times:
            if artist in ("", timed.artist):
                latest.add(timed)
                yield timed


_DAY, _ANY_DAY = re.compile(r"\d{4}-\d{2}-\d{2}"), "9999-99-99"
_ID = re.compile(r"[\w-]+")


def _latest_first(content: Path) -> list[tuple[str, Path]]:
    """The files in which something is finished, each with a day after which it was not: the last that stands in it."""
    found = []
    for path in job_files(content):
        text = _bytes(path).decode("utf-8", "replace")
        if "finished" in text:
            # With a backslash a day can be written that does not look like one. Other digits than these sort behind.
            found.append((_ANY_DAY if "\\" in text else max(_DAY.findall(text), default=_ANY_DAY), path))
    return sorted(found, reverse=True)


def _bytes(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError:
        return b""  # reported when all jobs are read


class _Latest:
    """The days of the latest times of each artist and technique: so many count, and no more are looked for."""

    def __init__(self, records: Records, artist: str) -> None:
        self._number = records.studio.limits.learned_from
        people = [str(name) for name in records.people if artist in ("", name)]
        self._days: dict[tuple[str, str], list[str]] = {
            (person, str(technique)): [] for person in people for technique in records.techniques
        }

    def add(self, timed: Timed) -> None:
        days = self._days.setdefault((timed.artist, timed.technique), [])
        days.append(timed.on.isoformat())
        days.sort(reverse=True)

    def may_come_from(self, text: bytes, day: str) -> bool:
        """Whether a file whose job was finished on this day at the latest may hold a time that counts."""
        timed = text.partition(b"finished")[2].partition(b"worked")[2]
        people, techniques = (set(_ID.findall(of.decode("utf-8", "replace"))) for of in (text, timed))
        return day == _ANY_DAY or any(
            person in people and technique in techniques
            for (person, technique), days in self._days.items()
            if len(days) < self._number or day >= days[self._number - 1]
        )


def _stored(stored: object) -> tuple[Timed, ...] | None:
    try:
        return from_stored(tuple[Timed, ...], stored)
    except NotAsStored:
        return None


def _made(path: Path, reading: Reading) -> tuple[Timed, ...]:
    job = read_job(path, reading.known).job
    return () if job is None or reading.records is None else tuple(times_of(reading.records, job))
