"""A sheet divided into its sides, so that each carries its own footer and the order says where it continues.

Side 1 has the head, the map and as many rows as it holds; side 2 begins with the rest of the order, and what does not
fit goes to a second sheet of paper. Heights are calculated for the studio's own paper, not measured, and a little too
large.

On a phone a row is a block, and its roles are written out, because browsers forget that a row laid out as a block is
one.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from generator.press.sheet import sizes
from generator.press.sheet.columns import columns_of, row_height
from generator.press.sheet.number_links import Labelled
from generator.press.sheet.rows import OrderRow, in_hand, stretches
from generator.press.sheet.sizes import WIDTH
from generator.press.sheet.view import Pause, Reason, Sheet, SheetInk
from generator.press.words.text_width import rows_of
from generator.quantities import to_canonical

_TABLE_HEAD = 2 * sizes.COLUMN_HEAD.line + 2 * sizes.COLUMN_HEAD_AIR + sizes.COLUMN_HEAD_RULE
_CONTINUES = sizes.TEXT.line + sizes.ABOVE_CONTINUES
_ORDER_ON = "The order continues on sheet 10, side 20."
_HEADING = sizes.HEADING.line + sizes.HEADING_RULE + sizes.BELOW_HEADING

_BACK_HEADING = sizes.ABOVE_HEADING + _HEADING

_NO_STEPS = "No working steps are printed."
_CLEARED = "When the points above are cleared, write it into the job and print again."

# What is at the top of side 1, and the map with its words.
_HEAD, _MIDDLE = "head", "middle"


class _Piece(NamedTuple):
    """Something that is not divided: its height in mm, and what it is; head, middle and blocks are by their names."""

    height: float
    what: Reason | OrderRow | Pause | str


@dataclass(frozen=True, slots=True)
class Side:
    """One side of paper.

    under: how the skin is stretched for its rows. air: so many mm its rows are taller
    than they need be. order_on: the side on which the order goes on; order_from: the side on which it began, where it
    is continued here; blocks_on: the side on which the rest of the back is. more: what the pause points do not hold.
    """

    number: int
    of: int
    reasons: tuple[Reason, ...]
    middle: bool
    rows: tuple[OrderRow, ...]
    under: tuple[tuple[str, str], ...]
    blocks: tuple[str, ...]
    more: tuple[Pause, ...]
    air: float
    order_on: str
    order_from: str
    blocks_on: str

    @property
    def sheet(self) -> int:
        """The sheet of paper it is a side of."""
        return _sheet_of(self.number)


def sides_of(sheet: Sheet) -> tuple[Side, ...]:
    """The sides of a sheet: front, back, and the sides of further sheets where the two are too small."""
    rest = list(_front(sheet))
    taken = [_take(sheet, rest)] if sheet.goes_ahead else []
    rest += _back(sheet)
    if sheet.goes_ahead:
        taken.append(_take(sheet, rest))
    # A pause point holds what is read through at once; the rest of its boxes begin on a second sheet of paper.
    rest += [_more(pause) for pause in sheet.more_to_tick]
    while rest:
        taken.append(_take(sheet, rest))
    return tuple(_side(sheet, number, taken) for number in range(1, len(taken) + 1))


def free_on_front(sheet: Sheet) -> float:
    """The mm that side 1 has left when all of the order is on it; below 0 where it has not the room.

    What may not go ahead has no order, and one side where that is enough.
    """
    return _left(sheet, _on_front(sheet), last=True)


def left_on_front(sheet: Sheet) -> float:
    """The mm that side 1 has left below what fits on it; below 0 where its head and its map alone are too much."""
    pieces = _on_front(sheet)
    taken = _take(sheet, list(pieces))
    whole = len(taken) == len(pieces)
    # What does not go ahead says below its last block where the rest is.
    said = 0.0 if whole or sheet.goes_ahead else _CONTINUES
    return _left(sheet, taken, last=whole) - said


def _on_front(sheet: Sheet) -> list[_Piece]:
    return [*_front(sheet), *(() if sheet.goes_ahead else _back(sheet))]


def _left(sheet: Sheet, pieces: list[_Piece], last: bool) -> float:
    """The mm that a side with these pieces has left. last: whether the order ends on it."""
    rows = _rows(pieces)
    table = _TABLE_HEAD + _under(sheet, rows, last) if rows else 0.0
    return _room(sheet) - sum(piece.height for piece in pieces) - table


def _rows(pieces: list[_Piece]) -> list[OrderRow]:
    return [piece.what for piece in pieces if isinstance(piece.what, OrderRow)]


def _blocks(pieces: list[_Piece]) -> tuple[str, ...]:
    names = (piece.what for piece in pieces if isinstance(piece.what, str))
    return tuple(name for name in names if name not in (_HEAD, _MIDDLE))


def _room(sheet: Sheet) -> float:
    """The mm above the foot of a side; the stamp and the numbers in it take as much as their longest."""
    words = f"{sheet.job} · stamp {8 * '0'} · side 10 of 10, sheet 10 · keep out of the splash zone, or in a sleeve"
    return sizes.TALL[sheet.paper] - sizes.SPARE - (sizes.FOOT.tall(words, WIDTH) + sizes.ABOVE_FOOT)


def _take(sheet: Sheet, pieces: list[_Piece]) -> list[_Piece]:
    """What fits on one side, taken from the front of the list; one piece at least."""
    taken: list[_Piece] = []
    order = len(_rows(pieces))

    def left(some: list[_Piece]) -> float:
        return _left(sheet, some, last=len(_rows(some)) == order)

    while pieces and (not taken or left([*taken, pieces[0]]) >= 0):
        taken.append(pieces.pop(0))
    if pieces and len(taken) > 1 and left(taken) < _CONTINUES and not isinstance(taken[-1].what, OrderRow):
        pieces.insert(0, taken.pop())
    return taken


def _side(sheet: Sheet, number: int, taken: list[list[_Piece]]) -> Side:
    here = taken[number - 1]
    rows, blocks = _rows(here), _blocks(here)
    before = [row for side in taken[: number - 1] for row in _rows(side) if not row.is_break]
    with_rows = [n for n, side in enumerate(taken, 1) if _rows(side)]
    with_blocks = [n for n, side in enumerate(taken, 1) if n > number and _blocks(side)]
    later = [n for n in with_rows if n > number]
    said = _CONTINUES if blocks and with_blocks else 0.0
    return Side(
        number=number,
        of=len(taken),
        reasons=tuple(piece.what for piece in here if isinstance(piece.what, Reason)),
        middle=any(piece.what == _MIDDLE for piece in here),
        rows=in_hand(rows, before[-1] if before else None),
        under=stretches(rows),
        blocks=blocks,
        more=tuple(piece.what for piece in here if isinstance(piece.what, Pause)),
        air=_air(_left(sheet, here, last=not later) - said, rows),
        order_on=_named(later[0]) if later and (rows or number == 1) else "",
        order_from=_named(with_rows[0]) if rows and with_rows[0] < number else "",
        blocks_on=_named(with_blocks[0]) if blocks and with_blocks else "",
    )


def _air(left: float, rows: list[OrderRow]) -> float:
    """The mm that each row of a side is taller where so much is left; a little is not worth it."""
    steps = sum(not row.is_break for row in rows)
    each = min(sizes.MOST_MORE, left / steps) if steps else 0.0
    return each if each >= sizes.MORE else 0.0


def _sheet_of(side: int) -> int:
    return (side + 1) // 2


def _named(side: int) -> str:
    """A side by its number, with its sheet where that is not the first."""
    return f"side {side}" if side <= 2 else f"sheet {_sheet_of(side)}, side {side}"


def _front(sheet: Sheet) -> Iterator[_Piece]:
    yield _Piece(sizes.TITLE.tall(sheet.title, WIDTH) + _pairs(sheet) + _verdict(sheet), _HEAD)
    room = WIDTH - sizes.REASON_RULE - sizes.REASON_SIDE
    for reason in sheet.reasons:
        text = (f"{reason.level}:", True), (f" {reason.reason}{reason.source} → {reason.remedy}", False)
        yield _Piece(sizes.REASON.tall(text, room) + 2 * sizes.REASON_AIR + sizes.ABOVE_BLOCK, reason)
    yield _Piece(middle_height(sheet), _MIDDLE)
    columns = columns_of(sheet.rows)
    for row in sheet.rows:
        yield _Piece(row_height(row, columns), row)


def _pairs(sheet: Sheet) -> float:
    """The pairs of the head, as many on a line as it holds; one that is longer than a line has its label beside it."""
    strong = sizes.PAIR._replace(bold=True)
    beside = [sizes.PAIR.wide(pair.label) + sizes.PAIR_GAP for pair in sheet.head]
    words = [label + strong.wide(pair.value) for label, pair in zip(beside, sheet.head, strict=True)]
    rows = rows_of(words, WIDTH, sizes.PAIRS_APART)
    over = sum(strong.lines(pair.value, WIDTH - label) - 1 for label, pair in zip(beside, sheet.head, strict=True))
    tall = (rows + over) * sizes.PAIR.line + (rows - 1) * sizes.PAIR_LINES_APART
    return tall + sizes.ABOVE_PAIRS + sizes.BELOW_PAIRS


def air_of(rows: Iterable[OrderRow]) -> float:
    """The mm that the rows of an order take more at least where their side has the room; a break is as it is."""
    return sizes.MORE * sum(not row.is_break for row in rows)


def _under(sheet: Sheet, rows: list[OrderRow], last: bool) -> float:
    """What is said once below the rows of a side."""
    said = [f"{technique}: {stretch} ·" for technique, stretch in stretches(rows)]
    said = [*(["Stretch"] if said else []), *said, sheet.marks]
    text = ((f"{_ORDER_ON} " if not last else "", True), (" ".join(said), False))
    below = sizes.UNDER.tall(text, WIDTH) if any(words for words, _ in text) else 0.0
    pairs = [((pair.label, True), (f" {pair.value}", False)) for pair in sheet.order] if last else []
    below += sum(sizes.UNDER.tall(pair, WIDTH) for pair in pairs)
    return below + sizes.ABOVE_UNDER if below else 0.0


def middle_height(sheet: Sheet) -> float:
    """The mm of the map with its words: skin and stop signs, beside it or below where it takes the whole width."""
    left = words_room(sheet)
    tall = sheet.map_tall
    if in_one_column(sheet):
        words = _on_skin(sheet, left) + _signs(sheet, left)
    else:
        column = (left - sizes.GAP) / (1 + sizes.SIGNS)
        words = max(_on_skin(sheet, column), _signs(sheet, sizes.SIGNS * column))
    words += _day(sheet, left) + sizes.BELOW_BLOCK
    beside = tall + sizes.GAP + words if sheet.map_over else max(tall, words)
    return beside + sizes.BELOW_BLOCK


def _day(sheet: Sheet, room: float) -> float:
    """The times of the day and the other sittings; what may not go ahead has neither, and says so in their place."""
    if not sheet.goes_ahead:
        return sizes.DAY._replace(bold=True).tall(no_steps(sheet), room)
    return (_day_lines(sheet.times, room) + _day_lines(sheet.sittings, room)) * sizes.DAY.line


def no_steps(sheet: Sheet) -> str:
    """What a sheet says that has no order."""
    return _NO_STEPS if sheet.not_worked else f"{_NO_STEPS} {_CLEARED}"


def words_room(sheet: Sheet) -> float:
    """The mm that the words beside the map have, or below it."""
    return WIDTH if sheet.map_over else WIDTH - sheet.map_wide - sizes.GAP


def in_one_column(sheet: Sheet) -> bool:
    """Whether the signs to stop are below the words on the skin and not beside them."""
    return words_room(sheet) < 2 * sizes.COLUMN + sizes.GAP


def _on_skin(sheet: Sheet, room: float) -> float:
    pairs = [((f"{pair.label}:", False), (f" {pair.value}", True)) for pair in sheet.hands_off]
    over = (sizes.HEADING.lines("Skin and allergies", room) - 1) * sizes.HEADING.line
    return sum(sizes.ON_SKIN.tall(pair, room) for pair in pairs) + _HEADING + over


def _signs(sheet: Sheet, room: float) -> float:
    if not sheet.stop_signs:
        return 0.0
    above = sizes.ABOVE_HEADING if in_one_column(sheet) else 0.0
    return _HEADING + above + sum(sizes.SMALL.tall(sign, room - sizes.BULLET) for sign in sheet.stop_signs)


def _day_lines(pairs: tuple[Labelled, ...], room: float) -> int:
    """How many lines the pairs of the day take; one is divided only where it is longer than a line."""
    if not pairs:
        return 0
    texts = [((f"{pair.label} ", False), (pair.value, True)) for pair in pairs]
    widths = [sizes.DAY.wide(text) + sizes.DAY_APART for text in texts]
    return rows_of(widths, room, sizes.DAY.wide(" ")) + sum(
        sizes.DAY.lines(text, room - sizes.DAY_APART) - 1 for text in texts
    )


def _verdict(sheet: Sheet) -> float:
    """The sign with the words beside it, in the frame of its state."""
    frame = sizes.FRAMES[sheet.mark]
    room = WIDTH - 2 * sizes.VERDICT_SIDE - frame.sides - sizes.SIGN - sizes.VERDICT_SIDE - 0.1
    beside = sizes.VERDICT.wide(sheet.verdict) + sizes.VERDICT_SIDE + sizes.MEANING.wide(sheet.meaning) <= room
    words = sizes.VERDICT.tall(sheet.verdict, room)
    if not beside:
        words += sizes.MEANING.tall(sheet.meaning, room)
    return max(sizes.SIGN, words) + frame.block + 2 * sizes.VERDICT_AIR + sizes.BELOW_BLOCK


def _back(sheet: Sheet) -> Iterator[_Piece]:
    """The blocks of the back, in their order; a job that may not go ahead has its sources and the footer alone."""
    if sheet.goes_ahead:
        yield _Piece(_pauses(sheet), "pauses")
        half, third = (_column(columns) for columns in (2, 3))
        inks = [sizes.SMALL.line * _ink_lines(ink, half) + 2 * sizes.INK_AIR for ink in sheet.inks]
        yield _Piece(_in_columns(inks, 2) + _BACK_HEADING, "inks")
        tray = [
            sizes.SMALL.tall(((f"{pair.label}: ", False), (pair.value, True)), third) + 2 * sizes.ITEM_AIR
            for pair in sheet.tray
        ]
        off = (("Stays off this tray:", True), (f" {', '.join(sheet.swaps)}.", False))
        swaps = sizes.SMALL.tall(off, WIDTH) if sheet.swaps else 0.0
        yield _Piece(_in_columns(tray, 3) + _BACK_HEADING + swaps, "tray")
        yield _Piece(_writing(sheet), "writing")
    if sheet.sources:
        cited = "; ".join(f"{n} {source}" for n, source in enumerate(sheet.sources, 1))
        words = sizes.SMALL.tall((("Sources", True), (f" {cited}", False)), WIDTH)
        yield _Piece(words + sizes.ABOVE_SOURCES, "sources")
    yield _Piece(_foot(sheet), "foot")
    if sheet.goes_ahead and sheet.notes:
        # Notes on colour and composition forbid nothing: they are the first to go to a second sheet.
        room = WIDTH - sizes.LIST_SIDE
        notes = sum(sizes.SMALL.tall(f"{note.reason} {note.remedy}", room) for note in sheet.notes)
        yield _Piece(notes + _BACK_HEADING, "notes")


def _writing(sheet: Sheet) -> float:
    """What is written down, with its blanks; when to come back is beside the heading where both have room."""
    written = sizes.SMALL.tall(" · ".join(sheet.write_down), WIDTH)
    back = tuple(run for pair in sheet.come_back for run in ((f"{pair.label} ", False), (pair.value, True)))
    aside = sizes.HEADING.wide("Write down") + sizes.PAIR_GAP + sizes.SMALL.wide(back) > WIDTH
    titled = aside * sizes.SMALL.tall(back, WIDTH)
    blanks = [sizes.TEXT.wide(f"{blank} ") + sizes.FILL_LINE for blank in sheet.blanks]
    rows = rows_of(blanks, WIDTH, sizes.FILLS_APART)
    fills = rows * sizes.TEXT.line + (rows - 1) * sizes.FILL_LINES_APART + sizes.ABOVE_FILLS + sizes.BELOW_FILLS
    return _BACK_HEADING + titled + written + fills


def _column(columns: int) -> float:
    """How wide each of so many columns is, in mm."""
    return (WIDTH - (columns - 1) * sizes.COLUMNS_APART) / columns


def _pauses(sheet: Sheet) -> float:
    """The pause points side by side, in one frame."""
    tall = max(map(_pause_height, sheet.pauses, pause_widths(sheet)), default=0.0)
    return tall + 2 * sizes.PAUSE_FRAME + 2 * sizes.PAUSE_AIR


def pause_widths(sheet: Sheet) -> list[float]:
    """How wide each pause point is, in mm: the one with the longest boxes takes from the one with the shortest."""
    count = max(1, len(sheet.pauses))
    widths = [(WIDTH - (count + 1) * sizes.PAUSE_FRAME) / count] * len(sheet.pauses)
    heights = list(map(_pause_height, sheet.pauses, widths))
    for _ in range(_MOVES):
        if not heights:
            break
        tall, short = heights.index(max(heights)), heights.index(min(heights))
        moved = [width + (at == tall) - (at == short) for at, width in enumerate(widths)]
        after = list(map(_pause_height, sheet.pauses, moved))
        if tall == short or max(after) > max(heights) or min(moved) < sizes.PAUSE_LEAST:
            break
        widths, heights = moved, after
    return widths


# By so many mm, one at a time, a pause point may become wider or narrower.
_MOVES = 16


@lru_cache(maxsize=1024)  # asked for again after each move, of those that were not moved too
def _pause_height(pause: Pause, width: float) -> float:
    column = width - 2 * sizes.PAUSE_SIDE
    more = sizes.SMALL.line if pause.more else 0.0
    title = sizes.PAUSE_TITLE.tall(pause.title, column) + sizes.BELOW_HEADING
    return title + sum(sizes.tick_height(item, column - sizes.BOX - sizes.BOX_GAP) for item in pause.items) + more


def _more(pause: Pause) -> _Piece:
    """What a pause point does not hold, in two columns."""
    room = _column(2) - sizes.BOX - sizes.BOX_GAP
    tall = _in_columns([sizes.tick_height(item, room) for item in pause.items], 2)
    return _Piece(tall + _BACK_HEADING, pause)


def _foot(sheet: Sheet) -> float:
    """The code, or what is between it and the bar where that is taller; the foot of its side is below it."""
    room = WIDTH - sizes.CODE - to_canonical(sizes.INCHES, "in") - 2 * sizes.FOOT_GAP
    stamped = (sheet.job, True), (f" · stamp {8 * '0'}", False)
    words = sizes.FOOT.tall(stamped, room) + sizes.FOOT.tall(sheet.studio, room)
    words += sizes.FOOT.tall("records as of 2000-00-00", room)
    return max(sizes.CODE, words) + sizes.ABOVE_FOOT


def _ink_lines(ink: SheetInk, room: float) -> int:
    """How many lines an ink takes; a lot stays with its box."""
    small, strong = sizes.SMALL, sizes.SMALL._replace(bold=True)
    words = [*map(strong.wide, ink.name.split(" ")), *map(small.wide, f"{ink.amount}, {ink.caps}".split(" "))]
    box = sizes.BEFORE_LOT_BOX + sizes.LOT_BOX + sizes.BEHIND_LOT_BOX
    lots = [box + small.wide(lot) for lot in ink.lots] or [small.wide("lot ") + sizes.LOT_LINE]
    return rows_of([*words, *lots], room, small.wide(" "))


def _in_columns(heights: list[float], columns: int) -> float:
    """The height of a list that is set in balanced columns: the least in which its items fit in order, undivided."""
    height = max(sum(heights) / columns, *heights, 0.0)
    while (more := _lacking(heights, columns, height)) > 0:
        height += more
    return height


def _lacking(heights: list[float], columns: int, height: float) -> float:
    """The least by which columns of a height must be taller to hold one item more; 0 where they hold all."""
    column, used, least = 1, 0.0, math.inf
    for tall in heights:
        if used + tall > height + 1e-6:
            least = min(least, used + tall - height)
            column, used = column + 1, 0.0
        used += tall
    return 0.0 if column <= columns else least
