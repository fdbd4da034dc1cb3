"""Who works here, with which hand, what they may do, and which procedures they have been signed off for."""

from typing import Annotated

from pydantic import Field

from generator.records.days import Date, Day
from generator.records.decided import HouseEntry
from generator.records.ended import Ended
from generator.records.fields import Choice, Name, OneOrMore
from generator.records.ids import PersonId, ProcedureId, Ref, Reference, Source, TechniqueId, ValueId
from generator.records.kind import problem, repeated
from generator.records.located import Text
from generator.records.parts import Choices
from generator.records.procedures import Role, TextHash
from generator.records.record import Entry, Record, between_keys, optional

BY_PART, BY_INK = "by part", "by ink"
OrderOfAreas = Annotated[str, Choice((BY_PART, BY_INK))]


TRAINING, CHECK = "training", "check"


class Training(Record):
    """One thing learned or looked at, with its date. Of a vaccination the day of the look, never what was seen."""

    what: Name = Field(description="what it was")
    on: Annotated[Date, Day("it was learned")] = Field(description="when")
    counts_as: Annotated[Reference, Ref("required-training")] | None = None
    """the required training or check that it is; without it, it counts as none of them"""


class Signed(Record):
    """A procedure that was read, watched and done, with the text that it was read in."""

    procedure: ProcedureId = Field(description="the procedure")
    text: Annotated[Text, TextHash] = Field(description="the hash of the text, as it stands on the sign-off sheet")
    on: Annotated[Date, Day("it was signed")] = Field(description="when it was signed")
    by: PersonId = Field(description="who watched it done and signed")


class RequiredTraining(HouseEntry):
    """A training or a check that a role needs, and after how long it is repeated."""

    name: Name = Field(description="what is learned or looked at")
    kind: Annotated[str, Choice((TRAINING, CHECK))] = TRAINING
    """which rule of `expires` in studio.yml it falls under; a vaccination is a check"""
    again: ValueId = Field(description="the value that says within which time it is repeated")
    roles: OneOrMore[Role] = Field(description="the roles that need it")
    texts: tuple[ProcedureId, ...] = ()
    """the procedures that have to be signed for it, in the text that counts"""
    source: Source = Field(description="who asks for it")


class OwnSettings(Choices):
    """What an artist sets for one technique; used where machine and needle can do it and the job names no other."""

    technique: TechniqueId = Field(description="the technique")
    source: Source = Field(description="who decided it")

    @between_keys
    def volts_belong_to_a_machine(self) -> None:
        if self.dial is not None and self.dial.kind == "voltage" and self.machine is None:
            raise problem(
                "R316",
                found="no `machine`",
                expected="`machine` beside a dial setting in volts",
                help_="name the machine that these volts were set on",
                at="dial",
                says="volts belong to one machine",
            )


class Person(Entry):
    """One person of the studio. Invented names only in a demo; a studio writes what its own law allows."""

    name: Name = Field(description="the name at the station")
    role: Role = Field(description="role")
    came: Annotated[Date, Day("they came")] | None = None
    """the first day here; needed of whoever decides, reviews or signs"""
    until: Ended | None = optional("the last day here, for somebody who has left")
    hand: Annotated[str, Choice(("left", "right"))] = Field(description="working hand")
    may: tuple[TechniqueId, ...] = Field(description="techniques they may work; may be empty")
    own_settings: tuple[OwnSettings, ...] = ()
    """machine, stroke, dial or hang-out that they use for a technique"""
    hang_out: Annotated[str, Choice(("short", "long"))] | None = None
    """whether they work with the shortest or the longest hang-out that technique, needle and machine have in common;
    the middle where nothing is written"""
    order: OrderOfAreas | None = optional("the order of areas that they are used to; the studio's where none is given")
    training: tuple[Training, ...] = Field(description="training with dates; may be empty")
    signed: tuple[Signed, ...] = Field(default=(), description="procedures they have been signed off for")

    @between_keys
    def one_setting_for_a_technique(self) -> None:
        for own, _ in repeated((own.technique, own) for own in self.own_settings):
            raise problem(
                "R318",
                own.technique,
                expected="each technique once",
                help_="keep one of the two",
                says=f"the technique `{own.technique}` stands twice in `own_settings`",
            )
