"""Who looks after each procedure and each family of records, when it is looked at again, and how its text changed.

Owners of families are in `reviews.yml` and not in each file, because a file is a plain list of records.
"""

from itertools import pairwise
from typing import Annotated

from pydantic import Field

from generator.quantities import Quantity
from generator.records.days import Date, Day
from generator.records.decided import Approved, Decided
from generator.records.ended import Ended
from generator.records.fields import Choice, Measure, Name, OneOrMore, Pattern, Sentence, YesClears
from generator.records.ids import PersonId
from generator.records.kind import Example, problem
from generator.records.located import Text
from generator.records.record import Entry, Record, between_keys, both_or_none, optional

ROLES = ("artist", "apprentice", "assistant")
Role = Annotated[str, Choice(ROLES)]
TextHash = Pattern(r"[0-9a-f]{6}", "six characters of 0 to 9 and a to f", Example("3f2a9c"), "text hash")


class Reviewed(Entry):
    """What somebody answers for and looks at again."""

    owner: PersonId = Field(description="who answers for it and reviews it")
    reviewed: Annotated[Date, Day("it was reviewed")] | None = None
    """when it was last read through against practice and rules; never here where nothing is written"""
    reviewed_by: PersonId | None = optional("who read it through then; a new owner has not, and reads it anew")
    interval: Annotated[Quantity, Measure("months", "1 months", "5 years", "12 months")]
    """how long until it is reviewed again, at the latest"""

    @between_keys
    def somebody_reviewed_on_a_day(self) -> None:
        if self.reviewed is None:
            both_or_none(self, "reviewed", "reviewed_by")

    @property
    def reviewed_by_owner(self) -> Date | None:
        """The day on which its owner read it through; None where that was somebody else, or nobody."""
        return self.reviewed if self.reviewed_by == self.owner else None


class Review(Reviewed):
    """The review of one family of records; its id is the family's name."""

    decided: Decided | None = None
    """who decided every value of the family's file that says nothing itself, and when"""
    approved: Approved | None = None
    """the second person who approved every rule of the file that says nothing itself"""


_Quotes = Annotated[
    Text, Pattern(r"[\w−+-][^;]*(; [\w−+-][^;]*)*", "values with a semicolon between them", Example("60 min; 2"))
]


class Revision(Record):
    """One text of a procedure. A changed value is no other text: it is quoted, and reviewed in its record."""

    text: Annotated[Text, TextHash] = Field(description="the short hash of the text, which the check says")
    date: Annotated[Date, Day("the text was there")] = Field(description="since when the text stands")
    what: Sentence = Field(description="what changed, in one sentence, for those who have read the text before")
    quotes: _Quotes | None = None
    """what its quotes said when it was listed, one after the other, which the check says"""
    wording_only: YesClears = Field(description="yes when nothing has to be done otherwise; nobody reads it again then")
    approved: Approved | None = optional("the second person who approved this text; asked for where studio.yml says so")

    @property
    def quoted(self) -> tuple[str, ...] | None:
        """What its quotes said, one after the other; None where nobody listed it."""
        return None if self.quotes is None else tuple(" ".join(one.split()) for one in self.quotes.split(";"))


class Procedure(Reviewed):
    """One procedure of the handbook; its id is the name of its page, and its place here the order of the day."""

    group: Name = Field(description="the part of the day it belongs to, as in the menu")
    read_by: OneOrMore[Role] = Field(description="the roles that read it and have it signed off")
    then_can: Sentence = Field(description="what one is able to do afterwards, behind “you can”")
    until: Ended | None = optional("when it was taken out of use; nobody has to read it after that")
    revisions: OneOrMore[Revision] = Field(description="the texts it has had, the oldest first")

    @between_keys
    def the_oldest_first(self) -> None:
        for before, after in pairwise(self.revisions):
            if after.date < before.date:
                raise problem(
                    "R323",
                    after.date,
                    expected=f"a day from {before.date.isoformat()} on",
                    help_="put the revisions in order, or mend the date",
                    says=f"the text `{after.text}` is older than the one before it",
                )


def changed_since(procedure: Procedure, text: str) -> tuple[Revision, ...]:
    """The changes in meaning after this text; a text that came back counts from its last time."""
    last = max(number for number, revision in enumerate(procedure.revisions) if revision.text == text)
    return tuple(revision for revision in procedure.revisions[last + 1 :] if not revision.wording_only)
