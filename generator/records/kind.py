"""What all kinds of field have in common, and how a mistake in one travels through pydantic."""

from __future__ import annotations

from typing import Any, Generic, TypeVar

from pydantic import GetCoreSchemaHandler
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from generator.diagnostics import Place
from generator.origins import origin_of
from generator.records.located import Listing, Mapping, Text
from generator.records.noted import noted

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
    # Words that relax what follows: none of them is ever suggested, because whoever mistypes must look again.
    clears: tuple[str, ...] = ()

    def read(self, text: Text) -> T:
        raise NotImplementedError

    def unit(self) -> str:
        return ""

    def bounds(self) -> str:
        return ""

    @property
    def offered(self) -> str:
        """What a person is told to write: the example, unless it clears something."""
        return "what was found" if self.clears else self.example

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self._read)

    def _read(self, value: object) -> T:
        if isinstance(value, Mapping | Listing):
            shape = "a mapping" if isinstance(value, Mapping) else "a list"
            raise problem(
                "R303", f"expected {a(self.takes)}, found {shape}", shape, a(self.takes), f"write {self.offered}"
            )
        if not isinstance(value, Text):  # a default given in code
            return value  # type: ignore[return-value]
        if not value.strip():
            raise problem(
                "R304",
                f"nothing is written here; expected {a(self.takes)}",
                "nothing",
                a(self.takes),
                f"write {self.offered}, or take the key away if it is optional",
            )
        read: T = noted(self.read(value), origin_of(value))
        return read

    def wrong(self, code: str, text: Text, message: str, help_: str) -> PydanticCustomError:
        such = "" if self.clears else f", such as {self.example}"
        return problem(code, message, f"“{text}”", a(self.takes) + such, help_)
