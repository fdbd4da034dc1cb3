"""How far a long run has come, on a terminal and nowhere else."""

from __future__ import annotations

import sys
import time
from collections.abc import Collection, Iterator
from typing import TextIO, TypeVar

_Item = TypeVar("_Item")
# Seconds: what takes less says nothing; then it is said so often.
_AFTER, _EVERY = 2.0, 0.2


class Progress:
    """How many of some things are done, as one line that is written over, and gone when all is done."""

    def __init__(self, number: int, what: str, stream: TextIO | None = None) -> None:
        self._number, self._what, self._done = number, what, 0
        self._stream = sys.stderr if stream is None else stream
        self._seen = self._stream.isatty()
        self._next = time.monotonic() + _AFTER
        self._width = 0

    def step(self) -> None:
        """One more is done."""
        self._done += 1
        if self._seen and time.monotonic() >= self._next:
            self._next = time.monotonic() + _EVERY
            self._write(f"{self._done} of {self._number} {self._what}")

    def end(self) -> None:
        """Nothing more comes: the line is taken away."""
        if self._width:
            self._write("")
            self._stream.write("\r")
            self._stream.flush()
            self._width = 0

    def _write(self, text: str) -> None:
        self._stream.write(f"\r{text.ljust(self._width)}")
        self._stream.flush()
        self._width = len(text)


def counted(items: Collection[_Item], what: str) -> Iterator[_Item]:
    """The items, counted on a terminal."""
    shown = Progress(len(items), what)
    try:
        for item in items:
            yield item
            shown.step()
    finally:
        shown.end()
