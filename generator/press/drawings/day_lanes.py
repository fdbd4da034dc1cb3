"""A day by the clock: a lane for each artist, each chair and each machine, and dashed bands where something clashes."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

from markupsafe import Markup

from generator.planning.timing.clashes import Clash
from generator.press.drawings.svg import drawing, element, n, path, words

_WIDE, _LABELS, _LETTER = 1000.0, 170.0, 18.0
_HIGH, _LOW, _CAPTION, _APART = 40.0, 24.0, 20.0, 8.0
_TOP = 30.0


Across = Callable[[datetime.datetime], float]


class Block(NamedTuple):
    """Something that takes a lane from one time to another. kind: its class in the style sheet; label: may be empty."""

    kind: str
    label: str
    begins: datetime.datetime
    ends: datetime.datetime


class Caption(NamedTuple):
    """What stands above a lane, from a time on."""

    text: str
    at: datetime.datetime


class Lane(NamedTuple):
    """One row. captions: above it; a lane without any is a low one."""

    name: str
    blocks: tuple[Block, ...]
    captions: tuple[Caption, ...] = ()


def lanes_drawn(lanes: Sequence[Lane], clashes: Sequence[Clash], said: str) -> Markup:
    """The lanes below one another on one scale; nothing where there is nothing to draw. said: where it is in words."""
    times = [at for lane in lanes for block in lane.blocks for at in (block.begins, block.ends)]
    if not times:
        return Markup("")
    first = min(times).replace(minute=0, second=0, microsecond=0)
    scale = (_WIDE - _LABELS - 30) / max((max(times) - first).total_seconds(), 1.0)

    def across(at: datetime.datetime) -> float:
        return _LABELS + (at - first).total_seconds() * scale

    drawn: list[Markup] = []
    y = _TOP
    for lane in lanes:
        tall = _HIGH if lane.captions else _LOW
        y += _CAPTION if lane.captions else 0
        drawn += [words(across(one.at), y - 5, one.text, class_="job") for one in lane.captions]
        drawn.append(words(0, y + tall / 2 + _LETTER / 3, lane.name, class_="lane"))
        for block in lane.blocks:
            drawn += _drawn(block, across(block.begins), across(block.ends), y, tall)
        y += tall + _APART
    hours = [*_hours(first, max(times), across, y)]
    spans = [(across(clash.begins), across(clash.ends)) for clash in clashes]
    marked = [element("rect", class_="clash", x=x, y=_TOP, width=end - x, height=y - _TOP) for x, end in spans]
    return drawing(said, (0, 0, _WIDE, y), *hours, *drawn, *marked, class_="lanes")


def _drawn(block: Block, left: float, right: float, y: float, tall: float) -> Iterator[Markup]:
    yield element("rect", class_=block.kind, x=left, y=y, width=right - left, height=tall)
    # What is too short for its word is found by its time in the list.
    if block.label and right - left >= 0.6 * _LETTER * len(block.label) + 2:
        foot = y + tall / 2 + _LETTER / 3
        yield element("text", block.label, class_=block.kind, x=(left + right) / 2, y=foot, text_anchor="middle")


def _hours(first: datetime.datetime, last: datetime.datetime, across: Across, foot: float) -> Iterator[Markup]:
    hour, step = first, datetime.timedelta(hours=1 if last - first < datetime.timedelta(hours=13) else 2)
    while hour <= last:
        yield path("hour", f"M{n(across(hour))} {_TOP - 6:g}V{n(foot)}")
        yield words(across(hour), _TOP - 10, f"{hour:%H:%M}", text_anchor="middle")
        hour += step
