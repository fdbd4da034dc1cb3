"""A second Python process that makes jobs beside the first one, where there are many and a processor for it.

The two talk through pipes, in the form in which Python keeps its own values. The process is started by its parent,
reads the same records and tells by their hash; when it ends early or reads other ones, the parent does what is left.
"""

from __future__ import annotations

import contextlib
import datetime
import gc
import json
import os
import pickle
import queue
import subprocess
import sys
import threading
from collections import deque
from collections.abc import Iterator
from pathlib import Path
from typing import IO, Any, NamedTuple

from generator.dates import AsOf
from generator.kept.keys import Base, base_of
from generator.kept.made import MadeFrom, Run, made_of, to_bytes
from generator.planning.each_job import diary_of
from generator.planning.supplies.restock import JobNeeds
from generator.planning.timing.learning import NOTHING, Learned, Timed
from generator.press.words.regional import in_region
from generator.records.reading import read_records

# From so many jobs on the second process is done sooner than its start takes; so many it takes at a time.
_FROM, _AT_A_TIME = 80, 4
_CODE = "import json, sys; sys.path[:] = json.loads(sys.argv[1]); from generator.kept.second import work; work()"


class Task(NamedTuple):
    """A job to be made: its file, the keys that it and its times are kept under, and the hash of what it is made of."""

    path: Path
    key: str
    times_key: str
    was: str


class Beginning(NamedTuple):
    """What the second process begins with. made_of: the hash of program and records."""

    content: Path
    day: tuple[datetime.date, str, datetime.date]
    pages: bool
    made_of: str

    @classmethod
    def of(cls, run: Run, base: Base) -> Beginning:
        day = run.reading.as_of
        plain = datetime.date(day.year, day.month, day.day)
        return cls(run.content, (plain, day.set_by, day.clock), run.pages, base.made_of)


class JobDone(NamedTuple):
    """A job that is done, as it is kept, and what leaves with it."""

    task: Task
    made: bytes
    needs: JobNeeds | None
    times: tuple[Timed, ...] | None


class Second:
    """The second process, or none yet. It is started when there is enough to do."""

    def __init__(self, start: Beginning) -> None:
        self._start = start
        self._process: subprocess.Popen[bytes] | None = None
        self._rounds: queue.SimpleQueue[tuple[Learned, deque[Task]] | None] = queue.SimpleQueue()
        self._answers: queue.SimpleQueue[JobDone | None] = queue.SimpleQueue()
        self._at_work = False

    def begin(self, learned: Learned, waiting: deque[Task]) -> None:
        """Let it take jobs from the end of those that wait. learned: what they are made with."""
        if self._process is None and len(waiting) >= _FROM and _processors() > 1:
            self._process = _started()
            if self._process is not None:
                threading.Thread(target=self._feed, args=(self._process,), daemon=True).start()
        if self._process is not None:
            self._at_work = True
            self._rounds.put((learned, waiting))

    def answers(self, wait: bool) -> Iterator[JobDone]:
        """What is done; all there will be where nothing else is to be done meanwhile."""
        while self._at_work:
            try:
                found = self._answers.get(block=wait)
            except queue.Empty:
                return
            if found is None:
                self._at_work = False
            else:
                yield found

    def stop(self) -> None:
        """End the process, whatever it does."""
        if self._process is not None:
            self._rounds.put(None)
            self._process.kill()
            self._process.wait()

    def _feed(self, process: subprocess.Popen[bytes]) -> None:
        there = _sent(process, self._start)
        for learned, waiting in iter(self._rounds.get, None):
            # What it took and could not do goes back.
            there = there and _sent(process, learned) and self._round(process, waiting)
            self._answers.put(None)

    def _round(self, process: subprocess.Popen[bytes], waiting: deque[Task]) -> bool:
        assert process.stdout is not None
        taken: list[Task] = []
        try:
            while True:
                with contextlib.suppress(IndexError):
                    while len(taken) < _AT_A_TIME:
                        taken.append(waiting.pop())
                if not taken:
                    return True
                if not _sent(process, [task.path for task in taken]):
                    break
                for made in pickle.load(process.stdout):
                    self._answers.put(JobDone(taken.pop(0), *made))
        except (OSError, EOFError, pickle.PickleError, ValueError):
            pass
        waiting.extend(taken)
        return False


def _sent(process: subprocess.Popen[bytes], what: object) -> bool:
    """Whether the process could be told."""
    assert process.stdin is not None
    try:
        pickle.dump(what, process.stdin)
        process.stdin.flush()
    except (OSError, ValueError):
        return False
    return True


@contextlib.contextmanager
def second_process(start: Beginning) -> Iterator[Second]:
    """A second process that takes some of the jobs; it ends with the block."""
    second = Second(start)
    try:
        yield second
    finally:
        second.stop()


def _started() -> subprocess.Popen[bytes] | None:
    with contextlib.suppress(OSError):
        return subprocess.Popen(
            [sys.executable, "-c", _CODE, json.dumps(sys.path)],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
        )
    return None


def _processors() -> int:
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


def work() -> None:
    """What the second process does until nothing more comes."""
    asked, answered = sys.stdin.buffer, sys.stdout.buffer
    start: Beginning = pickle.load(asked)
    reading = read_records(start.content, AsOf.of(*start.day))
    if reading.records is None or base_of(start.content, reading).made_of != start.made_of:
        return
    run, said = Run(start.content, reading, start.pages), in_region(reading.records)
    all_from = MadeFrom(run, NOTHING, diary_of(start.content, reading, NOTHING))
    gc.freeze()  # what is there stays to the end: nobody has to look through it again
    while (told := _next(asked)) is not None:
        if not isinstance(told, list):
            all_from = MadeFrom(run, told, diary_of(start.content, reading, told, all_from.diary))
            continue
        made = [made_of(path, all_from, said) for path in told]
        pickle.dump([(to_bytes(each), each.needs, each.times) for each in made], answered)
        answered.flush()


def _next(asked: IO[bytes]) -> Any:
    try:
        return pickle.load(asked)
    except EOFError:
        return None
