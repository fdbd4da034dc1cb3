"""From a number on a sheet to the line that says how it came about. On a screen only: paper shows the number alone."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from typing import NamedTuple


class Explained(Enum):
    """The chapters of the explanations, with their titles."""

    PLACE = "Where it sits"
    DIAL = "Dial"
    HANG_OUT = "Hang-out"
    SPACING = "Spacing of the punctures"
    PASSES = "Passes over one spot, at most"
    MINUTES = "Minutes"
    PLAIN = "Minutes by the plain estimate"
    TIMETABLE = "Timetable"
    INK = "Ink"
    CAPS = "Caps"
    TRAY = "Tray"
    NEXT_SITTING = "Next sitting"
    TOUCH_UP = "Touch-up"
    BENEATH = "What these rest on"


class Once(Enum):
    """A number that is once on a sheet, with what the explanations call it."""

    AREA = "area of the piece"
    WRAP = "angle round the limb"
    SEEN = "share seen at once"
    LOOKS = "width as seen from the front"
    STENCIL = "stencil"
    DRYING = "drying of the stencil"
    CLEANING = "shaving and cleaning the skin, without a stencil"
    WORKING = "work, all steps of the sitting"
    BREAKS = "breaks"
    WRAPPING = "final clean and wrap"
    CHAIR = "in the chair"
    WHOLE = "whole visit"
    SITTINGS = "sittings of the piece"
    PLAIN = "work by the plain estimate"
    NEXT_SITTING = "at the earliest"
    TOUCH_UP = "looked at between"


class OfStep(NamedTuple):
    """The step that a number belongs to."""

    number: str


# What a number is the number of: a step, something by its name, or itself.
Of = OfStep | Once | str


@dataclass(frozen=True, slots=True)
class Labelled:
    """A label and what is beside it; `line`: what is explained of it, where it was computed.

    may_tell: whether it may tell what the client answered.
    """

    label: str
    value: str
    line: tuple[Explained, Once] | None = None
    may_tell: bool = False


class NumberLinks(NamedTuple):
    """Where the lines stand: the file, empty for the same one, and the line of each number.

    lines: None for a sheet without explanations.
    """

    file: str
    lines: Mapping[tuple[Explained, Of], int] | None

    def to(self, chapter: Explained, of: Of) -> str:
        """The address of a line, empty without explanations. A KeyError for a number that no line explains."""
        return "" if self.lines is None else f"{self.file}#number-{self.lines[chapter, of]}"

    def to_step(self, chapter: Explained, number: str) -> str:
        """The address of the line of a number of a step."""
        return self.to(chapter, OfStep(number))

    def to_pair(self, pair: Labelled) -> str:
        """The address of the line of a pair, empty for one that was not computed."""
        return self.to(*pair.line) if pair.line else ""


NOWHERE = NumberLinks("", None)
