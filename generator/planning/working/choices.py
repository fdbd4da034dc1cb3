"""Who chose what: machine, stroke, dial and hang-out of one row.

Row, part and job say what has to be, the nearest to the row first. What the artist's own record says is a habit: it
yields where machine or needle cannot do it. What nobody chose is the studio's usual.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from typing import TypeVar

from generator.quantities import Quantity
from generator.records.located import Text
from generator.records.parts import Choices
from generator.records.people import OwnSettings

T = TypeVar("T")

KEYS = ("machine", "stroke", "dial", "hang_out")


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is chosen for one row; None where it is left to the studio. `likes`: a short or a long hang-out."""

    machine: Text | None = None
    stroke: Quantity | None = None
    dial: Quantity | None = None
    hang_out: Quantity | None = None
    likes: str | None = None


NOTHING = Wanted()


def asked_for(*levels: Choices) -> Wanted:
    """What these say, the nearest to the row first."""
    return Wanted(
        _nearest(level.machine for level in levels),
        _nearest(level.stroke for level in levels),
        _nearest(level.dial for level in levels),
        _nearest(level.hang_out for level in levels),
    )


def _nearest(said: Iterable[T | None]) -> T | None:
    return next((value for value in said if value is not None), None)


def with_habits(asked: Wanted, own: OwnSettings | None, likes: str | None, can: Callable[[Wanted], bool]) -> Wanted:
    """With what the artist is used to, as far as it can be set up.

    A stroke and a dial setting that belong to a machine are used on that machine only.
    """
    made = asked
    for key in KEYS if own is not None else ():
        habit = getattr(own, key)
        elsewhere = key in ("stroke", "dial") and own is not None and own.machine not in (None, made.machine)
        if habit is None or elsewhere or getattr(made, key) is not None:
            continue
        tried = replace(made, **{key: habit})
        made = tried if can(tried) else made
    return made if made.hang_out is not None or likes is None else replace(made, likes=likes)
