"""All generated pages of the handbook: page address to Markdown."""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable, Mapping, Sequence
from functools import partial
from pathlib import Path
from types import MappingProxyType
from typing import NamedTuple

from generator.diagnostic_codes import A_PAGE, CODES, Code
from generator.planning.plan import JobPlan
from generator.planning.supplies.restock import JobNeeds, restock, span_ahead
from generator.planning.supplies.tracing import Trace
from generator.planning.timing.healed import Healed
from generator.planning.timing.learning import NOTHING, Learned
from generator.planning.working.still_here import with_procedures_in_use
from generator.press.formulas.examples import TakenFrom
from generator.press.formulas.pages import formula_pages
from generator.press.lists import day, recall, start_here
from generator.press.lists.asked import asked_page
from generator.press.lists.changed_rules import changed_rules_page
from generator.press.lists.expires import EXPIRES, expires_page
from generator.press.lists.here import Here
from generator.press.lists.jobs import JOBS, jobs_pages
from generator.press.lists.learning import LEARNING, learning_page
from generator.press.lists.look_up import stamp_pages
from generator.press.lists.lots import lots_pages
from generator.press.lists.parted import Pages
from generator.press.lists.restock import RESTOCK, restock_page
from generator.press.lists.reviews import reviews_page
from generator.press.lists.start_here import procedures_page, start_page
from generator.press.lists.training import START, TRAINING, training_page
from generator.press.manual.anchors import PageRead, places
from generator.press.manual.procedures import INDEX, ProcedurePage
from generator.press.sheet import client_page, printing
from generator.press.sheet.summary import JobSummary
from generator.press.tables.client_page import client_page_page
from generator.press.tables.conversions import CONVERSIONS, conversions_page
from generator.press.tables.dials import DIALS, dials_page
from generator.press.tables.disinfectants import disinfectants_page
from generator.press.tables.inks import inks_page
from generator.press.tables.needles import NEEDLE_DIAMETERS, groupings_page, needle_diameters_page, speeds_page
from generator.press.tables.safety import hygiene_page, screening_page, studio_page
from generator.press.tables.scars import scar_rules_page
from generator.press.tables.sterilizer import LOADS, cycles_page, sterilizer_page
from generator.press.tables.studio import (
    machines_page,
    people_page,
    sites_page,
    sources_page,
    supplies_page,
    values_page,
)
from generator.press.tables.swapping import SWAPPING, swapping_page
from generator.press.words import page_day, shared
from generator.press.words.addresses import LOTS, PAGE_OF
from generator.press.words.markup import Cells, code, page, paragraph, table_of
from generator.press.words.page_day import with_set_date
from generator.press.words.undecided import with_undecided
from generator.press.writing.pages import record_pages
from generator.records.families import LISTED, Records

DIAGNOSTICS = "reference/diagnostics.md"
# What the pages of jobs, days, lots and sign-offs share, which are no pages of the theme.
SHARED = (*printing.SHARED, *page_day.SHARED, *(one.PAGE.style for one in (client_page, day, recall, start_here)))


def in_site(html: str) -> str:
    """A page of one file as it stands in a folder of the site."""
    return shared.in_site(html, *SHARED)


class Gathered(NamedTuple):
    """What jobs and authored pages have given by the time when the other pages are made.

    shown: the job that formulas are shown with where only a job has such numbers. learned: what the finished jobs
    teach; needs: what the planned jobs take from the shelf; procedures: their authored pages, by id; traced: which
    jobs each lot went into; authored: the places in all authored pages, by address. with_jobs: False for a copy that
    holds none, such as an inspector's. days: those that have a page. stamps: of the pages of jobs, by address.
    """

    jobs: Sequence[JobSummary] = ()
    shown: JobPlan | None = None
    learned: Learned = NOTHING
    needs: Sequence[JobNeeds] = ()
    procedures: Mapping[str, ProcedurePage] = MappingProxyType({})
    traced: Sequence[Trace] = ()
    authored: Mapping[str, PageRead] = MappingProxyType({})
    with_jobs: bool = True
    days: Sequence[datetime.date] = ()
    healed: Sequence[Healed] = ()
    stamps: Mapping[str, str] = MappingProxyType({})


# What a studio has that has written nothing but its records.
NO_JOBS = Gathered()


def generated_pages(records: Records, as_of: datetime.date, gathered: Gathered = NO_JOBS) -> Pages:
    """Every page that comes from records, schema and code. Same records and same date, same text."""
    in_use = with_procedures_in_use(records, as_of)
    ordered = restock(records, span_ahead(records, as_of), gathered.needs)

    def at(address: str, of: Records = records) -> Here:
        return Here(of, address, as_of, gathered.procedures)

    jobs, stamps = jobs_pages(gathered.jobs, as_of, gathered.days), stamp_pages(gathered.jobs, gathered.stamps)
    lots = lots_pages(at(LOTS), gathered.traced)
    # What says other things on another day.
    of_the_day = {*jobs.made, *jobs.on_demand, *lots, RESTOCK, EXPIRES, PAGE_OF["inks"], PAGE_OF["reviews"]}
    pages = {
        **{address: made(at(address)) for address, made in _TABLES.items()},
        # Nobody who works with single-use only has to look at an empty page about loads.
        **({LOADS: sterilizer_page(at(LOADS))} if records.studio.reprocessing else {}),
        START: start_page(at(START, in_use)),
        INDEX: procedures_page(at(INDEX, in_use)),
        TRAINING: training_page(at(TRAINING, in_use)),
        PAGE_OF["reviews"]: reviews_page(at(PAGE_OF["reviews"])),
        PAGE_OF["sources"]: sources_page(at(PAGE_OF["sources"]), _quoting(gathered.authored)),
        PAGE_OF["changes"]: changed_rules_page(at(PAGE_OF["changes"])),
        EXPIRES: expires_page(at(EXPIRES)),
        PAGE_OF["inks"]: inks_page(at(PAGE_OF["inks"])),
        LEARNING: learning_page(at(LEARNING), gathered.learned, gathered.healed),
        RESTOCK: restock_page(at(RESTOCK), ordered),
        DIAGNOSTICS: _diagnostics(records, gathered.with_jobs),
        **lots,
        **jobs.made,
        **stamps.made,
        **record_pages(records),
        **formula_pages(TakenFrom(records, gathered.shown, as_of, (ordered, *gathered.learned.values()))),
    }
    if not gathered.with_jobs:
        pages |= {here: page(title, paragraph(_LEFT_OUT)) for here, title in _OF_JOBS.items()}

    def finished(here: str, made: Callable[[], str]) -> str:
        text = made()
        return with_undecided(with_set_date(text, as_of) if here in of_the_day else text, records)

    archive = {here: partial(finished, here, made) for here, made in {**jobs.on_demand, **stamps.on_demand}.items()}
    whole = {here: finished(here, partial(str, text)) for here, text in pages.items()}
    # Last, because it names the pages it leads to by their titles.
    asked = asked_page(at(PAGE_OF["asked"]), places(Pages(whole, archive), gathered.authored))
    return Pages({**whole, PAGE_OF["asked"]: asked}, archive)


# The tables, which are made of nothing but records.
_TABLES: Mapping[str, Callable[[Here], str]] = {
    PAGE_OF["groupings"]: groupings_page,
    DIALS: dials_page,
    CONVERSIONS: conversions_page,
    PAGE_OF["techniques"]: speeds_page,
    NEEDLE_DIAMETERS: needle_diameters_page,
    SWAPPING: swapping_page,
    PAGE_OF["machines"]: machines_page,
    PAGE_OF["sites"]: sites_page,
    PAGE_OF["scar-rules"]: scar_rules_page,
    PAGE_OF["screening"]: screening_page,
    PAGE_OF["disinfectants"]: disinfectants_page,
    PAGE_OF["hygiene"]: hygiene_page,
    PAGE_OF["cycles"]: cycles_page,
    PAGE_OF["supplies"]: supplies_page,
    PAGE_OF["values"]: values_page,
    PAGE_OF["client-page"]: client_page_page,
    PAGE_OF["people"]: people_page,
    PAGE_OF["studio"]: studio_page,
}


def _quoting(authored: Mapping[str, PageRead]) -> dict[str, list[tuple[str, str]]]:
    """For each source the pages that quote it, by address and title."""
    found: dict[str, list[tuple[str, str]]] = {}
    for here, read in authored.items():
        for source in read.sources:
            found.setdefault(source, []).append((here, read.title))
    return found


# What adds up jobs: without them it would say that there is nothing, which nobody knows.
_OF_JOBS = {
    JOBS: "Jobs",
    LOTS: "Lots",
    RESTOCK: "What to order",
    LEARNING: "Learning from finished jobs",
}
_LEFT_OUT = (
    "This copy of the handbook holds no jobs, and nothing that is added up from them. Ask the studio for its own."
)


def _stands_here(known: Code, records: Records, with_jobs: bool) -> bool:
    """Whether an example is of this studio's own records or pages; another studio's names are no help."""
    if not with_jobs and (known.file.startswith("jobs/") or known.right.startswith("jobs/")):
        return False
    if known.file == A_PAGE:
        named = re.findall(r"\{\{ *([a-z-]+)\.([\w-]+)", known.right)
        families = {family.name for family in LISTED}
        return all(entry in records.family(family) for family, entry in named if family in families)
    places = (Path(records.folder) / known.file, Path(records.folder).parent / known.file)
    file = next((place for place in places if place.is_file()), None)
    told = known.right.strip("[] ") or known.wrong  # an empty list stands in many a file
    return file is not None and told in file.read_text("utf-8")


def _diagnostics(records: Records, with_jobs: bool) -> str:
    rows = {name: _code(name, known, _stands_here(known, records, with_jobs)) for name, known in sorted(CODES.items())}
    return page(
        "Diagnostics",
        paragraph(
            "What the check says, by code. An error stops the handbook from being published, and the last good one "
            "stays; a warning does the same in a strict build. A reminder stops nothing."
        ),
        table_of("Codes", rows.items()),
    )


def _code(name: str, known: Code, here: bool) -> Cells:
    """here: whether its example is of this studio; a job of another one is any job."""

    def example(text: str) -> str:
        return code(text) if here else "no example in these records"

    file = "jobs/ID.yml" if known.file.startswith("jobs/") and not here else known.file
    return {
        "Code": name,
        "Level": known.level,
        "What it means": known.means,
        "Seen in": code(file),
        "Wrong": example(known.wrong),
        "Right": example(known.right),
    }
