"""A day of the studio on one page: what clashes, the list by the clock, mixes, what is laid out, people, and the lanes.

Times are those of the slow estimate, so that the day holds if it goes slowly. Of a job the page says what lists say of
it: no reason and no day of waiting beside a client's reference, and nothing of what may lie on a tray.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from markupsafe import Markup

from generator.how_many import how_many
from generator.planning.findings.at_once import said_of
from generator.planning.findings.states import State
from generator.planning.findings.verdict import Said
from generator.planning.supplies.restock import GROUPINGS, SUPPLIES
from generator.planning.supplies.tray import exchanged
from generator.planning.timing.booked import Booked
from generator.planning.timing.clashes import cleaning_between, day_booked, exposure, of_each_artist
from generator.planning.timing.day import BREAK, DRYING, REST, SKIN, STENCIL, WORK, WRAP
from generator.planning.timing.rounding import clock_rounded_out
from generator.press.drawings.day_lanes import lanes_drawn
from generator.press.lists.days import Neighbours, OnItsDay
from generator.press.lists.jobs import JOBS
from generator.press.lists.lanes import Coming, lanes_of, runs_of
from generator.press.words.addresses import address, day_address, job_address
from generator.press.words.markup import with_whole_dates
from generator.press.words.one_file import OneFile
from generator.quantities import shown
from generator.records.families import Records
from generator.records.studio import Studio
from generator.trade import disinfection, vibration

NOT_YET = State.NOT_ASKED.listed
# A list of more lines than this has one line for each sitting, and two columns on paper.
_DENSE = 22
PAGE = OneFile(("lists", "words"), "day")


class ClockLine(NamedTuple):
    """One line of the list by the clock. job: whose page it leads to; empty where it is about no job."""

    at: datetime.datetime
    who: str
    job: str
    text: str


class DayPair(NamedTuple):
    """A name and what is said of it. sheets: the jobs whose sheets say more."""

    name: str
    text: str
    sheets: tuple[str, ...] = ()


class DayView(NamedTuple):
    """Everything that the page of a day says."""

    date: datetime.date
    studio: Studio
    opening: tuple[str, ...]
    clashes: tuple[Said, ...]
    lines: tuple[ClockLine, ...]
    mixes: tuple[DayPair, ...]
    lay_out: tuple[DayPair, ...]
    people: tuple[DayPair, ...]
    lanes: Markup
    dense: bool


def day_view(records: Records, day: datetime.date, jobs: Sequence[OnItsDay]) -> DayView:
    """The page of a day. jobs: those of this day."""
    booked = day_booked(records, (job.booked for job in jobs if job.booked is not None))
    by_id = {job.job: job for job in jobs}
    sittings = [one for one in booked.sittings if not by_id[one.job].finished]
    coming = Coming(records, by_id, sittings, booked.chairs)
    lines = list(_lines(coming))
    if dense := len(lines) > _DENSE:
        lines = _joined(lines)
    clashes = [clash for clash in booked.clashes if any(one.job in clash.jobs for one in sittings)]
    at_once = [clash for clash in clashes if clash.kind in ("person", "chair", "machine")]
    return DayView(
        day,
        records.studio,
        tuple(_opening(coming)),
        tuple(dict.fromkeys(said_of(records, clash) for clash in clashes)),
        tuple(sorted(lines, key=lambda line: line.at)),
        tuple(_mixes(coming)),
        tuple(_lay_out(coming)),
        tuple(_people(coming)),
        lanes_drawn(tuple(lanes_of(coming)), at_once, "Lanes by the clock; the list says the same."),
        dense,
    )


def day_html(view: DayView, as_of: datetime.date, beside: Neighbours | None = None) -> str:
    """The page as one HTML file that needs nothing else.

    beside: the days before and after it that have a page, for a page in the handbook; None for a file of its own.
    """
    before, after = beside or (None, None)
    ways = [] if beside is None else [("../index.html", "Handbook"), (address(day_address(view.date), JOBS), "Jobs")]
    ways += [(f"{day.isoformat()}.html", f"{day:%a} {day.isoformat()}") for day in (before, after) if day is not None]
    jobs = "" if beside is None else "../"
    return PAGE.page(
        day_address(view.date),
        view.studio,
        as_of,
        day=view,
        weekday=f"{view.date:%A}",
        ways=ways,
        address_of=lambda job: f"{jobs}{job_address(job)}" if jobs else "",
        sheet_of=lambda job: f"{jobs}sheets/{job}.html" if jobs else "",
        up=lambda at: f"{_up(at):%H:%M}",
        whole=with_whole_dates,
    )


def _opening(day: Coming) -> Iterator[str]:
    studio, jobs = day.records.studio, day.jobs.values()
    done = sum(job.finished for job in jobs)
    waiting = sum(not job.goes_ahead and not job.finished for job in jobs)
    number = how_many(len(jobs), "sitting") if jobs else "No sitting"
    more = [f"{waiting} {NOT_YET}"] * bool(waiting) + [f"{done} finished"] * bool(done)
    yield f"{number}{' (' + ', '.join(more) + ')' if more else ''}."
    if day.sittings:
        begins, ends = min(one.begins for one in day.sittings), max(one.ends for one in day.sittings)
        yield f"First set-up {begins:%H:%M}, last client gone by {_up(ends):%H:%M} if it goes slowly."
        yield "Times are those of the slow estimate."
    if studio.chairs is None:
        yield "Not on file how many chairs there are: ask, and look whether each client has one."
    if studio.limits.turn_round is None:
        yield "Not on file how long a turn-round takes: ask, and leave time to clean and air."


def _lines(day: Coming) -> Iterator[ClockLine]:
    booked = {one.job for one in day.sittings}
    for job in day.jobs.values():
        if job.job not in booked:
            text = "finished" if job.finished else f"{NOT_YET}; who and when is not agreed"
            yield ClockLine(job.at, job.artist, job.job, text)
    for one in day.sittings:
        job, chair = day.jobs[one.job], f"chair {day.chairs[one.job]}" if one.job in day.chairs else "the station"
        if not job.goes_ahead:
            kept = f"Set-up and work kept free until {_up(one.ends):%H:%M}; the client is due at {one.seated:%H:%M}"
            yield ClockLine(one.begins, job.artist, one.job, f"{NOT_YET}; look at its sheet. {kept}")
            continue
        yield ClockLine(one.begins, job.artist, one.job, f"set up {chair}, {job.state}")
        yield from (ClockLine(at, job.artist, "", text) for at, text in _in_the_chair(one))
        cleaned = f"clean {chair}: {_cleaning(day.records)}ready {_up(one.ends + day.cleaning):%H:%M}"
        yield ClockLine(one.ends, job.artist, "", cleaned)


def _joined(lines: Sequence[ClockLine]) -> list[ClockLine]:
    """One line for each sitting, with its times inside."""
    made: list[ClockLine] = []
    for line in lines:
        if line.job or not made:
            made.append(line)
        else:
            made[-1] = made[-1]._replace(text=f"{made[-1].text}; {_up(line.at):%H:%M} {line.text}")
    return made


def _in_the_chair(one: Booked) -> Iterator[tuple[datetime.datetime, str]]:
    first = (
        f"{stretch.kind} until {_up(stretch.ends):%H:%M}"
        for stretch in one.stretches
        if stretch.kind in (STENCIL, DRYING, SKIN)
    )
    yield one.seated, f"the client sits down; {', '.join(first)}"
    for run in runs_of(one):
        until = f"until {_up(run.ends):%H:%M}"
        if run.kind == WORK:
            steps = f"step {run.first}" if run.first == run.last else f"steps {run.first}–{run.last}"
            yield run.begins, f"{steps}, {until}"
        elif run.kind in (BREAK, REST):
            yield run.begins, f"{run.kind} {until}"
        elif run.kind == WRAP:
            yield run.begins, f"clean and wrap {until}"


def _cleaning(records: Records) -> str:
    cleaning = cleaning_between(records)
    return "".join(
        f"{what} {shown(minutes, minutes, 'duration', records.studio.shows)}, "
        for what, minutes in (("wet for", cleaning.contact), ("air for", cleaning.airing))
        if minutes
    )


def _mixes(day: Coming) -> Iterator[DayPair]:
    """What is mixed when the first station is set up, and until when it is good."""
    records, ahead = day.records, [one for one in day.sittings if day.jobs[one.job].goes_ahead]
    if not ahead:
        return
    mixed, ends = min(one.begins for one in ahead), max(one.ends for one in ahead)
    for product in records.disinfectants.values():
        if product.mix_life is None or product.mixed_to is None:
            continue
        good = disinfection.mix_expires(mixed, product.mix_life.low)
        again = " – mix it anew then" if good < ends else ""
        name = f"{product.name}, {shown(product.mixed_to.low, product.mixed_to.high, 'share', records.studio.shows)}"
        yield DayPair(name, f"mixed {mixed:%H:%M}: until {good.date().isoformat()}, {good:%H:%M}{again}")
    for one in ahead:
        for wash in day.jobs[one.job].washes:
            yield DayPair(wash, f"mixed for {one.job}: this sitting only")


def _lay_out(day: Coming) -> Iterator[DayPair]:
    """Everything that the sittings of the day take that may go ahead, at the larger end.

    Of what a client's allergies may exchange only the kind is said: the sheet says which one it is, and how many.
    """
    most: dict[tuple[str, str], float] = {}
    for family, entry, amount in (need for job in day.jobs.values() for need in job.needs):
        most[family, entry] = most.get((family, entry), 0.0) + amount
    cartridges = [f"{entry} {number:g}" for (family, entry), number in most.items() if family == GROUPINGS]
    if cartridges:
        yield DayPair("Cartridges", " · ".join(cartridges))
    bottles: dict[str, dict[str, None]] = {}
    for name, lots in (bottle for job in day.jobs.values() for bottle in job.bottles):
        bottles.setdefault(name, {}).update(dict.fromkeys(lots))
    if bottles:
        said = (f"{name} {' or '.join(lots) or '(no lot in date: ask)'}" for name, lots in bottles.items())
        yield DayPair("Bottles", " · ".join(said))
    named = day.records.supplies
    supplies = [f"{named[entry].name} {number:g}" for (family, entry), number in most.items() if family == SUPPLIES]
    if supplies:
        yield DayPair("Used up", " · ".join(supplies))
    ahead = tuple(job.job for job in day.jobs.values() if job.goes_ahead and not job.finished)
    if ahead and (of_some := exchanged(day.records)):
        kinds = [one.kind for one in named.values() if one.id in of_some]
        known = dict.fromkeys(kind for kind in kinds if kind is not None)
        what = ", ".join((*known, "what a client may be allergic to") if None in kinds else known)
        yield DayPair("By its sheet", f"{what}: each sheet says which and how many –", ahead)


def _people(day: Coming) -> Iterator[DayPair]:
    """Who watches whom, and what the hand of each artist takes over the day."""
    records = day.records
    for one in day.sittings:
        if one.supervisor:
            times = f"{one.seated:%H:%M}–{_up(one.ends):%H:%M}"
            watched = f"watches {records.people[one.artist].name} at {one.job} the whole time, {times}"
            yield DayPair(records.people[one.supervisor].name, watched)
    action = shown(vibration.ACTION_VALUE, vibration.ACTION_VALUE, "acceleration", records.studio.shows)
    for artist, own in of_each_artist(day.sittings).items():
        taken = exposure(records, own)
        if taken is None:
            text = "vibration not assessed, a maker’s figure is not on file: ask"
        else:
            reached = shown(round(taken, 1), round(taken, 1), "acceleration", records.studio.shows)
            text = f"vibration in the hand over the day at most {reached}, action value {action}"
        yield DayPair(records.people[artist].name, text)


def _up(at: datetime.datetime) -> datetime.datetime:
    """An estimated time, rounded up."""
    return clock_rounded_out(at, at)[1]
