"""A sheet as data: everything that it says, formatted once; `contents` fills it in and `sides` divides it."""

from __future__ import annotations

from dataclasses import dataclass

from generator.planning.findings.states import NOT_WORKED, State
from generator.press.sheet.number_links import Explained, Labelled, Once
from generator.press.sheet.rows import OrderRow


@dataclass(frozen=True, slots=True)
class Reason:
    """One finding as it is printed; `sources` are numbers of the list on the back."""

    level: str
    reason: str
    remedy: str
    source: int


@dataclass(frozen=True, slots=True)
class Pause:
    """One pause point with its tick boxes; `point` is what its ticks are kept under, also on a second sheet.

    more: how many boxes of it are on a second sheet. may_tell: the boxes that may tell what the client answered.
    """

    title: str
    items: tuple[str, ...]
    point: str
    more: int = 0
    may_tell: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class SheetInk:
    """One ink with what is poured; `lots` are the bottles in date."""

    name: str
    swatch: str
    amount: str
    caps: str
    capped: bool
    lots: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """Everything that is printed, formatted. Steps, times, inks and tray are those of the sitting at hand.

    map_wide, map_tall: mm that the map takes on paper, and map_over: whether it takes the whole width, with the words
    below it; a phone has a map of its own. stamp: of the paper that was worked with, where the sheet is a record.
    """

    job: str
    studio: str
    paper: str
    title: str
    day: str
    head: tuple[Labelled, ...]
    verdict: str
    mark: str
    meaning: str
    goes_ahead: bool
    finished: bool
    reasons: tuple[Reason, ...]
    notes: tuple[Reason, ...]
    hands_off: tuple[Labelled, ...]
    map: str = ""
    map_wide: float = 0.0
    map_tall: float = 0.0
    map_over: bool = False
    map_on_phone: str = ""
    geometry: tuple[tuple[object, ...], ...]
    order: tuple[Labelled, ...]
    zones: tuple[Labelled, ...]
    marks: str
    rows: tuple[OrderRow, ...]
    sittings: tuple[Labelled, ...]
    times: tuple[Labelled, ...]
    stop_signs: tuple[str, ...]
    pauses: tuple[Pause, ...]
    more_to_tick: tuple[Pause, ...]
    inks: tuple[SheetInk, ...]
    tray: tuple[Labelled, ...]
    swaps: tuple[str, ...]
    write_down: tuple[str, ...]
    come_back: tuple[Labelled, ...]
    sources: tuple[str, ...]
    stamp: str = ""

    @property
    def not_worked(self) -> bool:
        """Whether nothing is worked on its day."""
        return State.of_mark(self.mark) in NOT_WORKED.values()

    @property
    def blanks(self) -> tuple[str, ...]:
        """What is filled in by hand; a sitting without a stencil asks for no time of one."""
        cleaned_only = (Explained.TIMETABLE, Once.CLEANING) in (time.line for time in self.times)
        return (*(() if cleaned_only else ("Stencil on",)), "First line", "End", "Aftercare given", "Initials")
