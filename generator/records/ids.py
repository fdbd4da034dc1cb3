"""The ids of entries, and the references of other records to them.

A reference is declared by the family that it names, such as `ink: InkId`; whether the entry is there is checked when
everything is read.
"""

from __future__ import annotations

import re
from typing import Annotated

from pydantic import GetCoreSchemaHandler
from pydantic_core import CoreSchema, core_schema

from generator.diagnostics import Place
from generator.origins import NOWHERE
from generator.records.kind import Example, Kind
from generator.records.located import Text

ID = re.compile(r"[A-Za-z0-9]+(-[A-Za-z0-9]+)*")
_LONGEST_ID = 60
# Names of devices, which no file may have on some systems: Microsoft, “Naming Files, Paths, and Namespaces”.
RESERVED = re.compile(r"con|prn|aux|nul|com\d|lpt\d", re.IGNORECASE | re.ASCII)


class Id(Kind[Text]):
    """The name by which other records call this one."""

    example = Example("night-watch")
    takes = "id"

    def read(self, text: Text) -> Text:
        if not ID.fullmatch(text) or len(text) > _LONGEST_ID:
            tidy = re.sub(r"[^A-Za-z0-9]+", "-", text).strip("-")[:_LONGEST_ID] or "night-watch"
            raise self.wrong(
                "R306",
                text,
                help_=f"write `{tidy}`",
                says=f"an id is letters and digits with single hyphens, at most {_LONGEST_ID}",
            )
        if RESERVED.fullmatch(text):
            raise self.wrong(
                "R326",
                text,
                help_=f"write `{text}-1`, or another name",
                says=f"`{text}` is the name of a device on some systems, where no file can be called so",
            )
        return text

    def bounds(self) -> str:
        return "letters, digits, single hyphens"


class Reference(Text):
    """The id of an entry of another family."""

    __slots__ = ("family",)
    family: str

    @classmethod
    def to(cls, text: str, family: str, place: Place) -> Reference:
        made = cls(text)
        made.place, made.family, made.origin = place, family, NOWHERE
        return made


class Ref(Kind[Reference]):
    """The id of an entry of another family; whether it is there is checked when everything is read."""

    def __init__(self, family: str, example: Example | None = None) -> None:
        self.family = family
        self.takes = f"id of an entry in `{family}`"
        self.example = example or Example(f"an id from `{family}`", typed=False)

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.with_info_plain_validator_function(self._read_and_note)

    def _read_and_note(self, value: object, info: core_schema.ValidationInfo) -> Reference:
        """Handed on by the context too, so that a reference is checked even where its record has another mistake."""
        read = self._read(value)
        if isinstance(info.context, list) and isinstance(value, Text):
            info.context.append(read)
        return read

    def read(self, text: Text) -> Reference:
        return Reference.to(text, self.family, text.place)


DisinfectantId = Annotated[Reference, Ref("disinfectants")]
GroupingId = Annotated[Reference, Ref("groupings")]
InkId = Annotated[Reference, Ref("inks")]
MachineId = Annotated[Reference, Ref("machines")]
NeedleId = Annotated[Reference, Ref("groupings", Example("1207RL"))]
PersonId = Annotated[Reference, Ref("people")]
ProcedureId = Annotated[Reference, Ref("procedures")]
Source = Annotated[Reference, Ref("sources")]
TechniqueId = Annotated[Reference, Ref("techniques")]
ValueId = Annotated[Reference, Ref("values")]
