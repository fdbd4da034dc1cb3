"""The map of a sheet: as large as side 1 has room for, beside the words on the skin or above them.

How tall it may be is calculated before it is drawn, from the shape of the piece: a map grows as its piece does, and its
letters do not. It is laid out again only where its tags took other room than was thought.
"""

from __future__ import annotations

from dataclasses import replace
from typing import NamedTuple

from generator.planning.plan import JobPlan
from generator.press.drawings.map import LEAST_ON_SHEET, ON_SHEET, ON_SHEET_FLAT, DrawnMap, Room, drawn_map, is_flat
from generator.press.sheet import sizes
from generator.press.sheet.sides import air_of, free_on_front, left_on_front, middle_height
from generator.press.sheet.view import Sheet
from generator.records.studio import Studio

# How often a map is laid out at most.
_TRIES = 3
# A map is as tall as it was meant to be when it is so near, in mm; its height is sought so finely; so much is kept, so
# that no sum decides otherwise.
_NEARLY, _FINE, _KEPT = 1.0, 0.2, 0.1
# A map above the words is preferred when it is so many times as tall as one beside them.
_WORTH_IT = 1.05
# About what tags, strip and air take beyond the piece, in mm: across and down.
_BEYOND = 17.0, 6.5


# The layouts: beside the words on the skin, which have the rest of the width, or over them.
_BESIDE, _OVER = ON_SHEET, ON_SHEET_FLAT


class _Growing(NamedTuple):
    """How wide a map is at each height: known at one, it is so many times wider than taller from there."""

    wide: float
    tall: float
    ratio: float

    def wide_at(self, tall: float, layout: Room) -> float:
        return min(layout.widest, self.wide + self.ratio * (tall - self.tall))

    def tallest(self, layout: Room) -> float:
        """The height at which it is as wide as it may be."""
        return self.tall + (layout.widest - self.wide) / self.ratio


def with_the_largest_map(sheet: Sheet, plan: JobPlan, start: str | None, studio: Studio) -> Sheet:
    """The sheet with its map. start: the part that is lined first.

    The rows of the order get their air first, and the map what is left; where that is less than its least height, it
    takes the air of the rows. Where they go on on another side, it takes what the last one here leaves.
    """
    width, height = plan.job.size[0].low, plan.job.size[1].low
    grows = _Growing(*_BEYOND, width / height)
    whole = free_on_front(sheet) + middle_height(sheet) - _KEPT
    layout = _layout(sheet, whole - air_of(sheet.rows), grows, is_flat(width, height))
    tried: list[tuple[bool, float, Sheet, DrawnMap]] = []
    beyond, widest = grows.tall, layout.widest
    for _ in range(_TRIES):
        room = _room(sheet, whole, grows, layout)
        tall = _tallest(sheet, room, grows, layout) or min(LEAST_ON_SHEET, grows.tallest(layout))
        given = layout._replace(width=widest, height=tall - beyond, widest=widest, shows=studio.shows)
        drawn = drawn_map(plan, studio.limits.mole_clearance, start, given)
        made = _with(sheet, drawn.width, drawn.height, layout)
        fits = drawn.width < layout.widest + _KEPT and middle_height(made) <= room
        tried.append((fits, drawn.height if fits else -abs(drawn.height - tall), made, drawn))
        grows = _Growing(drawn.width, drawn.height, grows.ratio)
        if not fits or drawn.height > tall + _NEARLY:
            beyond += drawn.height - tall
        elif drawn.height > tall - _NEARLY or drawn.width > layout.widest - _NEARLY or widest > layout.widest:
            break
        else:
            # It is as wide as it may be, and has its tags at one side alone: room was kept for them at the other.
            widest += layout.widest - drawn.width
    # The tallest that fits; where none does, the one that is nearest to what was meant.
    *_, made, drawn = max(tried, key=lambda one: one[:2])
    return replace(made, map=str(drawn.svg))


def _layout(sheet: Sheet, room: float, grows: _Growing, flat: bool) -> Room:
    """Beside the words, unless the width that these leave makes it much smaller than it is above them."""
    if flat or grows.tallest(_BESIDE) < LEAST_ON_SHEET:
        return _OVER
    beside, over = (_tallest(sheet, room, grows, layout) or 0.0 for layout in (_BESIDE, _OVER))
    return _OVER if beside and over > _WORTH_IT * beside else _BESIDE


def _room(sheet: Sheet, whole: float, grows: _Growing, layout: Room) -> float:
    """The mm that the map has with its words. whole: what all rows leave without their air."""
    for left in (whole - air_of(sheet.rows), whole):
        if _tallest(sheet, left, grows, layout) is not None:
            return left
    # With the least map, and what the rows that fit below it leave.
    least = min(LEAST_ON_SHEET, grows.tallest(layout))
    made = _with(sheet, grows.wide_at(least, layout), least, layout)
    return middle_height(made) + max(_KEPT, left_on_front(made)) - _KEPT


def _tallest(sheet: Sheet, room: float, grows: _Growing, layout: Room) -> float | None:
    """How tall a map may be that has `room` mm with the words; nothing where its least height is too much."""

    def fits(tall: float) -> bool:
        return middle_height(_with(sheet, grows.wide_at(tall, layout), tall, layout)) <= room

    most = min(room - sizes.BELOW_BLOCK, grows.tallest(layout))
    low, high = min(LEAST_ON_SHEET, grows.tallest(layout)), most
    if most < low or not fits(low):
        return None
    if fits(most):
        return most
    while high - low > _FINE:
        middle = (low + high) / 2
        low, high = (middle, high) if fits(middle) else (low, middle)
    return low


def _with(sheet: Sheet, wide: float, tall: float, layout: Room) -> Sheet:
    """The sheet with room for a map of this size, in mm, which is not drawn yet."""
    return replace(sheet, map_wide=wide, map_tall=tall, map_over=layout == _OVER)
