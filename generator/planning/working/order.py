"""Which line comes after which: the stencil first, then as few changes of cartridge and ink as it allows.

Inside one row of the hand's reach a grouping is kept together only among parts of which none lies nearer to the artist
or more on the hand's side than the others, with both its edges.

Areas are worked part by part, or ink by ink over the whole piece; inside one ink a cartridge that the next ink needs
too comes last.

Part by part, the part with the darkest ink comes first, and is finished before the next begins: its black and washes,
then its colours from dark to light, those of one hue in one go. Only a light ink that lies beside a darker one waits
for it, in another part too, because a dark ink that is laid later dirties it; what is free of such a wait goes on.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Hashable, Iterable, Mapping, Sequence
from itertools import groupby
from typing import Generic, NamedTuple, TypeVar

from generator.grouped import grouped
from generator.trade import layout, shapes

# The directions in which a shape's reach is measured, in degrees as the artist sees an unturned piece.
_TOWARDS = {"the artist": 90.0, "away": 270.0, "right": 0.0, "left": 180.0}
_OTHER = {"right": "left", "left": "right"}

T = TypeVar("T")


class Area(NamedTuple, Generic[T]):
    """An area to be filled. tool: what is in the hand for it.

    layer and lightness: those of `palette.laying_order`; hue: its family, "" for an ink that is no part of a blend.
    """

    part: str
    ink: str
    tool: Hashable
    layer: int
    lightness: float
    chroma: float
    hue: str
    work: T

    @property
    def rank(self) -> tuple[int, float, str]:
        """When it is laid."""
        return self.layer, self.lightness, self.ink


def lined_first(parts: Mapping[str, shapes.Shape], hand: str, turned: float, row: float) -> dict[str, frozenset[str]]:
    """The parts that have to be lined before each part, in the order of `layout.lining_order`.

    A part waits for everything in a nearer row of the hand's reach, and in its own row for what lies nearer or more
    on the side of the hand with both its edges, because there the hand would rest. Parts of which one lies within the
    reach of the other are free.
    """
    reach = {
        side: {name: round(shapes.reach(shape, angle - turned), 9) for name, shape in parts.items()}
        for side, angle in _TOWARDS.items()
    }
    near = reach["the artist"]
    nearest = max(near.values(), default=0.0)
    rows = {name: math.floor(round((nearest - near[name]) / row, 9)) for name in parts}

    def waits(name: str, earlier: str) -> bool:
        def more(towards: str, away: str) -> bool:
            front = reach[towards][earlier] - reach[towards][name]
            back = reach[away][name] - reach[away][earlier]
            return min(front, back) >= 0 and max(front, back) > 0

        return rows[name] != rows[earlier] or more("the artist", "away") or more(hand, _OTHER[hand])

    order = layout.lining_order(parts, hand, turned, row)
    return {
        name: frozenset(earlier for earlier in order[:number] if waits(name, earlier))
        for number, name in enumerate(order)
    }


def lines_in_order(lines: Sequence[tuple[str, Hashable, T]], before: Mapping[str, frozenset[str]]) -> list[T]:
    """The lines of all parts, each given with its part and what is in the hand for it, such as needle and ink.

    before: the parts in order, each with those that have to be done first. Of the lines that may come next, one
    with what is in the hand is taken; otherwise the first in order, and of its part what is needed again last.
    """
    place = {part: number for number, part in enumerate(before)}
    waiting = sorted(lines, key=lambda line: (place[line[0]], str(line[1])))
    done: list[T] = []
    held: Hashable = None
    while waiting:
        left = {part for part, _, _ in waiting}
        free = [line for line in waiting if not before[line[0]] & left]
        here = [line for line in free if line[0] == free[0][0]]
        later = [tool for part, tool, _ in waiting if part != free[0][0]]
        # The longer nothing else is lined with it, the sooner it is put away.
        here.sort(key=lambda line: -(later.index(line[1]) if line[1] in later else len(later)))
        line = next((line for line in free if line[1] == held), here[0])
        waiting.remove(line)
        done.append(line[2])
        held = line[1]
    return done


def few_changes(buckets: Iterable[Sequence[tuple[Hashable, T]]]) -> list[T]:
    """What is in each bucket, bucket by bucket, with what is in the hand kept together and carried over.

    Inside a bucket what needs the tool in the hand comes first, and what needs a tool of the next bucket last.
    """
    listed = [list(bucket) for bucket in buckets]
    done: list[T] = []
    held: Hashable = None
    for number, bucket in enumerate(listed):
        following = {tool for tool, _ in listed[number + 1]} if number + 1 < len(listed) else set()
        tools = list(dict.fromkeys(tool for tool, _ in bucket))
        # Only one tool can be the last: more would be no better.
        last = next((tool for tool in tools if tool in following and tool != held), None)
        tools.sort(key=lambda tool: (tool != held, tool == last))
        for tool in tools:
            done += [item for needed, item in bucket if needed == tool]
        held = tools[-1] if tools else held
    return done


def ink_by_ink(areas: Sequence[Area[T]]) -> list[T]:
    """The areas of the whole piece with one ink after the other, given in the order of their parts."""
    return _laid(sorted(areas, key=lambda area: area.rank), lambda area: area.rank)


def part_by_part(areas: Sequence[Area[T]], after: Mapping[int, frozenset[int]], colours: int) -> list[T]:
    """The areas part by part, given in the order in which parts are taken where nothing else decides.

    after: for an area, by number, those that have to be laid before it; blacks and washes wait for nothing.
    colours: the layer from which on inks are colours, which are laid when the black and the washes of a part are.
    """
    waiting = list(range(len(areas)))
    parts = list(dict.fromkeys(area.part for area in areas))
    darkest = {part: min((a.lightness, -a.chroma) for a in areas if a.part == part) for part in parts}
    parts.sort(key=lambda part: darkest[part])
    begun: list[str] = []
    laid: list[Area[T]] = []
    while waiting:
        held = laid[-1] if laid else None
        # The part in hand, then one that was left for another's dark ink, then the next.
        candidates = dict.fromkeys([*([held.part] if held else []), *begun, *parts])
        number = next(n for part in candidates if (n := _next(areas, after, waiting, part, held, colours)) is not None)
        waiting.remove(number)
        laid.append(areas[number])
        if areas[number].part not in begun:
            begun.append(areas[number].part)
    return _laid(laid, lambda area: (area.part, area.ink))


def _next(
    areas: Sequence[Area[T]],
    after: Mapping[int, frozenset[int]],
    waiting: Sequence[int],
    part: str,
    held: Area[T] | None,
    colours: int,
) -> int | None:
    """The area of a part that is laid next; None where all that is left of it waits for other parts."""
    here = sorted((n for n in waiting if areas[n].part == part), key=lambda n: areas[n].rank)
    if not here or areas[here[0]].layer < colours:
        return here[0] if here else None

    def waits_for(number: int) -> set[int]:
        return set(after.get(number, ())) & set(waiting)

    blends = grouped((areas[number].hue or areas[number].ink, number) for number in here)
    free = [number for number in here if not waits_for(number)]
    in_hand = held.hue or held.ink if held is not None and held.part == part else None
    going_on = [number for number in free if number in blends.get(in_hand or "", ())]
    # A blend of which nothing waits for an ink outside it is laid in one go.
    whole = [n for blend in blends.values() for n in blend[:1] if all(waits_for(b) <= set(blend) for b in blend)]
    return next(iter((*going_on, *sorted(whole, key=lambda n: areas[n].rank), *free)), None)


def _laid(areas: Iterable[Area[T]], together: Callable[[Area[T]], Hashable]) -> list[T]:
    buckets = [[(area.tool, area.work) for area in bucket] for _, bucket in groupby(areas, key=together)]
    return few_changes(buckets)
