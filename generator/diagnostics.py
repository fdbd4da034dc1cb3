"""Mistakes as data: where, what was found, what was expected, how to mend it; and how they are shown.

Every room reports through here. Nothing is raised because of what a person wrote: each stage returns its
result and its report.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple

from generator.diagnostic_code import Level
from generator.diagnostic_codes import CODES


class Place(NamedTuple):
    """A stretch of one line. Lines and columns count from 1; `end` is the column after the last character."""

    file: str
    line: int
    column: int
    end: int

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"


@dataclass(frozen=True, slots=True)
class Diagnostic:
    """One mistake. `message` is short and lower-case, `note` says what the field is, `help` how to mend it."""

    code: str
    place: Place
    message: str
    found: str
    expected: str
    help: str
    note: str = ""

    @property
    def level(self) -> Level:
        return CODES[self.code].level


Report = tuple[Diagnostic, ...]


def in_reading_order(report: Iterable[Diagnostic]) -> Report:
    """Sorted by file, line and column."""
    return tuple(sorted(report, key=lambda d: (d.place.file, d.place.line, d.place.column, d.code)))


def has_errors(report: Iterable[Diagnostic]) -> bool:
    """Whether anything in the report forbids publishing."""
    return any(d.level == "error" for d in report)


def as_text(report: Iterable[Diagnostic]) -> str:
    """The report as a person reads it: the line with a caret, then note and help."""
    lines_of: dict[str, list[str]] = {}
    return "\n\n".join(_one_as_text(d, lines_of) for d in in_reading_order(report))


def as_json(report: Iterable[Diagnostic]) -> str:
    """The same report for a program."""
    rows = [
        {
            "file": d.place.file,
            "line": d.place.line,
            "column": d.place.column,
            "end_column": d.place.end,
            "level": d.level,
            "code": d.code,
            "message": d.message,
            "found": d.found,
            "expected": d.expected,
            "note": d.note,
            "help": d.help,
        }
        for d in in_reading_order(report)
    ]
    return json.dumps(rows, ensure_ascii=False, indent=2)


def summary(report: Iterable[Diagnostic]) -> str:
    """How many mistakes there are, in words."""
    levels = [d.level for d in report]
    told = f"{_counted(levels.count('error'), 'error')}, {_counted(levels.count('warning'), 'warning')}"
    reminders = levels.count("reminder")
    return f"{told}, {_counted(reminders, 'reminder')}" if reminders else told


def _one_as_text(d: Diagnostic, lines_of: dict[str, list[str]]) -> str:
    shown = [f"{d.place}: {d.level} {d.code}: {d.message}"]
    if d.place.file not in lines_of:
        lines_of[d.place.file] = _lines(Path(d.place.file))
    lines = lines_of[d.place.file]
    if 0 < d.place.line <= len(lines):
        line = lines[d.place.line - 1]
        # A tab or a control character would move the caret away from what it points at.
        visible = "".join(c if c.isprintable() else " " for c in line)
        width = max(1, min(d.place.end, len(line) + 1) - d.place.column)
        gutter = str(d.place.line)
        shown.append(f" {gutter} | {visible}")
        shown.append(f" {' ' * len(gutter)} | {' ' * (d.place.column - 1)}{'^' * width}")
    if d.note:
        shown.append(f"  note: {d.note}")
    shown.append(f"  help: {d.help}")
    return "\n".join(shown)


def _lines(path: Path) -> list[str]:
    try:
        return path.read_text("utf-8-sig", errors="replace").split("\n")
    except OSError:
        return []


def _counted(number: int, noun: str) -> str:
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"
