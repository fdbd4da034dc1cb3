"""What all kinds of field have in common, and how a mistake in one travels through pydantic."""

import re
from collections.abc import Iterable, Iterator
from typing import Generic, NamedTuple, TypeVar

from pydantic import GetCoreSchemaHandler
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from generator.diagnostics import Diagnostic, Place
from generator.records.located import Listing, Mapping, Text
from generator.records.noted import noted

T_co = TypeVar("T_co", covariant=True)
Item = TypeVar("Item")


class Parts(NamedTuple):
    """What a diagnostic is made of, but for its place.

    at: another key of the mapping to point at, or a place inside the value.
    """

    code: str
    found: str
    expected: str
    help: str
    says: str = ""
    at: object = None

    def diagnostic(self, place: Place, note: str = "") -> Diagnostic:
        """The mistake at a place."""
        return Diagnostic(
            self.code, place, found=self.found, expected=self.expected, help=self.help, note=note, says=self.says
        )


def problem(
    code: str, at: object = None, *, found: str = "", expected: str, help_: str, says: str = ""
) -> PydanticCustomError:
    """A mistake on its way through pydantic.

    at: the value or the key that is wrong, which is found there unless `found` says more; or a place, as of `Parts`.
    """
    parts = Parts(code, found or _as_found(at), expected, help_, says, getattr(at, "place", at))
    return PydanticCustomError(code, "{parts}", {"parts": parts})


def lacking(key: str, *, help_: str, says: str, at: str = "id") -> PydanticCustomError:
    """A key that is needed beside what is there."""
    return problem("R316", at, found=f"no `{key}`", expected=f"`{key}`", help_=help_, says=says)


def clashing(at: object, *, found: str = "", expected: str, help_: str, says: str) -> PydanticCustomError:
    """A value or a key that does not go with what stands beside it."""
    return problem("R317", at, found=found, expected=expected, help_=help_, says=says)


def mistake_at(code: str, value: object, *, found: str = "", expected: str, help_: str, says: str) -> Diagnostic:
    """A mistake in a value that knows its place, found when its record was read."""
    place = getattr(value, "place", None)
    assert isinstance(place, Place)
    return Diagnostic(code, place, found=found or _as_found(value), expected=expected, help=help_, says=says)


def _as_found(value: object) -> str:
    if isinstance(value, Mapping | Listing):
        return "a mapping" if isinstance(value, Mapping) else "a list"
    key = isinstance(value, str) and not isinstance(value, Text)
    return f"`{value}`" if key else f"“{getattr(value, 'text', value)}”"


def repeated(keyed: Iterable[tuple[object, Item]]) -> Iterator[tuple[Item, Item]]:
    """Each thing whose key stood before, with the first thing of that key."""
    first: dict[object, Item] = {}
    for key, item in keyed:
        if first.setdefault(key, item) is not item:
            yield item, first[key]


def parts_of(error: PydanticCustomError) -> Parts:
    """What a mistake that went through pydantic is made of."""
    carried = (error.context or {})["parts"]
    assert isinstance(carried, Parts)
    return carried


# A vowel, or letters that are said one by one, of which the first begins with one: an sRGB colour.
_AN = re.compile(r"[AEIOUaeiou]|[sFHLMNRSX][A-Z]")


class Example(NamedTuple):
    """What a person may write. typed: it is typed as it stands; otherwise it is what to write, in words."""

    text: str
    typed: bool = True

    def __str__(self) -> str:
        """As a sentence shows it: what is typed stands between backticks."""
        return f"`{self.text}`" if self.typed else self.text


class Kind(Generic[T_co]):
    """The common part: only text is read further, and an empty one is said to be missing."""

    takes: str
    example: Example
    # The words to choose from, as they are listed; none where anything else may be written.
    choose = ""
    may_be_unknown = False
    # Whether an article is put before what it takes: “a date”, but “text”, “yes or no”, and “a length” has its own.
    needs_article = True
    # Words that relax what follows: none of them is ever suggested, because whoever mistypes must look again.
    clears: tuple[str, ...] = ()

    def read(self, text: Text) -> T_co:
        raise NotImplementedError

    def unit(self) -> str:
        return ""

    def bounds(self) -> str:
        return ""

    def wanted(self) -> str:
        """What it takes, with its article."""
        return f"{'an' if _AN.match(self.takes) else 'a'} {self.takes}" if self.needs_article else self.takes

    @property
    def offered(self) -> Example:
        """What a person is told to write: the example, unless it clears something."""
        return Example("what was found", typed=False) if self.clears else self.example

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self._read)

    def _read(self, value: object) -> T_co:
        if not isinstance(value, Text):
            if isinstance(value, Mapping | Listing):
                raise problem("R303", found=_as_found(value), expected=self.wanted(), help_=f"write {self.offered}")
            return value  # type: ignore[return-value]  # a default given in code
        if not value.strip():
            raise problem(
                "R304",
                found="nothing",
                expected=self.wanted(),
                help_=f"write {self.offered}, or take the key away if it is optional",
                says="nothing is written here",
            )
        return noted(self.read(value), value.origin)

    def wrong(
        self, code: str, text: Text, *, help_: str, expected: str = "", found: str = "", says: str = ""
    ) -> PydanticCustomError:
        """A text that this kind does not take; what it takes is expected where nothing narrower is."""
        such = "" if self.clears else f", such as {self.example}"
        wanted = expected or self.wanted() + such
        return problem(code, text, found=found, expected=wanted, help_=help_, says=says)
