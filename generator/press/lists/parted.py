"""An archive parted into pages that open at once: by year, and a year with more jobs than a page holds by month."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from generator.press.sheet.summary import JobSummary

# With more rows a page is slow to open.
MOST = 400


def parted(jobs: Iterable[JobSummary]) -> dict[str, list[JobSummary]]:
    """The jobs by `2027` or `2027-03`, the latest first."""
    ordered = sorted(jobs, key=lambda job: (job.date, job.id), reverse=True)
    many = Counter(job.date.year for job in ordered)
    found: dict[str, list[JobSummary]] = {}
    for job in ordered:
        part = f"{job.date:%Y}" if many[job.date.year] <= MOST else f"{job.date:%Y-%m}"
        found.setdefault(part, []).append(job)
    return found


def said_of(part: str, jobs: Iterable[JobSummary]) -> str:
    """The year or the month in words."""
    first = next(iter(jobs))
    return part if part == f"{first.date:%Y}" else f"{first.date:%B %Y}"
