"""Older jobs and those far ahead: the search finds the nearest ones, and a look-up of its own all others.

The search of the theme makes its index anew on every page that is opened, and with ten thousand jobs a first answer
would take seconds. The look-up goes through one list, and works in pages opened from a folder.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from pathlib import Path

from markupsafe import Markup

from generator.press.sheet.summary import JobSummary
from generator.press.words.addresses import address
from generator.press.words.markup import paragraph

OLDER = "assets/older-jobs.js"
_LOOK_UP = "assets/find-older-jobs.js"
# So many jobs the search finds, and so many of these are not finished, where there are more of both.
SEARCHED, _NOT_FINISHED = 500, 300


def older(jobs: Sequence[JobSummary]) -> list[JobSummary]:
    """The jobs that the search does not find: finished ones, the latest first, then those that are far ahead."""
    by_day = sorted(jobs, key=lambda job: (job.date, job.id))
    past = [job for job in reversed(by_day) if job.finished]
    others = [job for job in by_day if not job.finished]
    room = max(_NOT_FINISHED, SEARCHED - len(past))
    return [*past[max(0, SEARCHED - min(len(others), room)) :], *others[room:]]


def searched(jobs: Sequence[JobSummary]) -> list[JobSummary]:
    """The jobs that the search finds, in their order."""
    left_out = {job.id for job in older(jobs)}
    return [job for job in jobs if job.id not in left_out]


def write_older(site: Path, jobs: Sequence[JobSummary]) -> None:
    """Id, title, client reference, place and stamp of each of these jobs, as a classic script; nothing for none."""
    rows = [[job.id, job.title, job.client, job.place, job.stamp] for job in older(jobs)]
    if rows:
        (site / OLDER).write_text(f"window.olderJobs = {json.dumps(rows, separators=(',', ':'))};\n", "utf-8")


def look_up(here: str) -> tuple[Markup, Markup, Markup]:
    """What is typed into, and where its answers stand; without a script the pages of years are what there is."""
    form = Markup(
        '<form id="older-form" class="look-up" hidden><label for="older-text">Find any other job by title, id, client '
        'reference, place or stamp</label> <input id="older-text" type="text" autocomplete="off" autocapitalize="none" '
        'spellcheck="false"></form><p id="older-said" class="answer" role="status"></p><ul id="older-found"></ul>'
    )
    scripts = Markup('<script src="{}"></script><script src="{}"></script>').format(
        address(here, OLDER), address(here, _LOOK_UP)
    )
    said = f"The search finds {SEARCHED} jobs, the nearest in time. All others are found here:"
    return paragraph(said), form, scripts
