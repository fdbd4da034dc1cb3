"""A sheet divided into its sides, so that each carries its own footer and the order says where it continues.

Heights are calculated, not measured, and a little too large: what does not fit goes to a second sheet of paper. They
are calculated for the shorter and the narrower of the two papers at once, so that one division fits both.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import NamedTuple

from generator.press.sheet.contents import Sheet, SheetInk
from generator.press.sheet.rows import OrderRow
from generator.press.sheet.sittings import Labelled
from generator.press.words.text_width import POINT, lines_of, rows_of, width_of

# mm: A4 is the narrower paper, Letter the shorter one; the margins are those of the template's @page,
# the left one with the strip beside it in which the line of the print stands.
WIDTH = 210 - 2 * 11
ROOM = 279.4 - 8 - 10
SPARE = 10.0
_TABLE_HEAD = 9.5
_CONTINUES = 5.8
MORE = 1.6  # mm that a row of the order is taller where its side has the room; the template sets it from here
_LINE = 11 * 1.22 * POINT
_SMALL = 10 * 1.15 * POINT
_FOOT_LINE = 9.5 * 1.22 * POINT
_HEADING = 11.5 * 1.22 * POINT + 2.5
_GAP = 4.0  # between the map and the words
SIGNS = 1.55  # how much wider the stop signs stand than the words on the skin; the template takes it from here
# The columns of the order in mm; the step has what they leave. The template takes them from here.
COLUMNS = {"section": 6.0, "number": 7.0, "needle": 22.0, "dial": 38.6, "ink": 28.6, "minutes": 19.2}
_PADDING = 2.4
# All cells of a row stand on one line, that of the dial: its letters are the tallest.
_LOWER = 2 * POINT


class _Piece(NamedTuple):
    """Something that is not divided. `kind` tells the template where it belongs."""

    kind: str
    height: float
    value: object = None


@dataclass(frozen=True, slots=True)
class Side:
    """One side of paper.

    airy: its order has room for taller rows. order_from: the sheet on which the order began, where it is continued
    here.
    """

    number: int
    of: int
    head: bool
    reasons: tuple[object, ...]
    middle: bool
    rows: tuple[OrderRow, ...]
    blocks: tuple[str, ...]
    airy: bool
    order_continues_on: int | None
    order_from: int | None
    blocks_continue_on: int | None

    @property
    def sheet(self) -> int:
        """The sheet of paper it is a side of."""
        return (self.number + 1) // 2


def sides_of(sheet: Sheet) -> tuple[Side, ...]:
    """The sides of a sheet: front, back, and the sides of further sheets where the two are too small."""
    front, back = list(_front(sheet)), list(_back(sheet))
    room = ROOM - SPARE - _footer(sheet)
    taken = [_take(front, room), _take(back, room)] if sheet.goes_ahead else []
    rest = front + back
    while rest:
        taken.append(_take(rest, room))
    return tuple(_side(number, taken, room) for number in range(1, len(taken) + 1))


def _footer(sheet: Sheet) -> float:
    """What stands at the foot of every side; the stamp and the numbers take as much as their longest."""
    words = f"{sheet.job} · stamp {8 * '0'} · side 10 of 10, sheet 10 · keep out of the splash zone, or in a sleeve"
    return lines_of(words, WIDTH, 9.5) * _FOOT_LINE + 2


def _take(pieces: list[_Piece], room: float) -> list[_Piece]:
    """What fits on one side, taken from the front of the list; one piece at least."""
    left = room
    taken: list[_Piece] = []
    in_order = False
    while pieces:
        height = pieces[0].height
        if pieces[0].kind == "row" and not in_order:
            height += _TABLE_HEAD
        if taken and height > left:
            break
        in_order = in_order or pieces[0].kind == "row"
        left -= height
        taken.append(pieces.pop(0))
    if pieces and left < _CONTINUES and len(taken) > 1:
        pieces.insert(0, taken.pop())
    return taken


def _side(number: int, taken: list[list[_Piece]], room: float) -> Side:
    here, later = taken[number - 1], taken[number:]
    rows = [piece.value for piece in here if piece.kind == "row" and isinstance(piece.value, OrderRow)]
    on = [n for n, side in enumerate(taken, 1) if any(piece.kind == "row" for piece in side)]
    next_blocks = [n for n, side in enumerate(later, number + 1) if any(p.kind == "block" for p in side)]
    next_rows = [n for n in on if n > number]
    blocks = tuple(str(piece.value) for piece in here if piece.kind == "block")
    return Side(
        number=number,
        of=len(taken),
        head=number == 1,
        reasons=tuple(piece.value for piece in here if piece.kind == "reason"),
        middle=any(piece.kind == "middle" for piece in here),
        rows=_spanned(rows),
        blocks=blocks,
        airy=sum(piece.height for piece in here) + _TABLE_HEAD + _CONTINUES + MORE * len(rows) <= room,
        order_continues_on=(next_rows[0] + 1) // 2 if next_rows and (rows or number == 1) else None,
        order_from=(on[0] + 1) // 2 if rows and on[0] < number else None,
        blocks_continue_on=(next_blocks[0] + 1) // 2 if blocks and next_blocks else None,
    )


def _spanned(rows: list[OrderRow]) -> tuple[OrderRow, ...]:
    """The rows of one side; the first of each section spans those of it that stand on this side."""
    counts = Counter(row.section for row in rows)
    begun: set[str] = set()
    spanned = []
    for row in rows:
        spanned.append(row if row.section in begun else replace(row, span=counts[row.section]))
        begun.add(row.section)
    return tuple(spanned)


def _front(sheet: Sheet) -> Iterator[_Piece]:
    words = [width_of(pair.label, 11) + 1.5 + width_of(pair.value, 11, True) for pair in sheet.head]
    over = sum(lines_of(f"{pair.label} {pair.value}", WIDTH, 11, True) - 1 for pair in sheet.head)
    title = lines_of(sheet.title, WIDTH, 15, True) * 15 * 1.15 * POINT
    pairs = (rows_of(words, WIDTH, 5) + over) * (_LINE + 0.2) + 2
    yield _Piece("head", title + pairs + _verdict(sheet))
    for reason in sheet.reasons:
        text = f"{reason.level}: {reason.reason}{reason.source} → {reason.remedy}"
        yield _Piece("reason", lines_of(text, WIDTH - 5, 11) * 11 * 1.18 * POINT + 1.6, reason)
    # Skin and stop signs stand beside the map, or below it; the signs have the wider column and a bullet each.
    column = (WIDTH - _GAP if sheet.flat else WIDTH - sheet.map_wide - 2 * _GAP) / (1 + SIGNS)
    hands = sum(lines_of(f"{pair.label}: {pair.value}", column - 1.5, 10.5, True) for pair in sheet.hands_off)
    signs = sum(lines_of(sign, SIGNS * column - 5, 10) for sign in sheet.stop_signs)
    day = (_whole_pairs(sheet.times) + _whole_pairs(sheet.sittings)) * _LINE + 2.5
    headed = lines_of("Skin and allergies", column, 11.5, True) - 1
    words_tall = max(hands * _LINE + headed * _HEADING, signs * _SMALL) + _HEADING
    tall = sheet.map_tall + 0.8
    beside = tall + _GAP + words_tall if sheet.flat else max(tall, words_tall)
    yield _Piece("middle", beside + day + 1)
    spans = Counter(row.section for row in sheet.rows)
    for row in sheet.rows:
        # The name of a section stands upright beside its rows, and stretches them where they are few.
        label = (width_of(row.section, 10, True) + 1) / spans[row.section]
        yield _Piece("row", max(label, _row(row)), row)


def _whole_pairs(pairs: tuple[Labelled, ...]) -> int:
    """How many lines pairs take that are not divided."""
    widths = [width_of(f"{pair.label} {pair.value}", 11, True) for pair in pairs]
    return rows_of(widths, WIDTH, width_of(" · ", 11, True)) if pairs else 0


def _verdict(sheet: Sheet) -> float:
    border = 2.0 if sheet.goes_ahead else 4.4
    room = WIDTH - 6.1 - border
    beside = width_of(sheet.verdict, 16, True) + 3 + width_of(sheet.meaning, 10.5) <= room
    lines = 0 if beside else lines_of(sheet.meaning, room, 10.5)
    return 16 * 1.15 * POINT + lines * _LINE + border + 4


def _row(row: OrderRow) -> float:
    if row.is_break:
        return 10.5 * 1.22 * POINT + 0.8
    step = f"{row.technique}, {row.over}"
    step_room = WIDTH - sum(COLUMNS.values()) - _PADDING
    needle, dial, ink = (COLUMNS[name] - _PADDING for name in ("needle", "dial", "ink"))
    named = width_of(f"{row.part} ", 11, True)
    small = 10 * 1.02 * POINT
    heights = (
        _LOWER
        + lines_of(step, step_room, 11, before=named) * 11 * 1.15 * POINT
        + lines_of(row.stretch, step_room, 10) * small,
        _LOWER
        + 11.5 * 1.1 * POINT * lines_of(row.needle, needle, 11.5, True)
        + lines_of(row.hang_out, needle, 10) * small,
        14 * POINT * lines_of(row.dial, dial, 14, True) + lines_of(row.machine, dial, 10) * small,
        _LOWER + 10.5 * 1.22 * POINT * lines_of(row.ink, ink, 10.5),
    )
    return max(heights) + 0.8


def _back(sheet: Sheet) -> Iterator[_Piece]:
    """The blocks of the back, in their order; a job that may not go ahead has its sources and the footer alone."""
    if sheet.goes_ahead:
        for number, pause in enumerate(sheet.pauses):
            lines = [lines_of(item, WIDTH / 2 - 9.2, 11) for item in pause.items]
            yield _Piece("block", _in_columns(lines, 2, 11 * 1.15 * POINT + 0.5) + _HEADING, f"pause-{number}")
        inks = [lines_of(_ink(ink), WIDTH / 2 - 5, 10) for ink in sheet.inks]
        yield _Piece("block", _in_columns(inks, 2, _SMALL + 0.6) + _HEADING + _pairs(sheet.mixes), "inks")
        tray = [lines_of(f"{pair.label}: {pair.value}", WIDTH / 3 - 5, 10) for pair in sheet.tray]
        swaps = lines_of(f"Stays off this tray. {' '.join(sheet.swaps)}", WIDTH, 10) * _SMALL if sheet.swaps else 0
        yield _Piece("block", _in_columns(tray, 3, _SMALL + 0.4) + _HEADING + swaps, "tray")
        written = [lines_of(f"– {item}", WIDTH / 2 - 8, 10) for item in sheet.write_down]
        back = " ".join(f"{pair.label} {pair.value}" for pair in sheet.come_back)
        after = _LINE + 2.7 + lines_of(back, WIDTH, 11) * _LINE
        yield _Piece("block", _in_columns(written, 2, _SMALL + 0.4) + _HEADING + after, "write")
        if sheet.notes:
            notes = sum(lines_of(f"{note.reason} {note.remedy}", WIDTH - 6, 10) for note in sheet.notes)
            yield _Piece("block", notes * _SMALL + _HEADING, "notes")
    if sheet.sources:
        cited = "; ".join(f"{n} {source}" for n, source in enumerate(sheet.sources, 1))
        yield _Piece("block", lines_of(f"Sources {cited}", WIDTH, 10) * _SMALL + 1.5, "sources")
    yield _Piece("block", _foot(sheet), "foot")


def _foot(sheet: Sheet) -> float:
    """The code of 15 mm, or what stands between it and the bar of 100 mm where that is taller."""
    room = WIDTH - 15 - 100 - 2 * 5
    lines = lines_of(f"{sheet.job} · stamp {8 * '0'}", room, 9.5, True) + lines_of(sheet.studio, room, 9.5) + 1
    return max(15.0, lines * _FOOT_LINE) + 2.3


def _ink(ink: SheetInk) -> str:
    lots = [f"XXX{lot}" for lot in ink.lots] or ["lot" + 8 * "m"]
    return f"{ink.name} {ink.amount}, {ink.caps} {' '.join(lots)}"


def _pairs(pairs: tuple[Labelled, ...]) -> float:
    said = " · ".join(f"{pair.label}: {pair.value}" for pair in pairs)
    return lines_of(said, WIDTH, 10) * _SMALL if pairs else 0.0


def _in_columns(lines: list[int], columns: int, line: float) -> float:
    """The height of a list that is set in columns; nothing in it is divided, so the tallest may stand over."""
    if not lines:
        return 0.0
    return (-(-sum(lines) // columns) + max(lines) - 1) * line
