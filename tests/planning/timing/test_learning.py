"""What finished jobs teach: factors by artist and technique, where they are shown, and where they are refused."""

from __future__ import annotations

import datetime
import math
import re
import shutil
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.cli import main
from generator.dates import as_of
from generator.origins import Origin
from generator.planning.as_json import plan_as_data
from generator.planning.computed import Recorded
from generator.planning.plan import plan
from generator.planning.timing.day import days_of
from generator.planning.timing.learning import Learned, learning_rows, times_of
from generator.planning.working.steps import LINES
from generator.press.sheet.contents import sheet_of
from generator.press.sheet.plan_text import plan_text
from generator.press.sheet.printing import sheet_html
from generator.records.jobs import Job
from generator.records.reading import read_records
from generator.trade import clock
from tests.checked import check_all
from tests.learned import learn, learn_from, read_finished
from tests.planning.demo import CONTENT, RECORDS, job_of, part, scar, simple, steps_of, with_limits, written

AS_OF = datetime.date(2027, 5, 1)
SHORT = [{"needle": "1207RL", "length": "150 mm"}]
LAMP = part("lamp", focal="yes", lines=SHORT)


def finished(number: int, took: float, artist: str = "quill", technique: str = "lining", **changes: Any) -> Job:
    """A finished job with 150 mm of lines, 6–10 min at the pace on record, that took so many minutes."""
    day = f"2027-03-{number:02}"
    done = {
        "on": day,
        "took": "60 min",
        "worked": [{"technique": technique, "took": f"{took} min"}],
        "lots": ["LB-7031"],
        "ended": "Done as drawn.",
    }
    asked = {"asked": "2027-03-01", "answers": "all clear"}
    made = {"parts": [LAMP], **changes}
    return job_of(simple(id=f"lamp-{number}", artist=artist, date=day, screening=asked, finished=done, **made))


def taught(*took: float, artist: str = "quill") -> Learned:
    return learn(RECORDS, [finished(n, minutes, artist) for n, minutes in enumerate(took, 1)])[0]


def test_the_median_of_actual_over_the_middle_of_the_estimate() -> None:
    # The middle of 6–10 min is 8: 8, 12 and 10 min are 1, 1.5 and 1.25 times as much.
    lesson = taught(8, 12, 10)["quill", "lining"]
    assert lesson.factor is not None and lesson.factor.low == lesson.factor.high == 1.25
    assert lesson.factor.function is clock.learned_factor
    assert [row.ratio.low for row in learning_rows(lesson)] == [1, 1.5, 1.25]
    assert [row.actual for row in learning_rows(lesson)][1] == Recorded(
        12, 12, "duration", Origin(("jobs", "lamp-2", "finished", "worked"))
    )


@pytest.mark.parametrize("took", [(), (9,), (9, 9)])
def test_nothing_is_learned_below_three_jobs(took: tuple[float, ...]) -> None:
    learned = taught(*took)
    assert all(lesson.factor is None and "3 or more" in lesson.why_not for lesson in learned.values())
    assert len(learned) == (1 if took else 0)


def test_one_artists_jobs_teach_nothing_about_another_nor_about_another_technique() -> None:
    learned = taught(8, 12, 10)
    assert set(learned) == {("quill", "lining")}
    for other in (simple(artist="mo"), simple(parts=[part("lamp", focal="yes", lines=None, colours=["black-line"])])):
        made, _ = plan(RECORDS, job_of(other), learned)
        assert made is not None and made.work is not None
        assert made.work.timetable.plain is None
        assert all(step.minutes_learned is None for step in made.work.steps)


def test_the_booked_time_is_shown_and_the_plain_estimate_beside_it() -> None:
    block = part("block", (60, 20, 20, 20), colours=["deep-blue"], lines=None)
    made, _ = plan(RECORDS, job_of(simple(parts=[LAMP, block])), taught(8, 12, 10))
    assert made is not None and made.work is not None
    lines, packed = made.work.steps
    assert (lines.minutes.low, lines.minutes.high) == (6, 10)
    assert lines.minutes_learned is not None
    assert (lines.minutes_learned.low, lines.minutes_learned.high) == (7.5, 12.5)
    assert packed.minutes_learned is None
    table = made.work.timetable
    assert table.plain is not None
    # Where no pace is known, the plain estimate stands in the sum.
    assert table.working.low == pytest.approx(7.5 + packed.minutes.low)
    assert table.plain.working.low == pytest.approx(6 + packed.minutes.low)
    text = plan_text(RECORDS, made)
    assert re.search(r"work: \d+–\d+\u00a0min at Quill’s pace, plain \d+–\d+\u00a0min", text)
    assert "at Quill’s pace" in sheet_html(sheet_of(RECORDS, made), AS_OF)


def test_what_is_learned_moves_every_time_and_no_setting() -> None:
    """Work, end, sittings and tray rest on what is booked; the plain estimate stays beside it."""
    job = job_of(written("tide-table"))
    before, after = (plan(RECORDS, job, learned)[0] for learned in ({}, learn_from(CONTENT, read_records(CONTENT))[0]))
    assert before is not None and after is not None and before.work is not None and after.work is not None
    assert after.work.timetable.plain is not None
    assert (after.verdict.level, after.placement) == (before.verdict.level, before.placement)
    assert [s.minutes for s in after.work.steps] == [s.minutes for s in before.work.steps]
    assert [s.setting for s in after.work.steps] == [s.setting for s in before.work.steps]
    booked, plain = after.work.timetable, before.work.timetable
    assert booked.plain is not None and booked.plain.working == plain.working and booked.plain.whole == plain.whole
    assert booked.working.high > plain.working.high and booked.whole.high > plain.whole.high
    assert booked.done_between[1] > plain.done_between[1]
    last = [days_of(RECORDS, job, w.steps, w.sittings)[-1].stretches[-1].ends for w in (after.work, before.work)]
    assert last[0] > last[1]


def test_a_finished_job_keeps_its_plain_estimate() -> None:
    job = finished(9, 11)
    made, _ = plan(RECORDS, job, taught(8, 12, 10))
    assert made is not None and made.work is not None
    assert made.work.timetable.plain is None and made.work.lessons == ()
    assert plan(RECORDS, job)[0] == made


def test_slower_work_over_a_scar_is_in_the_estimate_and_no_fault_of_the_artist() -> None:
    ends = {"from": ["30 mm", "40 mm"], "to": ["50 mm", "40 mm"]}
    ground = part("ground", role="filler", detail="broad", lines=SHORT)
    lamp = part("lamp", (62, 62, 8, 8), focal="yes", lines=None, colours=[{"ink": "white", "area": "0.1 cm²"}])
    over = [finished(n, 10, scars=[scar(**ends)], parts=[ground, lamp]) for n in (1, 2, 3)]
    lesson = learn(RECORDS, over)[0]["quill", "lining"]
    assert lesson.factor is not None
    # 8 min in the middle without the scar, which is 25 % slower where it lies, under an eighth of the part.
    (estimate,) = {timed.estimate for timed in lesson.jobs}
    assert estimate == pytest.approx(8 * (1 + 0.25 * (160 + math.pi * 16) / 1600), rel=1e-4)
    assert lesson.factor.low == pytest.approx(10 / estimate)


class TestASittingOfALongerPiece:
    """Twice 3 m of lines, 120–200 min each, and 60 cm² of packing: each sitting is measured by what it was to hold."""

    PARTS = (
        part("lamp", (0, 0, 300, 150), focal="yes", lines=[{"needle": "1207RL", "length": "3 m"}]),
        part("hall", (0, 150, 300, 150), lines=[{"needle": "1207RL", "length": "3 m"}]),
        part("wall", (0, 300, 300, 100), lines=None, colours=[{"ink": "deep-blue", "area": "60 cm²"}]),
    )

    def job(self, sitting: int, worked: dict[str, float], **done: str) -> Job:
        long = simple(
            id=f"lamp-{sitting}",
            size="300 mm x 400 mm",
            parts=list(self.PARTS),
            sitting=str(sitting),
            last_worked=None if sitting == 1 else "2027-03-01",
            finished={
                "on": "2027-05-12",
                "took": "280 min",
                "lots": ["LB-7031"],
                "ended": "As far as planned.",
                "worked": [{"technique": name, "took": f"{minutes} min"} for name, minutes in worked.items()],
                **done,
            },
        )
        return job_of(long)

    def test_only_the_share_of_the_sitting_is_its_estimate(self) -> None:
        shares = [
            {t.technique: t.estimate for t in times_of(RECORDS, self.job(n, {"lining": 100, "packing": 100}))}
            for n in (1, 2, 3)
        ]
        assert [one.get("lining") for one in shares] == [160, 160, None]
        (packed,) = (s for s in steps_of(simple(size="300 mm x 400 mm", parts=list(self.PARTS))) if s.section != LINES)
        assert [one.get("packing") for one in shares] == [None, None, (packed.minutes.low + packed.minutes.high) / 2]

    def test_a_step_that_was_parted_counts_by_its_parts(self) -> None:
        packed = [{"ink": "deep-blue", "area": "500 cm²"}]
        wall = part("wall", (0, 0, 300, 400), focal="yes", lines=None, colours=packed)
        jobs = [
            job_of(
                {
                    **simple(id=f"wall-{n}", size="300 mm x 400 mm", parts=[wall], sitting=str(n)),
                    **({} if n == 1 else {"last_worked": "2027-03-01"}),
                    "finished": {
                        "on": "2027-05-12",
                        "took": "280 min",
                        "lots": ["LB-7031"],
                        "ended": "As planned.",
                        "worked": [{"technique": "packing", "took": "200 min"}],
                    },
                }
            )
            for n in (1, 2)
        ]
        (step,) = steps_of(simple(size="300 mm x 400 mm", parts=[wall]))
        (first,), (second,) = (list(times_of(RECORDS, job)) for job in jobs)
        assert 0 < first.estimate < (step.minutes.low + step.minutes.high) / 2
        assert first.estimate == pytest.approx(second.estimate) or second.estimate < first.estimate

    def test_a_sitting_that_kept_to_its_estimate_has_a_ratio_of_one(self) -> None:
        for sitting in (1, 2, 3):
            estimates = {t.technique: t.estimate for t in times_of(RECORDS, self.job(sitting, {"packing": 100}))}
            if "packing" in estimates:
                (timed,) = times_of(RECORDS, self.job(sitting, {"packing": estimates["packing"]}))
                assert timed.ratio == pytest.approx(1, abs=1e-6)

    def test_a_sitting_beyond_those_that_were_planned_teaches_nothing(self) -> None:
        assert list(times_of(RECORDS, self.job(9, {"lining": 100, "packing": 100}))) == []


@pytest.mark.parametrize(
    ("stopped", "teaches"),
    [(None, True), ("done", True), ("time", False), ("skin", False), ("tap-out", False), ("unwell", False)],
)
def test_a_day_that_ended_early_did_less_than_was_planned(stopped: str | None, teaches: bool) -> None:
    job = finished(1, 9)
    assert job.finished is not None
    ended = job.model_copy(update={"finished": job.finished.model_copy(update={"stopped": stopped})})
    assert bool(list(times_of(RECORDS, ended))) == teaches


def test_two_entries_of_one_technique_are_one_time() -> None:
    job = finished(1, 5)
    assert job.finished is not None
    twice = job.finished.model_copy(update={"worked": job.finished.worked * 2})
    (lesson,) = learn(RECORDS, [job.model_copy(update={"finished": twice})])[0].values()
    assert [timed.took for timed in lesson.jobs] == [10]


def test_work_that_was_not_planned_teaches_nothing() -> None:
    assert learn(RECORDS, [finished(n, 9, technique="stippling") for n in (1, 2, 3)]) == ({}, ())


def test_only_the_latest_jobs_count() -> None:
    records = with_limits(learned_from=3)
    jobs = [finished(n, minutes) for n, minutes in enumerate((15, 15, 15, 8, 8, 8), 1)]
    for order in (jobs, jobs[::-1]):
        lesson = learn(records, order)[0]["quill", "lining"]
        assert [timed.job for timed in lesson.jobs] == ["lamp-4", "lamp-5", "lamp-6"]
        assert lesson.factor is not None and lesson.factor.low == 1


def test_the_latest_are_so_by_day_and_not_by_name() -> None:
    late = finished(9, 16)
    renamed = late.model_copy(update={"id": type(late.id).at("a-lamp", late.id.place)})
    lesson = learn(with_limits(learned_from=3), [finished(n, 8) for n in (1, 2, 3)] + [renamed])[0]["quill", "lining"]
    assert [timed.job for timed in lesson.jobs] == ["lamp-2", "lamp-3", "a-lamp"]


@given(st.permutations([4.5, 8, 9, 11, 15]))
def test_the_order_in_which_jobs_are_read_does_not_matter(took: list[float]) -> None:
    jobs = [finished(n, minutes) for n, minutes in enumerate((4.5, 8, 9, 11, 15), 1)]
    by_time = {4.5: 0, 8: 1, 9: 2, 11: 3, 15: 4}
    assert learn(RECORDS, [jobs[by_time[t]] for t in took]) == learn(RECORDS, jobs)


@pytest.mark.parametrize(("took", "refused"), [(16, False), (16.5, True), (4, False), (3.9, True)])
def test_beyond_a_factor_of_two_the_pace_is_questioned(took: float, refused: bool) -> None:
    jobs = [finished(n, took) for n in (1, 2, 3)]
    learned, report = learn(RECORDS, jobs)
    assert (learned["quill", "lining"].factor is None) == learned["quill", "lining"].rate_in_doubt == refused
    assert [d.code for d in report] == (["J621"] if refused else [])
    if refused:
        (found,) = report
        rate = RECORDS.techniques["lining"].pace
        assert found.level == "warning" and found.place == rate.place
        assert all(f"lamp-{n}" in found.message for n in (1, 2, 3)) and "Quill" in found.message
        made, _ = plan(RECORDS, job_of(simple()), learned)
        assert made is not None and made.work is not None and made.work.timetable.plain is None


def test_two_artists_who_doubt_one_rate_make_one_warning() -> None:
    jobs = [finished(n, 30, artist) for n, artist in enumerate(("quill", "mo") * 3, 1)]
    (found,) = learn(RECORDS, jobs)[1]
    assert "Quill" in found.message and "Mo" in found.message


def test_a_pace_that_takes_more_than_one_sitting_is_a_finding() -> None:
    # 3 m of lines: 120–200 min, in one sitting with two breaks; at 1.5 times that it takes two.
    long = simple(parts=[part("lamp", focal="yes", lines=[{"needle": "1207RL", "length": "3 m"}])])
    plain, slow = (plan(RECORDS, job_of(long), learned)[0] for learned in ({}, taught(12, 12, 12)))
    assert plain is not None and slow is not None
    assert plain.verdict.level == "clear"  # the one long step has its breaks within it
    more = set(slow.findings) - set(plain.findings)
    assert [(f.level, "Quill’s finished jobs" in f.reason) for f in more] == [("care", True)]


def test_the_plan_as_data_leads_down_to_the_jobs() -> None:
    made, _ = plan(RECORDS, job_of(simple(parts=[LAMP])), taught(8, 12, 10))
    assert made is not None
    work = plan_as_data(made)["work"]
    (step,) = work["steps"]
    assert step["minutes"]["low"] == 6 and step["minutes_learned"]["low"] == 7.5
    factor = step["minutes_learned"]["inputs"]["factor"]
    assert factor["formula"] == "trade.clock.learned_factor" and "lamp-2" in factor["inputs"]["jobs"]["value"]
    (lesson,) = work["lessons"]
    assert lesson["factor"] == factor
    assert [row["timed"]["job"] for row in lesson["rests_on"]] == ["lamp-1", "lamp-2", "lamp-3"]
    assert lesson["rests_on"][1]["estimate"]["value"] == 8 and lesson["rests_on"][1]["actual"]["value"] == 12
    times = work["timetable"]
    assert times["working"]["high"] == 12.5 and times["plain"]["working"]["high"] == 10


class TestTheDemo:
    def test_one_artist_has_three_jobs_whose_times_are_near_but_not_equal(self) -> None:
        learned, report = learn_from(CONTENT, read_records(CONTENT))
        assert report == ()
        known = {key: lesson for key, lesson in learned.items() if lesson.factor is not None}
        assert {key[1] for key in known} >= {"lining", "packing"}
        for lesson in known.values():
            assert all(0.75 < timed.ratio < 1.34 and timed.ratio != 1 for timed in lesson.jobs)

    def test_lots_that_were_used_are_on_the_shelf(self) -> None:
        lots = {lot.lot for ink in RECORDS.inks.values() for lot in ink.lots}
        for job in read_finished(CONTENT, read_records(CONTENT).known):
            assert job.finished is not None and set(job.finished.lots) <= lots

    def test_the_plan_on_the_command_line(self, capsys: pytest.CaptureFixture[str]) -> None:
        assert main(["plan", "tide-table", "--content", str(CONTENT)]) == 0
        assert " at Quill’s pace, plain " in capsys.readouterr().out

    def test_a_job_with_a_mistake_teaches_nothing_and_is_reported_once(self, tmp_path: Path) -> None:
        content = tmp_path / "content"
        shutil.copytree(CONTENT, content)
        file = content / "jobs" / "sextant.yml"
        file.write_text(re.sub(r"(technique: lining, took: \d+) min", r"\1", file.read_text("utf-8")), "utf-8")
        assert [d.code for d in check_all(content, as_of())] == ["Q202"]
        learned, _ = learn_from(content, read_records(content))
        assert learned["quill", "lining"].factor is None

    def test_mistakes_in_the_records_teach_nothing(self, tmp_path: Path) -> None:
        content = tmp_path / "content"
        shutil.copytree(CONTENT, content)
        file = content / "people.yml"
        file.write_text(file.read_text("utf-8").replace("hand: left", "hand: lefty"), "utf-8")
        assert learn_from(content, read_records(content)) == ({}, ())


def test_how_long_a_finished_job_is_kept() -> None:
    # NEHA Body Art Model Code 2024, section 6.5: three years.
    assert RECORDS.studio.limits.retention_years >= 3
    assert RECORDS.studio.limits.retention_source == "neha-code"
    made, _ = plan(RECORDS, finished(7, 9))
    assert made is not None
    kept = plan_as_data(made)["kept_until"]
    assert kept["value"] == "2030-03-07" and kept["formula"] == "trade.dates.retention_end"
    assert kept["inputs"]["years"]["record"] == "studio.limits.retention" and kept["source"] == ["neha-code"]
    planned, _ = plan(RECORDS, job_of(simple()))
    assert planned is not None and plan_as_data(planned)["kept_until"] is None


def test_retention_is_in_whole_years(tmp_path: Path) -> None:
    content = tmp_path / "content"
    shutil.copytree(CONTENT, content)
    file = content / "studio.yml"
    text = file.read_text("utf-8")
    file.write_text(text.replace("retention: 3 years", "retention: 30 months"), "utf-8")
    (found,) = read_records(content).report
    assert (found.code, found.place.line) == ("Q208", text[: text.index("retention:")].count("\n") + 1)
