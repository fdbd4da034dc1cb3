"""How a piece healed: what was seen when it was looked at again, part by part, and reactions to an ink."""

from typing import Annotated

from pydantic import Field

from generator.records.afterwards import LotCode, StepNumber
from generator.records.days import Day
from generator.records.fields import Choice, Note
from generator.records.ids import Id, InkId
from generator.records.kept_elsewhere import PhotoCode
from generator.records.located import Text
from generator.records.noted import Date
from generator.records.record import Record, optional

# How a part came out. A blowout is a line that spread.
HELD, SPREAD, LIGHT, GAP = CAME_OUT = ("held", "spread", "light", "gap")


class PartSeen(Record):
    """One part as it came out."""

    part: Annotated[Text, Id()] = Field(description="the part, by its id in this job")
    came: Annotated[str, Choice(CAME_OUT)]
    """whether it held, a line spread (a blowout), it is too light, or it has a gap"""
    step: Annotated[Text, StepNumber()] | None = None
    """number of the step on the sheet, where the part was worked in several"""
    photo: PhotoCode | None = optional("a photo of it, by its code")


class Reaction(Record):
    """A reaction to an ink. What a doctor found belongs in the consent file."""

    ink: InkId = Field(description="the ink")
    lot: LotCode = Field(description="its lot, as it is under `lots` of this job or was corrected")
    reported: Annotated[Date, Day("it was reported")] | None = None
    """when it was reported to those whom `reactions_to` in studio.yml names"""


class FollowUp(Record):
    """One look at the healed piece."""

    on: Annotated[Date, Day("the healed piece was looked at")] = Field(description="day on which it was looked at")
    seen: Note | None = optional("what was seen, in a few words")
    photo: PhotoCode | None = optional("a photo of the whole piece, by its code")
    parts: tuple[PartSeen, ...] = Field(default=(), description="how each part came out")
    reactions: tuple[Reaction, ...] = Field(default=(), description="reactions to an ink")
