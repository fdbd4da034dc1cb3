"""All jobs of a build: kept ones are taken as they are, the others are made, on a second processor too where many are.

The second processor works in a process of its own (`second.py`), because a Python process computes with one. The order
in which jobs are made decides nothing: what comes out is by job, in the order of the files.
"""

from __future__ import annotations

import json
from collections import deque
from collections.abc import Callable, Collection, Iterable, Iterator, Sequence
from pathlib import Path
from typing import NamedTuple

from generator.diagnostics import Report
from generator.kept.between_jobs import between_jobs
from generator.kept.folder import Folder, InFile
from generator.kept.keys import Base, DaysBeside, Paces, job_bytes, key_of, standing_for_themselves, times_key
from generator.kept.made import Facts, Made, MadeFrom, Run, from_bytes, made_of, to_bytes
from generator.kept.second import Second, Task, second_process
from generator.kept.times import learn_from_kept
from generator.planning.each_job import diary_of
from generator.planning.timing.learning import NOTHING, Learned, Timed
from generator.press.sheet.stored import NotAsStored, from_stored, to_stored
from generator.press.words.regional import in_region
from generator.progress import Progress
from generator.records.reading import job_files


class AllMade(NamedTuple):
    """What lists need of each job, in the order of the files.

    learned: what the finished ones teach, and the paces that they put in doubt.
    """

    facts: tuple[Facts, ...]
    learned: Learned
    doubts: Report


def make_jobs(folder: Folder, base: Base, run: Run, keep: Callable[[str, bytes], None]) -> AllMade:
    """Every job; keep: what is done with each page, which is empty where no pages are wanted.

    Those that stand for themselves are made first: what they teach leaves with them, and the others rest on it.
    """
    content, reading, _ = run
    files = job_files(content)
    diary = diary_of(content, reading, NOTHING)
    alone = standing_for_themselves(files, diary, reading.as_of) if reading.records is not None else []
    shown = Progress(len(files), "jobs")
    facts: dict[Path, Facts] = {}
    times: dict[str, tuple[str, object]] = {}

    def done(path: Path, made: Made) -> None:
        pages = {page.address: page.html for page in made.pages}
        for address in made.facts.addresses:
            keep(address, pages.get(address, b""))
        facts[path] = made.facts
        shown.step()
        one_done()

    def keyed(path: Path, days: DaysBeside, paces: Paces | None) -> tuple[str, bytes]:
        """The key of a job, and its text. paces: None for one that stands for itself."""
        was, beside = job_bytes(path), days.beside(path)
        rests_on = beside if paces is None else f"{paces.of(was[0])} {beside}"
        return key_of(store.name, base, was, rests_on), was[0]

    def waiting(some: Iterable[Path], paces: Paces | None) -> Iterator[Task]:
        """Those that are not kept."""
        days = DaysBeside(diary, paces or Paces(NOTHING))
        for path in some:
            seen = days.on_disk(path)
            key, text = keyed(path, days, paces)
            made = None if reading.records is None else store.kept(path.stem, key)
            if made is None:
                yield Task(path, key, times_key(base, text[1:]), seen)
            else:
                done(path, made)

    def all_of(
        some: Iterable[Path], second: Second, paces: Paces | None, all_from: MadeFrom
    ) -> Iterator[tuple[Task, Made]]:
        """Those of some jobs that are not kept, made."""

        def is_still(task: Task) -> bool:
            """Whether nothing that a job rests on was written since its key was made."""
            days = DaysBeside(diary, paces or Paces(NOTHING))
            if None not in task.seen and task.seen == days.on_disk(task.path):
                return True
            return keyed(task.path, days, paces)[0] == task.key

        return _made(store, second, deque(waiting(some, paces)), all_from, is_still)

    store = _Pages(folder) if run.pages else _OnlyFacts(folder)
    try:
        with between_jobs() as one_done, second_process(run, base) as second:
            for task, made in all_of(alone, second, None, MadeFrom(run, NOTHING, diary)):
                done(task.path, made)
                if made.times is not None:
                    times[task.path.stem] = (task.times_key, to_stored(made.times))
            learned, doubts = learn_from_kept(folder, base, content, reading, found=times)
            times.clear()
            diary = diary_of(content, reading, learned, diary)
            paces = Paces(learned)
            # Jobs of one day are read together, and made while they are at hand.
            others = sorted((path for path in files if path not in facts), key=lambda path: diary.dated.get(path, ()))
            for task, made in all_of(others, second, paces, MadeFrom(run, learned, diary)):
                done(task.path, made)
    finally:
        shown.end()
    if reading.records is not None:
        store.close([path.stem for path in files])
    in_order = tuple(facts[path] for path in files)
    return AllMade(in_order, learned, doubts)


class _Pages:
    """Jobs with their pages, each in a file of its own."""

    name = "pages"

    def __init__(self, folder: Folder) -> None:
        self._folder = folder
        self._files: set[str] = set()

    def kept(self, job: str, key: str) -> Made | None:
        found = self._folder.pages_of(job, key)
        if found is None:
            return None
        about, pages = found
        made = from_bytes(b"\n".join((about, b"".join(pages))))
        return None if made is None else self._in_files(made, pages)

    def keep(self, job: str, key: str, made: bytes, read: Made) -> Made:
        about = made.partition(b"\n")[0]
        return self._in_files(read, self._folder.keep_pages(job, key, about, [page.html for page in read.pages]))

    def _in_files(self, made: Made, pages: Sequence[bytes]) -> Made:
        self._files.update(page.file.name for page in pages if isinstance(page, InFile))
        return made._replace(
            pages=tuple(page._replace(html=html) for page, html in zip(made.pages, pages, strict=True))
        )

    def close(self, jobs: Collection[str]) -> None:
        """Delete what is of no job, and older pages."""
        self._folder.keep_only(jobs, self._files)


class _OnlyFacts:
    """What a check asks of jobs: all in one file, because it is little."""

    name = "facts"

    def __init__(self, folder: Folder) -> None:
        self._folder, self._before = folder, folder.rows(self.name)
        self._rows: dict[str, tuple[str, object]] = {}

    def kept(self, job: str, key: str) -> Made | None:
        kept_key, stored = self._before.get(job, ("", None))
        if kept_key != key:
            return None
        try:
            made = Made(from_stored(Facts, stored))
        except NotAsStored:
            return None
        self._rows[job] = (key, stored)
        return made

    def keep(self, job: str, key: str, made: bytes, read: Made) -> Made:
        self._rows[job] = (key, json.loads(made.partition(b"\n")[0])["facts"])
        return read

    def close(self, jobs: Collection[str]) -> None:
        """Write the file, and delete what is of no job."""
        self._folder.keep_rows(self.name, self._rows, self._before)
        self._folder.keep_only(jobs)


def _made(
    store: _Pages | _OnlyFacts,
    second: Second,
    waiting: deque[Task],
    all_from: MadeFrom,
    is_still: Callable[[Task], bool],
) -> Iterator[tuple[Task, Made]]:
    """The jobs that were not kept, in the order in which they are done; they are kept now, where they still are so."""
    records = all_from.run.reading.records
    if records is None:
        for task in waiting:
            yield task, made_of(task.path, all_from, str)
        return
    said = in_region(records)
    begun = False
    while True:
        for task, made, times in second.answers(wait=not waiting):
            yield task, _kept(store, task, is_still(task), made, times)
        try:
            task = waiting.popleft()
        except IndexError:
            if not second.at_work:
                return
            continue  # what a second process took and could not do comes back
        own = made_of(task.path, all_from, said)
        yield task, _kept(store, task, is_still(task), to_bytes(own), own.times)
        if not begun:
            # All that is loaded and prepared for the first job is then in a copy of this process too.
            second.begin(all_from.learned, waiting)
            begun = True


def _kept(
    store: _Pages | _OnlyFacts,
    task: Task,
    still: bool,
    made: bytes,
    times: tuple[Timed, ...] | None,
) -> Made:
    read = from_bytes(made)
    assert read is not None, "what was just written can be read"
    if still:
        read = store.keep(task.path.stem, task.key, made, read)
    else:  # what was written meanwhile, this job or another of its day, may not be what this was made of
        times = None
    return read._replace(times=times)
