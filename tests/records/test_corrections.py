"""What was written down wrongly of a finished job is corrected beside the old value; what is changed is noticed."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from generator.planning.as_json import plan_as_data
from generator.planning.for_lists import lots_of
from generator.planning.timing.coming_back import worked_on
from generator.planning.timing.learning import times_of
from generator.press.sheet.afterwards import afterwards_of
from generator.press.sheet.frozen import Frozen, changed_since, read_frozen
from generator.records.jobs import Job
from tests.planning.demo import CONTENT, RECORDS, Written, job_of, planned, read, written

TOOK = written("diving-bell")["finished"]["took"]
WHO = {"on": "2027-05-10", "by": "quill", "why": "The paper says so."}


def bell(*corrections: Written, **finished: Any) -> Written:
    """A finished job of the demo, with what somebody corrected or changed."""
    made = written("diving-bell")
    own = made["finished"]["corrections"]
    made["finished"] = {**made["finished"], "corrections": [*own, *corrections], **finished}
    return made


def right(of: str, right: str) -> Written:
    return {**WHO, "of": of, "right": right}


def frozen() -> Frozen:
    kept, report = read_frozen(CONTENT / "jobs" / "diving-bell.worked.json")
    job = job_of(written("diving-bell"))
    assert kept is not None and not report and job.finished is not None
    return replace(kept, told=job.finished.written)


def test_every_value_is_corrected_and_the_old_one_stays() -> None:
    ways = {
        "on": "2027-03-10",
        "took": "300 min",
        "stopped": "skin",
        "dressing": "Gauze",
        "ended": "Left early.",
        "worked.lining": "61 min",
        "steps.3.dial": "90 Hz",
        "steps.4.needle": "1207RL",
        "cartridges.1207RL.expires": "2029-05-31",
        "cartridges.1205RL": "C5-0001",
    }
    made = job_of(bell(*(right(way, value) for way, value in ways.items())))
    assert made.finished is not None
    was, now = made.finished, made.finished.as_corrected
    assert (was.took.text, now.took.text) == (TOOK, "300 min")
    assert (now.stopped, now.dressing, now.ended) == ("skin", "Gauze", "Left early.")
    assert {str(one.technique): one.took.text for one in now.worked}["lining"] == "61 min"
    dials = {one.number: one.dial.text for one in now.steps if one.dial is not None}
    assert dials[3] == "90 Hz" and {one.number: one.needle for one in now.steps}[4] == "1207RL"
    boxes = {str(one.grouping): one for one in now.cartridges}
    assert boxes["1207RL"].expires is not None and boxes["1207RL"].expires.isoformat() == "2029-05-31"
    assert boxes["1205RL"].lot == "C5-0001" and boxes["1207RL"].lot == "C7-3301"
    assert worked_on(made).isoformat() == "2027-03-10"
    told = afterwards_of(RECORDS, planned(bell(*(right(way, value) for way, value in ways.items()))))
    assert told is not None
    said = dict(told.pairs)
    assert said["Seat to door"].startswith(TOOK.partition(" ")[0])
    assert sum(label.endswith(" corrected") for label in said) == 1 + len(ways)
    right_now = said["Seat to door corrected"]
    assert right_now.startswith(f"{TOOK} is wrong, 300 min is right; ")
    assert right_now.endswith(", Quill: The paper says so.")


def test_the_pace_is_learned_from_what_is_right() -> None:
    times = {timed.technique: timed.took for timed in times_of(RECORDS, job_of(bell(right("worked.lining", "61 min"))))}
    assert times["lining"] == 61


def test_what_was_really_set_is_in_the_data_and_in_a_recall() -> None:
    made = planned(bell(right("steps.3.needle", "1205RL")))
    data = plan_as_data(made)["afterwards"]
    (third,) = [step for step in data["steps"] if step["step"] == 3]
    assert third["needle"] == "1205RL" and third["dial"]["value"] == 85
    assert [one.get("of", one.get("lot")) for one in data["corrections"]] == ["C9-0762", "steps.3.needle"]
    assert "1205RL" in lots_of(RECORDS, made).groupings


@pytest.mark.parametrize(
    ("correction", "code"),
    [
        (right("takes", "240 min"), "R352"),
        (right("worked", "240 min"), "R352"),
        (right("steps.3", "90 Hz"), "R352"),
        (right("took", "240"), "Q202"),
        (right("worked.lining", "long"), "Q201"),
        (right("worked.linning", "20 min"), "L401"),
        (right("took", "20 min"), "R324"),
        ({**WHO, "right": "240 min"}, "R316"),
        ({**right("took", "300 min"), "lot": "LB-7031"}, "R316"),
    ],
)
def test_what_is_right_is_checked_as_what_was_written_is(correction: Written, code: str) -> None:
    job, report = read(bell(correction))
    assert job is None and [d.code for d in report] == [code], report


def changed(**finished: Any) -> Job:
    return job_of(bell(**finished))


def test_a_line_changed_by_hand_is_named_with_how_to_correct_it() -> None:
    assert not list(changed_since(changed(), frozen()))
    assert not list(changed_since(job_of(bell(right("took", "300 min"))), frozen()))
    for finished, way in (
        ({"took": "301 min"}, "took"),
        ({"ended": "Left early."}, "ended"),
        ({"lots": ["LB-7031"]}, "lots"),
        ({"steps": []}, "steps.3.dial"),
    ):
        found = list(changed_since(changed(**finished), frozen()))
        assert {d.code for d in found} == {"J641"} and f"`{way}`" in found[0].message
        assert "under `corrections`" in found[0].help
    assert not list(changed_since(changed(took="301 min"), replace(frozen(), told=())))
