"""A sheet, its job's page and how its numbers came about, each as one HTML file that needs nothing else."""

from __future__ import annotations

import datetime
import functools
import hashlib
import re
from dataclasses import dataclass

from markupsafe import Markup

from generator.planning.findings.states import State
from generator.planning.plan import JobPlan
from generator.press.drawings.map import ON_PAGE, drawn_map
from generator.press.drawings.map_words import in_words
from generator.press.drawings.pictures import pictures_of
from generator.press.drawings.svg import Picture
from generator.press.sheet import sizes
from generator.press.sheet.afterwards import Afterwards, afterwards_of
from generator.press.sheet.appendix import Appendix
from generator.press.sheet.columns import columns_of, dial_parts
from generator.press.sheet.contents import first_lined
from generator.press.sheet.differences import Difference
from generator.press.sheet.enquiry import AnswerToEnquiry, answer_to_enquiry
from generator.press.sheet.number_links import NOWHERE, Explained, NumberLinks
from generator.press.sheet.sides import in_one_column, no_steps, pause_widths, sides_of
from generator.press.sheet.stamp import stamp_of
from generator.press.sheet.view import Sheet
from generator.press.words.addresses import explained_address, job_address, today_address
from generator.press.words.markup import with_whole_dates
from generator.press.words.print_line import PRINT_LINE, with_print_line, with_words_stamp
from generator.press.words.shared import Shared
from generator.press.words.templates import templates_of
from generator.records.families import Records


def sheet_html(
    sheet: Sheet,
    as_of: datetime.date,
    appendix: Appendix | None = None,
    pictures: tuple[Picture, ...] = (),
    links: NumberLinks | None = None,
) -> str:
    """The sheet as one HTML file without requests; pictures and an appendix stand behind its sides.

    links: where its numbers are explained, for reading on a screen; in its appendix, where it has one.
    """
    import segno

    stamp = stamp_of(sheet)
    # Version and mask are fixed, so that the same stamp always draws the same code.
    code = segno.make_qr(f"{sheet.job} {stamp}", version=5, error="m", mask=2, boost_error=False)
    drawn = Markup(code.svg_inline(scale=1, border=2, omitsize=True, title=f"Stamp {stamp}"))
    if links is None:
        links = NOWHERE if appendix is None else NumberLinks("", appendix.lines)
    html = _filled(
        "sheet.html.j2",
        sheet,
        as_of,
        _SHEET,
        sides=sides_of(sheet),
        columns=columns_of(sheet.rows),
        dial_parts=dial_parts,
        no_steps=no_steps(sheet),
        pause_widths=pause_widths(sheet),
        in_one_column=in_one_column(sheet),
        code=drawn,
        appendix=appendix,
        pictures=pictures,
        links=links,
        chapters=Explained,
        whole=with_whole_dates,
        tick_key=functools.partial(_tick_key, sheet.day),
        sizes=sizes,
        script=_TICKS.inline,
    )
    if appendix is not None:
        # The file is read outside of the handbook: what leads into that is no link there.
        html = _INTO_THE_HANDBOOK.sub(r"\1", html)
    return with_print_line(html, sheet.job, stamp, sheet.studio, as_of)


_INTO_THE_HANDBOOK = re.compile(r'<a href="[^"#][^"]*">(.*?)</a>')


def _filled(template: str, sheet: Sheet, as_of: datetime.date, style: Shared, **shown: object) -> str:
    """A template with what every page of a job has, and with what it shows besides."""
    filled = templates_of(*_ROOMS).get_template(template)
    stamp, day = stamp_of(sheet), as_of.isoformat()
    return filled.render(sheet=sheet, stamp=stamp, as_of=day, style=style.inline, **shown)


def explained_html(sheet: Sheet, as_of: datetime.date, appendix: Appendix) -> str:
    """The appendix alone, as a file of its own beside the sheet."""
    html = _filled("explained.html.j2", sheet, as_of, _EXPLAINED, appendix=appendix)
    return with_words_stamp(html, explained_address(sheet.job), sheet.studio, as_of)


@dataclass(frozen=True, slots=True)
class JobDrawn:
    """What a job's own page shows besides its sheet: the map at a readable size, its words, and the pictures."""

    map: Markup
    map_words: str
    pictures: tuple[Picture, ...]


def job_drawn(records: Records, plan: JobPlan) -> JobDrawn:
    """The drawings of a plan."""
    start, clearance = first_lined(plan.work), records.studio.limits.mole_clearance
    drawn = drawn_map(plan, clearance, start, ON_PAGE._replace(shows=records.studio.shows)).svg
    return JobDrawn(drawn, in_words(plan, clearance, start, records.studio.shows), pictures_of(records, plan))


def job_html(records: Records, plan: JobPlan, sheet: Sheet, as_of: datetime.date) -> str:
    """The job's own page: its state, what happened, the map at a readable size, and the pictures."""
    answer = answer_to_enquiry(records, plan)
    return job_page(sheet, job_drawn(records, plan), afterwards_of(records, plan), as_of, answer=answer)


def job_page(
    sheet: Sheet,
    drawn: JobDrawn,
    afterwards: Afterwards | None,
    as_of: datetime.date,
    paper: str | None = None,
    answer: AnswerToEnquiry | None = None,
) -> str:
    """The page of a job whose views are made. answer: to an enquiry, where the client was not asked yet.

    paper: the stamp that was found on the paper, empty where nobody looked, None for a job that is not kept as worked.
    """
    html = _filled(
        "job.html.j2",
        sheet,
        as_of,
        _JOB,
        state=_state_without_its_day(sheet),
        drawn=drawn,
        pictures=drawn.pictures,
        afterwards=afterwards,
        answer=answer,
        paper=paper,
        script=PRINT_LINE.inline,
    )
    return with_words_stamp(html, job_address(sheet.job), sheet.studio, as_of)


def _state_without_its_day(sheet: Sheet) -> str:
    """The state of a job by its name. A wait of so many months has one cause: its day is on the sheet alone."""
    if sheet.finished:
        return sheet.verdict
    state = State.of_mark(sheet.mark)
    return f"{state.printed} the day on its sheet" if state is State.WAIT else state.printed


def today_html(sheet: Sheet, differences: tuple[Difference, ...], refused: str, as_of: datetime.date) -> str:
    """What today's records and formulas would make of a job that is finished."""
    html = _filled(
        "today.html.j2", sheet, as_of, _JOB, differences=differences, refused=refused, script=PRINT_LINE.inline
    )
    return with_words_stamp(html, today_address(sheet.job), sheet.studio, as_of)


def _tick_key(day: str, of: str, text: str) -> str:
    """Under what a tick is kept: a hash of what is ticked, and of the day, because the next sitting begins empty."""
    return hashlib.sha256(f"{day}\n{of}\n{text}".encode()).hexdigest()[:12]


_ROOMS = ("sheet", "drawings", "words")
_SHEET, _TICKS = Shared(_ROOMS, "sheet.css.j2", sizes=sizes, widest=sizes.WIDEST), Shared(_ROOMS, "ticks.js.j2")
_EXPLAINED, _JOB = Shared(_ROOMS, "explained.css.j2"), Shared(_ROOMS, "job.css.j2", sizes=sizes)
SHARED = (_SHEET, _TICKS, _EXPLAINED, _JOB, PRINT_LINE)
