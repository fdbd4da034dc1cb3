"""Numbers that procedures quote and that no other record holds."""

from typing import Annotated

from pydantic import Field

from generator.quantities import Quantity
from generator.records.decided import Rule
from generator.records.fields import Measure, Sentence
from generator.records.ids import Source

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
