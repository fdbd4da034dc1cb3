"""One client's piece. Who the client is has no place here: a reference code points to the consent file."""

import datetime
from typing import Annotated

from pydantic import BeforeValidator, Field, model_validator

from generator.quantities import Quantity
from generator.records.fields import (
    Choice,
    Clock,
    Count,
    Date,
    Day,
    DayOrMonth,
    Id,
    Kind,
    Measure,
    Name,
    OrUnknown,
    Pair,
    Pattern,
    Ref,
    Reference,
    Sentence,
    When,
    Yes,
    YesNo,
    none_or,
    problem,
)
from generator.records.located import Mapping, Text
from generator.records.record import Entry, Record
from generator.records.scar_words import AFTER, COLOURS, DETAILS, FEELS, TYPES, WISHES
from generator.records.supplies import Allergen

Across = Annotated[Quantity, Measure("length", "0 mm", "1500 mm", "40 mm")]
Extent = Annotated[Quantity, Measure("length", "1 mm", "1500 mm", "60 mm")]
Spot = tuple[Across, Across]
DialPoint = Annotated[Quantity, Measure("frequency or voltage", "20 Hz or 1 V", "250 Hz or 24 V", "95 Hz")]


class Answer(Kind[Date | bool | None]):
    """yes, no, unknown, or the last day it was so."""

    takes = "yes, no, unknown, or a last day"
    example = "`no`"

    def read(self, text: Text) -> Date | bool | None:
        if text == "unknown":
            return None
        return text == "yes" if text in ("yes", "no") else self._day(text)

    def _day(self, text: Text) -> Date:
        if not text[:4].isdigit():
            raise self.wrong(
                "R308", text, f"expected yes, no, unknown or a date, found “{text}”", "write `yes` or `no`"
            )
        return Day().read(text)


def _all_clear(value: object) -> object:
    """`all clear` stands for every question the studio asks; nothing else may be written as one word."""
    if isinstance(value, Text):
        if value == "all clear":
            return None
        raise problem(
            "R319", f"expected `all clear` or the answers, found “{value}”", f"“{value}”",
            "`all clear`, or a mapping of question ids to yes, no or unknown",
            "write `answers: all clear` only when every question was asked and found nothing",
        )  # fmt: skip
    return value


class Screening(Record):
    """What the client answered, and when. A question without an answer is a finding, not a no."""

    asked: Annotated[Date, Day()] = Field(description="day on which the questions were asked")
    answers: Annotated[
        dict[Annotated[Reference, Ref("screening")], Annotated[Date | bool | None, Answer()]] | None,
        BeforeValidator(_all_clear),
    ] = Field(description="`all clear`, or an answer for each question by its id")


class Girth(Record):
    """Taped on the client, standing and relaxed; never taken from a table."""

    top: Annotated[Quantity, Measure("length", "50 mm", "2000 mm", "330 mm")] = Field(description="at the upper edge")
    bottom: Annotated[Quantity, Measure("length", "50 mm", "2000 mm", "290 mm")] = Field(
        description="at the lower edge"
    )


class Skin(Record):
    """How the skin looks on the day, for notes about contrast."""

    tone: Annotated[str, Choice(("very light", "light", "medium", "tan", "brown", "dark"))] = Field(
        description="by the tone picker"
    )


class ScarScale(Record):
    """A clinician's score on the Vancouver Scar Scale, form of Sullivan 1990. It describes, and permits nothing."""

    pigmentation: Annotated[int, Count(0, 2)] = Field(description="0 normal, up to 2 in this form of the scale")
    vascularity: Annotated[int, Count(0, 3)] = Field(description="0 normal, 1 pink, 2 red, 3 purple")
    pliability: Annotated[int, Count(0, 5)] = Field(
        description="0 normal, 1 supple, 2 yielding, 3 firm, 4 ropes, 5 contracture"
    )
    height: Annotated[int, Count(0, 3)] = Field(description="0 flat, 1 below 2 mm, 2 from 2 to 5 mm, 3 above 5 mm")


class Scar(Record):
    """A scar in the area as it looks and feels. What is not known is written `unknown` and asked about."""

    id: Annotated[Text, Id()] = Field(description="its name in this job")
    from_: Spot = Field(alias="from", description="one end, from the upper left corner of the piece: right, down")
    to: Spot = Field(description="the other end")
    width: Annotated[Quantity, Measure("length", "0.5 mm", "300 mm", "4 mm", span=True)] = Field(
        description="width across"
    )
    height: Annotated[Quantity | None, OrUnknown(Measure("length", "0 mm", "20 mm", "1 mm", span=True))] = Field(
        default=None, description="how far it stands up"
    )
    wound: Annotated[When | None, OrUnknown(DayOrMonth())] = Field(
        default=None, description="when the wound happened, not when it was healed"
    )
    type: Annotated[str | None, OrUnknown(Choice(TYPES))] = Field(default=None, description="its form")
    after: Annotated[str | None, OrUnknown(Choice(AFTER))] = Field(
        default=None, description="what it came from; never printed"
    )
    colour: Annotated[str | None, OrUnknown(Choice(COLOURS))] = Field(default=None, description="its colour today")
    feel: Annotated[str | None, OrUnknown(Choice(FEELS))] = Field(default=None, description="how it feels")
    itch: Annotated[bool | None, OrUnknown(YesNo())] = Field(default=None, description="whether it itches")
    pain: Annotated[bool | None, OrUnknown(YesNo())] = Field(default=None, description="whether it hurts")
    growth: Annotated[bool | None, OrUnknown(YesNo())] = Field(default=None, description="whether it still changes")
    wish: Annotated[str | None, OrUnknown(Choice(WISHES))] = Field(
        default=None, description="what the client wants for it; having a scar is no wish to cover it"
    )
    scale: ScarScale | None = Field(
        default=None, description="what a clinician scored, where the client brought it; never printed"
    )


class Mole(Record):
    """A mole or lesion that stays untouched."""

    at: Spot = Field(description="its middle, from the upper left corner of the piece: right, down")
    keep: Annotated[Quantity, Measure("length", "1 mm", "80 mm", "8 mm")] | None = Field(
        default=None, description="distance to keep; the studio's own where none is given"
    )


class Settings(Record):
    """What a job may choose for one piece of work; everything else comes from the technique."""

    technique: Annotated[Reference, Ref("techniques")] | None = Field(default=None, description="another technique")
    needle: Annotated[Reference, Ref("groupings", "`1207RL`")] | None = Field(default=None, description="grouping")
    machine: Annotated[Reference, Ref("machines")] | None = Field(default=None, description="another machine")
    dial: DialPoint | None = Field(default=None, description="another dial setting, in what the machine's dial shows")
    hang_out: Annotated[Quantity, Measure("length", "0.5 mm", "6 mm", "3 mm")] | None = Field(
        default=None, description="another hang-out"
    )


class Lines(Settings):
    """Lines of one part run with one grouping."""

    length: Annotated[Quantity, Measure("length", "5 mm", "100 m", "900 mm", span=True)] = Field(
        description="length of all these lines"
    )


class Colour(Settings):
    """One ink on one part. An ink's id alone is enough."""

    ink: Annotated[Reference, Ref("inks")] = Field(description="the ink")
    area: Annotated[Quantity, Measure("area", "0.05 cm²", "5000 cm²", "12 cm²", span=True)] | None = Field(
        default=None, description="area it covers; a share of the part where none is given"
    )


def _ink_alone(value: object) -> object:
    if isinstance(value, Text):
        made = Mapping({"ink": value})
        made.place, made.key_places = value.place, {"ink": value.place}
        return made
    return value


class Part(Record):
    """One part of the drawing."""

    id: Annotated[Text, Id()] = Field(description="its name in this job")
    role: Annotated[str, Choice(("main", "secondary", "filler", "lettering"))] = Field(
        description="its weight in the piece"
    )
    focal: Yes = Field(default=False, description="whether the eye is meant to rest on it")
    box: tuple[Across, Across, Extent, Extent] = Field(
        description="right and down from the upper left corner of the piece, then width and height"
    )
    detail: Annotated[str, Choice(DETAILS)] = Field(description="how fine it is")
    gap: Annotated[Quantity, Measure("length", "0.1 mm", "100 mm", "1.5 mm")] | None = Field(
        default=None, description="tightest gap between its lines"
    )
    lines: tuple[Lines, ...] = Field(default=(), description="its lines, by grouping")
    colours: tuple[Annotated[Colour, BeforeValidator(_ink_alone)], ...] = Field(
        default=(), description="its inks: ids, or mappings that say more"
    )

    @model_validator(mode="after")
    def has_work(self) -> "Part":
        if not self.lines and not self.colours:
            raise problem(
                "R316", "a part needs lines or colours", "neither", "`lines` or `colours`",
                "add what is done on it, or take the part away", at="id",
            )  # fmt: skip
        return self


class Worked(Record):
    """Actual time by technique."""

    technique: Annotated[Reference, Ref("techniques")] = Field(description="the technique")
    took: Annotated[Quantity, Measure("duration", "1 min", "24 h", "55 min")] = Field(description="time on the clock")


class Finished(Record):
    """What happened."""

    on: Annotated[Date, Day()] = Field(description="day it was finished")
    took: Annotated[Quantity, Measure("duration", "1 min", "48 h", "190 min")] = Field(description="from seat to door")
    worked: tuple[Worked, ...] = Field(default=(), description="time by technique")
    lots: Annotated[tuple[Name, ...], Field(min_length=1)] = Field(description="batch codes of the inks that were used")
    ended: Sentence = Field(description="why the work stopped, and where it was left")


class Job(Entry):
    """One client's piece."""

    client: Annotated[
        str,
        Pattern(r"[A-Z]{1,3}-\d{2,6}", "a reference code: letters, a hyphen, digits; a name, address, number or "
                "birth date belongs in the studio's consent file", "`R-0147`"),
    ] = Field(description="reference code of the consent file")  # fmt: skip
    title: Name = Field(description="what it is, in a few words")
    artist: Annotated[Reference, Ref("people")] = Field(description="who works")
    date: Annotated[Date, Day()] = Field(description="day of the sitting")
    start: Annotated[datetime.time, Clock()] = Field(description="when the client comes")
    place: Annotated[Reference, Ref("sites")] = Field(description="place on the body")
    side: Annotated[str, Choice(("left", "right", "middle"))] = Field(description="side of the body")
    pose: Sentence | None = Field(default=None, description="another pose than the site's usual one")
    girth: Girth | None = Field(default=None, description="needed on a limb")
    size: Annotated[tuple[Quantity, Quantity], Pair("10 mm", "1200 mm")] = Field(
        description="width x height of the piece"
    )
    skin: Skin | None = Field(default=None, description="how the skin looks")
    screening: Screening | None = Field(default=None, description="answers to the screening questions")
    allergies: Annotated[tuple[Allergen, ...] | None, BeforeValidator(none_or)] = Field(
        default=None, description="`none`, or what the client reacts to"
    )
    scars: Annotated[tuple[Scar, ...] | None, BeforeValidator(none_or)] = Field(
        default=None, description="`none`, or the scars in the area"
    )
    moles: Annotated[tuple[Mole, ...] | None, BeforeValidator(none_or)] = Field(
        default=None, description="`none`, or the moles and lesions in the area"
    )
    parts: Annotated[tuple[Part, ...], Field(min_length=1)] = Field(description="the parts of the drawing")
    interruptions: Annotated[int, Count(0, 30)] = Field(
        default=0, description="interruptions expected besides the breaks; each one means new gloves"
    )
    finished: Finished | None = Field(default=None, description="what happened, once it is done")
