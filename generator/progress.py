"""How far a long run has come, on a terminal and nowhere else."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Collection, Iterator
from contextlib import contextmanager
from typing import TypeVar

_Item = TypeVar("_Item")
# Seconds: what takes less says nothing; then it is said so often.
_AFTER, _EVERY = 2.0, 0.2


@contextmanager
def progress(number: int, what: str) -> Iterator[Callable[[], None]]:
    """Call what it gives when one more is done. One line says how many are; it is written over, and gone at the end."""
    stream = sys.stderr
    done, width = 0, 0
    says_next = time.monotonic() + _AFTER

    def one_done() -> None:
        nonlocal done, width, says_next
        done += 1
        if stream.isatty() and time.monotonic() >= says_next:
            says_next = time.monotonic() + _EVERY
            text = f"{done} of {number} {what}"
            stream.write(f"\r{text.ljust(width)}")
            stream.flush()
            width = len(text)

    try:
        yield one_done
    finally:
        if width:
            stream.write(f"\r{' ' * width}\r")
            stream.flush()


def counted(items: Collection[_Item], what: str) -> Iterator[_Item]:
    """The items, counted on a terminal."""
    with progress(len(items), what) as one_done:
        for item in items:
            yield item
            one_done()
