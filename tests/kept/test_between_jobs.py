"""While a job is made nothing is looked through, and nothing of one that is done keeps itself in memory."""

from __future__ import annotations

import gc
import weakref
from pathlib import Path
from types import FrameType, TracebackType

import pytest

from generator import site as site_module
from generator.dates import as_of
from generator.kept import jobs as jobs_module
from generator.kept.between_jobs import between_jobs
from generator.kept.folder import Folder
from generator.kept.jobs import make_jobs
from generator.kept.keys import base_of
from generator.kept.made import Made, MadeFrom, Run, made_of
from generator.planning.each_job import PlannedJob, diary_of
from generator.planning.plan import JobPlan
from generator.press.sheet.all_jobs import Pressed
from generator.records.reading import read_records
from tests.conftest import ROOT, THREE_JOBS, copy_content


class _Ring:
    """Something that only leads to itself."""

    def __init__(self) -> None:
        self.itself = self


def test_what_leads_to_itself_is_found_after_some_jobs_and_never_within_one() -> None:
    with between_jobs() as one_done:
        assert not gc.isenabled()
        last = weakref.ref(_Ring())
        assert last() is not None
        for _ in range(10):
            one_done()
        assert last() is None
        # What was looked through once stays, and is not looked through again.
        assert gc.get_freeze_count() > 1000 and len(gc.get_objects()) < 1000
    assert gc.isenabled() and gc.get_freeze_count() == 0


def test_all_jobs_are_made_so_and_afterwards_all_is_as_before(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    content = copy_content(tmp_path, THREE_JOBS)
    reading = read_records(content, as_of())
    seen: list[bool] = []

    def fails_at_the_third(*given: object) -> Made:
        seen.append(gc.isenabled())
        if len(seen) == 3:
            raise MemoryError
        return made_of(*given)  # type: ignore[arg-type]

    monkeypatch.setattr(jobs_module, "made_of", fails_at_the_third)
    with pytest.raises(MemoryError):
        make_jobs(Folder(content), base_of(content, reading), Run(content, reading, False), lambda *page: None)
    assert seen == [False] * 3 and gc.isenabled() and gc.get_freeze_count() == 0


def test_what_is_known_of_an_archive_is_not_looked_through_while_its_lists_are_made(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    seen: list[int] = []

    def noted(*given: object) -> dict[str, str]:
        seen.append(gc.get_freeze_count())
        return {}

    monkeypatch.setattr(site_module, "generated_pages", noted)
    site_module.read_site(copy_content(tmp_path, THREE_JOBS[:1]), ROOT / "handbook", as_of(), pages=False)
    assert seen and seen[0] > 1000 and gc.get_freeze_count() == 0


def test_plans_pages_and_mistakes_leave_with_their_job(tmp_path: Path) -> None:
    """A mistake that is caught and kept knows the call that keeps it, and all that was at hand then."""
    content = copy_content(tmp_path, THREE_JOBS)
    reading = read_records(content, as_of())
    all_from = MadeFrom(Run(content, reading, True), {}, diary_of(content, reading, {}))
    kinds = (FrameType, TracebackType, BaseException, PlannedJob, JobPlan, Pressed)
    with between_jobs():
        gc.set_debug(gc.DEBUG_SAVEALL)
        try:
            for name in THREE_JOBS:
                made_of(content / "jobs" / f"{name}.yml", all_from, str)
            gc.collect()
            left = {type(one).__name__ for one in gc.garbage if isinstance(one, kinds)}
        finally:
            gc.set_debug(0)
            gc.garbage.clear()
    assert left == set()
