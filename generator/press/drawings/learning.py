"""Estimated against actual minutes of one artist with one technique, drawn.

Nothing rests on colour: an estimate is an open bar with a tick at its middle, the clock a full diamond. All lines
take the colour of the text, so that the drawing is as legible by night and in print as the words beside it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from generator.planning.timing.learning import Lesson, Timed
from generator.press.words.estimates import rounded_out
from generator.press.words.markup import Markup, escape

# One unit is a pixel of the narrowest screen; the room at the sides is for half a word of the scale.
_WIDE, _SIDE, _ROW, _LETTER = 320.0, 14.0, 40.0, 12.0
_BAR = 12.0
_SCALE_STEPS = 5


def figure(lesson: Lesson, title: str, factor: str) -> Markup:
    """The jobs of a lesson, the latest last; the table beside the figure holds the same numbers."""
    most = max(max(timed.planned[1], timed.took) for timed in lesson.jobs)
    step = _round_step(most / _SCALE_STEPS)
    end = step * -(-most // step)
    rows = "".join(_row(timed, number, end) for number, timed in enumerate(lesson.jobs))
    foot = len(lesson.jobs) * _ROW + 6
    tall = foot + 2 * _LETTER + 6
    said = f"{title}, minutes by job. " + " ".join(_in_words(timed) for timed in lesson.jobs)
    drawn = (
        f'<svg viewBox="0 0 {_WIDE:g} {tall:g}" role="img" aria-label="{escape(said)}">'
        f"{rows}{''.join(_scale(step, end, foot))}</svg>"
    )
    return Markup(
        '<figure class="learned">{}<figcaption>Open bar: the estimate, with a tick at its middle. '
        "Diamond: what the clock said. Factor in use: {}.</figcaption></figure>"
    ).format(Markup(drawn), factor)


def _round_step(minutes: float) -> float:
    """The next of 1, 2, 5, 10, 20, 50 … minutes."""
    tens = 10.0 ** math.floor(math.log10(max(minutes, 1)))
    return next(step * tens for step in (1, 2, 5, 10) if step * tens >= minutes)


def _in_words(timed: Timed) -> str:
    low, high = rounded_out(*timed.planned, "duration")
    return f"{timed.job}: estimated {low:g} to {high:g}, took {timed.took:.0f}."


def _across(minutes: float, end: float) -> float:
    return _SIDE + (_WIDE - 2 * _SIDE) * minutes / end


def _row(timed: Timed, number: int, end: float) -> str:
    top = number * _ROW
    low, high = (_across(minutes, end) for minutes in timed.planned)
    middle, took = _across(timed.estimate, end), _across(timed.took, end)
    y = top + _LETTER + 6
    half = _BAR / 2
    return (
        f'<text x="{_SIDE:g}" y="{top + _LETTER:g}">{escape(timed.job)}</text>'
        f'<rect class="estimate" x="{low:.1f}" y="{y:g}" width="{high - low:.1f}" height="{_BAR:g}"/>'
        f'<path class="middle" d="M{middle:.1f} {y:g}v{_BAR:g}"/>'
        f'<path class="clock" d="M{took:.1f} {y - 1:g}l{half:g} {half + 1:g}l{-half:g} {half + 1:g}'
        f'l{-half:g} {-half - 1:g}z"/>'
    )


def _scale(step: float, end: float, foot: float) -> Iterator[str]:
    yield f'<path class="scale" d="M{_SIDE:g} {foot:g}H{_across(end, end):g}"/>'
    for number in range(round(end / step) + 1):
        minutes = number * step
        at = _across(minutes, end)
        yield f'<path class="scale" d="M{at:.1f} {foot:g}v4"/>'
        yield f'<text x="{at:.1f}" y="{foot + 4 + _LETTER:g}" text-anchor="middle">{minutes:g}</text>'
    yield f'<text x="{_WIDE - _SIDE:g}" y="{foot + 4 + 2 * _LETTER:g}" text-anchor="end">minutes</text>'
