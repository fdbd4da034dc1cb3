"""Mistakes as data: where, what was found, what was expected, how to mend it; and how they are shown.

Every room reports through here. Nothing is raised because of what a person wrote: each stage returns its
result and its report.
"""

from __future__ import annotations

import json
from collections.abc import Collection, Iterable
from dataclasses import dataclass, field
from pathlib import Path
from typing import NamedTuple

from generator.diagnostic_codes import CODES, LEVELS, Level
from generator.grouped import grouped
from generator.how_many import how_many


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
    """One mistake: what was found, what was expected, how to mend it; `note` says what the field is.

    All parts are given by name. says: the mistake in a few words, where it is another one than that the found is not
    the expected; short and lower-case. cause: what several mistakes have in common, such as an entry that is gone; they
    are shown as one. draft: whether it is about a job that is being written, so that it stops nothing.
    """

    code: str
    place: Place
    found: str = field(default="nothing", kw_only=True)
    expected: str = field(kw_only=True)
    help: str = field(kw_only=True)
    note: str = field(default="", kw_only=True)
    says: str = field(default="", kw_only=True)
    cause: str = field(default="", kw_only=True)
    draft: bool = field(default=False, kw_only=True)

    @property
    def message(self) -> str:
        """The mistake in one line."""
        return self.says or f"expected {self.expected}, found {self.found}"

    @property
    def level(self) -> Level:
        return "reminder" if self.draft else CODES[self.code].level


Report = tuple[Diagnostic, ...]

# More than these nobody reads at once, and most follow from the first ones.
MOST_SHOWN = 100
# Reviews to be done, of procedures and of families of records.
_REVIEWS = ("H721", "H723")
# Of a longer line the stretch round the mistake is shown.
_LONGEST_LINE = 200


def in_reading_order(report: Iterable[Diagnostic]) -> Report:
    """Sorted by file, line and column."""
    return tuple(sorted(report, key=lambda d: (d.place.file, d.place.line, d.place.column, d.code)))


def has_errors(report: Iterable[Diagnostic]) -> bool:
    """Whether anything in the report forbids publishing."""
    return any(d.level == "error" for d in report)


def stops_a_build(report: Report, strict: bool) -> bool:
    """Whether a site is not published over a report; strict: whether a warning stops it, too."""
    return has_errors(report) or (strict and any(d.level == "warning" for d in report))


def as_text(report: Iterable[Diagnostic], in_order: bool = False) -> str:
    """The report as a person reads it: the line with a caret, what was expected, note and help.

    A hundred at most, errors first. What the first line says already is not said again. in_order: whether all of it is
    shown, in the order in which it is given, because that says what matters first.
    """
    report = tuple(report)
    lines_of: dict[str, list[str]] = {}
    if in_order:
        return "\n\n".join(_one_as_text(d, lines_of) for d in report)
    # The mistakes that have a cause in common, in reading order.
    together = grouped((d.cause, d) for d in in_reading_order(report) if d.cause)
    heads = [d for d in report if not d.cause or together[d.cause][0] is d]
    texts = [
        _together_as_text(together[d.cause], lines_of)
        if len(together.get(d.cause, ())) > 1
        else _one_as_text(d, lines_of)
        for d in first_of(heads)
    ]
    return "\n\n".join(filter(None, (*texts, not_shown(heads))))


def _together_as_text(same: list[Diagnostic], lines_of: dict[str, list[str]]) -> str:
    """Several mistakes of one cause: how many places, each with its line, and how it is mended."""
    first = same[0]
    shown = [f"{first.place}: {first.level} {first.code}: {first.cause}: {len(same)} places"]
    for d in same:
        lines = lines_of.setdefault(d.place.file, _lines(Path(d.place.file)))
        line = lines[d.place.line - 1].strip() if 0 < d.place.line <= len(lines) else ""
        visible = "".join(c if c.isprintable() else " " for c in line[:_LONGEST_LINE])
        shown.append(f"  {d.place}: {visible}")
    shown.append(f"  expected: {first.expected}")
    shown += [f"  help: {help_}" for help_ in dict.fromkeys(d.help for d in same)]
    return "\n".join(shown)


def first_of(report: Iterable[Diagnostic]) -> Report:
    """The hundred that are shown, in reading order; no error gives way to a warning or a reminder.

    Of reminders those give way first that nothing ends with: a review that is still to be done.
    """
    ordered = in_reading_order(report)
    if len(ordered) <= MOST_SHOWN:
        return ordered
    return in_reading_order(sorted(ordered, key=lambda d: (LEVELS.index(d.level), d.code in _REVIEWS))[:MOST_SHOWN])


def not_shown(report: Collection[Diagnostic]) -> str:
    """How many are left out of what `first_of` shows, in words; nothing where none is."""
    more = len(report) - MOST_SHOWN
    return f"… and {more} more, not shown here; mend these first, then check again" if more > 0 else ""


def as_json(report: Iterable[Diagnostic], in_order: bool = False) -> str:
    """The whole report for a program; `in_order` as in `as_text`."""
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
            "cause": d.cause,
        }
        for d in (report if in_order else in_reading_order(report))
    ]
    return json.dumps(rows, ensure_ascii=False, indent=2)


def summary(report: Iterable[Diagnostic]) -> str:
    """How many mistakes there are, in words."""
    levels = [d.level for d in report]
    counted = f"{how_many(levels.count('error'), 'error')}, {how_many(levels.count('warning'), 'warning')}"
    reminders = levels.count("reminder")
    return f"{counted}, {how_many(reminders, 'reminder')}" if reminders else counted


def _one_as_text(d: Diagnostic, lines_of: dict[str, list[str]]) -> str:
    shown = [f"{d.place}: {d.level} {d.code}: {d.message}"]
    if d.place.file not in lines_of:
        lines_of[d.place.file] = _lines(Path(d.place.file))
    lines = lines_of[d.place.file]
    if 0 < d.place.line <= len(lines):
        line, before, width = _window(lines[d.place.line - 1], d.place)
        # A tab or a control character would move the caret away from what it points at.
        visible = "".join(c if c.isprintable() else " " for c in line)
        gutter = str(d.place.line)
        shown.append(f" {gutter} | {visible}")
        shown.append(f" {' ' * len(gutter)} | {' ' * before}{'^' * width}")
    if d.says:
        shown.append(f"  expected: {d.expected}")
    if d.note:
        shown.append(f"  note: {d.note}")
    shown.append(f"  help: {d.help}")
    return "\n".join(shown)


def _window(line: str, place: Place) -> tuple[str, int, int]:
    """The stretch of a line round a place, the characters before the caret in it, and the caret's width."""
    start = place.column - 1
    width = max(1, min(place.end, len(line) + 1) - place.column)
    if len(line) <= _LONGEST_LINE:
        return line, start, width
    first = max(0, min(start - _LONGEST_LINE // 3, len(line) - _LONGEST_LINE))
    cut = line[first : first + _LONGEST_LINE]
    begins, ends = "… " if first else "", " …" if first + len(cut) < len(line) else ""
    return begins + cut + ends, len(begins) + start - first, min(width, first + len(cut) - start)


def _lines(path: Path) -> list[str]:
    try:
        # At a pipe one would wait for ever, and a device has no end.
        return path.read_text("utf-8-sig", errors="replace").split("\n") if path.is_file() else []
    except OSError:
        return []
