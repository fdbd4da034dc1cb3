"""Keep the finished jobs of the demo anew: `python -m tests.freeze_demo`, with the names of some jobs for those alone.

Needed only where a kept value can no longer be read because its view has another shape. A changed plan needs none of
it: what was worked stays as it was, and the job's page says what would be otherwise today.
"""

from __future__ import annotations

import sys
from pathlib import Path

from generator.dates import as_of
from generator.diagnostics import as_text
from generator.finishing import finishing, written
from generator.records.reading import job_files, read_job, read_records, worked_file

CONTENT = Path("content")


def freeze(content: Path, job: Path) -> str:
    """Keep one finished job anew; what is in the way."""
    worked_file(job).unlink(missing_ok=True)
    reading = read_records(content, as_of())
    made, report = finishing(content, reading, read_job(job, reading.known))
    if made is None:
        return as_text(report)
    written(made, made.frozen.stamp)
    return ""


if __name__ == "__main__":
    # Every old file goes first: one that cannot be read would be in the way of the others.
    jobs = [job for job in job_files(CONTENT) if "\nfinished:" in job.read_text("utf-8")]
    for said in (freeze(CONTENT, job) for job in jobs if len(sys.argv) == 1 or job.stem in sys.argv):
        sys.stdout.write(said)
