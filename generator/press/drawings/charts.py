"""Two charts for those who would rather look than read; the numbers stand in the table beside each.

What is easier seen than read is drawn: charts from records here, drawings by hand in `shipped/assets/figures`, on a
plate of paper by day and by night. Neither holds a number of its own.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from markupsafe import Markup

from generator.press.drawings.svg import drawing, element, n, path, round_step, words
from generator.press.words.formatted import measured
from generator.quantities import Quantity
from generator.records.families import Records
from generator.records.machines import Calibration

# Sizes of the drawing in its own units; a unit is about a pixel on a desktop screen.
_WIDE, _TALL = 480, 260
_LEFT, _RIGHT, _TOP, _BELOW = 46, 18, 28, 38
_NARROW, _MARGIN, _ROW = 360, 14, 40


class ChartSpan(NamedTuple):
    """One bar: its name, its range and the usual value in it."""

    name: str
    range: Quantity
    usual: Quantity


def calibration_chart(calibration: Calibration, title: str, records: Records) -> Markup:
    """Measured frequency over dial volts, straight between two points and nothing beyond the last."""
    volts = [point.low for point, _ in calibration.points]
    hertz = [point.low for _, point in calibration.points]
    across, up = _steps(min(volts), max(volts)), _steps(min(hertz), max(hertz))
    inner_wide, inner_tall = _WIDE - _LEFT - _RIGHT, _TALL - _TOP - _BELOW

    def x(value: float) -> float:
        return _LEFT + inner_wide * (value - across[0]) / (across[-1] - across[0])

    def y(value: float) -> float:
        return _TOP + inner_tall * (1 - (value - up[0]) / (up[-1] - up[0]))

    drawn = [
        *(path("grid", f"M{n(x(v), 1)} {_TOP}V{_TALL - _BELOW}") for v in across),
        *(path("grid", f"M{_LEFT} {n(y(f), 1)}H{_WIDE - _RIGHT}") for f in up),
        *(_label(x(v), _TALL - _BELOW + 17, f"{v:g}", "middle") for v in across),
        *(_label(_LEFT - 7, y(f) + 4, f"{f:g}", "end") for f in up),
        _label(_WIDE - _RIGHT, _TALL - 5, "dial, V", "end"),
        _label(4, 11, "Hz", "start"),
        path("line", "M" + "L".join(f"{n(x(v), 1)} {n(y(f), 1)}" for v, f in zip(volts, hertz, strict=True))),
        *(_circle(x(v), y(f), 4) for v, f in zip(volts, hertz, strict=True)),
    ]
    pairs = "; ".join(f"{measured(v, records)} gives {measured(f, records)}" for v, f in calibration.points)
    return _figure(_WIDE, _TALL, f"{title}: {pairs}. Nothing is known beyond the first and the last point.", drawn)


def spans_chart(title: str, spans: Sequence[ChartSpan], records: Records) -> Markup:
    """Ranges as bars on one scale, with a mark at the usual value; all are of one kind. Without any, nothing."""
    if not spans:
        return Markup("")
    ends = [end for span in spans for end in (span.range.low, span.range.high)]
    scale = _steps(min(ends), max(ends))
    foot = len(spans) * _ROW + 8

    def x(value: float) -> float:
        return _MARGIN + (_NARROW - 2 * _MARGIN) * (value - scale[0]) / (scale[-1] - scale[0])

    drawn = [path("grid", f"M{n(x(v), 1)} 4V{foot}") for v in scale]
    drawn += [_label(x(v), foot + 16, f"{v:g}", "middle") for v in scale]
    drawn.append(_label(_NARROW - _MARGIN, foot + 32, spans[0].range.unit, "end"))
    for place, span in enumerate(spans):
        # The name is over its bar, so that a phone has room for both.
        top = 4 + place * _ROW
        left, right, usual = x(span.range.low), x(span.range.high), x(span.usual.low)
        drawn += [
            _label(_MARGIN, top + 13, span.name, "start"),
            element("rect", x=n(left, 1), y=top + 20, width=n(max(right - left, 1), 1), height=10, class_="span"),
            _circle(usual, top + 25, 5),
        ]
    values = "; ".join(f"{s.name} {measured(s.range, records)}, usually {measured(s.usual, records)}" for s in spans)
    return _figure(_NARROW, foot + 36, f"{title}: {values}.", drawn)


def _steps(low: float, high: float) -> list[float]:
    """Round values around a range, at most seven, for the lines of a scale."""
    step = round_step(max(high - low, high / 100) / 6 * 0.999)
    # A value on a line stays there, whatever its last binary digit.
    first, last = math.floor(low / step + 1e-9), math.ceil(high / step - 1e-9)
    return [round((first + line) * step, 6) for line in range(max(last - first, 1) + 1)]


def _label(x: float, y: float, text: str, anchor: str) -> Markup:
    return words(n(x, 1), n(y, 1), text, text_anchor=anchor)


def _circle(x: float, y: float, radius: int) -> Markup:
    return element("circle", cx=n(x, 1), cy=n(y, 1), r=radius)


def _figure(wide: int, tall: int, said: str, drawn: Sequence[Markup]) -> Markup:
    return element("figure", drawing(said, (0, 0, wide, tall), *drawn), class_="chart")
