"""The page that a client reads before a sitting and takes home from it: one side, in plain words.

All of its words are the studio's own (`content/client-page.yml`). What is filled in are days, times and counts: no
setting of a machine, no answer of the screening, no cause of a scar. It is the aftercare sheet of the procedures.
"""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from typing import NamedTuple

from generator.dates import in_words
from generator.diagnostics import Diagnostic, Report
from generator.planning.plan import JobPlan
from generator.planning.timing.coming_back import days_after, next_sitting, touch_up, worked_on
from generator.planning.timing.rounding import clock_rounded_out
from generator.planning.working.shapes import shape_of
from generator.press.drawings.map_words import laid_over
from generator.press.sheet import sizes
from generator.press.sheet.sizes import Letters
from generator.press.words.addresses import client_address
from generator.press.words.estimates import ends_by_the_clock, in_hours
from generator.press.words.formatted import short_citation
from generator.press.words.numbered import Numbered
from generator.press.words.one_file import OneFile
from generator.records.checklist import AFTER, QUOTE, SITTING
from generator.records.client_page import FINISHED, GOING_AHEAD, NOT_YET, ClientLine, ClientSection
from generator.records.conditions import Value, holds
from generator.records.families import Records
from generator.records.jobs import Job
from generator.records.studio import Studio

Facts = Mapping[str, Value]
Quotes = Mapping[str, str]


# The letters of the page, in points: the largest with which it stands on one side.
_SIZES = (12.0, 11.5, 11.0, 10.5, 10.0, 9.5)
# In mm: the mark before a line, and the air round lines, headings and frames.
LENGTHS = {
    "mark": 5.5,
    "line_air": 0.25,
    "above_heading": 2.0,
    "below_heading": 0.5,
    "frame": 0.6,
    "frame_air": 1.2,
    "above_foot": 2.0,
}
TITLE, FOOT = Letters(16, 1.15, bold=True), Letters(8.5, 1.2)
_NUMBER = "\u00a010"  # the longest number of a source that is counted behind a line


class Told(NamedTuple):
    """One line as it is printed; `source` is its number in the list at the foot."""

    text: str
    box: bool
    source: int


class ClientPage(NamedTuple):
    """Everything that the page says, formatted. sections: each with the lines of it that are said."""

    job: Job
    studio: Studio
    head: str
    sections: tuple[tuple[ClientSection, tuple[Told, ...]], ...]
    sources: tuple[str, ...]


def client_page_of(records: Records, job: Job, plan: JobPlan | None) -> ClientPage:
    """The page of a job. One that may not go ahead says in general words what is open, the same for each of them.

    plan: as of today; a finished job has its page also where today's rules make no plan of it.
    """
    state = state_of(job, plan)
    facts, quotes = _facts(job, plan), _quotes(records, job, plan)
    cited = Numbered()
    sections = []
    for section in records.client_page.values():
        if state not in section.for_jobs:
            continue
        # What cannot be known is not said: a line could clear something.
        said = [line for line in section.lines if line.when is None or holds(line.when, facts) is True]
        lines = tuple(_told(records, job, line, quotes, cited) for line in said)
        if lines:
            sections.append((section, lines))
    site = records.sites[job.place].name
    head = [site if job.side == "middle" else f"{site}, {job.side}"]
    if job.has_an_artist:
        head.append(records.people[job.artist].name)
    if job.has_a_day:
        head.append(in_words(worked_on(job)))
    return ClientPage(job, records.studio, " · ".join(head), tuple(sections), tuple(cited))


def client_html(page: ClientPage, as_of: datetime.date, in_site: bool = False) -> str:
    """The page as one HTML file that needs nothing else. in_site: with the ways back into the handbook."""
    text, heading = _letters(text_size(page))
    said = {"page": page, "heading": heading, "text": text, "in_site": in_site}
    return PAGE.page(client_address(page.job.id), page.studio, as_of, **said)


def state_of(job: Job, plan: JobPlan | None) -> str:
    """Which of the pages it is."""
    if job.finished is not None:
        return FINISHED
    return NOT_YET if plan is None or plan.work is None else GOING_AHEAD


def text_size(page: ClientPage) -> float:
    """The largest letters with which the page stands on one side of either paper, in points."""
    return next((size for size in _SIZES if _tall(page, size) <= sizes.ROOM - sizes.SPARE), _SIZES[-1])


def beyond_one_side(records: Records, job: Job, plan: JobPlan | None, page: ClientPage) -> Report:
    """A page that even the smallest letters do not bring onto one side, at the last section of its texts."""
    if _tall(page, _SIZES[-1]) <= sizes.ROOM - sizes.SPARE:
        return ()
    last = [section for section in records.client_page.values() if state_of(job, plan) in section.for_jobs][-1]
    return (
        Diagnostic(
            "R305",
            last.id.place,
            found="more than one side",
            expected="one side of paper",
            help=f"say it shorter, here or in the sections above; the page of `{job.id}` is one that is too long",
            says="the client's page does not fit on one side",
        ),
    )


def _letters(size: float) -> tuple[Letters, Letters]:
    """Those of the text, and of the headings above it."""
    return Letters(size, 1.2), Letters(size + 1, 1.15, bold=True)


def _tall(page: ClientPage, size: float) -> float:
    """How tall the page is with letters of a size, in mm, never too little."""
    (text, heading), air = _letters(size), LENGTHS
    whose = f"{page.studio.name} · {page.head} · {page.job.client}"
    tall = TITLE.tall(page.job.title, sizes.WIDTH) + text.tall(whose, sizes.WIDTH)
    for section, lines in page.sections:
        edges = 2 * (air["frame"] + air["frame_air"]) if section.framed else 0
        room = sizes.WIDTH - edges
        tall += air["above_heading"] + edges + heading.tall(section.title, room) + air["below_heading"]
        for line in lines:
            tall += text.tall(line.text + _NUMBER, room - air["mark"]) + 2 * air["line_air"]
    cited = " · ".join(f"{number} {source}" for number, source in enumerate(page.sources, 1))
    return tall + air["above_foot"] + FOOT.tall(cited, sizes.WIDTH)


def _told(records: Records, job: Job, line: ClientLine, quotes: Quotes, cited: Numbered) -> Told:
    filled = dict(quotes)
    if line.after is not None:
        counted = days_after(worked_on(job), records.values[line.after].is_)
        filled |= {f"{AFTER}.first": in_words(counted.opens), f"{AFTER}.last": in_words(counted.closes)}
    text = QUOTE.sub(lambda quote: filled[(quote["path"] or "").strip()], line.say)
    return Told(text, line.box, cited.number(short_citation(records.sources[line.source], records)))


def _counts(job: Job, plan: JobPlan | None) -> dict[str, int | None]:
    """How many things of a kind are in the area; None where nobody wrote it down."""
    read = () if plan is None else plan.scars
    worked = sum(bool(scar.crossed_by) for scar in read)
    old = job.existing_tattoos or ()
    covered = sum(bool(laid_over(job, shape_of(one))) for one in old)
    scars, tattoos = job.scars is not None and plan is not None, job.existing_tattoos is not None
    return {
        "moles": None if job.moles is None else len(job.moles),
        "scars-free": len(read) - worked if scars else None,
        "scars-worked": worked if scars else None,
        "tattoos-free": len(old) - covered if tattoos else None,
        "tattoos-covered": covered if tattoos else None,
    }


def _facts(job: Job, plan: JobPlan | None) -> Facts:
    counts = _counts(job, plan)
    free = (counts["moles"], counts["scars-free"], counts["tattoos-free"])
    sittings = None if plan is None or plan.work is None else len(plan.work.sittings)
    facts: dict[str, Value] = {
        "finished": job.finished is not None,
        "several": None if sittings is None else sittings > 1,
        "last": _is_last(job, plan),
        "free": True if any(free) else None if None in free else False,
    }
    facts |= {name: None if number is None else number > 0 for name, number in counts.items()}
    return {f"{SITTING}.{name}": fact for name, fact in facts.items()}


def _is_last(job: Job, plan: JobPlan | None) -> bool | None:
    """Whether the piece is finished in the sitting; None where that cannot be known."""
    done = job.finished
    if done is not None and done.stopped not in (None, "done"):
        return False
    return None if plan is None or plan.work is None else plan.work.next_sitting is None


def _quotes(records: Records, job: Job, plan: JobPlan | None) -> Quotes:
    """What texts quote, in words. What a page of its state may not quote is not among them."""
    work = None if plan is None else plan.work
    said = {name: "not known" if number is None else f"{number}" for name, number in _counts(job, plan).items()}
    said |= {"day": in_words(worked_on(job)), "number": f"{job.sitting}"}
    if job.finished is not None or work is not None:
        # Where nobody can tell, the skin is given the longer time.
        window = touch_up(records, job, slow=True).answer if work is None else work.touch_up.answer
        again = next_sitting(records, job, worked_on(job)).answer if _is_last(job, plan) is False else window.opens
        said |= {"again": in_words(again), "again-last": in_words(window.closes)}
    if work is not None:
        times = work.at_hand.timetable
        said |= {
            "start": f"{job.start:%H:%M}",
            "end": "–".join(dict.fromkeys(f"{at:%H:%M}" for at in clock_rounded_out(*times.done_between))),
            "long": " – ".join(dict.fromkeys(map(in_hours, ends_by_the_clock(times.whole)))),
            "sittings": f"{len(work.sittings)}",
        }
    return {f"{SITTING}.{name}": words for name, words in said.items()}


PAGE = OneFile(
    ("sheet", "words"),
    "for-the-client",
    sizes=sizes,
    lengths=LENGTHS,
    title=TITLE,
    foot=FOOT,
    spacing=_letters(0)[0].spacing,
    heading_spacing=_letters(0)[1].spacing,
)
