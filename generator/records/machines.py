"""Machines and what their dials were measured to do."""

from typing import Annotated

from pydantic import Field

from generator.quantities import Quantity
from generator.records.days import Date, Day
from generator.records.decided import HouseEntry
from generator.records.ended import Ended
from generator.records.fields import Choice, Count, Measure, Name, OneOrMore, Sentence
from generator.records.ids import MachineId, Source
from generator.records.kind import problem
from generator.records.record import between_keys, optional

Stroke = Annotated[Quantity, Measure("needle length", "1 mm", "6 mm", "3.5 mm")]
DialRange = Annotated[
    Quantity, Measure("frequency", "20 Hz", "250 Hz", "50–150 Hz", span=True, others={"voltage": ("1 V", "24 V")})
]


class Machine(HouseEntry):
    """One machine of the studio."""

    name: Name = Field(description="what it is called here")
    drive: Annotated[str, Choice(("rotary-slider", "rotary-direct", "coil", "other"))]
    """kind of drive; the sine model fits the two rotary kinds"""
    strokes: OneOrMore[Stroke] = Field(description="strokes it can be set to")
    dial: Annotated[str, Choice(("Hz", "volts"))] = Field(description="what its dial shows")
    limits: DialRange = Field(description="lowest and highest dial setting, in what the dial shows")
    hang_out: Annotated[Quantity, Measure("needle length", "0 mm", "8 mm", "0–5 mm", span=True)]
    """how far the needle can be set to hang out"""
    weight: Annotated[Quantity, Measure("weight", "30 g", "1 kg", "140 g")] = Field(description="weight with a battery")
    vibration: Annotated[Quantity, Measure("acceleration", "0 m/s²", "40 m/s²", "2.1 m/s²")] | None = None
    """the maker's vibration figure; none means not assessed"""
    count: Annotated[int, Count(1, 50)] = 1
    """how many of it are here, each with battery and grip of its own"""
    until: Ended | None = optional("when it was taken out of use; old jobs keep it")
    care: Sentence = Field(description="what it needs between clients")
    source: Source = Field(description="where these values come from")

    @between_keys
    def dial_and_limits_agree(self) -> None:
        kind, unit = {"Hz": ("frequency", "Hz"), "volts": ("voltage", "V")}[self.dial]
        if self.limits.kind != kind:
            raise problem(
                "Q203",
                self.limits,
                expected=f"limits in {unit}",
                help_=f"write the limits in {unit}, or mend `dial`",
                says=f"the dial shows {self.dial}, the limits are in another unit",
            )


DialVolts = Annotated[Quantity, Measure("voltage", "1 V", "24 V", "6.5 V")]
Measured = Annotated[Quantity, Measure("frequency", "10 Hz", "250 Hz", "88 Hz")]


class Calibration(HouseEntry):
    """Measured points of one machine with one stroke, cartridge and supply."""

    machine: MachineId = Field(description="the machine that was measured")
    stroke: Stroke = Field(description="the stroke it was set to")
    cartridge: Annotated[str, Choice(("round", "row"))]
    """kind of cartridge in it when measured: round for RL and RS, row for flats and magnums"""
    supply: Name = Field(description="power supply or battery it ran on")
    measured: Annotated[Date, Day("the dial was measured")] = Field(description="when it was measured")
    points: Annotated[tuple[tuple[DialVolts, Measured], ...], Field(min_length=2)]
    """pairs of dial volts and measured frequency, rising"""
    source: Source = Field(description="who measured it, and how")

    @between_keys
    def rising(self) -> None:
        for before, after in zip(self.points, self.points[1:], strict=False):
            if not (before[0].low < after[0].low and before[1].low < after[1].low):
                raise problem(
                    "Q211",
                    found=f"{before[0].text}, {before[1].text} then {after[0].text}, {after[1].text}",
                    expected="points that rise in both",
                    help_="put the points in order, and measure again one that falls",
                    at=after[0].place,
                    says="volts and frequency have to rise from point to point",
                )
