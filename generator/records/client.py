"""What is asked of the client and measured on them before the work: screening, girth, allergies, numbing."""

from typing import Annotated

from pydantic import BeforeValidator, Field

from generator.quantities import Quantity
from generator.records.days import UP_TO_TODAY, Date, Day
from generator.records.fields import (
    LOOK_AGAIN,
    Choice,
    Measure,
    NoneOr,
    Pattern,
    Sentence,
    WordInstead,
    Words,
    YesClears,
    word_alone,
)
from generator.records.ids import InkId, PersonId, Ref, Reference
from generator.records.kind import Example, Kind, problem
from generator.records.located import Text
from generator.records.record import Record, optional
from generator.records.supplies import Allergen

ClientCode = Annotated[
    str,
    Pattern(
        r"[A-Z]{1,3}-\d{2,6}",
        "a reference code: letters, a hyphen, digits; a name, address, number or "
        "birth date belongs in the studio's consent file",
        Example("R-0100"),
    ),
]
Taping = Annotated[Quantity, Measure("length", "50 mm", "2000 mm", "330 mm")]


class Answer(Kind[Date | bool | None]):
    """yes, no, unknown, or the last day it was so."""

    takes = "yes, no, unknown, or a last day"
    needs_article = False
    example = Example("no")
    clears = ("yes", "no")  # which of them finds nothing, the question says

    def read(self, text: Text) -> Date | bool | None:
        if text in ("yes", "no", "unknown"):
            return None if text == "unknown" else text == "yes"
        if not text[:4].isdigit():
            raise self.wrong(
                "R308",
                text,
                expected="yes, no, unknown or a date",
                help_=f"{LOOK_AGAIN}, or `unknown` where nobody asked",
            )
        return Day("it was so for the last time").read(text)

    def bounds(self) -> str:
        return UP_TO_TODAY


def _all_clear(value: object) -> object:
    """`all clear` stands for every question the studio asks; nothing else may be written as one word."""
    if isinstance(value, Text):
        if value == "all clear":
            return None
        raise problem(
            "R319",
            found=f"“{value}”",
            expected="`all clear`, or a mapping of question ids to yes, no or unknown",
            help_="write what the client answered to each question, or `screening: unknown` where nobody asked",
        )
    return value


class Screening(Record):
    """What the client answered, and when. A question without an answer is a finding, not a no."""

    asked: Annotated[Date, Day("the questions were asked")] = Field(description="day on which the questions were asked")
    answers: Annotated[
        dict[Annotated[Reference, Ref("screening")], Annotated[Date | bool | None, Answer()]] | None,
        WordInstead(_all_clear, clears=("all clear",)),
    ]
    """`all clear`, or an answer for each question by its id"""


def _unknown_alone(value: object) -> object:
    """`unknown` says no more than silence."""
    return None if isinstance(value, Text) and value == "unknown" else value


ScreeningOrUnknown = Annotated[Screening | None, BeforeValidator(_unknown_alone)]


class Taped(Record):
    """A girth above and below the piece."""

    top: Taping = Field(description="at the upper edge")
    bottom: Taping = Field(description="at the lower edge")


class Girth(Taped):
    """Taped on the client, standing and relaxed; never taken from a table."""

    in_pose: Taped | None = optional("taped again in the pose of the work")


class Checked(Record):
    """Somebody of the studio has read the labels of all that will touch this client."""

    not_on_tray: YesClears = Field(description="whether nothing on this tray contains it")
    by: PersonId = Field(description="who read the labels")
    on: Annotated[Date, Day("the labels were read")] = Field(description="when")


class Allergy(Record):
    """One thing that the client reacts to. Its word alone is enough where the supplies' records know it."""

    to: Allergen = Field(description="what it is")
    told: Annotated[Date, Day("the client said so")] | None = None
    """when the client said so, where that was before the questions of this job; one that is too old is asked about
    again"""
    checked: Checked | None = None
    """who made sure that it is not on the tray; needed where no supply's record names it"""


Allergies = NoneOr[Annotated[Allergy, word_alone("to")]]


class Numbing(Record):
    """A numbing product on the skin. Its brand has no place here."""

    product: Annotated[
        str, Pattern(r"[a-z]+( [a-z]+){0,4}", "what it is in small letters, no brand", Example("lidocaine cream"))
    ]
    """what it is, without a brand"""
    by: Annotated[str, Choice(("client", "studio"))] = Field(description="who put it on")
    on: Annotated[Date, Day("it was put on")] = Field(description="when")


class PatchTest(Record):
    """A small test of one ink on this client. It proves no ink safe; what showed is in the consent file."""

    ink: InkId = Field(description="the ink that was tested")
    on: Annotated[Date, Day("the patch test was made")] = Field(description="when it was made")
    nothing_seen: YesClears = Field(description="whether nothing showed when it was looked at")


class NotPrivate(Record):
    """What looks as if it told who the client is, or of their health, and belongs to the drawing."""

    text: Annotated[Text, Words(Example("'12 May 1889'"), 80)] = Field(description="the words, as they are in the job")
    because: Sentence = Field(description="why they tell nothing of the client; printed nowhere")
