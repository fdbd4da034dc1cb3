"""How large everything on a sheet is: for its CSS, and for its division into sides, which no browser measures.

Lengths are in mm, letters in points. What only a screen shows has its size in the CSS alone.
"""

from __future__ import annotations

from typing import NamedTuple

from generator.press.words.templates import STRIP
from generator.press.words.text_width import POINT, Text, lines_of, width_of


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

    def wide(self, text: Text) -> float:
        """The width of a text on one line, in mm."""
        return width_of(text, self.size, self.bold)

    def lines(self, text: Text, room: float) -> int:
        """How many lines a text takes in `room` mm."""
        return lines_of(text, room, self.size, self.bold)

    def tall(self, text: Text, room: float) -> float:
        """The height of a text in `room` mm."""
        return self.lines(text, room) * self.line


# The margins of the paper; beside the left one is the line of the print in its strip.
TOP, RIGHT, BOTTOM, LEFT = 8, 11, 10, 6
# What a sheet has to write on: on both papers as wide as on the narrower one, so that lines are broken alike.
WIDTH = 210 - LEFT - STRIP - RIGHT
TALL = {"A4": 297 - TOP - BOTTOM, "Letter": 279.4 - TOP - BOTTOM}
# What stands on one side of either paper.
ROOM = min(TALL.values())
# What a side keeps free: room for a line that another machine's font breaks, or for two.
SPARE = 6.0
# Beside a width that is calculated, as a share of it: so much wider may letters be in another machine's font.
WIDER = 0.02

TEXT = Letters(11, 1.22)
TITLE = Letters(15, 1.15, bold=True)
HEADING = Letters(11, 1.15, bold=True)
VERDICT = Letters(16, 1.15, bold=True)
MEANING = Letters(10.5, 1.22)
REASON = Letters(11, 1.18)
ON_SKIN = Letters(10.5, 1.22)
SMALL = Letters(10, 1.15)
PAUSE_TITLE = Letters(10, 1.15, bold=True)
TICKED = Letters(10, 1.1)
FOOT = Letters(9.5, 1.22)
DAY = Letters(10.5, 1.18)
PAIR = Letters(10.5, 1.18)

# The head: between its pairs, and above and below them.
PAIR_GAP, PAIRS_APART, PAIR_LINES_APART = 1.5, 5, 0.2
ABOVE_PAIRS, BELOW_PAIRS = 0.5, 1.5
ABOVE_HEADING, BELOW_HEADING, HEADING_RULE = 1.2, 0.4, 0.4
# The box of the verdict, with the sign in it and the air in and around it. Each state has an outline of its own, so
# that a copy of a copy, or a glance from the door, tells which it is; dashed is always “not now”.
VERDICT_AIR, VERDICT_SIDE = 0.8, 3
SIGN = 7.0
# The air above falls together with what is below the block before it, which is no less.
ABOVE_BLOCK, BELOW_BLOCK = 0.8, 1.5


class Surround(NamedTuple):
    """The frame of a verdict: CSS of its edges, and how wide in mm they are: above and below, and at both sides."""

    css: str
    block: float
    sides: float


FRAMES = {
    "clear": Surround("border: .5mm solid currentColor; border-radius: 6mm;", 1.0, 1.0),
    "care": Surround("border: .5mm solid currentColor; border-left-width: 3mm;", 1.0, 3.5),
    "ask": Surround("border: 1.4mm dotted currentColor;", 2.8, 2.8),
    "unasked": Surround(
        "border: 0; border-left: 1.4mm dotted currentColor; border-right: 1.4mm dotted currentColor;", 0.0, 2.8
    ),
    "wait": Surround("border: .9mm dashed currentColor;", 1.8, 1.8),
    "doctor": Surround("border: 1.7mm double currentColor;", 3.4, 3.4),
    "no": Surround(
        "border: 0; border-top: 2.6mm solid currentColor; border-bottom: 2.6mm solid currentColor;", 5.2, 0.0
    ),
    "finished": Surround("border: .3mm solid currentColor; border-right-width: 3mm;", 0.6, 3.3),
    "cancelled": Surround("border: 0; border-top: .9mm dashed currentColor;", 0.9, 0.0),
    "postponed": Surround("border: 0; border-bottom: .9mm dashed currentColor;", 0.9, 0.0),
    "no-show": Surround("border: 0; border-left: .9mm dashed currentColor;", 0.0, 0.9),
}
REASON_AIR, REASON_SIDE, REASON_RULE = 0.3, 3, 1.2
# The map and the words beside it: in two columns where each has its room, the stop signs so much wider than the words
# on the skin, else one above the other.
GAP = 4.0
SIGNS = 1.35
COLUMN = 44.0
BULLET = 4
DAY_APART = 4.0

# The order. Its columns are as wide as what is in them, up to so many mm; the step has what they leave, at least its
# own. A wedge and a bar stand before machine and cartridge.
WIDEST = {"number": 9.0, "machine": 42.0, "dial": 26.0, "needle": 36.0, "ink": 31.0, "over": 22.0, "minutes": 20.0}
STEP_LEAST = 44.0
# A rule is a px thick, which is the least that a browser sets.
CELL_SIDE, CELL_AIR, CELL_RULE = 0.7, 0.15, 0.265
WEDGE = 3.1
HATCH, HATCH_TALL = 5.6, 3.4
# So many mm is a row taller where its side has the room, and at most.
MORE, MOST_MORE = 1.2, 3.0
COLUMN_HEAD = Letters(10, 1.1)
COLUMN_HEAD_AIR, COLUMN_HEAD_RULE = 0.4, 0.4
STEP = Letters(11, 1.08)
NEEDLE = Letters(11.5, 1.06, bold=True)
DIAL = Letters(14, 0.88, bold=True)
CELL = Letters(10, 1.1)
PAUSE = Letters(10, 1.15, bold=True)
BREAK_AIR, BREAK_FRAME = 0.4, 0.4
UNDER = Letters(10, 1.15)
ABOVE_UNDER = 0.8
ABOVE_CONTINUES = 1.0

# Lists in columns.
COLUMNS_APART = 6
BOX, BOX_GAP, BOX_DOWN = 4.0, 1.5, 0.1
# The three pause points stand side by side in one frame.
PAUSE_SIDE, PAUSE_AIR, PAUSE_FRAME, PAUSE_LEAST = 1.6, 0.8, 0.5, 48.0
TICK_AIR, INK_AIR, ITEM_AIR = 0.15, 0.2, 0.1
# The box before a lot with the air at both its sides, and the line for one that is written down.
LOT_BOX, BEFORE_LOT_BOX, BEHIND_LOT_BOX, LOT_LINE = 3.6, 1.5, 1.0, 20
# What is filled in: the line behind each word, and the air between them and round them.
FILL_LINE, FILLS_APART, FILL_LINES_APART, ABOVE_FILLS, BELOW_FILLS = 12, 4, 2, 1.6, 0.4
LIST_SIDE = 5
ABOVE_SOURCES = 1.0


def tick_height(item: str, room: float) -> float:
    """The height of a box with its words in `room` mm, in mm."""
    return max(BOX + BOX_DOWN, TICKED.tall(item, room)) + 2 * TICK_AIR


# The foot: the code, the bar that proves the scale of a print, and between them whose sheet it is.
CODE, BAR, INCHES, FOOT_GAP = 15, 100, 4, 5
ABOVE_FOOT = 1.2
