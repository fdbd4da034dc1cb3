"""How wide a grouping works: as the studio measured it, else as its needles stand."""

from __future__ import annotations

from functools import lru_cache

from generator.planning.computed import Computed, Value, compute, counted, named, recorded
from generator.records.needles import Grouping
from generator.trade import labels, needles
from generator.trade.refusal import Refusal


def width_of(grouping: Grouping) -> Value:
    """Width of the fresh line where it was measured; the computed width of the needles otherwise."""
    if grouping.fresh_line is not None:
        return recorded(grouping.fresh_line)
    return computed_width(grouping)


def compared_width(grouping: Grouping) -> float:
    """By which needles are compared with each other, in mm: the needles' own width, where it can be computed.

    A measured line is narrower than its needles: beside the computed width of others it says nothing.
    """
    try:
        return computed_width(grouping).high
    except Refusal:
        return width_of(grouping).high


@lru_cache
def computed_width(grouping: Grouping) -> Computed:
    """Width of the bundle or the row, from the label and the record's spread."""
    label = labels.read_label(grouping.label)
    return compute(
        needles.grouping_width,
        "needle length",
        configuration=named(label.configuration, grouping.label),
        count=named(label.count, grouping.label),
        needle_diameter=counted(label.needle_diameter, grouping.label, "needle length"),
        spread=named(grouping.spread, grouping.origin_at("spread"), f"{grouping.spread or 'none'}"),
        hollow=named(grouping.packed == "hollow", grouping.packed, grouping.packed),
    )
