"""Which needle gets to which part of an area: a magnum where it fits, and a round for the rest.

An area is judged by its narrowest place where the job names one, else by the shape of its part. What a job names for
a row is taken: it is split like any other, and where it fits nowhere a finding says so.
"""

from __future__ import annotations

from collections.abc import Callable

from generator.planning.computed import Computed, Value, compute, counted, recorded
from generator.planning.working.calibration import cartridge_of
from generator.planning.working.pieces import Piece
from generator.planning.working.shapes import shape_as_operand, shape_key, sides_of
from generator.planning.working.widths import compared_width, width_of
from generator.quantities import Quantity
from generator.records.families import Records
from generator.records.needles import Grouping, Technique
from generator.records.parts import Colour, Lines, Part
from generator.trade import shapes

WIDE, NARROW = "wide places", "narrow places"


def pieces_of(records: Records, part: Part, work: Lines | Colour, technique: Technique) -> tuple[Piece, ...]:
    """The rows that one line or ink of a part becomes: one, or two where a magnum does not reach the whole of it."""
    usual = records.groupings[work.needle or technique.usual_grouping]
    if isinstance(work, Lines):
        return (Piece(part, work, technique, usual),)
    measured = work.narrowest or part.narrowest
    typed = measured.low if measured is not None else None
    whole = Piece(part, work, technique, usual, narrowest=min(sides_of(part)) if typed is None else typed)
    if cartridge_of(usual) == "round" or not technique.rounds:
        return (whole,)
    limit = records.studio.limits.left_to_round
    round_ = whole._replace(grouping=_round_for(records, part, work, technique), narrowest=typed)
    if part.role == "lettering":
        return (round_ if work.needle is None else whole,)
    left = _left(part, work, width_of(usual))
    if left.high < limit.low and not (measured is not None and left.high > 0):
        # What is narrower is worked in passing.
        return (whole._replace(narrowest=None),)
    if left.low > 100 - limit.low:
        return (round_ if work.needle is None else whole,)
    # Somebody has seen a place that is too narrow: it is never nothing.
    left = left if left.low >= limit.low else compute(at_least, "share", share=left, least=recorded(limit))
    return (
        whole._replace(share=compute(the_rest, "share", share=left), places=WIDE, narrowest=None),
        round_._replace(share=left, places=NARROW),
    )


def the_rest(share: float) -> float:
    """100 − share: what is left of the whole, in percent."""
    return 100 - share


def at_least(share: float, least: float) -> float:
    """The share, or the least that counts where it is smaller."""
    return max(share, least)


def share_of_area(area: float, share: float) -> float:
    """area · share / 100: the part of an area that is worked with one needle."""
    return area * share / 100


def _left(part: Part, work: Colour, width: Value) -> Computed:
    """The share of an area that a needle of this width does not reach."""
    if (measured := work.narrowest or part.narrowest) is not None:
        return compute(
            shapes.not_reached_by_taper,
            "share",
            narrowest=recorded(measured),
            widest=counted(min(sides_of(part)), part.origin_at(shape_key(part)), "length"),
            width=width,
        )
    return compute(shapes.not_reached, "share", shape=shape_as_operand(part), width=width)


def fits(records: Records, piece: Piece, grouping: Grouping) -> bool:
    """Whether a grouping gets wherever the one that is planned for a row of an area gets, or wherever it has to."""
    assert isinstance(piece.work, Colour)
    if compared_width(grouping) <= compared_width(piece.grouping):
        return True
    return piece.places != WIDE and _fits(records, piece.part, piece.work)(grouping)


def _round_for(records: Records, part: Part, work: Colour, technique: Technique) -> Grouping:
    """The first round of the technique that fits, else its last; in letters one no wider than their counters."""
    rounds = [records.groupings[name] for name in technique.rounds]
    reaches = _fits(records, part, work)
    return next((one for one in rounds if reaches(one)), rounds[-1])


def _fits(records: Records, part: Part, work: Colour) -> Callable[[Grouping], bool]:
    counter = part.gap if part.role == "lettering" else None
    place: Quantity | None = work.narrowest or counter or part.narrowest
    if place is not None:
        room = place.low
        return lambda one: width_of(one).high <= room
    if part.role == "lettering":
        return lambda one: False
    limit = records.studio.limits.left_to_round.low
    return lambda one: _left(part, work, width_of(one)).high < limit
