"""What today's records and formulas would say otherwise than the sheet of a finished job did.

Both are compared as they are printed, because only what is printed was worked with.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from generator.planning.findings.states import State
from generator.press.sheet.number_links import Labelled
from generator.press.sheet.rows import OrderRow
from generator.press.sheet.view import Sheet

NOTHING = "nothing"
_TRAY = "Tray, "


class Difference(NamedTuple):
    """One thing that would be otherwise: what it is, what the sheet said, and what it would say today."""

    what: str
    was: str
    now: str


def differences(was: Sheet, now: Sheet) -> tuple[Difference, ...]:
    """Everything printed that would be otherwise, in the order of the sheet, but for what may tell an answer."""
    untold = _untold(was, now)
    return tuple(
        Difference(what, before.get(what) or NOTHING, after.get(what) or NOTHING)
        for before, after in zip(_blocks(was), _blocks(now), strict=True)
        for what in dict.fromkeys((*before, *after))
        if before.get(what, "") != after.get(what, "") and what not in untold
    )


def _untold(was: Sheet, now: Sheet) -> set[str]:
    """What may tell an answer, by what it is."""
    then, today = _marks(was), _marks(now)
    if not any(then.values()):
        # A sheet that was kept before there were marks: what is not said today may tell an answer, and nobody knows.
        then = {what: what not in today for what in then}
    return {what for marks in (then, today) for what, may_tell in marks.items() if may_tell}


def _marks(sheet: Sheet) -> dict[str, bool]:
    """Whether each thing may tell an answer, of the blocks in which something may."""
    marks = {pair.label: pair.may_tell for pair in sheet.hands_off}
    marks |= {f"{_TRAY}{pair.label}": pair.may_tell for pair in sheet.tray}
    for pause in (*sheet.pauses, *sheet.more_to_tick):
        marks |= {f"{pause.point}: {box}": box in pause.may_tell for box in pause.items}
    return marks


def _blocks(sheet: Sheet) -> Iterator[dict[str, str]]:
    """What a sheet says, block by block, by what it is: of a verdict the word that lists say, and no finding."""
    yield {"Verdict": State.of_mark(sheet.mark).listed}
    yield _labelled(sheet.head)
    yield _labelled(sheet.hands_off)
    yield dict(_steps(sheet.rows))
    yield _labelled(sheet.order)
    yield _labelled(sheet.times)
    yield _labelled(sheet.sittings)
    yield _labelled(sheet.zones, "Longest at a stretch, ")
    yield {f"Ink {ink.name}": ", ".join((ink.amount, ink.caps, *ink.lots)) for ink in sheet.inks}
    yield _labelled(sheet.tray, _TRAY)
    pauses = (*sheet.pauses, *sheet.more_to_tick)
    yield {f"{pause.point}: {item}": "a box" for pause in pauses for item in pause.items}
    yield {f"Stop when: {one}": "said" for one in sheet.stop_signs}
    yield {f"Write down: {one}": "said" for one in sheet.write_down}
    yield _labelled(sheet.come_back)


def _labelled(pairs: Iterable[Labelled], of: str = "") -> dict[str, str]:
    found: dict[str, list[str]] = {}
    for pair in pairs:
        found.setdefault(f"{of}{pair.label.rstrip(':')}", []).append(pair.value)
    return {label: "; ".join(values) for label, values in found.items()}


# The fields of a row in the order in which they are said, and those that are called otherwise on paper.
_OF_A_STEP = (
    *("part", "technique", "needle", "hang_out", "machine", "stroke", "dial", "ink", "minutes", "over"),
    *("scars", "rest", "note", "stretch"),
)
_CALLED = {"hang_out": "hang-out", "over": "passes at most"}


def _steps(rows: Iterable[OrderRow]) -> Iterator[tuple[str, str]]:
    """Each number of a step by what it is, and the breaks by where they are."""
    last = "0"
    for row in rows:
        if row.is_break:
            yield f"Break after step {last}", row.pause
            continue
        last = row.number
        for name in _OF_A_STEP:
            yield f"Step {row.number}, {_CALLED.get(name, name)}", getattr(row, name)
