"""A day on one page: the list by the clock, what clashes, what is laid out, and nothing that tells a health answer."""

from __future__ import annotations

import dataclasses
import datetime
import io
import re
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from generator.cli import main
from generator.dates import as_of
from generator.planning.findings.verdict import Finding
from generator.planning.plan import booked_of
from generator.press.lists.day import DayView, day_html, day_view
from generator.press.lists.days import OnItsDay, days_with_pages, on_its_day, with_days
from generator.records.reading import read_records
from generator.trade import disinfection
from tests.conftest import copy_content, resize, violations
from tests.planning.demo import JOBS, RECORDS, Written, demo, job_of, part, planned, simple, written
from tests.press.pressing import press_jobs

DAY = datetime.date(2027, 5, 12)


def on_a_day(*jobs: Written) -> list[OnItsDay]:
    left = []
    for one in jobs:
        job, plan = job_of(one), planned(one)
        booked = booked_of(RECORDS, job.model_copy(update={"finished": None})) if job.is_agreed else None
        left.append(on_its_day(RECORDS, job, plan, plan.state.listed, booked))
    return [one for one in left if one is not None]


def the_view(*jobs: Written, day: datetime.date = DAY) -> DayView:
    return day_view(RECORDS, day, on_a_day(*jobs))


def said(view: DayView) -> str:
    return re.sub(r"<style>.*?</style>|<[^>]+>", " ", day_html(view, DAY), flags=re.DOTALL)


BOTH = (simple(id="one", start="09:00"), simple(id="two", artist="mo", start="09:00"))


def test_a_job_is_set_up_worked_and_cleaned_up_by_the_clock() -> None:
    plan = demo("tide-table")
    assert plan.work is not None
    view = the_view(written("tide-table"))
    texts = [line.text for line in view.lines]
    assert texts[0].startswith("set up chair 1, clear") and "stencil until" in texts[1] and "drying until" in texts[1]
    assert sum(text.startswith("break") for text in texts) == plan.work.at_hand.timetable.break_count.high
    assert texts[-2].startswith("clean and wrap") and "wet for 2\u00a0min, air for 10\u00a0min" in texts[-1]
    assert list(view.lines) == sorted(view.lines, key=lambda line: line.at) and view.clashes == ()
    worked = [
        int(number) for text in texts if text.startswith("step") for number in re.findall(r"\d+", text.split(",")[0])
    ]
    assert (worked[0], worked[-1]) == (1, len(plan.work.at_hand.steps))


def test_what_is_laid_out_is_the_larger_end_of_what_the_sittings_take() -> None:
    one, two = ({pair.name: pair.text for pair in the_view(*jobs).lay_out} for jobs in ((BOTH[0],), BOTH))
    towels = [int(re.findall(r"Paper towels (\d+)", said["Used up"])[0]) for said in (one, two)]
    needed = {entry: amount for _, entry, amount in on_a_day(BOTH[0])[0].needs}
    assert towels[0] == needed["towels"] and towels[1] == 2 * towels[0]
    assert "1207RL" in two["Cartridges"] and "Line black" in two["Bottles"]
    bleach = RECORDS.disinfectants["chlorine-liquid"]
    assert bleach.mix_life is not None
    good = disinfection.mix_expires(datetime.datetime(2027, 5, 12, 8, 30), bleach.mix_life.low)
    assert f"mixed 08:30: until {good.date()}, {good:%H:%M}" in [pair.text for pair in the_view(*BOTH).mixes]


def test_what_an_allergy_exchanges_is_named_by_its_kind_and_leads_to_the_sheets() -> None:
    (pair,) = [pair for pair in the_view(*BOTH).lay_out if pair.sheets]
    assert pair.sheets == ("one", "two") and {"gloves", "dressing"} <= set(re.split(", |: ", pair.text))
    html = day_html(the_view(*BOTH), DAY, beside=(None, None))
    assert '<a href="../sheets/one.html">one</a>,' in html and '<a href="../sheets/two.html">two</a>' in html
    touched = [one.name for one in RECORDS.supplies.values() if one.contains or one.id == "pad"]
    assert len(touched) > 9 and [name for name in touched if name in said(the_view(*BOTH))] == []
    # A studio that names no kinds, or few, is sent to the sheets all the same.
    for keeps in ((), ("gloves",)):
        bare = {n: s if n in keeps else s.model_copy(update={"kind": None}) for n, s in RECORDS.supplies.items()}
        view = day_view(dataclasses.replace(RECORDS, supplies=bare), DAY, on_a_day(*BOTH))
        assert ", ".join((*keeps, "what a client may be allergic to: each")) in said(view)


def test_who_watches_whom_and_what_the_hand_takes() -> None:
    watched = simple(id="three", artist="bram", supervisor="quill", place="upper-back")
    view = the_view(watched)
    assert [told.name for told in view.people if told.text.startswith("watches Bram at three")] == ["Quill"]
    assert 'class="watch"' in view.lanes
    assert any("action value 2.5\u00a0m/s²" in told.text for told in the_view(*BOTH).people)


def test_a_clash_is_said_with_a_way_out_and_drawn_as_a_band() -> None:
    view = the_view(BOTH[0], {**BOTH[1], "artist": "quill"})
    (clash,) = view.clashes
    html = day_html(view, DAY)
    assert clash.reason in html and clash.remedy in html and 'class="clash"' in html
    assert 'class="clash"' not in day_html(the_view(*BOTH), DAY)
    # Neither is drawn over the other.
    at = [float(y) for y in re.findall(r'<text x="[^"]+" y="([^"]+)" class="job"', view.lanes)]
    assert len(at) == 2 and at[1] - at[0] > 40


def test_a_page_says_of_a_job_what_lists_say_and_no_more() -> None:
    wrong: list[tuple[str, str]] = []
    for job in [job for job in JOBS if demo(job).job.has_a_day]:
        plan = demo(job)
        text = said(the_view(written(job), day=plan.job.date))
        found: tuple[Finding, ...] = plan.findings
        wrong += [(job, f.reason) for f in found if f.reason in text or (f.remedy and f.remedy in text)]
        if plan.state.listed == "not yet":
            wrong += [(job, word) for word in (plan.verdict.heading, "doctor", "set up chair") if word in text]
            assert "not yet; look at its sheet" in text
            # It is listed from when its lane begins, with its set-up.
            (line,), (booked,) = the_view(written(job), day=plan.job.date).lines, [booked_of(RECORDS, plan.job)]
            assert line.at == booked.begins < booked.seated and f"due at {booked.seated:%H:%M}" in line.text
        wrong += [(job, plan.job.client)] if plan.job.client in text else []
    assert wrong == []


def test_what_is_finished_is_a_fact_and_what_is_not_worked_is_not_there() -> None:
    view = the_view(written("diving-bell"), day=datetime.date(2027, 3, 9))
    assert [line.text for line in view.lines] == ["finished"] and view.mixes == view.lay_out == ()
    gone = planned(simple(not_worked="no-show"))
    assert on_its_day(RECORDS, gone.job, gone, "no-show", None) is None
    empty = the_view()
    assert empty.opening[0] == "No sitting." and empty.lanes == "" and "By the clock" not in day_html(empty, DAY)


def test_what_is_not_on_file_is_asked() -> None:
    limits = RECORDS.studio.limits.model_copy(update={"turn_round": None})
    records = dataclasses.replace(RECORDS, studio=RECORDS.studio.model_copy(update={"chairs": None, "limits": limits}))
    opening = " ".join(day_view(records, DAY, on_a_day(BOTH[0])).opening)
    assert opening.count("Not on file") == 2 and opening.count(": ask") == 2


def test_the_front_page_has_today_and_the_next_days_below_an_emergency() -> None:
    jobs = on_a_day(*(written(job) for job in JOBS))
    front = with_days("# Studio\n\n!!! danger\n    Call.\n\n## At the station\n\nMore.\n", DAY, jobs)
    assert front.index("Call.") < front.index("## Today, Wednesday 2027-05-12") < front.index("## At the station")
    assert front.count("days/") == 4 and "bell-pull.html" in front and "R-0" not in front
    assert "No sitting." in with_days("# Studio\n", datetime.date(2027, 5, 16), jobs)
    assert days_with_pages(jobs, datetime.date(2027, 5, 16))[:3] == [
        datetime.date(2027, 5, day) for day in (12, 13, 14)
    ]


@pytest.fixture
def two_of_one(tmp_path: Path) -> Path:
    """Two sittings of Quill on one day."""
    content = copy_content(tmp_path, ("tide-table", "bell-pull"))
    bell = content / "jobs" / "bell-pull.yml"
    bell.write_text(bell.read_text("utf-8").replace("artist: mo", "artist: quill"), "utf-8")
    return content


def test_both_sheets_have_the_care_and_the_command_prints_the_same_sheet(
    two_of_one: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    where = ["--content", str(two_of_one)]
    assert main(["check", *where]) == 0
    checked = capsys.readouterr().out
    for job in ("tide-table", "bell-pull"):
        lines = (two_of_one / "jobs" / f"{job}.yml").read_text("utf-8").splitlines()
        at = next(number for number, line in enumerate(lines, 1) if line.startswith("start:"))
        assert f"{job}.yml:{at}:8: reminder J650" in checked
    pressed = {p.summary.id: p for p in press_jobs(two_of_one, read_records(two_of_one)) if p.summary is not None}
    for job, one in pressed.items():
        assert one.summary is not None and one.sheet is not None and "Quill is needed by" in one.sheet
        assert main(["sheet", job, *where]) == 0
        assert f"stamp {one.summary.stamp}" in capsys.readouterr().out
    assert main(["day", *where]) == 0
    assert "Quill is needed by bell-pull and tide-table at once" in capsys.readouterr().out
    # What was printed with the care is kept with it, and the other sheet stays as it is.
    stamps = {job: one.summary.stamp for job, one in pressed.items() if one.summary is not None}
    assert main(["finish", "tide-table", "--stamp", stamps["tide-table"], *where]) == 0
    assert "The paper carries the same stamp" in capsys.readouterr().out
    # Whoever gives the stamp only when the lines were gone through is told too.
    assert main(["finish", "tide-table", "--stamp", "0123abcd", *where]) == 0
    assert "The paper carries another stamp, 0123abcd" in capsys.readouterr().out
    assert '"paper": "0123abcd"' in (two_of_one / "jobs" / "tide-table.worked.json").read_text("utf-8")
    again = {p.summary.id: p.summary.stamp for p in press_jobs(two_of_one, read_records(two_of_one)) if p.summary}
    assert again == stamps


def test_the_command_answers_for_any_day_and_writes_over_no_record(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    content = copy_content(tmp_path, ("tide-table", "diving-bell"))
    where = ["--content", str(content)]
    out = tmp_path / "day.html"
    for day, expected in (("2027-05-12", "set up chair 1"), ("2027-03-09", "finished"), ("2029-01-01", "No sitting.")):
        assert main(["day", day, "-o", str(out), *where]) == 0
        assert expected in out.read_text("utf-8") and "../jobs" not in out.read_text("utf-8")
    before = (content / "studio.yml").read_bytes()
    assert main(["day", "-o", str(content / "studio.yml"), *where]) == 1
    assert (content / "studio.yml").read_bytes() == before
    job = content / "jobs" / "tide-table.yml"
    job.write_text(job.read_text("utf-8").replace("size:", "sise:"), "utf-8")
    capsys.readouterr()
    assert main(["day", *where]) == 1
    assert "sise" in capsys.readouterr().err
    with pytest.raises(SystemExit):
        main(["day", "2027-02-30", *where])


def test_pages_stand_for_the_days_with_jobs_and_jobs_lead_to_them(site: Path) -> None:
    days = {page.stem for page in (site / "days").glob("*.html")}
    dates = {demo(job).job.date for job in JOBS if demo(job).job.has_a_day}
    assert days == {day.isoformat() for day in dates if day >= DAY - datetime.timedelta(days=7)}
    index = (site / "jobs.html").read_text("utf-8")
    assert 'href="days/2027-05-12.html"' in index and "days/2027-03-09" not in index
    assert 'href="days/2027-05-13.html"' in (site / "index.html").read_text("utf-8")
    assert "days/2027-05-12.html" in (site / "assets" / "stamps.js").read_text("utf-8")
    # In the narrow list of contents no date is divided; the search has the words alone.
    titles = re.findall(r'"md-ellipsis">(.*?)</a>', index, flags=re.DOTALL)
    contents = [title for title in titles if "2027-05-1" in title]
    assert contents and all('<span class="whole">2027-05-1' in title for title in contents)
    assert '"whole"' not in (site / "search" / "search_index.json").read_text("utf-8")


def test_a_full_day_is_one_page_on_either_paper_and_fits_a_phone(page: Any, tmp_path: Path) -> None:
    artists = ("quill", "mo", "tilde")
    long = [part("lamp", focal="yes", lines=[{"needle": "1003RL", "length": "2000 mm"}])]
    jobs = [
        simple(id=f"job-{who}-{start[:2]}", artist=who, start=start, parts=long)
        for who in artists
        for start in ("09:00", "15:00")
    ]
    for paper, number in (("A4", 6), ("Letter", 6), ("A4", 1)):
        view = the_view(*jobs[:number])
        view = view._replace(studio=view.studio.model_copy(update={"paper": paper}))
        file = tmp_path / f"{paper}{number}.html"
        file.write_text(day_html(view, as_of(DAY), (None, None)), "utf-8")
        page.goto(file.as_uri())
        assert len(PdfReader(io.BytesIO(page.pdf(prefer_css_page_size=True))).pages) == 1, (paper, number)
    found = []
    for scheme in ("light", "dark"):
        page.emulate_media(color_scheme=scheme)
        for width in (360, 1280):
            resize(page, width)
            assert page.evaluate("document.documentElement.scrollWidth") <= width
            dates = page.evaluate("[...document.querySelectorAll('dd .whole')].map(e => e.getClientRects().length)")
            assert dates and set(dates) == {1}, width
        found += violations(page)
    assert found == []
