"""Another grouping of the same technique: the hand that keeps the spacing, and the speed that misleads."""

from __future__ import annotations

from typing import NamedTuple

from generator.planning.computed import Computed, Recorded, compute, named, recorded
from generator.planning.working.technique import dial_row
from generator.records.families import Records
from generator.records.needles import Dial, Grouping, Technique
from generator.trade import density, labels


class Swap(NamedTuple):
    """Two groupings of one technique: the one put down and the one taken up."""

    technique: Technique
    before: Grouping
    after: Grouping


def swap_to_show(records: Records) -> Swap | None:
    """The largest grouping of a technique, taken up for the largest of those that run at another speed."""
    for technique in records.techniques.values():
        shelf = sorted(shelf_of(technique, records), key=lambda pair: needles_of(pair[0]))
        if not shelf:
            continue
        after, row = shelf[-1]
        others = [g for g, other in shelf if other.usual != row.usual and needles_of(g) < needles_of(after)]
        if others:
            return Swap(technique, others[-1], after)
    return None


def shelf_of(technique: Technique, records: Records) -> list[tuple[Grouping, Dial]]:
    """The groupings on the shelf that the technique is worked with, each with its row of speeds."""
    rows = ((grouping, dial_row(technique, grouping)) for grouping in records.groupings.values())
    return [(grouping, row) for grouping, row in rows if row is not None]


def needles_of(grouping: Grouping) -> int:
    """How many needles a grouping has."""
    return labels.read_label(grouping.label).count


def hand_of(technique: Technique) -> Recorded:
    """The technique's hand speed as an input."""
    return recorded(technique.hand_speed)


def speed_of(technique: Technique, grouping: Grouping) -> Recorded:
    """The usual machine speed for a grouping that the technique is worked with, as an input."""
    row = dial_row(technique, grouping)
    assert row is not None
    return recorded(row.usual)


def hand_speed_kept(technique: Technique, before: Grouping, after: Grouping) -> Computed:
    """The hand speed with the new grouping that keeps the spacing of the old one."""
    return compute(
        density.hand_speed_after_swap,
        "hand speed",
        hand_speed=hand_of(technique),
        frequency=speed_of(technique, before),
        new_frequency=speed_of(technique, after),
    )


def misleading_speed(swap: Swap) -> Computed:
    """The machine speed of constant density: shown as a warning, never set."""
    return compute(
        density.constant_density_frequency,
        "frequency",
        frequency=speed_of(swap.technique, swap.before),
        count=named(needles_of(swap.before), swap.before.label),
        new_count=named(needles_of(swap.after), swap.after.label),
    )
