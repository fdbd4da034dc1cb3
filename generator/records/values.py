"""Numbers that procedures quote and that no other record holds; and where values come from.

A source is a publication, common practice, or a decision of the studio.
"""

from typing import Annotated

from pydantic import Field

from generator.quantities import Quantity
from generator.records.decided import HouseEntry, Rule
from generator.records.fields import Choice, Count, Measure, Name, Sentence
from generator.records.ids import Source
from generator.records.kind import lacking
from generator.records.record import between_keys, optional

# Wide on purpose: a value may be anything that a procedure says; only the absurd is kept out.
_OTHERS = {
    "area": ("0.1 mm²", "20000 cm²"),
    "duration": ("1 s", "999 h"),
    "days": ("1 days", "1000 days"),
    "months": ("1 months", "100 years"),
    "share": ("0.001 %", "100 %"),
    "temperature": ("-30 °C", "300 °C"),
    "volume": ("0.01 mL", "100 L"),
    "weight": ("1 mg", "200 kg"),
    "hand speed": ("0.1 mm/s", "500 mm/s"),
    "frequency": ("1 Hz", "500 Hz"),
    "illuminance": ("1 lx", "10000 lx"),
    "angle": ("1 °", "360 °"),
}
ANY_KIND = Measure("length", "0.01 mm", "100 m", "24 h", span=True, others=_OTHERS)


class Value(Rule):
    """One number of the house that no other record holds; a procedure quotes it as `{{ values.ID.is }}`."""

    what: Sentence = Field(description="what it is the number of, in the words of the table")
    is_: Annotated[Quantity, ANY_KIND] = Field(alias="is", description="the value or the range")
    source: Source = Field(description="where it comes from")


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
