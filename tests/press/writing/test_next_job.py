"""A job that follows another: what stays true is there, what may be otherwise is asked about anew."""

from __future__ import annotations

import datetime
import re
from pathlib import Path

import pytest
import yaml

from generator.planning.plan import JobPlan
from generator.planning.working.steps import LINES
from generator.press.sheet.contents import sheet_of
from generator.press.writing.next_job import Follows, next_job
from generator.records.jobs import Job
from tests.planning.demo import JOBS, RECORDS, Written, job_of, part, planned, read, scar, simple, written

LATER = {"date": "2027-06-30", "start": "11:00"}
CAPITALS = re.compile(r"\b[A-Z]{3,}\b")


def filled(before: Job, follows: Follows, **filled_in: object) -> Written:
    """What the new file says, with the day written in and more."""
    text = next_job(RECORDS, before, "later-lamp", follows)
    made: Written = yaml.load(text, Loader=yaml.CBaseLoader)
    assert made.pop("draft") == "yes"
    return {**made, **LATER, **filled_in}


def done(**changes: object) -> Job:
    """A finished piece over a scar, beside a mole, of a client with an allergy."""
    finished = {"on": "2027-04-12", "took": "90 min", "lots": ["LB-7031"], "ended": "Lines and black done."}
    kept: Written = {
        "date": "2027-04-12",
        "screening": {"asked": "2027-04-10", "answers": "all clear"},
        "allergies": ["adhesive"],
        "scars": [scar(wound="before 2016")],
        "moles": [{"at": ["90 mm", "90 mm"], "keep": "9 mm"}],
        "skin": {"tone": "tan"},
        "parts": [part("lamp", focal="yes", colours=[{"ink": "black-shade", "area": "4 cm²"}])],
        "drawing": {"code": "D-0900", "version": "2"},
        "finished": finished,
    }
    return job_of(simple(**{**kept, **changes}))


@pytest.mark.parametrize("follows", list(Follows))
def test_what_stays_true_is_copied_and_the_rest_is_asked(follows: Follows) -> None:
    before = done()
    made = filled(before, follows)
    for key in ("client", "artist", "place", "side", "skin"):
        assert made[key] == written_of(before)[key]
    assert made["allergies"] == [{"to": "adhesive", "told": "2027-04-10"}]
    for key in ("screening", "existing_tattoos", "numbing"):
        assert made[key] == "unknown"
    (old,) = made["scars"]
    assert (old["id"], old["wound"], old["type"]) == ("s1", "before 2016-01-01", "flat")
    assert not old.keys() & {"colour", "feel", "itch", "pain", "growth"}
    same = follows is not Follows.ANOTHER_PIECE
    assert (old["from"] == ["2 mm", "5 mm"]) is same and ("wish" in old) is same
    assert (made["moles"][0]["at"] == ["90 mm", "90 mm"]) is same
    assert "finished" not in made and ("drawing" in made) is same and ("last_worked" in made) is same


def written_of(job: Job) -> Written:
    return {"client": job.client, "artist": job.artist, "place": job.place, "side": job.side, "skin": {"tone": "tan"}}


def test_that_there_was_none_says_nothing_of_today() -> None:
    made = filled(done(allergies="none"), Follows.NEXT_SITTING)
    assert made["allergies"] == "unknown"
    assert filled(done(screening="unknown"), Follows.NEXT_SITTING)["allergies"] == "unknown"
    # Another piece lies elsewhere, where nobody looked; the same piece lies where it did.
    for follows in Follows:
        made = filled(done(scars="none", moles="none"), follows)
        found = "unknown" if follows is Follows.ANOTHER_PIECE else "none"
        assert (made["scars"], made["moles"]) == (found, found), follows


def test_an_allergy_that_was_named_too_long_ago_is_asked_about() -> None:
    valid = RECORDS.studio.limits.screening_valid
    for told, asks in (("2027-05-05", False), ("2027-04-05", True)):
        made = planned(simple(allergies=[{"to": "adhesive", "told": told}]))
        old = (made.job.date - datetime.date.fromisoformat(told)).days > valid.low
        assert any(f.asks and f.about == "allergies" for f in made.findings) is asks is old


@pytest.mark.parametrize("follows", [Follows.NEXT_SITTING, Follows.TOUCH_UP])
def test_of_every_demo_job_only_what_is_left_in_capitals_is_a_mistake(follows: Follows) -> None:
    wrong = []
    for name in JOBS:
        text = next_job(RECORDS, job_of(written(name)), "later-lamp", follows)
        left = {at.group() for line in text.split("\n") for at in CAPITALS.finditer(line.partition("#")[0])}
        left -= set(re.findall(r"[A-Z]{3,}", " ".join(re.findall(r"\b[\w-]*\d[\w-]*", text))))
        report = read(yaml.load(text, Loader=yaml.CBaseLoader))[1]
        if {d.found.strip("“”") for d in report} - {"something else", *left}:
            wrong.append((name, [d.found for d in report]))
    assert wrong == []


def again(**changes: object) -> JobPlan:
    """The touch-up of the finished piece, with every answer in."""
    answers = {"screening": {"asked": "2027-05-12", "answers": "all clear"}, "allergies": "none"}
    clear = {"existing_tattoos": "none", "numbing": "none", "scars": "none", "moles": "none"}
    made = filled(done(), Follows.TOUCH_UP, **answers, **clear)
    return planned({**made, "date": "2027-06-10", **changes})


FILL = [part("lamp", focal="yes", colours=[{"ink": "black-shade", "area": "2 cm²"}], lines=None)]


def test_a_touch_up_says_so_and_what_was_worked_and_has_no_stencil_without_lines() -> None:
    made = again(parts=FILL)
    assert made.work is not None and made.work.at_hand.timetable.stencil is None
    said = {pair.label: pair.value for pair in sheet_of(RECORDS, made).head}
    assert said["Sitting"] == "touch-up" and said["Worked already"] == "2027-04-12: Lines and black done."
    boxes = [box.text for at in made.work.checklist for box in at.boxes]
    assert any(box.startswith("Healed where it was worked") for box in boxes)
    assert not any("Stencil" in box for box in boxes)
    assert not any(counted.supply.for_stencil for counted in made.work.tray.supplies)
    lined = again(parts=[part("lamp", focal="yes")])
    assert lined.work is not None and {step.section for step in lined.work.steps} == {LINES}
    assert lined.work.at_hand.timetable.stencil is not None


def test_a_touch_up_waits_until_the_skin_has_healed_and_asks_when_that_was() -> None:
    limits = RECORDS.studio.limits
    soon = again(parts=FILL, date="2027-05-20", last_worked="2027-04-12")
    assert soon.work is None and soon.verdict.state.value == "wait until"
    assert soon.verdict.until is not None and (soon.verdict.until - done().date).days == limits.touch_up.low
    unknown = again(parts=FILL, last_worked="none")
    assert unknown.work is None and any(f.about == "last_worked" and f.asks for f in unknown.findings)


def test_a_walk_in_takes_twenty_lines_and_nothing_of_it_is_clear_by_default() -> None:
    file = Path(__file__).parents[3] / "content" / "jobs" / "brass-key.yml"
    assert len(file.read_text("utf-8").splitlines()) <= 20
    key = written("brass-key")
    assert planned(key).verdict.level == "clear"
    cleared = []
    for answer in ("screening", "allergies", "scars", "moles", "existing_tattoos", "numbing"):
        without = planned({name: value for name, value in key.items() if name != answer})
        if without.verdict.settled:
            cleared.append(answer)
    assert cleared == []


def test_a_part_alone_takes_the_size_of_the_piece_and_two_need_shapes() -> None:
    alone = {key: value for key, value in part("lamp", focal="yes").items() if key != "box"}
    job = job_of(simple(parts=[alone]))
    assert job.parts[0].box is not None and [side.low for side in job.parts[0].box] == [0, 0, 100, 100]
    _, report = read(simple(parts=[alone, {**alone, "id": "post"}]))
    assert [d.code for d in report] == ["R316", "R316"]
    _, report = read(simple(parts=[alone], size="SIZE"))
    assert "R315" in [d.code for d in report]
