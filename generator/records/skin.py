"""The client's skin: its tone, its scars, its moles, and tattoos that are there already.

Scars are called s1, s2: their names are printed, and a name such as “burn” would print the cause.
"""

import re
from typing import Annotated

from pydantic import Field

from generator.quantities import Quantity
from generator.records.days import Date, Day, DayOrMonth, When
from generator.records.drawn import BOX, ELLIPSE, OUTLINE, Frame, Points, Spot, one_shape
from generator.records.fields import Choice, Count, Measure, NoneOr, Number, OrUnknown, Swatch, YesNo
from generator.records.ids import Id
from generator.records.kind import Example, Kind, problem
from generator.records.located import Text
from generator.records.record import Record, between_keys, optional

# The words a scar is described with. `unknown` is always allowed, and never a no.
TYPES = ("flat", "raised", "keloid", "sunken", "stretched", "graft")
AFTER = ("injury", "surgery", "burn", "skin cancer", "radiotherapy")
COLOURS = ("pale", "brown", "pink", "red", "purple")
FEELS = ("soft", "firm", "hard")
WISHES = ("work around", "leave", "blend in", "cover", "does not mind")
# The words for skin and for tattoos that are there already.
TONES = ("very light", "light", "medium", "tan", "brown", "dark")
DARKNESSES = ("light", "medium", "dark")
EXISTING_TATTOO_WISHES = ("leave", "work around", "cover")


Tone = Annotated[str, Swatch()]


class Tones(Record):
    """A swatch for each word of the tone picker. Skin of one tone differs; the estimate is no promise."""

    very_light: Tone = Field(alias="very light", description="sRGB colour")
    light: Tone = Field(description="sRGB colour")
    medium: Tone = Field(description="sRGB colour")
    tan: Tone = Field(description="sRGB colour")
    brown: Tone = Field(description="sRGB colour")
    dark: Tone = Field(description="sRGB colour")


class ToneReading(Record):
    """What a colour meter read beside the piece, away from ink and redness; the middle of several readings."""

    lightness: Annotated[float, Number(0, 100, Example("62"))] = Field(description="CIELAB lightness L* under D65")
    b: Annotated[float, Number(0.1, 60, Example("18"))] = Field(description="CIELAB yellowness b* of the same reading")


class Skin(Record):
    """How the skin looks on the day, for notes about contrast."""

    tone: Annotated[str, Choice(TONES)] | None = optional("by the tone picker; it comes before a reading")
    measured: ToneReading | None = optional("a reading of the skin by a colour meter")

    @between_keys
    def says_something(self) -> None:
        if self.tone is None and self.measured is None:
            raise problem(
                "R316",
                found="neither",
                expected="`tone` or `measured`",
                help_="add `tone: medium`, or take `skin` away",
                says="skin needs a tone or a reading",
            )


class ScarScale(Record):
    """A clinician's score on the Vancouver Scar Scale, form of Sullivan 1990. It describes, and permits nothing."""

    pigmentation: Annotated[int, Count(0, 2)] = Field(description="0 normal, up to 2 in this form of the scale")
    vascularity: Annotated[int, Count(0, 3)] = Field(description="0 normal, 1 pink, 2 red, 3 purple")
    pliability: Annotated[int, Count(0, 5)]
    """0 normal, 1 supple, 2 yielding, 3 firm, 4 ropes, 5 contracture"""
    height: Annotated[int, Count(0, 3)] = Field(description="0 flat, 1 below 2 mm, 2 from 2 to 5 mm, 3 above 5 mm")


class ScarName(Kind[Text]):
    """A scar's name is printed, so it must not tell what the scar came from."""

    takes = "short name such as s1"
    example = Example("s1")

    def read(self, text: Text) -> Text:
        if not re.fullmatch(r"s\d{1,2}", text):
            raise self.wrong(
                "R321",
                text,
                help_="write `s1`, `s2` and so on",
                says="a scar is called s and a number; its name is printed and says nothing of its cause",
            )
        return text


class Scar(Record):
    """A scar in the area as it looks and feels. What is not known is written `unknown` and asked about."""

    id: Annotated[Text, ScarName()] = Field(description="its name in this job")
    from_: Spot = Field(alias="from", description="one end, from the upper left corner of the piece: right, down")
    to: Spot = Field(description="the other end")
    width: Annotated[Quantity, Measure("length", "0.5 mm", "300 mm", "4 mm", span=True)]
    """width across"""
    height: Annotated[Quantity | None, OrUnknown(Measure("length", "0 mm", "20 mm", "1 mm", span=True))] = None
    """how far it stands up"""
    wound: Annotated[When | None, OrUnknown(DayOrMonth("the wound happened"))] = None
    """when the wound happened, not when it was healed"""
    type: Annotated[str | None, OrUnknown(Choice(TYPES, clears=("flat",)))] = optional("its form")
    after: Annotated[str | None, OrUnknown(Choice(AFTER, clears=("injury",)))] = None
    """what it came from; never printed"""
    colour: Annotated[str | None, OrUnknown(Choice(COLOURS, clears=("pale",)))] = optional("its colour today")
    feel: Annotated[str | None, OrUnknown(Choice(FEELS, clears=("soft",)))] = optional("how it feels")
    itch: Annotated[bool | None, OrUnknown(YesNo(clears=("no",)))] = optional("whether it itches")
    pain: Annotated[bool | None, OrUnknown(YesNo(clears=("no",)))] = optional("whether it hurts")
    growth: Annotated[bool | None, OrUnknown(YesNo(clears=("no",)))] = optional("whether it still changes")
    wish: Annotated[str | None, OrUnknown(Choice(WISHES))] = None
    """what the client wants for it; having a scar is no wish to cover it"""
    scale: ScarScale | None = optional("what a clinician scored, where the client brought it; never printed")


class Mole(Record):
    """A mole or lesion that stays untouched."""

    at: Spot = Field(description="its middle, from the upper left corner of the piece: right, down")
    keep: Annotated[Quantity | None, OrUnknown(Measure("length", "1 mm", "80 mm", "8 mm"))] = None
    """distance to keep, the studio's own or more; asked about where none is given"""


class ExistingTattoo(Record):
    """A tattoo that is there already. What is not known is written `unknown` and asked about."""

    id: Annotated[Text, Id()] = Field(description="its name in this job; it is printed")
    box: Frame | None = optional(BOX)
    ellipse: Frame | None = optional(ELLIPSE)
    outline: Points | None = optional(OUTLINE)
    darkness: Annotated[str | None, OrUnknown(Choice(DARKNESSES, clears=("light",)))] = None
    """how dark its darkest place is today"""
    wish: Annotated[str | None, OrUnknown(Choice(EXISTING_TATTOO_WISHES))] = optional("what the client wants for it")
    laser: NoneOr[Annotated[Date, Day("it was lasered")]] = optional("`none`, or the days on which it was lasered")

    @between_keys
    def has_one_shape(self) -> None:
        one_shape(self)
