"""Estimated against actual minutes of one artist with one technique, drawn.

Nothing rests on colour: an estimate is an open bar with a tick at its middle, the clock a full diamond. All lines
take the colour of the text, so that the drawing is as legible by night and in print as the words beside it.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator

from markupsafe import Markup

from generator.planning.timing.learning import Lesson, Timed
from generator.press.drawings.svg import drawing, element, n, path, round_step, words

# One unit is a pixel of the narrowest screen; the room at the sides is for half a word of the scale.
_WIDE, _SIDE, _ROW, _LETTER = 320.0, 14.0, 40.0, 12.0
_BAR = 12.0
_SCALE_STEPS = 5


def figure(lesson: Lesson, title: str, factor: str) -> Markup:
    """The jobs of a lesson, the latest last; the table beside the figure holds the same numbers."""
    most = max(max(timed.planned[1], timed.took) for timed in lesson.jobs)
    step = round_step(max(most / _SCALE_STEPS, 1))
    end = step * -(-most // step)
    rows = itertools.chain(*(_row(timed, number, end) for number, timed in enumerate(lesson.jobs)))
    foot = len(lesson.jobs) * _ROW + 6
    tall = foot + 2 * _LETTER + 6
    said = f"{title}, minutes by job. " + " ".join(_in_words(timed) for timed in lesson.jobs)
    drawn = drawing(said, (0, 0, _WIDE, tall), *rows, *_scale(step, end, foot))
    return Markup(
        '<figure class="learned">{}<figcaption>Open bar: the estimate, with a tick at its middle. '
        "Diamond: what the clock said. Factor in use: {}.</figcaption></figure>"
    ).format(drawn, factor)


def _in_words(timed: Timed) -> str:
    low, high = timed.printed
    return f"{timed.job}: estimated {low:g} to {high:g}, took {timed.took:.0f}."


def _across(minutes: float, end: float) -> float:
    return _SIDE + (_WIDE - 2 * _SIDE) * minutes / end


def _row(timed: Timed, number: int, end: float) -> Iterator[Markup]:
    top = number * _ROW
    low, high = (_across(minutes, end) for minutes in timed.planned)
    middle, took = n(_across(timed.estimate, end), 1), n(_across(timed.took, end), 1)
    y = top + _LETTER + 6
    half = _BAR / 2
    yield words(_SIDE, top + _LETTER, timed.job)
    yield element("rect", class_="estimate", x=n(low, 1), y=y, width=n(high - low, 1), height=_BAR)
    yield path("middle", f"M{middle} {y:g}v{_BAR:g}")
    diamond = f"l{half:g} {half + 1:g}l{-half:g} {half + 1:g}l{-half:g} {-half - 1:g}z"
    yield path("clock", f"M{took} {y - 1:g}{diamond}")


def _scale(step: float, end: float, foot: float) -> Iterator[Markup]:
    yield path("scale", f"M{_SIDE:g} {foot:g}H{_across(end, end):g}")
    for number in range(round(end / step) + 1):
        minutes = number * step
        at = n(_across(minutes, end), 1)
        yield path("scale", f"M{at} {foot:g}v4")
        yield words(at, foot + 4 + _LETTER, f"{minutes:g}", text_anchor="middle")
    yield words(_WIDE - _SIDE, foot + 4 + 2 * _LETTER, "minutes", text_anchor="end")
