"""From a number on a sheet to the line that says how it came about. On a screen only: paper shows the number alone."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

# What the appendix calls a pair of the sheet.
_PAIRS = {
    "Wraps": ("Where it sits", "angle round the limb"),
    "Stencil, drying": ("Timetable", "stencil"),
    "work": ("Timetable", "work, all steps of the sitting"),
    "breaks": ("Timetable", "breaks"),
    "end": ("Timetable", "whole visit"),
    "Touch-up, looked at between": ("Touch-up", "looked at between"),
    "Next sitting, at the earliest": ("Next sitting", "at the earliest"),
}


class NumberLinks(NamedTuple):
    """Where the lines stand: the file, empty for the same one, and the line of each number."""

    file: str
    lines: Mapping[tuple[str, str], int]

    def to(self, chapter: str, of: str) -> str:
        """The address of a line, empty where there is none."""
        number = self.lines.get((chapter, of))
        return f"{self.file}#number-{number}" if number else ""

    def to_pair(self, label: str) -> str:
        """The address of the line of a pair, empty for one that was not computed."""
        return self.to(*_PAIRS[label]) if label in _PAIRS else ""


NOWHERE = NumberLinks("", {})
