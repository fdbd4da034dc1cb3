"""Disinfectants with the label's contact time, and the steps of a day's hygiene."""

from collections.abc import Iterable, Iterator
from typing import Annotated

from pydantic import Field

from generator.diagnostics import Diagnostic
from generator.quantities import Quantity
from generator.records.checklist import (
    CHECKLIST_FACTS,
    CHECKLIST_QUOTES,
    JOB,
    NEVER_YIELDS,
    STANDINGS,
    THINGS,
    TickWords,
    may_tell,
    only_known,
    quotes_of,
)
from generator.records.conditions import Condition, ConditionField, facts_named
from generator.records.decided import Rule
from generator.records.fields import Choice, Measure, Name, Sentence
from generator.records.ids import DisinfectantId, Source
from generator.records.kind import Example, clashing, lacking, mistake_at, problem, repeated
from generator.records.record import between_keys, both_or_none, optional

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
EVERY_SITTING, WITH_A_STENCIL = NEW_GLOVES = ("every sitting", "with a stencil")
PAUSES = ("client sits down", "first line", "client leaves")
# A pause point that is longer is not read through (Gawande, “A checklist for checklists”: fewer than ten).
MOST_AT_A_PAUSE = 9


class Disinfectant(Rule):
    """One product. Its label comes before any table."""

    name: Name = Field(description="what it is called here")
    used_on: Sentence = Field(description="what it is used on")
    contact: Annotated[Quantity, Measure("duration", "10 s", "24 h", "10 min")]
    """time the surface stays wet, from the label"""
    stock: Strength | None = optional("strength of what is bought, when it is diluted here")
    mixed_to: Strength | None = optional("strength it is used at")
    form: Annotated[str, Choice(("liquid", "powder", "ready to use"))] = Field(description="what it comes as")
    batch: Annotated[Quantity, Measure("volume", "50 mL", "20 L", "1 L")] | None = None
    """amount that is mixed at once"""
    mix_life: Annotated[Quantity, Measure("duration", "10 min", "720 h", "24 h")] | None = None
    """how long the mix is good"""
    caution: Sentence = Field(description="what can hurt")
    source: Source = Field(description="where the numbers come from")

    @between_keys
    def a_mix_is_complete(self) -> None:
        needed = ("stock", "mixed_to", "batch", "mix_life")
        given = [key for key in needed if getattr(self, key) is not None]
        if self.form == "ready to use" and given:
            raise clashing(
                "form",
                found=f"`{given[0]}`",
                expected="no mixing values",
                help_=f"take {', '.join(f'`{g}`' for g in given)} away, or mend `form`",
                says=f"a product that is ready to use has no `{given[0]}`",
            )
        missing = [key for key in needed if getattr(self, key) is None]
        if self.form != "ready to use" and missing:
            raise lacking(
                missing[0],
                help_="write it from the label, or `form: ready to use`",
                says=f"a {self.form} that is diluted here needs {' and '.join(f'`{k}`' for k in missing)}",
            )
        if self.stock and self.mixed_to and self.stock.low <= self.mixed_to.low:
            raise problem(
                "Q208",
                self.mixed_to,
                expected=f"less than {self.stock.text}",
                help_="mend `mixed_to` or `stock`",
                says="the mix is as strong as what is bought, or stronger",
            )


_JobCondition = Annotated[
    Condition, ConditionField(CHECKLIST_FACTS, False, Example("{job.hand: left}"), "condition on the job")
]


class HygieneStep(Rule):
    """One step of hygiene, in the order of the file."""

    phase: Annotated[str, Choice(PHASES)] = Field(description="when it is done")
    do: Sentence = Field(description="verb, object, and an end one can see")
    disinfectant: DisinfectantId | None = optional("the disinfectant used")
    lasts: Annotated[Quantity, Measure("duration", "5 s", "24 h", "40–60 s", span=True)] | None = None
    """how long the whole step takes; never a contact time, which is the product's own"""
    new_gloves: Annotated[str, Choice(NEW_GLOVES)] | None = None
    """whether a fresh pair is put on for it in every sitting, or where a stencil is placed"""
    pause: Annotated[str, Choice(PAUSES)] | None = optional("the pause point of the job sheet on which it is ticked")
    tick: Annotated[str, TickWords(Example("Lots written down"), 120)] | None = None
    """the wording of the tick box on the sheet; it may quote the job, as in `{{ scar.name }}`"""
    when: _JobCondition | None = optional("the jobs whose sheets have the box; every sheet where none is given")
    for_each: Annotated[str, Choice(tuple(THINGS))] | None = None
    """the thing of which a job may have several; the box is printed once for each"""
    standing: Annotated[str, Choice(STANDINGS)] = "usual"
    """which boxes stay where a pause point has more than it holds: those that are named never yield, then come those of
    this job; the others go to a second sheet first"""
    source: Source = Field(description="where it comes from")

    @property
    def may_tell(self) -> bool:
        """Whether its box may tell what the client answered."""
        return may_tell(self.for_each, self._facts_named)

    @property
    def _facts_named(self) -> tuple[str, ...]:
        return () if self.when is None else tuple(facts_named(self.when))

    @between_keys
    def a_box_fits_its_job(self) -> None:
        """What a box looks at and quotes is the job's, or of the thing that it is printed for."""
        if self.tick is None:
            for key in ("when", "for_each", "standing"):
                if key in self.model_fields_set:
                    raise clashing(
                        key,
                        expected="`pause` and `tick`",
                        help_=f"add them, or take `{key}` away",
                        says=f"`{key}` is about a tick box, and this step has none",
                    )
            return
        if self.standing in NEVER_YIELDS and (self.when is not None or self.for_each is not None):
            raise clashing(
                self.standing,
                expected="a box that is on every sheet",
                help_="take `when` and `for_each` away, or write `standing: this job`",
                says=f"“{self.standing}” is on every sheet, and has no condition",
            )
        quoted = quotes_of(self.tick)
        only_known(quoted, CHECKLIST_QUOTES, "tick", "a box")
        named = self._facts_named
        for key, names in (("when", named), ("tick", quoted)):
            for name in names:
                thing = name.partition(".")[0]
                if thing in (JOB, self.for_each):
                    continue
                raise clashing(
                    key,
                    found=f"“{name}”",
                    expected=f"`for_each: {thing}`",
                    help_=f"write `for_each: {thing}`, or take it away",
                    says=f"`{name}` has a meaning only in a box that is printed for each {thing}",
                )

    @between_keys
    def a_pause_has_its_words(self) -> None:
        both_or_none(self, "pause", "tick")


def boxes_that_never_yield(steps: Iterable[HygieneStep]) -> Iterator[Diagnostic]:
    """Each box that never yields has one step: the second of two, and at the first step of all those that none has."""
    listed = list(steps)
    for step, first in repeated((step.standing, step) for step in listed if step.standing in NEVER_YIELDS):
        yield mistake_at(
            "R332",
            step.id,
            found=f"“{step.standing}”",
            expected="one step for each box that never yields",
            help_="write `standing: this job` or `standing: usual` at one of the two",
            says=f"“{step.standing}” is at two steps: `{first.id}` and `{step.id}`",
        )
    for standing in NEVER_YIELDS if listed else ():
        if all(step.standing != standing for step in listed):
            yield mistake_at(
                "R337",
                listed[0].id,
                found="none",
                expected=f"a step with `standing: {standing}`",
                help_=f"write `standing: {standing}` at the step that is ticked for it, with its `pause` and `tick`",
                says=f"no step has the box that never yields: {standing}",
            )
