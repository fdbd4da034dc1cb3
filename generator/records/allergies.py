"""What a client reacts to, and who made sure that it is not on the tray."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from generator.records.days import Day
from generator.records.fields import Ref, Reference, YesClears
from generator.records.noted import Date
from generator.records.record import Record
from generator.records.supplies import Allergen


class Checked(Record):
    """Somebody of the studio has read the labels of all that will touch this client."""

    not_on_tray: YesClears = Field(description="whether nothing on this tray contains it")
    by: Annotated[Reference, Ref("people")] = Field(description="who read the labels")
    on: Annotated[Date, Day("the labels were read")] = Field(description="when")


class Allergy(Record):
    """One thing that the client reacts to. Its word alone is enough where the supplies' records know it."""

    to: Allergen = Field(description="what it is")
    told: Annotated[Date, Day("the client said so")] | None = Field(
        default=None,
        description="when the client said so, where that was before the questions of this job; one that is too old "
        "is asked about again",
    )
    checked: Checked | None = None
    """who made sure that it is not on the tray; needed where no supply's record names it"""
