"""The bands of a piece on a limb that tapers, drawn on their arcs at true size and cut to the paper.

Only parts that are written down as a band: a ground or a frame may span the piece too without running round the
limb. All bands of a piece share one centre, so that they stay parallel on the skin.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from markupsafe import Markup, escape

from generator.planning.working.shapes import edges_of
from generator.press.drawings.svg import Picture, element, n, path, words
from generator.quantities import shown
from generator.records.families import Records
from generator.records.jobs import Girth, Job
from generator.records.parts import Part
from generator.trade import body, paper
from generator.trade.refusal import Refusal

# Of paper, in mm: what fits between the margins of A4 and of Letter, with the heading above it.
_STRIP, _TALLEST = 184.0, 200.0
_CHECK_BAR = 100.0
_EDGE, _FOOT = 3.0, 14.0

_LEVELS = (0.0, 0.5, 1.0)  # upper edge, middle, lower edge


class _Arc(NamedTuple):
    """One arc of a band round the common centre: its radius in mm and the angles of its ends in radians."""

    radius: float
    left: float
    right: float


class _Sheet(NamedTuple):
    """Where the drawing lies, in mm from the centre of its arcs; `up` is +1 where the centre lies below it."""

    up: int
    top: float
    foot: float
    left: float
    right: float


def bands_drawn(records: Records, job: Job) -> Iterator[Picture]:
    """One picture for all bands of the job; in words alone where nothing can or has to be drawn on an arc."""
    bands = [part for part in job.parts if part.band]
    if not bands:
        return
    names = ", ".join(str(part.id) for part in bands)
    try:
        drawn, said = _template(records, job, bands, names)
    except Refusal as refusal:
        drawn = Markup("")
        said = (
            f"No template: found {refusal.found}, expected {refusal.expected}. {refusal.remedy[0].upper()}"
            f"{refusal.remedy[1:]}.",
        )
    yield Picture("bands", f"Arc template for {names}", drawn, tuple(escape(line) for line in said))


def _template(records: Records, job: Job, bands: list[Part], names: str) -> tuple[Markup, tuple[str, ...]]:
    if job.girth is None:
        return Markup(""), ("No template: no girth is on file. Tape the limb above and below, standing and relaxed.",)
    if job.girth.top.low == job.girth.bottom.low:
        return Markup(""), ("No arc: the limb is as thick above as below. Draw the band straight.",)
    arcs = {str(part.id): _arcs(job, job.girth, part) for part in bands}
    middle = _level(job, job.girth, bands[0], 0.5)
    said = [_in_words(records, bands[0], middle)]
    sheet = _sheet([arc for of in arcs.values() for arc in of], middle)
    if sheet.foot - sheet.top > _TALLEST:
        said.append(
            "No template: its ends bend down so far that the paper is too short. Draw it with a string of the "
            "length of the radius."
        )
        return Markup(""), tuple(said)
    limit = records.studio.limits.strip_overlap
    overlap = limit.low
    number = paper.strips_across(sheet.right - sheet.left + 2 * _EDGE, _STRIP, overlap)
    said.append("Print at 100 % and measure the bar: 100 mm. Muscles bulge: try the stencil standing and relaxed.")
    if number > 1:
        lap = shown(overlap, overlap, "length", records.studio.units, limit.text)
        said.append(
            f"In {number} strips: cut each along its edge, lay the crosses on one another; the strips overlap "
            f"by {lap}, up to the dashed line."
        )
    title = f"Arc template for {names} at true size"
    strips = (_strip(sheet, arcs, strip, number, overlap, title) for strip in range(number))
    return Markup("").join(strips), tuple(said)


def _level(job: Job, girth: Girth, part: Part, place: float) -> body.Band:
    """The arc at a level of a part, as long as the part is wide."""
    left, top, right, foot = edges_of(part)
    return body.band(right - left, top + place * (foot - top), girth.top.low, girth.bottom.low, job.size[1].low)


def _arcs(job: Job, girth: Girth, part: Part) -> tuple[_Arc, ...]:
    """Upper edge, middle and lower edge, where the part lies beside the middle of the piece."""
    left, _, right, _ = edges_of(part)
    half = job.size[0].low / 2
    radii = [_level(job, girth, part, place).radius for place in _LEVELS]
    return tuple(_Arc(radius, (left - half) / radius, (right - half) / radius) for radius in radii if radius)


def _in_words(records: Records, part: Part, middle: body.Band) -> str:
    assert middle.radius is not None
    radius, sag = (shown(value, value, "length", records.studio.units) for value in (middle.radius, middle.sag))
    return (
        f"Middle of {part.id}: radius {radius}, it sweeps {middle.angle:.1f}°; drawn straight it would sag {sag}. "
        f"The ends bend towards the {middle.thin_end} edge."
    )


def _sheet(arcs: list[_Arc], middle: body.Band) -> _Sheet:
    """The room that the arcs take."""
    up = 1 if middle.thin_end == "bottom" else -1
    heights, across = [], []
    for arc in arcs:
        turns = (turn for turn in (-math.pi / 2, 0.0, math.pi / 2) if arc.left < turn < arc.right)
        angles = [arc.left, arc.right, *turns]
        heights += [-up * arc.radius * math.cos(angle) for angle in angles]
        across += [arc.radius * math.sin(angle) for angle in angles]
    return _Sheet(up, min(heights), max(heights), min(across), max(across))


def _at(sheet: _Sheet, radius: float, angle: float) -> str:
    return f"{n(radius * math.sin(angle))} {n(-sheet.up * radius * math.cos(angle) - sheet.top + _EDGE)}"


def _drawn(sheet: _Sheet, arcs: tuple[_Arc, ...]) -> Iterator[Markup]:
    for arc, kind in zip(arcs, ("edge", "middle", "edge"), strict=True):
        large, sweep = int(arc.right - arc.left > math.pi), int(sheet.up > 0)
        ends = [_at(sheet, arc.radius, angle) for angle in (arc.left, arc.right)]
        yield path(kind, f"M{ends[0]}A{n(arc.radius)} {n(arc.radius)} 0 {large} {sweep} {ends[1]}")
    upper, _, lower = arcs
    for first, last in ((upper.left, lower.left), (upper.right, lower.right)):
        yield path("edge", f"M{_at(sheet, upper.radius, first)}L{_at(sheet, lower.radius, last)}")


def _strip(
    sheet: _Sheet, bands: dict[str, tuple[_Arc, ...]], strip: int, number: int, overlap: float, title: str
) -> Markup:
    """One strip of paper; all strips together have the template in their middle."""
    whole = number * _STRIP - (number - 1) * overlap
    left = (sheet.left + sheet.right - whole) / 2 + strip * (_STRIP - overlap)
    foot = sheet.foot - sheet.top + 2 * _EDGE
    marks = list(_marks(left, foot, strip, number, overlap))
    bar = left + (_STRIP - _CHECK_BAR) / 2
    marks.append(path("edge", f"M{n(bar)} {n(foot + 2)}v3h{n(_CHECK_BAR)}v-3"))
    which = f", strip {strip + 1} of {number}" if number > 1 else ""
    marks.append(words(bar, foot + 10, f"This bar is 100 mm{which}", font_size=4))
    return element(
        "svg",
        *(piece for arcs in bands.values() for piece in _drawn(sheet, arcs)),
        *marks,
        class_="band",
        width=f"{_STRIP:g}mm",
        height=f"{n(foot + _FOOT)}mm",
        viewBox=f"{n(left)} 0 {_STRIP:g} {n(foot + _FOOT)}",
        role="img",
        aria_label=title + which,
    )


def _marks(left: float, foot: float, strip: int, number: int, overlap: float) -> Iterator[Markup]:
    """Where the next strip begins: a dashed line, and crosses that lie on one another when both fit."""
    if number > 1:
        yield element("rect", class_="cut", x=left + 0.1, y=0.1, width=_STRIP - 0.2, height=foot)
    shared = []
    if strip > 0:
        shared.append((left, left + overlap))
    if strip < number - 1:
        shared.append((left + _STRIP - overlap, left + _STRIP))
    for begin, end in shared:
        inner = end if begin == left else begin
        yield path("lap", f"M{n(inner)} 0V{n(foot)}")
        for height in (foot / 4, 3 * foot / 4):
            yield path("cross", f"M{n((begin + end) / 2 - 2)} {n(height)}h4m-2 -2v4")
