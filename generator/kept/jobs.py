"""All jobs of a build: kept ones are taken as they are, the others are made, on a second processor too where many are.

The second processor works in a process of its own (`second.py`), because a Python process computes with one. The order
in which jobs are made decides nothing: what comes out is by job, in the order of the files.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Collection, Iterable, Iterator, Sequence
from contextlib import closing
from pathlib import Path
from typing import NamedTuple

from generator.diagnostics import Report
from generator.kept.between_jobs import between_jobs
from generator.kept.folder import Folder, InFile
from generator.kept.keys import Base, DaysBeside, Paces, job_bytes, key_of, standing_for_themselves, times_key
from generator.kept.made import Facts, Made, MadeFrom, Run, as_bytes, from_bytes, made_of
from generator.kept.second import JobDone, Second, Task
from generator.kept.times import learn_from_kept
from generator.planning.each_job import diary_of
from generator.planning.timing.learning import NOTHING, Learned
from generator.press.sheet.stored import to_stored
from generator.press.words.regional import in_region
from generator.progress import counted, progress
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
    if reading.records is None:  # there are no plans then, and nothing is kept
        all_from = MadeFrom(run, NOTHING, diary)
        return AllMade(tuple(made_of(path, all_from, str).facts for path in counted(files, "jobs")), NOTHING, ())
    alone = standing_for_themselves(files, diary, reading.as_of)
    facts: dict[Path, Facts] = {}
    times: dict[str, tuple[str, object]] = {}

    def done(path: Path, made: Made) -> None:
        addresses = made.facts.addresses
        for address, page in zip(addresses, made.pages or [b""] * len(addresses), strict=True):
            keep(address, page)
        facts[path] = made.facts
        shown()
        one_done()

    def keyed(path: Path, days: DaysBeside, paces: Paces | None) -> tuple[str, bytes]:
        """The key of a job, and its text. paces: None for one that stands for itself."""
        was, beside = job_bytes(path), days.beside(path)
        rests_on = beside if paces is None else f"{paces.of(was[0])} {beside}"
        return key_of(base, was, rests_on), was[0]

    def waiting(some: Iterable[Path], paces: Paces | None) -> Iterator[Task]:
        """Those that are not kept."""
        days = DaysBeside(diary, paces or Paces(NOTHING))
        for path in some:
            seen = days.on_disk(path)
            key, text = keyed(path, days, paces)
            made = store.kept(path.stem, key)
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

    store = _Store(folder, run.pages)
    with progress(len(files), "jobs") as shown, between_jobs() as one_done, closing(Second(run, base)) as second:
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
    store.close([path.stem for path in files])
    return AllMade(tuple(facts[path] for path in files), learned, doubts)


class _Store:
    """The kept jobs, each with its pages where they are wanted."""

    def __init__(self, folder: Folder, pages: bool) -> None:
        self._folder, self._pages = folder, pages
        self._files: set[str] = set()

    def kept(self, job: str, key: str) -> Made | None:
        about, pages = self._folder.kept(job, key, self._pages) or (b"", [])
        facts = from_bytes(about)
        if facts is None or (self._pages and len(pages) != len(facts.addresses)):
            return None
        return self._with_files(facts, pages)

    def keep(self, done: JobDone, facts: Facts) -> Made:
        task = done.task
        pages = self._folder.keep(task.path.stem, task.key, done.facts, done.pages, self._pages)
        return self._with_files(facts, pages)._replace(times=done.times)

    def _with_files(self, facts: Facts, pages: Sequence[bytes]) -> Made:
        self._files.update(page.file.name for page in pages if isinstance(page, InFile))
        return Made(facts, pages)

    def close(self, jobs: Collection[str]) -> None:
        """Delete what is of no job, and older pages where the new ones were made."""
        self._folder.keep_only(jobs, self._files if self._pages else None)


def _made(
    store: _Store, second: Second, waiting: deque[Task], all_from: MadeFrom, is_still: Callable[[Task], bool]
) -> Iterator[tuple[Task, Made]]:
    """The jobs that were not kept, in the order in which they are done; they are kept now, where they still are so."""

    def kept(done: JobDone) -> tuple[Task, Made]:
        facts = from_bytes(done.facts)
        assert facts is not None, "what was just written can be read"
        # What was written meanwhile, this job or another of its day, may not be what this was made of.
        return done.task, store.keep(done, facts) if is_still(done.task) else Made(facts, done.pages)

    records = all_from.run.reading.records
    assert records is not None
    said = in_region(records)
    begun = False
    while True:
        yield from map(kept, second.answers(wait=not waiting))
        try:
            task = waiting.popleft()
        except IndexError:
            if not second.at_work:
                return
            continue  # what a second process took and could not do comes back
        own = made_of(task.path, all_from, said)
        yield kept(JobDone(task, as_bytes(own.facts), own.pages, own.times))
        if not begun:
            # All that is loaded and prepared for the first job is then in a copy of this process too.
            second.begin(all_from.learned, waiting)
            begun = True
