"""What the coming jobs take from the shelf, and what to order."""

from __future__ import annotations

import argparse

from generator.commands.every_job import of_every_job
from generator.commands.says import MISTAKES, OK, out, refused, say, say_set_date
from generator.diagnostics import has_errors
from generator.planning.each_job import PlannedJob
from generator.planning.for_lists import needs_of
from generator.planning.supplies.restock import JobNeeds, restock, span_ahead
from generator.press.lists.restock import restock_text
from generator.records.families import Records
from generator.records.reading import read_records


def run(options: argparse.Namespace) -> int:
    reading = read_records(options.content, options.today)
    first = options.first or reading.as_of
    span = None if reading.records is None else span_ahead(reading.records, first)
    if span is not None and options.last is not None:
        span = span._replace(last=options.last)
    if options.last is not None and options.last < first:
        say(f"error: the last day, {options.last}, lies before the first, {first}; exchange --from and --to")
        return MISTAKES

    def taken(records: Records, planned: PlannedJob) -> JobNeeds | None:
        return None if planned.plan is None else needs_of(records, planned.plan)

    needs, report = of_every_job(
        options.content,
        reading,
        taken,
        lambda job: span is not None and span.holds(job.date) and not job.draft,
    )
    # An order that leaves out a job which cannot be read would come up short without saying so.
    if has_errors(report) or reading.records is None or span is None:
        return refused(report)
    say_set_date(reading.as_of)
    out(restock_text(reading.records, restock(reading.records, span, needs)))
    return OK
