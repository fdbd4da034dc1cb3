"""The one place where any fault is caught, so that no traceback reaches a user."""

from __future__ import annotations

import sys
import tempfile
import traceback
from collections.abc import Callable, Iterator
from contextlib import contextmanager

INTERNAL = 3


@contextmanager
def handed_over(told: Callable[[Exception], bool]) -> Iterator[None]:
    """Hand over what fails to whom it is told; where they know nothing about it, it is raised."""
    try:
        yield
    except Exception as error:
        if not told(error):
            raise


@contextmanager
def no_traceback(but: type[Exception] | tuple[()] = ()) -> Iterator[None]:
    """Say that the fault is ours and leave with status 3. Whatever a person wrote never gets here.

    What is in `but` is no fault of ours and is raised.
    """

    def told(error: Exception) -> bool:
        if isinstance(error, but):
            return False
        sys.stderr.write(
            f"internal error: {type(error).__name__}: {error}\n"
            "This is a fault of the program, not of your records. Nothing was changed.\n"
            f"{_where_it_is_written(error)}\n"
        )
        raise SystemExit(INTERNAL) from None

    with handed_over(told):
        yield


def _where_it_is_written(error: Exception) -> str:
    """Write the traceback into a file that its owner alone can read, because it may hold words of a record."""
    try:
        with tempfile.NamedTemporaryFile(
            "w", encoding="utf-8", errors="backslashreplace", prefix="handbook-fault-", suffix=".txt", delete=False
        ) as file:
            file.write("".join(traceback.format_exception(error)))
    except OSError as full:
        return f"Where it happened could not be written to a file: {full.strerror}."
    return f"Where it happened is written in {file.name}; send it to whoever looks after the program."
