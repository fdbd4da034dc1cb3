"""Where a piece sits: its area, how far it wraps round the limb, and how much of it is seen from the front."""

from __future__ import annotations

from dataclasses import dataclass

from generator.diagnostics import Diagnostic, Report
from generator.planning.computed import Computed, Recorded, compute, recorded, rectangle
from generator.records.jobs import Job
from generator.trade import body
from generator.trade.refusal import Refusal


@dataclass(frozen=True, slots=True)
class LimbEnd:
    """One end of the limb under the piece: how far it wraps there, what share is seen at once, how wide that looks."""

    name: str
    wrap: Computed
    seen: Computed
    looks: Computed


@dataclass(frozen=True, slots=True)
class Placement:
    """Where it sits. What wraps and what is seen need a taped girth.

    ends: the upper and the lower end of the limb, one where they are equally thick. wrap, seen, looks: those of the
    narrower end, which wraps farthest.
    """

    width: Recorded
    height: Recorded
    area: Computed
    wrap: Computed | None
    seen: Computed | None
    looks: Computed | None = None
    ends: tuple[LimbEnd, ...] = ()


def placement_of(job: Job) -> tuple[Placement, Report]:
    """Where the piece sits, and what is wrong where it would run over itself."""
    width, height = map(recorded, job.size)
    area = compute(rectangle, "area", width=width, height=height)
    if job.girth is None:
        return Placement(width, height, area, None, None), ()
    tapes = {"above": job.girth.top, "below": job.girth.bottom}
    if job.girth.top.low == job.girth.bottom.low:
        tapes = {"": job.girth.top}
    ends = []
    # The narrower end of the limb is the one that wraps farthest.
    for name, tape in sorted(tapes.items(), key=lambda one: one[1].low):
        both = {"width": width, "girth": recorded(tape)}
        try:
            wrap = compute(body.wrap_angle, "angle", **both)
            seen, looks = compute(body.share_seen, "number", **both), compute(body.projected_width, "length", **both)
        except Refusal as refusal:
            mistake = Diagnostic(
                "A902", tape.place or job.id.place, found=refusal.found, expected=refusal.expected, help=refusal.remedy
            )
            return Placement(width, height, area, None, None), (mistake,)
        ends.append(LimbEnd(name, wrap, seen, looks))
    narrow = ends[0]
    in_order = tuple(sorted(ends, key=lambda end: list(tapes).index(end.name)))
    return Placement(width, height, area, narrow.wrap, narrow.seen, narrow.looks, in_order), ()
