"""One name for each state of a job: on plan, sheet, page and in data the same; on lists fewer, and none that tells."""

from __future__ import annotations

import datetime
import re
from pathlib import Path
from typing import Any

import pytest

from generator.planning.as_json import plan_as_data
from generator.planning.findings.states import State
from generator.planning.for_lists import needs_of
from generator.press.sheet.contents import sheet_of
from generator.press.sheet.plan_text import plan_text
from generator.press.sheet.printing import job_html, sheet_html
from generator.press.sheet.summary import search_entry, summary_of
from tests.planning.demo import JOBS, RECORDS, Written, demo, planned, simple

AS_OF = datetime.date(2027, 5, 1)
NOT_WORKED = {"cancelled", "postponed", "no-show"}
LISTED = {"clear", "with care", "not yet", "finished", *NOT_WORKED}
# Jobs that the demo studio has none of.
IN_STATE: dict[State, Written] = {
    State.NOT_ASKED: simple(screening=None),
    State.ASK: simple(allergies=None),
    State.CLEAR: simple(),
    State.CANCELLED: simple(not_worked="cancelled"),
    State.POSTPONED: simple(not_worked="postponed"),
    State.NO_SHOW: simple(not_worked="no-show"),
}
# How a sentence begins that says what to do.
_VERBS = re.compile(
    r"(?:"
    r"agree|ask|change|choose|cover|draw|find|get|give|have|keep|lay|leave|let|look|make|"
    r"measure|mend|mix|move|nothing|open|place|put|read|redraw|repeat|rest|rinse|see|send|"
    r"set|slow|start|take|talk|tape|use|wait|wipe|work|write"
    r")\b",
    re.IGNORECASE,
)
_INSIDE = re.compile(r"\b(?:is|are|has|have|comes?|heals?|stays?|keeps?|says?|needs?|counts?|stops?|ask|did)\b")


def test_a_state_has_one_name_and_what_no_plan_goes_ahead_with_is_not_yet_on_lists() -> None:
    assert [state.value for state in State] == [
        "not asked yet",
        "ask first",
        "wait until",
        "ask a doctor first",
        "not here",
        "with care",
        "clear to start",
        "finished",
        "cancelled",
        "postponed",
        "no-show",
    ]
    assert {state.listed for state in State} == LISTED
    assert len({state.mark for state in State}) == len(State)


@pytest.mark.parametrize("wanted", IN_STATE)
def test_a_job_in_a_state_says_it_everywhere_by_its_name(wanted: State) -> None:
    plan = planned(IN_STATE[wanted])
    assert plan.state is wanted and plan_as_data(plan)["state"] == wanted.value
    sheet = sheet_of(RECORDS, plan)
    for said in (plan_text(RECORDS, plan), sheet_html(sheet, AS_OF), job_html(RECORDS, plan, sheet, AS_OF)):
        assert wanted.printed in said and "until answered" not in said


def test_a_question_says_whom_to_ask_and_never_what_its_answer_could_lead_to() -> None:
    assert planned(simple(allergies=None)).verdict.heading == "Ask first: one question open, ask the client"
    both = planned(simple(allergies=None, moles=None)).verdict
    assert both.heading == "Ask first: 2 questions open, ask the client"
    labels = planned(simple(allergies=["propolis"])).verdict
    assert labels.heading == "Ask first: one question open, look it up"
    assert planned(simple(screening=None)).verdict.heading == "Not asked yet"
    # The worst that the answer could lead to is on no sheet: an open question is called a question.
    sheet = sheet_of(RECORDS, planned(simple(scars=None)))
    assert {reason.level for reason in sheet.reasons} == {"ask"}


def test_lists_and_search_say_one_of_a_few_words_and_no_day() -> None:
    wrong = []
    for job in JOBS:
        plan = demo(job)
        summary, needs = summary_of(RECORDS, plan, "00000000"), needs_of(RECORDS, plan)
        heading = plan.verdict.heading
        entry = search_entry(summary)["text"]
        if summary.state not in LISTED or summary.state != plan.state.listed:
            wrong.append((job, summary.state))
        if needs is not None and needs.state != summary.state:
            wrong.append((job, needs.state))
        if summary.state == "not yet" and (heading in entry or "doctor" in entry or "wait" in entry.lower()):
            wrong.append((job, entry))
    assert wrong == []


def test_no_list_of_the_site_names_the_reason_of_a_job_that_waits(site: Path) -> None:
    """A reason or a day beside a client's reference would tell of an answer."""
    lists = [*site.glob("jobs*.html"), site / "index.html", site / "reference" / "restock.html", site / "stamp.html"]
    telling = {
        demo(job).verdict.heading
        for job in JOBS
        if demo(job).state.listed == "not yet" or demo(job).job.finished is not None
    } - {"Clear to start", "With care"}
    found = [(page.name, said) for page in lists for said in telling if said in page.read_text("utf-8")]
    assert telling and found == []


def _sentences(text: str) -> list[str]:
    return [part.strip() for part in re.split(r"(?<=[.?!])\s+", text) if part.strip()]


def test_each_remedy_is_a_sentence_with_a_verb() -> None:
    remedies: dict[str, str] = {f"{f.rule}": f.remedy for job in JOBS for f in demo(job).findings}
    remedies |= {f"scar-rules.{r.id}": r.clears for r in RECORDS.scar_rules.values() if r.clears}
    remedies |= {f"screening.{q.id}": q.clears for q in RECORDS.screening.values()}
    remedies |= {f"supplies.{s.id}": s.instead for s in RECORDS.supplies.values() if s.instead}
    wrong = [
        (where, sentence)
        for where, text in remedies.items()
        for sentence in _sentences(text)
        if not _VERBS.match(sentence) and not _INSIDE.search(sentence)
    ]
    assert wrong == [] and all(text.endswith((".", "?", "!")) for text in remedies.values())


def test_an_arrow_says_what_to_do_and_nothing_else(site: Path) -> None:
    """In templates and code it stands before a remedy alone; on a sheet each arrow is followed by one."""
    folder = Path(__file__).parents[3] / "generator"
    uses: list[Any] = [
        (file.name, line.strip())
        for file in sorted([*folder.rglob("*.py"), *folder.rglob("*.j2")])
        for line in file.read_text("utf-8").splitlines()
        if "→" in line and "remedy" not in line and file.name != "text_width.py"
    ]
    assert uses == []
    plan = demo("keepers-lantern")
    html = sheet_html(sheet_of(RECORDS, plan), AS_OF)
    assert html.count("→") == sum(bool(reason.remedy) for reason in sheet_of(RECORDS, plan).reasons)
