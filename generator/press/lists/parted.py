"""An archive parted into pages that open at once: by year, and a year with more jobs than a page holds by month.

Together they would take much memory, so that each is made when it is asked for.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping

from generator.press.sheet.summary import JobSummary


class Pages(Mapping[str, str]):
    """Pages by address: those that are made, and those that are made whenever they are asked for."""

    def __init__(self, made: Mapping[str, str], on_demand: Mapping[str, Callable[[], str]]) -> None:
        self.made, self.on_demand = made, on_demand

    def __getitem__(self, here: str) -> str:
        return self.made[here] if here in self.made else self.on_demand[here]()

    def __contains__(self, here: object) -> bool:
        return here in self.made or here in self.on_demand

    def __iter__(self) -> Iterator[str]:
        yield from (*self.made, *self.on_demand)

    def __len__(self) -> int:
        return len(self.made) + len(self.on_demand)


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
