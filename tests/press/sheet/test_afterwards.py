"""What happened on the day: on the job's own page, and in the plan as data."""

from __future__ import annotations

import datetime

import pytest

from generator.planning.as_json import plan_as_data
from generator.planning.for_lists import lots_of
from generator.press.sheet.afterwards import NOT_ON_FILE, afterwards_of
from generator.press.sheet.contents import sheet_of
from generator.press.sheet.printing import job_html
from generator.records.afterwards import STOPPED
from tests.planning.demo import JOBS, RECORDS, Written, demo, part, planned, simple

AS_OF = datetime.date(2027, 5, 1)
DONE = {
    "on": "2027-05-12",
    "took": "95 min",
    "lots": ["LB-7031", "NO-0000"],
    "stopped": "time",
    "worked": [{"technique": "lining", "took": "11 min"}, {"technique": "packing", "took": "9 min"}],
    "cartridges": [{"grouping": "1207RL", "lot": "C7-3301", "expires": "2029-03-31"}],
    "dressing": "Film, to stay on for a day",
    "ended": "The lamp is lined; its light is left to the next time.",
}


def finished(**changes: object) -> Written:
    done = {key: value for key, value in {**DONE, **changes}.items() if value is not None}
    block = part("block", (60, 60, 20, 20), role="filler", lines=None, colours=["wash-dark"])
    return simple(parts=[part("lamp", focal="yes"), block], finished=done)


def test_everything_that_was_written_down_is_shown() -> None:
    plan = planned(finished())
    page = job_html(RECORDS, plan, sheet_of(RECORDS, plan), AS_OF)
    afterwards = page[page.index('id="afterwards"') : page.index('id="map"')]
    for said in (
        "2027-05-12",
        "95\u00a0min",
        "the time was up",
        DONE["ended"],
        DONE["dressing"],
        "LB-7031",
        "NO-0000",
        "C7-3301, 1207RL",
    ):
        assert str(said) in afterwards
    assert '<a href="../reference/inks.html#inks-black-line">Line black</a>' in afterwards
    assert "NO-0000, on no bottle on file" in afterwards
    assert "until 2030-05-12 at least" in afterwards


def test_times_stand_beside_what_was_planned() -> None:
    made = afterwards_of(RECORDS, planned(finished()))
    assert made is not None
    shown = {technique: (planned, took) for technique, planned, took in made.times}
    # 300 mm at 1.5–2.5 cm a minute.
    assert shown["Lining"] == ("12–20\u00a0min", "11\u00a0min")
    assert shown["Packing"] == ("not planned", "9\u00a0min")
    assert shown["Soft shading"][1] == NOT_ON_FILE


def test_what_was_not_written_down_is_said_so() -> None:
    made = afterwards_of(RECORDS, planned(finished(stopped=None, dressing=None, worked=None)))
    assert made is not None
    said = dict(made.pairs)
    assert (said["Why it stopped"], said["Dressed with"]) == (NOT_ON_FILE, NOT_ON_FILE)


@pytest.mark.parametrize("stopped", STOPPED)
def test_every_reason_to_stop_has_words(stopped: str) -> None:
    made = afterwards_of(RECORDS, planned(finished(stopped=stopped)))
    assert made is not None and dict(made.pairs)["Why it stopped"] != NOT_ON_FILE


def test_the_plan_as_data_has_it_all() -> None:
    data = plan_as_data(planned(finished()))["afterwards"]
    assert (data["on"], data["stopped"], data["lots"]) == ("2027-05-12", "time", ["LB-7031", "NO-0000"])
    assert (data["ended"], data["dressing"]) == (DONE["ended"], DONE["dressing"])
    assert data["cartridges"] == DONE["cartridges"]
    assert data["took"]["value"] == 95 and data["took"]["record"] == "jobs.signal-lamp.finished.took"
    assert [(w["technique"], w["took"]["value"]) for w in data["worked"]] == [("lining", 11), ("packing", 9)]


def test_a_planned_job_has_no_afterwards() -> None:
    for name in JOBS:
        plan = demo(name)
        page = job_html(RECORDS, plan, sheet_of(RECORDS, plan), AS_OF)
        data = plan_as_data(plan)["afterwards"]
        assert ('id="afterwards"' in page) == (plan.job.finished is not None) == (data is not None)


def test_the_sheet_of_a_finished_job_is_a_record_and_no_plan() -> None:
    for name in JOBS:
        plan = demo(name)
        view = sheet_of(RECORDS, plan)
        if plan.job.finished is None:
            assert view.verdict == plan.verdict.heading
        else:
            assert view.verdict == f"Finished {plan.job.finished.on}" and plan.verdict.heading in view.meaning


def test_what_was_really_set_is_beside_what_was_planned_and_is_what_a_recall_looks_at() -> None:
    plan = planned(finished(steps=[{"step": "1", "needle": "1209RL", "dial": "90 Hz"}, {"step": "2"}]))
    made = afterwards_of(RECORDS, plan)
    assert made is not None and plan.work is not None
    ((step, was, used),) = made.steps
    assert step == "Step 1, lamp"
    assert was.startswith("1207RL, ") and used == "1209RL, 90\u00a0Hz"
    groupings = lots_of(RECORDS, plan).groupings
    assert "1209RL" in groupings and "1207RL" not in groupings


def test_a_corrected_lot_is_beside_the_wrong_one_and_a_recall_uses_the_right_one() -> None:
    right = {
        "on": "2027-05-12",
        "by": "quill",
        "why": "Read off the empty bottle.",
        "lot": "NO-0000",
        "right": "SB-6620",
    }
    plan = planned(finished(corrections=[right]))
    page = job_html(RECORDS, plan, sheet_of(RECORDS, plan), AS_OF)
    assert "NO-0000 is wrong, SB-6620 is right" in page and "2027-05-12, Quill: Read off the empty bottle." in page
    assert lots_of(RECORDS, plan).lots == ("LB-7031", "SB-6620")
