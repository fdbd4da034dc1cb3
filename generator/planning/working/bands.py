"""Bands round a limb: the arcs that they are drawn on, the paper that these take, and where their ends meet.

Only parts that are written down as a band: a ground or a frame may span the piece too without running round the limb.
All bands of a piece share one centre, so that they stay parallel on the skin. A band is as long at each of its edges as
it is drawn, so that its ends stand open where the limb is thicker; one that is closed by its own ends is as long at
each level as the limb is round.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal, NamedTuple

from generator.planning.computed import Computed, compute, counted, recorded
from generator.planning.working.shapes import edges_of, shape_key
from generator.records.client import Girth
from generator.records.families import Records
from generator.records.jobs import Job
from generator.records.located import Text
from generator.records.parts import OWN_ENDS, Part
from generator.trade import body, paper
from generator.trade.refusal import Refusal

LEVELS = {"upper edge": 0.0, "middle": 0.5, "lower edge": 1.0}


class Arc(NamedTuple):
    """One arc of a band round the common centre: its radius in mm and the angles of its ends in radians."""

    radius: float
    left: float
    right: float


class Template(NamedTuple):
    """Where the arcs of all bands lie, in mm from their centre; `up` is +1 where the centre lies below them.

    middle: the arc in the middle of the first band. strips: how many strips of paper it takes side by side.
    """

    arcs: Mapping[str, tuple[Arc, ...]]
    middle: body.Band
    up: int
    top: float
    foot: float
    left: float
    right: float
    strips: int


class Level(NamedTuple):
    """One level of a band: how thick the limb is there, and how far its ends are apart."""

    name: str
    girth: Computed
    opening: Computed


@dataclass(frozen=True, slots=True)
class ClosedBand:
    """A band that runs all round: its opening at each level, the angle between its ends, and what closes it.

    wider: the edge at which it stands open wider; None where its ends are parallel.
    """

    part: Part
    levels: tuple[Level, ...]
    angle: Computed
    wider: Literal["above", "below"] | None
    closed_by: Text | None

    @property
    def widest(self) -> Computed:
        """The opening where it is widest."""
        return max((level.opening for level in self.levels), key=lambda opening: opening.high)


def bands_of(job: Job) -> list[Part]:
    """The parts that run round the limb."""
    return [part for part in job.parts if part.band]


def no_such_limb(job: Job) -> Refusal | None:
    """Why the tapes of a piece with bands fit no limb; None where they do, or where nothing is taped."""
    if job.girth is None or not bands_of(job):
        return None
    try:
        body.girth_at(0, job.girth.top.low, job.girth.bottom.low, job.size[1].low)
    except Refusal as refusal:
        return refusal
    return None


def closed_bands(records: Records, job: Job) -> tuple[ClosedBand, ...]:
    """Bands that run so far round that their ends have to be closed, or of which that was said."""
    if job.girth is None or no_such_limb(job) is not None:
        return ()
    limit = records.studio.limits.closed_band.low
    found = []
    for part in bands_of(job):
        band = closed(job, job.girth, part)
        narrowest = min(level.girth.low for level in band.levels)
        left, _, right, _ = edges_of(part)
        if part.closed_by is not None or (right - left) * 100 >= limit * narrowest:
            found.append(band)
    return tuple(found)


def unsaid_bands(records: Records, job: Job) -> Iterator[tuple[Part, float]]:
    """Parts that run nearly all round where nobody said whether they are a band, with their share of the girth."""
    if job.girth is None:
        return
    least = min(job.girth.top.low, job.girth.bottom.low)
    for part in job.parts:
        left, _, right, _ = edges_of(part)
        share = (right - left) / least
        if "band" not in part.model_fields_set and share * 100 >= records.studio.limits.closed_band.low:
            yield part, share


def closed(job: Job, girth: Girth, part: Part) -> ClosedBand:
    """A part as a band whose ends meet; raises what the formulas raise where the tapes fit no limb."""
    left, top, right, foot = edges_of(part)
    where = part.origin_at(shape_key(part))
    ends = {"girth_top": recorded(girth.top), "girth_bottom": recorded(girth.bottom)}
    levels = []
    for name, place in LEVELS.items():
        below = counted(top + place * (foot - top), where, "length")
        there = compute(body.girth_at, "length", below_top=below, **ends, distance=recorded(job.size[1]))
        # A band whose ends follow the limb is as long as the limb is round, at every level.
        wide = there if part.closed_by == OWN_ENDS else counted(right - left, where, "length")
        levels.append(Level(name, there, compute(body.opening, "length", width=wide, girth=there)))
    above, below_ = levels[0].opening, levels[-1].opening
    angle = compute(
        body.angle_of_ends,
        "angle",
        opening_above=above,
        opening_below=below_,
        height=counted(foot - top, where, "length"),
    )
    wider: Literal["above", "below"] | None = None
    if above.low != below_.low:
        wider = "above" if above.low > below_.low else "below"
    return ClosedBand(part, tuple(levels), angle, wider, part.closed_by)


def template_of(records: Records, job: Job) -> Template | None:
    """The arcs of all bands and the paper they take; None where nothing has to, or can, be drawn on an arc."""
    bands = bands_of(job)
    if not bands or job.girth is None or job.girth.top.low == job.girth.bottom.low or no_such_limb(job) is not None:
        return None
    girth = job.girth
    arcs = {str(part.id): _arcs(job, girth, part) for part in bands}
    middle = _level(job, girth, bands[0], LEVELS["middle"])
    up = 1 if middle.thin_end == "bottom" else -1
    heights, across = [], []
    for arc in (arc for of in arcs.values() for arc in of):
        turns = (turn for turn in (-math.pi / 2, 0.0, math.pi / 2) if arc.left < turn < arc.right)
        angles = [arc.left, arc.right, *turns]
        heights += [-up * arc.radius * math.cos(angle) for angle in angles]
        across += [arc.radius * math.sin(angle) for angle in angles]
    wide = max(across) - min(across) + 2 * paper.EDGE
    strips = paper.strips_across(wide, paper.STRIP, records.studio.limits.strip_overlap.low)
    return Template(arcs, middle, up, min(heights), max(heights), min(across), max(across), strips)


def _level(job: Job, girth: Girth, part: Part, place: float) -> body.Band:
    """The arc at a level of a part, as long as the part is wide, or as the limb is round."""
    left, top, right, foot = edges_of(part)
    below = top + place * (foot - top)
    tapes = girth.top.low, girth.bottom.low, job.size[1].low
    wide = body.girth_at(below, *tapes) if part.closed_by == OWN_ENDS else right - left
    return body.band(wide, below, *tapes)


def _arcs(job: Job, girth: Girth, part: Part) -> tuple[Arc, ...]:
    """Upper edge, middle and lower edge, where the part lies beside the middle of the piece."""
    left, _, right, _ = edges_of(part)
    half = job.size[0].low / 2
    arcs = []
    for place in LEVELS.values():
        level = _level(job, girth, part, place)
        if level.radius is None:
            continue
        turned = math.radians(level.angle) / 2
        own = part.closed_by == OWN_ENDS
        ends = (-turned, turned) if own else ((left - half) / level.radius, (right - half) / level.radius)
        arcs.append(Arc(level.radius, *ends))
    return tuple(arcs)
