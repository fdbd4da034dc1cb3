"""What the indexes keep of a job once its sheet is written."""

from __future__ import annotations

import datetime
import html
from dataclasses import dataclass

from generator.planning.plan import JobPlan
from generator.records.families import Records


@dataclass(frozen=True, slots=True)
class JobSummary:
    """One line about a job. `state` is the word that lists say: no reason and no day beside a client's reference.

    inks: their names, by which the search finds the job.
    """

    id: str
    title: str
    client: str
    artist: str
    date: datetime.date
    place: str
    state: str
    goes_ahead: bool
    stamp: str
    finished: bool
    inks: tuple[str, ...]


def summary_of(records: Records, plan: JobPlan, stamp: str) -> JobSummary:
    """The line for one plan, and the stamp of its sheet."""
    job = plan.job
    return JobSummary(
        id=str(job.id),
        title=job.title,
        client=job.client,
        artist=plan.artist.name,
        date=job.date,
        place=f"{plan.site.name}, {job.side}",
        state=plan.state.listed,
        goes_ahead=plan.verdict.goes_ahead,
        stamp=stamp,
        finished=job.finished is not None,
        inks=tuple(dict.fromkeys(records.inks[laid.ink].name for part in job.parts for laid in part.colours)),
    )


def search_entry(job: JobSummary) -> dict[str, str]:
    """The entry of a job's page in the index of the site's search, which shows what is in it as HTML."""
    said = (job.id, job.client, job.date.isoformat(), job.artist, job.place, job.state, ", ".join(job.inks))
    return {
        "location": f"jobs/{job.id}.html",
        "title": html.escape(job.title, quote=False),
        "text": html.escape(" · ".join(filter(None, said)), quote=False),
    }
