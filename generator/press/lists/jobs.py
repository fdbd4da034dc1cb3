"""The index of jobs: this week, next week, what comes later, what lies behind; whole years on pages of their own."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence

from markupsafe import Markup

from generator.press.lists.older import look_up, older
from generator.press.lists.parted import parted, said_of
from generator.press.sheet.summary import JobSummary
from generator.press.words.addresses import address, client_address, day_address, explained_address
from generator.press.words.markup import Row, bullets, heading, link, not_searched, page, paragraph, table

JOBS, YEARS = "jobs.md", "jobs-of-"
# So many past jobs stand on the index itself; the rest would make it slow to open and hard to read.
_RECENT = 40
# So many that come later than next week stand on the index too, the nearest.
_LATER = 100
_WEEK = datetime.timedelta(days=7)
_COLUMNS = ("Job", "Date", "State", "Open", "Artist", "Place", "Client reference")


def jobs_pages(
    known_jobs: Sequence[JobSummary], as_of: datetime.date, days: Collection[datetime.date] = ()
) -> dict[str, str]:
    """The index, and pages for each year of which it does not show all jobs. days: those with a page."""
    ordered = sorted(known_jobs, key=lambda job: (job.date, job.id))
    monday = _monday(as_of)
    asked_for = [job for job in ordered if not job.has_a_day]
    before = [job for job in reversed(ordered) if job.date < monday or job.finished or job.not_worked]
    coming = [job for job in ordered if job.date >= monday and job.has_a_day and not (job.finished or job.not_worked)]
    later = [job for job in coming if job.date >= monday + 2 * _WEEK]
    far = later[_LATER:]
    years = {job.date.year for job in (*before[_RECENT:], *far)}
    parts = parted(job for job in (*before, *far) if job.date.year in years)
    archive = {f"{YEARS}{part}.md": (said_of(part, jobs), jobs) for part, jobs in parts.items()}
    shown = [job for job in coming if job.date < monday + 2 * _WEEK] + later[:_LATER]
    to_come = {job.id for job in far}
    return {
        JOBS: _index(
            shown, asked_for, before[:_RECENT], {here: said for here, (said, _) in archive.items()}, as_of, days
        )
        + ("\n" + "\n\n".join(look_up(JOBS)) + "\n" if older(known_jobs) else ""),
        **{here: _part(here, said, jobs, to_come) for here, (said, jobs) in archive.items()},
    }


def _monday(day: datetime.date) -> datetime.date:
    return day - datetime.timedelta(days=day.weekday())


def _index(
    coming: Sequence[JobSummary],
    asked_for: Sequence[JobSummary],
    recent: Sequence[JobSummary],
    archive: Mapping[str, str],
    as_of: datetime.date,
    days: Collection[datetime.date],
) -> str:
    monday = _monday(as_of)
    blocks: list[str] = [
        paragraph(
            f"As of {as_of.isoformat()}. Each job opens its page, with map and pictures, and from there its "
            "sheet, which says more than this list does: “not yet” has its reason there. Clear says only this: nothing "
            "on file against it, look at the skin today. The search finds a job by its title, id, client reference, "
            "place and the stamp of its sheet."
        )
    ]
    for name, at, first in (("This week", "this-week", monday), ("Next week", "next-week", monday + _WEEK)):
        jobs = [job for job in coming if first <= job.date < first + _WEEK]
        last = first + _WEEK - datetime.timedelta(days=1)
        blocks += [
            heading(f"{name}, {first.isoformat()} to {last.isoformat()}", at),
            _listed(f"Jobs of {name.lower()}", _COLUMNS, _rows(jobs, JOBS, days=days), "No job."),
        ]
    later = [job for job in coming if job.date >= monday + 2 * _WEEK]
    blocks += [
        heading("Later", "later"),
        _listed("Jobs of the weeks after", (*_COLUMNS, "Week from"), _rows(later, JOBS, _week, days), "No job."),
        *_enquiries(asked_for),
        heading("Finished, not worked, and before", "before"),
        _listed(
            "Finished jobs, those that are not worked, and those of the weeks before, the latest first",
            (*_COLUMNS, "Afterwards"),
            _rows(recent, JOBS, _written_up, days),
            "No job.",
        ),
    ]
    if archive:
        blocks += [
            paragraph("By year:"),
            bullets(link(address(JOBS, here), said) for here, said in archive.items()),
        ]
    return page("Jobs", *blocks)


def _enquiries(asked_for: Sequence[JobSummary]) -> Iterator[str]:
    """What was asked for and has no day yet; nothing where there is none."""
    if asked_for:
        yield heading("Asked for, no day yet", "asked-for")
        yield _listed("Enquiries without a day", _COLUMNS, _rows(asked_for, JOBS))


def _part(here: str, said: str, jobs: Sequence[JobSummary], to_come: Collection[str]) -> str:
    """A year or a month of jobs. to_come: those that nobody could have written up yet."""
    title = f"Jobs of {said}"

    def afterwards(job: JobSummary) -> str:
        return "to come" if job.id in to_come else _written_up(job)

    return page(
        title,
        paragraph(
            Markup("The latest first. The weeks around today are under {}.").format(link(address(here, JOBS), "Jobs"))
        ),
        _listed(title, (*_COLUMNS, "Afterwards"), _rows(jobs, here, afterwards)),
    )


def _listed(caption: str, columns: Sequence[str], rows: Iterable[Row], nothing: str = "") -> Markup:
    """The search finds each job by itself."""
    return not_searched(table(caption, columns, rows, nothing))


def _week(job: JobSummary) -> str:
    return _monday(job.date).isoformat()


def _written_up(job: JobSummary) -> str:
    if job.not_worked:
        return "not worked"
    return "written up" if job.finished else "not written up"


def _day(job: JobSummary, here: str, days: Collection[datetime.date]) -> str:
    if not job.has_a_day:
        return "no day yet"
    said = Markup('{:%a} <span class="day">{}</span>').format(job.date, job.date)
    return link(address(here, day_address(job.date)), said) if job.date in days and not job.not_worked else said


def _rows(
    jobs: Iterable[JobSummary],
    here: str,
    last: Callable[[JobSummary], str] | None = None,
    days: Collection[datetime.date] = (),
) -> Iterator[Row]:
    for job in jobs:
        opened = [link(address(here, f"sheets/{job.id}.html"), "sheet")]
        if job.goes_ahead:
            opened.append(link(address(here, explained_address(job.id)), "numbers"))
        if not job.not_worked:
            opened.append(link(address(here, client_address(job.id)), "client’s page"))
        yield Row(
            f"jobs-{job.id}",
            (
                link(address(here, f"jobs/{job.id}.html"), job.title),
                _day(job, here, days),
                job.state,
                Markup(", ").join(opened),
                job.artist,
                job.place,
                job.client,
                *([] if last is None else [last(job)]),
            ),
        )
