"""Inks, their lots, and washes mixed from them."""

from typing import Annotated

from pydantic import Field

from generator.quantities import Quantity
from generator.records.days import Date, Day
from generator.records.decided import HouseEntry
from generator.records.ended import Ended
from generator.records.fields import Choice, Count, Measure, Name, OneOrMore, Pattern, Sentence, Swatch, Yes
from generator.records.ids import InkId, Source
from generator.records.kind import Example, clashing, problem
from generator.records.located import Text
from generator.records.record import Record, between_keys, optional
from generator.records.studio import REGIONS
from generator.records.supplies import Bottles, Price

Pigment = Annotated[str, Pattern(r"C\.I\. \d{5}(:\d)?", "a Colour Index number", Example("C.I. 77266"))]


class BarredPigment(HouseEntry):
    """A pigment that may not be used in tattoo inks somewhere, and since when."""

    pigment: Pigment = Field(description="its Colour Index number")
    name: Name = Field(description="its usual name")
    region: Annotated[str, Choice(REGIONS)] = Field(description="where it is barred")
    since: Annotated[Date, Day()] = Field(description="first day on which it may not be used")
    source: Source = Field(description="the rule that bars it")


class Lot(Record):
    """One bottle's batch."""

    lot: Annotated[Text, Pattern(r"[A-Za-z0-9][A-Za-z0-9./-]{1,30}", "the batch code on the label", Example("L-2291"))]
    """batch code on the label"""
    expires: Annotated[Date, Day()] = Field(description="printed expiry")
    opened: Annotated[Date, Day("the bottle was opened")] | None = None
    """when it was opened; without it and without `sealed: yes` nobody knows"""
    sealed: Yes = Field(default=False, description="whether it is still sealed, seen on the bottle")
    until: Ended | None = optional("when it was used up or recalled; what is recalled is laid out nowhere")

    @property
    def known(self) -> bool:
        """Whether it is on file how long it has been open."""
        return self.sealed or self.opened is not None

    @between_keys
    def sealed_or_opened(self) -> None:
        if self.sealed and self.opened is not None:
            raise clashing(
                "sealed",
                found="`sealed: yes` and `opened`",
                expected="one of the two",
                help_="look at the bottle, and take the other away",
                says=f"the lot `{self.lot}` is sealed and was opened",
            )

    @between_keys
    def opened_while_good(self) -> None:
        if self.opened is not None and self.opened > self.expires:
            raise clashing(
                self.opened,
                expected=f"a day up to {self.expires.isoformat()}",
                help_="look at the label and mend one of the two dates; a bottle past its date is not opened",
                says=f"the lot `{self.lot}` was opened after it had expired",
            )


class Wash(Record):
    """How a wash is mixed: parts of black and parts of sterile water."""

    of: InkId = Field(description="the ink that is thinned")
    parts_ink: Annotated[int, Count(1, 20)] = Field(description="parts of ink")
    parts_water: Annotated[int, Count(1, 40)] = Field(description="parts of sterile water")


class Ink(HouseEntry):
    """One ink on the shelf."""

    name: Name = Field(description="what it is called here")
    kind: Annotated[str, Choice(("black", "wash", "colour", "white"))] = Field(description="decides when it is laid")
    swatch: Annotated[str, Swatch()] = Field(description="sRGB colour of a flat sample, for order and notes only")
    pigments: OneOrMore[Pigment] = Field(description="pigments by Colour Index number, from the label")
    opened_life: Annotated[Quantity, Measure("months", "1 months", "60 months", "12 months")]
    """how long it is used once opened"""
    lots: tuple[Lot, ...] = Field(description="bottles on the shelf; may be empty")
    load: Annotated[Quantity, Measure("pigment load", "1 mg/mL", "900 mg/mL", "250 mg/mL")] | None = None
    """pigment in the ink where the maker states it"""
    mixed: Wash | None = optional("how a wash is mixed in the studio")
    shelf: Bottles | None = optional("how much is on the shelf; without it nobody knows what to order. None for a wash")
    price: Price | None = optional("what a bottle of the size in `shelf` costs, in the studio's `currency`")
    until: Ended | None = optional("when it was taken off the shelf for good; old jobs keep it")
    caution: Sentence | None = optional("what to know before it is used")
    source: Source = Field(description="where these values come from")

    @between_keys
    def a_price_is_of_a_bottle(self) -> None:
        if self.price is not None and self.shelf is None:
            raise problem(
                "R316",
                found="`price` alone",
                expected="`shelf` beside `price`",
                help_="add `shelf` with what a `bottle` holds, or take `price` away; "
                "what a wash costs is counted at the ink that it is mixed of",
                at="price",
                says="nobody knows how much a bottle holds that costs so much",
            )

    @between_keys
    def only_a_wash_is_mixed(self) -> None:
        if self.mixed is not None and self.kind != "wash":
            raise clashing(
                "kind",
                found=self.kind,
                expected="`kind: wash`",
                help_="mend `kind`, or take `mixed` away",
                says=f"a {self.kind} ink is not mixed as a wash",
            )
        if self.mixed is not None and self.shelf is not None:
            raise clashing(
                "shelf",
                expected="no `shelf`",
                help_="take `shelf` away; what it is mixed of has one",
                says="a wash is mixed for one client and does not stand on the shelf",
            )
