"""A studio's own hook or plugin that failed: at which line of its file, or which one it is, and what happened there."""

from __future__ import annotations

import linecache
import os
import re
import sysconfig
import traceback
from collections.abc import Collection
from pathlib import Path

from generator.diagnostics import Diagnostic, Place

# What the builder runs a hook with: when its file is read, and at an event. A plugin it loads by its name.
_LOADS = "load_plugin"
# Of the builder and of its fork.
_EXCEPTIONS, _BUILDER = "docs.exceptions", "docs"
_BEGINS = {"_load_hook", "run_event", _LOADS}
_INSTALLED = (str(Path(__file__).parent), *(sysconfig.get_path(name) for name in ("stdlib", "purelib", "platlib")))


def failed_hook(error: Exception, settings: Path = Path("mkdocs.yml"), ours: Collection[str] = ()) -> Diagnostic | None:
    """What is to be said where a hook or a plugin failed; None for other faults, and for what the builder says itself.

    settings: where plugins are named. ours: those that come with the program.
    """
    if any(kind.__module__.endswith(_EXCEPTIONS) for kind in type(error).__mro__):
        return None
    walked = [(frame.f_locals, frame.f_code) for frame, _ in traceback.walk_tb(error.__traceback__)]
    frames = traceback.extract_tb(error.__traceback__)
    begun = [
        number for number, (_, code) in enumerate(walked) if code.co_name in _BEGINS and _BUILDER in code.co_filename
    ]
    if not begun:
        return None
    inside = [frame for frame in frames[begun[-1] + 1 :] if not frame.filename.startswith("<frozen ")]
    if not inside and isinstance(error, SyntaxError) and error.filename:  # nothing of the file has been run yet
        place = _place(error.filename, error.lineno, (error.offset or 1) - 1, None)
        return _says(error, error.msg, place, error.text or "")
    said, code = walked[begun[-1]]
    # By its method: which plugin is at work is another one by now, as all are told of a fault.
    at_work = getattr(said.get("self"), "_event_origins", {})
    plugin = said["name"] if code.co_name == _LOADS else at_work.get(said.get("method"))
    if plugin is not None and not plugin.endswith(".py"):
        return None if plugin.rpartition("/")[2] in ours else _plugin_says(error, plugin, settings)
    if not inside or inside[0].filename.startswith(_INSTALLED):
        return None
    at = [frame for frame in inside if frame.filename == inside[0].filename][-1]
    line = linecache.getline(at.filename, at.lineno or 1)
    begins, ends = (None if byte is None else _characters(line, byte) for byte in (at.colno, at.end_colno))
    place = _place(at.filename, at.lineno, begins or 0, ends if at.end_lineno == at.lineno else None)
    return _says(error, str(error), place, line)


def _plugin_says(error: Exception, plugin: str, settings: Path) -> Diagnostic:
    last = traceback.extract_tb(error.__traceback__)[-1]
    return Diagnostic(
        "F834",
        in_settings(settings, plugin),
        found=f"{_what(error, str(error))}, at line {last.lineno} of {last.filename}",
        expected="a plugin that comes to its end",
        help=f"mend what stands under `{plugin}` in {settings.name}, renew the plugin, or take it out of `plugins`",
        says=f"the plugin `{plugin}` failed with {_what(error, str(error))}",
    )


def in_settings(settings: Path, *words: str) -> Place:
    """The first place in mkdocs.yml, outside of its comments, where one of some words stands, the first word first."""
    try:
        lines = settings.read_text("utf-8-sig", "replace").split("\n")
    except OSError:
        lines = []
    for word in filter(None, words):
        for number, line in enumerate(lines, 1):
            written = "" if line.startswith("#") else line.partition("  #")[0]
            if match := re.search(rf"(?<![\w-]){re.escape(word)}(?![\w-])", written):
                return Place(str(settings), number, match.start() + 1, match.end() + 1)
    return Place(str(settings), 1, 1, 2)


def _what(error: Exception, why: str) -> str:
    return f"{type(error).__name__}{f': {why}' if why else ''}"


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
        says=f"this hook failed with {_what(error, why)}",
    )
