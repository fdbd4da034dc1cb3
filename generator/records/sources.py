"""Where a value comes from: a publication, common practice, or a decision of the studio."""

from typing import Annotated

from pydantic import Field

from generator.records.decided import HouseEntry
from generator.records.fields import Choice, Count, Name, Sentence
from generator.records.kind import lacking
from generator.records.record import between_keys, optional


class SourceRecord(HouseEntry):
    """One source. A published one names its body and year; a house one is a suggestion until it is decided here."""

    kind: Annotated[str, Choice(("published", "common-practice", "house"))] = Field(description="what kind of source")
    title: Sentence = Field(description="title of the publication, or what is decided or common")
    body: Name | None = optional("who issued it (published)")
    year: Annotated[int, Count(1900, 2199)] | None = optional("year of issue (published)")
    where: Sentence | None = optional("table, clause or page (published)")

    @between_keys
    def named(self) -> None:
        missing = [key for key in ("body", "year") if getattr(self, key) is None]
        if self.kind == "published" and missing:
            needed = " and ".join(f"`{key}`" for key in missing)
            raise lacking(
                missing[0],
                help_=f"write {needed}, or choose another kind",
                says=f"a {self.kind} source needs {needed}",
            )
