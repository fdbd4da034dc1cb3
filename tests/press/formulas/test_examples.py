"""Every formula is shown with the studio's own numbers, or says why not; and the numbers are the formula's own."""

from __future__ import annotations

import dataclasses
import datetime
import html
import itertools

import pytest

from generator.planning.computed import Computed, Named, Recorded
from generator.planning.supplies.restock import restock, span_ahead
from generator.press.explained.docstrings import documented, rooms
from generator.press.explained.results import in_words, kind_of, number_in_words
from generator.press.formulas.carried import applied_in, shows
from generator.press.formulas.examples import WITHOUT, TakenFrom, examples
from generator.press.formulas.pages import formula_pages, page_of
from generator.press.pages import generated_pages
from generator.press.words.estimates import ends_shown
from generator.quantities import significant
from generator.trade import clock, sterilization
from tests.planning.demo import RECORDS, demo, planned, simple
from tests.press.minimal import minimal

AS_OF = datetime.date(2027, 5, 1)
# What pages calculate besides: two jobs with a place that a grouping does not reach, and what is to be ordered.
BESIDES = (demo("brass-key"), demo("star-finder"), restock(RECORDS, span_ahead(RECORDS, AS_OF), []))
SHELF = TakenFrom(RECORDS, demo("keepers-lantern"), AS_OF, BESIDES)
PAGES = formula_pages(SHELF)
EXAMPLES = examples(SHELF)
FORMULAS = [(room, function) for room, (_, functions) in rooms().items() for function in functions]
# The demo studio works with single-use things only; a pace is learned from several jobs, here there is one.
NOTHING_ON_FILE = {sterilization.f0, sterilization.hold_against_cycle, clock.learned_factor}


def test_each_formula_is_taken_from_records_or_says_why_not() -> None:
    known = {function for _, function in FORMULAS}
    assert set(EXAMPLES) | set(WITHOUT) | NOTHING_ON_FILE == known
    assert not set(EXAMPLES) & set(WITHOUT)
    assert all(len(reason.split()) > 3 for reason in WITHOUT.values())


def test_the_demo_studio_shows_what_it_can() -> None:
    wrong = []
    for room, function in FORMULAS:
        done = EXAMPLES.get(function)
        page = PAGES[page_of(room)]
        if function in WITHOUT:
            right = done is None and WITHOUT[function][1:] in page
        elif function in NOTHING_ON_FILE:
            right = done is None and "No record to show it with." in page
        else:
            right = done is not None and done.words in html.unescape(page)
        if not right:
            wrong.append((room, function.__name__, done))
    assert wrong == []


def test_an_example_is_what_the_formula_answers() -> None:
    wrong = []
    for room, function in FORMULAS:
        done = EXAMPLES.get(function)
        if done is None:
            continue
        ends = [(o.value,) if isinstance(o, Named) else (o.low, o.high) for _, o in done.inputs]
        names = [name for name, _ in done.inputs]
        answers = [function(**dict(zip(names, corner, strict=True))) for corner in itertools.product(*ends)]
        unit = documented(function).gives.unit
        if all(isinstance(answer, int | float) and not isinstance(answer, bool) for answer in answers):
            low, high = significant(min(answers)), significant(max(answers))
            shown = ends_shown(Computed(low, high, kind_of(unit), function, done.inputs))
            words = number_in_words(*shown, unit, RECORDS)
        else:
            words = in_words(answers[0], unit, RECORDS)
        if done.words != words:
            wrong.append((room, function.__name__, done.words, words))
    assert wrong == []


def test_inputs_name_a_record_that_is_there() -> None:
    wrong, named = [], 0
    for room, function in FORMULAS:
        done = EXAMPLES.get(function)
        for name, operand in done.inputs if done else ():
            if isinstance(operand, Recorded | Named) and operand.origin.keys:
                family, *keys = operand.origin.keys
                named += 1
                if family not in ("studio", "jobs") and keys:
                    there = keys[0] in RECORDS.family(family)
                else:
                    there = family != "studio" or hasattr(RECORDS.studio.limits, keys[1])
                if not there:
                    wrong.append((room, function.__name__, name, operand.origin.keys))
    assert named > 100 and wrong == []


def test_no_example_names_a_demo_id() -> None:
    """The same shelf under other ids shows the same examples: nothing is looked up by name."""
    renamed = {
        f"x-{key}": grouping.model_copy(update={"id": f"x-{key}"}) for key, grouping in RECORDS.groupings.items()
    }
    techniques = {
        key: technique.model_copy(update={"usual_grouping": f"x-{technique.usual_grouping}"})
        for key, technique in RECORDS.techniques.items()
    }
    other = SHELF._replace(records=dataclasses.replace(RECORDS, groupings=renamed, techniques=techniques))
    there = examples(other)
    assert {f.__name__: done.words for f, done in EXAMPLES.items()} == {f.__name__: d.words for f, d in there.items()}


def test_a_studio_with_nothing_on_file_says_so() -> None:
    records = minimal()
    shelf = TakenFrom(records, None, AS_OF)
    assert examples(shelf) == {}
    pages = generated_pages(records, AS_OF)
    assert "No record to show it with." in pages["formulas/motion.md"]
    assert "No record to show it with" in pages["reference/swapping.md"]


def test_without_jobs_the_records_still_show_what_they_can() -> None:
    shelf = SHELF._replace(plan=None, pages=())
    shown = {function.__name__ for function in examples(shelf)}
    assert {"spacing", "tightest_bundle", "mix_for", "daily_exposure"} <= shown
    assert not {"wrap_angle", "lining_order", "line_minutes"} & shown


def test_what_a_client_answered_about_health_is_on_no_formula_page() -> None:
    job = SHELF.plan.job if SHELF.plan else None
    assert job is not None and job.scars
    text = "".join(PAGES.values())
    for scar in job.scars:
        assert scar.wound is not None
        assert f"{scar.wound.day:%Y-%m}" not in text


def test_what_a_plan_calculated_is_shown_with_the_plan_s_own_inputs() -> None:
    """Nobody chooses inputs for a formula that the plan of the job applied: the example is the plan's first value."""
    first: dict[object, object] = {}
    for function, inputs in applied_in(SHELF.plan):
        first.setdefault(function, tuple(inputs.items()))
    carried = {function for function in EXAMPLES if function in first}
    assert {"line_minutes", "wrap_angle", "spacing", "volts_for", "touch_up_window"} <= {f.__name__ for f in carried}
    for function in carried:
        assert EXAMPLES[function].inputs == first[function], function.__name__


def test_the_job_that_shows_most_is_kept() -> None:
    full, plain_one, stopped = demo("keepers-lantern"), planned(simple()), demo("orrery")
    assert shows(full) > shows(plain_one) >= 0
    assert shows(stopped) < 0


@pytest.mark.parametrize(("unit", "kind"), [("mm", "length"), ("degrees", "angle"), ("points", "number")])
def test_units_of_docstrings(unit: str, kind: str) -> None:
    assert kind_of(unit) == kind


@pytest.mark.parametrize(
    ("low", "high", "unit", "words"),
    [
        (35.28, 35.28, "points", "35.3\u00a0points"),
        (0.0, 3.0, "-", "0–3"),
        (0.371, 0.371, "fraction", "37\u00a0%"),
        (5000.0, 5000.0, "ppm", "5000\u00a0ppm"),
        (1234.5, 1234.5, "-", "1230"),
        # A unit in whose name another word is hidden is a unit.
        (3.0, 3.0, "updates", "3\u00a0updates"),
        (3.0, 3.0, "date", "3"),
    ],
)
def test_numbers_in_words(low: float, high: float, unit: str, words: str) -> None:
    assert number_in_words(low, high, unit, RECORDS) == words


def test_many_places_are_cut_short() -> None:
    assert in_words(tuple((float(n), 0.0) for n in range(9)), "-", RECORDS).endswith("9 in all")
    assert in_words((), "mm", RECORDS) == "none"
    assert in_words({}, "mm", RECORDS) == "none"


def test_what_stands_in_two_places_is_found_once() -> None:
    found = demo("tide-table")
    once = [applied.inputs for applied in applied_in(found)]
    assert len(once) > 50
    assert [applied.inputs for applied in applied_in((found, found.work, (found,)))] == once
