"""The columns of the order: how wide each is for the rows of a sheet, and how tall a row is in them.

A column is as wide as the widest of what is in it, so that a row has one line wherever it can. A unit that all rows
share stands in the head alone, on paper; on a phone, where there is no head, it stands in the row.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from generator.press.sheet import sizes
from generator.press.sheet.rows import OTHER, OrderRow
from generator.press.words.text_width import Text

_SPACE = "\u00a0"


class Column(NamedTuple):
    """One column: the lines of its head, and its width in mm. unit: what all its rows share and its head says."""

    head: tuple[str, ...]
    width: float
    unit: str = ""

    def bare(self, text: str) -> str:
        """A value as it is printed below the head."""
        return text.replace(f"{_SPACE}{self.unit}", "") if self.unit else text


def columns_of(rows: Sequence[OrderRow]) -> dict[str, Column]:
    """The columns by name, from left to right."""
    steps = [row for row in rows if not row.is_break]
    stroke, out = _shared_unit([row.stroke for row in steps]), _shared_unit([row.hang_out for row in steps])
    heads: dict[str, Column] = {
        "number": Column(("",), 0.0),
        "step": Column(("Part, technique",), 0.0),
        "machine": Column(("Machine,", f"stroke {stroke}".strip()), 0.0, stroke),
        "dial": Column(("Dial",), 0.0),
        "needle": Column(("Cartridge,", f"hang-out {out}".strip()), 0.0, out),
        "ink": Column(("Ink",), 0.0),
        "over": Column(("At", "most"), 0.0),
        "minutes": Column(("Min",), 0.0),
    }
    cells = [_widths(row, heads) for row in steps]
    for name, most in sizes.WIDEST.items():
        inside = max((widths[name] for widths in cells), default=0.0)
        head = max(sizes.COLUMN_HEAD.wide(line) for line in heads[name].head)
        wide = max(inside, head) * (1 + sizes.WIDER) + 2 * sizes.CELL_SIDE
        heads[name] = heads[name]._replace(width=min(most, wide))
    rest = sizes.WIDTH - sum(heads[name].width for name in sizes.WIDEST)
    lacking = max(0.0, sizes.STEP_LEAST - rest)
    for name in ("machine", "needle", "ink"):
        heads[name] = heads[name]._replace(width=heads[name].width - lacking / 3)
    return {**heads, "step": heads["step"]._replace(width=max(rest, sizes.STEP_LEAST))}


def row_height(row: OrderRow, columns: dict[str, Column]) -> float:
    """How tall a row is, in mm. What stays in the hand is reckoned as if it were said again."""
    around = 2 * sizes.CELL_AIR + sizes.CELL_RULE
    if row.is_break:
        room = sizes.WIDTH - 2 * sizes.BREAK_FRAME
        return sizes.PAUSE.tall(row.pause, room) + 2 * (sizes.BREAK_AIR + sizes.BREAK_FRAME) + sizes.CELL_RULE
    rooms = {name: column.width - 2 * sizes.CELL_SIDE for name, column in columns.items()}
    widths = _widths(row, columns)
    heights = (
        sizes.STEP.tall(_step(row), rooms["step"]),
        sizes.PAUSE.tall(f"{row.machine} {columns['machine'].bare(row.stroke)}", rooms["machine"] - sizes.WEDGE),
        sizes.DIAL.line if widths["dial"] <= rooms["dial"] else 2 * sizes.DIAL.line,
        sizes.NEEDLE.line if widths["needle"] <= rooms["needle"] else 2 * sizes.NEEDLE.line,
        sizes.CELL.tall(row.ink, rooms["ink"]),
        sizes.HATCH_TALL if row.scars else 0.0,
    )
    return max(heights) + around


def _step(row: OrderRow) -> Text:
    """What is done where, as it is printed: what must not be missed is bold."""
    bold = (run for said in (row.scarred, row.rest) if said for run in ((", ", False), (said, True)))
    note = ((f" {row.note}", False),) if row.note else ()
    return (row.part, True), (f" {row.technique}", False), *bold, *note


def dial_parts(dial: str) -> tuple[str, str]:
    """The number of a dial, and what stands behind it in smaller letters."""
    number, space, unit = dial.partition(_SPACE)
    return number, space + unit


def _widths(row: OrderRow, columns: dict[str, Column]) -> dict[str, float]:
    """How wide what is in each cell of a row is on one line, in mm; the step takes what the others leave."""
    cell, machine, needle = sizes.CELL, columns["machine"], columns["needle"]
    number, unit = dial_parts(row.dial)
    return {
        "number": cell.wide(row.number),
        "machine": sizes.WEDGE + sizes.PAUSE.wide(f"{row.machine} {machine.bare(row.stroke)}"),
        # The unit is smaller than the number before it.
        "dial": sizes.DIAL.wide(number) + cell.wide(unit),
        "needle": sizes.WEDGE + sizes.NEEDLE.wide(row.needle) + sizes.PAUSE.wide(f" {needle.bare(row.hang_out)}"),
        "ink": cell.wide(row.ink),
        "over": cell.wide(row.over) + (sizes.HATCH + 1 if row.scars else 0.0),
        "minutes": cell.wide(row.minutes),
    }


def _shared_unit(texts: Sequence[str]) -> str:
    """The unit behind one number that all texts have; nothing where they differ or hold more than that."""
    ends = {text.rstrip(OTHER).rpartition(_SPACE)[2] if text.count(_SPACE) == 1 else "" for text in texts}
    return ends.pop() if len(ends) == 1 else ""
