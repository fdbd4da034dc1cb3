"""In no sitting is a cartridge opened for less than the least time on file while one that is open there would do.

Common practice, from memory, as in `test_open_needles.py`: needles are opened by sitting, whatever the piece takes."""

from __future__ import annotations

import pytest

from generator.planning.plan import Work, booked_of
from generator.planning.working.reach import NARROW
from generator.quantities import written as quantity
from generator.records.families import Records
from tests.planning.demo import RECORDS, Written, job_of, part, planned, simple, with_limits

LIMIT = RECORDS.studio.limits.cartridge
assert LIMIT is not None
LEAST = LIMIT.least_work.low
# Of what is listed last, 5 % is too narrow for a magnum: 48 s at 0.3 cm² a minute.
LITTLE = {"ink": "rust", "area": "4.8 cm²", "narrowest": "3 mm"}
# Where a part is 4.2 mm wide and 3 mm at its narrowest, a magnum reaches 17 % of it: 51 s of 1.5 cm².
THIN = {"ink": "rust", "area": "1.5 cm²"}


def two_sittings(
    colours: list[Written], width: float = 80, records: Records = RECORDS, needle: str = "1215CM", **changes: object
) -> Work:
    """Two parts side by side with so much black each that each has a sitting of its own."""
    black = {"ink": "black-shade", "area": "45 cm²", "needle": needle, "narrowest": "20 mm"}
    lines = [{"needle": "1207RL", "length": "100 mm"}]
    parts = [
        part(name, (left, 20, width, 120), focal=focal, lines=lines, colours=[black, *colours], **changes)  # type: ignore[arg-type]
        for name, left, focal in (("one", 20, "yes"), ("two", 105, "no"))
    ]
    work = planned(simple(size="200 mm x 200 mm", parts=parts), records).work
    assert work is not None and len(work.sittings) == 2
    return work


def rust(work: Work) -> list[list[tuple[str, str]]]:
    """Where rust is worked with what, by sitting."""
    steps = [[work.steps[stint.number - 1] for stint in sitting.stints] for sitting in work.sittings]
    return [[(s.places, str(s.setting.grouping.id)) for s in here if s.ink.id == "rust"] for here in steps]


def test_each_sitting_does_what_is_little_in_it_with_a_needle_of_its_own() -> None:
    plum = {"ink": "plum", "area": "1 cm²", "needle": "1005RS"}
    first, second = rust(two_sittings([plum, LITTLE]))
    assert (NARROW, "1207RL") in first and (NARROW, "1005RS") in second
    always = rust(two_sittings([plum, LITTLE], records=with_limits(cartridge=None)))
    assert all((NARROW, "1214RS") in here for here in always)


def test_where_nothing_else_is_open_in_a_sitting_its_cartridge_is_opened_all_the_same() -> None:
    """No line is run in the second one, so that no liner is open there."""
    first, second = rust(two_sittings([LITTLE]))
    assert (NARROW, "1207RL") in first and (NARROW, "1214RS") in second


def test_what_is_much_in_its_sitting_keeps_its_needle() -> None:
    much = {**LITTLE, "area": "7 cm²"}
    assert LEAST <= 7 * 0.05 / 0.3
    assert all((NARROW, "1214RS") in here for here in rust(two_sittings([much])))


def test_two_rows_with_one_needle_in_one_sitting_are_one_and_times_follow() -> None:
    work = two_sittings([THIN], 4.2, needle="1209RS", narrowest="3 mm")
    assert [len(here) for here in rust(work)] == [1, 1]
    apart = two_sittings([THIN], 4.2, with_limits(cartridge=None), "1209RS", narrowest="3 mm")
    assert len(apart.steps) == len(work.steps) + 2
    assert work.timetable.working.high == pytest.approx(apart.timetable.working.high)
    assert [stint.number for sitting in work.sittings for stint in sitting.stints] == [*range(1, len(work.steps) + 1)]
    assert set(work.at_hand.tray.groupings) == {step.setting.grouping.id for step in work.at_hand.steps}


def test_a_step_that_is_parted_keeps_its_needle_and_the_day_is_booked_as_the_sheet_says() -> None:
    job = simple(
        size="200 mm x 200 mm",
        parts=[part("one", (20, 20, 80, 120), focal="yes", colours=[{"ink": "black-shade", "area": "75 cm²"}])],
    )
    ten = LIMIT.model_copy(update={"least_work": quantity("10 min")}) if LIMIT else None
    work = planned(job, with_limits(cartridge=ten)).work
    assert work is not None and {str(s.setting.grouping.id) for s in work.steps} == {"1207RL", "1215CM"}
    booked = booked_of(RECORDS, job_of(job))
    assert booked is not None and booked.ends == work.at_hand.timetable.done_between[1]
