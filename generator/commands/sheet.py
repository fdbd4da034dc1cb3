"""One job's sheet, or the page that its client takes home, as one HTML file."""

from __future__ import annotations

import argparse
from dataclasses import replace

from generator.commands.one_job import JobAsRead, plan_read, planned_or_said, read_one
from generator.commands.pages import not_over, written_out
from generator.commands.says import MISTAKES, WRONG_CALL, refused, say
from generator.diagnostics import has_errors
from generator.press.drawings.pictures import pictures_of
from generator.press.sheet.appendix import appendix_of
from generator.press.sheet.client_page import client_html, client_page_of
from generator.press.sheet.contents import sheet_of
from generator.press.sheet.frozen import Frozen
from generator.press.sheet.printing import sheet_html
from generator.press.sheet.stamp import stamped
from generator.press.words.regional import in_region
from generator.records.jobs import Job


def run(options: argparse.Namespace) -> int:
    if options.client and (options.both_units or options.explain or options.pictures):
        say("error: --client prints a page of its own; leave out --both-units, --explain and --pictures")
        return WRONG_CALL
    if options.output is not None and (taken := not_over(options.output, options.content)):
        return refused(taken)
    found = read_one(options.content, options.job, options.today)
    if options.client:
        return _client_page(options, found)
    if found.frozen is not None and found.read.job is not None:
        return _as_worked(options, found.read.job, found.frozen)
    made = planned_or_said(options.content, found)
    if made is None:
        return MISTAKES
    records, plan = made
    if plan.job.draft:
        return _no_sheet_of_a_draft(plan.job)
    sheet = stamped(sheet_of(records, plan))
    if options.both_units:
        # One stamp for both, so that looking it up does not call a current sheet outdated.
        sheet = replace(sheet_of(records, plan, both_units=True), stamp=sheet.stamp)
    appendix = appendix_of(records, plan, sheet) if options.explain else None
    pictures = pictures_of(records, plan) if options.pictures else ()
    html = sheet_html(sheet, found.reading.as_of, appendix, pictures)
    return written_out(in_region(records)(html), options.output)


def _as_worked(options: argparse.Namespace, job: Job, frozen: Frozen) -> int:
    """The sheet of a finished job from its kept values, whatever records say today."""
    explained = frozen.explained if options.explain else None
    pictures = frozen.drawn.pictures if options.pictures else ()
    if options.both_units:
        say("the sheet of a finished job is kept in one system of units")
    html = sheet_html(frozen.as_record(job), frozen.made, explained, pictures)
    return written_out(html, options.output)


def _client_page(options: argparse.Namespace, found: JobAsRead) -> int:
    """The client's page. A finished job has one also where today's rules make no plan of it."""
    planned, report = plan_read(options.content, found)
    records = found.reading.records
    if records is None or planned.job is None or has_errors(report):
        return refused(report)
    if planned.job.not_worked is not None:
        say(f"error: {planned.job.id} is {planned.job.not_worked}; the client has no page of it to take home")
        return MISTAKES
    if planned.job.draft:
        return _no_sheet_of_a_draft(planned.job)
    page = client_page_of(records, planned.job, planned.plan)
    return written_out(in_region(records)(client_html(page, found.reading.as_of)), options.output)


def _no_sheet_of_a_draft(job: Job) -> int:
    say(f"error: {job.id} is a draft and has no sheet; take `draft` away when everything is filled in")
    return MISTAKES
