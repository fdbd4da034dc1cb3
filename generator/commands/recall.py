"""Which clients a lot went into."""

from __future__ import annotations

import argparse

from generator.commands.every_job import of_every_job
from generator.commands.says import MISTAKES, OK, out, refused, say, say_set_date
from generator.diagnostics import Diagnostic, has_errors
from generator.planning.each_job import PlannedJob
from generator.planning.supplies.tracing import JobLots, matching, traces
from generator.press.lists.recall import recall_notes, recall_text
from generator.press.sheet.all_jobs import lots_left
from generator.records.families import Records
from generator.records.reading import read_records


def run(options: argparse.Namespace) -> int:
    """References to standard output and nothing else; what they do not say goes beside them."""
    reading = read_records(options.content, options.today)
    kept_wrong: list[Diagnostic] = []

    def left_by(records: Records, planned: PlannedJob) -> JobLots | None:
        if planned.job is not None and planned.job.draft:
            return None
        lots, wrong = lots_left(options.content, records, planned)
        kept_wrong.extend(wrong)
        return lots

    left, report = of_every_job(options.content, reading, left_by)
    report = (*report, *kept_wrong)
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
        refused(report)
        say("the list may be short: what has a mistake was not looked at")
        return MISTAKES
    if not found:
        say(f"error: no record and no finished job names the lot “{options.lot}”; look at the label again")
        return MISTAKES
    return OK
