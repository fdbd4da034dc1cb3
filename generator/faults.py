"""The one place where a fault of the program itself is caught, so that no traceback reaches a user."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager

INTERNAL = 3


@contextmanager
def no_traceback(but: type[Exception] | tuple[()] = ()) -> Iterator[None]:
    """Say that the fault is ours and leave with status 3. Whatever a person wrote never gets here.

    What is in `but` is no fault of ours and is raised.
    """
    try:
        yield
    except but:
        raise
    except Exception as error:
        sys.stderr.write(
            f"internal error: {type(error).__name__}: {error}\n"
            "This is a fault of the program, not of your records. Nothing was changed.\n"
        )
        raise SystemExit(INTERNAL) from None
