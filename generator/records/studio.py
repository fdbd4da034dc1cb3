"""The studio itself: units first, paper, the limits it keeps, what local rules it has to confirm."""

from typing import Annotated

from pydantic import Field

from generator.quantities import Quantity
from generator.records.days import Day
from generator.records.decided import Decided
from generator.records.expires import Expires
from generator.records.fields import (
    Choice,
    Count,
    Measure,
    Name,
    NoClears,
    Number,
    OneOrMore,
    Pattern,
    Sentence,
    Swatch,
    YesClears,
)
from generator.records.format import FormatNumber
from generator.records.ids import InkId, Source, ValueId
from generator.records.kind import Example, clashing, problem
from generator.records.located import Text
from generator.records.noted import Date
from generator.records.people import BY_PART, OrderOfAreas
from generator.records.piece_limits import PieceLimits
from generator.records.record import Record, between_keys
from generator.records.regions import CUSTOMS
from generator.records.roles import Roles
from generator.units import CHOICES, OWN_UNITS, SYSTEMS, Shows

Tone = Annotated[str, Swatch()]
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


class CartridgeLimit(Record):
    """For how little work no cartridge of its own is opened."""

    least_work: Annotated[Quantity, Measure("duration", "0 min", "10 min", "1 min")]
    """work with one cartridge, at the slow end, under which an open needle that fits does it"""
    source: Source = Field(description="where it comes from")


class Limits(PieceLimits):
    """The studio's own decisions that every plan uses."""

    sitting: Annotated[Quantity, Measure("duration", "30 min", "12 h", "4 h")]
    """longest working time of one sitting, breaks included"""
    break_after: Annotated[Quantity, Measure("duration", "15 min", "3 h", "75 min")]
    """working time after which a break is due"""
    break_length: Annotated[Quantity, Measure("duration", "2 min", "60 min", "10 min")]
    """length of one break"""
    zone_worked: Annotated[Quantity, Measure("duration", "20 min", "6 h", "90 min")]
    """how long one part is worked before it rests, breaks left out"""
    zone_rest: Annotated[Quantity, Measure("duration", "5 min", "3 h", "20 min")]
    """how long a part is not worked until it counts as rested"""
    set_up: Annotated[Quantity, Measure("duration", "5 min", "2 h", "30 min")]
    """setting up the station before the client sits down"""
    stencil: Annotated[Quantity, Measure("duration", "5 min", "2 h", "15 min")]
    """shaving, cleaning and placing the stencil"""
    stencil_dry: Annotated[Quantity, Measure("duration", "5 min", "60 min", "15 min")]
    """drying of the stencil before the first line"""
    clean_skin: Annotated[Quantity, Measure("duration", "1 min", "60 min", "10 min")]
    """shaving and cleaning the skin in a later sitting that needs no stencil"""
    clean_and_wrap: Annotated[Quantity, Measure("duration", "5 min", "60 min", "15 min")]
    """final clean and wrap, aftercare talk"""
    turn_round: Annotated[Quantity, Measure("duration", "5 min", "3 h", "30 min")] | None = None
    """time between one client's wrap and the setting up for the next at the same chair, or by the same artist: taking
    the station down, cleaning, contact time and airing"""
    airing: Annotated[Quantity, Measure("duration", "0 min", "2 h", "10 min")] | None = None
    """airing of the room after a station was wiped, before it is set up again"""
    mole_clearance: Annotated[Quantity, Measure("length", "1 mm", "50 mm", "8 mm")]
    """distance kept from a mole or lesion where the job names none"""
    line_gap: Annotated[Quantity, Measure("length", "0.3 mm", "10 mm", "1.2 mm")]
    """smallest gap between two lines that stays open"""
    filled: Annotated[Quantity, Measure("share", "1 %", "100 %", "45 %")]
    """share of a part's box that is shaded or filled, where the job gives no area"""
    highlight: Annotated[Quantity, Measure("share", "0.1 %", "20 %", "2 %")]
    """share of a part's box that white highlights take, where the job gives no area"""
    lining_row: Annotated[Quantity, Measure("length", "10 mm", "300 mm", "40 mm")]
    """how deep a strip the hand lines without resting farther up"""
    spacing: Annotated[Quantity, Measure("needle length", "0.01 mm", "1 mm", "0.03–0.15 mm", span=True)]
    """spacing of punctures along a line that the studio aims at"""
    strong_chroma: Annotated[float, Number(10, 150, Example("45"))]
    """CIELAB chroma from which an ink counts as a strong colour"""
    strong_colours: Annotated[int, Count(1, 12)]
    """strong colours that carry a piece; more is a note"""
    lot_cases: Annotated[int, Count(1, 12)]
    """complaints on one lot of ink at which it is taken off the shelf"""
    screening_valid: Annotated[Quantity, Measure("days", "0 days", "365 days", "30 days")]
    """how long answers to the screening questions count before they are asked again"""
    same_skin_again: Annotated[Quantity, Measure("days", "7 days", "365 days", "4 weeks")]
    """time before the same skin is worked again"""
    touch_up: Annotated[Quantity, Measure("days", "7 days", "365 days", "6–8 weeks", span=True)]
    """time to the touch-up"""
    touch_up_slow: Annotated[Quantity, Measure("days", "7 days", "365 days", "8–12 weeks", span=True)]
    """time to the touch-up on scars or after heavy colour"""
    heavy_colour: Annotated[Quantity, Measure("area", "1 cm²", "2000 cm²", "25 cm²")]
    """packed colour, in all, from which a piece counts as heavy colour"""
    ink_rate: Annotated[Quantity, Measure("ink rate", "0.001 mL/cm²", "1 mL/cm²", "0.03–0.06 mL/cm²", span=True)]
    """ink poured for each area worked, loss in cap and wipes included"""
    line_ink_width: Annotated[Quantity, Measure("needle length", "0.1 mm", "10 mm", "2 mm")]
    """width of the strip that a line counts as when its ink is calculated by area"""
    cap: Annotated[Quantity, Measure("volume", "0.1 mL", "20 mL", "1 mL")]
    """what one ink cap holds when filled as the studio fills it"""
    hang_out_step: Annotated[Quantity, Measure("needle length", "0.1 mm", "1 mm", "0.5 mm")]
    """steps in which a hang-out is set"""
    cartridge: CartridgeLimit | None = None
    """for how little work no cartridge is opened; without it each row has its own needle"""
    apprentice_pieces: Annotated[str, Choice(("never", "ask", "supervised"), clears=("supervised",))]
    """whether an apprentice may work on a client's piece"""

    plan_ahead: Annotated[Quantity, Measure("days", "1 weeks", "52 weeks", "6 weeks")]
    """how far ahead the page of what to order looks"""
    learned_from: Annotated[int, Count(3, 60)]
    """how many of an artist's latest finished jobs with a technique a learned factor rests on at most"""
    healed_from: Annotated[int, Count(2, 1000)]
    """how many parts have to be looked at healed before the handbook says a share of them"""
    f0_reference: Annotated[Quantity, Measure("temperature", "100 °C", "150 °C", "121.1 °C")]
    """reference temperature of F0; published ones differ, so it is printed with every result"""
    f0_z: Annotated[Quantity, Measure("temperature difference", "5 K", "20 K", "10 °C")]
    """z for F0: the rise in temperature that does the same in a tenth of the time"""
    words_a_minute: Annotated[int, Count(50, 400)]
    """words of a procedure that are read in a minute, with care"""
    calibration_age: ValueId
    """the value that says for how long the measured points of a dial in volts count"""
    mix_stronger: Annotated[Quantity, Measure("share", "0.1 %", "50 %", "5 %")]
    """how much stronger than asked a mix of disinfectant may come out, because a measure shows steps"""
    retention: Annotated[Quantity, Measure("months", "1 years", "100 years", "3 years")]
    """whole years that a finished job's record is kept at least; local codes may ask for more"""
    retention_source: Source = Field(description="where the retention comes from")

    @property
    def retention_years(self) -> int:
        return int(self.retention.low) // 12

    @between_keys
    def kept_for_whole_years(self) -> None:
        if self.retention.low % 12:
            raise problem(
                "Q208",
                self.retention,
                expected="whole years",
                help_="write the next full year, such as `3 years`",
                says="records are kept for whole years",
            )


class Tones(Record):
    """A swatch for each word of the tone picker. Skin of one tone differs; the estimate is no promise."""

    very_light: Tone = Field(alias="very light", description="sRGB colour")
    light: Tone = Field(description="sRGB colour")
    medium: Tone = Field(description="sRGB colour")
    tan: Tone = Field(description="sRGB colour")
    brown: Tone = Field(description="sRGB colour")
    dark: Tone = Field(description="sRGB colour")


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
    areas: Annotated[str, Choice(_one_of("areas"))] | None = Field(default=None, description="areas")
    volumes: Annotated[str, Choice(_one_of("volumes"))] | None = None
    """ink and product; with `drops` and `fl oz`, small volumes are in drops"""
    weights: Annotated[str, Choice(_one_of("weights"))] | None = Field(default=None, description="weights")
    temperatures: Annotated[str, Choice(_one_of("temperatures"))] | None = None
    """temperatures and their differences"""
    hand_speeds: Annotated[str, Choice(_one_of("hand_speeds"))] | None = None
    """how fast the hand moves"""


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
    currency: Currency | None = None
    """the currency of all prices; no cost is shown without it"""
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
    decided: Decided | None = None
    """who of this studio decided the limits, and when; suggestions until then"""

    @property
    def shows(self) -> Shows:
        """What each kind of quantity is shown in: as its system has it, but for the kinds with a unit of their own."""
        own = {} if self.units_by_kind is None else dict(self.units_by_kind)
        changed = {kind: own[name] for name, kinds in OWN_UNITS.items() if own.get(name) for kind in kinds}
        return {**SYSTEMS[self.units], **changed}
