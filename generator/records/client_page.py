"""The client's page: what a client reads before a sitting and takes home from it, as the studio words it.

    - id: healing
      title: How it heals
      for_jobs: [going ahead, finished]
      lines:
        - {say: "No baths until {{ after.last }}.", after: no-soaking, source: house-clients}

Neither a setting of a machine nor an answer of the screening nor the cause of a scar can be quoted here, and a
section says for which jobs it is printed, so that one that may not go ahead never reads like one that may.
"""

from typing import Annotated, NamedTuple

from pydantic import Field

from generator.records.checklist import AFTER, SITTING, TickWords, only_known, quotes_of
from generator.records.conditions import Condition, ConditionField
from generator.records.fields import Choice, Name, OneOrMore, Yes, YesNo
from generator.records.ids import Source, ValueId
from generator.records.kind import Example, Kind, clashing, lacking
from generator.records.record import Entry, Record, between_keys

NOT_YET, GOING_AHEAD, FINISHED = FOR_JOBS = ("not yet", "going ahead", "finished")
_WORKED = (GOING_AHEAD, FINISHED)
# What a value has to be a number of, so that a day can be counted from it.
COUNTED_IN = ("days", "months")


class _Quote(NamedTuple):
    """What a text may quote, in words, and for which jobs it is known."""

    said: str
    known_for: tuple[str, ...] = FOR_JOBS


_STAYS_OR_NOT = ("scars-free", "scars-worked", "tattoos-free", "tattoos-covered")
CLIENT_QUOTES: dict[str, _Quote] = {
    f"{SITTING}.day": _Quote("day of the sitting"),
    f"{SITTING}.start": _Quote("when the client comes", (GOING_AHEAD,)),
    f"{SITTING}.end": _Quote("when the client leaves, about", (GOING_AHEAD,)),
    f"{SITTING}.long": _Quote("how long the sitting takes", (GOING_AHEAD,)),
    f"{SITTING}.number": _Quote("which sitting of the piece it is"),
    f"{SITTING}.sittings": _Quote("how many sittings the piece takes", (GOING_AHEAD,)),
    f"{SITTING}.again": _Quote("first day of the touch-up or of the next sitting", _WORKED),
    f"{SITTING}.again-last": _Quote("last day of the touch-up", _WORKED),
    f"{SITTING}.moles": _Quote("how many moles stay free"),
    f"{SITTING}.scars-free": _Quote("how many scars stay free"),
    f"{SITTING}.scars-worked": _Quote("how many scars are worked over"),
    f"{SITTING}.tattoos-free": _Quote("how many existing tattoos stay free"),
    f"{SITTING}.tattoos-covered": _Quote("how many existing tattoos are covered"),
    f"{AFTER}.first": _Quote("first day of the time that is counted from the sitting", _WORKED),
    f"{AFTER}.last": _Quote("last day of the time that is counted from the sitting", _WORKED),
}
CLIENT_FACTS: dict[str, Kind[object]] = {
    f"{SITTING}.{fact}": YesNo() for fact in ("finished", "several", "last", "free", "moles", *_STAYS_OR_NOT)
}
_Condition = Annotated[
    Condition, ConditionField(CLIENT_FACTS, False, Example("{sitting.last: yes}"), "condition on the sitting")
]


class ClientLine(Record):
    """One thing that the client is told."""

    say: Annotated[str, TickWords(Example("No baths until {{ after.last }}."), 320)]
    """what is said, in plain words; it may quote records and the sitting, as in `{{ sitting.day }}`"""
    when: _Condition | None = None
    """the sittings whose page has the line; every page of the section where none is given"""
    after: ValueId | None = None
    """value in days or months that is counted from the day of the sitting; `{{ after.first }}` and `{{ after.last }}`
    are the days at its ends"""
    box: Yes = Field(default=False, description="whether it has a box, which is ticked when the page is handed over")
    source: Source = Field(description="where it comes from")

    @between_keys
    def quotes_are_known(self) -> None:
        quotes = quotes_of(self.say)
        only_known(quotes, CLIENT_QUOTES, "say", "the client's page")
        counted = [path for path in quotes if path.startswith(f"{AFTER}.")]
        if counted and self.after is None:
            raise lacking(
                "after",
                at="say",
                help_="add `after:` with the value that is counted from the day of the sitting",
                says=f"`{counted[0]}` is a day that is counted, and nothing says by what",
            )
        if self.after is not None and not counted:
            raise clashing(
                "after",
                expected=f"`{{{{ {AFTER}.last }}}}` in `say`",
                help_="quote the day, or take `after` away",
                says="`after` counts a day that the line does not quote",
            )


class ClientSection(Entry):
    """One section of the client's page, in the order of the file."""

    title: Name = Field(description="its heading")
    for_jobs: OneOrMore[Annotated[str, Choice(FOR_JOBS)]] = Field(description="the jobs whose page has it")
    framed: Yes = Field(default=False, description="whether a frame is drawn round it, for what must not be missed")
    lines: OneOrMore[ClientLine] = Field(description="what it says, line by line")

    @between_keys
    def quotes_are_known_for_its_jobs(self) -> None:
        for line in self.lines:
            for path in quotes_of(line.say):
                known_for = CLIENT_QUOTES[path].known_for
                for job in self.for_jobs:
                    if job not in known_for:
                        raise clashing(
                            "for_jobs",
                            found=f"“{path}”",
                            expected=f"`for_jobs: [{', '.join(known_for)}]`",
                            help_="take the quote away, or write it in a section of its own",
                            says=f"`{path}` is not known for a job that is {job}",
                        )
