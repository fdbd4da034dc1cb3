"""Which clients a lot went into."""

from __future__ import annotations

import argparse

from generator.commands.says import MISTAKES, OK, out, say, say_set_date
from generator.diagnostics import as_text, has_errors, summary
from generator.planning.each_job import plan_jobs
from generator.planning.supplies.tracing import JobLots, matching, traces
from generator.press.lists.recall import recall_notes, recall_text
from generator.press.sheet.all_jobs import lots_left
from generator.records.drafts import as_drafts, drafts
from generator.records.reading import read_records


def run(options: argparse.Namespace) -> int:
    """References to standard output and nothing else; what they do not say goes beside them."""
    reading = read_records(options.content, options.today)
    report = list(reading.report)
    left: list[JobLots] = []
    for planned in plan_jobs(options.content, reading):
        report += planned.report
        if reading.records is not None and not (planned.job and planned.job.draft):
            lots, found_wrong = lots_left(options.content, reading.records, planned)
            left += [] if lots is None else [lots]
            report += found_wrong
    report = list(as_drafts(report, drafts(options.content)))
    records = reading.records
    say_set_date(reading.as_of)
    every = [] if records is None else traces(records, left)
    found = matching(every, options.lot)
    if records is not None and found:
        for note in recall_notes(found, every, records):
            say(note)
        if references := recall_text(found):
            out(references)
    # Whoever is recalled must not wait for a mistake in another job to be mended; but the list may be short.
    if has_errors(report):
        say(f"{as_text(report)}\n\n{summary(report)}\nthe list may be short: what has a mistake was not looked at")
        return MISTAKES
    if not found:
        say(f"error: no record and no finished job names the lot “{options.lot}”; look at the label again")
        return MISTAKES
    return OK
