"""Conditions of rules: true, false, or not to be told; the third is never taken for one of the others."""

from __future__ import annotations

import itertools

import pytest

from generator.quantities import Quantity, written
from generator.records.conditions import All, Any_, Compare, Condition, Not, OneOf, Value, holds, read_condition
from generator.records.located import read_located

YES, NO, OPEN = True, False, None
ITCH, PAIN = OneOf("scar.itch", (True,)), OneOf("scar.pain", (True,))

# The tables of three-valued logic after Kleene (textbook).
ALL = {(YES, YES): YES, (YES, OPEN): OPEN, (YES, NO): NO, (OPEN, OPEN): OPEN, (OPEN, NO): NO, (NO, NO): NO}
ANY = {(YES, YES): YES, (YES, OPEN): YES, (YES, NO): YES, (OPEN, OPEN): OPEN, (OPEN, NO): OPEN, (NO, NO): NO}


def condition(text: str) -> Condition:
    return read_condition(read_located(text, "a rule")[0])


@pytest.mark.parametrize(("first", "second"), list(itertools.product((YES, OPEN, NO), repeat=2)))
def test_all_and_any_of_two(first: bool | None, second: bool | None) -> None:
    facts: dict[str, Value] = {"scar.itch": first, "scar.pain": second}
    pair = (first, second) if (first, second) in ALL else (second, first)
    assert holds(All((ITCH, PAIN)), facts) is ALL[pair]
    assert holds(Any_((ITCH, PAIN)), facts) is ANY[pair]


@pytest.mark.parametrize(("value", "turned"), [(YES, NO), (OPEN, OPEN), (NO, YES)])
def test_not(value: bool | None, turned: bool | None) -> None:
    assert holds(Not(ITCH), {"scar.itch": value}) is turned
    assert holds(Not(Not(ITCH)), {"scar.itch": value}) is value


@pytest.mark.parametrize(
    ("colour", "said"),
    [("pink", YES), ("red", YES), ("pale", NO), (None, OPEN)],
)
def test_one_of_a_list(colour: str | None, said: bool | None) -> None:
    assert holds(OneOf("scar.colour", ("pink", "red")), {"scar.colour": colour}) is said


def test_a_fact_that_nobody_wrote_down_is_open() -> None:
    assert holds(OneOf("scar.colour", ("pink",)), {}) is OPEN
    assert holds(Compare("scar.age", "below", written("12 months")), {}) is OPEN


@pytest.mark.parametrize(
    ("low", "high", "below", "at_most", "above", "at_least"),
    [
        (1, 1, YES, YES, NO, NO),
        (2, 2, NO, YES, NO, YES),  # on the limit
        (3, 3, NO, NO, YES, YES),
        (1, 3, OPEN, OPEN, OPEN, OPEN),  # across it
        (1, 2, OPEN, YES, NO, OPEN),  # up to it
        (2, 3, NO, OPEN, OPEN, YES),  # from it
    ],
)
def test_a_range_across_the_limit_is_open(
    low: float, high: float, below: bool | None, at_most: bool | None, above: bool | None, at_least: bool | None
) -> None:
    facts: dict[str, Value] = {"scar.height": Quantity(low, high, "length")}
    limit = written("2 mm")
    for relation, said in (("below", below), ("at most", at_most), ("above", above), ("at least", at_least)):
        assert holds(Compare("scar.height", relation, limit), facts) is said


def test_a_word_is_not_compared_with_a_number() -> None:
    assert holds(Compare("scar.age", "below", written("12 months")), {"scar.age": "old"}) is OPEN


def test_several_keys_mean_all_of_them() -> None:
    rule = condition("{scar.height: at least 2 mm, over.crosses: yes}")
    high = Quantity(3, 3, "length")
    assert holds(rule, {"scar.height": high, "over.crosses": True}) is YES
    assert holds(rule, {"scar.height": high, "over.crosses": False}) is NO
    # No part crosses it, so the height does not matter.
    assert holds(rule, {"over.crosses": False}) is NO
    assert holds(rule, {"over.crosses": True}) is OPEN


def test_nested() -> None:
    rule = condition("{any: [{not: {scar.feel: soft}}, {all: [{scar.itch: yes}, {answer.diabetes: yes}]}]}")
    assert holds(rule, {"scar.feel": "hard"}) is YES
    assert holds(rule, {"scar.feel": "soft", "scar.itch": False}) is NO
    assert holds(rule, {"scar.feel": "soft", "scar.itch": True}) is OPEN
    assert holds(rule, {"scar.feel": "soft", "scar.itch": True, "answer.diabetes": True}) is YES


def test_inches_and_millimetres_are_the_same_limit() -> None:
    in_inches = condition("{scar.height: at least 0.078740157480 in}")
    for height, said in ((1.99, NO), (2.0, YES)):
        assert holds(in_inches, {"scar.height": Quantity(height, height, "length")}) is said


def test_learning_more_never_turns_an_answer_round() -> None:
    """What is decided with a fact unknown stays so, whatever the fact turns out to be."""
    rules = (
        condition("{all: [{scar.itch: yes}, {any: [{scar.pain: yes}, {not: {scar.growth: yes}}]}]}"),
        condition("{not: {all: [{scar.itch: no}, {scar.pain: [yes, no]}]}, scar.growth: no}"),
    )
    names = ("scar.itch", "scar.pain", "scar.growth")
    for rule in rules:
        for values in itertools.product((YES, OPEN, NO), repeat=3):
            facts: dict[str, Value] = dict(zip(names, values, strict=True))
            before = holds(rule, facts)
            for name in (n for n in names if facts[n] is None):
                after = {holds(rule, {**facts, name: learned}) for learned in (YES, NO)}
                assert before is OPEN or after == {before}
