"""What all records share: closed, frozen, located."""

from __future__ import annotations

from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field

from generator.records.fields import Id
from generator.records.located import Text


class Record(BaseModel):
    """A mapping with a fixed set of keys."""

    model_config = ConfigDict(extra="forbid", frozen=True, arbitrary_types_allowed=True)


class Entry(Record):
    """A record with an id of its own in its family."""

    id: Annotated[Text, Id()] = Field(
        description="the name by which other records, quotes and commands call it; once in its family"
    )
