"""What was found about a job, and what that means for going ahead.

The verdict is the worst of all findings. What nobody answered counts as the worst it could turn out to be, so
that taking an answer away never makes a verdict more permissive; it is then called unsettled, and its state is “ask
first”.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal, NamedTuple

from generator.origins import Origin, origin_of
from generator.planning.findings.states import AT_LEVEL, NOT_WORKED, State
from generator.records.families import JOBS
from generator.records.studio import Studio

Level = Literal["note", "care", "wait", "doctor", "not here"]
RANK: dict[str, int] = {"note": 0, "care": 1, "wait": 2, "doctor": 3, "not here": 4}


class Said(NamedTuple):
    """Reason and remedy as they are printed."""

    reason: str
    remedy: str


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing found. `reason` and `remedy` are fit for the sheet: no cause of a scar, no health answer.

    about: the record or the part of the job it is about; by: the field or the record that found it, with its source;
    asks: whether it stands for an answer that is missing, and looked_up: the studio finds it without the client;
    until: the first day on which to look again, for a wait.
    """

    level: Level
    reason: str
    remedy: str
    about: str
    by: Origin
    asks: bool = False
    until: datetime.date | None = None
    looked_up: bool = False

    @property
    def rule(self) -> str:
        """The path of what found it."""
        return self.by.path

    @property
    def source(self) -> str:
        """The id of the source that it rests on."""
        return self.by.source


@dataclass(frozen=True, slots=True)
class About:
    """What a finding is about: a key of the job, or a record, value or origin; and by which of these it is found.

    Each kind of finding is a method that takes its reason and its remedy. here: the studio, where it decided that
    itself, and no source of the record says so.
    """

    what: object
    by: object
    here: Studio | None = None

    def note(self, reason: str, remedy: str) -> Finding:
        return self.at("note", reason, remedy)

    def care(self, reason: str, remedy: str) -> Finding:
        return self.at("care", reason, remedy)

    def wait(self, reason: str, remedy: str, until: datetime.date | None = None) -> Finding:
        return self.at("wait", reason, remedy, until)

    def ask(self, reason: str, remedy: str, level: Level = "wait") -> Finding:
        """An answer that only the client can give; level: what it could lead to."""
        return self.at(level, reason, remedy, asks=True)

    def look_up(self, reason: str, remedy: str, level: Level = "wait") -> Finding:
        """An answer that the studio finds without the client."""
        return self.at(level, reason, remedy, asks=True, looked_up=True)

    def look_up_unless_care(self, level: Level, reason: str, remedy: str) -> Finding:
        """The same where the studio's rule waits for it; where it asks only for care, nobody has to answer."""
        return self.care(reason, remedy) if level == "care" else self.look_up(reason, remedy, level)

    def at(
        self,
        level: Level,
        reason: str,
        remedy: str,
        until: datetime.date | None = None,
        asks: bool = False,
        looked_up: bool = False,
    ) -> Finding:
        """A finding of any level, such as a record says."""
        by = origin_of(self.by)
        by = by if self.here is None else by.resting_on(self.here.source)
        keys = origin_of(self.what).keys
        key = self.what if isinstance(self.what, str) else ""
        about = ".".join(map(str, keys[2:] if keys[:1] == (JOBS.name,) else keys)) or key
        return Finding(level, reason, remedy, about, by, asks, until, looked_up)


def level_of(word: str) -> Level:
    """A level as a record says it; its field lets no other word in."""
    return word  # type: ignore[return-value]


def worst_of(levels: Iterable[str], default: Level = "wait") -> Level:
    """The worst of some levels; what nobody has a rule for waits."""
    return level_of(max(levels, key=lambda level: RANK[level], default=default))


@dataclass(frozen=True, slots=True)
class Verdict:
    """May it go ahead? `settled` is False while the level rests on something that nobody answered.

    asked: whether the client was asked the screening questions. questions: how many findings wait for an answer;
    of_client: whether the client has to give one of them. not_worked: the state of a job that is not worked on its day,
    whatever was found; empty for every other.
    """

    level: Literal["clear", "care", "wait", "doctor", "not here"]
    settled: bool
    until: datetime.date | None
    asked: bool = True
    questions: int = 0
    of_client: bool = False
    not_worked: str = ""

    @property
    def goes_ahead(self) -> bool:
        return not self.not_worked and self.level in ("clear", "care")

    @property
    def answers_open(self) -> bool:
        """Whether it goes ahead once an answer is there, whatever else is known to want care."""
        return self.goes_ahead and self.questions > 0

    @property
    def state(self) -> State:
        """The state of a job that is not finished."""
        if self.not_worked:
            return NOT_WORKED[self.not_worked]
        if self.settled or self.goes_ahead:
            # What could only mean care, such as a girth that nobody taped, is mended at the chair.
            return AT_LEVEL[self.level]
        return State.ASK if self.asked else State.NOT_ASKED

    @property
    def heading(self) -> str:
        """The state as it is printed, with the number of questions or the day."""
        state = self.state
        number = "one question" if self.questions == 1 else f"{self.questions} questions"
        if self.answers_open:
            return f"{state.printed}: {number} open, ask first"
        if state is State.ASK:
            look = "look it up" if self.questions == 1 else "look them up"
            return f"{state.printed}: {number} open, {'ask the client' if self.of_client else look}"
        if state is State.WAIT:
            return f"{state.printed} {self.until.isoformat() if self.until else 'it is cleared'}"
        return state.printed

    @property
    def meaning(self) -> str:
        """What to do, and what the heading does not say."""
        return _OPEN_WITH_CARE if self.answers_open else _MEANING[self.state]


_OPEN_WITH_CARE = "Get every answer before the first line. Keep to the points below, and look at the skin today."
_MEANING = {
    State.NOT_ASKED: "Ask the client all questions of the screening. Do not start before the answers are on file.",
    State.ASK: "Do not start before every answer is on file.",
    State.WAIT: "Do not start yet. A date alone clears nothing: look at the skin again on the day.",
    State.DOCTOR: "Do not start before a doctor who knows the client has answered in writing.",
    State.NOT_HERE: "This studio does not do this piece.",
    State.CARE: "Nothing on file forbids it. Keep to the points below, and look at the skin today.",
    State.CLEAR: "Nothing on file against it. Look at the skin today.",
    State.CANCELLED: "Lay nothing out for it, and work from no paper of it.",
    State.POSTPONED: "Lay nothing out for it, and work from no paper of it. Agree on a new day, and print again.",
    State.NO_SHOW: "The client did not come. Work from no paper of it.",
}


def verdict_of(findings: Iterable[Finding], asked: bool = True) -> Verdict:
    """The worst of the findings. `asked`: whether a screening of the client is on file."""
    found = list(findings)
    worst = max((RANK[f.level] for f in found), default=0)
    if worst == 0:
        return Verdict("clear", True, None, asked)
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
    open_questions = {(f.about, f.rule): f for f in found if f.asks}.values()
    of_client = any(not f.looked_up for f in open_questions)
    return Verdict(level, settled, until, asked, len(open_questions), of_client)
