"""What is made of one job, as it is kept: its pages as bytes, and the little that lists and reports need of it."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import NamedTuple

from generator.diagnostics import Diagnostic, Report
from generator.kept.needs import Taken, taken_by
from generator.planning.each_job import Diary
from generator.planning.findings.expiring import patch_reminders
from generator.planning.for_lists import needs_of
from generator.planning.supplies.restock import span_ahead
from generator.planning.supplies.tracing import JobLots, unknown_lots, unreported_reactions
from generator.planning.timing.coming_back import past_retention
from generator.planning.timing.healed import Healed
from generator.planning.timing.learning import Learned, Timed
from generator.press.formulas.carried import shows
from generator.press.lists.days import OnItsDay, first_with_a_page, on_its_day
from generator.press.manual.typed_numbers import job_findings
from generator.press.pages import in_site
from generator.press.sheet.all_jobs import Pressed, press_job
from generator.press.sheet.stored import NotAsStored, from_stored, to_stored
from generator.press.sheet.summary import JobSummary
from generator.press.words.addresses import addresses_of
from generator.press.words.print_line import written_stamp
from generator.records.families import Records
from generator.records.jobs import Job
from generator.records.reading import Reading


class Facts(NamedTuple):
    """What lists and reports need of one job.

    shows: how much of the formulas its plan shows, below 0 for nothing. takes: what it takes from the shelf, None where
    what is to be ordered does not count it. addresses: where its pages are; stamps: those of its pages. on_its_day:
    what the page of its day says of it, where that has a page.
    """

    job: str
    report: Report
    summary: JobSummary | None = None
    lots: JobLots | None = None
    shows: int = -1
    takes: tuple[Taken, ...] | None = None
    addresses: tuple[str, ...] = ()
    stamps: tuple[tuple[str, str], ...] = ()
    on_its_day: OnItsDay | None = None
    healed: Healed | None = None


class Made(NamedTuple):
    """One job. pages: in the order of their addresses; none where they are not wanted.

    times: what one teaches whose plan was made in this run, and that is finished.
    """

    facts: Facts
    pages: Sequence[bytes] = ()
    times: tuple[Timed, ...] | None = None


class Run(NamedTuple):
    """What all jobs of a run are made from. pages: whether they are wanted; otherwise only their addresses are."""

    content: Path
    reading: Reading
    pages: bool


class MadeFrom(NamedTuple):
    """What a job is made from. diary: what jobs of one day want at once."""

    run: Run
    learned: Learned
    diary: Diary


def made_of(path: Path, all_from: MadeFrom, said: Callable[[str], str]) -> Made:
    """One job read, planned and pressed. said: what the studio's region makes of a page."""
    (content, reading, wanted), learned, diary = all_from
    pressed = press_job(content, diary.ready(path), reading, learned, diary, pages=wanted)
    records = reading.records
    if records is None:
        return Made(Facts(path.stem, pressed.report))
    report = (*pressed.report, *_about(records, pressed.job, reading))
    if pressed.summary is None:
        return Made(Facts(path.stem, report))
    found = list(_pages(pressed, pressed.summary.id))
    needs = None if pressed.plan is None else needs_of(records, pressed.plan)
    if needs is not None and not span_ahead(records, reading.as_of).holds(needs.date):
        needs = None
    facts = Facts(
        path.stem,
        report,
        pressed.summary,
        pressed.lots,
        -1 if pressed.plan is None else shows(pressed.plan),
        None if needs is None else taken_by(needs.needs),
        tuple(address for address, _ in found),
        tuple((address, stamp) for address, html in found if (stamp := written_stamp(html))),
        _on_its_day(records, pressed, all_from),
        pressed.healed,
    )
    pages = [said(in_site(html)).encode() for _, html in found] if wanted else []
    return Made(facts, pages, pressed.times)


def _on_its_day(records: Records, pressed: Pressed, all_from: MadeFrom) -> OnItsDay | None:
    job, summary = pressed.job, pressed.summary
    if job is None or summary is None or job.date < first_with_a_page(all_from.run.reading.as_of):
        return None
    return on_its_day(records, job, pressed.plan, summary.state, all_from.diary.booked(job))


def _about(records: Records, job: Job | None, reading: Reading) -> Iterator[Diagnostic]:
    """What is to be said about a job that could be read, beside its plan."""
    if job is not None:
        yield from unknown_lots(records, job)
        yield from unreported_reactions(records, job)
        yield from job_findings(records, job)
        yield from patch_reminders(records, job, reading.as_of)
        yield from past_retention(records, job, reading.as_of)


def _pages(pressed: Pressed, job: str) -> Iterator[tuple[str, str]]:
    made = (pressed.sheet, pressed.page, pressed.client, pressed.explained, pressed.today)
    for address, html in zip((f"sheets/{job}.html", *addresses_of(job)), made, strict=True):
        if html is not None:
            yield address, html


def as_bytes(facts: Facts) -> bytes:
    """The facts as they are kept, on one line: the same facts, the same bytes."""
    return json.dumps(to_stored(facts), ensure_ascii=False, separators=(",", ":")).encode()


def from_bytes(kept: bytes) -> Facts | None:
    """The facts that `as_bytes` wrote; None for anything else."""
    try:
        return from_stored(Facts, json.loads(kept))
    except (ValueError, NotAsStored):
        return None
