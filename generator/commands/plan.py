"""The computed plan of one job."""

from __future__ import annotations

import argparse
import json

from generator.commands.one_job import planned_or_said, read_one
from generator.commands.says import MISTAKES, OK, out, say, say_set_date
from generator.planning.as_json import plan_as_data
from generator.press.sheet.plan_text import plan_text
from generator.press.words.regional import in_region


def run(options: argparse.Namespace) -> int:
    found = read_one(options.content, options.job, options.today)
    made = planned_or_said(options.content, found)
    if made is None:
        return MISTAKES
    records, job_plan = made
    say_set_date(found.reading.as_of)
    if job_plan.job.finished is not None:
        say(f"{job_plan.job.id} is finished; this is what today's rules say, and its sheet is what it was worked with")
    if options.json:
        out(json.dumps(plan_as_data(job_plan), ensure_ascii=False, indent=2))
    else:
        out(in_region(records)(plan_text(records, job_plan)))
    return OK
