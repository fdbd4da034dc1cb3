"""The index of jobs: this week, next week, what comes later, what lies behind; whole years on pages of their own."""

from __future__ import annotations

import datetime
from collections.abc import Collection, Iterable, Iterator, Sequence
from functools import partial

from markupsafe import Markup

from generator.press.lists.older import look_up, older
from generator.press.lists.parted import Pages, parted
from generator.press.sheet.summary import JobSummary
from generator.press.words.addresses import address, client_address, day_address, explained_address
from generator.press.words.markup import Cells, bullets, heading, link, not_searched, page, paragraph, table_of

JOBS, YEARS = "jobs.md", "jobs-of-"
# So many past jobs stand on the index itself; the rest would make it slow to open and hard to read.
_RECENT = 40
# So many that come later than next week stand on the index too, the nearest.
_LATER = 100
_WEEK = datetime.timedelta(days=7)


def jobs_pages(known_jobs: Sequence[JobSummary], as_of: datetime.date, days: Collection[datetime.date] = ()) -> Pages:
    """The index, and pages for each year of which it does not show all jobs. days: those with a page."""
    ordered = sorted(known_jobs, key=lambda job: (job.date, job.id))
    this, following, after = (_monday(as_of) + weeks * _WEEK for weeks in range(3))
    before = [job for job in reversed(ordered) if job.date < this or job.finished or job.not_worked]
    coming = [job for job in ordered if job.date >= this and job.has_a_day and not (job.finished or job.not_worked)]
    later = [job for job in coming if job.date >= after]
    far = later[_LATER:]
    archive = parted((*before, *far), (*before[_RECENT:], *far), YEARS)
    by_year = bullets(link(address(JOBS, here), said) for here, (said, _) in archive.items())
    index = page(
        "Jobs",
        paragraph(
            f"As of {as_of.isoformat()}. Each job opens its page, with map and pictures, and from there its "
            "sheet, which says more than this list does: “not yet” has its reason there. Clear says only this: nothing "
            "on file against it, look at the skin today. The search finds a job by its title, id, client reference, "
            "place and the stamp of its sheet."
        ),
        *_week_of("This week", this, coming, days),
        *_week_of("Next week", following, coming, days),
        heading("Later", "later"),
        _listed(
            "Jobs of the weeks after",
            [(job, {"Week from": _monday(job.date).isoformat()}) for job in later[:_LATER]],
            JOBS,
            days,
        ),
        *_enquiries([job for job in ordered if not job.has_a_day]),
        heading("Finished, not worked, and before", "before"),
        _listed(
            "Finished jobs, those that are not worked, and those of the weeks before, the latest first",
            [(job, {"Afterwards": _written_up(job)}) for job in before[:_RECENT]],
            JOBS,
            days,
        ),
        *((paragraph("By year:"), by_year) if archive else ()),
        *(look_up(JOBS) if older(known_jobs) else ()),
    )
    to_come = {job.id for job in far}
    of_years = {here: partial(_part, here, said, jobs, to_come) for here, (said, jobs) in archive.items()}
    return Pages({JOBS: index}, of_years)


def _monday(day: datetime.date) -> datetime.date:
    return day - datetime.timedelta(days=day.weekday())


def _week_of(
    name: str, monday: datetime.date, coming: Sequence[JobSummary], days: Collection[datetime.date]
) -> Iterator[str]:
    last = monday + _WEEK - datetime.timedelta(days=1)
    yield heading(f"{name}, {monday.isoformat()} to {last.isoformat()}", name.lower().replace(" ", "-"))
    yield _listed(f"Jobs of {name.lower()}", ((j, {}) for j in coming if monday <= j.date <= last), JOBS, days)


def _enquiries(asked_for: Sequence[JobSummary]) -> Iterator[str]:
    """What was asked for and has no day yet; nothing where there is none."""
    if asked_for:
        yield heading("Asked for, no day yet", "asked-for")
        yield _listed("Enquiries without a day", [(job, {}) for job in asked_for], JOBS)


def _part(here: str, said: str, jobs: Sequence[JobSummary], to_come: Collection[str]) -> str:
    """A year or a month of jobs. to_come: those that nobody could have written up yet."""
    title = f"Jobs of {said}"
    back = Markup("The latest first. The weeks around today are under {}.").format(link(address(here, JOBS), "Jobs"))
    rows = [(job, {"Afterwards": "to come" if job.id in to_come else _written_up(job)}) for job in jobs]
    return page(title, paragraph(back), _listed(title, rows, here))


def _listed(
    caption: str, jobs: Iterable[tuple[JobSummary, Cells]], here: str, days: Collection[datetime.date] = ()
) -> Markup:
    """Jobs with what is said of them in one column more. The search finds each job by itself."""
    rows = ((f"jobs-{job.id}", {**_cells(job, here, days), **more}) for job, more in jobs)
    return not_searched(table_of(caption, rows, "No job."))


def _written_up(job: JobSummary) -> str:
    if job.not_worked:
        return "not worked"
    return "written up" if job.finished else "not written up"


def _day(job: JobSummary, here: str, days: Collection[datetime.date]) -> str:
    if not job.has_a_day:
        return "no day yet"
    said = Markup('{:%a} <span class="day">{}</span>').format(job.date, job.date)
    return link(address(here, day_address(job.date)), said) if job.date in days and not job.not_worked else said


def _cells(job: JobSummary, here: str, days: Collection[datetime.date]) -> Cells:
    opened = [link(address(here, f"sheets/{job.id}.html"), "sheet")]
    if job.goes_ahead:
        opened.append(link(address(here, explained_address(job.id)), "numbers"))
    if not job.not_worked:
        opened.append(link(address(here, client_address(job.id)), "client’s page"))
    return {
        "Job": link(address(here, f"jobs/{job.id}.html"), job.title),
        "Date": _day(job, here, days),
        "State": job.state,
        "Open": Markup(", ").join(opened),
        "Artist": job.artist,
        "Place": job.place,
        "Client reference": job.client,
    }
