"""How far the needle hangs out: inside what technique, grouping and machine allow, as somebody chose or likes it.

It is never held against the thickness of skin: it is not the depth.
"""

from __future__ import annotations

import math

from generator.planning.computed import Value, compute, named, recorded
from generator.planning.working.choices import Wanted
from generator.planning.working.pieces import NoSetting, Piece
from generator.quantities import significant, within
from generator.records.families import Records
from generator.records.machines import Machine

_Span = tuple[float, float]


def hang_out_of(records: Records, piece: Piece, machine: Machine, chosen: Wanted) -> Value:
    """The one that is chosen, else one inside all three ranges, or nearest to the technique's where it lies apart."""
    technique, grouping = piece.technique, piece.grouping
    can = (grouping.hang_out, machine.hang_out)
    low, high = max(r.low for r in can), min(r.high for r in can)
    ranges = f"{grouping.id} {grouping.hang_out.text}, {machine.id} {machine.hang_out.text}"
    wanted = chosen.hang_out
    if wanted is not None:
        if not all(within(wanted.low, r.low, r.high, r.kind) for r in can):
            raise NoSetting(
                "J607",
                wanted.place or piece.place,
                found=f"“{wanted.text}”",
                expected=ranges,
                help="choose a hang-out inside both, or take it away",
                says="this hang-out is outside what grouping and machine allow",
            )
        return recorded(wanted)
    if low > high:
        raise NoSetting(
            "J608",
            piece.place,
            found=ranges,
            expected="ranges that meet",
            help="choose another grouping or machine, or mend one of the two records",
            says=f"no hang-out suits {grouping.id} and {machine.id} at once",
        )
    apart = max(low, technique.hang_out.low) > min(high, technique.hang_out.high)
    allowed = {
        name: named((range_.low, range_.high), range_, range_.text)
        for name, range_ in zip(("technique", "grouping", "machine"), (technique.hang_out, *can), strict=True)
    }
    if apart:
        return compute(nearest_hang_out, "needle length", **allowed)
    if chosen.likes is not None:
        return compute(longest_hang_out if chosen.likes == "long" else shortest_hang_out, "needle length", **allowed)
    step = recorded(records.studio.limits.hang_out_step)
    return compute(middle_hang_out, "needle length", **allowed, step=step)


def middle_hang_out(technique: _Span, grouping: _Span, machine: _Span, step: float) -> float:
    """The middle of what technique, grouping and machine allow, in whole steps; between two, the shorter."""
    lows, highs = zip(technique, grouping, machine, strict=True)
    low, high = max(lows), min(highs)
    # Nine digits, so that the last bits of a float do not choose between two steps.
    stepped = math.ceil(significant((low + high) / 2 / step - 0.5)) * step
    return min(max(stepped, low), high)


def longest_hang_out(technique: _Span, grouping: _Span, machine: _Span) -> float:
    """The longest that technique, grouping and machine have in common, as the artist likes it."""
    return min(technique[1], grouping[1], machine[1])


def shortest_hang_out(technique: _Span, grouping: _Span, machine: _Span) -> float:
    """The shortest that technique, grouping and machine have in common, as the artist likes it."""
    return max(technique[0], grouping[0], machine[0])


def nearest_hang_out(technique: _Span, grouping: _Span, machine: _Span) -> float:
    """What grouping and machine allow that is nearest to the technique's range, which lies apart from it."""
    low, high = max(grouping[0], machine[0]), min(grouping[1], machine[1])
    return low if low > technique[1] else high
