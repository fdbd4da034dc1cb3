"""A second Python process that makes jobs beside the first one, where there are many and a processor for it.

The two talk through pipes, in the form in which Python keeps its own values. Where a process can be copied, the second
one is a copy of the first, with all that it has read and imported. Elsewhere it is started anew, reads the same records
and tells by their hash. When it ends early or reads other ones, the first one does what is left.
"""

from __future__ import annotations

import contextlib
import json
import os
import pickle
import queue
import signal
import subprocess
import sys
import threading
import warnings
from collections import deque
from collections.abc import Collection, Iterator, Sequence
from pathlib import Path
from typing import IO, NamedTuple

from generator.dates import AsOf
from generator.kept.between_jobs import between_jobs
from generator.kept.keys import Base, base_of
from generator.kept.made import MadeFrom, Run, as_bytes, made_of
from generator.planning.each_job import diary_of
from generator.planning.timing.learning import NOTHING, Learned, Timed
from generator.press.words.regional import in_region
from generator.records.reading import read_records

# From so many jobs on the second process is done sooner than its start takes; so many it takes at a time.
_FROM, _AT_A_TIME = 80, 4
_CODE = "import json, sys; sys.path[:] = json.loads(sys.argv[1]); from generator.kept.second import work; work()"


class Task(NamedTuple):
    """A job to be made: its file, and the keys that it and its times are kept under.

    seen: how the files stood on the disk that the key is made of (`DaysBeside.on_disk`).
    """

    path: Path
    key: str
    times_key: str
    seen: tuple[int | None, ...]


class Beginning(NamedTuple):
    """What the second process begins with. made_of: the hash of program and records."""

    content: Path
    day: AsOf
    pages: bool
    made_of: str


class JobDone(NamedTuple):
    """A job that is done: its facts as they are kept, its pages, and the times that leave with it."""

    task: Task
    facts: bytes
    pages: Sequence[bytes]
    times: tuple[Timed, ...] | None


class Second:
    """The second process, or none yet. It is started when there is enough to do."""

    def __init__(self, run: Run, base: Base) -> None:
        self._run, self._base = run, base
        self._process: subprocess.Popen[bytes] | _Copy | None = None
        self._thread: threading.Thread | None = None
        self._rounds: queue.SimpleQueue[tuple[Learned, deque[Task]] | None] = queue.SimpleQueue()
        self._answers: queue.SimpleQueue[JobDone | None] = queue.SimpleQueue()
        self.at_work = False

    def begin(self, learned: Learned, waiting: deque[Task]) -> None:
        """Let it take jobs from the end of those that wait. learned: what they are made with."""
        if self._process is None and len(waiting) >= _FROM and _processors() > 1:
            self._process = _copied(self._run) if _copies() else _started(self._run, self._base)
            if self._process is not None:
                self._thread = threading.Thread(target=self._feed, args=(self._process,), daemon=True)
                self._thread.start()
        if self._process is not None:
            self.at_work = True
            self._rounds.put((learned, waiting))

    def answers(self, wait: bool) -> Iterator[JobDone]:
        """What is done; all there will be where nothing else is to be done meanwhile."""
        while self.at_work:
            try:
                found = self._answers.get(block=wait)
            except queue.Empty:
                return
            if found is None:
                self.at_work = False
            else:
                yield found

    def close(self) -> None:
        """End the process, whatever it does."""
        if self._process is not None and self._thread is not None:
            self._rounds.put(None)
            self._process.kill()
            self._process.wait()
            self._thread.join()

    def _feed(self, process: subprocess.Popen[bytes] | _Copy) -> None:
        there = True
        for learned, waiting in iter(self._rounds.get, None):
            # What it took and could not do goes back.
            there = there and _sent(process, learned) and self._round(process, waiting)
            self._answers.put(None)

    def _round(self, process: subprocess.Popen[bytes] | _Copy, waiting: deque[Task]) -> bool:
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


def _sent(process: subprocess.Popen[bytes] | _Copy, what: object) -> bool:
    """Whether the process could be told."""
    assert process.stdin is not None
    try:
        pickle.dump(what, process.stdin)
        process.stdin.flush()
    except (OSError, ValueError):
        return False
    return True


def _started(run: Run, base: Base) -> subprocess.Popen[bytes] | None:
    with contextlib.suppress(OSError):
        process = subprocess.Popen(
            [sys.executable, "-c", _CODE, json.dumps(sys.path)],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
        )
        _sent(process, Beginning(run.content, run.reading.as_of, run.pages, base.made_of))
        return process
    return None


def _copies() -> bool:
    """Whether this process can be copied: what other threads do would stand still in the middle in a copy."""
    return sys.platform == "linux" and threading.active_count() == 1


class _Copy:
    """A copy of this process that makes jobs, used like a process that was started."""

    def __init__(self, number: int, stdin: IO[bytes], stdout: IO[bytes]) -> None:
        self._number, self.stdin, self.stdout = number, stdin, stdout

    def kill(self) -> None:
        os.kill(self._number, signal.SIGKILL)

    def wait(self) -> None:
        os.waitpid(self._number, 0)


def _copied(run: Run) -> _Copy | None:
    asked, answered = os.pipe(), os.pipe()
    with warnings.catch_warnings():
        # Newer versions of Python warn of the threads that libraries keep for sums with many numbers, and do not use.
        warnings.simplefilter("ignore", DeprecationWarning)
        number = os.fork()
    if number == 0:
        try:
            _let_go_of_files({asked[0], answered[1]})
            _make(os.fdopen(asked[0], "rb"), os.fdopen(answered[1], "wb"), run)
        finally:
            os._exit(0)  # nothing of what the first process does at its end is done in the copy, whatever happened
    os.close(asked[0])
    os.close(answered[1])
    return _Copy(number, os.fdopen(asked[1], "wb"), os.fdopen(answered[0], "rb"))


def _let_go_of_files(but: Collection[int]) -> None:
    """What the first process holds open, such as the lock of its site, is held open by that one alone."""
    nothing = os.open(os.devnull, os.O_RDWR)
    for number in map(int, os.listdir("/proc/self/fd")):
        if number not in but:
            os.dup2(nothing, number)


def _processors() -> int:
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


def work() -> None:
    """What the second process does until nothing more comes."""
    asked, answered = sys.stdin.buffer, sys.stdout.buffer
    start: Beginning = pickle.load(asked)
    reading = read_records(start.content, start.day)
    if reading.records is None or base_of(start.content, reading).made_of != start.made_of:
        return
    _make(asked, answered, Run(start.content, reading, start.pages))


def _make(asked: IO[bytes], answered: IO[bytes], run: Run) -> None:
    content, reading, _ = run
    assert reading.records is not None
    said = in_region(reading.records)
    all_from = MadeFrom(run, NOTHING, diary_of(content, reading, NOTHING))
    with between_jobs() as one_done:
        while (told := _next(asked)) is not None:
            if not isinstance(told, list):
                all_from = MadeFrom(run, told, diary_of(content, reading, told, all_from.diary))
                continue
            done = []
            for path in told:
                made = made_of(path, all_from, said)
                done.append((as_bytes(made.facts), made.pages, made.times))
                one_done()
            pickle.dump(done, answered)
            answered.flush()


def _next(asked: IO[bytes]) -> list[Path] | Learned | None:
    told: list[Path] | Learned | None = None
    with contextlib.suppress(EOFError):
        told = pickle.load(asked)
    return told
