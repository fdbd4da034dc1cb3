"""Disinfectants with the label's contact time, and the steps of a day's hygiene."""

from collections import Counter
from collections.abc import Iterable, Iterator
from typing import Annotated

from pydantic import Field, model_validator

from generator.diagnostics import Diagnostic
from generator.quantities import Quantity
from generator.records.fields import Choice, Measure, Name, Ref, Reference, Sentence, Source, Words
from generator.records.kind import problem
from generator.records.record import Entry

Strength = Annotated[Quantity, Measure("share", "0.001 %", "100 %", "0.5 %")]

PHASES = (
    "before the day",
    "station",
    "before the client",
    "hands and gloves",
    "while working",
    "after the client",
    "waste and sharps",
    "cleaning",
    "spill",
    "needlestick",
    "inks",
)
PAUSES = ("client sits down", "first line", "client leaves")
# A pause point that is longer is not read through; the rest is what the back of a sheet has room for.
MOST_AT_A_PAUSE, MOST_TICKS = 9, 21


class Disinfectant(Entry):
    """One product. Its label comes before any table."""

    name: Name = Field(description="what it is called here")
    used_on: Sentence = Field(description="what it is used on")
    contact: Annotated[Quantity, Measure("duration", "10 s", "24 h", "10 min")] = Field(
        description="time the surface stays wet, from the label"
    )
    stock: Strength | None = Field(default=None, description="strength of what is bought, when it is diluted here")
    mixed_to: Strength | None = Field(default=None, description="strength it is used at")
    form: Annotated[str, Choice(("liquid", "powder", "ready to use"))] = Field(description="what it comes as")
    batch: Annotated[Quantity, Measure("volume", "50 mL", "20 L", "1 L")] | None = Field(
        default=None, description="amount that is mixed at once"
    )
    mix_life: Annotated[Quantity, Measure("duration", "10 min", "720 h", "24 h")] | None = Field(
        default=None, description="how long the mix is good"
    )
    caution: Sentence = Field(description="what can hurt")
    source: Source = Field(description="where the numbers come from")

    @model_validator(mode="after")
    def a_mix_is_complete(self) -> "Disinfectant":
        needed = ("stock", "mixed_to", "batch", "mix_life")
        given = [key for key in needed if getattr(self, key) is not None]
        if self.form == "ready to use" and given:
            raise problem(
                "R317",
                found=f"`{given[0]}`",
                expected="no mixing values",
                help_=f"take {', '.join(f'`{g}`' for g in given)} away, or mend `form`",
                at="form",
                says=f"a product that is ready to use has no `{given[0]}`",
            )
        lacking = [key for key in needed if getattr(self, key) is None]
        if self.form != "ready to use" and lacking:
            raise problem(
                "R316",
                found=f"no `{lacking[0]}`",
                expected=f"`{lacking[0]}`",
                help_="write it from the label, or `form: ready to use`",
                at="id",
                says=f"a {self.form} that is diluted here needs {' and '.join(f'`{k}`' for k in lacking)}",
            )
        if self.stock and self.mixed_to and self.stock.low <= self.mixed_to.low:
            raise problem(
                "Q208",
                found=f"“{self.mixed_to.text}”",
                expected=f"less than {self.stock.text}",
                help_="mend `mixed_to` or `stock`",
                at="mixed_to",
                says="the mix is as strong as what is bought, or stronger",
            )
        return self


class HygieneStep(Entry):
    """One step of hygiene, in the order of the file."""

    phase: Annotated[str, Choice(PHASES)] = Field(description="when it is done")
    do: Sentence = Field(description="verb, object, and an end one can see")
    disinfectant: Annotated[Reference, Ref("disinfectants")] | None = Field(
        default=None, description="the disinfectant used"
    )
    lasts: Annotated[Quantity, Measure("duration", "5 s", "24 h", "40–60 s", span=True)] | None = Field(
        default=None, description="how long the whole step takes; never a contact time, which is the product's own"
    )
    pause: Annotated[str, Choice(PAUSES)] | None = Field(
        default=None, description="the pause point of the job sheet on which it is ticked"
    )
    tick: Annotated[str, Words("`Lots written down`", 45)] | None = Field(
        default=None, description="the wording of the tick box on the sheet; at most 45 characters"
    )
    source: Source = Field(description="where it comes from")

    @model_validator(mode="after")
    def a_pause_has_its_words(self) -> "HygieneStep":
        if (self.pause is None) != (self.tick is None):
            lacking = "tick" if self.tick is None else "pause"
            raise problem(
                "R316",
                found=f"no `{lacking}`",
                expected=f"`{lacking}`",
                help_=f"add `{lacking}`, or take the other away",
                at="id",
                says=f"`pause` and `tick` belong together; `{lacking}` is not there",
            )
        return self


def too_many_ticks(steps: Iterable[HygieneStep]) -> Iterator[Diagnostic]:
    """The steps whose tick is one too many, for their pause point or for the sheet; the order is that of the file."""
    counted: Counter[str] = Counter()
    for step in steps:
        if step.pause is None:
            continue
        counted[step.pause] += 1
        if counted[step.pause] > MOST_AT_A_PAUSE:
            found, most = f"tick {counted[step.pause]} before the pause point “{step.pause}”", MOST_AT_A_PAUSE
        elif counted.total() > MOST_TICKS:
            found, most = f"tick {counted.total()} of the sheet", MOST_TICKS
        else:
            continue
        yield Diagnostic(
            "R332",
            step.id.place,
            found=found,
            expected=f"at most {most}",
            help="take `pause` and `tick` away from a step that matters less; it stays a step of hygiene",
            says=f"too many ticks: `{step.id}` is {found}",
        )
