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


def parted(
    jobs: Iterable[JobSummary], left_out: Iterable[JobSummary], beginning: str
) -> dict[str, tuple[str, list[JobSummary]]]:
    """The pages of each year of which a job is left out elsewhere, by address: year or month in words, and its jobs.

    jobs: what the pages list, the latest first. beginning: that of their addresses, before `2027` or `2027-03`.
    """
    years = {job.date.year for job in left_out}
    ordered = sorted(jobs, key=lambda job: (job.date, job.id), reverse=True)
    many = Counter(job.date.year for job in ordered)
    found: dict[str, tuple[str, list[JobSummary]]] = {}
    for job in ordered:
        if job.date.year not in years:
            continue
        part = said = f"{job.date:%Y}"
        if many[job.date.year] > MOST:
            part, said = f"{job.date:%Y-%m}", f"{job.date:%B %Y}"
        _, listed = found.setdefault(f"{beginning}{part}.md", (said, []))
        listed.append(job)
    return found
