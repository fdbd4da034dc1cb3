"""Lots: the page that lists them, and a recall sheet for each lot, ink and grouping.

A recall sheet prints client references and nothing else about a client; on a screen the jobs stand below.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

from markupsafe import Markup

from generator.planning.supplies.tracing import GROUPINGS, INKS, JobLots, Thing, Trace, letters_of, not_on_file
from generator.planning.supplies.tray import good_until
from generator.press.lists.here import Here
from generator.press.lists.one_file import OneFile
from generator.press.words.addresses import LOTS, anchor, lot_address
from generator.press.words.formatted import how_many
from generator.press.words.markup import Cells, bullets, heading, not_searched, note, page, paragraph, table_of
from generator.records.families import Records
from generator.records.quoting import name_of
from generator.trade import dates

# With more lots or jobs than these a page is slow to open; so many of the latest lots stay on it.
MOST_HERE, LOTS_BEGINNING = 200, "lots-beginning-"
NOT_COUNTED, NO_LONGER = "not counted by lot", "no longer there"
NOT_AT_HAND = (NOT_COUNTED, NO_LONGER)

PAGE = OneFile("lot")


def title_of(trace: Trace, records: Records) -> str:
    """What is recalled, in words."""
    spelled = " or ".join(trace.spelled)
    if not trace.thing.entry:
        return f"Lot {spelled}, of no ink on file"
    name = _name_of(trace.thing, records)
    kind = "Cartridges " if trace.thing.family == GROUPINGS else ""
    return f"{kind}{name}, lot {spelled}" if trace.thing.lot else f"{kind}{name}, every lot"


def lots_pages(here: Here, found: Sequence[Trace]) -> dict[str, str]:
    """The page of lots; where there are many, it lists those at hand, and further pages all of them by first sign.

    Whoever looks for a lot has it in hand, and not the year of its last use.
    """
    lots = [trace for trace in found if trace.thing.lot]
    if len(lots) <= MOST_HERE:
        return {LOTS: lots_page(here, found)}
    by_sign: dict[str, list[Trace]] = {}
    for trace in sorted(lots, key=lambda trace: trace.thing.lot):
        first = trace.thing.lot[0].lower()
        sign = first if first.isascii() and first.isalnum() else "other"
        by_sign.setdefault(sign, []).append(trace)
    latest = sorted(lots, key=lambda trace: trace.used[-1].date if trace.used else datetime.date.min)[-MOST_HERE:]
    known = {id(trace) for trace in latest}
    at_hand = [t for t in lots if t.planned or id(t) in known or _shelf(t.thing, here) not in NOT_AT_HAND]
    whole = [trace for trace in found if not trace.thing.lot]
    return {
        LOTS: lots_page(here, [*at_hand, *whole], tuple(by_sign)),
        **{_beginning_with(sign): _beginning(here, sign, traces) for sign, traces in by_sign.items()},
    }


def _beginning_with(sign: str) -> str:
    return f"{LOTS_BEGINNING}{sign}.md"


def _beginning(lots_of_all: Here, sign: str, lots: Sequence[Trace]) -> str:
    here = lots_of_all._replace(address=_beginning_with(sign))
    back = Markup("The lots at hand are under {}.").format(here.to(LOTS, "Lots"))
    title = f"Lots that begin with {'another sign' if sign == 'other' else sign.upper()}"
    return page(title, paragraph(back), not_searched(_lots(here, lots)), contents=False)


def _lots(here: Here, lots: Iterable[Trace]) -> Markup:
    return table_of("Lots", ((_at(trace.thing), _lot(trace, here)) for trace in lots))


def _all_by_sign(signs: Sequence[str], here: Here) -> tuple[str, ...]:
    if not signs:
        return ()
    said = "Above are the lots at hand and the latest ones. All lots there ever were, by the sign that they begin with:"
    return paragraph(said), bullets(here.to(_beginning_with(sign), sign.capitalize()) for sign in signs)


def lots_page(here: Here, found: Sequence[Trace], signs: Sequence[str] = ()) -> str:
    """Every lot with how many jobs it went into; then by ink and by grouping, where nothing is left out.

    signs: what lots begin with, where pages by first sign list all of them and the first table does not.
    """
    return page(
        "Lots",
        note(
            "When a lot is recalled",
            "Open its sheet and print it: it lists client references and nothing else about "
            "a client. Names and numbers are in the consent file. Look at the same time at the jobs without a lot "
            "on file, and ask what was poured.",
        ),
        heading("By lot", "by-lot"),
        _lots(here, (trace for trace in found if trace.thing.lot)),
        *_all_by_sign(signs, here),
        heading("By ink", "by-ink"),
        _whole(found, INKS, "Ink", here),
        heading("By grouping", "by-grouping"),
        paragraph("Lots of cartridges are written into the finished job, by grouping."),
        _whole(found, GROUPINGS, "Grouping", here),
        contents=False,
    )


def _at(thing: Thing) -> str:
    return anchor("lot", lot_address(thing).removeprefix("lots/").removesuffix(".html"))


def _lot(trace: Trace, here: Here) -> Cells:
    thing = trace.thing
    return {
        "Lot": here.to(lot_address(thing), " or ".join(trace.spelled)),
        "Of": _name_of(thing, here.records) if thing.entry else "no ink on file – ask",
        "On the shelf": _shelf(thing, here),
        "Finished jobs with it": str(len(trace.used)),
        "Planned jobs laid out with it": str(len(trace.planned)),
    }


def _name_of(thing: Thing, records: Records) -> str:
    return name_of(records.family(thing.family)[thing.entry])


def _shelf(thing: Thing, here: Here) -> str:
    if thing.family == GROUPINGS:
        return NOT_COUNTED
    ink = here.records.inks.get(thing.entry)
    for lot in () if ink is None else ink.lots:
        if letters_of(lot.lot) == thing.lot and ink is not None:
            until = good_until(ink, lot)
            return f"{'do not use, past' if dates.overdue(until, here.as_of) else 'good until'} {until.isoformat()}"
    return NO_LONGER


def _whole(found: Sequence[Trace], family: str, name: str, here: Here) -> Markup:
    rows = (
        (
            _at(trace.thing),
            {
                name: here.to(lot_address(trace.thing), _name_of(trace.thing, here.records)),
                "Finished jobs with it": str(len(trace.used)),
                "Planned jobs with it": str(len(trace.planned)),
                "Without a lot on file": _unsure(trace, here.records) or "none",
            },
        )
        for trace in found
        if trace.thing.family == family and not trace.thing.lot
    )
    return table_of(f"Jobs by {name.lower()}", rows)


def _unsure(trace: Trace, records: Records) -> str:
    """“3 finished jobs used Amber without a lot on file: ask”; nothing where every lot is known."""
    if not trace.unsure:
        return ""
    jobs = how_many(len(trace.unsure), "finished job")
    return f"{jobs} used {_name_of(trace.thing, records)} without a lot on file: ask"


def recall_sheets(
    records: Records, found: Sequence[Trace], as_of: datetime.date, whole: bool = True
) -> Iterator[tuple[str, str]]:
    """A recall sheet for each lot, and one for all of each ink and grouping, with its address.

    whole: whether what is on them is wanted; otherwise they are empty.
    """
    of_all = {trace.thing.entry: trace for trace in found if not trace.thing.lot}
    for trace in found:
        html = _sheet(trace, of_all.get(trace.thing.entry), records, as_of) if whole else ""
        yield lot_address(trace.thing), html


def _sheet(trace: Trace, whole: Trace | None, records: Records, as_of: datetime.date) -> str:
    """The recall sheet of a lot as one HTML file.

    It prints although another job has a mistake, and says then that its list may be short: a client who has to be
    called must not wait for that.
    """
    jobs = [*((job, "finished") for job in trace.used), *((job, "planned") for job in trace.planned)]
    return PAGE.page(
        lot_address(trace.thing),
        records.studio,
        as_of,
        title=title_of(trace, records),
        lot=bool(trace.thing.lot),
        used=references(trace.used),
        planned=references(trace.planned),
        unsure=references(trace.unsure),
        jobs=jobs,
        years=_by_year(jobs) if len(jobs) > MOST_HERE else (),
        reactions=_reactions(trace, records),
        asked="" if whole is None else _unsure(whole, records),
        asked_at="" if whole is None else lot_address(whole.thing).removeprefix("lots/"),
    )


def _by_year(jobs: Iterable[tuple[JobLots, str]]) -> list[tuple[int, list[tuple[JobLots, str]]]]:
    """The latest year first. A browser lays out what is folded when it is opened."""
    latest_first = sorted(jobs, key=lambda listed: listed[0].date, reverse=True)
    return [(year, list(of)) for year, of in groupby(latest_first, key=lambda listed: listed[0].date.year)]


def _reactions(trace: Trace, records: Records) -> str:
    """How many reactions are on file, and what to do; nothing where there is none. No client is named beside them."""
    if not trace.reactions:
        return ""
    least = records.studio.limits.lot_cases
    of = "lot" if trace.thing.lot else "ink"
    said = f"A reaction to this {of} is on file in {how_many(trace.reactions, 'finished job')}."
    to = records.studio.reactions_to or "Nobody is on file to whom a reaction is reported: ask the health authority."
    if trace.thing.lot and trace.reactions >= least:
        said += f" From {least} on the lot is taken off the shelf: write `until` at its bottle."
    return f"{said} Reported to: {to}"


def references(jobs: Iterable[JobLots]) -> list[str]:
    """The clients of some jobs, each once."""
    return sorted({job.client for job in jobs})


def recall_text(found: Sequence[Trace]) -> str:
    """For the terminal: the references of clients whose finished work used the lot, one a line."""
    return "\n".join(references(job for trace in found for job in trace.used))


def recall_notes(found: Sequence[Trace], every: Sequence[Trace], records: Records) -> list[str]:
    """What the list of references does not say: what is recalled, what is laid out with it, what was not noted."""
    notes = []
    for trace in found:
        notes.append(f"{title_of(trace, records)}: {how_many(len(trace.used), 'finished job')}")
        notes += [
            f"planned with it, do not pour: {job.client}, {job.date.isoformat()}, {job.job}" for job in trace.planned
        ]
    entries = {trace.thing._replace(lot="") for trace in found}
    for trace in every:
        if trace.thing in entries and trace.unsure:
            notes += [_unsure(trace, records), *(_to_ask(job, records) for job in trace.unsure)]
    return notes


def _to_ask(job: JobLots, records: Records) -> str:
    unknown = not_on_file(records, job.lots)
    lots = f", with {', '.join(unknown)}, which no ink has on file" if unknown else ""
    return f"ask: {job.client}, {job.date.isoformat()}, {job.job}{lots}"
