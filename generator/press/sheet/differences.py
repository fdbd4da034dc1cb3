"""What today's records and formulas would say otherwise than the sheet of a finished job did.

Both are compared as they are printed, because only what is printed was worked with.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from itertools import chain
from typing import NamedTuple

from generator.press.sheet.number_links import Labelled
from generator.press.sheet.rows import OrderRow
from generator.press.sheet.view import Pause, Reason, Sheet

NOTHING = "nothing"
FINDING = "Finding: "


class Difference(NamedTuple):
    """One thing that would be otherwise: what it is, what the sheet said, and what it would say today."""

    what: str
    was: str
    now: str


def differences(was: Sheet, now: Sheet) -> tuple[Difference, ...]:
    """Everything printed that would be otherwise, in the order of the sheet."""
    return tuple(
        Difference(what, before or NOTHING, after or NOTHING)
        for what, before, after in chain(
            _both({"Verdict": was.verdict}, {"Verdict": now.verdict}),
            _both(_found(was), _found(now)),
            _pairs("", was.head, now.head),
            _pairs("", was.hands_off, now.hands_off),
            _both(_steps(was), _steps(now)),
            _pairs("", was.order, now.order),
            _pairs("", was.times, now.times),
            _pairs("", was.sittings, now.sittings),
            _pairs("Longest at a stretch, ", was.zones, now.zones),
            _both(_inks(was), _inks(now)),
            _pairs("Tray, ", was.tray, now.tray),
            _listed("Stays off the tray", was.swaps, now.swaps),
            _both(_boxes(was), _boxes(now)),
            _listed("Stop when", was.stop_signs, now.stop_signs),
            _listed("Write down", was.write_down, now.write_down),
            _pairs("", was.come_back, now.come_back),
        )
        if before != after
    )


def _both(was: Mapping[str, str], now: Mapping[str, str]) -> Iterator[Difference]:
    for what in dict.fromkeys((*was, *now)):
        yield Difference(what, was.get(what, ""), now.get(what, ""))


def _pairs(of: str, was: Iterable[Labelled], now: Iterable[Labelled]) -> Iterator[Difference]:
    return _both(_labelled(of, was), _labelled(of, now))


def _labelled(of: str, pairs: Iterable[Labelled]) -> dict[str, str]:
    found: dict[str, list[str]] = {}
    for pair in pairs:
        found.setdefault(f"{of}{pair.label.rstrip(':')}", []).append(pair.value)
    return {label: "; ".join(values) for label, values in found.items()}


def _found(sheet: Sheet) -> dict[str, str]:
    reasons: tuple[Reason, ...] = (*sheet.reasons, *sheet.notes)
    return {f"{FINDING}{one.reason}": f"{one.level}. {one.remedy}" for one in reasons}


def _steps(sheet: Sheet) -> dict[str, str]:
    """Each number of a step by what it is, and the breaks by where they are."""
    found: dict[str, str] = {}
    last: OrderRow | None = None
    for row in sheet.rows:
        if row.is_break:
            found[f"Break after step {last.number if last else 0}"] = row.pause
            continue
        last = row
        for what, said in (
            ("part", row.part),
            ("technique", row.technique),
            ("needle", row.needle),
            ("hang-out", row.hang_out),
            ("machine", row.machine),
            ("stroke", row.stroke),
            ("dial", row.dial),
            ("ink", row.ink),
            ("minutes", row.minutes),
            ("passes at most", row.over),
            ("scars", row.scars),
            ("rest", row.rest),
            ("note", row.note),
            ("stretch", row.stretch),
        ):
            found[f"Step {row.number}, {what}"] = said
    return found


def _inks(sheet: Sheet) -> dict[str, str]:
    return {f"Ink {ink.name}": ", ".join((ink.amount, ink.caps, *ink.lots)) for ink in sheet.inks}


def _boxes(sheet: Sheet) -> dict[str, str]:
    pauses: tuple[Pause, ...] = (*sheet.pauses, *sheet.more_to_tick)
    return {f"{pause.point}: {item}": "a box" for pause in pauses for item in pause.items}


def _listed(what: str, was: Iterable[str], now: Iterable[str]) -> Iterator[Difference]:
    return _both({f"{what}: {one}": "said" for one in was}, {f"{what}: {one}": "said" for one in now})
