"""A row that is to be set up, and why it cannot be."""

from __future__ import annotations

from typing import NamedTuple

from generator.diagnostics import Diagnostic, Place
from generator.planning.computed import Computed
from generator.records.needles import Grouping, Technique
from generator.records.parts import Colour, Lines, Part


class Piece(NamedTuple):
    """A row that is to be set up: the work on a part, its technique and its grouping.

    share: how much of the area it is, where the row was split; places: which of it, in words. narrowest: the narrowest
    place of the area in mm, where one is known that its grouping has to fit.
    """

    part: Part
    work: Lines | Colour
    technique: Technique
    grouping: Grouping
    share: Computed | None = None
    places: str = ""
    narrowest: float | None = None

    @property
    def place(self) -> Place:
        own = self.work.ink if isinstance(self.work, Colour) else self.part.id
        return (self.work.needle or self.work.technique or own).place


class NoSetting(Exception):
    """The work cannot be set up as the records stand; carries the diagnostic."""

    def __init__(self, code: str, place: Place, *, found: str, expected: str, help: str, says: str = "") -> None:
        self.diagnostic = Diagnostic(code, place, found=found, expected=expected, help=help, says=says)
