"""What happened on the day, in sittings before it, and how it healed: times, lots, what was left, what was seen."""

import re
from typing import Annotated, Self

from pydantic import Field, PrivateAttr, ValidationInfo, model_validator
from pydantic.functional_validators import ModelWrapValidatorHandler

from generator.diagnostics import Place
from generator.near_miss import did_you_mean, nearest
from generator.quantities import Quantity
from generator.records.corrections import Way, corrected, written_of
from generator.records.days import Date, Day
from generator.records.fields import Choice, Count, Measure, Name, Note, OneOrMore, Sentence, Words
from generator.records.ids import Id, InkId, MachineId, NeedleId, PersonId, TechniqueId
from generator.records.kept_elsewhere import PhotoCode
from generator.records.kind import Example, Kind, problem, repeated
from generator.records.located import Mapping, Text
from generator.records.parts import DialPoint
from generator.records.record import Record, between_keys, optional

LotCode = Annotated[Text, Words(Example("a short name", typed=False), 80, code=True)]
STOPPED = ("done", "time", "skin", "tap-out", "unwell")


class Worked(Record):
    """Actual time by technique."""

    technique: TechniqueId = Field(description="the technique")
    took: Annotated[Quantity, Measure("duration", "1 min", "24 h", "55 min")] = Field(description="time on the clock")


class Cartridge(Record):
    """The batch of cartridges of one grouping."""

    grouping: NeedleId = Field(description="the grouping")
    lot: LotCode = Field(description="batch code on the box")
    expires: Annotated[Date, Day()] | None = None
    """expiry printed on the pack; where none is given, the page says that it is missing"""


class StepNumber(Kind[Text]):
    """The number of a step as it is at the left edge of a sheet; it keeps its place."""

    takes = "number of a step"
    example = Example("3")

    def read(self, text: Text) -> Text:
        if not re.fullmatch(r"[1-9]\d{0,2}", text):
            raise self.wrong("R309", text, help_="write the number at the left edge of the sheet, such as `3`")
        return text


class ReallySet(Record):
    """What one step was really worked with, where it was not as planned; what is left out was as the sheet says."""

    step: Annotated[Text, StepNumber()] = Field(description="number of the step on the sheet")
    needle: NeedleId | None = optional("grouping")
    machine: MachineId | None = optional("the machine")
    dial: DialPoint | None = optional("what its dial showed")
    ink: InkId | None = optional("the ink")
    passes: Annotated[int, Count(1, 30)] | None = optional("how often the skin was gone over")

    @property
    def number(self) -> int:
        """The number of the step."""
        return int(self.step)


class Correction(Record):
    """A value that was written down wrongly, found later. It stays where it is; everything else uses the right one."""

    on: Annotated[Date, Day("the mistake was found")] = Field(description="day on which it was corrected")
    by: PersonId = Field(description="who corrected it")
    why: Sentence = Field(description="how it was found, in a sentence")
    lot: LotCode | None = optional("the wrong lot, as it is under `lots` or `cartridges`")
    of: Annotated[Text, Way()] | None = None
    """the way to another value that is wrong, such as `took`, `worked.lining` or `steps.3.dial`"""
    right: Annotated[Text, Words(code=True)] = Field(description="what is right, as it would be written there")

    @between_keys
    def names_one_value(self) -> None:
        named = [name for name in ("lot", "of") if getattr(self, name) is not None]
        if len(named) != 1:
            raise problem(
                "R316",
                found=" and ".join(f"`{name}`" for name in named) or "neither",
                expected="`lot` or `of`",
                help_="write `lot` for the lot of an ink, or `of` for any other value, such as `of: worked.lining`",
                says="a correction names one value",
            )


class Finished(Record):
    """What happened."""

    on: Annotated[Date, Day("the work was finished")] = Field(description="day it was finished")
    took: Annotated[Quantity, Measure("duration", "1 min", "48 h", "190 min")] = Field(description="from seat to door")
    worked: tuple[Worked, ...] = Field(default=(), description="time by technique")
    steps: tuple[ReallySet, ...] = Field(default=(), description="what was really set, by step of the sheet")
    lots: OneOrMore[LotCode] = Field(description="batch codes of the inks that were used")
    cartridges: tuple[Cartridge, ...] = Field(default=(), description="batch codes of the cartridges that were used")
    stopped: Annotated[str, Choice(STOPPED)] | None = optional("what ended it, in one word")
    dressing: Name | None = optional("what it was dressed with")
    ended: Sentence = Field(description="why the work stopped, and where it was left")
    corrections: tuple[Correction, ...] = ()
    """what was written down wrongly, each corrected with its day, who and why"""

    _written: tuple[tuple[str, Text], ...] = PrivateAttr(default=())
    _corrected: "Finished | None" = PrivateAttr(default=None)

    @property
    def written(self) -> tuple[tuple[str, str], ...]:
        """Each value by its way in the block, as it was typed, without the corrections."""
        return tuple((way, str(text)) for way, text in self._written)

    def place_of(self, way: str) -> Place | None:
        """Where a value of the block is written."""
        return {way: text.place for way, text in self._written}.get(way)

    @property
    def as_corrected(self) -> "Finished":
        """What happened, as it was corrected by every way; lots are corrected where they are read."""
        return self if self._corrected is None else self._corrected

    @property
    def lots_used(self) -> tuple[Text, ...]:
        """The lots of inks, each as it was corrected."""
        return tuple(self.corrected(lot) for lot in self.lots)

    def corrected(self, lot: Text) -> Text:
        """The lot that was used where this one is written, after every correction in its order."""
        for correction in self.corrections:
            if correction.lot is not None and correction.lot == lot:
                lot = correction.right
        return lot

    @between_keys
    def what_is_corrected_was_written(self) -> None:
        written = [*map(str, self.lots), *(str(used.lot) for used in self.cartridges)]
        for correction in self.corrections:
            if correction.lot is not None and correction.lot not in written:
                raise problem(
                    "R340",
                    correction.lot,
                    expected="a lot under `lots` or `cartridges`",
                    help_=did_you_mean(nearest(correction.lot, written), f"lots there: {', '.join(written)}"),
                    says=f"a correction names the lot `{correction.lot}`, which was not written down",
                )
            written.append(str(correction.right))

    @between_keys
    def a_step_is_set_once(self) -> None:
        for one, _ in repeated((one.step, one) for one in self.steps):
            raise problem(
                "R341",
                one.step,
                found=f"“{one.step}” again",
                expected="each step once",
                help_="put what was set for this step into one entry",
                says=f"step {one.step} is under `steps` more than once",
            )

    @between_keys
    def the_work_fits_the_time(self) -> None:
        worked = sum(one.took.low for one in self.worked)
        if worked > self.took.high:
            raise problem(
                "R324",
                self.took,
                expected=f"{worked:g} min or more",
                help_="mend `took`, or the times under `worked`",
                says=f"the techniques took {worked:g} min together, from seat to door it was {self.took.text}",
            )

    @model_validator(mode="wrap")
    @classmethod
    def what_is_right_may_stand_there(
        cls, value: object, handler: ModelWrapValidatorHandler[Self], info: ValidationInfo
    ) -> Self:
        """Read with the corrections carried out too, so that what is right is checked as what was written is.

        The last of the validators, because it goes round those above it.
        """
        made = handler(value)
        if isinstance(value, Mapping):
            made._written = tuple(written_of(value))
            if (right := corrected(value)) is not None:
                seen = len(info.context) if isinstance(info.context, list) else 0
                made._corrected = handler(right)
                if isinstance(info.context, list):
                    # What both name is looked up once.
                    before = {reference.place for reference in info.context[:seen]}
                    info.context[seen:] = [one for one in info.context[seen:] if one.place not in before]
        return made


class Earlier(Record):
    """One sitting that is over."""

    job: Annotated[Text, Id()] | None = optional("the job that it was, by its id")
    on: Annotated[Date, Day("the skin was worked")] = Field(description="day on which it was worked")
    left: Sentence = Field(description="what was worked, and where it was left")


# How a part came out. A blowout is a line that spread.
HELD, SPREAD, LIGHT, GAP = CAME_OUT = ("held", "spread", "light", "gap")


class PartSeen(Record):
    """One part as it came out."""

    part: Annotated[Text, Id()] = Field(description="the part, by its id in this job")
    came: Annotated[str, Choice(CAME_OUT)]
    """whether it held, a line spread (a blowout), it is too light, or it has a gap"""
    step: Annotated[Text, StepNumber()] | None = None
    """number of the step on the sheet, where the part was worked in several"""
    photo: PhotoCode | None = optional("a photo of it, by its code")


class Reaction(Record):
    """A reaction to an ink. What a doctor found belongs in the consent file."""

    ink: InkId = Field(description="the ink")
    lot: LotCode = Field(description="its lot, as it is under `lots` of this job or was corrected")
    reported: Annotated[Date, Day("it was reported")] | None = None
    """when it was reported to those whom `reactions_to` in studio.yml names"""


class FollowUp(Record):
    """One look at the healed piece."""

    on: Annotated[Date, Day("the healed piece was looked at")] = Field(description="day on which it was looked at")
    seen: Note | None = optional("what was seen, in a few words")
    photo: PhotoCode | None = optional("a photo of the whole piece, by its code")
    parts: tuple[PartSeen, ...] = Field(default=(), description="how each part came out")
    reactions: tuple[Reaction, ...] = Field(default=(), description="reactions to an ink")
