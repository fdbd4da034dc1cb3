"""What is made of one job, as it is kept: its pages as bytes, and the little that lists and reports need of it."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import NamedTuple

from generator.diagnostics import Report
from generator.planning.for_lists import needs_of
from generator.planning.supplies.restock import JobNeeds
from generator.planning.supplies.tracing import JobLots
from generator.planning.timing.learning import Learned
from generator.press.formulas.carried import shows
from generator.press.manual.typed_numbers import job_findings
from generator.press.sheet.all_jobs import Pressed, press_job
from generator.press.sheet.stored import NotAsStored, from_stored, to_stored
from generator.press.sheet.summary import JobSummary
from generator.press.words.addresses import client_address, explained_address, job_address, today_address
from generator.press.words.print_line import written_stamp
from generator.records.reading import Reading, read_job


class Page(NamedTuple):
    """A page of a job: where it is in the site, the stamp of its words (none for a sheet), and its bytes."""

    address: str
    stamp: str
    html: bytes


class Facts(NamedTuple):
    """What lists and reports need of one job.

    shows: how much of the formulas its plan shows, below 0 for nothing. takes: whether it takes something from the
    shelf, which is asked of its plan when its day is near. stamps: those of its pages, by address.
    """

    report: Report
    summary: JobSummary | None = None
    lots: JobLots | None = None
    shows: int = -1
    takes: bool = False
    stamps: tuple[tuple[str, str], ...] = ()


class Made(NamedTuple):
    """One job. needs: of a job whose plan was made in this run."""

    facts: Facts
    pages: tuple[Page, ...] = ()
    needs: JobNeeds | None = None


def made_of(path: Path, content: Path, reading: Reading, learned: Learned, said: Callable[[str], str]) -> Made:
    """One job read, planned and pressed. said: what the studio's region makes of a page."""
    pressed = press_job(content, read_job(path, reading.known), reading, learned)
    records = reading.records
    if records is None or pressed.job is None or pressed.lots is None or pressed.summary is None:
        return Made(Facts(pressed.report))
    pages = tuple(
        Page(address, written_stamp(html), said(html).encode()) for address, html in _pages(pressed, pressed.summary)
    )
    needs = None if pressed.plan is None else needs_of(records, pressed.plan)
    return Made(
        Facts(
            (*pressed.report, *job_findings(records, pressed.job)),
            pressed.summary,
            pressed.lots,
            -1 if pressed.plan is None else shows(pressed.plan),
            needs is not None,
            tuple((page.address, page.stamp) for page in pages if page.stamp),
        ),
        pages,
        needs,
    )


def _pages(pressed: Pressed, summary: JobSummary) -> Iterator[tuple[str, str]]:
    for address, html in (
        (f"sheets/{summary.id}.html", pressed.sheet),
        (job_address(summary.id), pressed.page),
        (client_address(summary.id), pressed.client),
        (explained_address(summary.id), pressed.explained),
        (today_address(summary.id), pressed.today),
    ):
        if html is not None:
            yield address, html


def to_bytes(made: Made) -> bytes:
    """The job as it is kept: the same job, the same bytes."""
    head = {"facts": to_stored(made.facts), "pages": [[p.address, p.stamp, len(p.html)] for p in made.pages]}
    first = json.dumps(head, ensure_ascii=False, separators=(",", ":")).encode()
    return b"\n".join((first, b"".join(page.html for page in made.pages)))


def from_bytes(kept: bytes) -> Made | None:
    """The job that `to_bytes` wrote; None for anything else."""
    end = kept.find(b"\n")
    try:
        head = json.loads(kept[:end])
        facts = from_stored(Facts, head["facts"])
        pages, at = [], end + 1
        for address, stamp, length in head["pages"]:
            pages.append(Page(address, stamp, kept[at : at + length]))
            at += length
    except (ValueError, KeyError, TypeError, NotAsStored):
        return None
    return Made(facts, tuple(pages)) if at == len(kept) else None
