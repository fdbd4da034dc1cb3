"""Nothing that is printed tells which question was answered badly, or what a scar came from."""

from __future__ import annotations

import datetime
import json
import re

import pytest

from generator.planning.as_json import plan_as_data
from generator.planning.findings.private import SAID
from generator.planning.plan import JobPlan
from generator.planning.working.scars import rests_on_an_answer
from generator.press.sheet.appendix import appendix_of
from generator.press.sheet.contents import sheet_of
from generator.press.sheet.plan_text import plan_text
from generator.press.sheet.printing import explained_html, job_html, sheet_html
from generator.press.sheet.stamp import stamp_of
from generator.quantities import written as quantity
from generator.records.conditions import read_condition
from generator.records.families import Records
from generator.records.located import read_located
from generator.records.skin import AFTER
from tests.planning.demo import RECORDS, Written, explicit_answers, part, planned, scar, simple, with_entry

AS_OF = datetime.date(2027, 5, 1)
BAD = {"yes": "no", "no": "yes"}
DATE = re.compile(r"\d{4}-\d{2}-\d{2}")
TELLING = re.compile(
    r"heart|midwife|medicine|dose|cancer|melanoma|pregnan|nursing|blood|radi(ation|other)|isotretinoin|retinoid|"
    r"diabet|valve|faint|fits|infection|antibiotic|lymph|pharmacist|sunburn|alcohol|numb(?!er)|allerg(?!ies)|laser|"
    r"surgery|injury|burn|\bmole\b|treated|two weeks|four weeks|six months|lie down|trial spot|Dermatologic|FDA|"
    r"photo document",
    re.IGNORECASE,
)


def answered(question: str, answer: str) -> Written:
    job = explicit_answers(simple())
    job["screening"]["answers"][question] = answer
    return job


def printed(plan: JobPlan, records: Records = RECORDS) -> str:
    """All that goes on paper, on the job's page or to the terminal, without days, stamp and how the code is drawn."""
    sheet = sheet_of(records, plan)
    appendix = appendix_of(records, plan, sheet)
    whole = "\n".join(
        [
            sheet_html(sheet, AS_OF),
            job_html(records, plan, sheet, AS_OF),
            plan_text(records, plan),
            explained_html(sheet, AS_OF, appendix),
        ]
    )
    whole = re.sub(r"<style>.*?</style>|<script>.*?</script>", "", whole, flags=re.DOTALL)
    whole = re.sub(r"<path[^>]*class=\"qrline\"[^>]*>", "", whole)
    whole = whole.replace(stamp_of(sheet), "STAMP")
    # The other stamps are made of the printed words, days among them.
    for stamp in re.findall(r'data-print="\S+ ([0-9a-f]{8})"', whole):
        whole = whole.replace(stamp, "STAMP")
    return DATE.sub("DAY", whole)


def crossing(cause: str) -> Written:
    """A scar in the middle of a part, as the rule for burns needs one."""
    ground = part("ground", role="filler", detail="broad")
    over = scar(**{"after": cause, "from": ["30 mm", "40 mm"], "to": ["50 mm", "40 mm"]})
    return simple(parts=[ground, part("lamp", (60, 60, 30, 30), focal="yes")], scars=[over])


def test_no_badly_answered_question_can_be_told_from_another_of_its_level() -> None:
    seen: dict[tuple[str, bool], dict[str, list[str]]] = {}
    for question in RECORDS.screening.values():
        answers = [BAD[question.clear], *(["2027-05-04"] if question.wait else [])]
        for answer in answers:
            plan = planned(answered(str(question.id), answer))
            if question.wait and answer == "2027-05-04" and plan.verdict.level == "clear":
                continue
            assert plan.verdict.level == question.otherwise
            group = seen.setdefault((question.otherwise, plan.verdict.until is None), {})
            group.setdefault(printed(plan), []).append(str(question.id))
    tried = [name for texts in seen.values() for names in texts.values() for name in names]
    assert len(seen) == 4 and len(tried) > len(set(tried)) == len(RECORDS.screening)
    for level, texts in seen.items():
        assert len(texts) == 1, (level, list(texts.values()))


@pytest.mark.parametrize("cause", AFTER)
@pytest.mark.parametrize("over", [True, False])
def test_no_cause_of_a_scar_can_be_told_from_another_of_its_level(cause: str, over: bool) -> None:
    def job(after: str) -> Written:
        return crossing(after) if over else simple(scars=[scar(after=after)])

    texts: dict[str, set[str]] = {}
    for other in AFTER:
        plan = planned(job(other))
        texts.setdefault(plan.verdict.level, set()).add(printed(plan))
    mine = planned(job(cause))
    assert texts[mine.verdict.level] == {printed(mine)}
    assert not TELLING.search(said(mine)), TELLING.search(said(mine))


def said(plan: JobPlan) -> str:
    """What is said of the findings, with their sources."""
    sheet = sheet_of(RECORDS, plan)
    return "\n".join([sheet.verdict, sheet.meaning, *(f"{r.reason} {r.remedy}" for r in sheet.reasons), *sheet.sources])


def test_no_word_that_tells_is_printed_for_any_answer() -> None:
    for question in RECORDS.screening.values():
        plan = planned(answered(str(question.id), BAD[question.clear]))
        assert not TELLING.search(said(plan)), (question.id, TELLING.search(said(plan)))
        html = printed(plan)
        assert str(question.id) not in html and question.clears not in html and question.ask not in html


def test_the_pattern_finds_what_the_records_say() -> None:
    """The pages of reference do tell; a pattern that missed them would find nothing on a sheet either."""
    told = [q for q in RECORDS.screening.values() if TELLING.search(f"{q.ask} {q.clears}")]
    assert len(told) > len(RECORDS.screening) / 2


@pytest.mark.parametrize("question", list(RECORDS.screening))
def test_an_open_question_is_counted_on_the_sheet_and_named_in_the_plan(question: str) -> None:
    plan = planned(answered(question, "unknown"))
    sheet = sheet_of(RECORDS, plan)
    assert [(r.level, r.reason) for r in sheet.reasons] == [("ask", "1 question of the screening is not answered.")]
    html = sheet_html(sheet, AS_OF)
    assert "Ask:" in html and question not in html and f"“{question}” is not answered" in plan_text(RECORDS, plan)
    several = answered(question, "unknown")
    several["screening"]["answers"] |= {"diabetes": "unknown", "sunburn": "unknown"}
    number = len({question, "diabetes", "sunburn"})
    (reason,) = sheet_of(RECORDS, planned(several)).reasons
    assert reason.reason == f"{number} questions of the screening are not answered."


def test_the_same_sentence_stands_once() -> None:
    both = {**answered("skin-cancer-in-area", "yes"), "scars": [scar(after="skin cancer")]}
    plan = planned(both)
    assert len([f for f in plan.findings if f.level == "not here"]) == 2
    assert printed(plan).count(SAID["not here"].remedy) == printed(planned(answered("of-age", "no"))).count(
        SAID["not here"].remedy
    )


def test_the_data_of_a_plan_has_ids_and_no_words_of_an_answer() -> None:
    for question in RECORDS.screening.values():
        found = plan_as_data(planned(answered(str(question.id), BAD[question.clear])))["findings"]
        assert [f["rule"] for f in found] == [f"screening.{question.id}"]
        assert question.clears not in json.dumps(found, ensure_ascii=False)


def test_the_data_of_a_plan_tells_nothing_that_a_scar_was_read_by() -> None:
    burnt = planned(simple(scars=[{**scar(), "after": "burn"}]))
    assert burnt.scars and burnt.scars[0].facts["scar.after"] == "burn"
    data = plan_as_data(burnt)
    assert set(data["scars"][0]) == {"scar", "age", "crossed_by", "scale"}
    assert "burn" not in json.dumps(data) and "answer." not in json.dumps(data)


def test_which_rules_of_scars_are_private() -> None:
    private = {str(rule.id) for rule in RECORDS.scar_rules.values() if rests_on_an_answer(rule)}
    assert private == {"scar-after-skin-cancer", "scar-after-radiotherapy", "scar-after-burn"}


@pytest.mark.parametrize("when", ["{scar.after: injury}", "{answer.changed-mole: no}", "{not: {scar.after: burn}}"])
def test_a_rule_that_slows_for_a_cause_is_not_named_where_numbers_are_explained(when: str) -> None:
    condition = read_condition(read_located(when, "a rule")[0])
    changes = {"when": condition, "verdict": "care", "slower": quantity("77 %"), "passes": 1}
    records = with_entry("scar-rules", "scar-graft", **changes)
    plan = planned(crossing("injury"), records)
    html = printed(plan, records)
    assert plan.work is not None and "77" in html and "graft" not in html.lower()
    assert SAID["care"].remedy in html
