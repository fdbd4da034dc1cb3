"""What is on the shelf of one kind: in boxes that are counted, or in bottles that are measured."""

from typing import Annotated

from pydantic import Field

from generator.quantities import Quantity
from generator.records.days import Day
from generator.records.fields import Count, Measure, Number
from generator.records.kind import Example
from generator.records.noted import Date
from generator.records.record import Record

Amount = Annotated[Quantity, Measure("volume", "0 mL", "20 L", "60 mL")]

Price = Annotated[float, Number(0.01, 100_000, Example("12.50"))]


FirstExpires = Annotated[Date, Day()] | None


class Boxes(Record):
    """Cartridges or needles of one grouping, as the studio counted them."""

    pack: Annotated[int, Count(1, 1000)] = Field(description="how many in a box")
    stock: Annotated[int, Count(0, 100000)] = Field(description="how many on the shelf, sterile and in date")
    reserve: Annotated[int, Count(0, 100000)] = Field(description="how many always stay on the shelf")
    first_expires: FirstExpires = Field(
        default=None, description="the earliest expiry printed on a pack on the shelf; without it nobody has looked"
    )


class Bottles(Record):
    """An ink in bottles, as the studio measured or guessed what is left; too little is the careful guess."""

    bottle: Annotated[Quantity, Measure("volume", "1 mL", "2 L", "30 mL")] = Field(
        description="what one bottle holds when it is bought"
    )
    stock: Amount = Field(description="what is left in the bottles that are in date")
    reserve: Amount = Field(description="how much always stays on the shelf")
