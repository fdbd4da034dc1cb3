"""The client's page: one side in plain words, its days by hand, no setting, no answer."""

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
from generator.planning.plan import JobPlan
from generator.press.sheet.client_page import (
    ClientPage,
    beyond_one_side,
    client_html,
    client_page_of,
    state_of,
    text_size,
)
from generator.press.sheet.sizes import SPARE
from generator.records.checklist import quotes_of
from generator.records.client_page import CLIENT_FACTS, CLIENT_QUOTES, FOR_JOBS
from generator.records.conditions import facts_named
from generator.records.families import Records
from generator.records.reading import read_records
from generator.records.skin import AFTER
from tests.conftest import copy_content
from tests.planning.demo import CONTENT, JOBS, RECORDS, Written, changed, demo, part, planned, scar, simple, written
from tests.press.sheet.test_sides import PAPERS
from tests.press.test_nothing_tells_an_answer import BAD, answered

AS_OF = datetime.date(2027, 5, 1)


def page_of(plan: JobPlan, records: Records = RECORDS) -> ClientPage:
    return client_page_of(records, plan.job, plan)


def words(plan: JobPlan) -> str:
    """What is read on the page, on one line."""
    page = page_of(plan)
    said = [line.text for _, lines in page.sections for line in lines]
    return " ".join([page.job.title, page.head, *(section.title for section, _ in page.sections), *said])


def crowded() -> Written:
    """A job that has every line a page can have, and long names."""
    parts = [
        part("lamp", (20, 20, 60, 60), focal="yes", colours=["black-shade"]),
        part("base", (20, 100, 150, 150), colours=[{"ink": "rust", "area": "200 cm²"}]),
    ]
    old = [
        {"id": "anchor", "box": ["30 mm", "30 mm", "10 mm", "10 mm"], "darkness": "light", "wish": "cover"},
        {"id": "knot", "box": ["180 mm", "5 mm", "8 mm", "8 mm"], "darkness": "light", "wish": "leave"},
    ]
    old = [{**one, "laser": "none"} for one in old]
    scars = [scar(), scar(**{"id": "s2", "from": ["30 mm", "120 mm"], "to": ["50 mm", "120 mm"], "wish": "cover"})]
    return simple(
        title="A lamp of the old signal box at the far end of a very long platform, in rust",
        size="200 mm x 260 mm",
        moles=[{"at": ["190 mm", "90 mm"], "keep": "8 mm"}],
        scars=scars,
        existing_tattoos=old,
        parts=parts,
    )


# Those that are shortest and longest, and one of each state.
SHOWN = ("tide-table", "keepers-lantern", "clock-tower", "diving-bell", "bell-pull", "crowded")


@pytest.fixture(scope="module")
def plans() -> dict[str, JobPlan]:
    return {job: planned(crowded()) if job == "crowded" else demo(job) for job in SHOWN}


def test_it_is_one_side_of_either_paper_in_the_widest_letters(page: Any, plans: dict[str, JobPlan]) -> None:
    assert {state_of(plan.job, plan) for plan in plans.values()} == set(FOR_JOBS)
    page.emulate_media(media="print")
    wrong = []
    for job, plan in plans.items():
        made = page_of(plan)
        html = client_html(made, AS_OF)
        assert text_size(made) >= 9.5 and '"DejaVu Sans", Verdana' in html, job
        for paper, (width, height) in PAPERS.items():
            page.set_viewport_size({"width": round(width / 25.4 * 96), "height": round(height / 25.4 * 96)})
            page.set_content(html.replace("size: A4", f"size: {paper}"))
            tall = page.evaluate("document.querySelector('main').getBoundingClientRect().height / 96 * 25.4")
            over = page.evaluate("document.documentElement.scrollWidth > window.innerWidth")
            pages = len(PdfReader(io.BytesIO(page.pdf(prefer_css_page_size=True))).pages)
            if tall > height - SPARE or over or pages != 1:
                wrong.append((job, paper, tall, over, pages))
    assert wrong == []


def test_the_crowded_job_has_every_line_that_a_page_can_have(plans: dict[str, JobPlan]) -> None:
    """But for those that contradict each other."""
    said = words(plans["crowded"])
    for line in ("Moles: 1.", "Scars that stay free: 1.", "worked over: 1.", "stay as they are: 1.", "covered: 1."):
        assert line in said
    assert re.search(r"takes [2-9] visits; this is number 1", said) and "Next visit: not before 9 June 2027" in said


def test_no_setting_and_no_answer_is_on_it(plans: dict[str, JobPlan]) -> None:
    """Neither by a name that records have for it nor by its unit."""
    named = [str(machine.name) for machine in RECORDS.machines.values()]
    named += [str(grouping.label) for grouping in RECORDS.groupings.values()]
    named += [str(technique.name) for technique in RECORDS.techniques.values()]
    named += [str(ink.name) for ink in RECORDS.inks.values()]
    named += [str(word) for supply in RECORDS.supplies.values() for word in supply.contains or () if word != "none"]
    unit = re.compile(r"\d\s*(Hz|V\b|mm\b|in\b|strokes|mL|cm)|hang-out|stroke|dial|needle|cartridge|magnum", re.I)
    telling = re.compile(r"burn(?!t)|surgery|cancer|radio|injury|keloid|diabet|pregnan|thinner|heart|adhesive", re.I)
    found = {}
    for job, plan in plans.items():
        # Its title is the client's own, and a cream without fragrance is said to everybody.
        said = words(plan).replace(plan.job.title, "")
        without = said.replace("fragrance", "").replace(str(plan.artist.name), "")
        bad = [name for name in named if re.search(rf"\b{re.escape(name)}\b", without, re.IGNORECASE)]
        bad += [match[0] for pattern in (unit, telling) for match in pattern.finditer(without)]
        if bad:
            found[job] = bad
    assert found == {}


def test_neither_a_cause_nor_an_allergy_changes_a_word() -> None:
    ahead = [simple(), simple(allergies=["adhesive"]), simple(allergies=["lanolin", "fragrance"])]
    made = [planned(job) for job in ahead]
    assert {state_of(plan.job, plan) for plan in made} == {"going ahead"} and len({words(plan) for plan in made}) == 1
    for over in (scar(), scar(**{"from": ["30 mm", "40 mm"], "to": ["50 mm", "40 mm"]})):
        causes: dict[tuple[str, str], set[str]] = {}
        for cause in AFTER:
            plan = planned(simple(scars=[{**over, "after": cause}]))
            causes.setdefault((state_of(plan.job, plan), plan.verdict.level), set()).add(words(plan))
        assert all(len(said) == 1 for said in causes.values()), causes


def test_what_may_not_go_ahead_says_the_same_whatever_is_open() -> None:
    """An answer that forbids, one that is missing, one that waits: nothing on the page tells one from another."""
    jobs = [answered(str(question.id), BAD[question.clear]) for question in RECORDS.screening.values()]
    jobs += [answered("diabetes", "unknown"), simple(screening=None), simple(allergies=None), simple(moles=None)]
    jobs += [simple(numbing=[{"product": "lidocaine cream", "by": "client", "on": "2027-05-12"}])]
    jobs += [simple(scars=[scar(after="skin cancer")]), simple(scars=[scar(type="keloid")])]
    plans = [planned(job) for job in jobs]
    not_yet = [plan for plan in plans if state_of(plan.job, plan) == "not yet"]
    assert len(not_yet) >= len(RECORDS.screening) + 4
    (said,) = {words(plan) for plan in not_yet}
    assert "Not yet" in said and "Come on" not in said and "Touch-up" not in said
    assert "until" not in said.replace("Until then", "") and len(re.findall(r"\d{4}", said)) == 1  # the day alone


def test_the_days_are_those_of_the_calendar() -> None:
    """By hand from 12 May 2027: values of the demo studio counted in a calendar."""
    said = words(planned(simple()))
    for day in (
        "off between 13 May 2027 and 15 May 2027",  # 1–3 days
        "weep until 14 May 2027",  # 2 days
        "red and warm until 14 May 2027",
        "ends between 19 May 2027 and 2 June 2027",  # 1–3 weeks: 12 + 7, and 12 + 21 = 33 − 31
        "No sport that rubs or soaks it until 19 May 2027",  # 7 days
        "No soaking until 9 June 2027",  # 4 weeks: 12 + 28 = 40 − 31
        "No sun on it until 9 June 2027",
        "below the surface about 12 June 2027",  # 1 month
        "We ring you on 15 May 2027",  # 3 days
        "Touch-up: between 23 June 2027 and 7 July 2027",  # 6–8 weeks: 12 + 42 = 54 − 31, 12 + 56 = 68 − 31 − 30
    ):
        assert day in said, day
    # A month is one of the calendar, also where the next one is shorter: 31 March and 30 April.
    assert "below the surface about 30 April 2027" not in words(planned(simple()))
    assert "about 30 April 2027" in words(planned(finished_on("2027-03-31")))
    # Heavy colour and a scar that is crossed take the later window, 8–12 weeks.
    slow = words(planned(simple(parts=[part("lamp", (20, 20, 80, 80), colours=[{"ink": "rust", "area": "30 cm²"}])])))
    assert "Touch-up: between 7 July 2027 and 4 August 2027" in slow


def finished_on(day: str, **changes: Any) -> Written:
    """A finished job that was planned for 9 March, worked on another day."""
    job = changed(written("diving-bell"), "finished", "on", to=day)
    job["finished"] |= changes
    return job


def test_a_finished_job_has_the_days_on_which_it_was_worked() -> None:
    said = words(planned(finished_on("2027-03-10")))
    assert "10 March 2027" in said and "9 March 2027" not in said
    assert "No soaking until 7 April 2027" in said and "Touch-up: between 21 April 2027 and 5 May 2027" in said
    # It is over: nothing is said of coming, eating and bringing.
    assert "Come on" not in said and "Bring" not in said and "When to see a doctor" in said


@pytest.mark.parametrize("stopped", ["time", "skin", "tap-out", "unwell"])
def test_a_piece_that_was_broken_off_has_a_next_visit_and_no_touch_up(stopped: str) -> None:
    said = words(planned(finished_on("2027-03-10", stopped=stopped)))
    assert "Next visit: not before 7 April 2027" in said and "Touch-up" not in said


def test_a_finished_job_is_cared_for_whatever_would_be_found_today() -> None:
    """Its answers may be unknown by now; the wound is there all the same, and takes the longer time."""
    plan = planned({**finished_on("2027-03-10"), "screening": "unknown", "moles": "unknown"})
    assert plan.work is None and state_of(plan.job, plan) == "finished"
    said = words(plan)
    assert "No soaking until 7 April 2027" in said and "emergency number" in said.lower()
    # Nor does it need a plan: it may be kept as it was worked, under rules that would make none of it.
    alone = client_page_of(RECORDS, plan.job, None)
    assert "No soaking until 7 April 2027" in " ".join(line.text for line in alone.sections[0][1])
    # Nobody can say whether another visit was planned.
    assert "Touch-up" not in said and "Next visit" not in said


def test_what_nobody_wrote_down_is_not_said_to_be_nothing() -> None:
    made = page_of(planned(simple()))
    assert "nothing has to stay free" in " ".join(line.text for line in made.sections[0][1])
    said = words(planned(simple(moles=[{"at": ["90 mm", "90 mm"], "keep": "8 mm"}])))
    assert "nothing has to stay free" not in said and "Moles: 1." in said


def test_every_word_is_the_studios_own() -> None:
    entries = dict(RECORDS.client_page)
    healing = entries["healing"]
    line = healing.lines[0].model_copy(update={"say": "Lass es bis dahin in Ruhe.", "after": None})
    entries["healing"] = healing.model_copy(update={"title": "Danach", "lines": (line,)})
    records = dataclasses.replace(RECORDS, client_page=entries)
    page = page_of(planned(simple()), records)
    (lines,) = (lines for section, lines in page.sections if section.title == "Danach")
    assert [one.text for one in lines] == ["Lass es bis dahin in Ruhe."]
    assert page_of(planned(simple()), dataclasses.replace(RECORDS, client_page={})).sections == ()


def test_every_line_has_a_source_and_advice_is_common_practice_or_published(plans: dict[str, JobPlan]) -> None:
    page = page_of(plans["tide-table"])
    numbers = {line.source for _, lines in page.sections for line in lines}
    assert numbers == set(range(1, len(page.sources) + 1))
    assert "Common practice, nothing published" in page.sources
    first_aid = RECORDS.client_page["doctor"].lines[0]
    assert first_aid.say.startswith("Emergency number, now")
    assert RECORDS.sources[first_aid.source].kind == "common-practice"


def test_all_that_may_be_quoted_and_asked_is_filled_in_for_its_jobs(plans: dict[str, JobPlan]) -> None:
    """A line that quotes everything its job knows is filled in whole."""
    section = RECORDS.client_page["healing"]
    for plan in plans.values():
        state = state_of(plan.job, plan)
        known = [path for path, quote in CLIENT_QUOTES.items() if state in quote.known_for]
        text = type(section.lines[0].say).at(" ".join(f"{{{{ {path} }}}}" for path in known), section.title.place)
        after = section.lines[0].after if state != "not yet" else None
        line = section.lines[0].model_copy(update={"say": text, "after": after})
        made = section.model_copy(update={"lines": (line,), "for_jobs": FOR_JOBS})
        page = page_of(plan, dataclasses.replace(RECORDS, client_page={"all": made}))
        (told,) = page.sections[0][1]
        assert "{{" not in told.text and len(told.text.split()) >= len(known), state
    used = [line for one in RECORDS.client_page.values() for line in one.lines]
    facts = {fact for line in used if line.when is not None for fact in facts_named(line.when)}
    assert facts | {"sitting.finished"} == set(CLIENT_FACTS)
    assert {path for line in used for path in quotes_of(line.say)} == set(CLIENT_QUOTES)


MISTAKES = [
    ("sitting.again-last", "sitting.agian-last", "H701", "did you mean"),
    ("{{ sitting.start }}", "{{ sitting.dial }}", "H701", "is not something that the client's page can quote"),
    ("{{ sitting.start }}", "{{ job.pose }}", "H701", "is not something that the client's page can quote"),
    ("{{ sitting.start }}", "{{ after.first }}", "R316", "`after`"),
    ("for_jobs: [going ahead, finished]\n  lines", "for_jobs: [not yet]\n  lines", "R317", "not known for a job"),
    ("It may weep until {{ after.last }}.", "It may weep.", "R317", "does not quote"),
    ("after: first-call", "after: pad-on", "L409", "no day can be counted"),
    ("after: first-call", "after: first-cal", "L401", "did you mean `first-call`"),
    ("when: {sitting.several: yes}", "when: {sitting.many: yes}", "C502", "did you mean"),
]


def test_a_mistake_in_it_is_shown_where_it_is(tmp_path: Path) -> None:
    content = copy_content(tmp_path, jobs=("tide-table",))
    file = content / "client-page.yml"
    text = file.read_text("utf-8")
    wrong = []
    for right, typed, code, told in MISTAKES:
        assert text.count(right) >= 1, right
        file.write_text(text.replace(right, typed, 1), "utf-8")
        found = [d for d in read_records(content).report if d.level == "error"]
        at = text[: text.index(right)].count("\n") + 1
        said = [f"{d.message} {d.found} {d.expected} {d.help}" for d in found]
        fits = [d.code for d in found] == [code] and told.lower() in said[0].lower()
        if not fits or not found[0].place.file.endswith("client-page.yml") or abs(found[0].place.line - at) > 4:
            wrong.append((typed, [(d.code, d.place.line, s) for d, s in zip(found, said, strict=True)], at))
    assert wrong == []


def test_texts_that_no_letters_bring_onto_one_side_are_a_mistake() -> None:
    entries = dict(RECORDS.client_page)
    healing = entries["healing"]
    entries["healing"] = healing.model_copy(update={"lines": healing.lines * 4})
    records, job = dataclasses.replace(RECORDS, client_page=entries), planned(simple())
    (found,) = beyond_one_side(records, job.job, job, page_of(job, records))
    assert found.level == "error" and found.place == entries["doctor"].id.place
    assert found.place.file.endswith("client-page.yml") and "one side" in found.message
    assert beyond_one_side(RECORDS, job.job, job, page_of(job, RECORDS)) == ()
    # A page that is not the one with these lines is as it was.
    not_yet = planned(simple(screening=None))
    assert beyond_one_side(records, not_yet.job, not_yet, page_of(not_yet, records)) == ()


def test_it_is_written_by_the_command(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "page.html"
    call = ["sheet", "tide-table", "--content", str(CONTENT), "--client"]
    assert main([*call, "-o", str(out)]) == 0 and capsys.readouterr().out == ""
    text = out.read_text("utf-8")
    assert "When to see a doctor" in text and "href" not in text and "<script" not in text
    for other in ("--explain", "--pictures", "--both-units"):
        assert main([*call, other]) == 2
        assert other in capsys.readouterr().err


def test_the_handbook_has_one_for_each_job_and_the_procedure_names_it(site: Path) -> None:
    pages = {path.stem for path in (site / "for-the-client").glob("*.html")}
    assert pages == set(JOBS)
    listed = (site / "jobs.html").read_text("utf-8")
    assert [job for job in JOBS if f'href="../for-the-client/{job}.html"' not in job_page(site, job)] == []
    assert 'href="for-the-client/tide-table.html"' in listed
    procedure = (site / "procedures" / "aftercare.html").read_text("utf-8")
    assert 'href="../reference/client-page.html"' in procedure and "client's page" in procedure.replace("’", "'")


def job_page(site: Path, job: str) -> str:
    return (site / "jobs" / f"{job}.html").read_text("utf-8")


def test_it_reads_on_a_phone(page: Any, site: Path) -> None:
    page.set_viewport_size({"width": 360, "height": 800})
    page.goto((site / "for-the-client" / "keepers-lantern.html").as_uri())
    assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")
    assert page.evaluate("parseFloat(getComputedStyle(document.querySelector('li')).fontSize)") >= 16
