"""The recall sheet of a lot, an ink or a grouping, and the same for the terminal.

It prints client references and nothing else about a client; on a screen the jobs stand below.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

from generator.how_many import how_many
from generator.planning.supplies.tracing import GROUPINGS, JobLots, Thing, Trace, not_on_file
from generator.press.words.addresses import lot_address, lot_file
from generator.press.words.one_file import OneFile
from generator.records.families import Records
from generator.records.quoting import name_of

PAGE = OneFile(("lists", "words"), "lot")
# With more lots or jobs than these a page is slow to open.
MOST_HERE = 200


def title_of(trace: Trace, records: Records) -> str:
    """What is recalled, in words."""
    spelled = " or ".join(trace.spelled)
    if not trace.thing.entry:
        return f"Lot {spelled}, of no ink on file"
    name = thing_name(trace.thing, records)
    kind = "Cartridges " if trace.thing.family == GROUPINGS else ""
    return f"{kind}{name}, lot {spelled}" if trace.thing.lot else f"{kind}{name}, every lot"


def thing_name(thing: Thing, records: Records) -> str:
    """What the ink or the grouping is called."""
    return name_of(records.family(thing.family)[thing.entry])


def without_a_lot(trace: Trace, records: Records) -> str:
    """“3 finished jobs used Amber without a lot on file: ask”; nothing where every lot is known."""
    if not trace.unsure:
        return ""
    jobs = how_many(len(trace.unsure), "finished job")
    return f"{jobs} used {thing_name(trace.thing, records)} without a lot on file: ask"


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
        asked="" if whole is None else without_a_lot(whole, records),
        asked_at="" if whole is None else f"{lot_file(whole.thing)}.html",
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
            notes += [without_a_lot(trace, records), *(_to_ask(job, records) for job in trace.unsure)]
    return notes


def _to_ask(job: JobLots, records: Records) -> str:
    unknown = not_on_file(records, job.lots)
    lots = f", with {', '.join(unknown)}, which no ink has on file" if unknown else ""
    return f"ask: {job.client}, {job.date.isoformat()}, {job.job}{lots}"
