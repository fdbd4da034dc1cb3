"""Which line comes after which: the stencil first, then as few changes of cartridge and ink as it allows.

Inside one row of the hand's reach a grouping is kept together only among parts of which none lies wholly nearer to or
wholly on the hand's side of the others. Areas keep the order of inks; inside one ink a cartridge that the next ink
needs too comes last.
"""

from __future__ import annotations

import math
from collections.abc import Hashable, Iterable, Mapping, Sequence
from typing import TypeVar

from generator.trade import layout, shapes

# The directions in which a shape's reach is measured, in degrees as the artist sees an unturned piece.
_TOWARDS = {"the artist": 90.0, "away": 270.0, "right": 0.0, "left": 180.0}
_OTHER = {"right": "left", "left": "right"}

T = TypeVar("T")


def lined_first(parts: Mapping[str, shapes.Shape], hand: str, turned: float, row: float) -> dict[str, frozenset[str]]:
    """The parts that have to be lined before each part, in the order of `layout.lining_order`.

    A part waits for everything in a nearer row of the hand's reach, and in its own row for what lies wholly
    nearer or wholly on the side of the hand. Parts that lie beside each other in no such way are free.
    """
    reach = {
        side: {name: round(shapes.reach(shape, angle - turned), 9) for name, shape in parts.items()}
        for side, angle in _TOWARDS.items()
    }
    near, far = reach["the artist"], reach["away"]
    nearest = max(near.values(), default=0.0)
    rows = {name: math.floor(round((nearest - near[name]) / row, 9)) for name in parts}

    def waits(name: str, earlier: str) -> bool:
        if rows[name] != rows[earlier]:
            return True
        wholly_nearer = -far[earlier] >= near[name]
        return wholly_nearer or -reach[_OTHER[hand]][earlier] >= reach[hand][name]

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
