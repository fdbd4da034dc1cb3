"""The charts show the records' numbers where their scales say they are, and tell them in words."""

from __future__ import annotations

import itertools
import re
import xml.etree.ElementTree as ET

import pytest

from generator.press.drawings.charts import ChartSpan, _steps, calibration_chart, spans_chart
from generator.press.words.formatted import measured
from tests.planning.demo import RECORDS

CALIBRATION = RECORDS.calibrations["lathe-three-five"]
SPANS = [ChartSpan(t.name, row.speed, row.usual) for t in RECORDS.techniques.values() for row in t.dials]


def _scale(svg: ET.Element, axis: str) -> tuple[float, float]:
    """Offset and factor of an axis, read from two of its labelled lines, as an eye reads it."""
    grid = [path.get("d", "") for path in svg.iter("path") if path.get("class") == "grid"]
    lines = [re.findall(r"[-\d.]+|[MHV]", line) for line in grid]
    places = sorted(float(line[1 if axis == "x" else 2]) for line in lines if line[3] == ("V" if axis == "x" else "H"))
    upright = [text for text in svg.iter("text") if re.fullmatch(r"[\d.]+", text.text or "")]
    anchor = "middle" if axis == "x" else "end"
    said = sorted(float(t.text or "") for t in upright if t.get("text-anchor") == anchor)
    assert len(said) == len(places)
    if axis == "y":
        said = said[::-1]
    factor = (said[-1] - said[0]) / (places[-1] - places[0])
    return said[0] - factor * places[0], factor


def _svg(chart: str) -> ET.Element:
    return ET.fromstring(re.search(r"<svg.*</svg>", chart, re.DOTALL)[0])  # type: ignore[index]


def test_points_lie_where_the_scales_say() -> None:
    svg = _svg(calibration_chart(CALIBRATION, "Lathe", RECORDS))
    (x0, xf), (y0, yf) = _scale(svg, "x"), _scale(svg, "y")
    seen = [(x0 + xf * float(c.get("cx", "")), y0 + yf * float(c.get("cy", ""))) for c in svg.iter("circle")]
    assert len(seen) == len(CALIBRATION.points)
    for (volts, hertz), (v, f) in zip(CALIBRATION.points, seen, strict=True):
        assert v == pytest.approx(volts.low, abs=0.02) and f == pytest.approx(hertz.low, abs=0.3)


def test_bars_reach_from_low_to_high_with_the_usual_value_marked() -> None:
    svg = _svg(spans_chart("Speeds", SPANS, RECORDS))
    x0, xf = _scale(svg, "x")
    bars, marks = list(svg.iter("rect")), list(svg.iter("circle"))
    assert len(bars) == len(marks) == len(SPANS)
    for span, bar, mark in zip(SPANS, bars, marks, strict=True):
        left = x0 + xf * float(bar.get("x", ""))
        assert left == pytest.approx(span.range.low, abs=0.5)
        assert left + xf * float(bar.get("width", "")) == pytest.approx(span.range.high, abs=0.5)
        assert x0 + xf * float(mark.get("cx", "")) == pytest.approx(span.usual.low, abs=0.5)


def test_every_number_is_told_in_words() -> None:
    said = _svg(calibration_chart(CALIBRATION, "Lathe", RECORDS)).get("aria-label", "")
    assert all(measured(q, RECORDS) in said for point in CALIBRATION.points for q in point)
    said = _svg(spans_chart("Speeds", SPANS, RECORDS)).get("aria-label", "")
    assert all(measured(q, RECORDS) in said for span in SPANS for q in (span.range, span.usual))


@pytest.mark.parametrize(("low", "high"), [(5, 9), (68, 126), (0.2, 0.25), (7, 7), (1, 1000)])
def test_a_scale_holds_its_values_between_few_round_lines(low: float, high: float) -> None:
    steps = _steps(low, high)
    assert steps[0] <= low and high <= steps[-1] and 2 <= len(steps) <= 8
    assert len({round(b - a, 6) for a, b in itertools.pairwise(steps)}) == 1
