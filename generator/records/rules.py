"""What may go over which scar, and what is asked before a client sits down."""

from typing import Annotated

from pydantic import Field

from generator.quantities import Quantity
from generator.records.conditions import Condition, ConditionField
from generator.records.days import Date, Day
from generator.records.decided import Rule
from generator.records.fields import Choice, Count, Measure, NoClears, Sentence, Words
from generator.records.ids import Source
from generator.records.kind import Example, clashing, lacking
from generator.records.record import between_keys, both_or_none, optional

VERDICTS = ("care", "wait", "doctor", "not here")
# Limits of the studio that say how long to wait after a day that a client may name.
WAITING_LIMITS = ("same_skin_again", "after_laser")


Wait = Annotated[
    Quantity, Measure("months", "1 months", "120 months", "6 months", others={"days": ("1 days", "3660 days")})
]


class ScarRule(Rule):
    """When this holds for a scar, this follows."""

    when: Annotated[Condition, ConditionField()] = Field(description="condition on the scar and what goes over it")
    verdict: Annotated[str, Choice(VERDICTS, clears=("care",))] = Field(description="what follows for the job")
    consequence: Sentence = Field(description="what follows, one line; printed, save for a cause or an answer")
    today: Annotated[str, Words(Example("broad shapes, light hand"), 60)] | None = None
    """the same in a few words, for the box of the checklist; `consequence` where none is"""
    clears: Sentence | None = None
    """what to do to clear it, a sentence with a verb; needed unless the verdict is care"""
    wait_until_age: Annotated[Quantity, Measure("months", "1 months", "60 months", "12 months")] | None = None
    """age of the scar at which it may be looked at again"""
    passes: Annotated[int, Count(1, 3)] | None = None
    """most times one spot on parts that cross it is gone over; by a rule on a cause or an answer, over any scar"""
    slower: Annotated[Quantity, Measure("share", "1 %", "200 %", "20 %")] | None = None
    """added working time for parts that cross it; by a rule on a cause or an answer, over any scar"""
    source: Source = Field(description="where the rule comes from")

    @between_keys
    def says_what_clears_it(self) -> None:
        if self.verdict != "care" and self.clears is None:
            raise lacking(
                "clears",
                help_="add `clears:` with what the client or the studio can do",
                says=f"a rule that says “{self.verdict}” has to say what would clear it",
            )


class Question(Rule):
    """One screening question."""

    ask: Sentence = Field(description="the question as it is put to the client")
    clear: Annotated[str, Choice(("yes", "no"), clears=("yes", "no"))]
    """the answer that finds nothing"""
    otherwise: Annotated[str, Choice(VERDICTS, clears=("care",))] = Field(description="what the other answer leads to")
    consequence: Sentence = Field(description="what follows, in one line; the sheet prints the level alone")
    clears: Sentence = Field(description="what to do to clear it, or instead of it; a sentence with a verb")
    wait: Wait | None = optional("how long to wait after a last day that the client names")
    wait_limit: Annotated[str, Choice(WAITING_LIMITS)] | None = None
    """the limit in studio.yml that says how long to wait, in place of `wait`"""
    counts_for: Annotated[Quantity, Measure("days", "1 days", "366 days", "7 days")] | None = None
    """for how long an answer counts; after that the sheet has a box to ask it again"""
    about: Annotated[str, Words(Example("new medicine"), 40)] | None = None
    """what it asks, in a few words; needed beside `counts_for`, and printed"""
    added: Annotated[Date, Day("the studio began to ask it")]
    """when the studio began to ask it; an older “all clear” does not cover it"""
    ask_anew: NoClears = True
    """whether those who were asked before it was added are asked it too; either way their sheet says it"""
    source: Source = Field(description="where it comes from")

    @between_keys
    def asking_again_has_its_words(self) -> None:
        both_or_none(self, "counts_for", "about")

    @between_keys
    def waiting_has_its_verdict(self) -> None:
        waits = [key for key in ("wait", "wait_limit") if getattr(self, key) is not None]
        if waits and self.otherwise != "wait":
            raise clashing(
                "otherwise",
                found=self.otherwise,
                expected="`otherwise: wait`",
                help_=f"mend `otherwise`, or take `{waits[0]}` away",
                says=f"a waiting time stands beside the verdict “{self.otherwise}”",
            )
        if len(waits) > 1:
            raise clashing(
                "wait_limit",
                found="`wait` and `wait_limit`",
                expected="one of the two",
                help_="take `wait` away where the time is that of the limit",
                says="two waiting times stand beside one question",
            )
