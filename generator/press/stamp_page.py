"""The page on which a print is held against the records of today: current, outdated, finished, or not known."""

from __future__ import annotations

import json
from collections.abc import Sequence

from generator.press.addresses import address
from generator.press.markup import Markup, Row, heading, link, page, paragraph, table
from generator.press.summary import JobSummary

STAMP = "stamp.md"
STAMPS = "assets/stamps.js"
LOOK_UP = "assets/stamp.js"
# What is done with a paper whose stamp is another one.
FINISHED = "finished, keep this paper"
PLANNED = "with another stamp: print again"


def stamp_page(known_jobs: Sequence[JobSummary], here: str = STAMP) -> str:
    """The look-up, and below it all current stamps: without a script the page is that table."""
    rows = (
        Row(
            f"stamp-{job.id}",
            (
                job.id,
                Markup("<code>{}</code>").format(job.stamp),
                FINISHED if job.finished else PLANNED,
                link(address(here, f"sheets/{job.id}.html"), job.title),
            ),
        )
        for job in sorted(known_jobs, key=lambda job: job.id)
    )
    form = Markup(
        '<form id="stamp-form" class="look-up" hidden><label for="stamp-text">Job and stamp, typed or scanned from the '
        'foot of the sheet</label> <input id="stamp-text" type="text" autocomplete="off" autocapitalize="none" '
        'spellcheck="false"> <button type="submit">Look up</button></form>'
        '<p id="stamp-answer" class="answer" role="status"></p>'
    )
    scripts = Markup('<script src="{}"></script><script src="{}"></script>').format(
        address(here, STAMPS), address(here, LOOK_UP)
    )
    return page(
        "Check a stamp",
        form,
        paragraph(
            "A sheet carries its job and a stamp, as text and as a code to scan. The stamp changes with every word and "
            "number that is printed, and with nothing else. When the stamp is not the one below, print the "
            "sheet again before you work from it."
        ),
        paragraph(
            "A paper that was worked from is a record: keep it, whatever its stamp. The stamp of a finished job "
            "changes when a record changes, and the paper still says what was done."
        ),
        heading("Current stamps", "current"),
        table("Current stamps", ("Job", "Stamp", "The paper", "Sheet"), rows),
        scripts,
    )


def stamps_script(known_jobs: Sequence[JobSummary]) -> str:
    """Stamp and state of each job as a classic script: pages opened from a folder can load nothing else."""
    stamps = {
        job.id: {"stamp": job.stamp, "finished": job.finished} for job in sorted(known_jobs, key=lambda job: job.id)
    }
    return f"window.currentStamps = {json.dumps(stamps)};\n"
