"""Whether the piece fits its place, its day and its needles."""

from __future__ import annotations

from collections.abc import Iterator

from generator.origins import origin_of
from generator.planning.findings.verdict import About, Finding
from generator.planning.timing.sittings import Sitting, longest_agreed
from generator.planning.timing.timetable import Timetable
from generator.planning.working.calibration import cartridge_of
from generator.planning.working.shapes import shape_of
from generator.planning.working.steps import NARROWEST, Step
from generator.quantities import shown
from generator.records.families import Records
from generator.records.jobs import Job
from generator.trade import colour, layout, paper


def piece_findings(
    records: Records, job: Job, steps: tuple[Step, ...], timetable: Timetable, sittings: tuple[Sitting, ...]
) -> Iterator[Finding]:
    """What would not heal as it is drawn, and what does not fit into the day."""
    site = records.sites[job.place]
    if job.girth is None and site.limb:
        yield About("girth", site.origin_at("limb"), records.studio).ask(
            "The girth is not taped.", "Tape it standing and relaxed, and write it into the job.", "care"
        )
    yield from _length(records, job, timetable, sittings)
    yield from _gaps(records, job)
    yield from _not_measured(records, job, steps)
    yield from _narrow_fills(records, steps)
    yield from _light_before_dark(records, steps)


def _length(records: Records, job: Job, timetable: Timetable, sittings: tuple[Sitting, ...]) -> Iterator[Finding]:
    limits, longest = records.studio.limits, longest_agreed(records, job)
    if len(sittings) > 1:
        plain, by_estimate = timetable.plain, ""
        if plain is not None and plain.sittings.high != len(sittings):
            pace = f"at the pace of {records.people[job.artist].name}’s finished jobs"
            by_estimate = f" {pace}, in {plain.sittings.high:g} by the plain estimate"
        yield About("parts", longest, records.studio).care(
            f"Longer than one sitting of {longest.text} with its breaks, if it goes slowly: "
            f"planned in {len(sittings)}{by_estimate}.",
            f"Agree where to stop. Work the same skin again after {limits.same_skin_again.text} at the earliest.",
        )


def _gaps(records: Records, job: Job) -> Iterator[Finding]:
    """Gaps between lines, and counters of letters, that close as the lines spread."""
    for part in job.parts:
        limits = records.studio.limits
        what, limit = ("counter", limits.counter_gap) if part.role == "lettering" else ("gap", limits.line_gap)
        if part.gap is not None and paper.will_close(part.gap.low, limit.low):
            yield About(part.origin_at("gap"), limit).care(
                f"Part {part.id}: a {what} of {part.gap.text} will close.",
                f"Open it to {limit.text} or leave lines out.",
            )


def _not_measured(records: Records, job: Job, steps: tuple[Step, ...]) -> Iterator[Finding]:
    """What nobody has measured, or drawn yet: the drawing tells it, and what it shows may ask care."""
    gaps = [part for part in job.parts if part.lines and part.gap is None]
    assumed = {str(step.part.id) for step in steps if NARROWEST in step.assumed}
    narrow = [part for part in job.parts if str(part.id) in assumed]
    fineness = [part for part in job.parts if "detail" not in part.model_fields_set]
    undrawn = [part for part in job.parts if part.box is not None and origin_of(part.box[0]).default]
    places = undrawn if len(job.parts) > 1 else []
    for parts, what, key in (
        (places, "the place", "box"),
        (fineness, "the fineness", "detail"),
        (gaps, "the tightest gap between the lines", "gap"),
        (narrow, "the narrowest place that is filled", "narrowest"),
    ):
        if parts:
            yield About(parts[0].origin_at(key), parts[0].origin_at(key), records.studio).look_up(
                f"Not on file for {', '.join(str(part.id) for part in parts)}: {what}.",
                "Measure it on the drawing, and write it into the job.",
                "care",
            )


def _narrow_fills(records: Records, steps: tuple[Step, ...]) -> Iterator[Finding]:
    units = records.studio.shows
    for number, step in enumerate(steps, 1):
        width, grouping, narrowest = step.setting.width, step.setting.grouping, step.piece.narrowest
        if narrowest is not None and narrowest < width.low:
            there, wide = (shown(side, side, "length", units) for side in (narrowest, width.low))
            yield About(step.part, grouping).care(
                f"Step {number}: {grouping.label} is {wide} wide, part {step.part.id} only {there}.",
                "Take a narrower grouping there, or leave that place to a round one.",
            )
        elif step.part.role == "lettering" and cartridge_of(grouping) == "row":
            yield About(step.part, grouping).care(
                f"Step {number}: {grouping.label} is a row of needles, and part {step.part.id} is lettering.",
                "Take a round for letters.",
            )


def _light_before_dark(records: Records, steps: tuple[Step, ...]) -> Iterator[Finding]:
    """Washes are left out: they are thin, grey themselves, and laid before the colours on purpose."""
    limits = records.studio.limits
    laid = [
        layout.Laid(str(number), shape_of(step.part), colour.lab(step.ink.swatch).lightness)
        for number, step in enumerate(steps, 1)
        if step.ink.kind != "wash"
    ]
    for pair in layout.light_before_dark(laid, limits.beside.low, limits.darker_by):
        light, dark = (steps[int(name) - 1] for name in (pair.light, pair.dark))
        yield About(light.part, limits.darker_by).care(
            f"Step {pair.light}: {light.ink.name} lies beside {dark.ink.name}, laid later and darker.",
            "Cover the light ink while the dark one is laid, or move it behind.",
        )
