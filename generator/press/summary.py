"""What the indexes keep of a job once its sheet is written."""

from __future__ import annotations

import datetime
from dataclasses import dataclass

from generator.planning.plan import JobPlan


@dataclass(frozen=True, slots=True)
class JobSummary:
    """One line about a job. The verdict stands in words; `verdict_level` is only for sorting and looks."""

    id: str
    title: str
    client: str
    artist: str
    date: datetime.date
    place: str
    verdict_heading: str
    verdict_level: str
    goes_ahead: bool
    stamp: str


def summary_of(plan: JobPlan, stamp: str) -> JobSummary:
    """The line for one plan, and the stamp of its sheet."""
    job = plan.job
    return JobSummary(
        id=str(job.id),
        title=job.title,
        client=job.client,
        artist=plan.artist.name,
        date=job.date,
        place=f"{plan.site.name}, {job.side}",
        verdict_heading=plan.verdict.heading,
        verdict_level=plan.verdict.level,
        goes_ahead=plan.verdict.goes_ahead,
        stamp=stamp,
    )
