"""A day of the studio on one page: what clashes, the list by the clock, mixes, what is laid out, people, and the lanes.

Times are those of the slow estimate, so that the day holds if it goes slowly. Of a job the page says what lists say of
it: no reason and no day of waiting beside a client's reference, and nothing of what may lie on a tray.
"""

from __future__ import annotations

import datetime
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import NamedTuple, TypeVar

from markupsafe import Markup

from generator.planning.findings.at_once import ClashWords, said_of
from generator.planning.findings.states import State
from generator.planning.for_lists import needs_of
from generator.planning.plan import JobPlan
from generator.planning.supplies.restock import GROUPINGS, SUPPLIES
from generator.planning.timing.booked import Booked
from generator.planning.timing.clashes import cleaning_between, day_booked, exposure, of_each_artist
from generator.planning.timing.day import BREAK, DRYING, REST, SET_UP, SKIN, STENCIL, WORK, WRAP, Stretch
from generator.press.drawings.day_lanes import Block, Caption, DashedBand, Lane, lanes_drawn
from generator.press.lists.jobs import JOBS
from generator.press.words.addresses import day_address, job_address
from generator.press.words.estimates import clock_rounded_out
from generator.press.words.markup import bullets, heading, link, paragraph, with_whole_dates
from generator.press.words.print_line import PRINT_LINE, with_words_stamp
from generator.press.words.shared import Shared
from generator.press.words.templates import templates_of
from generator.quantities import shown
from generator.records.families import Records
from generator.records.jobs import Job
from generator.trade import disinfection, vibration

T = TypeVar("T")
# The days before and after a day, where there are such.
Neighbours = tuple[datetime.date | None, datetime.date | None]
# So long a day that is over keeps its page.
_KEPT = datetime.timedelta(weeks=1)
# So many of the next days that have a job stand on the front page.
_ON_FRONT = 3
NOT_YET = State.NOT_ASKED.listed
# A list of more lines than this has one line for each sitting, and two columns on paper.
_DENSE = 22
_LETTERS = {SET_UP: "S", STENCIL: "T", DRYING: "", SKIN: "T", BREAK: "", REST: "", WRAP: "W"}
_LOOKS = {SET_UP: "set", STENCIL: "set", DRYING: "pause", SKIN: "set", WRAP: "set", WORK: "dark"}
_LOOKS |= dict.fromkeys((BREAK, REST), "pause")


@dataclass(frozen=True, slots=True)
class OnItsDay:
    """What one job leaves for the page of its day. took: minutes from seat to door of a finished one.

    needs: what it takes from the shelf at most, by family and entry; bottles: the inks that are poured, each with its
    lots in date; washes: the inks that are mixed for it; booked: what it takes of its day.
    """

    job: str
    title: str
    artist: str
    at: datetime.datetime
    state: str
    goes_ahead: bool
    took: float | None
    needs: tuple[tuple[str, str, float], ...]
    bottles: tuple[tuple[str, tuple[str, ...]], ...]
    washes: tuple[str, ...]
    booked: Booked | None

    @property
    def date(self) -> datetime.date:
        """Its day."""
        return self.at.date()


class ClockLine(NamedTuple):
    """One line of the list by the clock. job: whose page it leads to; empty where it is about no job."""

    at: datetime.datetime
    who: str
    job: str
    text: str


class DayPair(NamedTuple):
    """A name and what is said of it."""

    name: str
    text: str


class DayView(NamedTuple):
    """Everything that the page of a day says."""

    date: datetime.date
    studio: str
    paper: str
    title: str
    opening: tuple[str, ...]
    clashes: tuple[ClashWords, ...]
    lines: tuple[ClockLine, ...]
    mixes: tuple[DayPair, ...]
    lay_out: tuple[DayPair, ...]
    people: tuple[DayPair, ...]
    lanes: Markup
    dense: bool


def has_a_page(day: datetime.date, as_of: datetime.date) -> bool:
    """Whether a day with a job has a page: today, every coming day, and those of the last week."""
    return day >= first_with_a_page(as_of)


def first_with_a_page(as_of: datetime.date) -> datetime.date:
    """Days before this one have no page."""
    return as_of - _KEPT


def on_its_day(records: Records, job: Job, plan: JobPlan | None, state: str, booked: Booked | None) -> OnItsDay | None:
    """What a job leaves for its day; None for one that has none, or is not worked on it.

    state: the word that lists say of it.
    """
    if job.not_worked is not None or not job.has_a_day or job.draft:
        return None
    needs = None if plan is None else needs_of(records, plan)
    tray = None if plan is None or plan.work is None or job.finished is not None else plan.work.at_hand.tray
    inks = () if tray is None else tray.inks
    return OnItsDay(
        str(job.id),
        job.title,
        records.people[job.artist].name if job.has_an_artist else "nobody yet",
        datetime.datetime.combine(job.date, job.start),
        state,
        plan is not None and plan.work is not None,
        None if job.finished is None else job.finished.took.high,
        () if needs is None else tuple((need.family, need.entry, need.amount.high) for need in needs.needs),
        tuple((p.ink.name, tuple(lot.lot for lot in p.lots)) for p in inks if p.ink.mixed is None),
        tuple(p.ink.name for p in inks if p.ink.mixed is not None),
        booked,
    )


def day_view(records: Records, day: datetime.date, jobs: Sequence[OnItsDay]) -> DayView:
    """The page of a day. jobs: those of this day."""
    booked = day_booked(records, (job.booked for job in jobs if job.booked is not None))
    of = {job.job: job for job in jobs}
    coming = [one for one in booked.sittings if one.job in of and of[one.job].took is None]
    lines = tuple(sorted(_lines(records, of, coming, booked.chairs), key=lambda line: line.at))
    if dense := len(lines) > _DENSE:
        lines = tuple(sorted(_joined(_lines(records, of, coming, booked.chairs)), key=lambda line: line.at))
    clashes = [clash for clash in booked.clashes if any(one.job in clash.jobs for one in coming)]
    bands = [DashedBand(clash.begins, clash.ends) for clash in clashes if clash.kind in ("person", "chair", "machine")]
    return DayView(
        day,
        records.studio.name,
        records.studio.paper,
        f"{day:%A}, {day.isoformat()}",
        tuple(_opening(records, of, coming)),
        tuple(dict.fromkeys(said_of(records, clash) for clash in clashes)),
        lines,
        tuple(_mixes(records, of, coming)),
        tuple(_lay_out(records, of)),
        tuple(_people(records, coming)),
        lanes_drawn(
            tuple(_lanes(records, of, coming, booked.chairs)), bands, "Lanes by the clock; the list says the same."
        ),
        dense,
    )


def day_html(view: DayView, as_of: datetime.date, beside: Neighbours | None = None) -> str:
    """The page as one HTML file that needs nothing else.

    beside: the days before and after it that have a page, for a page in the handbook; None for a file of its own.
    """
    before, after = beside or (None, None)
    ways = [] if beside is None else [("../index.html", "Handbook"), (f"../{JOBS.removesuffix('.md')}.html", "Jobs")]
    ways += [(f"{day.isoformat()}.html", f"{day:%a} {day.isoformat()}") for day in (before, after) if day is not None]
    jobs = "" if beside is None else "../"
    template = templates_of(*_ROOMS).get_template("day.html.j2")
    html = template.render(
        {
            "day": view,
            "ways": ways,
            "address_of": lambda job: f"{jobs}{job_address(job)}" if jobs else "",
            "up": lambda at: f"{_up(at):%H:%M}",
            "whole": with_whole_dates,
            "as_of": as_of.isoformat(),
            "style": STYLE.inline,
            "script": PRINT_LINE.inline,
        }
    )
    return with_words_stamp(html, day_address(view.date), view.studio, as_of)


def with_days(markdown: str, as_of: datetime.date, jobs: Sequence[OnItsDay]) -> str:
    """The front page with today and the next days, before its first section; an emergency stays before them."""
    head, section, rest = markdown.partition("\n## ")
    if not section:
        head, rest = markdown, ""
    return f"{head.rstrip()}\n\n{_days_ahead(as_of, jobs)}\n{section}{rest}"


def _days_ahead(as_of: datetime.date, jobs: Sequence[OnItsDay]) -> str:
    by_day = {day: list(of) for day, of in groupby(sorted(jobs, key=_by_clock), key=lambda job: job.date)}
    today = by_day.get(as_of, [])
    blocks = [
        heading(f"Today, {as_of:%A} {as_of.isoformat()}", "today"),
        bullets(_on_front(job) for job in today) or paragraph("No sitting."),
        paragraph(Markup("{}").format(link(day_address(as_of), "The day by the clock"))),
    ]
    for day in [day for day in by_day if day > as_of][:_ON_FRONT]:
        blocks += [
            paragraph(link(day_address(day), f"{day:%A} {day.isoformat()}")),
            bullets(_on_front(job) for job in by_day[day]),
        ]
    return "\n\n".join(blocks)


def _by_clock(job: OnItsDay) -> tuple[datetime.datetime, str]:
    return job.at, job.job


def _on_front(job: OnItsDay) -> Markup:
    return Markup("{:%H:%M} {}, {}: {}").format(job.at, job.artist, link(job_address(job.job), job.title), job.state)


def _opening(records: Records, of: Mapping[str, OnItsDay], coming: Sequence[Booked]) -> Iterator[str]:
    done = sum(job.took is not None for job in of.values())
    waiting = sum(not job.goes_ahead and job.took is None for job in of.values())
    number = _many(len(of), "sitting") if of else "No sitting"
    more = [f"{waiting} {NOT_YET}"] * bool(waiting) + [f"{done} finished"] * bool(done)
    yield f"{number}{' (' + ', '.join(more) + ')' if more else ''}."
    if coming:
        begins, ends = min(one.begins for one in coming), max(one.ends for one in coming)
        yield f"First set-up {begins:%H:%M}, last client gone by {_up(ends):%H:%M} if it goes slowly."
        yield "Times are those of the slow estimate."
    limits = records.studio.limits
    if records.studio.chairs is None:
        yield "Not on file how many chairs there are: ask, and look whether each client has one."
    if limits.turn_round is None:
        yield "Not on file how long a turn-round takes: ask, and leave time to clean and air."


def _lines(
    records: Records, of: Mapping[str, OnItsDay], coming: Sequence[Booked], chairs: Mapping[str, int]
) -> Iterator[ClockLine]:
    booked = {one.job for one in coming}
    for job in of.values():
        if job.job not in booked:
            text = f"{NOT_YET}; who and when is not agreed"
            yield ClockLine(job.at, job.artist, job.job, text if job.took is None else "finished")
    for one in coming:
        job, chair = of[one.job], f"chair {chairs[one.job]}" if one.job in chairs else "the station"
        if not job.goes_ahead:
            kept = f"Set-up and work kept free until {_up(one.ends):%H:%M}; the client is due at {one.seated:%H:%M}"
            text = f"{NOT_YET}; look at its sheet. {kept}"
            yield ClockLine(one.begins, job.artist, one.job, text)
            continue
        yield ClockLine(one.begins, job.artist, one.job, f"set up {chair}, {job.state}")
        yield from (ClockLine(at, job.artist, "", text) for at, text in _in_the_chair(one))
        yield ClockLine(
            one.ends, job.artist, "", f"clean {chair}: {_cleaning(records)}ready {_clean(records, one):%H:%M}"
        )


def _joined(lines: Iterable[ClockLine]) -> Iterator[ClockLine]:
    """One line for each sitting, with its times inside."""
    made: list[ClockLine] = []
    for line in lines:
        if line.job or not made:
            made.append(line)
        else:
            made[-1] = made[-1]._replace(text=f"{made[-1].text}; {_up(line.at):%H:%M} {line.text}")
    yield from made


def _in_the_chair(one: Booked) -> Iterator[tuple[datetime.datetime, str]]:
    said: list[str] = []
    for stretch in one.stretches:
        if stretch.kind in (STENCIL, DRYING, SKIN):
            said.append(f"{stretch.kind} until {_up(stretch.ends):%H:%M}")
    yield one.seated, f"the client sits down; {', '.join(said)}"
    for block in _blocks(one):
        if block.kind == WORK:
            yield block.begins, f"{_steps(block)}, until {_up(block.ends):%H:%M}"
        elif block.kind in (BREAK, REST):
            yield block.begins, f"{block.kind} until {_up(block.ends):%H:%M}"
        elif block.kind == WRAP:
            yield block.begins, f"clean and wrap until {_up(block.ends):%H:%M}"


class _Run(NamedTuple):
    """What is done in one go; of work the first and the last step."""

    kind: str
    begins: datetime.datetime
    ends: datetime.datetime
    first: int
    last: int


def _blocks(one: Booked) -> Iterator[_Run]:
    for kind, found in groupby(one.stretches, key=lambda stretch: stretch.kind):
        run: list[Stretch] = list(found)
        yield _Run(kind, run[0].begins, run[-1].ends, run[0].step, run[-1].step)


def _steps(run: _Run) -> str:
    return f"step {run.first}" if run.first == run.last else f"steps {run.first}–{run.last}"


def _cleaning(records: Records) -> str:
    cleaning = cleaning_between(records)
    parts = [
        f"{what} {_minutes(records, minutes)}, "
        for what, minutes in (("wet for", cleaning.contact), ("air for", cleaning.airing))
        if minutes
    ]
    return "".join(parts)


def _clean(records: Records, one: Booked) -> datetime.datetime:
    return _up(one.ends + datetime.timedelta(minutes=cleaning_between(records).minutes))


def _minutes(records: Records, minutes: float) -> str:
    return shown(minutes, minutes, "duration", records.studio.shows)


def _mixes(records: Records, of: Mapping[str, OnItsDay], coming: Sequence[Booked]) -> Iterator[DayPair]:
    """What is mixed when the first station is set up, and until when it is good."""
    ahead = [one for one in coming if of[one.job].goes_ahead]
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
        for wash in of[one.job].washes:
            yield DayPair(wash, f"mixed for {one.job}: this sitting only")


def _lay_out(records: Records, of: Mapping[str, OnItsDay]) -> Iterator[DayPair]:
    """Everything that the sittings of the day take that may go ahead, at the larger end."""
    most: dict[tuple[str, str], float] = {}
    for family, entry, amount in (need for job in of.values() for need in job.needs):
        most[family, entry] = most.get((family, entry), 0.0) + amount
    cartridges = [f"{entry} {number:g}" for (family, entry), number in most.items() if family == GROUPINGS]
    if cartridges:
        yield DayPair("Cartridges", " · ".join(cartridges))
    bottles: dict[str, dict[str, None]] = {}
    for name, lots in (bottle for job in of.values() for bottle in job.bottles):
        bottles.setdefault(name, {}).update(dict.fromkeys(lots))
    if bottles:
        said = (f"{name} {' or '.join(lots) or '(no lot in date: ask)'}" for name, lots in bottles.items())
        yield DayPair("Bottles", " · ".join(said))
    supplies = [
        f"{records.supplies[entry].name} {number:g}" for (family, entry), number in most.items() if family == SUPPLIES
    ]
    if supplies:
        yield DayPair("Used up", " · ".join(supplies))


def _people(records: Records, coming: Sequence[Booked]) -> Iterator[DayPair]:
    """Who watches whom, and what the hand of each artist takes over the day."""
    for one in coming:
        if one.supervisor:
            times = f"{one.seated:%H:%M}–{_up(one.ends):%H:%M}"
            watched = f"watches {records.people[one.artist].name} at {one.job} the whole time, {times}"
            yield DayPair(records.people[one.supervisor].name, watched)
    action = shown(vibration.ACTION_VALUE, vibration.ACTION_VALUE, "acceleration", records.studio.shows)
    for artist, own in of_each_artist(coming).items():
        taken = exposure(records, own)
        if taken is None:
            text = "vibration not assessed, a maker’s figure is not on file: ask"
        else:
            reached = shown(round(taken, 1), round(taken, 1), "acceleration", records.studio.shows)
            text = f"vibration in the hand over the day at most {reached}, action value {action}"
        yield DayPair(records.people[artist].name, text)


def _lanes(
    records: Records, of: Mapping[str, OnItsDay], coming: Sequence[Booked], chairs: Mapping[str, int]
) -> Iterator[Lane]:
    cleaning = datetime.timedelta(minutes=cleaning_between(records).minutes)
    for artist, own in of_each_artist(coming).items():
        spans = [(one.begins, one.ends + cleaning, one) for one in own]
        for number, row in enumerate(_beside_one_another(spans)):
            blocks = [block for one in row for block in _drawn(one, of[one.job].goes_ahead, cleaning)]
            captions = tuple(Caption(one.job, one.begins) for one in row)
            yield Lane("" if number else records.people[artist].name, tuple(blocks), captions)
    for supervisor, watched in of_each_supervisor(coming).items():
        blocks = [Block("watch", "watches", one.seated, one.ends) for one in watched]
        yield Lane(records.people[supervisor].name, tuple(blocks))
    for chair in range(1, (records.studio.chairs or 0) + 1):
        taken = (one for one in coming if chairs.get(one.job) == chair)
        yield Lane(f"Chair {chair}", tuple(Block("use", one.job, one.begins, one.ends + cleaning) for one in taken))
    for machine in records.machines.values():
        uses = [
            (use.begins, use.ends, Block("use", one.job, use.begins, use.ends))
            for one in coming
            for use in one.uses
            if use.machine == machine.id
        ]
        for number, used in enumerate(_beside_one_another(uses)):
            yield Lane("" if number else f"{machine.name} ({machine.count})", tuple(used))


def _beside_one_another(spans: Iterable[tuple[datetime.datetime, datetime.datetime, T]]) -> list[list[T]]:
    """Things with their times in as few rows as hold them without one lying over another."""
    rows: list[tuple[datetime.datetime, list[T]]] = []
    for begins, ends, thing in sorted(spans, key=lambda span: span[:2]):
        free = next((at for at, (until, _) in enumerate(rows) if until <= begins), None)
        if free is None:
            rows.append((ends, [thing]))
        else:
            rows[free] = (ends, [*rows[free][1], thing])
    return [row for _, row in rows]


def of_each_supervisor(sittings: Iterable[Booked]) -> dict[str, list[Booked]]:
    """The sittings that somebody watches, by who it is."""
    made: dict[str, list[Booked]] = {}
    for one in sittings:
        if one.supervisor:
            made.setdefault(one.supervisor, []).append(one)
    return made


def _drawn(one: Booked, goes_ahead: bool, cleaning: datetime.timedelta) -> Iterator[Block]:
    if not goes_ahead:
        yield Block("pause", "not yet", one.begins, one.ends)
        return
    for run in _blocks(one):
        label = _LETTERS.get(run.kind, f"{run.first}–{run.last}" if run.first != run.last else f"{run.first}")
        yield Block(_LOOKS[run.kind], label, run.begins, run.ends)
    yield Block("clean", "C", one.ends, one.ends + cleaning)


def days_with_pages(jobs: Iterable[OnItsDay], as_of: datetime.date) -> list[datetime.date]:
    """Today, and every other day of a job that has a page, in order."""
    return sorted({as_of_day(as_of), *(job.date for job in jobs if has_a_page(job.date, as_of))})


def as_of_day(as_of: datetime.date) -> datetime.date:
    """A day of the calendar and nothing more, as a key."""
    return datetime.date(as_of.year, as_of.month, as_of.day)


def neighbours(
    day: datetime.date, days: Collection[datetime.date]
) -> tuple[datetime.date | None, datetime.date | None]:
    """The days before and after a day that have pages."""
    before = max((other for other in days if other < day), default=None)
    return before, min((other for other in days if other > day), default=None)


def _up(at: datetime.datetime) -> datetime.datetime:
    """An estimated time, rounded up."""
    return clock_rounded_out(at, at)[1]


def _many(number: int, what: str) -> str:
    return f"{number} {what}" if number == 1 else f"{number} {what}s"


_ROOMS = ("lists", "words")
STYLE = Shared(_ROOMS, "day.css.j2")
