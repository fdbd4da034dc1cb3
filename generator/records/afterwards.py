"""What happened on the day: times, lots, and where the work was left."""

from typing import Annotated

from pydantic import Field, model_validator

from generator.quantities import Quantity
from generator.records.days import Day
from generator.records.fields import Choice, Measure, Name, Ref, Reference, Sentence, Words
from generator.records.kind import problem
from generator.records.located import Text
from generator.records.noted import Date
from generator.records.record import Record

LotCode = Annotated[Text, Words("a short name", 80)]
STOPPED = ("done", "time", "skin", "tap-out", "unwell")


class Worked(Record):
    """Actual time by technique."""

    technique: Annotated[Reference, Ref("techniques")] = Field(description="the technique")
    took: Annotated[Quantity, Measure("duration", "1 min", "24 h", "55 min")] = Field(description="time on the clock")


class Cartridge(Record):
    """The batch of cartridges of one grouping."""

    grouping: Annotated[Reference, Ref("groupings", "`1207RL`")] = Field(description="the grouping")
    lot: Name = Field(description="batch code on the box")
    expires: Annotated[Date, Day()] | None = Field(
        default=None, description="expiry printed on the pack; where none is given, the page says that it is missing"
    )


class Finished(Record):
    """What happened."""

    on: Annotated[Date, Day("the work was finished")] = Field(description="day it was finished")
    took: Annotated[Quantity, Measure("duration", "1 min", "48 h", "190 min")] = Field(description="from seat to door")
    worked: tuple[Worked, ...] = Field(default=(), description="time by technique")
    lots: Annotated[tuple[LotCode, ...], Field(min_length=1)] = Field(
        description="batch codes of the inks that were used"
    )
    cartridges: tuple[Cartridge, ...] = Field(default=(), description="batch codes of the cartridges that were used")
    stopped: Annotated[str, Choice(STOPPED)] | None = Field(default=None, description="what ended it, in one word")
    dressing: Name | None = Field(default=None, description="what it was dressed with")
    ended: Sentence = Field(description="why the work stopped, and where it was left")

    @model_validator(mode="after")
    def the_work_fits_the_time(self) -> "Finished":
        worked = sum(one.took.low for one in self.worked)
        if worked > self.took.high:
            raise problem(
                "R324",
                found=f"“{self.took.text}”",
                expected=f"{worked:g} min or more",
                help_="mend `took`, or the times under `worked`",
                at="took",
                says=f"the techniques took {worked:g} min together, from seat to door it was {self.took.text}",
            )
        return self
