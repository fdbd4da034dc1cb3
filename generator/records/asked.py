"""What a published list asks a studio to have in writing, and where the handbook answers it."""

import re
from typing import Annotated

from pydantic import Field

from generator.records.fields import Name, Sentence
from generator.records.ids import Source
from generator.records.kind import Example, Kind, lacking
from generator.records.located import Text
from generator.records.record import Entry, between_keys, optional

_FORM = re.compile(r"[a-z0-9-]+(/[a-z0-9-]+)*\.md(#[A-Za-z0-9_-]+)?")


class AnswerPlace(Kind[Text]):
    """A page of the handbook, or a place in it; whether it is there is checked when the pages are known."""

    takes = "page of the handbook"
    example = Example("procedures/spill.md#steps")

    def read(self, text: Text) -> Text:
        if not _FORM.fullmatch(text):
            raise self.wrong(
                "R314",
                text,
                expected="a page of the handbook",
                help_=f"write folder and file, and behind a # the place in it, such as {self.example}",
            )
        return text

    def bounds(self) -> str:
        return "a file that ends in .md, and a place in it behind a #"


class Asked(Entry):
    """One item that a standard, a code or a toolkit wants to see in writing."""

    source: Source = Field(description="who asks for it")
    clause: Name | None = optional("where it stands there, when that was read")
    what: Sentence = Field(description="what is asked for, in our own words")
    answered_in: tuple[Annotated[Text, AnswerPlace()], ...]
    """the pages that answer it, each with the place in it; may be empty when `gap` says why"""
    gap: Sentence | None = optional("what is not in writing here, and whom to ask; left out when all is answered")

    @between_keys
    def nothing_is_passed_over(self) -> None:
        if not self.answered_in and self.gap is None:
            raise lacking(
                "gap",
                help_="name a page in `answered_in`, or write in `gap` what is missing and whom to ask",
                says="nothing answers this, and `gap` does not say so",
            )
