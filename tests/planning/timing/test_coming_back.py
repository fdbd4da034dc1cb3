"""The days after a sitting carry the formula that gave them and the records they rest on."""

from __future__ import annotations

import itertools

from generator.planning.computed import Answered, Named, values_of
from generator.planning.timing.coming_back import touch_up
from tests.planning.demo import RECORDS, demo, planned
from tests.planning.timing.test_sittings import blocks, work_of


def test_each_day_is_what_its_formula_gives_for_its_inputs() -> None:
    seen = []
    for made in (demo("keepers-lantern"), planned(blocks(90, 90, 60, 90))):
        work = work_of(made)
        days: list[Answered[object]] = [work.touch_up, *(s.rested for s in work.sittings if s.rested is not None)]
        for day in days:
            assert day.function(**values_of(dict(day.inputs))) == day.answer
            assert all(operand.origin.keys for _, operand in day.inputs)
            seen.append(day.function.__name__)
        for before, after in itertools.pairwise(work.sittings):
            assert after.rested is not None and after.earliest == after.rested.answer
            done = dict(after.rested.inputs)["done"]
            assert isinstance(done, Named) and done.value == before.earliest
    assert set(seen) == {"touch_up_window", "next_sitting_earliest"}


def test_the_touch_up_names_the_limit_it_was_taken_from() -> None:
    job = demo("keepers-lantern").job
    for slow, name in ((False, "touch_up"), (True, "touch_up_slow")):
        window = touch_up(RECORDS, job, slow)
        assert {dict(window.inputs)[end].origin.path for end in ("first_weeks", "last_weeks")} == {
            f"studio.limits.{name}"
        }
    assert touch_up(RECORDS, job, True).answer > touch_up(RECORDS, job, False).answer
