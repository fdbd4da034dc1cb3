"""What was worked of a piece before: its earlier sittings, or the work that is touched up."""

from typing import Annotated

from pydantic import Field

from generator.records.days import Day
from generator.records.fields import Id, Sentence
from generator.records.located import Text
from generator.records.noted import Date
from generator.records.record import Record


class Earlier(Record):
    """One sitting that is over."""

    job: Annotated[Text, Id()] | None = Field(default=None, description="the job that it was, by its id")
    on: Annotated[Date, Day("the skin was worked")] = Field(description="day on which it was worked")
    left: Sentence = Field(description="what was worked, and where it was left")
