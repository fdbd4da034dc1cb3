"""One stroke for all rows of a machine where one fits: a machine is not set anew from row to row."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TypeVar

T = TypeVar("T")


def fewest_strokes(possible: Sequence[Mapping[float, T]], middles: Sequence[float]) -> list[float]:
    """The stroke of each row of one machine, in mm: one for all where one fits, else as few as may be.

    possible: the strokes that a row can be worked with, with anything beside them; middles: the middle of each row's
    usual strokes. Of strokes that fit as many rows the one nearest to their middles is taken, of two as near the
    shorter.
    """
    chosen: dict[int, float] = {}
    while len(chosen) < len(possible):
        left = [row for row in range(len(possible)) if row not in chosen]
        fits = {stroke: [row for row in left if stroke in possible[row]] for row in left for stroke in possible[row]}

        def worth(stroke: float, fits: Mapping[float, Sequence[int]] = fits) -> tuple[float, float, float]:
            rows = fits[stroke]
            off = sum(abs(stroke - middles[row]) for row in rows)
            return -len(rows), round(off, 9), stroke

        best = min(fits, key=worth)
        chosen |= dict.fromkeys(fits[best], best)
    return [chosen[row] for row in range(len(possible))]
