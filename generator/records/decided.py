"""Who decided a value of the house, when, and how it changed. What nobody here has decided is a suggestion."""

from typing import Annotated

from pydantic import Field

from generator.records.days import Date, Day
from generator.records.fields import Choice, Name, Pattern, Yes
from generator.records.ids import PersonId
from generator.records.kind import Example
from generator.records.located import Text
from generator.records.record import Entry, Record, optional

# Whether people have to read again what quotes a value that changed. Where nothing is said, they have to.
SAFETY, COMFORT = MATTERS = ("safety", "comfort")
Matters = Annotated[str, Choice(MATTERS, clears=(COMFORT,))]


class Decided(Record):
    """One decision: by whom, and on which day."""

    by: PersonId = Field(description="who decided it, somebody of this studio")
    on: Annotated[Date, Day("it was decided")] = Field(description="when it was decided")


class HouseEntry(Entry):
    """An entry whose values the studio decides, by itself or with its whole file (`decided` in `reviews.yml`)."""

    decided: Decided | None = optional("who of this studio decided it, and when; a suggestion until then")
    matters: Matters = SAFETY
    """when it changes: safety is read again by who signed what quotes it, comfort is not"""


class Approved(Record):
    """A second person who read a rule or a text and agrees."""

    by: PersonId = Field(description="who approved it, somebody else than who decided it or answers for it")
    on: Annotated[Date, Day("it was approved")] = Field(description="when it was approved")


class Rule(HouseEntry):
    """A house entry that people work by, and that a second person may approve."""

    approved: Approved | None = optional("the second person who approved it; asked for where studio.yml says so")


_Said = Annotated[
    Text, Pattern(r"[\w−+-].{0,79}", "the value as its record says it, on one line", Example("60 min"), "value")
]


class Change(Entry):
    """One value that changed. What is written here is history: it is added to, and not mended to fit."""

    of: Annotated[
        Text, Pattern(r"[a-z][a-z-]*(\.[A-Za-z0-9_-]+)+", "a value as pages quote it", Example("values.glove-wear.is"))
    ]
    """the value, as a page quotes it; where its id got another name, that name"""
    on: Annotated[Date, Day("it was changed")] = Field(description="the first day on which the new value holds")
    from_: _Said = Field(alias="from", description="what it was")
    to: _Said = Field(description="what it is since then")
    by: PersonId = Field(description="who changed it")
    why: Name = Field(description="why, in a few words")
    gone: Yes = Field(default=False, description="whether the record that held the value is there no more")
