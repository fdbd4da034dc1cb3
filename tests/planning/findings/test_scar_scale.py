"""A clinician's score of a scar: within the published bounds, added up, open to rules, printed nowhere."""

from __future__ import annotations

import dataclasses

import pytest

from generator.planning.as_json import plan_as_data
from generator.press.sheet.contents import sheet_of
from generator.press.sheet.printing import sheet_html
from generator.records.conditions import FACTS, Value, holds, read_condition
from generator.records.families import Records
from generator.records.located import read_located
from generator.trade.refusal import Refusal
from generator.trade.scars import scar_scale_total
from tests.planning.demo import RECORDS, Written, changed, planned, read, scar, simple, written
from tests.planning.timing.test_learning import AS_OF

# Sullivan 1990: pigmentation to 2, vascularity to 3, pliability to 5, height to 3.
HIGHEST = {"pigmentation": 2, "vascularity": 3, "pliability": 5, "height": 3}


def scored(**scores: int) -> Written:
    scale = {item: str(score) for item, score in {**dict.fromkeys(HIGHEST, 0), **scores}.items()}
    return simple(scars=[scar(scale=scale)])


@pytest.mark.parametrize(("scores", "total"), [({}, 0), (HIGHEST, 13), ({"pliability": 4, "height": 1}, 5)])
def test_the_total_in_the_plan_and_its_data(scores: dict[str, int], total: int) -> None:
    made = planned(scored(**scores))
    found = made.scars[0].scale
    assert found is not None and found.low == found.high == total and found.function is scar_scale_total
    data = plan_as_data(made)["scars"][0]["scale"]
    assert data["value"] == total
    assert data["inputs"]["height"]["record"] == "jobs.signal-lamp.scars.s1.scale.height"


@pytest.mark.parametrize("item", HIGHEST)
def test_the_bounds_are_those_of_the_published_form(item: str) -> None:
    assert read(scored(**{item: HIGHEST[item]}))[1] == ()
    made, report = read(scored(**{item: HIGHEST[item] + 1}))
    assert made is None and [d.code for d in report] == ["R309"]
    with pytest.raises(Refusal, match=item):
        scar_scale_total(**{**dict.fromkeys(HIGHEST, 0), item: HIGHEST[item] + 1})


def test_all_four_items_are_needed() -> None:
    job = changed(scored(), "scars", 0, "scale", "height")
    assert [d.code for d in read(job)[1]] == ["R302"]


def test_a_scar_without_a_score_is_not_asked_about_one() -> None:
    made = planned(simple(scars=[scar()]))
    assert made.scars[0].scale is None and made.verdict.settled
    assert plan_as_data(made)["scars"][0]["scale"] is None


def test_a_score_changes_no_verdict_by_itself() -> None:
    low, high = planned(scored()), planned(scored(**HIGHEST))
    assert (low.verdict, low.findings) == (high.verdict, high.findings)


def test_the_sheet_does_not_know_it() -> None:
    with_score, without = written("keepers-lantern"), changed(written("keepers-lantern"), "scars", 0, "scale")
    sheets = [sheet_html(sheet_of(RECORDS, planned(job)), AS_OF) for job in (with_score, without)]
    assert sheets[0] == sheets[1]


def rule(text: str) -> Records:
    """The demo records with one more scar rule."""
    found = next(iter(RECORDS.scar_rules.values()))
    condition = read_condition(read_located(text, "a rule")[0])
    made = found.model_copy(update={"id": "scored", "when": condition, "verdict": "doctor", "wait_until_age": None})
    return dataclasses.replace(RECORDS, scar_rules={**RECORDS.scar_rules, "scored": made})


@pytest.mark.parametrize(
    ("pliability", "level", "settled"), [(4, "clear", True), (5, "doctor", True), (None, "doctor", False)]
)
def test_a_rule_may_look_at_the_total_and_asks_where_there_is_none(
    pliability: int | None, level: str, settled: bool
) -> None:
    job = simple(scars=[scar()]) if pliability is None else scored(pliability=pliability)
    verdict = planned(job, rule("{scar.scale: at least 5}")).verdict
    assert (verdict.level, verdict.settled) == (level, settled)


@pytest.mark.parametrize(
    ("text", "score", "said"),
    [
        ("{scar.scale: below 5}", 4, True),
        ("{scar.scale: below 5}", 5, False),
        ("{scar.scale: above 5}", 6, True),
        ("{scar.scale: at most 5}", 5, True),
        ("{scar.scale: at most 5}", None, None),
    ],
)
def test_scores_are_compared(text: str, score: int | None, said: bool | None) -> None:
    facts: dict[str, Value] = {"scar.scale": None if score is None else float(score)}
    assert holds(read_condition(read_located(text, "a rule")[0]), facts) is said


@pytest.mark.parametrize("text", ["above 14", "above 5 mm", "above -1", "above 2.5", "above five", "above ²"])
def test_other_scores_are_refused_in_a_rule(text: str) -> None:
    with pytest.raises(Exception, match="whole score") as refused:
        read_condition(read_located(f"{{scar.scale: {text}}}", "a rule")[0])
    assert refused.value.type == "R309"  # type: ignore[attr-defined]


def test_the_highest_total_is_that_of_the_published_form() -> None:
    assert FACTS["scar.scale"].bounds() == f"0 to {sum(HIGHEST.values())}"
