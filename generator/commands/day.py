"""A day on one printed page."""

from __future__ import annotations

import argparse

from generator.commands.every_job import of_every_job
from generator.commands.pages import not_over, written_out
from generator.commands.says import refused
from generator.diagnostics import has_errors
from generator.kept.times import around_a_day
from generator.planning.each_job import PlannedJob
from generator.press.lists.day import day_html, day_view
from generator.press.lists.days import OnItsDay, on_its_day
from generator.press.words.regional import in_region
from generator.records.families import Records
from generator.records.reading import read_records


def run(options: argparse.Namespace) -> int:
    if options.output is not None and (taken := not_over(options.output, options.content)):
        return refused(taken)
    reading = read_records(options.content, options.today)
    day = options.day or reading.as_of
    learned, diary = around_a_day(options.content, reading, day)

    def on_this_day(records: Records, planned: PlannedJob) -> OnItsDay | None:
        job, made = planned.job, planned.plan
        if job is None or job.date != day:
            return None
        state = "finished" if made is None else made.state.listed
        return on_its_day(records, job, made, state, diary.booked(job))

    jobs, report = of_every_job(options.content, reading, on_this_day, lambda job: job.date == day, learned, diary)
    # A page that leaves out a job which cannot be read would show an hour as free.
    if has_errors(report) or reading.records is None:
        return refused(report)
    view = day_view(reading.records, day, jobs)
    return written_out(in_region(reading.records)(day_html(view, reading.as_of)), options.output)
