"""When Python looks for values that only lead to each other: between two jobs, and not while one is made.

While a job is made all of it is needed, and looking through it again and again is a tenth of the work. What stays of
one that is done stays to the end, and is looked through once.
"""

from __future__ import annotations

import gc
from collections.abc import Callable, Iterator
from contextlib import contextmanager

# So many jobs leave less than a megabyte, and cost less to look through together.
_JOBS = 10


@contextmanager
def frozen() -> Iterator[None]:
    """What is there when the block begins is not looked through before its end."""
    gc.freeze()
    try:
        yield
    finally:
        gc.unfreeze()


@contextmanager
def between_jobs() -> Iterator[Callable[[], None]]:
    """Nothing is looked through in the block but at calls of the function that it gives, one after each job."""
    was, done = gc.isenabled(), 0

    def one_done() -> None:
        nonlocal done
        done += 1
        if done % _JOBS == 0:
            gc.collect()
            gc.freeze()

    gc.disable()
    try:
        with frozen():
            yield one_done
    finally:
        if was:
            gc.enable()
