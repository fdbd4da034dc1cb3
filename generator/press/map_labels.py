"""Where the letters of a map stand: each at the one of its places at which it hides least of what is drawn."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from markupsafe import escape

from generator.press.text_width import POINT, width_of

# A letter that runs into another can be read no more; one that covers a line leaves a doubt only.
_OVER_A_LETTER = 10.0
# How much of the size a capital reaches up from its foot.
_CAPITAL = 0.75


class Patch(NamedTuple):
    """An upright rectangle that is taken already: left, top, width, height in mm of skin."""

    x: float
    y: float
    width: float
    height: float


class Label(NamedTuple):
    """A word with the left ends of the feet at which it may stand, the best first."""

    words: str
    places: tuple[tuple[float, float], ...]


def inside(frame: Patch, words: str, size: float, corners: bool) -> Label:
    """The name of an area: in one of its corners, or on its middle where it does not reach them."""
    wide, edge = width_of(words, 1, bold=True) / POINT * size, size / 5
    left, right = frame.x + edge, frame.x + frame.width - wide - edge
    middle = frame.x + (frame.width - wide) / 2
    top, foot = frame.y + size, frame.y + frame.height - edge
    centre = frame.y + (frame.height + size * _CAPITAL) / 2
    if corners:
        return Label(words, ((left, top), (right, top), (left, foot), (right, foot), (middle, centre)))
    return Label(words, ((middle, top), (middle, foot), (middle, centre)))


def beside(spot: Patch, words: str, size: float) -> Label:
    """The name of something small: beside it, below it or above it."""
    wide, apart = width_of(words, 1, bold=True) / POINT * size, size / 5
    level = spot.y + (spot.height + size * _CAPITAL) / 2
    right, left = spot.x + spot.width + apart, spot.x - wide - apart
    below, above = spot.y + spot.height + size * _CAPITAL + apart, spot.y - apart
    middle = spot.x + (spot.width - wide) / 2
    return Label(words, ((right, level), (left, level), (middle, below), (middle, above)))


def placed(labels: list[Label], taken: list[Patch], width: float, height: float, size: float) -> Iterator[str]:
    """The labels as SVG text inside a piece of this size, one after the other; `taken`: what they keep off."""
    written: list[Patch] = []
    for label in labels:
        wide = width_of(label.words, 1, bold=True) / POINT * size
        fitted = [_fitted(x, y, wide, size, width, height) for x, y in label.places]
        best = min(fitted, key=lambda patch: _hidden(patch, written) * _OVER_A_LETTER + _hidden(patch, taken))
        written.append(best)
        yield text(best.x, best.y + best.height, label.words, size)


def _fitted(x: float, foot: float, wide: float, size: float, width: float, height: float) -> Patch:
    """A word that stays inside the piece, where the piece is large enough for it."""
    foot = max(size, min(foot, height))
    return Patch(max(0.0, min(x, width - wide)), foot - size * _CAPITAL, wide, size * _CAPITAL)


def _hidden(patch: Patch, others: list[Patch]) -> float:
    return sum(
        max(0.0, min(patch.x + patch.width, other.x + other.width) - max(patch.x, other.x))
        * max(0.0, min(patch.y + patch.height, other.y + other.height) - max(patch.y, other.y))
        for other in others
    )


def text(x: float, y: float, words: str, size: float) -> str:
    """Letters with a white edge, so that no line runs through them; `y` is their foot."""
    return f'<text x="{n(x)}" y="{n(y)}" font-size="{n(size)}" stroke-width="{n(size / 5)}">{escape(words)}</text>'


def n(number: float) -> str:
    """A coordinate with two decimals at most."""
    return f"{number:.2f}".rstrip("0").rstrip(".")
