"""Knowing less never allows more, and knowing something bad never allows more, for random jobs."""

from __future__ import annotations

import datetime
import itertools

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from generator.planning.findings.existing_tattoos import QUESTIONS
from generator.planning.findings.skin import ITEMS
from generator.planning.plan import JobPlan
from generator.records.rules import Question
from generator.records.skin import AFTER, COLOURS, DARKNESSES, EXISTING_TATTOO_WISHES, FEELS, TYPES, WISHES
from tests.planning import permissive
from tests.planning.demo import (
    JOBS,
    RECORDS,
    Written,
    changed,
    explicit_answers,
    part,
    planned,
    scar,
    simple,
    try_plan,
    written,
)
from tests.planning.permissive import more_permissive
from tests.planning.random_jobs import days_before, existing_tattoos, jobs, moles, numbing, scars, without_one_answer

# A job takes longer than a number, so there are fewer of them. The gate gives the same answer twice; a long search
# finds new jobs.
often = settings(
    max_examples=settings.default.max_examples * 3 // 10,
    derandomize=settings.get_current_profile_name() == "gate",
    database=None,
    suppress_health_check=list(HealthCheck),
)
many = settings(often, max_examples=often.max_examples * 4)

# A job that cannot be planned at all allows nothing.
NOTHING = (9, datetime.date.max)


def rank(job: Written) -> tuple[int, datetime.date]:
    made: JobPlan | None = try_plan(job)[0]
    if made is None:
        return NOTHING
    assert (made.work is not None) == made.verdict.goes_ahead
    return permissive.rank(made.verdict)


def plannable(job: Written) -> tuple[int, datetime.date]:
    before = rank(job)
    assert before != NOTHING, try_plan(job)[1]
    return before


@often
@given(jobs())
def test_taking_any_answer_away_never_allows_more(job: Written) -> None:
    whole = planned(job)
    for what, poorer in without_one_answer(job):
        assert more_permissive(whole, try_plan(poorer)[0]) == [], what


@many
@given(jobs(), st.data())
def test_taking_several_answers_away_never_allows_more(job: Written, data: st.DataObject) -> None:
    before = plannable(job)
    for _ in range(3):
        if not (left := list(without_one_answer(job))):
            return
        what, job = data.draw(st.sampled_from(left))
        now = rank(job)
        assert now >= before, what
        if now == NOTHING:
            return
        before = now


# Every kind of answer that a demo job has is in one of these; at night it is taken away from all jobs.
EVERY_KIND = ("tide-table", "stairwell", "steam-boiler", "clock-tower", "keepers-lantern")


@pytest.mark.parametrize("names", [EVERY_KIND, pytest.param(JOBS, marks=pytest.mark.nightly)], ids=["some", "all"])
def test_taking_any_answer_of_a_demo_job_away_never_allows_more(names: tuple[str, ...]) -> None:
    """No verdict, no time, no tray and nothing that is said; and what nobody answered is never worked."""
    wrong, tried = [], set()
    for name in names:
        job = written(name)
        whole = planned(job)
        for what, poorer in without_one_answer(job, each_question=name == "tide-table"):
            tried.add(what)
            made = try_plan(poorer)[0]
            wrong += [(name, what, more) for more in more_permissive(whole, made)]
            # No rule of the demo looks at a clinician's score, so that nobody asks for one.
            if made is not None and made.verdict.goes_ahead and what != "scar 0 without scale":
                wrong.append((name, what, "is worked"))
    assert wrong == []
    assert {"no scars", "scar 0 without wound", "mole 0 without keep", "no allergies", "no answers"} <= tried
    assert len(tried) > 90
    assert tried == {
        what for name in JOBS for what, _ in without_one_answer(written(name), each_question=name == "tide-table")
    }


def test_taking_a_measured_gap_or_narrowest_place_away_never_allows_more_and_is_asked() -> None:
    """Of the demo's parts, and of a part whose narrowest place is narrow, wide or between the two."""
    wrong = []
    cases = [(name, written(name)) for name in JOBS]
    inks = [{"ink": ink, "area": "6 cm²"} for ink in ("wash-mid", "black-shade", "rust", "white")]
    for role in ("main", "lettering"):
        for narrowest in ("1 mm", "3 mm", "9 mm", "30 mm"):
            block = part("block", (0, 0, 60, 60), focal="yes", role=role, narrowest=narrowest, colours=inks)
            cases.append((f"{role} {narrowest}", simple(parts=[block])))
    for name, job in cases:
        for number, one in enumerate(job["parts"]):
            for key in {"gap", "narrowest"} & one.keys():
                made = try_plan(changed(job, "parts", number, key))[0]
                wrong += [(name, one["id"], key, more) for more in more_permissive(planned(job), made)]
                needed = key == "gap" and "lines" in one
                if (
                    needed
                    and made is not None
                    and not any(f.about.endswith(f".{key}") and f.asks for f in made.findings)
                ):
                    wrong.append((name, one["id"], key, "is not asked"))
    assert wrong == []


CHOICES = {
    "type": TYPES,
    "after": AFTER,
    "colour": COLOURS,
    "feel": FEELS,
    "wish": WISHES,
    "itch": ("yes", "no"),
    "pain": ("yes", "no"),
    "growth": ("yes", "no"),
    "height": ("0 mm", "1 mm", "2 mm", "1–3 mm"),
    "wound": ("2017-06", "2025-12", "2026-09", "2027-05", "before 2015", "before 2026-09", "before 2027-05"),
}


@pytest.mark.parametrize("crossing", [True, False])
@pytest.mark.parametrize("key", list(CHOICES))
def test_no_word_about_a_scar_is_worse_than_silence(key: str, crossing: bool) -> None:
    """Every item with every word it may have, alone and on a raised or an itching scar."""
    assert set(CHOICES) == {key for key, _, _ in ITEMS}
    ends = {"from": ["30 mm", "40 mm"], "to": ["50 mm", "40 mm"]} if crossing else {}
    besides: list[Written] = [{}, {"type": "raised"}, {"itch": "yes"}, {"wish": "leave"}, {"width": "2–4 mm"}]
    for word, more in itertools.product(CHOICES[key], besides):
        told = simple(scars=[scar(**{**ends, **more, key: word})])
        for silent in (changed(told, "scars", 0, key), changed(told, "scars", 0, key, to="unknown")):
            assert rank(silent) >= plannable(told), (word, more)


@many
@given(jobs(), scars("s9"))
def test_another_scar_never_allows_more(job: Written, another: Written) -> None:
    if "scars" not in job:
        return  # to say at last that there is a scar is an answer, not another scar
    before = plannable(job)
    there = [] if job["scars"] == "none" else job["scars"]
    assert rank(changed(job, "scars", to=[*there, another])) >= before


@many
@given(jobs(), moles)
def test_another_mole_never_allows_more(job: Written, another: Written) -> None:
    if "moles" not in job:
        return
    before = plannable(job)
    there = [] if job["moles"] == "none" else job["moles"]
    assert rank(changed(job, "moles", to=[*there, another])) >= before


@many
@given(jobs(), st.sampled_from(list(RECORDS.screening.values())), st.data())
def test_a_bad_answer_for_a_clear_one_never_allows_more(job: Written, question: Question, data: st.DataObject) -> None:
    told = job
    if "screening" not in job:
        return
    if job["screening"]["answers"] == "all clear":
        told = explicit_answers(job)
    answers = told["screening"]["answers"]
    name, clear = str(question.id), question.clear
    if answers.get(name) != clear:
        return
    worse = data.draw(st.one_of(st.just("no" if clear == "yes" else "yes"), days_before))
    assert rank(changed(told, "screening", "answers", name, to=worse)) >= plannable(told)


@many
@given(jobs(), st.sampled_from(["latex", "adhesive", "fragrance", "lanolin", "nickel", "propolis"]))
def test_another_allergy_never_allows_more(job: Written, allergy: str) -> None:
    if "allergies" not in job:
        return
    before = plannable(job)
    there = [] if job["allergies"] == "none" else job["allergies"]
    assert rank(changed(job, "allergies", to=[*there, allergy])) >= before


@often
@given(jobs())
def test_writing_all_clear_out_changes_nothing(job: Written) -> None:
    if "screening" in job and job["screening"]["answers"] == "all clear":
        assert rank(explicit_answers(job)) == plannable(job)


@many
@given(jobs(), existing_tattoos("o9"))
def test_more_existing_tattoos_never_allows_more(job: Written, another: Written) -> None:
    if "existing_tattoos" not in job:
        return
    before = plannable(job)
    there = [] if job["existing_tattoos"] == "none" else job["existing_tattoos"]
    assert rank(changed(job, "existing_tattoos", to=[*there, another])) >= before


@many
@given(jobs(), numbing)
def test_another_numbing_product_never_allows_more(job: Written, another: Written) -> None:
    if "numbing" not in job:
        return
    before = plannable(job)
    there = [] if job["numbing"] == "none" else job["numbing"]
    assert rank(changed(job, "numbing", to=[*there, another])) >= before


@pytest.mark.parametrize("crossing", [True, False])
def test_no_word_about_existing_tattoos_is_worse_than_silence(crossing: bool) -> None:
    words = {
        "darkness": DARKNESSES,
        "wish": EXISTING_TATTOO_WISHES,
        "laser": ("none", ["2020-01-01"], ["2027-05-12"]),
    }
    assert set(words) == {key for key, _ in QUESTIONS}
    box = [f"{side} mm" for side in ((30, 30, 10, 10) if crossing else (80, 80, 10, 10))]
    for darkness, wish, laser in itertools.product(*words.values()):
        told = simple(existing_tattoos=[{"id": "o1", "box": box, "darkness": darkness, "wish": wish, "laser": laser}])
        for key in words:
            for silent in (
                changed(told, "existing_tattoos", 0, key),
                changed(told, "existing_tattoos", 0, key, to="unknown"),
            ):
                assert rank(silent) >= plannable(told), (darkness, wish, laser, key)


@pytest.mark.parametrize("last", ["2027-05-12", "2027-05-11", "2027-04-14", "2020-01-01"])
def test_no_day_of_the_last_sitting_is_worse_than_silence(last: str) -> None:
    told = simple(sitting="2", last_worked=last)
    for word in (None, "unknown", "none"):
        assert rank(changed(told, "last_worked", to=word)) >= plannable(told), word
