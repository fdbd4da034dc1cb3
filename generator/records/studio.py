"""The studio itself: units first, paper, the limits it keeps, what local rules it has to confirm."""

from typing import Annotated

from pydantic import Field

from generator.quantities import Quantity
from generator.records.days import Date, Day
from generator.records.decided import Decided
from generator.records.expires import Expires
from generator.records.fields import Choice, Count, Measure, Name, NoClears, OneOrMore, Pattern, Sentence, YesClears
from generator.records.format import FormatNumber
from generator.records.ids import InkId, Source
from generator.records.kind import Example, clashing
from generator.records.limits import Limits
from generator.records.located import Text
from generator.records.people import BY_PART, OrderOfAreas
from generator.records.record import Record, between_keys, optional
from generator.records.regions import CUSTOMS
from generator.records.roles import Roles
from generator.records.skin import Tones
from generator.units import CHOICES, OWN_UNITS, SYSTEMS, Shows

MixVolume = Annotated[Quantity, Measure("volume", "50 mL", "20 L", "500 mL")]

Currency = Annotated[
    str, Pattern(r"[A-Z]{3}", "the three capitals of a currency, as ISO 4217 has them", Example("EUR"))
]
RecordName = Annotated[
    Text,
    Pattern(
        r"[a-z]+(-[a-z]+)*(\.[A-Za-z0-9]+(-[A-Za-z0-9]+)*)?",
        "a family, or a family and an id with a full stop between them",
        Example("values.glove-wear"),
    ),
]

REGIONS = tuple(CUSTOMS)


class LocalRule(Record):
    """Something that differs from place to place and has to be confirmed before the handbook counts."""

    topic: Name = Field(description="what it is about")
    ask: Sentence = Field(description="what to ask and of whom")
    confirmed: YesClears = Field(description="whether the studio has confirmed it")
    on: Annotated[Date, Day("it was confirmed")] | None = None
    """when it was confirmed last; without it nobody knows whether that still holds"""

    @between_keys
    def confirmed_on_a_day(self) -> None:
        if self.on is not None and not self.confirmed:
            raise clashing(
                "confirmed",
                found="`on` and `confirmed: no`",
                expected="`confirmed: yes`, or no day",
                help_="mend `confirmed`, or take `on` away",
                says="a day stands beside a rule that is not confirmed",
            )


def _one_of(name: str) -> tuple[str, ...]:
    """The units in which the first kind of a name may be shown."""
    return tuple(CHOICES[OWN_UNITS[name][0]])


class OwnUnits(Record):
    """Kinds of quantity that this studio shows in units of its own choice."""

    needles: Annotated[str, Choice(_one_of("needles"))] | None = None
    """needle diameters, stroke, hang-out and spacing; `mm` in both systems"""
    body: Annotated[str, Choice(_one_of("body"))] | None = None
    """body and paper; inches in the parts of a tape, what is smaller in mm"""
    areas: Annotated[str, Choice(_one_of("areas"))] | None = optional("areas")
    volumes: Annotated[str, Choice(_one_of("volumes"))] | None = None
    """ink and product; with `drops` and `fl oz`, small volumes are in drops"""
    weights: Annotated[str, Choice(_one_of("weights"))] | None = optional("weights")
    temperatures: Annotated[str, Choice(_one_of("temperatures"))] | None = None
    """temperatures and their differences"""
    hand_speeds: Annotated[str, Choice(_one_of("hand_speeds"))] | None = optional("how fast the hand moves")


ONE_PERSON, SECOND_PERSON = "one person", "second person"


class Studio(Record):
    """The head of all records."""

    name: Name = Field(description="the studio's name as pages and sheets show it")
    format: Annotated[int, FormatNumber()] = Field(description="the format in which all these records are written")
    as_of: Annotated[Date, Day()] | None = None
    """a day that counts as today on every day, for a studio that is an example; a working one has none"""
    units: Annotated[str, Choice(("metric", "imperial"))]
    """the system shown first in the handbook and alone on the sheet"""
    units_by_kind: OwnUnits | None = None
    """kinds that are shown in another unit than that of the system, such as `body: cm`"""
    paper: Annotated[str, Choice(("A4", "Letter"))] = Field(description="the paper of the job sheets")
    order: OrderOfAreas = BY_PART
    """whether areas are worked part by part, each finished first, or ink by ink over the piece"""
    line_ink: InkId | None = None
    """the ink that lines are run in, where neither they nor the job name one; else the first black"""
    region: Annotated[str, Choice(REGIONS)] = Field(description="where the studio works, for pigments barred there")
    currency: Currency | None = optional("the currency of all prices; no cost is shown without it")
    reprocessing: NoClears = Field(description="whether anything is sterilized here; no when all is single-use")
    chairs: Annotated[int, Count(1, 100)] | None = None
    """how many clients can be worked on at once; asked on each day's page where not given"""
    kept_sites: Annotated[int, Count(1, 100)] = 3
    """how many older sites `publish` keeps beside the new one"""
    mix_volumes: Annotated[tuple[MixVolume, ...], Field(min_length=1, max_length=8)]
    """volumes of disinfectant for which product and water are tabled"""
    numbing: Sentence = Field(description="the policy on numbing products")
    numbing_allowed: Annotated[str, Choice(("yes", "no", "ask"), clears=("yes",))]
    """whether work goes on where a numbing product was put on; ask leaves it to the artist on the day"""
    roles: Roles = Roles()
    """what the handbook's pages mean by the surface wipe, the liner and the like"""
    tones: Tones = Field(description="swatches of the tone picker, for estimates of contrast")
    limits: Limits = Field(description="the limits the studio keeps")
    comfort: tuple[Annotated[str, Choice(tuple(Limits.model_fields))], ...] = ()
    """limits of comfort: when one changes, nobody has to read again what quotes it"""
    local_rules: OneOrMore[LocalRule]
    """local codes to confirm; they come before anything written here"""
    reactions_to: Sentence | None = None
    """to whom a reaction to an ink is reported; where nobody is named, the pages say ask"""
    expires: Expires = Expires()
    """what counts only for a time: when it is reminded of, and what follows on the day"""
    stop_signs: Annotated[tuple[Sentence, ...], Field(min_length=1, max_length=6)]
    """what ends the work on a zone or the sitting"""
    record_afterwards: Annotated[tuple[Sentence, ...], Field(min_length=1, max_length=9)]
    """what has to be written down when the work is done"""
    must_be_decided: tuple[RecordName, ...] = ()
    """more families or entries without whose decision no sheet has working steps; contact times, screening, scar rules
    and the youngest age are so everywhere"""
    approval: Annotated[str, Choice((ONE_PERSON, SECOND_PERSON))] = ONE_PERSON
    """whether a rule that is decided, and a new text of a procedure, need a second person who approves"""
    source: Source = Field(description="where the limits come from")
    decided: Decided | None = optional("who of this studio decided the limits, and when; suggestions until then")

    @property
    def shows(self) -> Shows:
        """What each kind of quantity is shown in: as its system has it, but for the kinds with a unit of their own."""
        own = {} if self.units_by_kind is None else dict(self.units_by_kind)
        changed = {kind: own[name] for name, kinds in OWN_UNITS.items() if own.get(name) for kind in kinds}
        return {**SYSTEMS[self.units], **changed}
