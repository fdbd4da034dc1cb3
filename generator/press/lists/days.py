"""What each job leaves for its day, which days have a page, and the next of them on the front page."""

from __future__ import annotations

import datetime
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby

from markupsafe import Markup

from generator.planning.for_lists import needs_of
from generator.planning.plan import JobPlan
from generator.planning.supplies.restock import SUPPLIES
from generator.planning.supplies.tray import exchanged
from generator.planning.timing.booked import Booked
from generator.press.words.addresses import day_address, job_address
from generator.press.words.markup import bullets, heading, link, paragraph
from generator.records.families import Records
from generator.records.jobs import Job

# The days before and after a day, where there are such.
Neighbours = tuple[datetime.date | None, datetime.date | None]
# So long a day that is over keeps its page.
_KEPT = datetime.timedelta(weeks=1)
# So many of the next days that have a job stand on the front page.
_ON_FRONT = 3


@dataclass(frozen=True, slots=True)
class OnItsDay:
    """What one job leaves for the page of its day.

    needs: what any client takes from the shelf at most, by family and entry; bottles: the inks that are poured,
    each with its lots in date; washes: the inks that are mixed for it; booked: what it takes of its day.
    """

    job: str
    title: str
    artist: str
    at: datetime.datetime
    state: str
    goes_ahead: bool
    finished: bool
    needs: tuple[tuple[str, str, float], ...]
    bottles: tuple[tuple[str, tuple[str, ...]], ...]
    washes: tuple[str, ...]
    booked: Booked | None

    @property
    def date(self) -> datetime.date:
        """Its day."""
        return self.at.date()


def on_its_day(records: Records, job: Job, plan: JobPlan | None, state: str, booked: Booked | None) -> OnItsDay | None:
    """What a job leaves for its day; None for one that has none, or is not worked on it.

    state: the word that lists say of it.
    """
    if job.not_worked is not None or not job.has_a_day or job.draft:
        return None
    needs = None if plan is None else needs_of(records, plan)
    work = None if plan is None else plan.work
    of_some = exchanged(records)
    inks = () if work is None or job.finished is not None else work.at_hand.tray.inks
    return OnItsDay(
        str(job.id),
        job.title,
        records.people[job.artist].name if job.has_an_artist else "nobody yet",
        datetime.datetime.combine(job.date, job.start),
        state,
        work is not None,
        job.finished is not None,
        tuple(
            (need.family, need.entry, need.amount.high)
            for need in (() if needs is None else needs.needs)
            if need.family != SUPPLIES or need.entry not in of_some
        ),
        tuple((p.ink.name, tuple(lot.lot for lot in p.lots)) for p in inks if p.ink.mixed is None),
        tuple(p.ink.name for p in inks if p.ink.mixed is not None),
        booked,
    )


def first_with_a_page(as_of: datetime.date) -> datetime.date:
    """The first of the days with a job that have a page: today, every coming day, and those of the last week."""
    return as_of - _KEPT


def days_with_pages(jobs: Iterable[OnItsDay], as_of: datetime.date) -> list[datetime.date]:
    """Today, and every other day of a job that has a page, in order."""
    # Nothing but a day of the calendar, as a key.
    today = datetime.date(as_of.year, as_of.month, as_of.day)
    return sorted({today, *(job.date for job in jobs if job.date >= first_with_a_page(as_of))})


def neighbours(day: datetime.date, days: Collection[datetime.date]) -> Neighbours:
    """The days before and after a day that have pages."""
    before = max((other for other in days if other < day), default=None)
    return before, min((other for other in days if other > day), default=None)


def with_days(markdown: str, as_of: datetime.date, jobs: Sequence[OnItsDay]) -> str:
    """The front page with today and the next days, before its first section; an emergency stays before them."""
    head, section, rest = markdown.partition("\n## ")
    if not section:
        head, rest = markdown, ""
    return f"{head.rstrip()}\n\n{_days_ahead(as_of, jobs)}\n{section}{rest}"


def _days_ahead(as_of: datetime.date, jobs: Sequence[OnItsDay]) -> str:
    by_clock = sorted(jobs, key=lambda job: (job.at, job.job))
    by_day = {day: list(of) for day, of in groupby(by_clock, key=lambda job: job.date)}
    today = by_day.get(as_of, [])
    blocks = [
        heading(f"Today, {as_of:%A} {as_of.isoformat()}", "today"),
        bullets(_on_front(job) for job in today) or paragraph("No sitting."),
        paragraph(link(day_address(as_of), "The day by the clock")),
    ]
    for day in [day for day in by_day if day > as_of][:_ON_FRONT]:
        blocks += [
            paragraph(link(day_address(day), f"{day:%A} {day.isoformat()}")),
            bullets(_on_front(job) for job in by_day[day]),
        ]
    return "\n\n".join(blocks)


def _on_front(job: OnItsDay) -> Markup:
    return Markup("{:%H:%M} {}, {}: {}").format(job.at, job.artist, link(job_address(job.job), job.title), job.state)
