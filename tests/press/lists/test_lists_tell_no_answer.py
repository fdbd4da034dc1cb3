"""What lists, days, orders, recalls, search and learning say of a job is the same whatever its client answered.

The records here let every answer go ahead: each question and each cause of a scar asks for care alone, slows and
limits passes, and each article has something to be taken instead. So only the word of the state may differ, clear or
with care.
"""

from __future__ import annotations

import dataclasses
import datetime
import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from typing import Any

import pytest

from generator.dates import as_of
from generator.planning.findings.states import State
from generator.planning.for_lists import lots_of, needs_of
from generator.planning.plan import booked_of, not_finished
from generator.planning.supplies.restock import restock, span_ahead
from generator.planning.supplies.tracing import traces
from generator.planning.timing.learning import learn_of, times_of
from generator.press.formulas.carried import shows
from generator.press.lists.day import day_html, day_view
from generator.press.lists.days import on_its_day, with_days
from generator.press.lists.here import Here
from generator.press.lists.jobs import jobs_pages
from generator.press.lists.learning import LEARNING, learning_page
from generator.press.lists.lots import lots_pages
from generator.press.lists.recall import recall_notes, recall_sheets, recall_text
from generator.press.lists.restock import RESTOCK, restock_page, restock_text
from generator.press.pages import Gathered, generated_pages
from generator.press.sheet.as_printed import as_printed, printed_state
from generator.press.sheet.contents import sheet_without_map
from generator.press.sheet.differences import differences
from generator.press.sheet.printing import sheet_html
from generator.press.sheet.summary import search_entry, summary_of
from generator.press.words.addresses import LOTS
from generator.quantities import written as quantity
from generator.records.conditions import read_condition
from generator.records.families import Records
from generator.records.ids import Reference
from generator.records.located import read_located
from generator.records.skin import AFTER
from tests.planning.demo import RECORDS, Written, changed, explicit_answers, job_of, planned, scar, written

DAY = datetime.date(2027, 3, 9)
BAD = {"yes": "no", "no": "yes"}
OVER = {"from": ["20 mm", "60 mm"], "to": ["60 mm", "60 mm"]}
CHECKED = {"not_on_tray": "yes", "by": "quill", "on": "2027-03-08"}


@cache
def lenient() -> Records:
    """A studio that goes ahead with care after every answer, with limits and exchanges of its own for each."""
    questions = {
        name: one.model_copy(update={"otherwise": "care", "wait": None, "wait_limit": None})
        for name, one in RECORDS.screening.items()
    }
    rules, rule = {}, RECORDS.scar_rules["scar-graft"]
    for number, when in enumerate((*(f"scar.after: {cause}" for cause in AFTER), "answer.diabetes: yes")):
        condition = read_condition(read_located(f"{{{when}}}", "a rule")[0])
        limits = {"verdict": "care", "slower": quantity(f"{20 + number} %"), "passes": 1 + number % 2}
        rules[f"own-{number}"] = rule.model_copy(update={"when": condition, **limits})
    supplies = {
        name: one.model_copy(
            update={"instead": one.instead or "Take the other one.", "contains": (*(one.contains or ()), "resin")}
        )
        for name, one in RECORDS.supplies.items()
    }
    supplies["razor"] = supplies["razor"].model_copy(
        update={"contains": (), "or_else": Reference.to("apron", "supplies", supplies["razor"].id.place)}
    )
    studio = RECORDS.studio.model_copy(update={"numbing_allowed": "yes"})
    return dataclasses.replace(RECORDS, studio=studio, screening=questions, scar_rules=rules, supplies=supplies)


def base(**changes: Any) -> Written:
    """A demo job with a scar under its largest part, and each question answered clear."""
    return {**explicit_answers(written("diving-bell")), "healed": [], "scars": [scar(**OVER)], **changes}


def answers() -> Iterator[tuple[str, Written]]:
    """Each answer that a client can give, alone."""
    for question in RECORDS.screening.values():
        yield str(question.id), changed(base(), "screening", "answers", str(question.id), to=BAD[question.clear])
        if question.wait:
            yield f"{question.id} lately", changed(base(), "screening", "answers", str(question.id), to="2027-03-01")
    for word in sorted({word for one in lenient().supplies.values() for word in one.contains or ()} | {"violet"}):
        yield word, base(allergies=[{"to": word, "checked": CHECKED}])
    for cause in AFTER:
        yield cause, base(scars=[scar(**OVER, after=cause)])
    yield "numbing", base(numbing=[{"product": "lidocaine cream", "by": "client", "on": "2027-03-09"}])


def listed(job: Written, records: Records, whole: bool = False) -> str:
    """All that is published of a planned and of a finished job outside their own pages, but for the words of a state.

    whole: every generated page, and the formulas that are shown with this job.
    """
    finished = job_of(job)
    plan = planned(changed(job, "finished"), records)
    assert plan.work is not None, plan.verdict.heading
    day, needs, lots = as_of(DAY), needs_of(records, plan), [lots_of(records, plan)]
    summary = summary_of(records, plan, "0badcafe")
    left = on_its_day(records, plan.job, plan, plan.state.listed, booked_of(records, not_finished(plan.job)))
    assert needs is not None and left is not None and lots[0] is not None
    found = traces(records, [one for one in lots if one is not None])
    learned = learn_of(records, times_of(records, finished))[0]
    ordered = restock(records, span_ahead(records, DAY), [needs])
    said = [
        day_html(day_view(records, DAY, [left]), day),
        with_days("# Front\n\n## At the station\n", DAY, [left]),
        *jobs_pages([summary], DAY, [DAY]).made.values(),
        restock_page(Here(records, RESTOCK, day), ordered),
        restock_text(records, ordered),
        *lots_pages(Here(records, LOTS, day), found).values(),
        *(html for pair in recall_sheets(records, found, day) for html in pair),
        recall_text(found),
        *recall_notes(found, found, records),
        learning_page(Here(records, LEARNING, day), learned),
        *search_entry(summary).values(),
        str(shows(plan)),
    ]
    if whole:
        gathered = Gathered([summary], plan, learned, [needs], traced=found, days=[DAY])
        said += generated_pages(records, day, gathered).values()
    text = re.sub(r"(?:data-print=\"\S+| stamp) [0-9a-f]{8}\b", "", "\n".join(said))
    return re.sub(r"\b(?:clear|with care)\b", "STATE", text)


def test_lists_are_the_same_whatever_a_client_answered() -> None:
    """All questions answered badly at once with all allergies, and scars of every cause."""
    records, each = lenient(), dict(answers())
    bad = {str(question.id): BAD[question.clear] for question in RECORDS.screening.values()}
    allergies = [job["allergies"][0] for job in each.values() if job["allergies"] != "none"]
    scars = [scar(id=f"s{number}", **OVER) for number in range(1, len(AFTER) + 1)]
    caused = [{**one, "after": cause} for one, cause in zip(scars, AFTER, strict=True)]
    clear = listed(base(scars=scars), records)
    assert len(allergies) > 10 and "By its sheet" in clear and "times-quill" in clear and "R-0139" in clear
    tried = {
        "answers": changed(base(scars=scars, allergies=allergies), "screening", "answers", to=bad),
        "causes": base(scars=caused),
    }
    assert {name for name, job in tried.items() if listed(job, records) != clear} == set()


def sheet_of(job: Written, records: Records) -> str:
    return sheet_html(sheet_without_map(records, planned(changed(job, "finished"), records)), as_of(DAY))


def told(html: str) -> dict[str, str]:
    """What may be said elsewhere of what a sheet says, but for the word of its state."""
    lines = as_printed(html).items()
    return {name: line.told for name, line in lines if line.told is not None and name != "Verdict"}


def test_what_is_told_of_a_sheet_is_the_same_whatever_a_client_answered() -> None:
    records = lenient()
    clear = told(sheet_of(base(), records))
    bad = {str(question.id): BAD[question.clear] for question in RECORDS.screening.values()}
    answered = changed(base(), "screening", "answers", to=bad)
    allergic = (changed(base(), "allergies", to=job["allergies"]) for _, job in answers() if job["allergies"] != "none")
    assert "Step 1, minutes" in clear and "end" in clear
    assert [job["allergies"] for job in (answered, *allergic) if told(sheet_of(job, records)) != clear] == []


def test_a_sheet_tells_of_its_tray_what_nobody_is_allergic_to_and_without_marks_nothing() -> None:
    html = sheet_html(sheet_without_map(RECORDS, planned(written("tide-table"))), as_of(DAY))
    said, tells = as_printed(html), told(html)
    assert "Tray, Nitrile gloves" in said and "Tray, Nitrile gloves" not in tells
    assert tells["Tray, Apron"] == said["Tray, Apron"].said
    assert told(html.replace("may-tell", "")) == {}


def test_a_sheet_of_a_program_with_other_states_is_read_and_its_verdict_told_nowhere() -> None:
    html = sheet_html(sheet_without_map(RECORDS, planned(written("tide-table"))), as_of(DAY))
    other = html.replace('<div class="verdict clear">', '<div class="verdict of-another-program">')
    assert other != html and printed_state(html) is State.CLEAR and printed_state(other) is None
    assert as_printed(other)["Verdict"].told is None and told(other) == told(html)


def test_of_a_sheet_kept_before_there_were_marks_nothing_is_told_that_today_does_not_say() -> None:
    allergic = sheet_without_map(RECORDS, planned(changed(written("tide-table"), "allergies", to=["latex"])))
    today = sheet_without_map(RECORDS, planned(written("tide-table")))
    unmarked = replace(
        allergic,
        hands_off=tuple(replace(one, may_tell=False) for one in allergic.hands_off),
        tray=tuple(replace(one, may_tell=False) for one in allergic.tray),
        pauses=tuple(replace(one, may_tell=()) for one in allergic.pauses),
        more_to_tick=tuple(replace(one, may_tell=()) for one in allergic.more_to_tick),
    )
    assert "latex" in str(allergic.pauses).lower()
    assert set(differences(unmarked, today)) <= set(differences(allergic, today))


@pytest.mark.nightly
def test_every_page_is_the_same_after_each_answer_alone() -> None:
    records = lenient()
    clear = listed(base(), records, whole=True)
    assert {name for name, job in answers() if listed(job, records, whole=True) != clear} == set()
