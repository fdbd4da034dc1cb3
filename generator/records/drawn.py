"""Where something lies on the piece: from its upper left corner, right and down."""

from typing import Annotated, Protocol

from pydantic import Field

from generator.quantities import Quantity
from generator.records.fields import Measure
from generator.records.kind import clashing, problem
from generator.records.located import Text
from generator.trade import shapes
from generator.trade.refusal import Refusal

Across = Annotated[Quantity, Measure("length", "0 mm", "1500 mm", "40 mm")]
Extent = Annotated[Quantity, Measure("length", "1 mm", "1500 mm", "60 mm")]
Spot = tuple[Across, Across]
Frame = tuple[Across, Across, Extent, Extent]
Points = Annotated[tuple[Spot, ...], Field(min_length=3, max_length=200)]

BOX = "an upright box: right and down from the upper left corner of the piece, then width and height"
ELLIPSE = "instead of a box: the ellipse inside such a box"
OUTLINE = "instead of a box: points [right, down] round the edge, in order; the last is joined to the first"


class Drawn(Protocol):
    """Something with a place and one shape."""

    @property
    def id(self) -> Text: ...
    @property
    def box(self) -> Frame | None: ...
    @property
    def ellipse(self) -> Frame | None: ...
    @property
    def outline(self) -> tuple[Spot, ...] | None: ...


def one_shape(thing: Drawn) -> None:
    """Raise a mistake unless exactly one of the three shapes is given, and is one."""
    given = [name for name in ("box", "ellipse", "outline") if getattr(thing, name) is not None]
    if not given:
        raise problem(
            "R316",
            found="none of the three",
            expected="`box`, `ellipse` or `outline`",
            help_="add `box: [40 mm, 40 mm, 60 mm, 60 mm]`",
            at="id",
            says=f"`{thing.id}` needs a `box`, an `ellipse` or an `outline`",
        )
    if len(given) > 1:
        raise clashing(
            given[1],
            expected="one shape",
            help_="keep one of them",
            says=f"`{thing.id}` has {' and '.join(f'`{name}`' for name in given)}",
        )
    try:
        if thing.outline is not None:
            shapes.area(shapes.Outline(tuple((across.low, down.low) for across, down in thing.outline)))
    except Refusal as refusal:
        raise problem(
            "R322",
            found="an outline that is no shape",
            expected=refusal.expected,
            help_=refusal.remedy,
            at="outline",
            says="the outline crosses itself or holds nothing",
        ) from None
