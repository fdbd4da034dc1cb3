"""What a job takes from the shelf is the same when it was kept; of the nearest jobs it is planned again how."""

from __future__ import annotations

import datetime
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from generator import site as site_module
from generator.dates import as_of
from generator.kept.needs import needs_again, taken_by
from generator.planning.computed import Computed, add
from generator.planning.for_lists import needs_of
from generator.planning.plan import JobPlan
from generator.planning.supplies.restock import JobNeeds, Span, restock
from generator.press.lists.here import Here
from generator.press.lists.restock import RESTOCK, restock_page
from generator.press.sheet.summary import JobSummary, summary_of
from generator.site import read_site
from tests.conftest import THREE_JOBS, copy_content
from tests.planning.demo import JOBS, RECORDS, demo

NEEDS = [(summary_of(RECORDS, demo(name), ""), needs) for name in JOBS if (needs := needs_of(RECORDS, demo(name)))]


def again(summary: JobSummary, needs: JobNeeds, plan: JobPlan | None) -> JobNeeds:
    return needs_again(RECORDS, summary, taken_by(needs.needs), plan)


def test_needs_come_about_again_as_they_did() -> None:
    assert len([needs for _, needs in NEEDS if needs.needs]) > 5
    assert [again(summary, needs, demo(summary.id)) for summary, needs in NEEDS] == [needs for _, needs in NEEDS]


def test_of_what_is_not_planned_again_it_is_known_how_much() -> None:
    (summary, needs), (_, others) = [one for one in NEEDS if one[1].needs][:2]
    brief = again(summary, needs, None)
    assert brief.brief and taken_by(brief.needs) == taken_by(needs.needs)
    assert {(each.amount.function, each.amount.inputs) for each in brief.needs} == {(add, ())}
    # Saved meanwhile, so that its plan takes something else than was counted.
    assert again(summary, needs, demo(others.job)) == brief


def test_later_jobs_are_added_up_and_the_order_is_the_same() -> None:
    found = [needs for _, needs in NEEDS if needs.goes_ahead]
    ahead = Span(datetime.date.min, datetime.date.max)
    some = [again(summary, needs, None) for summary, needs in NEEDS if needs.goes_ahead][2:]
    every, added_up = restock(RECORDS, ahead, found), restock(RECORDS, ahead, [*found[:2], *some])
    for one, other in zip(every.lines, added_up.lines, strict=True):
        assert (one.need.low, one.need.high) == pytest.approx((other.need.low, other.need.high)), one.entry
        assert one.order is None or (other.order is not None and one.order.high == other.order.high)
    gloves = next(line.need for line in added_up.lines if line.entry == "gloves")
    assert isinstance(gloves, Computed)
    names = [name for name, _ in gloves.inputs]
    assert names == [*sorted((job.job for job in found[:2]), key=names.index), f"{len(some)} later jobs"]
    page = restock_page(Here(RECORDS, RESTOCK, as_of()), added_up)
    assert "Of the later ones the sum stands there" in page
    assert "later ones" not in restock_page(Here(RECORDS, RESTOCK, as_of()), every)
    assert all(f"sheets/{job.job}.html" in page for job in found)


def test_of_the_nearest_jobs_each_number_says_how_it_came_about(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    content = copy_content(tmp_path, tuple(needs.job for _, needs in NEEDS if needs.needs)[:2])
    whole = {needs.job: needs for needs in read_site(content, None, as_of()).gathered.needs}
    by_day = sorted((needs for needs in whole.values() if needs.needs), key=lambda needs: (needs.date, needs.job))
    assert len(by_day) > 1 and not any(needs.brief for needs in by_day)
    monkeypatch.setattr(site_module, "EXPLAINED", 1)
    near, *later = (needs.job for needs in by_day)
    for _ in range(2):
        found = {needs.job: needs for needs in read_site(content, None, as_of()).gathered.needs}
        assert found[near] == whole[near]
        assert all(found[job].brief and taken_by(found[job].needs) == taken_by(whole[job].needs) for job in later)
        assert {job: replace(needs, needs=(), brief=False) for job, needs in found.items()} == {
            job: replace(needs, needs=()) for job, needs in whole.items()
        }


def test_of_kept_jobs_the_nearest_alone_are_planned_for_the_order(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    content = copy_content(tmp_path, THREE_JOBS)
    planned: list[str] = []
    before = site_module.plan_one

    def noting(read: Any, *rest: Any) -> Any:
        planned.append(read.path.stem)
        return before(read, *rest)

    monkeypatch.setattr(site_module, "plan_one", noting)
    monkeypatch.setattr(site_module, "EXPLAINED", 1)
    first = read_site(content, None, as_of())
    asked_for = [needs.job for needs in first.gathered.needs]
    assert len(asked_for) > 1
    planned.clear()
    again = read_site(content, None, as_of())
    assert again.gathered.needs == first.gathered.needs
    assert len(planned) <= 2, "one job is shown on the pages of formulas, and one is explained"
