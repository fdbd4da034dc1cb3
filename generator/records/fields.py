"""What a single value in a record may be. Each kind of field reads itself, and says what it takes.

A field is declared as `Annotated[type, Kind(...)]`; pydantic calls `read` with the located text. The same
object describes the field on the record reference, so the page cannot drift from the check.
"""

from __future__ import annotations

import calendar
import datetime
import difflib
import re
from dataclasses import dataclass
from typing import Annotated, Any, Generic, NamedTuple, TypeVar

from pydantic import GetCoreSchemaHandler
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from generator import quantities
from generator.diagnostics import Place
from generator.quantities import Quantity
from generator.records.located import Listing, Mapping, Text

T = TypeVar("T")


def problem(code: str, message: str, found: str, expected: str, help_: str, at: object = None) -> PydanticCustomError:
    """A mistake on its way through pydantic; `at` names another key of the mapping to point at."""
    context = {"message": message, "found": found, "expected": expected, "help": help_, "at": at}
    return PydanticCustomError(code, "{message}", context)


def pointing_at(error: PydanticCustomError, place: Place) -> PydanticCustomError:
    """The same mistake, shown at a place inside the field."""
    return PydanticCustomError(error.type, "{message}", {**(error.context or {}), "at": place})


def a(words: str) -> str:
    """The indefinite article in front of what a field takes, where there is none yet."""
    if words.split(" ")[0] in ("a", "an", "one", "two", "yes", "text", "the", "either", "`none`", "`all"):
        return words
    return f"{'an' if words[0].lower() in 'aeiou' else 'a'} {words}"


class Kind(Generic[T]):
    """The common part: only text is read further, and an empty one is said to be missing."""

    takes: str
    example: str
    free_text = False

    def read(self, text: Text) -> T:
        raise NotImplementedError

    def unit(self) -> str:
        return ""

    def bounds(self) -> str:
        return ""

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self._read)

    def _read(self, value: object) -> T:
        if isinstance(value, Mapping | Listing):
            shape = "a mapping" if isinstance(value, Mapping) else "a list"
            raise problem(
                "R303", f"expected {a(self.takes)}, found {shape}", shape, a(self.takes), f"write {self.example}"
            )
        if not isinstance(value, Text):  # a default given in code
            return value  # type: ignore[return-value]
        if not value.strip():
            raise problem(
                "R304", f"nothing is written here; expected {a(self.takes)}", "nothing", a(self.takes),
                f"write {self.example}, or take the key away if it is optional",
            )  # fmt: skip
        return self.read(value)

    def wrong(self, code: str, text: Text, message: str, help_: str) -> PydanticCustomError:
        return problem(code, message, f"“{text}”", f"{a(self.takes)}, such as {self.example}", help_)


@dataclass(frozen=True)
class Words(Kind[str]):
    """Free text for people to read."""

    example: str = "a sentence"
    most: int = 600
    takes: str = "text"
    free_text = True

    def read(self, text: Text) -> str:
        if len(text) > self.most:
            raise self.wrong(
                "R305", text, f"expected at most {self.most} characters, found {len(text)}", "say it shorter"
            )
        return text

    def bounds(self) -> str:
        return f"up to {self.most} characters"


@dataclass(frozen=True)
class Id(Kind[Text]):
    """The name by which other records call this one."""

    example: str = "`night-watch`"
    takes: str = "id"

    def read(self, text: Text) -> Text:
        if not re.fullmatch(r"[A-Za-z0-9]+(-[A-Za-z0-9]+)*", text) or len(text) > 60:
            tidy = re.sub(r"[^A-Za-z0-9]+", "-", text).strip("-")[:60] or "night-watch"
            raise self.wrong(
                "R306", text, "an id is letters and digits with single hyphens, at most 60", f"write `{tidy}`"
            )
        return text

    def bounds(self) -> str:
        return "letters, digits, single hyphens"


class Reference(Text):
    """The id of an entry of another family."""

    __slots__ = ("family",)
    family: str


@dataclass(frozen=True)
class Ref(Kind[Reference]):
    """The id of an entry of another family; whether it is there is checked when everything is read."""

    family: str
    example: str = ""

    @property
    def takes(self) -> str:  # type: ignore[override]
        return f"id of an entry in `{self.family}`"

    def __post_init__(self) -> None:
        if not self.example:
            object.__setattr__(self, "example", f"an id from `{self.family}`")

    def read(self, text: Text) -> Reference:
        made = Reference(text)
        made.place, made.family = text.place, self.family
        return made


@dataclass(frozen=True)
class Choice(Kind[str]):
    """One word of a list."""

    words: tuple[str, ...]

    @property
    def takes(self) -> str:  # type: ignore[override]
        return "one of " + ", ".join(f"`{w}`" for w in self.words)

    @property
    def example(self) -> str:  # type: ignore[override]
        return f"`{self.words[0]}`"

    def read(self, text: Text) -> str:
        if text in self.words:
            return text
        near = difflib.get_close_matches(text.lower(), self.words, n=1, cutoff=0.6)
        hint = f"did you mean `{near[0]}`?" if near else f"write one of {', '.join(f'`{w}`' for w in self.words)}"
        raise self.wrong("R307", text, f"“{text}” is not one of the words that may stand here", hint)


@dataclass(frozen=True)
class YesNo(Kind[bool]):
    """yes or no, in these letters."""

    takes: str = "yes or no"
    example: str = "`yes`"

    def read(self, text: Text) -> bool:
        if text in ("yes", "no"):
            return text == "yes"
        raise self.wrong("R308", text, f"expected yes or no, found “{text}”", "write `yes` or `no`")


@dataclass(frozen=True)
class Count(Kind[int]):
    """A whole number."""

    least: int = 0
    most: int = 1_000_000
    takes: str = "whole number"

    @property
    def example(self) -> str:  # type: ignore[override]
        return f"`{max(self.least, min(2, self.most))}`"

    def read(self, text: Text) -> int:
        if not re.fullmatch(r"\d{1,9}", text) or not self.least <= int(text) <= self.most:
            raise self.wrong(
                "R309", text, f"expected a whole number from {self.least} to {self.most}, found “{text}”",
                f"write digits only, such as {self.example}",
            )  # fmt: skip
        return int(text)

    def bounds(self) -> str:
        return f"{self.least} to {self.most}"


@dataclass(frozen=True)
class Number(Kind[float]):
    """A number without a unit, such as a ratio."""

    least: float
    most: float
    example: str
    takes: str = "number without a unit"

    def read(self, text: Text) -> float:
        if not re.fullmatch(r"-?\d{1,9}(\.\d{1,9})?", text) or not self.least <= float(text) <= self.most:
            raise self.wrong(
                "R310", text, f"expected a number from {self.least:g} to {self.most:g}, found “{text}”",
                f"write it with a point and without a unit, such as {self.example}",
            )  # fmt: skip
        return float(text)

    def bounds(self) -> str:
        return f"{self.least:g} to {self.most:g}"


_EARLIEST, _LATEST = datetime.date(1900, 1, 1), datetime.date(2199, 12, 31)


class Date(datetime.date):
    """A day that knows where it was written."""

    place: Place


@dataclass(frozen=True)
class Day(Kind[Date]):
    """A day of the calendar."""

    takes: str = "date"
    example: str = "`2027-05-12`"

    def read(self, text: Text) -> Date:
        if re.fullmatch(r"\d{4}-\d{2}-\d{2}", text):
            year, month, day = (int(part) for part in text.split("-"))
            if 1 <= month <= 12:
                last = calendar.monthrange(max(year, 1), month)[1]
                if 1 <= day <= last and _EARLIEST.year <= year <= _LATEST.year:
                    read = Date(year, month, day)
                    read.place = text.place
                    return read
        raise self.wrong(
            "R311", text, f"expected a date that exists, found “{text}”",
            f"write year-month-day with two digits for month and day, such as {self.example}",
        )  # fmt: skip


class When(NamedTuple):
    """A day, or the last day of a month of which no day is known: the careful side for anything that heals."""

    day: datetime.date
    exact: bool


@dataclass(frozen=True)
class DayOrMonth(Kind[When]):
    """A day, or a month when nobody remembers the day."""

    takes: str = "date or month"
    example: str = "`2026-03`"

    def read(self, text: Text) -> When:
        if re.fullmatch(r"\d{4}-\d{2}", text):
            year, month = int(text[:4]), int(text[5:])
            if 1 <= month <= 12 and _EARLIEST.year <= year <= _LATEST.year:
                return When(datetime.date(year, month, calendar.monthrange(year, month)[1]), False)
            raise self.wrong("R311", text, f"expected a month that exists, found “{text}”", "write it as `2026-03`")
        if re.fullmatch(r"\d{4}-\d{2}-\d{2}", text):
            return When(Day().read(text), True)
        raise self.wrong(
            "R311", text, f"expected a date or a month, found “{text}”", "write `2026-03-14`, or `2026-03`"
        )


@dataclass(frozen=True)
class Clock(Kind[datetime.time]):
    """A time of day."""

    takes: str = "time of day"
    example: str = "`11:00`"

    def read(self, text: Text) -> datetime.time:
        if found := re.fullmatch(r"([01]?\d|2[0-3]):([0-5]\d)", text):
            return datetime.time(int(found[1]), int(found[2]))
        raise self.wrong("R312", text, f"expected a time of day, found “{text}”", "write hours and minutes: `09:30`")


@dataclass(frozen=True)
class Swatch(Kind[str]):
    """An sRGB colour."""

    takes: str = "sRGB colour"
    example: str = "`#7a3b2e`"

    def read(self, text: Text) -> str:
        if not re.fullmatch(r"#[0-9a-fA-F]{6}", text):
            raise self.wrong(
                "R313", text, f"expected an sRGB colour, found “{text}”",
                "write # and six digits in quotes, such as '#7a3b2e'",
            )  # fmt: skip
        return text.lower()


@dataclass(frozen=True)
class Pattern(Kind[str]):
    """Text of a fixed form, such as a client's reference code."""

    form: str
    says: str
    example: str
    takes: str = "code"

    def read(self, text: Text) -> str:
        if not re.fullmatch(self.form, text):
            raise self.wrong("R314", text, f"expected {self.says}, found “{text}”", f"write it like {self.example}")
        return text

    def bounds(self) -> str:
        return self.says


class Measure(Kind[Quantity]):
    """A number with a unit of one kind (or one of several), between bounds that rule out the absurd."""

    def __init__(self, kind: str, least: str, most: str, example: str, span: bool = False) -> None:
        self.kinds = tuple(kind.split(" or "))
        self.least, self.most = quantities.written(least), quantities.written(most)
        self.least_text, self.most_text = least, most
        self.span = span
        self.example = f"`{example}`"

    @property
    def takes(self) -> str:  # type: ignore[override]
        return " or ".join(quantities.KINDS[k][0] for k in self.kinds) + (" or a range" if self.span else "")

    def unit(self) -> str:
        return ", ".join(u for u, (kind, _) in quantities.UNITS.items() if kind in self.kinds)

    def bounds(self) -> str:
        return f"{self.least_text} to {self.most_text}"

    def read(self, text: Text) -> Quantity:
        read = quantities.parse(text, self.kinds, text.place, self.span)
        if isinstance(read, quantities.Mistake):
            raise problem(*read[:4], read.help if "`" in read.help else f"{read.help}: {self.example}")
        # A field that takes volts or hertz is bounded by the machine it belongs to.
        if read.kind == self.least.kind and not (self.least.low <= read.low and read.high <= self.most.high):
            raise self.wrong(
                "Q208", text, f"expected {self.bounds()}, found “{text}”",
                "check the number and its unit; if it is right, it is beyond what this field can mean",
            )  # fmt: skip
        return read


@dataclass(frozen=True)
class Pair(Kind[tuple[Quantity, Quantity]]):
    """Width and height in one line."""

    least: str
    most: str
    takes: str = "width x height"
    example: str = "`130 mm x 190 mm`"

    def read(self, text: Text) -> tuple[Quantity, Quantity]:
        halves = re.split(r"\s+[x×]\s+", text)
        if len(halves) != 2:
            raise self.wrong("R315", text, f"expected width x height, found “{text}”", f"write {self.example}")
        one = Measure("length", self.least, self.most, "130 mm")
        width, height = (one.read(Text.at(half, text.place)) for half in halves)
        return width, height

    def unit(self) -> str:
        return "mm, cm, in"

    def bounds(self) -> str:
        return f"each {self.least} to {self.most}"


@dataclass(frozen=True)
class OrUnknown(Kind[T | None]):
    """Another kind, or the word `unknown`, which is kept apart from every answer."""

    kind: Kind[T]

    @property
    def takes(self) -> str:  # type: ignore[override]
        return f"{self.kind.takes}, or `unknown`"

    @property
    def example(self) -> str:  # type: ignore[override]
        return self.kind.example

    def unit(self) -> str:
        return self.kind.unit()

    def bounds(self) -> str:
        return self.kind.bounds()

    def read(self, text: Text) -> T | None:
        return None if text == "unknown" else self.kind.read(text)


def none_or(value: object) -> object:
    """`none` said out loud is an empty list; silence stays silence."""
    return Listing() if isinstance(value, Text) and value == "none" else value


Name = Annotated[str, Words("a short name", 80)]
Sentence = Annotated[str, Words()]
Source = Annotated[Reference, Ref("sources")]
Yes = Annotated[bool, YesNo()]
