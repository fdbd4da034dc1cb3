"""Whether what closes a band is on file, and wide enough for the opening between its ends."""

from __future__ import annotations

from collections.abc import Iterator

from generator.planning.computed import value_shown
from generator.planning.findings.verdict import About, Finding
from generator.planning.working.bands import ClosedBand, closed_bands, no_such_limb, unsaid_bands
from generator.planning.working.shapes import sides_of
from generator.quantities import shown
from generator.records.families import Records
from generator.records.jobs import Job
from generator.units import Shows


def band_findings(records: Records, job: Job) -> Iterator[Finding]:
    """Openings that nothing closes yet, and parts that are narrower than the opening they are to close."""
    limit, units = records.studio.limits.closed_band, records.studio.shows
    parts = {str(part.id): part for part in job.parts}
    refusal = no_such_limb(job)
    if refusal is not None and job.girth is not None:
        yield About("girth", job.girth).ask(
            f"No limb is as thick above and below as it was taped, {job.girth.top.text} and {job.girth.bottom.text}.",
            "Tape the limb again above and below the band, standing and relaxed.",
            "care",
        )
    for part, share in unsaid_bands(records, job):
        yield About(part.origin_at("band"), limit).ask(
            f"{part.id} runs {share * 100:.0f}\u00a0% of the way round; not on file whether it is a band.",
            "Ask, and write `band: yes` or `band: no` into the part.",
            "care",
        )
    for band in closed_bands(records, job):
        if band.closed_by is None:
            yield About(band.part.origin_at("closed_by"), limit).ask(
                f"Band {band.part.id} runs nearly all round and stays open by {_openings(band, units)}; "
                "not on file what closes it.",
                "Ask, and write a part, or another way, into `closed_by` of the band.",
                "care",
            )
        closing = parts.get(band.closed_by or "")
        if closing is not None and sides_of(closing)[0] < band.widest.high:
            wide = sides_of(closing)[0]
            yield About(band.part.origin_at("closed_by"), band.closed_by).care(
                f"{closing.id} is {shown(wide, wide, 'length', units)} wide, and the opening of band {band.part.id} "
                f"{value_shown(band.widest, units)}.",
                f"Draw {closing.id} wider, or the band longer.",
            )


def _openings(band: ClosedBand, units: Shows) -> str:
    above, below = (value_shown(band.levels[at].opening, units) for at in (0, -1))
    return above if above == below else f"{above} above and {below} below"
