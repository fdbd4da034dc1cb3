"""Where a value comes from: a publication, common practice, or a decision of the studio."""

from typing import Annotated

from pydantic import Field

from generator.records.decided import HouseEntry
from generator.records.fields import Choice, Count, Name, Sentence
from generator.records.kind import problem
from generator.records.record import between_keys


class SourceRecord(HouseEntry):
    """One source. A published one names its body and year; a house one is a suggestion until it is decided here."""

    kind: Annotated[str, Choice(("published", "common-practice", "house"))] = Field(description="what kind of source")
    title: Sentence = Field(description="title of the publication, or what is decided or common")
    body: Name | None = Field(default=None, description="who issued it (published)")
    year: Annotated[int, Count(1900, 2199)] | None = Field(default=None, description="year of issue (published)")
    where: Sentence | None = Field(default=None, description="table, clause or page (published)")

    @between_keys
    def named(self) -> None:
        needed = {"published": ("body", "year"), "house": (), "common-practice": ()}
        lacking = [key for key in needed[self.kind] if getattr(self, key) is None]
        if lacking:
            raise problem(
                "R316",
                found=f"no {lacking[0]}",
                expected=f"`{lacking[0]}`",
                help_=f"write {' and '.join(f'`{k}`' for k in lacking)}, or choose another kind",
                at="id",
                says=f"a {self.kind} source needs {' and '.join(f'`{k}`' for k in lacking)}",
            )
