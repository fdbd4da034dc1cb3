"""The end of a person's, a thing's or a text's time here. What is over is kept, because old jobs name it."""

import datetime
from typing import Annotated

from pydantic import Field

from generator.records.days import Date, Day
from generator.records.fields import Choice
from generator.records.record import Record

LEFT, RETIRED, USED_UP, RECALLED = REASONS = ("left", "retired", "used up", "recalled")


class Ended(Record):
    """Since when it is not here any more, and why."""

    on: Annotated[Date, Day()] = Field(description="the last day; of what is recalled the first day without it")
    why: Annotated[str, Choice(REASONS)] = Field(description="why it ended")


def not_here(until: Ended) -> str:
    """That something has ended, when and why, to be read behind its name."""
    since = "from" if until.why == RECALLED else "after"
    return f"not here {since} {until.on.isoformat()} ({until.why})"


def is_over(until: Ended | None, on: datetime.date) -> bool:
    """Whether something's time is over on this day; what has no end goes on."""
    return until is not None and (on >= until.on if until.why == RECALLED else on > until.on)
