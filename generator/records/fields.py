"""What a single value in a record may be. Each kind of field reads itself, and says what it takes.

A field is declared as `Annotated[type, Kind(...)]`; pydantic calls `read` with the located text. The same
object describes the field on the record reference, so the page cannot drift from the check.
"""

import re
from dataclasses import dataclass
from itertools import product
from typing import Annotated, TypeVar

from pydantic import BeforeValidator, Field

from generator import quantities
from generator.near_miss import did_you_mean, nearest
from generator.quantities import Quantity
from generator.records.kind import Example, Kind, problem
from generator.records.located import Listing, Mapping, Text
from generator.units import KINDS

T = TypeVar("T")


@dataclass(frozen=True)
class Words(Kind[str]):
    """Free text for people to read. code: whether it is copied from a label, and looks like any number."""

    example: Example = Example("a sentence", typed=False)
    most: int = 600
    code: bool = False
    takes: str = "text"
    needs_article = False

    def read(self, text: Text) -> str:
        if len(text) > self.most:
            raise self.wrong(
                "R305",
                text,
                found=f"{len(text)} characters",
                expected=f"at most {self.most} characters",
                help_="say it shorter",
            )
        return text

    def bounds(self) -> str:
        return f"up to {self.most} characters"


# In place of a suggestion, where the nearest word would clear something.
LOOK_AGAIN = "look or ask again, and write what was found"


class Choice(Kind[str]):
    """One word of a list; `clears` are those that are never suggested."""

    needs_article = False

    def __init__(self, words: tuple[str, ...], clears: tuple[str, ...] = ()) -> None:
        self.words, self.clears = words, clears
        self.choose = ", ".join(f"`{word}`" for word in words)
        self.takes = f"one of {self.choose}"
        self.example = Example(words[0])

    def read(self, text: Text) -> str:
        if text in self.words:
            return text
        near = nearest(text.lower(), self.words, never=self.clears)
        hint = did_you_mean(near, LOOK_AGAIN if self.clears else f"write one of {self.choose}")
        raise self.wrong("R307", text, help_=hint, says=f"“{text}” is not one of the words that may stand here")


@dataclass(frozen=True)
class YesNo(Kind[bool]):
    """yes or no, in these letters; `clears` says which of them is never suggested."""

    takes: str = "yes or no"
    choose: str = "yes or no"
    needs_article = False
    example = Example("yes")
    clears: tuple[str, ...] = ()

    def read(self, text: Text) -> bool:
        if text in ("yes", "no"):
            return text == "yes"
        # Words that other programs take for one of the two are named as such, and still not guessed at.
        meant = {"true": "yes", "on": "yes", "y": "yes", "false": "no", "off": "no", "n": "no"}.get(text.lower())
        hint = f"write `{meant}`" if meant else "write `yes` or `no`"
        if self.clears and (meant is None or meant in self.clears):
            hint = LOOK_AGAIN
        raise self.wrong("R308", text, expected="yes or no", help_=f"{hint}, in small letters")


class Count(Kind[int]):
    """A whole number."""

    takes = "whole number"

    def __init__(self, least: int = 0, most: int = 1_000_000) -> None:
        self.least, self.most = least, most
        self.example = Example(str(max(least, min(2, most))))

    def read(self, text: Text) -> int:
        if not re.fullmatch(r"\d{1,9}", text) or not self.least <= int(text) <= self.most:
            raise self.wrong(
                "R309",
                text,
                expected=f"a whole number from {self.least} to {self.most}",
                help_=f"write digits only, such as {self.example}",
            )
        return int(text)

    def bounds(self) -> str:
        return f"{self.least} to {self.most}"


@dataclass(frozen=True)
class Number(Kind[float]):
    """A number without a unit, such as a ratio."""

    least: float
    most: float
    example: Example
    takes: str = "number without a unit"

    def read(self, text: Text) -> float:
        if not re.fullmatch(r"-?\d{1,9}(\.\d{1,9})?", text) or not self.least <= float(text) <= self.most:
            raise self.wrong(
                "R310",
                text,
                expected=f"a number from {self.least:g} to {self.most:g}",
                help_=f"write it with a point and without a unit, such as {self.example}",
            )
        return float(text)

    def bounds(self) -> str:
        return f"{self.least:g} to {self.most:g}"


class Swatch(Kind[str]):
    """An sRGB colour."""

    takes = "sRGB colour"
    example = Example("'#7a3b2e'")

    def read(self, text: Text) -> str:
        if not re.fullmatch(r"#[0-9a-fA-F]{6}", text):
            raise self.wrong(
                "R313",
                text,
                expected="an sRGB colour",
                help_=f"write # and six digits in quotes, such as {self.example}",
            )
        return text.lower()


@dataclass(frozen=True)
class Pattern(Kind[str]):
    """Text of a fixed form, such as a client's reference code."""

    form: str
    says: str
    example: Example
    takes: str = "code"

    def read(self, text: Text) -> str:
        if not re.fullmatch(self.form, text):
            raise self.wrong("R314", text, expected=self.says, help_=f"write it like {self.example}")
        return text

    def bounds(self) -> str:
        return self.says


# What is well written, and beyond the bounds of its field.
_BEYOND = "Q208"


class Measure(Kind[Quantity]):
    """A number with a unit of one kind (or one of several), between bounds that rule out the absurd.

    others: further kinds that the field takes, each with its bounds.
    """

    needs_article = False

    def __init__(
        self,
        kind: str,
        least: str,
        most: str,
        example: str,
        span: bool = False,
        others: dict[str, tuple[str, str]] | None = None,
    ) -> None:
        bounds = {kind: (least, most), **(others or {})}
        self.kinds, self.limits = tuple(bounds), tuple(bounds.values())
        ends = [tuple(quantities.written(end, self.kinds) for end in both) for both in self.limits]
        self.between = {low.kind: (low.low, high.high) for low, high in ends}
        if tuple(self.between) != self.kinds:
            raise ValueError(f"{', '.join(self.kinds)}: bounds are needed for each kind, in its own unit")
        self.span = span
        self.takes = " or ".join(KINDS[k][0] for k in self.kinds) + (" or a range" if span else "")
        self.example = Example(example)

    def unit(self) -> str:
        return ", ".join(quantities.units_of(self.kinds))

    def bounds(self) -> str:
        return " or ".join(f"{low} to {high}" for low, high in self.limits)

    def read(self, text: Text) -> Quantity:
        read = self.judged(text)
        if isinstance(read, Quantity):
            return read
        beyond = read.code == _BEYOND
        expected = read.expected if beyond else f"{read.expected}, such as {self.example}"
        help_ = read.help if beyond else self._mending(read)
        raise problem(read.code, text, found=read.found, expected=expected, help_=help_, says=read.message)

    def judged(self, text: Text) -> Quantity | quantities.Mistake:
        """The quantity, or what is wrong with it."""
        read = quantities.parse(text, self.kinds, text.place, self.span)
        if isinstance(read, quantities.Mistake) or self._fits(read):
            return read
        help_ = "check the number and its unit; if it is right, it is beyond what this field can mean"
        return quantities.Mistake(_BEYOND, "", f"“{text}”", self.bounds(), help_)

    def _fits(self, quantity: Quantity) -> bool:
        low, high = self.between[quantity.kind]
        return low <= quantity.low and quantity.high <= high

    def _mending(self, mistake: quantities.Mistake) -> str:
        offered = " or ".join(f"`{t}`" for t in self._taken(mistake.repairs)) or f"it like {self.example}"
        return f"write {offered}; {mistake.help}"

    def _taken(self, repairs: tuple[str, ...]) -> list[str]:
        """Only texts that this field would take are offered."""
        return [t for t in repairs if self._fits(quantities.written(t, self.kinds))]

    def meant(self, text: str) -> list[str]:
        """The text as it may have been meant, where this field would take it."""
        read = quantities.parse(text, self.kinds, None, self.span)
        return self._taken(read.repairs if isinstance(read, quantities.Mistake) else (text.strip(),))


_TIMES = re.compile(r"\s*(?:[x×*]|\bby\b)\s*", re.IGNORECASE)


@dataclass(frozen=True)
class Pair(Kind[tuple[Quantity, Quantity]]):
    """Width and height in one line. What is wrong with one of them is said of both: the line is what is mended."""

    least: str
    most: str
    takes: str = "width x height"
    needs_article = False
    example = Example("130 mm x 190 mm")
    _UNITS = ("mm", "cm", "in")

    def read(self, text: Text) -> tuple[Quantity, Quantity]:
        halves = re.split(r"\s+[x×]\s+", text)
        if len(halves) != 2:
            raise self.wrong("R315", text, help_=f"write {self._offered(text)}")
        one = Measure("length", self.least, self.most, "130 mm")
        read = [one.judged(Text.at(half, text.place)) for half in halves]
        for wrong in (half for half in read if isinstance(half, quantities.Mistake)):
            raise self.wrong(
                wrong.code,
                text,
                found=f"{wrong.found} in “{text}”",
                expected=f"{self.wanted()}, {self.bounds()}, such as {self.example}",
                help_=wrong.help if wrong.code == _BEYOND else f"write {self._offered(text)}; {wrong.help}",
                says=wrong.message,
            )
        width, height = (half for half in read if isinstance(half, Quantity))
        return width, height

    def _offered(self, text: str) -> str:
        """What may have been meant. A unit that only one of the two has is that of the other too."""
        one, halves = Measure("length", self.least, self.most, "130 mm"), _TIMES.split(text)
        units = [unit for half in halves if (unit := re.sub(r"[\d.,\s]", "", half))]
        for_both = (
            [one.meant(half if re.search(r"[^\d.,\s]", half) else f"{half} {unit}") for half in halves]
            for unit in units[:1] or self._UNITS
            if len(halves) == 2
        )
        texts = dict.fromkeys(f"`{' x '.join(both)}`" for each in for_both for both in product(*each))
        return " or ".join(texts) or f"it like {self.example}"

    def unit(self) -> str:
        return ", ".join(self._UNITS)

    def bounds(self) -> str:
        return f"each {self.least} to {self.most}"


class OrUnknown(Kind[T | None]):
    """Another kind, or the word `unknown`, which is kept apart from every answer."""

    word = "unknown"
    may_be_unknown = True

    def __init__(self, kind: Kind[T]) -> None:
        self.kind = kind
        self.takes = f"{kind.takes}, or `{self.word}`"
        self.choose, self.clears = kind.choose, kind.clears
        self.needs_article, self.example = kind.needs_article, kind.example

    def unit(self) -> str:
        return self.kind.unit()

    def bounds(self) -> str:
        return self.kind.bounds()

    def read(self, text: Text) -> T | None:
        return None if text == "unknown" else self.kind.read(text)


class OrNone(OrUnknown[T]):
    """Another kind, or `none`, which here says no more than silence."""

    word = "none"
    may_be_unknown = False

    def read(self, text: Text) -> T | None:
        return None if text == "none" else super().read(text)


def none_or(value: object) -> object:
    """`none` said out loud is an empty list; `unknown` is kept apart from it, and says no more than silence."""
    if isinstance(value, Text) and value in ("none", "unknown"):
        return Listing() if value == "none" else None
    # The last entry of a list may have been taken away, or never been written: nobody has said that there is none.
    empty = isinstance(value, Listing) and not value
    if empty or (isinstance(value, Text) and value.strip()):
        raise problem(
            "R303",
            found="an empty list" if empty else f"“{value}”",
            expected="`none`, `unknown` or a list",
            help_="look or ask again, and write a list of what there is, or `unknown` where nobody asked",
        )
    return value


def word_alone(key: str) -> BeforeValidator:
    """A word in place of a mapping that says no more than this key, such as `latex` for `{to: latex}`."""
    return BeforeValidator(lambda value: Mapping.around(key, value) if isinstance(value, Text) else value)


@dataclass(frozen=True, slots=True)
class WordInstead(BeforeValidator):
    """A word in place of a whole list or mapping; `clears` as for a kind."""

    clears: tuple[str, ...] = ()


OneOrMore = Annotated[tuple[T, ...], Field(min_length=1)]
NONE_OR = WordInstead(none_or, clears=("none",))
NoneOr = Annotated[tuple[T, ...] | None, NONE_OR]
Name = Annotated[str, Words(Example("a short name", typed=False), 80)]
Sentence = Annotated[str, Words()]
Note = Annotated[str, Words(most=240)]
Yes = Annotated[bool, YesNo()]
YesClears = Annotated[bool, YesNo(clears=("yes",))]
NoClears = Annotated[bool, YesNo(clears=("no",))]
