"""What a job takes from the shelf is the same when it was kept, and nobody plans the job for it again."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from generator import site as site_module
from generator.dates import as_of
from generator.kept.needs import kept_needs, needs_again
from generator.planning.for_lists import needs_of
from generator.site import read_site
from tests.conftest import THREE_JOBS, copy_content
from tests.planning.demo import JOBS, RECORDS, demo


def test_needs_are_kept_with_how_they_came_about() -> None:
    found = [needs for name in JOBS if (needs := needs_of(RECORDS, demo(name))) is not None]
    assert len([needs for needs in found if needs.needs]) > 5
    assert [needs_again(kept_needs(needs)) for needs in found] == found


def test_what_is_no_needs_is_none() -> None:
    whole = json.loads(next(kept_needs(n) for name in JOBS if (n := needs_of(RECORDS, demo(name))) and n.needs))
    amount = whole[5][0][2]
    for place, other in ((4, "os"), (4, "generator.trade.nowhere"), (5, "no_such"), (0, "counted"), (6, [["x"]])):
        was, amount[place] = amount[place], other
        assert needs_again(json.dumps(whole)) is None, other
        amount[place] = was
    assert needs_again(json.dumps(whole)) is not None
    assert [needs_again(text) for text in ("", "{", "[]", "3", "null", json.dumps(whole[:5]))] == [None] * 6


def test_a_job_that_was_kept_is_not_planned_for_the_order(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    content = copy_content(tmp_path, THREE_JOBS)
    planned: list[str] = []
    before = site_module.plan_one

    def noting(read: Any, *rest: Any) -> Any:
        planned.append(read.path.stem)
        return before(read, *rest)

    monkeypatch.setattr(site_module, "plan_one", noting)
    first = read_site(content, None, as_of())
    asked_for = [needs.job for needs in first._needs]
    assert len(asked_for) > 0
    planned.clear()
    again = read_site(content, None, as_of())
    assert again._needs == first._needs
    assert len(planned) <= 1, "one job is shown on the pages of formulas"
