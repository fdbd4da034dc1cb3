"""The parts of a drawing, with their lines and colours.

Where a job gives no area, the inks of a part share `limits.filled` of its box; white takes `limits.highlight`.
"""

import math
import re
from dataclasses import replace
from itertools import pairwise
from typing import Annotated

from pydantic import Field
from pydantic_core import PydanticCustomError

from generator.near_miss import did_you_mean, nearest
from generator.origins import origin_of
from generator.quantities import Quantity
from generator.records.drawn import BOX, ELLIPSE, OUTLINE, Frame, Points, one_shape
from generator.records.fields import Choice, Measure, Note, OrUnknown, Pair, Yes, word_alone
from generator.records.ids import ID, Id, InkId, MachineId, NeedleId, TechniqueId
from generator.records.kind import Example, Kind, clashing, problem, repeated
from generator.records.located import Listing, Mapping, Text
from generator.records.machines import Stroke
from generator.records.record import Record, between_keys, optional

# From the coarsest to the finest.
DETAILS = ("broad", "medium", "fine")

DialPoint = Annotated[Quantity, Measure("frequency", "20 Hz", "250 Hz", "95 Hz", others={"voltage": ("1 V", "24 V")})]


class Choices(Record):
    """What a row, a part, a job or an artist may choose; the nearest to the row wins, the studio's usual comes last."""

    machine: MachineId | None = optional("another machine")
    stroke: Stroke | None = optional("another stroke, one that the machine can be set to")
    dial: DialPoint | None = optional("another dial setting, in what the machine's dial shows")
    hang_out: Annotated[Quantity, Measure("needle length", "0.5 mm", "6 mm", "3 mm")] | None = None
    """another hang-out"""


class Settings(Choices):
    """What a job may choose for one piece of work; everything else comes from the technique."""

    technique: TechniqueId | None = optional("another technique")
    needle: NeedleId | None = optional("grouping")


class Lines(Settings):
    """Lines of one part run with one grouping."""

    ink: InkId | None = optional("its ink; the job's `line_ink` where none is named, else the studio's")
    length: Annotated[Quantity, Measure("length", "5 mm", "100 m", "900 mm", span=True)]
    """length of all these lines"""


class Colour(Settings):
    """One ink on one part. An ink's id alone is enough."""

    ink: InkId = Field(description="the ink")
    area: Annotated[Quantity, Measure("area", "0.05 cm²", "5000 cm²", "12 cm²", span=True)] | None = None
    """area it covers; a share of the part where none is given"""
    narrowest: Annotated[Quantity, Measure("length", "0.2 mm", "500 mm", "3 mm")] | None = None
    """narrowest place it fills; a round fills what a magnum is too wide for, as the part says, or its shape, where none
    is given"""


_SMALLEST = "10 mm", "10 mm", 10.0
_SIZE = Pair("10 mm", "1200 mm")


_SHAPES = {"box", "ellipse", "outline"}
# What only a job has that is more than an enquiry.
_NO_ENQUIRY = {"screening", "finished", "sitting", "touch_up"}


def fill_shapes(job: Mapping, parts: Listing) -> None:
    """Give parts that nobody has drawn yet a place, in the job as it was read.

    A part that is alone takes the whole size of the piece. Several parts of an enquiry share it from top to bottom, if
    none of them has a shape. A size that is no size is one mistake, and not one of each part too.
    """
    undrawn = [part for part in parts if isinstance(part, Mapping) and not part.keys() & _SHAPES]
    if not parts or len(undrawn) < len(parts) or (len(parts) > 1 and job.keys() & _NO_ENQUIRY):
        return
    size = job.get("size")
    width, heights = _shared(size, len(parts))
    for part, (top, height) in zip(undrawn, heights, strict=True):
        there = size if isinstance(size, Text) else part
        origin = replace(part.origin, keys=(*part.origin.keys, "box"), default=True)
        box = Listing.at((Text.at(side, there.place) for side in ("0 mm", top, width, height)), there.place, origin)
        for side in box:
            side.origin = origin
        part["box"], part.key_places["box"] = box, there.place


def fill_broken_parts(parts: Listing) -> None:
    """Where a key of a part is no word, what the part lacks cannot be known: its fineness counts as written."""
    for part in parts:
        if isinstance(part, Mapping) and part.incomplete and "detail" not in part:
            part["detail"], part.key_places["detail"] = Text.at(DETAILS[-1], part.place), part.place


def _shared(size: object, parts: int) -> tuple[str, list[tuple[str, str]]]:
    """The width of a piece, and for each of its parts where it begins and how high it is."""
    width, height, high = _SMALLEST
    if isinstance(size, Text):
        try:
            high = _SIZE.read(size)[1].low
        except PydanticCustomError:
            pass
        else:
            width, height = re.split(r"\s+[x×]\s+", size)
    if parts == 1:
        return width, [("0 mm", height)]
    # Nobody measured the shares: whole millimetres, but where there are more parts than those.
    steps = 1 if high >= parts else 100
    ends = [*(math.floor(high * number / parts * steps) / steps for number in range(parts)), high]
    return width, [(f"{top:g} mm", f"{below - top:g} mm") for top, below in pairwise(ends)]


# What may close a band besides another part.
WAYS_TO_CLOSE = (ON_THE_SKIN, OWN_ENDS, LEFT_OPEN) = ("drawn on the skin", "its own ends", "left open")


class Closing(Kind[Text]):
    """What closes a band: another part, or one of three ways."""

    takes = f"id of another part, `{ON_THE_SKIN}`, `{OWN_ENDS}` or `{LEFT_OPEN}`"
    example = Example(ON_THE_SKIN)

    def read(self, text: Text) -> Text:
        if text in WAYS_TO_CLOSE or ID.fullmatch(text):
            return text
        near = nearest(text.lower(), WAYS_TO_CLOSE)
        raise self.wrong("R307", text, help_=did_you_mean(near, f"write the id of a part, or {self.example}"))


class Part(Choices):
    """One part of the drawing. A machine, stroke, dial or hang-out named here holds for all its rows."""

    id: Annotated[Text, Id()] = Field(description="its name in this job")
    role: Annotated[str, Choice(("main", "secondary", "filler", "lettering"))] = "main"
    """its weight in the piece; `main` where none is given"""
    focal: Yes = Field(default=False, description="whether the eye is meant to rest on it")
    band: Yes = Field(default=False, description="whether it runs round the limb, and is drawn on an arc to look level")
    closed_by: Annotated[Text | None, OrUnknown(Closing())] = None
    """what fills the opening between the ends of a band that runs all round"""
    box: Frame | None = optional(BOX)
    ellipse: Frame | None = optional(ELLIPSE)
    outline: Points | None = optional(OUTLINE)
    detail: Annotated[str, Choice(DETAILS)] = DETAILS[-1]
    """how fine it is; an enquiry may leave it open, which counts as the finest"""
    gap: Annotated[Quantity | None, OrUnknown(Measure("length", "0.1 mm", "100 mm", "1.5 mm"))] = None
    """tightest gap between its lines; in lettering the smallest counter"""
    narrowest: Annotated[Quantity | None, OrUnknown(Measure("length", "0.2 mm", "500 mm", "3 mm"))] = None
    """narrowest place that its inks fill; asked about where nobody says it, unless letters have a `gap` or the part an
    `outline`"""
    lines: tuple[Lines, ...] = Field(default=(), description="its lines, by grouping")
    colours: tuple[Annotated[Colour, word_alone("ink")], ...] = ()
    """its inks: ids, or mappings that say more"""
    note: Note | None = optional("what the artist has to know at this part, printed in its first row of the order")

    @between_keys
    def has_work(self) -> None:
        if not self.lines and not self.colours:
            raise problem(
                "R316",
                found="neither",
                expected="`lines` or `colours`",
                help_="add what is done on it, or take the part away",
                at="id",
                says="a part needs lines or colours",
            )

    @between_keys
    def only_bands_are_closed(self) -> None:
        if self.closed_by is not None and not self.band:
            raise clashing(
                self.closed_by,
                expected="`band: yes`",
                help_="add `band: yes`, or take `closed_by` away",
                says=f"`{self.id}` is no band, and has no ends to close",
            )

    @between_keys
    def each_ink_once(self) -> None:
        """One ink may be worked in two ways; worked in one way twice, one of the two areas is a copy."""
        for colour, first in repeated(((c.ink, c.technique, c.needle, c.machine), c) for c in self.colours):
            raise problem(
                "R318",
                colour.ink,
                expected="each ink once in a part, or with another technique, needle or machine",
                help_="add the areas up, or take one of the two away",
                says=f"the ink `{colour.ink}` stands twice (first on line {first.ink.place.line})",
            )

    @between_keys
    def has_one_shape(self) -> None:
        one_shape(self)
        if self.box is not None and origin_of(self.box[0]).default:
            self.model_fields_set.discard("box")  # nobody wrote it
