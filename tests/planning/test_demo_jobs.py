"""Each demo job has the verdict and the findings that it was made for, and between them they show the trade."""

from __future__ import annotations

import datetime
from typing import NamedTuple

import pytest

from generator.planning.findings.verdict import Level
from generator.planning.timing.sittings import split_into_sittings
from generator.records.jobs import Job
from generator.records.reading import read_records
from tests.learned import learn_from
from tests.planning.demo import CONTENT, JOBS, RECORDS, demo, steps_of, written


class Made(NamedTuple):
    """What a demo job was made for: its heading, and its findings by level, what they are about, and the rule."""

    heading: str
    findings: frozenset[tuple[Level, str, str]] = frozenset()


def _with(heading: str, *findings: tuple[Level, str, str]) -> Made:
    return Made(heading, frozenset(findings))


CROSSED: tuple[Level, str, str] = ("care", "scars.s1", "scar-rules.scar-crossed")
SIDE_ON: tuple[Level, str, str] = ("note", "size", "studio.limits.seen_flat")
UNWISHED: tuple[Level, str, str] = ("care", "scars.s1", "scar-rules.scar-no-wish")

MADE: dict[str, Made] = {
    "bell-pull": _with(
        "Wait until it is cleared",
        ("wait", "screening.numbing-product", "screening.numbing-product"),
        ("wait", "numbing", "studio.numbing_allowed"),
    ),
    "brass-key": _with("Clear to start"),
    "clock-tower": _with(
        "With care",
        ("care", "parts", "studio.limits.sitting"),
    ),
    "diving-bell": _with("Clear to start", SIDE_ON),
    "folding-ruler": _with(
        "Ask first: 2 questions open, ask the client",
        ("wait", "screening.isotretinoin", "screening.isotretinoin"),
        ("wait", "allergies", "jobs.folding-ruler.allergies"),
    ),
    "gear-band": _with("Clear to start", ("note", "size", "sites.upper-arm-outer")),
    "keepers-lantern": _with(
        "With care",
        ("care", "allergies.adhesive", "supplies.barrier-film"),
        ("care", "allergies.adhesive", "supplies.dressing-film"),
        CROSSED,
    ),
    "loom-shuttle": _with("Clear to start"),
    "low-water": _with("With care", ("care", "parts.words.gap", "studio.limits.counter_gap")),
    "oil-can": _with("Clear to start"),
    "orrery": _with("Ask a doctor first", ("doctor", "screening.blood-thinners", "screening.blood-thinners")),
    "paper-boat": _with("Wait until 2027-07-18", ("wait", "scars.s1", "scar-rules.scar-young"), CROSSED),
    "rope-ladder": _with(
        "Not asked yet",
        ("not here", "screening", "jobs.rope-ladder.screening"),
        ("not here", "scars", "jobs.rope-ladder.scars"),
        ("wait", "allergies", "jobs.rope-ladder.allergies"),
        ("wait", "moles", "studio.limits.mole_clearance"),
        ("wait", "existing_tattoos", "studio.limits.same_skin_again"),
        ("wait", "numbing", "studio.numbing_allowed"),
        ("care", "girth", "sites.forearm-outer.limb"),
        ("care", "parts.ladder.gap", "jobs.rope-ladder.parts.ladder.gap"),
        ("care", "parts.ladder.narrowest", "jobs.rope-ladder.parts.ladder.narrowest"),
        ("note", "parts", "jobs.rope-ladder.parts"),
    ),
    "sand-glass": _with("With care", ("care", "scars.s1", "scar-rules.scar-ridge"), UNWISHED, CROSSED, SIDE_ON),
    "harbour-clock": _with(
        "Wait until it is cleared",
        ("wait", "scars.s1", "scar-rules.scar-focal"),
        ("care", "scars.s1", "scar-rules.scar-fine-detail"),
        UNWISHED,
    ),
    "sextant": _with("Clear to start"),
    "signal-box": _with("With care", ("care", "allergies.lanolin", "supplies.glide")),
    "stairwell": _with(
        "Not here",
        ("not here", "screening.skin-cancer-in-area", "screening.skin-cancer-in-area"),
        ("not here", "scars.s1", "scar-rules.scar-after-skin-cancer"),
        ("care", "scars.s1", "scar-rules.scar-cover"),
        CROSSED,
        ("note", "parts.well", "jobs.stairwell.parts.well.role"),
    ),
    "star-finder": _with("Clear to start", ("note", "skin", "studio.limits.quiet_ink")),
    "steam-boiler": _with("With care", ("care", "existing_tattoos.o1", "studio.limits.cover_ratio")),
    "tide-table": _with("Clear to start", ("note", "parts.dial", "jobs.tide-table.parts.dial.role")),
    "tide-mill": _with(
        "With care",
        ("care", "parts", "studio.limits.sitting"),
    ),
    "tin-telegraph": _with(
        "With care",
        ("care", "allergies.fragrance", "supplies.stencil-fluid"),
        ("care", "allergies.fragrance", "supplies.skin-wash"),
        ("care", "allergies.latex", "supplies.grip-wrap"),
        SIDE_ON,
    ),
    "weather-house": _with("Clear to start"),
}

# What is noted of weight and size, by the limit that says from when.
BALANCE = {
    "clock-tower": "filler_louder ink_in_parts size_step",
    "diving-bell": "ink_in_parts",
    "keepers-lantern": "ink_in_parts",
    "loom-shuttle": "size_step",
    "orrery": "ink_in_parts",
    "paper-boat": "filler_louder off_centre size_step third",
    "sand-glass": "ink_in_parts",
    "sextant": "ink_in_parts",
    "signal-box": "ink_in_parts size_step",
    "stairwell": "filler_louder off_centre size_step third",
    "star-finder": "ink_in_parts",
    "steam-boiler": "ink_in_parts",
    "tide-mill": "filler_louder ink_in_parts off_centre",
    "tide-table": "filler_louder ink_in_parts",
    "tin-telegraph": "ink_in_parts size_step",
    "weather-house": "ink_in_parts",
}


def test_every_demo_job_is_in_the_table() -> None:
    assert set(MADE) == set(JOBS) and len(JOBS) >= 12


@pytest.mark.parametrize("job", JOBS)
def test_a_demo_job_has_what_it_was_made_for(job: str) -> None:
    plan, made = demo(job), MADE[job]
    assert plan.verdict.heading == made.heading
    found = [(f.level, f.about, f.rule) for f in plan.findings]
    assert len(found) == len(set(found))
    balance = {rule.rpartition(".")[2] for _, _, rule in found if ".composition." in rule}
    assert balance == set(BALANCE.get(job, "").split())
    assert {one for one in found if ".composition." not in one[2]} == made.findings


@pytest.mark.parametrize("job", JOBS)
def test_a_demo_job_says_in_its_first_line_what_it_shows(job: str) -> None:
    first, second = (CONTENT / "jobs" / f"{job}.yml").read_text("utf-8").split("\n")[:2]
    assert first.startswith("# ") and first.endswith(".") and len(first.split()) > 6
    assert second == f"id: {job}"


@pytest.mark.parametrize("job", [job for job in JOBS if job not in ("clock-tower", "tide-mill")])
def test_a_demo_job_is_short_and_its_day_is_plausible(job: str) -> None:
    lines = (CONTENT / "jobs" / f"{job}.yml").read_text("utf-8").splitlines()
    # What is written before the work, and what comes after it, are read apart.
    after = next((number for number, line in enumerate(lines) if line == "finished:"), len(lines))
    for half, most in ((lines[:after], 46), (lines[after:], 26)):
        assert len([line for line in half if not line.startswith("#")]) < most
    assert max(map(len, lines)) <= 110
    work = demo(job).work
    if work is not None:
        sitting = RECORDS.studio.limits.sitting.low
        assert 20 <= work.timetable.chair.low < work.timetable.chair.high <= sitting
        assert work.timetable.done_between[1].time() < datetime.time(19)


def _jobs() -> dict[str, Job]:
    return {name: demo(name).job for name in JOBS}


class TestTogetherTheyShow:
    def test_one_long_piece_over_four_sittings(self) -> None:
        job = demo("clock-tower").job
        sittings = split_into_sittings(RECORDS, job, steps_of(written("clock-tower")))
        assert len(sittings) == 4 and job.sitting == 2
        rest = datetime.timedelta(days=RECORDS.studio.limits.same_skin_again.high)
        assert job.last_worked is not None and job.last_worked + rest <= job.date
        days = [sitting.earliest for sitting in sittings]
        assert days[0] is None and days[1] == job.date and days[2] is not None and days[2] >= job.date + rest

    def test_a_band_on_a_tapered_limb(self) -> None:
        job = demo("gear-band").job
        assert job.girth is not None and job.girth.top.low > job.girth.bottom.low >= job.size[0].low
        assert RECORDS.sites[job.place].limb
        assert any(str(part.box and part.box[2].text) == job.size[0].text for part in job.parts)

    def test_a_raised_scar_that_is_crossed_and_one_that_is_worked_around(self) -> None:
        raised, around = demo("sand-glass"), demo("weather-house")
        assert [(s.scar.type, s.crossed_by) for s in raised.scars] == [("raised", ("dunes",))]
        assert [(s.scar.wish, s.crossed_by, s.held, s.undecided) for s in around.scars] == [("work around", (), (), ())]

    def test_a_cover_up_a_lettering_piece_and_dark_skin(self) -> None:
        jobs = _jobs()
        assert [old.wish for old in jobs["steam-boiler"].existing_tattoos or ()] == ["cover"]
        assert any(part.role == "lettering" and part.focal for part in jobs["low-water"].parts)
        assert jobs["star-finder"].skin is not None and jobs["star-finder"].skin.tone == "dark"

    def test_allergies_and_a_left_handed_artist(self) -> None:
        jobs = _jobs()
        assert len({allergy.to for job in jobs.values() for allergy in job.allergies or ()}) >= 3
        left = [name for name, job in jobs.items() if RECORDS.people[job.artist].hand == "left"]
        assert any(demo(name).verdict.goes_ahead for name in left)

    def test_three_finished_jobs_with_times_and_lots(self) -> None:
        finished = [job.finished for job in _jobs().values() if job.finished is not None]
        assert len(finished) >= 3
        assert all(done.worked and done.lots and done.ended for done in finished)

    def test_two_artists_learn_from_several_techniques_and_not_yet_from_all(self) -> None:
        learned = learn_from(CONTENT, read_records(CONTENT))[0]
        known = {key for key, lesson in learned.items() if lesson.factor is not None}
        assert len({artist for artist, _ in known}) >= 2 and len({technique for _, technique in known}) >= 3
        assert any("more are needed" in lesson.why_not for lesson in learned.values())

    def test_a_finished_sitting_of_a_longer_piece(self) -> None:
        job = demo("tide-mill").job
        sittings = split_into_sittings(RECORDS, job, steps_of(written("tide-mill")))
        assert job.finished is not None and job.sitting == 1 and len(sittings) > 1

    def test_every_verdict(self) -> None:
        assert {demo(name).verdict.level for name in JOBS} == {"clear", "care", "wait", "doctor", "not here"}
        waits = [demo(name).verdict for name in JOBS if demo(name).verdict.level == "wait"]
        assert {(verdict.settled, verdict.until is None) for verdict in waits} >= {
            (True, False),
            (True, True),
            (False, True),
        }
