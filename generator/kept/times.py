"""What finished jobs teach, from times that were kept: an archive is then read, and not planned again."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from types import MappingProxyType

from generator.diagnostics import Report
from generator.kept.folder import Folder, Rows
from generator.kept.keys import Base, times_key
from generator.planning.timing.learning import NOTHING, Learned, Timed, learn_of, times_of
from generator.press.sheet.stored import NotAsStored, from_stored, to_stored
from generator.progress import counted
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
    for path in counted(job_files(content), "finished jobs looked at"):
        try:
            text = path.read_bytes()
        except OSError:
            continue  # reported when all jobs are read
        # A file without these words is not read for it.
        if b"finished" not in text or artist.encode() not in text:
            continue
        key = times_key(base, text)
        kept_key, stored = before.get(path.stem, ("", None))
        times = _stored(stored) if key == kept_key else None
        if times is None:
            # What is made and what is kept is read in the same way, so that both are told by the same words.
            stored = to_stored(_made(path, reading))
            times = from_stored(tuple[Timed, ...], stored)
        rows[path.stem] = (key, stored)
        yield from (timed for timed in times if artist in ("", timed.artist))


def _stored(stored: object) -> tuple[Timed, ...] | None:
    try:
        return from_stored(tuple[Timed, ...], stored)
    except NotAsStored:
        return None


def _made(path: Path, reading: Reading) -> tuple[Timed, ...]:
    job = read_job(path, reading.known).job
    return () if job is None or reading.records is None else tuple(times_of(reading.records, job))
