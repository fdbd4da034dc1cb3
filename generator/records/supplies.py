"""What is used up: how it is counted for a job, and how much of it is on the shelf, in boxes or in bottles."""

import re
from typing import Annotated

from pydantic import Field

from generator.quantities import Quantity
from generator.records.days import Date, Day
from generator.records.decided import HouseEntry
from generator.records.ended import Ended
from generator.records.fields import Choice, Count, Measure, Name, NoneOr, Number, Pair, Sentence, Yes
from generator.records.ids import Ref, Reference, Source
from generator.records.kind import Example, Kind, clashing, problem
from generator.records.located import Text
from generator.records.record import Record, between_keys, optional

Amount = Annotated[Quantity, Measure("volume", "0 mL", "20 L", "60 mL")]

Price = Annotated[float, Number(0.01, 100_000, Example("12.50"))]


FirstExpires = Annotated[Date, Day()] | None


class Boxes(Record):
    """Cartridges or needles of one grouping, as the studio counted them."""

    pack: Annotated[int, Count(1, 1000)] = Field(description="how many in a box")
    stock: Annotated[int, Count(0, 100000)] = Field(description="how many on the shelf, sterile and in date")
    reserve: Annotated[int, Count(0, 100000)] = Field(description="how many always stay on the shelf")
    first_expires: FirstExpires = None
    """the earliest expiry printed on a pack on the shelf; without it nobody has looked"""


class Bottles(Record):
    """An ink in bottles, as the studio measured or guessed what is left; too little is the careful guess."""

    bottle: Annotated[Quantity, Measure("volume", "1 mL", "2 L", "30 mL")]
    """what one bottle holds when it is bought"""
    stock: Amount = Field(description="what is left in the bottles that are in date")
    reserve: Amount = Field(description="how much always stays on the shelf")


PER = ("sitting", "interruption", "machine", "grouping", "bottle", "cap", "hour", "area", "strip")


class AllergenWord(Kind[Text]):
    """What a client may react to, in plain words; capitals do not matter."""

    takes = "word such as latex or adhesive"
    example = Example("latex")

    def read(self, text: Text) -> Text:
        word = " ".join(text.lower().split())
        if word == "no":
            raise self.wrong("R314", text, expected="what it is", help_="ask again, and write what it is")
        if not re.fullmatch(r"[a-z]+([ -][a-z]+)*", word):
            raise self.wrong("R314", text, expected="a word such as latex", help_="letters only, one allergy an entry")
        return Text.at(word, text.place)


Allergen = Annotated[Text, AllergenWord()]


class Supply(HouseEntry):
    """One article of the store cupboard."""

    name: Name = Field(description="what it is called here")
    kind: Name | None = None
    """what it is in a word, such as gloves; the list of a day says it where a client's allergies decide which one"""
    counted_in: Name = Field(description="the word for one: pair, piece, sheet")
    per: Annotated[str, Choice(PER)] = Field(description="what it is counted by")
    amount: Annotated[float, Number(0.01, 1000, Example("2"))]
    """how many for each of these; for area, for each of `area`"""
    area: Annotated[Quantity, Measure("area", "1 cm²", "5000 cm²", "100 cm²")] | None = None
    """the area that one amount serves, when counted by area"""
    sheet: Annotated[tuple[Quantity, Quantity], Pair("50 mm", "2000 mm")] | None = None
    """width x length of one, when counted by strips of the stencil"""
    for_stencil: Yes = False
    """whether it is for the stencil alone; a sitting without one takes none of it"""
    or_else: Annotated[Reference, Ref("supplies")] | None = None
    """what is taken as well in its place; the sheet names both, and one of them is used"""
    by_grouping: Yes = False
    """whether each grouping has boxes of its own, which its own record then counts"""
    pack: Annotated[int, Count(1, 100000)] = Field(description="how many in a pack")
    price: Price | None = optional("what a pack costs, in the studio's `currency`")
    stock: Annotated[int, Count(0, 1000000)] = Field(description="how many on the shelf")
    reserve: Annotated[int, Count(0, 1000000)] = Field(description="how many always stay on the shelf")
    first_expires: FirstExpires = None
    """the earliest expiry printed on one on the shelf, of an article that has one"""
    contains: NoneOr[Allergen]
    """what a client may be allergic to, from the label; `none`, or `unknown` while nobody has read it"""
    until: Ended | None = optional("when it was taken out of use; no tray has it after that")
    instead: Sentence | None = optional("what to do instead for such a client, a sentence with a verb")
    source: Source = Field(description="who decided the use rule")

    @between_keys
    def area_where_it_counts(self) -> None:
        for per, key, example in (("area", "area", "100 cm²"), ("strip", "sheet", "210 mm x 297 mm")):
            if (self.per == per) != (getattr(self, key) is not None):
                raise problem(
                    "R316",
                    "id",
                    found=f"per {self.per}",
                    expected="both or neither",
                    help_=f"add `{key}: {example}`, or mend `per`",
                    says=f"`per: {per}` and the key `{key}` belong together",
                )
        if self.by_grouping and self.per != "grouping":
            raise clashing(
                "by_grouping",
                found="`by_grouping: yes`",
                expected="`by_grouping: no`, or `per: grouping`",
                help_="mend one of the two",
                says=f"what is counted per {self.per} is not bought by grouping",
            )
