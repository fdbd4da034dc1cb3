"""A second Python process that makes jobs beside the first one, where there are many and a processor for it.

The two talk through pipes, in the form in which Python keeps its own values. The process is started by its parent,
reads the same records and tells by their hash; when it ends early or reads other ones, the parent does what is left.
"""

from __future__ import annotations

import contextlib
import datetime
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
from generator.kept.made import MadeFrom, made_of, to_bytes
from generator.planning.each_job import diary_of
from generator.planning.supplies.restock import JobNeeds
from generator.planning.timing.learning import Learned
from generator.press.words.regional import in_region
from generator.records.reading import read_records

# From so many jobs on the second process is done sooner than its start takes; so many it takes at a time.
_FROM, _AT_A_TIME = 80, 4
_CODE = "import json, sys; sys.path[:] = json.loads(sys.argv[1]); from generator.kept.second import work; work()"


class Task(NamedTuple):
    """A job to be made: its file, the key it is kept under, and the bytes it is made of."""

    path: Path
    key: str
    was: tuple[bytes, bytes]


class Beginning(NamedTuple):
    """What the second process begins with. made_of: the hash of program and records."""

    content: Path
    day: tuple[datetime.date, str, datetime.date]
    learned: Learned
    pages: bool
    made_of: str

    @classmethod
    def of(cls, all_from: MadeFrom, base: Base) -> Beginning:
        day = all_from.reading.as_of
        plain = datetime.date(day.year, day.month, day.day)
        return cls(all_from.content, (plain, day.set_by, day.clock), all_from.learned, all_from.pages, base.made_of)


Answer = tuple[Task, bytes, JobNeeds | None]


class Second:
    """The second process, or none."""

    def __init__(self, process: subprocess.Popen[bytes] | None, start: Beginning, waiting: deque[Task]) -> None:
        self._answers: queue.SimpleQueue[Answer | None] = queue.SimpleQueue()
        self._ended = process is None
        self._process = process
        if process is not None:
            threading.Thread(target=self._feed, args=(process, start, waiting), daemon=True).start()

    def answers(self, wait: bool) -> Iterator[Answer]:
        """What is done; all there will be where nothing else is to be done meanwhile."""
        while not self._ended:
            try:
                found = self._answers.get(block=wait)
            except queue.Empty:
                return
            if found is None:
                self._ended = True
            else:
                yield found

    def stop(self) -> None:
        """End the process, whatever it does."""
        if self._process is not None:
            self._process.kill()
            self._process.wait()

    def _feed(self, process: subprocess.Popen[bytes], start: Beginning, waiting: deque[Task]) -> None:
        taken: list[Task] = []
        try:
            assert process.stdin is not None and process.stdout is not None
            pickle.dump(start, process.stdin)
            while True:
                with contextlib.suppress(IndexError):
                    while len(taken) < _AT_A_TIME:
                        taken.append(waiting.pop())
                if not taken:
                    break
                pickle.dump([task.path for task in taken], process.stdin)
                process.stdin.flush()
                for made, needs in pickle.load(process.stdout):
                    self._answers.put((taken.pop(0), made, needs))
        except (OSError, EOFError, pickle.PickleError, ValueError):
            waiting.extend(taken)
        finally:
            self._answers.put(None)


@contextlib.contextmanager
def second_process(start: Beginning, waiting: deque[Task]) -> Iterator[Second]:
    """A second process that takes jobs from the end of those that wait; it ends with the block."""
    second = Second(_started() if len(waiting) >= _FROM and _processors() > 1 else None, start, waiting)
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
    said = in_region(reading.records)
    diary = diary_of(start.content, reading, start.learned)
    all_from = MadeFrom(start.content, reading, start.learned, start.pages, diary)
    while (paths := _next(asked)) is not None:
        made = [made_of(path, all_from, said) for path in paths]
        pickle.dump([(to_bytes(each), each.needs) for each in made], answered)
        answered.flush()


def _next(asked: IO[bytes]) -> Any:
    try:
        return pickle.load(asked)
    except EOFError:
        return None
