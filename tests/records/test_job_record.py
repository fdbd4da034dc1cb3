"""The job record: short for what is common, with room for the rest."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.press.writing.examples import smallest_job
from generator.records.jobs import Job
from tests.planning.demo import CONTENT, JOBS, RECORDS, Written, changed, job_of, part, read, simple, written

OUTLINE = [["20 mm", "20 mm"], ["60 mm", "20 mm"], ["20 mm", "60 mm"]]
CROSSING = [["20 mm", "20 mm"], ["60 mm", "60 mm"], ["60 mm", "20 mm"], ["20 mm", "60 mm"]]


def one_mistake(job: Written) -> tuple[str, str]:
    """The code, and what stands on the line that it points at."""
    made, report = read(job)
    assert made is None and len(report) == 1, report
    lines = Path(report[0].place.file).read_text("utf-8").splitlines()
    return report[0].code, lines[report[0].place.line - 1].strip()


def test_a_piece_over_a_scar_is_written_in_under_forty_lines() -> None:
    lines = (CONTENT / "jobs" / "keepers-lantern.yml").read_text("utf-8").splitlines()
    assert job_of_file("keepers-lantern").scars and len(lines) < 40
    assert len(smallest_job(RECORDS).splitlines()) < 30
    short = [name for name in JOBS if len((CONTENT / "jobs" / f"{name}.yml").read_text("utf-8").splitlines()) < 40]
    assert len(short) > len(JOBS) / 2


def job_of_file(name: str) -> Job:
    return job_of(written(name))


def lamp(**shape: object) -> Written:
    made = {**part("lamp", focal="yes"), **shape}
    return simple(parts=[{key: value for key, value in made.items() if value is not None}])


@pytest.mark.parametrize(
    ("job", "code", "line"),
    [
        (simple(parts=[*lamp(box=None)["parts"], part("post")]), "R316", "- id: lamp"),
        (lamp(ellipse=["1 mm", "1 mm", "9 mm", "9 mm"]), "R317", "ellipse:"),
        (lamp(outline=OUTLINE), "R317", "outline:"),
        (lamp(box=None, outline=CROSSING), "R322", "outline:"),
        (lamp(box=None, outline=OUTLINE[:2]), "R303", "outline:"),
        (lamp(box=None, outline=[["1 mm", "1 mm"], ["5 mm", "5 mm"], ["9 mm", "9 mm"]]), "R322", "outline:"),
        (simple(last_worked="2027-04-01"), "R317", "last_worked: '2027-04-01'"),
        (simple(skin={}), "R316", "skin: {}"),
        (simple(skin={"measured": {"lightness": "65"}}), "R302", "lightness: '65'"),
        (simple(numbing=[{"product": "Brand 5", "by": "client", "on": "2027-05-12"}]), "R314", "- product: Brand 5"),
        (simple(existing_tattoos=[{"id": "o1"}]), "R316", "- id: o1"),
        (simple(longest="3"), "Q202", "longest: '3'"),
        (simple(pose_turned="360 °"), "Q208", "pose_turned: 360 °"),
    ],
)
def test_a_mistake_is_one_diagnostic_in_its_place(job: Written, code: str, line: str) -> None:
    found, shown = one_mistake(job)
    # A list is shown at its first line, which stands behind its key or under it.
    assert found == code and (shown.startswith(line) or (line.endswith(":") and shown.startswith("- ")))


@pytest.mark.parametrize("shape", [{"ellipse": ["20 mm", "20 mm", "40 mm", "40 mm"]}, {"outline": OUTLINE}])
def test_each_shape_is_enough(shape: Written) -> None:
    assert read(lamp(box=None, **shape))[0] is not None


def test_silence_is_kept_apart_from_none() -> None:
    for key in ("existing_tattoos", "numbing"):
        assert getattr(job_of(simple()), key) == ()
        for silent in (changed(simple(), key), changed(simple(), key, to="unknown")):
            assert getattr(job_of(silent), key) is None


def test_what_happened_may_say_what_ended_it_and_what_it_was_dressed_with() -> None:
    done = {
        "on": "2027-05-12",
        "took": "90 min",
        "lots": ["LB-7031"],
        "ended": "Done as drawn.",
        "stopped": "done",
        "dressing": "film",
    }
    assert job_of(simple(finished=done)).finished is not None
    assert one_mistake(simple(finished={**done, "stopped": "bored"}))[0] == "R307"


@pytest.mark.parametrize("key", ["scars", "moles", "allergies", "existing_tattoos", "numbing"])
def test_an_empty_list_says_not_that_there_is_none(key: str) -> None:
    assert one_mistake(simple(**{key: []}))[0] == "R303"
