"""How wide a grouping works: as the studio measured it, else as its needles stand."""

from __future__ import annotations

from generator.planning.computed import Computed, Named, Recorded, Value, compute, recorded
from generator.records.needles import Grouping
from generator.trade import labels, needles


def width_of(grouping: Grouping) -> Value:
    """Width of the fresh line where it was measured; the computed width of the needles otherwise."""
    if grouping.fresh_line is not None:
        return recorded(grouping.fresh_line, f"groupings.{grouping.id}.fresh_line", grouping.source)
    return computed_width(grouping)


def computed_width(grouping: Grouping) -> Computed:
    """Width of the bundle or the row, from the label and the record's spread."""
    label = labels.read_label(grouping.label)
    where = f"groupings.{grouping.id}"
    return compute(
        needles.grouping_width,
        "length",
        configuration=Named(label.configuration, label.configuration, f"{where}.label", grouping.source),
        count=Named(label.count, str(label.count), f"{where}.label", grouping.source),
        needle_diameter=Recorded(
            label.needle_diameter, label.needle_diameter, "length", f"{where}.label", grouping.source
        ),
        spread=Named(grouping.spread, f"{grouping.spread or 'none'}", f"{where}.spread", grouping.source),
        hollow=Named(grouping.packed == "hollow", grouping.packed, f"{where}.packed", grouping.source),
    )
