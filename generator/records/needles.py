"""Needle groupings and the techniques they are run with."""

from itertools import combinations
from typing import Annotated

from pydantic import Field

from generator.quantities import Quantity
from generator.records.decided import HouseEntry
from generator.records.ended import Ended
from generator.records.fields import Choice, Count, Measure, Name, Number, OneOrMore, Sentence, Words, YesClears
from generator.records.ids import GroupingId, MachineId, Source
from generator.records.kind import Example, Kind, clashing, lacking, problem
from generator.records.located import Text
from generator.records.record import Record, between_keys, optional
from generator.records.supplies import Boxes
from generator.trade import labels
from generator.trade.refusal import Refusal


class LabelKind(Kind[str]):
    """A grouping's label as the box carries it."""

    takes = "needle label"
    example = Example("1207RL")

    def read(self, text: Text) -> str:
        try:
            labels.read_label(text)
        except Refusal as refusal:
            raise self.wrong(
                "A901",
                text,
                expected="a needle label such as `1207RL`",
                help_=refusal.remedy,
                says=f"the label cannot be read: {refusal.expected}",
            ) from None
        return text


Pace = Annotated[
    Quantity,
    Measure(
        "line rate", "1 mm/min", "500 mm/min", "3–5 cm/min", True, others={"area rate": ("1 mm²/min", "5000 mm²/min")}
    ),
]
Configuration = Annotated[Text, Choice(("RL", "RS", "M1", "M2", "CM", "RM", "F"))]


class Grouping(HouseEntry):
    """One grouping on the shelf."""

    label: Annotated[str, LabelKind()] = Field(description="as on the box: wire code, count, configuration")
    taper: Annotated[str, Choice(("short", "medium", "long", "extra-long"))] = Field(description="taper of the points")
    packed: Annotated[str, Choice(("tight", "hollow", "flat"))]
    """a round bundle tight or as a hollow ring; rows are flat"""
    spread: Annotated[float, Number(1, 3, Example("1.5"))] | None = None
    """needle pitch over needle diameter, for flats and magnums; 1 is touching"""
    fresh_line: Annotated[Quantity, Measure("needle length", "0.1 mm", "10 mm", "0.5 mm")] | None = None
    """width of a fresh line as the studio measured it"""
    hang_out: Annotated[Quantity, Measure("needle length", "0.5 mm", "6 mm", "2–4 mm", span=True)]
    """shortest and longest hang-out that it works at; a plan keeps inside"""
    shelf: Boxes | None = optional("how many are on the shelf; without it nobody knows what to order")
    until: Ended | None = optional("when it was taken off the shelf for good; old jobs keep it")
    good_for: Sentence = Field(description="what it is taken for")
    source: Source = Field(description="where these values come from")

    @between_keys
    def rows_have_a_spread(self) -> None:
        row = labels.read_label(self.label).configuration not in ("RL", "RS")
        if row != (self.packed == "flat"):
            raise clashing(
                "packed",
                found=self.packed,
                expected="`flat` for a row, `tight` or `hollow` for a round",
                help_=f"write `packed: {'flat' if row else 'tight'}`",
                says=f"{self.label} cannot be packed {self.packed}",
            )
        if row and self.spread is None:
            raise lacking(
                "spread",
                help_="measure the width across the needles under a loupe, or write `spread: 1` for touching ones",
                says=f"{self.label} is a row and needs its spread",
            )
        if not row and self.spread is not None:
            raise clashing(
                "spread",
                found=f"{self.spread:g}",
                expected="no `spread`",
                help_="take `spread` away, or mend the label",
                says=f"{self.label} is a round and has no spread",
            )


class Dial(Record):
    """How fast a technique runs with some groupings."""

    configurations: OneOrMore[Configuration] = Field(description="configurations it holds for")
    fewest: Annotated[int, Count(1, 60)] = Field(description="smallest number of needles")
    most: Annotated[int, Count(1, 60)] = Field(description="largest number of needles")
    speed: Annotated[Quantity, Measure("frequency", "20 Hz", "200 Hz", "90–110 Hz", span=True)]
    """machine speed"""
    usual: Annotated[Quantity, Measure("frequency", "20 Hz", "200 Hz", "100 Hz")]
    """the speed a plan starts from"""
    passes: Annotated[int, Count(1, 4)] = Field(description="how often one spot may be gone over, then stop")

    @between_keys
    def in_order(self) -> None:
        if self.fewest > self.most:
            raise problem(
                "Q207",
                found=f"{self.fewest} and {self.most}",
                expected="fewest up to most",
                help_="exchange the two",
                at="fewest",
                says="`fewest` is more than `most`",
            )
        if not self.speed.low <= self.usual.low <= self.speed.high:
            raise problem(
                "Q208",
                self.usual,
                expected=self.speed.text,
                help_="choose a usual speed inside the range, or mend the range",
                says=f"the usual speed lies outside {self.speed.text}",
            )


class Technique(HouseEntry):
    """One way of putting ink in."""

    name: Name = Field(description="what it is called at the station")
    works: Annotated[str, Choice(("lines", "areas"))]
    """whether its work is measured in length or area"""
    usual_for: tuple[Annotated[str, Choice(("lines", "fine lines", "black", "wash", "colour", "white"))], ...]
    """what a job's lines and inks are worked with unless the job says otherwise; may be empty"""
    dials: OneOrMore[Dial] = Field(description="speed by kind of grouping")
    usual_grouping: GroupingId = Field(description="taken where the job names none")
    rounds: tuple[GroupingId, ...] = ()
    """rounds for lettering and for what a magnum does not reach: the first that fits, else the last; without them a
    magnum is planned everywhere"""
    machines: tuple[MachineId, ...] = ()
    """machines in order of preference; where none is named, every machine on file, the first one first"""
    stroke: Annotated[Quantity, Measure("needle length", "1 mm", "6 mm", "3–4 mm", span=True)]
    """stroke"""
    hang_out: Annotated[Quantity, Measure("needle length", "0.5 mm", "6 mm", "2–4 mm", span=True)]
    """hang-out; a preference, not the depth in the skin"""
    hand_speed: Annotated[Quantity, Measure("hand speed", "0.5 mm/s", "60 mm/s", "5–10 mm/s", span=True)]
    """how fast the hand moves while the needle runs"""
    pace: Pace = Field(description="length or area done in a minute on the clock, dips and wipes included")
    stretch: Annotated[str, Words(Example("Three ways, flat"), 40)]
    """how the skin is stretched, short enough for a row of the sheet"""
    movement: Sentence = Field(description="how the hand moves")
    stop: Sentence = Field(description="what ends the work on this spot")
    may_apprentice: YesClears = Field(description="whether an apprentice may do it, supervised")
    source: Source = Field(description="where these values come from")

    @between_keys
    def rate_fits_the_work(self) -> None:
        kind, unit = {"lines": ("line rate", "cm/min"), "areas": ("area rate", "cm²/min")}[self.works]
        if self.pace.kind != kind:
            raise problem(
                "Q203",
                self.pace,
                expected=f"a rate in {unit}",
                help_=f"write it in {unit}, or mend `works`",
                says=f"the work is measured in {self.works}, the pace is not",
            )

    @between_keys
    def one_dial_for_a_grouping(self) -> None:
        for before, after in combinations(self.dials, 2):
            fewest, most = max(before.fewest, after.fewest), min(before.most, after.most)
            for written in after.configurations:
                if written in before.configurations and fewest <= most:
                    raise problem(
                        "R325",
                        found=f"{written} of {before.fewest} to {before.most} and of {after.fewest} to {after.most}",
                        expected="one speed for each grouping",
                        help_="let `fewest` begin behind the `most` of the other",
                        at=written.place,
                        says=f"two speeds hold for {written} of {fewest} needles",
                    )
