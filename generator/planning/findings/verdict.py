"""What was found about a job, and what that means for going ahead.

The verdict is the worst of all findings. What nobody answered counts as the worst it could turn out to be, so
that taking an answer away never makes a verdict more permissive; it is then called unsettled, and the heading
says to ask.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from generator.origins import Origin

Level = Literal["note", "care", "wait", "doctor", "not here"]
RANK: dict[str, int] = {"note": 0, "care": 1, "wait": 2, "doctor": 3, "not here": 4}


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing found. `reason` and `remedy` are fit for the sheet: no cause of a scar, no health answer.

    about: the record or the part of the job it is about; by: the field or the record that found it, with its source;
    asks: whether it stands for an answer that is missing; until: the first day on which to look again, for a wait.
    """

    level: Level
    reason: str
    remedy: str
    about: str
    by: Origin
    asks: bool = False
    until: datetime.date | None = None

    @property
    def rule(self) -> str:
        """The path of what found it."""
        return self.by.path

    @property
    def source(self) -> str:
        """The id of the source that it rests on."""
        return self.by.source


@dataclass(frozen=True, slots=True)
class Verdict:
    """May it go ahead? `settled` is False while the level rests on something that nobody answered."""

    level: Literal["clear", "care", "wait", "doctor", "not here"]
    settled: bool
    until: datetime.date | None

    @property
    def goes_ahead(self) -> bool:
        return self.level in ("clear", "care")

    @property
    def heading(self) -> str:
        """The verdict as it is printed."""
        if not self.settled:
            worst = {"care": "go with care", "wait": "wait", "doctor": "ask a doctor first", "not here": "not here"}
            return f"Ask first — until answered: {worst[self.level]}"
        if self.level == "wait" and self.until:
            return f"Wait until {self.until.isoformat()}, then look again"
        return {
            "clear": "Clear to start",
            "care": "With care",
            "wait": "Wait",
            "doctor": "Ask a doctor first",
            "not here": "Not here",
        }[self.level]

    @property
    def meaning(self) -> str:
        """What the heading does and does not say."""
        if not self.settled:
            return (
                "An answer is missing. Get it before the first line, and look at the skin today."
                if self.goes_ahead
                else "An answer is missing. Nothing is started before it is on file."
            )
        return {
            "clear": "Nothing on file against it. Look at the skin today.",
            "care": "Nothing on file forbids it. Keep to the points below, and look at the skin today.",
            "wait": "Not on this day. A date alone clears nothing: the skin is looked at again.",
            "doctor": "A doctor who knows the client decides first, in writing.",
            "not here": "This studio does not do this piece.",
        }[self.level]


def verdict_of(findings: Iterable[Finding]) -> Verdict:
    """The worst of the findings."""
    found = list(findings)
    worst = max((RANK[f.level] for f in found), default=0)
    if worst == 0:
        return Verdict("clear", True, None)
    deciding = [f for f in found if RANK[f.level] == worst]
    level = deciding[0].level
    assert level != "note"
    until = None
    if level == "wait":
        dates = [f.until for f in deciding]
        until = None if None in dates else max(d for d in dates if d)
    settled = any(not f.asks for f in deciding)
    # A settled wait with a date does not answer an open question that could mean a longer one.
    if level == "wait" and any(f.asks for f in deciding) and all(f.until for f in deciding if not f.asks):
        settled = False
    return Verdict(level, settled, until)
