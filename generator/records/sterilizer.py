"""Sterilizer cycles, and the loads that were run by them. A studio with single-use only has no loads."""

from typing import Annotated

from pydantic import Field

from generator.quantities import Quantity
from generator.records.days import Date, Day
from generator.records.decided import HouseEntry
from generator.records.fields import Choice, Measure, Name, OneOrMore, Sentence, YesClears
from generator.records.ids import PersonId, Ref, Reference, Source
from generator.records.kind import problem
from generator.records.record import Entry, between_keys, optional

METHODS = ("gravity", "dynamic air removal", "other")
BIOLOGICAL = ("passed", "failed", "waiting")

Held = Annotated[Quantity, Measure("duration", "1 s", "4 h", "1 min")]
Reading = Annotated[Quantity, Measure("temperature", "0 °C", "250 °C", "121.4 °C")]


class Cycle(HouseEntry):
    """One steam cycle: a temperature that is held, for certain things."""

    name: Name = Field(description="what it is called here")
    method: Annotated[str, Choice(METHODS)] = Field(description="how the air leaves the chamber")
    temperature: Annotated[Quantity, Measure("temperature", "100 °C", "200 °C", "121 °C")]
    """temperature that is held"""
    holding_time: Annotated[Quantity, Measure("duration", "1 min", "4 h", "30 min")]
    """how long it is held without a break"""
    upper: Annotated[Quantity, Measure("temperature", "100 °C", "200 °C", "124 °C")] | None = None
    """upper limit of the temperature band, from the maker; without one, ask"""
    dry: Annotated[Quantity, Measure("duration", "1 min", "4 h", "15–30 min", span=True)]
    """drying time after it"""
    good_for: Sentence = Field(description="what may be run in it")
    source: Source = Field(description="where the cycle comes from")

    @between_keys
    def the_band_lies_above(self) -> None:
        if self.upper is not None and self.upper.low <= self.temperature.low:
            raise problem(
                "Q208",
                self.upper,
                expected=f"more than {self.temperature.text}",
                help_="mend `upper` or `temperature`",
                says="the upper limit of the band does not lie above the temperature that is held",
            )


class Load(Entry):
    """One load as it was run, with what the logger and the indicators said."""

    cycle: Annotated[Reference, Ref("cycles")] = Field(description="the cycle it was run by")
    date: Annotated[Date, Day("the load was run")] = Field(description="day on which it was run")
    samples: OneOrMore[tuple[Held, Reading]]
    """what was logged, in order: for how long, and at which temperature"""
    chemical_passed: YesClears = Field(description="whether every chemical indicator of the load has changed")
    biological: Annotated[str, Choice(BIOLOGICAL, clears=("passed",))] | None = None
    """what the biological indicator showed, in a load that had one"""
    who: PersonId = Field(description="who ran it and read the indicators")
    source: Source | None = optional("where the values come from, such as the logger's own file")
