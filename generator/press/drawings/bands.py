"""The bands of a piece on a limb that tapers, drawn on their arcs at true size and cut to the paper.

Only parts that are written down as a band: a ground or a frame may span the piece too without running round the
limb. All bands of a piece share one centre, so that they stay parallel on the skin.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from markupsafe import Markup, escape

from generator.planning.computed import value_shown
from generator.planning.working.bands import (
    Arc,
    ClosedBand,
    Template,
    bands_of,
    closed_bands,
    no_such_limb,
    template_of,
)
from generator.press.drawings.svg import Picture, drawing, element, n, path, words
from generator.quantities import shown, to_canonical
from generator.records.families import Records
from generator.records.jobs import Job
from generator.records.parts import LEFT_OPEN, OWN_ENDS, Part
from generator.trade import body
from generator.trade.paper import EDGE, STRIP, TALLEST

# Two bars that prove the scale of a print, for either ruler: mm and inches.
_CHECK_BAR, _CHECK_INCHES = 100.0, 4.0
_FOOT = 14.0


def bands_drawn(records: Records, job: Job) -> Iterator[Picture]:
    """One picture for all bands of the job; in words alone where nothing can or has to be drawn on an arc."""
    bands = bands_of(job)
    if not bands:
        return
    names = ", ".join(str(part.id) for part in bands)
    refusal = no_such_limb(job)
    if refusal is None:
        drawn, said = _template(records, job, bands, names)
        said = (*said, *(closing_in_words(records, band) for band in closed_bands(records, job)))
    else:
        drawn = Markup("")
        said = (
            f"No template: found {refusal.found}, expected {refusal.expected}. {refusal.remedy[0].upper()}"
            f"{refusal.remedy[1:]}.",
        )
    yield Picture("bands", f"Arc template for {names}", drawn, tuple(escape(line) for line in said))


def closing_in_words(records: Records, band: ClosedBand) -> str:
    """Where the ends of a band meet: the opening at each level, the angle, and what closes it."""
    if band.closed_by == OWN_ENDS:
        lengths = ", ".join(
            f"{_length(records, each.girth.low, each.girth.high)} at its {each.name}" for each in band.levels
        )
        return (
            f"{band.part.id} closes with its own ends: draw it {lengths}. Cut both ends along the limb, as the "
            "template shows them, and let the pattern repeat there."
        )
    openings = ", ".join(
        f"{_length(records, each.opening.low, each.opening.high)} at its {each.name}" for each in band.levels
    )
    ends = (
        "Its ends are parallel" if band.wider is None else f"Its ends open by {band.angle.low:.0f}°, wider {band.wider}"
    )
    return f"Opening of {band.part.id}: {openings}. {ends}. {_closing(band)}"


def openings_in_short(records: Records, bands: tuple[ClosedBand, ...]) -> Iterator[str]:
    """For the sheet: bands that are closed alike in one line, open from the narrowest to the widest of their levels."""
    for closed_by in dict.fromkeys(band.closed_by for band in bands):
        alike = [band for band in bands if band.closed_by == closed_by]
        if closed_by == OWN_ENDS:
            long = _length(records, *(level.girth.low for band in alike for level in band.levels))
            yield f"by its own ends, {long} long, cut along the limb"
            continue
        open_ = _length(records, *(level.opening.low for band in alike for level in band.levels))
        ends = alike[0]
        how = f", wider {ends.wider}, ends at {ends.angle.low:.0f}°" if ends.wider else ""
        yield f"{open_} open{how}; {closed_by or 'ask what closes it'}"


def _length(records: Records, *ends: float) -> str:
    """A length, or the range of several."""
    return shown(min(ends), max(ends), "length", records.studio.shows)


def _closing(band: ClosedBand) -> str:
    if band.closed_by is None:
        return "Ask what closes it."
    if band.closed_by == LEFT_OPEN:
        return "It is left open."
    return f"Close it: {band.closed_by}."


def _template(records: Records, job: Job, bands: list[Part], names: str) -> tuple[Markup, tuple[str, ...]]:
    if job.girth is None:
        return Markup(""), ("No template: no girth is on file. Tape the limb above and below, standing and relaxed.",)
    sheet = template_of(records, job)
    if sheet is None:
        return Markup(""), ("No arc: the limb is as thick above as below. Draw the band straight.",)
    said = [_in_words(records, bands[0], sheet.middle)]
    if sheet.foot - sheet.top > TALLEST:
        said.append(
            "No template: its ends bend down so far that the paper is too short. Draw it with a string of the "
            "length of the radius."
        )
        return Markup(""), tuple(said)
    overlap = records.studio.limits.strip_overlap
    said.append(
        f"Print at 100 % and measure the bars: {_CHECK_BAR:g} mm and {_CHECK_INCHES:g} in. "
        "Muscles bulge: try the stencil standing and relaxed."
    )
    if sheet.strips > 1:
        said.append(
            f"In {sheet.strips} strips: cut each along its edge, lay the crosses on one another; the strips overlap "
            f"by {value_shown(overlap, records.studio.shows)}, up to the dashed line."
        )
    title = f"Arc template for {names} at true size"
    strips = (_strip(sheet, strip, overlap.low, title) for strip in range(sheet.strips))
    return Markup("").join(strips), tuple(said)


def _in_words(records: Records, part: Part, middle: body.Band) -> str:
    assert middle.radius is not None
    radius, sag = (_length(records, value) for value in (middle.radius, middle.sag))
    return (
        f"Middle of {part.id}: radius {radius}, it sweeps {middle.angle:.1f}°; drawn straight it would sag {sag}. "
        f"The ends bend towards the {middle.thin_end} edge."
    )


def _at(sheet: Template, radius: float, angle: float) -> str:
    return f"{n(radius * math.sin(angle))} {n(-sheet.up * radius * math.cos(angle) - sheet.top + EDGE)}"


def _drawn(sheet: Template, arcs: tuple[Arc, ...]) -> Iterator[Markup]:
    for arc, kind in zip(arcs, ("edge", "middle", "edge"), strict=True):
        large, sweep = int(arc.right - arc.left > math.pi), int(sheet.up > 0)
        ends = [_at(sheet, arc.radius, angle) for angle in (arc.left, arc.right)]
        yield path(kind, f"M{ends[0]}A{n(arc.radius)} {n(arc.radius)} 0 {large} {sweep} {ends[1]}")
    upper, _, lower = arcs
    for first, last in ((upper.left, lower.left), (upper.right, lower.right)):
        yield path("edge", f"M{_at(sheet, upper.radius, first)}L{_at(sheet, lower.radius, last)}")


def _strip(sheet: Template, strip: int, overlap: float, title: str) -> Markup:
    """One strip of paper; all strips together have the template in their middle."""
    number = sheet.strips
    whole = number * STRIP - (number - 1) * overlap
    left = (sheet.left + sheet.right - whole) / 2 + strip * (STRIP - overlap)
    foot = sheet.foot - sheet.top + 2 * EDGE
    marks = list(_marks(left, foot, strip, number, overlap))
    bar = left + (STRIP - _CHECK_BAR) / 2
    for below, long in ((1.5, _CHECK_BAR), (5, to_canonical(_CHECK_INCHES, "in"))):
        marks.append(path("edge", f"M{n(bar)} {n(foot + below)}v2h{n(long)}v-2"))
    which = f", strip {strip + 1} of {number}" if number > 1 else ""
    marks.append(words(bar, foot + 12, f"{_CHECK_BAR:g} mm, below it {_CHECK_INCHES:g} in{which}", font_size=4))
    arcs = (piece for arcs in sheet.arcs.values() for piece in _drawn(sheet, arcs))
    wide, tall = f"{STRIP:g}mm", f"{n(foot + _FOOT)}mm"
    view = left, 0, STRIP, foot + _FOOT
    return drawing(title + which, view, *arcs, *marks, class_="band", width=wide, height=tall)


def _marks(left: float, foot: float, strip: int, number: int, overlap: float) -> Iterator[Markup]:
    """Where the next strip begins: a dashed line, and crosses that lie on one another when both fit."""
    if number > 1:
        yield element("rect", class_="cut", x=left + 0.1, y=0.1, width=STRIP - 0.2, height=foot)
    shared = []
    if strip > 0:
        shared.append((left, left + overlap))
    if strip < number - 1:
        shared.append((left + STRIP - overlap, left + STRIP))
    for begin, end in shared:
        inner = end if begin == left else begin
        yield path("lap", f"M{n(inner)} 0V{n(foot)}")
        for height in (foot / 4, 3 * foot / 4):
            yield path("cross", f"M{n((begin + end) / 2 - 2)} {n(height)}h4m-2 -2v4")
