"""The states that a job can be in: one name for each, the same on plan, sheet, page and in data.

Lists, search and front page say less: a reason or a day beside a client's reference would tell of an answer.
"""

from __future__ import annotations

from enum import Enum


class State(Enum):
    """One state of a job; its value is its name.

    mark: one word for looks and styles. listed: what lists and search say of it.
    """

    NOT_ASKED = "not asked yet", "unasked", "not yet"
    ASK = "ask first", "ask", "not yet"
    WAIT = "wait until", "wait", "not yet"
    DOCTOR = "ask a doctor first", "doctor", "not yet"
    NOT_HERE = "not here", "no", "not yet"
    CARE = "with care", "care", "with care"
    CLEAR = "clear to start", "clear", "clear"
    FINISHED = "finished", "finished", "finished"
    CANCELLED = "cancelled", "cancelled", "cancelled"
    POSTPONED = "postponed", "postponed", "postponed"
    NO_SHOW = "no-show", "no-show", "no-show"

    mark: str
    listed: str

    def __new__(cls, name: str, mark: str, listed: str) -> State:
        """The value is the name alone."""
        made = object.__new__(cls)
        made._value_ = name
        made.mark, made.listed = mark, listed
        return made

    @classmethod
    def of_mark(cls, mark: str) -> State:
        """The state of a mark, such as `care`. Raises StopIteration where no state has it."""
        return next(state for state in cls if state.mark == mark)

    @property
    def printed(self) -> str:
        """Its name at the beginning of a line."""
        return str(self.value[0].upper() + self.value[1:])


# The states of a job that is not worked on its day, by their names.
NOT_WORKED = {state.value: state for state in (State.CANCELLED, State.POSTPONED, State.NO_SHOW)}

# What follows from a finding of each level, or from a rule that says so.
AT_LEVEL = {
    "clear": State.CLEAR,
    "care": State.CARE,
    "wait": State.WAIT,
    "doctor": State.DOCTOR,
    "not here": State.NOT_HERE,
}


def level_words(level: str) -> str:
    """A level as pages and sheets print it: a wait without its day, the others as the state that follows."""
    return "wait" if level == "wait" else AT_LEVEL[level].value
