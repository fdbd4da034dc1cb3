"""How large everything on a sheet is: for its CSS, and for its division into sides, which no browser measures.

Lengths are in mm, letters in points. What only a screen shows has its size in the CSS alone.
"""

from __future__ import annotations

from typing import NamedTuple

from generator.press.words.print_line import STRIP
from generator.press.words.text_width import POINT, lines_of, width_of


class Letters(NamedTuple):
    """How a text is set: its size in points, and the height of a line as a multiple of it."""

    size: float
    spacing: float
    bold: bool = False

    @property
    def line(self) -> float:
        """The height of one line, in mm."""
        return self.size * self.spacing * POINT

    @property
    def css(self) -> str:
        """Size and height of a line, as CSS sets them."""
        return f"font-size: {self.size:g}pt; line-height: {self.spacing:g};"

    def wide(self, text: str) -> float:
        """The width of a text on one line, in mm."""
        return width_of(text, self.size, self.bold)

    def lines(self, text: str, room: float, before: float = 0.0) -> int:
        """How many lines a text takes in `room` mm; `before`: mm that are taken in front of it."""
        return lines_of(text, room, self.size, self.bold, before)

    def tall(self, text: str, room: float) -> float:
        """The height of a text in `room` mm."""
        return self.lines(text, room) * self.line


# The margins of the paper; beside the left one is the line of the print in its strip.
TOP, RIGHT, BOTTOM, LEFT = 8, 11, 10, 6
# What a sheet has to write on: A4 is the narrower paper, Letter the shorter one.
WIDTH = 210 - LEFT - STRIP - RIGHT
ROOM = 279.4 - TOP - BOTTOM
SPARE = 10.0

TEXT = Letters(11, 1.22)
STRONG = TEXT._replace(bold=True)
TITLE = Letters(15, 1.15, bold=True)
HEADING = Letters(11.5, 1.22, bold=True)
VERDICT = Letters(16, 1.15, bold=True)
MEANING = Letters(10.5, 1.22)
REASON = Letters(11, 1.18)
ON_SKIN = Letters(10.5, 1.22, bold=True)
SMALL = Letters(10, 1.15)
TICKED = Letters(11, 1.15)
FOOT = Letters(9.5, 1.22)

# The head: between its pairs, and above and below them.
PAIR_GAP, PAIRS_APART, PAIR_LINES_APART = 1.5, 5, 0.2
ABOVE_PAIRS, BELOW_PAIRS = 0.5, 1.5
ABOVE_HEADING, BELOW_HEADING, HEADING_RULE = 1.4, 0.5, 0.5
# The box of the verdict: its border, a wider one where no work is printed, and the air in and around it.
BORDER, STOP_BORDER = 1.0, 2.2
VERDICT_AIR, VERDICT_SIDE = 0.8, 3
ABOVE_BLOCK, BELOW_BLOCK = 1.0, 1.5
REASON_AIR, REASON_SIDE, REASON_RULE, REASONS_APART = 0.3, 3, 1.2, 0.8
# The map and the words beside it; the stop signs stand so much wider than the words on the skin.
GAP = 4.0
SIGNS = 1.55
BULLET = 4

# The order. Its step has what the columns leave. Of all letters those of the dial are the tallest: all cells of a row
# stand on its line.
COLUMNS = {"section": 6.0, "number": 7.0, "needle": 22.0, "dial": 38.6, "ink": 28.6, "minutes": 19.2}
CELL_SIDE, CELL_AIR, CELL_RULE = 1.2, 0.2, 0.2
MORE = 1.6  # mm that a row is taller where its side has the room
COLUMN_HEAD = Letters(10, 1.1)
COLUMN_HEAD_AIR, COLUMN_HEAD_RULE = 0.4, 0.4
SECTION = Letters(10, 1.22, bold=True)
STEP = Letters(11, 1.15)
PART = STEP._replace(bold=True)
NEEDLE = Letters(11.5, 1.1, bold=True)
DIAL = Letters(14, 1, bold=True)
BESIDE = Letters(10, 1.02)
CELL = Letters(10.5, 1.22)
LOWER = 2 * POINT
ABOVE_CONTINUES = 1.0

# Lists in columns.
COLUMNS_APART = 6
BOX, BOX_GAP = 4.2, 1.8
TICK_AIR, INK_AIR, ITEM_AIR = 0.1, 0.25, 0.2
DASH = 4
ABOVE_SOURCES = 1.0

# The foot: the code, the bar that proves the scale of a print, and between them whose sheet it is.
CODE, BAR, FOOT_GAP = 15, 100, 5
ABOVE_FOOT = 1.2
