"""All jobs of a build: kept ones are taken as they are, the others are made, on a second processor too where many are.

The second processor works in a process of its own (`second.py`), because a Python process computes with one. The order
in which jobs are made decides nothing: what comes out is by job, in the order of the files.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import NamedTuple

from generator.kept.folder import Folder
from generator.kept.keys import Base, Paces, job_bytes, key_of
from generator.kept.made import Facts, Made, Page, from_bytes, made_of, to_bytes
from generator.kept.second import Start, Task, second_process
from generator.planning.supplies.restock import JobNeeds
from generator.planning.timing.learning import Learned
from generator.press.words.regional import in_region
from generator.progress import Progress
from generator.records.reading import Reading, job_files


class AllMade(NamedTuple):
    """What lists need of each job, in the order of the files, and what those take whose plans were made in this run."""

    facts: tuple[Facts, ...]
    needs: dict[str, JobNeeds]


def make_jobs(
    folder: Folder, base: Base, content: Path, reading: Reading, learned: Learned, write: Callable[[Page], None]
) -> AllMade:
    """Every job, its pages given to `write`."""
    files = job_files(content)
    shown = Progress(len(files), "jobs")
    facts: dict[Path, Facts] = {}
    needs: dict[str, JobNeeds] = {}

    def done(path: Path, made: Made) -> None:
        for page in made.pages:
            write(page)
        facts[path] = made.facts
        if made.needs is not None:
            needs[path.stem] = made.needs
        shown.step()

    try:
        waiting: deque[Task] = deque()
        paces = Paces(learned)
        for path in files:
            was = job_bytes(path)
            key = key_of("pages", base, was, paces.of(was))
            kept = None if reading.records is None else folder.pages_of(path.stem, key)
            made = None if kept is None else from_bytes(kept)
            if made is None:
                waiting.append(Task(path, key, was))
            else:
                done(path, made)
        for path, made in _made(folder, waiting, content, reading, learned):
            done(path, made)
    finally:
        shown.end()
    folder.keep_only([path.stem for path in files])
    return AllMade(tuple(facts[path] for path in files), needs)


def _made(
    folder: Folder, waiting: deque[Task], content: Path, reading: Reading, learned: Learned
) -> Iterator[tuple[Path, Made]]:
    """The jobs that were not kept, in the order in which they are done; they are kept now."""
    if reading.records is None:
        for task in waiting:
            yield task.path, made_of(task.path, content, reading, learned, str)
        return
    said = in_region(reading.records)
    with second_process(Start.of(content, reading, learned), waiting) as second:
        while True:
            for task, made, needs in second.answers(wait=not waiting):
                yield _kept(folder, task, made, needs)
            # What a second process took and could not do comes back.
            if not waiting:
                break
            task = waiting.popleft()
            own = made_of(task.path, content, reading, learned, said)
            yield _kept(folder, task, to_bytes(own), own.needs)


def _kept(folder: Folder, task: Task, made: bytes, needs: JobNeeds | None) -> tuple[Path, Made]:
    if job_bytes(task.path) == task.was:  # a file that was written meanwhile is not what this was made of
        folder.keep_pages(task.path.stem, task.key, made)
    read = from_bytes(made)
    assert read is not None, "what was just written can be read"
    return task.path, read._replace(needs=needs)
