"""How much room text takes in print, calculated for the widest fallback font that a sheet may meet (DejaVu Sans).

The sheet is divided into sides before any browser sees it, so its lines are calculated here, never too few of them.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache

POINT = 25.4 / 72  # mm
# Characters with their advance widths in the regular and in the bold cut, in hundredths of the size.
_WIDTHS = (
    ("'", 27, 31),
    ("ijl", 28, 34),
    ("IJ", 29, 37),
    (" \u00a0", 32, 35),
    (",.·’", 32, 38),
    ("/\\|", 34, 37),
    (":;", 34, 40),
    ("f", 35, 44),
    ("-", 36, 42),
    ("()[]", 39, 46),
    ("t", 39, 48),
    ("²", 40, 44),
    ("!", 40, 46),
    ("r", 41, 49),
    ('"', 46, 52),
    ("_`–°", 50, 50),
    ("*", 50, 52),
    ("z", 52, 58),
    ("s", 52, 60),
    ("“”", 52, 66),
    ("?", 53, 58),
    ("c", 55, 59),
    ("L", 56, 64),
    ("k", 58, 67),
    ("F", 58, 68),
    ("vxy", 59, 65),
    ("P", 60, 73),
    ("a", 61, 67),
    ("T", 61, 68),
    ("o", 61, 69),
    ("Y", 61, 72),
    ("eé", 62, 68),
    ("E", 63, 68),
    ("hnu", 63, 71),
    ("Sbdgpq", 63, 72),
    ("0123456789$", 64, 70),
    ("{}", 64, 71),
    ("µ", 64, 74),
    ("K", 66, 77),
    ("AV", 68, 77),
    ("Z", 69, 73),
    ("B", 69, 76),
    ("RX", 69, 77),
    ("C", 70, 73),
    ("U", 73, 81),
    ("HN", 75, 84),
    ("G", 77, 82),
    ("D", 77, 83),
    ("&", 78, 87),
    ("OQ", 79, 85),
    ("w", 82, 92),
    ("#+<=>^~×→±−", 84, 84),
    ("M", 86, 100),
    ("%", 95, 100),
    ("m", 97, 104),
    ("W", 99, 110),
    ("@…—", 100, 100),
)
_WIDTH_OF = {character: cuts for characters, *cuts in _WIDTHS for character in characters}
# A character that is not listed is taken for a wide one.
_WIDEST = (100, 110)
# Beside spaces, a line may end behind one of these between two letters or digits, but not inside a date.
_LINE_MAY_END = re.compile(r"(?<=\w[-–…?])(?=\w)(?!(?<=\d{4}-)\d\d-\d\d)(?<!\d{4}-\d\d-)")

# A bit of text, and whether it is bold; a text of one cut may be given as it is.
Run = tuple[str, bool]
Text = str | tuple[Run, ...]


@lru_cache(maxsize=8192)  # what one sheet asks for again and again; all words of an archive would take much
def width_of(text: Text, size: float, bold: bool = False) -> float:
    """The width of text on one line, in mm; `size` in points, `bold` of a text of one cut."""
    hundredths = sum(_WIDTH_OF.get(character, _WIDEST)[cut] for run, cut in _runs(text, bold) for character in run)
    return hundredths / 100 * size * POINT


@lru_cache(maxsize=8192)
def lines_of(text: Text, room: float, size: float, bold: bool = False) -> int:
    """How many lines text takes in a column of `room` mm, at least one."""
    lines, used, gap = 1, 0.0, 0.0
    for word, space in _undivided(_runs(text, bold)):
        width = width_of(word, size)
        if used and used + gap + width > room:
            lines, used, gap = lines + 1, 0.0, 0.0
        if width > room:
            more, used = _broken(word, room, size)
            lines += more
        else:
            used += gap + width
        gap = width_of(space, size)
    return lines


def _runs(text: Text, bold: bool) -> tuple[Run, ...]:
    return ((text, bold),) if isinstance(text, str) else text


def _undivided(runs: tuple[Run, ...]) -> Iterator[tuple[tuple[Run, ...], tuple[Run, ...]]]:
    """What stays on one line, and the space behind it; a space that does not break is in it.

    It may begin in one run and end in the next.
    """
    word: list[Run] = []
    for text, bold in runs:
        for number, divided in enumerate(text.replace("\n", " ").split(" ")):
            if number and word:
                yield tuple(word), ((" ", bold),)
                word = []
            for at, piece in enumerate(_LINE_MAY_END.split(divided)):
                if at and word:
                    yield tuple(word), ()
                    word = []
                if piece:
                    word.append((piece, bold))
    if word:
        yield tuple(word), ()


def _broken(word: tuple[Run, ...], room: float, size: float) -> tuple[int, float]:
    """How many lines more a word takes that is longer than a line, and the mm of its last one."""
    lines, used = _filled([width_of(one, size, bold) for text, bold in word for one in text], room, 0.0)
    return lines - 1, used


def rows_of(widths: list[float], room: float, gap: float) -> int:
    """How many rows things of these widths take that stand side by side where they can."""
    return _filled(widths, room, gap)[0]


def _filled(widths: list[float], room: float, gap: float) -> tuple[int, float]:
    """How many rows, at least one, and the mm that are taken in the last."""
    rows, used = 1, 0.0
    for width in widths:
        if used and used + gap + width > room:
            rows, used = rows + 1, 0.0
        used += width + (gap if used else 0.0)
    return rows, used
