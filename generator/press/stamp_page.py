"""The page on which a print is held against the records of today: current, outdated, or of a job nobody knows."""

from __future__ import annotations

import json
from collections.abc import Sequence

from generator.press.addresses import address
from generator.press.markup import Markup, Row, heading, link, page, paragraph, table
from generator.press.summary import JobSummary

STAMP = "stamp.md"
STAMPS = "assets/stamps.js"
LOOK_UP = "assets/stamp.js"


def stamp_page(known_jobs: Sequence[JobSummary], here: str = STAMP) -> str:
    """The look-up, and below it all current stamps: without a script the page is that table."""
    rows = (
        Row(
            f"stamp-{job.id}",
            (
                job.id,
                Markup("<code>{}</code>").format(job.stamp),
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
        paragraph(
            "A sheet carries its job and a stamp, as text and as a code to scan. The stamp changes with every word and "
            "number that is printed, and with nothing else. A sheet whose stamp is not the one below is printed again."
        ),
        form,
        heading("Current stamps", "current"),
        table("Current stamps", ("Job", "Stamp", "Sheet"), rows),
        scripts,
    )


def stamps_script(known_jobs: Sequence[JobSummary]) -> str:
    """The stamps as a classic script: pages opened from a folder can load nothing else."""
    stamps = {job.id: job.stamp for job in sorted(known_jobs, key=lambda job: job.id)}
    return f"window.currentStamps = {json.dumps(stamps)};\n"
