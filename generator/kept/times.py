"""What finished jobs teach, from times that were kept: an archive is then read, and not planned again.

Only the latest times of each artist and technique count, so that older jobs are not even read for them. A job rests on
the pace of its own steps alone, and on that of others on its day.
"""

from __future__ import annotations

import datetime
import re
from collections.abc import Collection, Iterable, Iterator, Mapping
from pathlib import Path
from types import MappingProxyType

from generator.diagnostics import Report
from generator.kept.folder import Folder, Rows
from generator.kept.keys import Base, base_of, times_key
from generator.planning.each_job import Diary, ReadyJob, dated_files, paces_of, spelled_otherwise
from generator.planning.timing.learning import NOTHING, Learned, Pace, Timed, learn_of, times_of
from generator.press.sheet.stored import NotAsStored, from_stored, to_stored
from generator.progress import counted
from generator.records.families import Records
from generator.records.reading import JobTexts, Reading, read_job


def around_a_job(
    content: Path, reading: Reading, ready: ReadyJob, finished_before: datetime.date | None = None
) -> tuple[Learned, Diary]:
    """What finished jobs teach about the steps of a job, and about those of its day; and the day.

    finished_before: what of the job's own steps only what was finished by then may teach.
    """
    return around_a_day(content, reading, None if ready.job is None else ready.job.date, ready, finished_before)


def around_a_day(
    content: Path,
    reading: Reading,
    day: datetime.date | None,
    ready: ReadyJob | None = None,
    finished_before: datetime.date | None = None,
) -> tuple[Learned, Diary]:
    """The same for all jobs of a day. ready: the one of them that is asked about.

    Each file is looked through once. Nothing is learned while there are mistakes in the records.
    """
    texts = dict(JobTexts(content))
    diary = Diary(dated_files(texts, day), reading, NOTHING)
    records = reading.records
    if records is None or day is None:
        return NOTHING, diary
    folder, base = Folder(content), base_of(content, reading)
    before, rows = folder.times(), _Rows()

    def learned(jobs: Iterable[ReadyJob], texts: Mapping[Path, bytes], by: datetime.date | None = None) -> Learned:
        latest = _Latest(records, paces_of(records, jobs), by)
        return learn_of(records, _times(before, rows, base, texts, reading, latest))[0]

    own = of_the_day = learned(diary.together(day, ready), texts)
    if ready is not None and finished_before is not None:
        others = {path: text for path, text in texts.items() if path != ready.read.path}
        own = learned([ready], others, finished_before)
    folder.keep_times({**before, **rows}, before)
    return own, diary.at_pace(of_the_day)


def learn_from_kept(
    folder: Folder, base: Base, content: Path, reading: Reading, found: Rows = MappingProxyType({})
) -> tuple[Learned, Report]:
    """What all finished jobs of a folder teach, and the paces that they put in doubt.

    found: the rows of jobs whose plans were made in this run.
    """
    records = reading.records
    if records is None:
        return NOTHING, ()
    before, rows = folder.times(), _Rows()
    learned = learn_of(
        records, _times({**before, **found}, rows, base, JobTexts(content), reading, _Latest(records, _all(records)))
    )
    folder.keep_times(rows, before)
    return learned


def learn_from_texts(
    records: Records, reading: Reading, texts: Mapping[Path, bytes], paces: Iterable[Pace] | None = None
) -> Learned:
    """What the jobs of some files would teach with some records; nothing of that is kept.

    paces: those that are asked for; all where None.
    """
    reading, asked = reading._replace(records=records), _all(records) if paces is None else paces
    return learn_of(records, _times({}, {}, Base("", ""), texts, reading, _Latest(records, asked)))[0]


def _all(records: Records) -> Iterator[Pace]:
    return ((str(artist), str(technique)) for artist in records.people for technique in records.techniques)


_Rows = dict[str, tuple[str, object]]


def _times(
    before: Rows, rows: _Rows, base: Base, texts: Mapping[Path, bytes], reading: Reading, latest: _Latest
) -> Iterator[Timed]:
    """The times that count, with the rows in which they are kept."""
    for day, path in counted(_latest_first(texts, latest.artists), "finished jobs looked at"):
        text = texts[path]
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
        yield from filter(latest.added, times)


# A day of the years that a record may have, but not that on which something expires, which can be years later. Where
# only days before 2000 stand, it may be any.
_DAY, _ANY_DAY = re.compile(rb"2[01]\d\d-\d\d-\d\d(?<!expires: .{10})", re.DOTALL), b"9999-99-99"


def _word(name: str) -> re.Pattern[bytes]:
    """A name as a word of its own; what is before it is looked at last, which is quicker."""
    word = re.escape(name).encode()
    return re.compile(rb"%b(?<![\w-]%b)(?![\w-])" % (word, word))


def _latest_first(texts: Mapping[Path, bytes], artists: Collection[re.Pattern[bytes]]) -> list[tuple[bytes, Path]]:
    """The files in which something of the artists is finished, each with a day after which it was not: the last that
    stands in it behind this word.
    """
    found = []
    for path, text in texts.items():
        at = text.find(b"finished")
        if at < 0:
            continue
        if spelled_otherwise(text):
            found.append((_ANY_DAY, path))
        elif any(artist.search(text) for artist in artists):
            found.append((max(_DAY.findall(text, at), default=_ANY_DAY), path))
    return sorted(found, reverse=True)


class _Latest:
    """The days of the latest times of each pace that is asked for: so many count, and no more are looked for.

    by: times of that day and later ones do not count.
    """

    def __init__(self, records: Records, paces: Iterable[Pace], by: datetime.date | None = None) -> None:
        self._number, self._by = records.studio.limits.learned_from, by
        self._days: dict[Pace, list[bytes]] = {pace: [] for pace in paces}
        self._words = {name: _word(name) for pace in self._days for name in pace}
        self.artists = {self._words[artist] for artist, _ in self._days}

    def added(self, timed: Timed) -> bool:
        """Whether a time counts; its day is noted then."""
        days = self._days.get((timed.artist, timed.technique))
        if days is None or (self._by is not None and timed.on >= self._by):
            return False
        days.append(timed.on.isoformat().encode())
        days.sort(reverse=True)
        return True

    def may_come_from(self, text: bytes, day: bytes) -> bool:
        """Whether a file whose job was finished on this day at the latest may hold a time that counts."""
        if day == _ANY_DAY:
            return True
        timed = text.find(b"worked", text.find(b"finished"))
        return timed >= 0 and any(
            self._words[technique].search(text, timed) and self._words[artist].search(text)
            for (artist, technique), days in self._days.items()
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
