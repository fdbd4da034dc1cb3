"""Scar rules as a decision table, what a scar's age alone says, and every rule in full."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby
from typing import NamedTuple

from markupsafe import Markup

from generator.how_many import how_many
from generator.planning.findings.states import level_words
from generator.press.lists.here import Here
from generator.press.words.addresses import anchor
from generator.press.words.markup import Cells, heading, note, page, paragraph, table_of, valued
from generator.quantities import Quantity
from generator.records.conditions import (
    FACTS,
    All,
    Any_,
    Compare,
    Condition,
    Not,
    OneOf,
    asked_in_words,
    fact_in_words,
    facts_named,
    holds,
    in_words,
    single_conditions,
)
from generator.records.rules import VERDICTS, ScarRule

_AGE = "scar.age"
_ANY = "any: "


def scar_rules_page(here: Here) -> str:
    """What may go over which scar."""
    rules = list(here.records.scar_rules.values())
    return page(
        "Scar rules",
        note(
            "A rule never clears a scar",
            "No rule and no date clears a scar. The artist looks at the skin on the day "
            "and feels it. What nobody knows counts as the worst it could be, and the plan says to ask.",
        ),
        heading("Which rule holds", "decide"),
        Markup('<p class="paper-only">On paper the rules are in words, below.</p>'),
        _on_screen(
            paragraph(
                "The most severe rule is first. All filled cells of a row have to hold together; of cells that begin "
                f"with “{_ANY.strip()}” one is enough. More than one rule may hold: the worst verdict counts, and "
                "every change applies."
            )
        ),
        _on_screen(table_of("Scar rules by what they look at", _decisions(rules, here))),
        heading("By age alone", "by-age"),
        paragraph(
            "Age is counted in whole months from the last possible day of the wound. The day is for looking, not for "
            "starting: everything above still has to be seen on the skin."
        ),
        table_of("What the age of a scar says by itself", _by_age(rules, here)),
        heading("Every rule in full", "rules"),
        table_of("What may go over which scar", here.rows("scar-rules", rules, _in_full)),
        contents=False,
    )


def _on_screen(block: Markup) -> Markup:
    """What is too wide for any paper, and is said in words elsewhere on the page."""
    return Markup('<div class="screen-only">{}</div>').format(block)


def _in_full(rule: ScarRule, here: Here) -> Cells:
    return {
        "Rule": rule.id,
        "When": in_words(rule.when),
        "Verdict": _verdict(rule.verdict),
        "What follows": rule.consequence,
        "What would clear it": rule.clears or "nothing to clear; work with care",
        "Looked at again from": _again(rule, here),
        "Passes at most": "as the technique" if rule.passes is None else f"at most {rule.passes}",
        "Added working time": "none" if rule.slower is None else here.measured(rule.slower),
    }


def _verdict(verdict: str) -> Markup:
    """A verdict, sorted by how severe it is."""
    return valued(level_words(verdict), VERDICTS.index(verdict))


def _again(rule: ScarRule, here: Here) -> str:
    if rule.wait_until_age is None:
        return "no age named"
    return valued(f"{here.measured(rule.wait_until_age)} after the wound", rule.wait_until_age.low)


def _decisions(rules: list[ScarRule], here: Here) -> Iterator[tuple[str, Sequence[tuple[str, str]]]]:
    """One row a rule, one column a fact that any rule looks at; what does not fit into columns is said in words."""
    split = {rule.id: by_fact(rule.when) for rule in rules}
    named = {fact for rule in rules for fact in facts_named(rule.when)}
    facts = [*(fact for fact in FACTS if fact in named), *sorted(named - set(FACTS))]
    in_full = any(tests is None for tests in split.values())
    for rule in sorted(rules, key=lambda rule: -VERDICTS.index(rule.verdict)):
        tests = split[rule.id]
        yield (
            anchor("decide", rule.id),
            (
                ("Rule", here.to_record("scar-rules", rule.id, rule.id)),
                *((fact_in_words(fact).capitalize(), (tests or {}).get(fact, "")) for fact in facts),
                *([("Said in words", in_words(rule.when) if tests is None else "")] if in_full else []),
                ("Verdict", _verdict(rule.verdict)),
                ("What changes", "; ".join(_changes(rule, here))),
                ("Source", here.to_source(rule.source)),
            ),
        )


def _changes(rule: ScarRule, here: Here) -> Iterator[str]:
    yield rule.consequence.rstrip(".")
    if rule.passes is not None:
        yield f"one spot at most {rule.passes} times"
    if rule.slower is not None:
        yield f"{here.measured(rule.slower)} more time"
    if rule.wait_until_age is not None:
        yield f"looked at again from {_again(rule, here)}"


class _Asked(NamedTuple):
    """What is asked of one fact; one_of: it is one of alternatives, of which one is enough."""

    said: str
    one_of: bool = False


def by_fact(condition: Condition) -> Mapping[str, str] | None:
    """What a condition asks of each fact, as cells of one row; None where one row cannot say it."""
    asked = _by_fact(condition)
    if asked is None:
        return None
    return {fact: f"{_ANY if one.one_of else ''}{one.said}" for fact, one in asked.items()}


def _by_fact(condition: Condition) -> Mapping[str, _Asked] | None:
    if isinstance(condition, Compare | OneOf):
        return {condition.fact: _Asked(asked_in_words(condition))}
    if isinstance(condition, Not):
        inner = condition.part
        return {inner.fact: _Asked(f"not {asked_in_words(inner)}")} if isinstance(inner, Compare | OneOf) else None
    cells: dict[str, _Asked] = {}
    found = [_by_fact(part) for part in condition.parts]
    if isinstance(condition, Any_):
        if not all(isinstance(part, Compare | OneOf) for part in condition.parts):
            return None
        found = [{fact: one._replace(one_of=True) for fact, one in (tests or {}).items()} for tests in found]
    alternatives = 0
    for tests in found:
        if tests is None:
            return None
        alternatives += any(one.one_of for one in tests.values()) and isinstance(condition, All)
        for fact, one in tests.items():
            if fact in cells and (one.one_of or cells[fact].one_of):
                return None
            cells[fact] = _Asked(f"{cells[fact].said} and {one.said}") if fact in cells else one
    # Two sets of alternatives in one row could not be kept apart.
    return cells if alternatives < 2 else None


def _by_age(rules: list[ScarRule], here: Here) -> Iterator[tuple[str, Cells]]:
    """One row for each month while a rule says to wait for an age, and one for each stretch after that."""
    aged = [rule for rule in rules if set(facts_named(rule.when)) == {_AGE}]
    asked = (single for rule in aged for single in single_conditions(rule.when))
    last = max((int(single.limit.low) for single in asked if isinstance(single, Compare)), default=0)

    def at(months: int) -> tuple[tuple[ScarRule, ...], int, int]:
        """The rules that hold; while they say to wait, until which age, and the age itself."""
        held = tuple(rule for rule in aged if holds(rule.when, {_AGE: Quantity(months, months, "months")}))
        until = max((int(rule.wait_until_age.low) for rule in held if rule.wait_until_age), default=0)
        return (held, until, months) if until > months else (held, 0, 0)

    for (held, until, _), run in groupby(range(last + 1), at):
        stretch = list(run)
        first, end = stretch[0], stretch[-1]
        again = valued("no wait for its age", 0)
        if until:
            age, left = how_many(first, "month"), until - first
            again = valued(f"in {how_many(left, 'month')}, when it is {until} months old", left)
        elif end == last:
            age = f"{first} months and more"
        else:
            age = f"{first}–{end} months" if end > first else f"{first} months"
        worst = max((rule.verdict for rule in held), key=VERDICTS.index, default=None)
        by_rule = Markup(", ").join(here.to_record("scar-rules", rule.id, rule.id) for rule in held)
        yield (
            f"age-{first}",
            {
                "Age": valued(age, first),
                "Verdict": valued("no rule by age", -1) if worst is None else _verdict(worst),
                "Looked at again": again,
                "By the rule": by_rule or "every other rule still holds",
            },
        )
