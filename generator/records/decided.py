"""Who decided a value of the house, and when. What nobody of this studio has decided is a suggestion."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from generator.records.changes import SAFETY, Matters
from generator.records.days import Day
from generator.records.fields import Ref, Reference
from generator.records.noted import Date
from generator.records.record import Entry, Record


class Decided(Record):
    """One decision: by whom, and on which day."""

    by: Annotated[Reference, Ref("people")] = Field(description="who decided it, somebody of this studio")
    on: Annotated[Date, Day("it was decided")] = Field(description="when it was decided")


class HouseEntry(Entry):
    """An entry whose values the studio decides, by itself or with its whole file (`decided` in `reviews.yml`)."""

    decided: Decided | None = Field(
        default=None, description="who of this studio decided it, and when; a suggestion until then"
    )
    matters: Matters = Field(
        default=SAFETY, description="when it changes: safety is read again by who signed what quotes it, comfort is not"
    )


class Approved(Record):
    """A second person who read a rule or a text and agrees."""

    by: Annotated[Reference, Ref("people")] = Field(
        description="who approved it, somebody else than who decided it or answers for it"
    )
    on: Annotated[Date, Day("it was approved")] = Field(description="when it was approved")


class Rule(HouseEntry):
    """A house entry that people work by, and that a second person may approve."""

    approved: Approved | None = Field(
        default=None, description="the second person who approved it; asked for where studio.yml says so"
    )
