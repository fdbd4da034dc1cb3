"""What the indexes keep of a job once its sheet is written."""

from __future__ import annotations

import datetime
import html
from dataclasses import dataclass, replace

from generator.origins import origin_of
from generator.planning.findings.states import State
from generator.planning.plan import JobPlan
from generator.records.families import Records
from generator.records.jobs import Job


@dataclass(frozen=True, slots=True)
class JobSummary:
    """One line about a job. `state` is the word that lists say: no reason and no day beside a client's reference.

    paper: the stamp that was found on the paper of a finished job, empty where nobody looked; None where a job is not
    finished, or nothing is kept of what it was worked with.
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
    paper: str | None = None
    not_worked: bool = False
    has_a_day: bool = True


def summary_of(records: Records, plan: JobPlan, stamp: str) -> JobSummary:
    """The line for one plan, and the stamp of its sheet."""
    return _summary(records, plan.job, plan.state, plan.verdict.goes_ahead, stamp)


def summary_of_kept(records: Records, job: Job, goes_ahead: bool, stamp: str, paper: str) -> JobSummary:
    """The line for a job that is kept as it was worked. goes_ahead: whether its numbers are explained."""
    return replace(_summary(records, job, State.FINISHED, goes_ahead, stamp), paper=paper)


def _summary(records: Records, job: Job, state: State, goes_ahead: bool, stamp: str) -> JobSummary:
    return JobSummary(
        id=str(job.id),
        title=job.title,
        client=job.client,
        artist=records.people[job.artist].name if job.has_an_artist else "",
        date=job.date,
        place=records.sites[job.place].name + ("" if origin_of(job.side).default else f", {job.side}"),
        state=state.listed,
        goes_ahead=goes_ahead,
        stamp=stamp,
        finished=job.finished is not None,
        not_worked=job.not_worked is not None,
        has_a_day=job.has_a_day,
    )


def search_entry(job: JobSummary) -> dict[str, str]:
    """The entry of a job's page in the index of the site's search, which shows what is in it as HTML.

    It holds few words: each page that is opened makes the index anew, and words of an archive hide those of the manual.
    """
    said = (job.id, job.client, job.place, f"stamp {job.stamp}")
    return {
        "location": f"jobs/{job.id}.html",
        "title": html.escape(job.title, quote=False),
        "text": html.escape(" · ".join(filter(None, said)), quote=False),
    }
