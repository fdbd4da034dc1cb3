"""The one date that a run is made for.

It is decided once: what the run was told (`--as-of`, or `as_of` of the plugin), else SOURCE_DATE_EPOCH, else `as_of` of
studio.yml, else today. What is set by any of the three is the same on every day, so that the same content and the same
date give the same bytes; whether it is today is then no question that a page could answer.
"""

from __future__ import annotations

import datetime
import os


class AsOf(datetime.date):
    """The day that counts as today. set_by: what set it, in words; empty where it is the clock's own day.

    clock: the day of the clock when the run began.
    """

    set_by: str
    clock: datetime.date

    @classmethod
    def of(cls, day: datetime.date, set_by: str, clock: datetime.date) -> AsOf:
        made = cls(day.year, day.month, day.day)
        made.set_by, made.clock = set_by, clock
        return made

    def __reduce__(self) -> tuple[object, ...]:
        """What another process makes it of again; a plain date would leave what set it behind."""
        return AsOf.of, (datetime.date(self.year, self.month, self.day), self.set_by, self.clock)


def as_of(told: datetime.date | None = None, told_by: str = "`--as-of`") -> AsOf:
    """The day a run was told, else SOURCE_DATE_EPOCH, else the clock's day, over which studio.yml goes."""
    clock = clock_day()
    if told is not None:
        return AsOf.of(told, told_by, clock)
    if (epoch := seconds_of_the_build()) is not None:
        return AsOf.of(datetime.datetime.fromtimestamp(epoch, datetime.UTC).date(), "SOURCE_DATE_EPOCH", clock)
    return clock


def seconds_of_the_build() -> int | None:
    """SOURCE_DATE_EPOCH in seconds; None where there is none, or where it is no date."""
    epoch = os.environ.get("SOURCE_DATE_EPOCH", "")
    return int(epoch) if epoch.isascii() and epoch.isdigit() and len(epoch) < 12 else None


def clock_day() -> AsOf:
    """Today, which nothing has set."""
    today = datetime.date.today()
    return AsOf.of(today, "", today)


def or_as_the_studio_says(run: AsOf, studio: datetime.date | None) -> AsOf:
    """The day of the run, for which studio.yml may set another one where nothing else did."""
    if run.set_by or studio is None:
        return run
    return AsOf.of(studio, "`as_of` in studio.yml", run.clock)


def set_date(day: datetime.date) -> str:
    """The sentence that a page says of a day that was set; nothing where it is the clock's own."""
    was_set = isinstance(day, AsOf) and day.set_by
    return f"This is as of {in_words(day)}, a date that was set. It may not be today." if was_set else ""


def not_today(day: AsOf) -> str:
    """The sentence that a command says where the day that counts as today is another one; nothing where it is not."""
    return f"This is as of {in_words(day)}, not today. {day.set_by} sets it." if day != day.clock else ""


def in_words(day: datetime.date) -> str:
    """A day as people say it, such as 12 May 2027."""
    return f"{day.day} {day:%B %Y}"
