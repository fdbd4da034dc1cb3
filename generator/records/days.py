"""Days, months and hours as people write them. Nothing is guessed: 2027-02-30 is a mistake, not the 2nd of March."""

import calendar
import datetime
import re
from dataclasses import dataclass
from typing import NamedTuple

from pydantic_core import PydanticCustomError

from generator.diagnostics import Diagnostic, Place
from generator.origins import NOWHERE, Origin
from generator.records.kind import Example, Kind, parts_of
from generator.records.located import Text
from generator.records.noted import Carrying

UP_TO_TODAY = "up to today"
_EARLIEST, _LATEST = datetime.date(1900, 1, 1), datetime.date(2199, 12, 31)


class Date(Carrying, datetime.date):
    """A day that knows where it was written, and what had been done by then where it says so (`Day`)."""

    place: Place
    past: str = ""


@dataclass(frozen=True)
class Day(Kind[Date]):
    """A day of the calendar.

    past: what had been done by then, such as “it was opened”, where the day says so. A later day than the one that
    counts as today is then a mistake.
    """

    past: str = ""
    takes: str = "date"
    example = Example("2027-05-12")

    def read(self, text: Text) -> Date:
        if not re.fullmatch(r"\d{4}-\d{2}-\d{2}", text):
            raise self.wrong(
                "R311",
                text,
                expected="a date written as year-month-day",
                help_=f"write year-month-day with two digits for month and day, such as {self.example}",
            )
        year, month, day = (int(part) for part in text.split("-"))
        if not _EARLIEST.year <= year <= _LATEST.year:
            raise self.wrong(
                "R311", text, expected=f"a date from {_EARLIEST.year} to {_LATEST.year}", help_="mend the year"
            )
        if not (1 <= month <= 12 and 1 <= day <= calendar.monthrange(year, month)[1]):
            raise self.wrong(
                "R311",
                text,
                expected="a date that exists",
                help_=f"look at a calendar; the order is year-month-day, such as {self.example}",
            )
        read = Date(year, month, day)
        read.place, read.past = text.place, self.past
        return read

    def bounds(self) -> str:
        return UP_TO_TODAY if self.past else ""


def typed_day(text: str) -> Date | Diagnostic:
    """A day that was typed outside of the records, as they would read it, or what is wrong with it."""
    place = Place("", 1, 1, 2)
    try:
        return Day().read(Text.at(text, place))
    except PydanticCustomError as wrong:
        return parts_of(wrong).diagnostic(place)


class When(NamedTuple):
    """A stretch of days in which something happened: one day, a month or a year, or any day before one of them.

    day: its last day, the careful side for anything that heals; first: its first day, the first of the calendar
    where only the end is known. past: as of a `Day`.
    """

    day: datetime.date
    first: datetime.date
    place: Place | None = None
    origin: Origin = NOWHERE
    past: str = ""

    @property
    def open(self) -> bool:
        """Whether only the end is known, so that it may have been long before."""
        return self.first == datetime.date.min


_BEFORE = "before "


@dataclass(frozen=True)
class DayOrMonth(Kind[When]):
    """A day, or a month or a year when nobody remembers more; or `before` one of them. past: as of a `Day`."""

    past: str = ""
    takes: str = "date, month or year, or `before` one of them"
    example = Example("2026-03")

    def read(self, text: Text) -> When:
        if text.startswith(_BEFORE):
            end = self._stretch(Text.at(text.removeprefix(_BEFORE), text.place))
            return self._when(text, end.first - datetime.timedelta(days=1), datetime.date.min)
        return self._stretch(text)

    def _stretch(self, text: Text) -> When:
        if re.fullmatch(r"\d{4}", text) and _EARLIEST.year <= int(text) <= _LATEST.year:
            return self._when(text, datetime.date(int(text), 12, 31), datetime.date(int(text), 1, 1))
        if re.fullmatch(r"\d{4}-\d{2}", text):
            year, month = int(text[:4]), int(text[5:])
            if 1 <= month <= 12 and _EARLIEST.year <= year <= _LATEST.year:
                last = calendar.monthrange(year, month)[1]
                return self._when(text, datetime.date(year, month, last), datetime.date(year, month, 1))
            raise self.wrong("R311", text, expected="a month that exists", help_="mend the month, as in `2026-03`")
        if re.fullmatch(r"\d{4}-\d{2}-\d{2}", text):
            day = Day().read(text)
            return self._when(text, day, day)
        raise self.wrong(
            "R311",
            text,
            expected="a date, a month or a year, or `before` one of them",
            help_="write `2026-03-14`, `2026-03`, `2026` or `before 2026`, or `unknown`",
        )

    def _when(self, text: Text, last: datetime.date, first: datetime.date) -> When:
        return When(last, first, text.place, past=self.past)

    def bounds(self) -> str:
        return UP_TO_TODAY if self.past else ""


class Hour(Carrying, datetime.time):
    """A time of day that knows where it was written."""

    place: Place


class Clock(Kind[Hour]):
    """A time of day."""

    takes = "time of day"
    example = Example("11:00")

    def read(self, text: Text) -> Hour:
        if found := re.fullmatch(r"([01]?\d|2[0-3]):([0-5]\d)", text):
            read = Hour(int(found[1]), int(found[2]))
            read.place = text.place
            return read
        raise self.wrong("R312", text, expected="a time of day", help_="write hours and minutes: `09:30`")
