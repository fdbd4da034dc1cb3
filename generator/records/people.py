"""Who works here, with which hand, and what they may do."""

from typing import Annotated

from pydantic import Field

from generator.records.fields import Choice, Date, Day, Name, Ref, Reference
from generator.records.record import Entry, Record


class Training(Record):
    """One thing learned, with its date."""

    what: Name = Field(description="what it was")
    on: Annotated[Date, Day()] = Field(description="when")


class Person(Entry):
    """One person of the studio. Invented names only in a demo; a studio writes what its own law allows."""

    name: Name = Field(description="the name at the station")
    role: Annotated[str, Choice(("artist", "apprentice", "assistant"))] = Field(description="role")
    hand: Annotated[str, Choice(("left", "right"))] = Field(description="working hand")
    may: tuple[Annotated[Reference, Ref("techniques")], ...] = Field(
        description="techniques they may work; may be empty"
    )
    training: tuple[Training, ...] = Field(description="training with dates; may be empty")
