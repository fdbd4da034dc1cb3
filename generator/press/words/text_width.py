"""How much room text takes in print, calculated for the widest fallback font that a sheet may meet (DejaVu Sans).

The sheet is divided into sides before any browser sees it, so its lines are calculated here, never too few of them.
"""

from __future__ import annotations

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
    ("#+<=>^~×→", 84, 84),
    ("M", 86, 100),
    ("%", 95, 100),
    ("m", 97, 104),
    ("W", 99, 110),
    ("@…", 100, 100),
)
_WIDTH_OF = {character: cuts for characters, *cuts in _WIDTHS for character in characters}
# A character that is not listed is taken for a wide one.
_WIDEST = (100, 110)


@lru_cache(maxsize=65536)
def width_of(text: str, size: float, bold: bool = False) -> float:
    """The width of text on one line, in mm; `size` in points."""
    return sum(_WIDTH_OF.get(character, _WIDEST)[bold] for character in text) / 100 * size * POINT


@lru_cache(maxsize=65536)
def lines_of(text: str, room: float, size: float, bold: bool = False, before: float = 0.0) -> int:
    """How many lines text takes in a column of `room` mm, at least one; `before`: mm that are taken in front of it."""
    lines, used = 1, before
    space = width_of(" ", size, bold)
    # A space that does not break belongs to its word.
    for word in text.replace("\n", " ").split(" "):
        width = width_of(word, size, bold)
        if used and used + space + width > room:
            lines, used = lines + 1, 0.0
        used += width + (space if used else 0.0)
        while used > room:  # a word longer than the column is broken
            lines, used = lines + 1, used - room
    return lines


def rows_of(widths: list[float], room: float, gap: float) -> int:
    """How many rows things of these widths take that stand side by side where they can."""
    rows, used = 1, 0.0
    for width in widths:
        if used and used + gap + width > room:
            rows, used = rows + 1, 0.0
        used += width + (gap if used else 0.0)
    return rows
