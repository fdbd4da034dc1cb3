"""A studio's own hook that failed: at which line of its file, and what happened there."""

from __future__ import annotations

import linecache
import os
import sysconfig
import traceback
from pathlib import Path

from generator.diagnostics import Diagnostic, Place

# What the builder runs a hook with: when its file is read, and at an event.
_BEGINS = {"_load_hook", "run_event"}
_INSTALLED = (str(Path(__file__).parent), *(sysconfig.get_path(name) for name in ("stdlib", "purelib", "platlib")))


def failed_hook(error: Exception) -> Diagnostic | None:
    """What is to be said where a hook failed; None for what failed elsewhere, and for what the builder says itself."""
    if any(kind.__module__ == "mkdocs.exceptions" for kind in type(error).__mro__):
        return None
    frames = traceback.extract_tb(error.__traceback__)
    begun = [number for number, frame in enumerate(frames) if frame.name in _BEGINS and "mkdocs" in frame.filename]
    if not begun:
        return None
    inside = [frame for frame in frames[begun[-1] + 1 :] if not frame.filename.startswith("<frozen ")]
    if not inside and isinstance(error, SyntaxError) and error.filename:  # nothing of the file has been run yet
        place = _place(error.filename, error.lineno, (error.offset or 1) - 1, None)
        return _says(error, error.msg, place, error.text or "")
    if not inside or inside[0].filename.startswith(_INSTALLED):
        return None
    at = [frame for frame in inside if frame.filename == inside[0].filename][-1]
    line = linecache.getline(at.filename, at.lineno or 1)
    begins, ends = (None if byte is None else _characters(line, byte) for byte in (at.colno, at.end_colno))
    place = _place(at.filename, at.lineno, begins or 0, ends if at.end_lineno == at.lineno else None)
    return _says(error, str(error), place, line)


def _characters(line: str, byte: int) -> int:
    return len(line.encode()[:byte].decode(errors="replace"))


def _place(file: str, line: int | None, begins: int, ends: int | None) -> Place:
    return Place(os.path.relpath(file), line or 1, begins + 1, (ends or begins + 1) + 1)


def _says(error: Exception, why: str, place: Place, line: str) -> Diagnostic:
    return Diagnostic(
        "F834",
        place,
        found=f"`{line.strip()}`",
        expected="a hook that comes to its end",
        help="mend the hook, or take its file out of `hooks` in mkdocs.yml",
        says=f"this hook failed with {type(error).__name__}{f': {why}' if why else ''}",
    )
