"""Places on the body."""

from typing import Annotated

from pydantic import Field

from generator.quantities import Quantity
from generator.records.decided import HouseEntry
from generator.records.fields import Choice, Measure, Name, Sentence, Yes
from generator.records.ids import Source


class Site(HouseEntry):
    """One place on the body, as knowledge; hang-out is never checked against it."""

    name: Name = Field(description="as it is said")
    pose: Sentence = Field(description="usual pose")
    stretch: Sentence = Field(description="how the skin is stretched there")
    thickness: Annotated[Quantity, Measure("length", "0.3 mm", "6 mm", "1.5–2.5 mm", span=True)] | None = None
    """epidermis and dermis together, as published; knowledge, not a setting"""
    cautions: Sentence = Field(description="what to look out for")
    apprentice: Annotated[str, Choice(("no", "ask", "supervised"), clears=("supervised",))]
    """whether an apprentice may work there"""
    limb: Yes = Field(description="whether it has a girth that can be taped")
    source: Source = Field(description="where the thickness comes from; all else is common practice")
