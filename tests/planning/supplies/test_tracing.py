"""Which jobs a lot went into: nothing is left out, and what nobody wrote down is asked."""

from __future__ import annotations

import dataclasses
import datetime
import gc
import sys

from hypothesis import given
from hypothesis import strategies as st

from generator.planning.for_lists import lots_of
from generator.planning.supplies.tracing import (
    GROUPINGS,
    INKS,
    OTHER,
    JobLots,
    Thing,
    Trace,
    letters_of,
    matching,
    traces,
)
from generator.planning.supplies.tray import good_until
from generator.records.inks import Lot
from tests.planning.demo import JOBS, RECORDS, demo, with_entry

DAY = datetime.date(2027, 4, 2)


def job(number: int = 1, **changes: object) -> JobLots:
    said: dict[str, object] = {
        "job": f"lamp-{number}",
        "client": f"R-09{number:02}",
        "date": DAY,
        "finished": True,
        "lots": ("LB-7031",),
        "cartridges": (),
        "inks": ("black-line",),
        "groupings": ("1207RL",),
        **changes,
    }
    return JobLots(**said)  # type: ignore[arg-type]


def trace(found: list[Trace], *thing: str) -> Trace:
    (one,) = (trace for trace in found if trace.thing == Thing(*thing))
    return one


def names(jobs: list[JobLots]) -> list[str]:
    return [one.job for one in jobs]


def test_a_finished_job_stands_under_each_of_its_lots_and_inks() -> None:
    found = traces(RECORDS, [job(1), job(2, lots=("SB-6620", "LB-7031"), inks=("black-line", "black-shade"))])
    assert names(trace(found, INKS, "black-line", "lb7031").used) == ["lamp-1", "lamp-2"]
    assert names(trace(found, INKS, "black-line").used) == ["lamp-1", "lamp-2"]
    assert names(trace(found, INKS, "black-shade", "sb6620").used) == ["lamp-2"]
    assert names(trace(found, GROUPINGS, "1207RL").used) == ["lamp-1", "lamp-2"]
    assert trace(found, INKS, "black-line").unsure == []


def test_an_ink_without_a_lot_on_file_is_asked_about() -> None:
    found = traces(RECORDS, [job(n, inks=("black-line", "amber")) for n in range(3)])
    assert len(trace(found, INKS, "amber").unsure) == len(trace(found, INKS, "amber").used) == 3
    assert trace(found, INKS, "black-line").unsure == []
    assert len(trace(found, GROUPINGS, "1207RL").unsure) == 3


def test_the_spelling_of_a_lot_hides_no_client() -> None:
    found = traces(RECORDS, [job(1, lots=("lb 7031",)), job(2, lots=("LB7031",)), job(3)])
    one = trace(found, INKS, "black-line", "lb7031")
    assert names(one.used) == ["lamp-1", "lamp-2", "lamp-3"]
    assert list(one.spelled) == ["LB-7031", "lb 7031", "LB7031"]
    assert matching(found, " Lb/7031") == [one]


def test_a_lot_that_no_ink_on_file_names_is_still_found() -> None:
    found = traces(RECORDS, [job(1, lots=("ZZ-1",))])
    assert names(trace(found, OTHER, "", "zz1").used) == ["lamp-1"]
    # It may have been the black: that is not known.
    assert names(trace(found, INKS, "black-line").unsure) == ["lamp-1"]


def test_two_inks_that_share_a_lot() -> None:
    amber = RECORDS.inks["amber"]
    records = with_entry("inks", "plum", lots=(amber.lots[0],))
    lot = letters_of(amber.lots[0].lot)
    found = traces(records, [job(1, lots=(amber.lots[0].lot,), inks=("plum",)), job(2, lots=(amber.lots[0].lot,))])
    assert names(trace(found, INKS, "plum", lot).used) == ["lamp-1", "lamp-2"]
    # A job that used neither by its drawing counts for both: one client too many is asked.
    assert names(trace(found, INKS, "amber", lot).used) == ["lamp-2"]


def test_cartridges_have_lots_by_grouping() -> None:
    found = traces(RECORDS, [job(1, cartridges=(("1207RL", "C7-1"),)), job(2)])
    assert names(trace(found, GROUPINGS, "1207RL", "c71").used) == ["lamp-1"]
    assert names(trace(found, GROUPINGS, "1207RL").unsure) == ["lamp-2"]


def test_a_planned_job_is_laid_out_with_the_bottles_in_date_on_its_day() -> None:
    ink = RECORDS.inks["black-line"]
    last = max(good_until(ink, lot) for lot in ink.lots)
    found = traces(RECORDS, [job(1, finished=False, lots=()), job(2, finished=False, lots=(), date=last)])
    late = {letters_of(lot.lot) for lot in ink.lots if good_until(ink, lot) >= last}
    for lot in ink.lots:
        planned = names(trace(found, INKS, ink.id, letters_of(lot.lot)).planned)
        assert ("lamp-2" in planned) == (letters_of(lot.lot) in late)
        assert "lamp-1" in planned
    assert trace(found, INKS, ink.id).used == []


def test_every_demo_job_leaves_its_lots() -> None:
    for name in JOBS:
        plan = demo(name)
        left = lots_of(RECORDS, plan)
        assert left.client == plan.job.client and left.finished == (plan.job.finished is not None)
        assert left.inks and left.groupings
        if plan.work is not None:
            assert list(left.groupings) == list(plan.work.tray.groupings)
        washes = [ink for ink in left.inks if RECORDS.inks[ink].mixed is not None]
        assert washes == []


def test_a_job_that_may_not_go_ahead_is_traced_too() -> None:
    stopped = next(demo(name) for name in JOBS if demo(name).work is None)
    # Its steps are those of the plan: nothing is needed to work them out anew.
    left = lots_of(dataclasses.replace(RECORDS, techniques={}), stopped)
    assert left.inks and left.groupings == tuple(dict.fromkeys(s.setting.grouping.id for s in stopped.steps))


def test_what_a_job_leaves_behind_is_small() -> None:
    """An archive of 30,000 jobs is held at once: less than 2 kB each, 60 MB in all."""
    left = lots_of(RECORDS, demo("keepers-lantern"))
    seen: set[int] = set()

    def size(value: object) -> int:
        if id(value) in seen:
            return 0
        seen.add(id(value))
        inner = gc.get_referents(value) if isinstance(value, tuple | JobLots) else []
        return sys.getsizeof(value) + sum(size(one) for one in inner if not isinstance(one, type))

    assert size(left) < 2000


@given(st.lists(st.tuples(st.sampled_from(["LB-7031", "SB-6620", "ZZ-1", "lb7031"]), st.booleans()), max_size=8))
def test_no_finished_job_is_ever_lost(given_jobs: list[tuple[str, bool]]) -> None:
    jobs = [job(n, lots=(lot,), finished=done) for n, (lot, done) in enumerate(given_jobs)]
    found = traces(RECORDS, jobs)
    for one in jobs:
        if one.finished:
            assert any(one in trace.used for trace in matching(found, one.lots[0]))
            assert one in trace(found, INKS, "black-line").used
        else:
            assert all(one not in trace.used for trace in found)


def test_a_lot_without_letters_or_digits_is_compared_as_it_stands() -> None:
    assert letters_of("--") == "--" and letters_of("L-22/91 b") == "l2291b"
    assert isinstance(RECORDS.inks["amber"].lots[0], Lot)
