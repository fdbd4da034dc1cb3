"""All jobs of a build: kept ones are taken as they are, the others are made, on a second processor too where many are.

The second processor works in a process of its own (`second.py`), because a Python process computes with one. The order
in which jobs are made decides nothing: what comes out is by job, in the order of the files.
"""

from __future__ import annotations

import json
from collections import deque
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import NamedTuple

from generator.kept.folder import Folder
from generator.kept.keys import Base, DaysBeside, Paces, job_bytes, key_of
from generator.kept.made import Facts, Made, MadeFrom, from_bytes, made_of, to_bytes
from generator.kept.second import Beginning, Task, second_process
from generator.planning.supplies.restock import JobNeeds
from generator.press.sheet.stored import NotAsStored, from_stored
from generator.press.words.regional import in_region
from generator.progress import Progress
from generator.records.reading import job_files


class AllMade(NamedTuple):
    """What lists need of each job, in the order of the files.

    takes: the jobs that take something from the shelf; needs: what those take whose plans were made in this run.
    """

    facts: tuple[Facts, ...]
    takes: frozenset[str]
    needs: dict[str, JobNeeds]


def make_jobs(folder: Folder, base: Base, all_from: MadeFrom, keep: Callable[[str, bytes], None]) -> AllMade:
    """Every job; keep: what is done with each page, which is empty where no pages are wanted."""
    files = job_files(all_from.content)
    shown = Progress(len(files), "jobs")
    facts: dict[Path, Facts] = {}
    needs: dict[str, JobNeeds] = {}

    def done(path: Path, made: Made) -> None:
        pages = {page.address: page.html for page in made.pages}
        for address in made.facts.addresses:
            keep(address, pages.get(address, b""))
        facts[path] = made.facts
        if made.needs is not None:
            needs[path.stem] = made.needs
        shown.step()

    store = _Pages(folder) if all_from.pages else _OnlyFacts(folder)
    try:
        waiting: deque[Task] = deque()
        paces = Paces(all_from.learned)
        days = DaysBeside(all_from.diary, paces)
        for path in files:
            was = job_bytes(path)
            key = key_of(store.name, base, was, f"{paces.of(was)} {days.beside(path)}")
            made = None if all_from.reading.records is None else store.kept(path.stem, key)
            if made is None:
                waiting.append(Task(path, key, was))
            else:
                done(path, made)
        for path, made in _made(store, waiting, base, all_from):
            done(path, made)
    finally:
        shown.end()
    if all_from.reading.records is not None:
        store.close()
        folder.keep_only([path.stem for path in files])
    in_order = tuple(facts[path] for path in files)
    return AllMade(in_order, frozenset(one.job for one in in_order if one.takes), needs)


class _Pages:
    """Jobs with their pages, each in a file of its own."""

    name = "pages"

    def __init__(self, folder: Folder) -> None:
        self._folder = folder

    def kept(self, job: str, key: str) -> Made | None:
        found = self._folder.pages_of(job, key)
        return None if found is None else from_bytes(found)

    def keep(self, job: str, key: str, made: bytes) -> None:
        self._folder.keep_pages(job, key, made)

    def close(self) -> None:
        """Nothing is left to be written."""


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

    def keep(self, job: str, key: str, made: bytes) -> None:
        self._rows[job] = (key, json.loads(made.partition(b"\n")[0])["facts"])

    def close(self) -> None:
        self._folder.keep_rows(self.name, self._rows, self._before)


def _made(
    store: _Pages | _OnlyFacts, waiting: deque[Task], base: Base, all_from: MadeFrom
) -> Iterator[tuple[Path, Made]]:
    """The jobs that were not kept, in the order in which they are done; they are kept now."""
    if all_from.reading.records is None:
        for task in waiting:
            yield task.path, made_of(task.path, all_from, str)
        return
    said = in_region(all_from.reading.records)
    with second_process(Beginning.of(all_from, base), waiting) as second:
        while True:
            for task, made, needs in second.answers(wait=not waiting):
                yield _kept(store, task, made, needs)
            # What a second process took and could not do comes back.
            if not waiting:
                break
            task = waiting.popleft()
            own = made_of(task.path, all_from, said)
            yield _kept(store, task, to_bytes(own), own.needs)


def _kept(store: _Pages | _OnlyFacts, task: Task, made: bytes, needs: JobNeeds | None) -> tuple[Path, Made]:
    if job_bytes(task.path) == task.was:  # a file that was written meanwhile is not what this was made of
        store.keep(task.path.stem, task.key, made)
    read = from_bytes(made)
    assert read is not None, "what was just written can be read"
    return task.path, read._replace(needs=needs)
