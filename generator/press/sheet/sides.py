"""A sheet divided into its sides, so that each carries its own footer and the order says where it continues.

Heights are calculated, not measured, and a little too large: what does not fit goes to a second sheet of paper. They
are calculated for the shorter and the narrower of the two papers at once, so that one division fits both.

The columns of the order are defined here once, and the template takes them from here. On a phone a row is a block,
and its roles are written out, because browsers forget that a row laid out as a block is one.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import groupby
from typing import Literal, NamedTuple, TypeVar

from generator.press.sheet import sizes
from generator.press.sheet.contents import Pause, Reason, Sheet, SheetInk
from generator.press.sheet.number_links import Labelled
from generator.press.sheet.rows import OrderRow
from generator.press.sheet.sizes import WIDTH
from generator.press.words.text_width import rows_of

_TABLE_HEAD = 2 * sizes.COLUMN_HEAD.line + 2 * sizes.COLUMN_HEAD_AIR + sizes.COLUMN_HEAD_RULE + sizes.HEADING_RULE + 0.1
_CONTINUES = sizes.TEXT.line + sizes.ABOVE_CONTINUES + 0.1
_HEADING = sizes.HEADING.line + sizes.ABOVE_HEADING + sizes.HEADING_RULE + sizes.BELOW_HEADING + 0.1
_HALF = (WIDTH - sizes.COLUMNS_APART) / 2


@dataclass(frozen=True, slots=True)
class Block:
    """A block of the back: what the template puts there; `pause` is the pause point of a block that holds one."""

    holds: Literal["pause", "inks", "tray", "writing", "notes", "sources", "foot"]
    pause: Pause | None = None


_Kind = TypeVar("_Kind", Reason, OrderRow, Block)


class _Piece(NamedTuple):
    """Something that is not divided; the middle of the front is known by its name."""

    height: float
    value: Reason | OrderRow | Block | Literal["head", "middle"]


@dataclass(frozen=True, slots=True)
class Side:
    """One side of paper.

    airy: its order has room for taller rows. order_from: the sheet on which the order began, where it is continued
    here.
    """

    number: int
    of: int
    head: bool
    reasons: tuple[Reason, ...]
    middle: bool
    rows: tuple[OrderRow, ...]
    blocks: tuple[Block, ...]
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
    room = sizes.ROOM - sizes.SPARE - _footer(sheet)
    taken = [_take(front, room), _take(back, room)] if sheet.goes_ahead else []
    # A pause point holds what is read through at once; the rest of its boxes begin on a second sheet of paper.
    rest = front + back + [_ticks(pause) for pause in sheet.more_to_tick]
    while rest:
        taken.append(_take(rest, room))
    return tuple(_side(number, taken, room) for number in range(1, len(taken) + 1))


def _footer(sheet: Sheet) -> float:
    """What is at the foot of every side; the stamp and the numbers take as much as their longest."""
    words = f"{sheet.job} · stamp {8 * '0'} · side 10 of 10, sheet 10 · keep out of the splash zone, or in a sleeve"
    return sizes.FOOT.tall(words, WIDTH) + sizes.ABOVE_FOOT + 0.8


def _take(pieces: list[_Piece], room: float) -> list[_Piece]:
    """What fits on one side, taken from the front of the list; one piece at least."""
    left = room
    taken: list[_Piece] = []
    in_order = False
    while pieces:
        height, value = pieces[0]
        is_row = isinstance(value, OrderRow)
        if is_row and not in_order:
            height += _TABLE_HEAD
        if taken and height > left:
            break
        in_order = in_order or is_row
        left -= height
        taken.append(pieces.pop(0))
    if pieces and left < _CONTINUES and len(taken) > 1:
        pieces.insert(0, taken.pop())
    return taken


def _side(number: int, taken: list[list[_Piece]], room: float) -> Side:
    here, later = taken[number - 1], taken[number:]
    rows = _held(here, OrderRow)
    blocks = _held(here, Block)
    on = [n for n, side in enumerate(taken, 1) if _held(side, OrderRow)]
    next_rows = [n for n in on if n > number]
    next_blocks = [n for n, side in enumerate(later, number + 1) if _held(side, Block)]
    return Side(
        number=number,
        of=len(taken),
        head=number == 1,
        reasons=tuple(_held(here, Reason)),
        middle=any(piece.value == "middle" for piece in here),
        rows=_spanned(rows),
        blocks=tuple(blocks),
        airy=sum(piece.height for piece in here) + _TABLE_HEAD + _CONTINUES + sizes.MORE * len(rows) <= room,
        order_continues_on=(next_rows[0] + 1) // 2 if next_rows and (rows or number == 1) else None,
        order_from=(on[0] + 1) // 2 if rows and on[0] < number else None,
        blocks_continue_on=(next_blocks[0] + 1) // 2 if blocks and next_blocks else None,
    )


def _held(pieces: list[_Piece], kind: type[_Kind]) -> list[_Kind]:
    return [piece.value for piece in pieces if isinstance(piece.value, kind)]


def _spanned(rows: list[OrderRow]) -> tuple[OrderRow, ...]:
    """The rows of one side; the first of each run of a section spans those of it that stand on this side.

    A section comes twice where a part was left for another's dark ink.
    """
    runs = [list(run) for _, run in groupby(rows, key=lambda row: row.section)]
    return tuple(row for first, *others in runs for row in (replace(first, span=1 + len(others)), *others))


def _front(sheet: Sheet) -> Iterator[_Piece]:
    words = [sizes.TEXT.wide(pair.label) + sizes.PAIR_GAP + sizes.STRONG.wide(pair.value) for pair in sheet.head]
    over = sum(sizes.STRONG.lines(f"{pair.label} {pair.value}", WIDTH) - 1 for pair in sheet.head)
    pair_lines = rows_of(words, WIDTH, sizes.PAIRS_APART) + over
    pairs = pair_lines * (sizes.TEXT.line + sizes.PAIR_LINES_APART) + sizes.ABOVE_PAIRS + sizes.BELOW_PAIRS
    yield _Piece(sizes.TITLE.tall(sheet.title, WIDTH) + pairs + _verdict(sheet), "head")
    room = WIDTH - sizes.REASON_RULE - sizes.REASON_SIDE - 0.8
    for reason in sheet.reasons:
        text = f"{reason.level}: {reason.reason}{reason.source} → {reason.remedy}"
        yield _Piece(sizes.REASON.tall(text, room) + 2 * sizes.REASONS_APART, reason)
    yield _Piece(_middle(sheet), "middle")
    for section, run in groupby(sheet.rows, key=lambda row: row.section):
        rows = list(run)
        # The name of a section is written upright beside its rows, and stretches them where they are few.
        label = (sizes.SECTION.wide(section) + 1) / len(rows)
        yield from (_Piece(max(label, _row(row)), row) for row in rows)


def _middle(sheet: Sheet) -> float:
    """Skin and stop signs stand beside the map, or below it; the signs have the wider column and a bullet each."""
    left = WIDTH - sizes.GAP if sheet.flat else WIDTH - sheet.map_wide - 2 * sizes.GAP
    column = left / (1 + sizes.SIGNS)
    on_skin = sum(sizes.ON_SKIN.lines(f"{pair.label}: {pair.value}", column - 1.5) for pair in sheet.hands_off)
    signs = sum(sizes.SMALL.tall(sign, sizes.SIGNS * column - sizes.BULLET - 1) for sign in sheet.stop_signs)
    headed = sizes.HEADING.lines("Skin and allergies", column) * _HEADING
    words = max(on_skin * sizes.TEXT.line + headed, signs + _HEADING)
    day = (_whole_pairs(sheet.times) + _whole_pairs(sheet.sittings)) * sizes.TEXT.line
    tall = sheet.map_tall + 0.8
    beside = tall + sizes.GAP + words if sheet.flat else max(tall, words)
    return beside + day + sizes.ABOVE_BLOCK + sizes.BELOW_BLOCK + 1


def _whole_pairs(pairs: tuple[Labelled, ...]) -> int:
    """How many lines pairs take that are not divided."""
    widths = [sizes.STRONG.wide(f"{pair.label} {pair.value}") for pair in pairs]
    return rows_of(widths, WIDTH, sizes.STRONG.wide(" · ")) if pairs else 0


def _verdict(sheet: Sheet) -> float:
    borders = 2 * (sizes.BORDER if sheet.goes_ahead else sizes.STOP_BORDER)
    room = WIDTH - 2 * sizes.VERDICT_SIDE - borders - 0.1
    beside = sizes.VERDICT.wide(sheet.verdict) + sizes.VERDICT_SIDE + sizes.MEANING.wide(sheet.meaning) <= room
    lines = 0 if beside else sizes.MEANING.lines(sheet.meaning, room)
    air = 2 * sizes.VERDICT_AIR + sizes.ABOVE_BLOCK + sizes.BELOW_BLOCK
    return sizes.VERDICT.line + lines * sizes.TEXT.line + borders + air


def _row(row: OrderRow) -> float:
    around = 2 * sizes.CELL_AIR + sizes.CELL_RULE + 0.2
    sides = 2 * sizes.CELL_SIDE
    if row.is_break:
        room = WIDTH - sizes.COLUMNS["section"] - sides - 1
        return sizes.CELL._replace(bold=True).tall(row.pause, room) + around
    step = WIDTH - sum(sizes.COLUMNS.values()) - sides
    needle, dial, ink = (sizes.COLUMNS[name] - sides for name in ("needle", "dial", "ink"))
    named = sizes.PART.wide(f"{row.part} ")
    heights = (
        sizes.LOWER
        + sizes.STEP.lines(f"{row.technique}, {row.over}{_scarred(row)}", step, before=named) * sizes.STEP.line
        + sizes.BESIDE.tall(row.stretch, step)
        + (sizes.BESIDE._replace(bold=True).tall(row.rest, step) if row.rest else 0),
        sizes.LOWER + sizes.NEEDLE.tall(row.needle, needle) + sizes.BESIDE.tall(row.hang_out, needle),
        sizes.DIAL.tall(row.dial, dial) + sizes.BESIDE.tall(row.machine, dial),
        sizes.LOWER + sizes.CELL.tall(row.ink, ink),
    )
    return max(heights) + around


def _scarred(row: OrderRow) -> str:
    """The scars of a row, a little wider than they are: their letters are bold."""
    return f",  {row.scars}  " if row.scars else ""


def _back(sheet: Sheet) -> Iterator[_Piece]:
    """The blocks of the back, in their order; a job that may not go ahead has its sources and the footer alone."""
    if sheet.goes_ahead:
        half, third = _HALF, (WIDTH - 2 * sizes.COLUMNS_APART) / 3
        yield from map(_ticks, sheet.pauses)
        inks = [sizes.SMALL.lines(_ink(ink), half - 2) for ink in sheet.inks]
        poured = _in_columns(inks, 2, sizes.SMALL.line + 2 * sizes.INK_AIR + 0.1)
        yield _Piece(poured + _HEADING, Block("inks"))
        line = sizes.SMALL.line + 2 * sizes.ITEM_AIR
        tray = [sizes.SMALL.lines(f"{pair.label}: {pair.value}", third - 1) for pair in sheet.tray]
        swaps = sizes.SMALL.tall(f"Stays off this tray: {', '.join(sheet.swaps)}.", WIDTH) if sheet.swaps else 0
        yield _Piece(_in_columns(tray, 3, line) + _HEADING + _beside_tray(sheet) + swaps, Block("tray"))
        written = [sizes.SMALL.lines(f"– {item}", half - sizes.DASH - 1) for item in sheet.write_down]
        back = " ".join(f"{pair.label} {pair.value}" for pair in sheet.come_back)
        after = sizes.TEXT.line + 2.7 + sizes.TEXT.tall(back, WIDTH)
        yield _Piece(_in_columns(written, 2, line) + _HEADING + after, Block("writing"))
        if sheet.notes:
            notes = sum(sizes.SMALL.tall(f"{note.reason} {note.remedy}", WIDTH - 6) for note in sheet.notes)
            yield _Piece(notes + _HEADING, Block("notes"))
    if sheet.sources:
        cited = "; ".join(f"{n} {source}" for n, source in enumerate(sheet.sources, 1))
        yield _Piece(sizes.SMALL.tall(f"Sources {cited}", WIDTH) + sizes.ABOVE_SOURCES + 0.5, Block("sources"))
    yield _Piece(_foot(sheet), Block("foot"))


def _beside_tray(sheet: Sheet) -> float:
    """What the order says of itself is beside the heading of the tray, and below it where it is too long."""
    said = " · ".join(f"{pair.label} {pair.value}" for pair in sheet.order)
    return (sizes.SMALL.lines(said, WIDTH - sizes.HEADING.wide("Tray  ")) - 1) * sizes.SMALL.line if said else 0


def _ticks(pause: Pause) -> _Piece:
    """A pause point with its boxes."""
    lines = [sizes.TICKED.lines(item, _HALF - sizes.BOX - sizes.BOX_GAP - 0.2) for item in pause.items]
    tall = _in_columns(lines, 2, sizes.TICKED.line + 2 * sizes.TICK_AIR + 0.1)
    return _Piece(tall + _HEADING, Block("pause", pause))


def _foot(sheet: Sheet) -> float:
    """The code, or what is between it and the bar where that is taller."""
    room = WIDTH - sizes.CODE - sizes.BAR - 2 * sizes.FOOT_GAP
    strong = sizes.FOOT._replace(bold=True)
    words = strong.tall(f"{sheet.job} · stamp {8 * '0'}", room) + sizes.FOOT.tall(sheet.studio, room) + sizes.FOOT.line
    return max(sizes.CODE, words) + sizes.ABOVE_FOOT + 1.1


def _ink(ink: SheetInk) -> str:
    lots = [f"XXX{lot}" for lot in ink.lots] or ["lot" + 8 * "m"]
    return f"{ink.name} {ink.amount}, {ink.caps} {' '.join(lots)}"


def _in_columns(lines: list[int], columns: int, line: float) -> float:
    """The height of a list that is set in balanced columns: the least in which its items fit in order, undivided."""
    height = max(-(-sum(lines) // columns), max(lines, default=0))
    while _columns_taken(lines, height) > columns:
        height += 1
    return height * line


def _columns_taken(lines: list[int], height: int) -> int:
    """How many columns of a height, in lines, the items of a list fill."""
    number, left = 0, 0
    for taken in lines:
        if taken > left:
            number, left = number + 1, height
        left -= taken
    return number
