"""The small language in which a rule says when it applies.

    {scar.age: below 12 months}                 a comparison: below, at most, above, at least
    {scar.colour: [pink, red, purple]}          one of a list
    {scar.itch: yes}                            one word
    {all: [...]}, {any: [...]}, {not: {...}}    together; several keys in one mapping mean all of them

Every fact has a type, so a wrong field, word, kind or unit is a mistake like any other. A condition knows
three values: true, false, and None for “cannot be known”: a fact that nobody wrote down, or a range that lies
across the limit.
"""

from __future__ import annotations

import operator
from collections.abc import Callable, Iterator
from collections.abc import Mapping as Facts
from dataclasses import dataclass, field

from pydantic import GetCoreSchemaHandler
from pydantic_core import CoreSchema, core_schema

from generator.near_miss import did_you_mean, nearest
from generator.quantities import Quantity
from generator.records.fields import Choice, Measure, YesNo
from generator.records.ids import Reference
from generator.records.kind import Example, Kind, problem
from generator.records.located import Listing, Mapping, Text
from generator.records.parts import DETAILS
from generator.records.skin import AFTER, COLOURS, FEELS, TYPES, WISHES


class Score(Kind[Quantity]):
    """A whole score or another whole number, compared like a quantity; it has no unit."""

    example = Example("5")

    def __init__(self, most: int, takes: str = "whole score") -> None:
        self.most, self.takes = most, takes

    def bounds(self) -> str:
        return f"0 to {self.most}"

    def read(self, text: Text) -> Quantity:
        if not text.isascii() or not text.isdigit() or int(text) > self.most:
            raise self.wrong(
                "R309",
                text,
                expected=f"a {self.takes} from 0 to {self.most}",
                help_=f"write digits only, such as {self.example}",
            )
        return Quantity(float(text), float(text), "score", str(text), text.place)


FACTS: dict[str, Kind[object]] = {
    "scar.age": Measure("months", "0 months", "1200 months", "12 months"),
    "scar.width": Measure("length", "0.1 mm", "500 mm", "6 mm"),
    "scar.height": Measure("length", "0 mm", "30 mm", "2 mm"),
    "scar.type": Choice(TYPES),
    "scar.after": Choice(AFTER),
    "scar.colour": Choice(COLOURS),
    "scar.feel": Choice(FEELS),
    "scar.itch": YesNo(),
    "scar.pain": YesNo(),
    "scar.growth": YesNo(),
    "scar.wish": Choice(WISHES),
    "scar.scale": Score(13),  # the highest total in the form of Sullivan 1990
    "over.crosses": YesNo(),
    "over.focal": YesNo(),
    "over.detail": Choice(DETAILS),
    "over.needles": Score(60, "whole number"),
    "over.line": Measure("length", "0.05 mm", "30 mm", "0.6 mm"),
}
ANSWER = "answer."
_COMPARED = (Measure, Score)

Value = float | str | bool | Quantity | None


@dataclass(frozen=True, slots=True)
class Compare:
    fact: str
    relation: str
    limit: Quantity


@dataclass(frozen=True, slots=True)
class OneOf:
    fact: str
    values: tuple[str | bool, ...]


@dataclass(frozen=True, slots=True)
class All:
    parts: tuple[Condition, ...]


@dataclass(frozen=True, slots=True)
class Any_:
    parts: tuple[Condition, ...]


@dataclass(frozen=True, slots=True)
class Not:
    part: Condition


Condition = Compare | OneOf | All | Any_ | Not

_RELATIONS: dict[str, Callable[[float, float], bool]] = {
    "below": operator.lt,
    "at most": operator.le,
    "above": operator.gt,
    "at least": operator.ge,
}


def single_conditions(condition: Condition) -> Iterator[Compare | OneOf]:
    """Everything that a condition asks of one fact, in the order in which it is written."""
    if isinstance(condition, Compare | OneOf):
        yield condition
    else:
        for part in (condition.part,) if isinstance(condition, Not) else condition.parts:
            yield from single_conditions(part)


def holds(condition: Condition, facts: Facts[str, Value]) -> bool | None:
    """Whether the condition holds for these facts; None when that cannot be known."""
    if isinstance(condition, Compare):
        return _compare(condition, facts.get(condition.fact))
    if isinstance(condition, OneOf):
        value = facts.get(condition.fact)
        return None if value is None else value in condition.values
    if isinstance(condition, Not):
        inner = holds(condition.part, facts)
        return None if inner is None else not inner
    results = [holds(part, facts) for part in condition.parts]
    decisive = isinstance(condition, Any_)
    if decisive in results:
        return decisive
    return None if None in results else not decisive


def _compare(condition: Compare, value: Value) -> bool | None:
    if value is None or isinstance(value, str):
        return None
    low, high = (value.low, value.high) if isinstance(value, Quantity) else (float(value), float(value))
    limit = condition.limit.low
    relation = _RELATIONS[condition.relation]
    at_low, at_high = relation(low, limit), relation(high, limit)
    return at_low if at_low == at_high else None


def facts_named(condition: Condition) -> Iterator[str]:
    """Every fact the condition looks at."""
    return (single.fact for single in single_conditions(condition))


def in_words(condition: Condition) -> str:
    """The condition as a person would say it."""
    if isinstance(condition, Compare):
        return f"{fact_in_words(condition.fact)} {asked_in_words(condition)}"
    if isinstance(condition, OneOf):
        return f"{fact_in_words(condition.fact)}: {asked_in_words(condition)}"
    if isinstance(condition, Not):
        return f"not ({in_words(condition.part)})"
    joiner = " or " if isinstance(condition, Any_) else " and "
    texts = [in_words(p) if isinstance(p, Compare | OneOf | Not) else f"({in_words(p)})" for p in condition.parts]
    return joiner.join(texts)


def asked_in_words(condition: Compare | OneOf) -> str:
    """What is asked of the one fact, without its name."""
    if isinstance(condition, Compare):
        return f"{condition.relation} {condition.limit.text}"
    return " or ".join(("yes" if v else "no") if isinstance(v, bool) else v for v in condition.values)


def fact_in_words(fact: str) -> str:
    """The fact as a person would name it."""
    return _SPOKEN.get(fact) or fact.split(".", 1)[1].replace("-", " ")


_SPOKEN = {
    "over.crosses": "a part crosses it",
    "over.focal": "a focal part crosses it",
    "over.detail": "finest detail across it",
    "over.needles": "fewest needles of a line across it",
    "over.line": "width of the thinnest line across it",
    "scar.scale": "score on the scar scale",
    "scar.crossed": "a part of the day crosses it",
    "job.hand": "the artist’s working hand",
    "job.supervised": "somebody supervises",
    "job.arc": "a band is drawn on an arc",
    "job.aged": "answers are older than they count",
    "job.limb": "the place is a limb",
    "job.mixes": "a wash is mixed",
    "job.swaps": "something stays off the tray",
    "job.stencil": "a stencil is placed",
    "job.last-sitting": "the piece is finished on the day",
    "mole.keep": "distance kept",
    "tattoo.covered": "a part of the day covers it",
    "allergy.swapped": "something else is on file for all that contains it",
    "swap.replaced": "something else is on file",
    "ink.caution": "the ink has a caution",
    "ink.mixed": "the ink is mixed here",
}


@dataclass(frozen=True, eq=False)
class ConditionField:
    """The annotation that lets a record hold a condition; `facts` are those that it may look at."""

    facts: Facts[str, Kind[object]] = field(default_factory=lambda: FACTS)
    answers: bool = True
    example: Example = Example("{scar.age: below 12 months}")
    takes: str = "condition"

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.with_info_plain_validator_function(self._read)

    def _read(self, value: object, info: core_schema.ValidationInfo) -> Condition:
        """Questions that a condition names are references like any other."""
        condition = read_condition(value, self.facts, self.answers)
        if isinstance(info.context, list):
            for fact in facts_named(condition):
                if fact.startswith(ANSWER) and isinstance(fact, Text):
                    info.context.append(Reference.to(fact.removeprefix(ANSWER), "screening", fact.place))
        return condition

    def unit(self) -> str:
        return ""

    def bounds(self) -> str:
        return ", ".join([*self.facts, *([f"{ANSWER}*question*"] if self.answers else [])])


def read_condition(value: object, known: Facts[str, Kind[object]] = FACTS, answers: bool = True) -> Condition:
    """The condition written as a mapping; raises a located problem at the first thing that is wrong.

    known: the facts that it may look at; answers: whether it may look at answers of the screening too.
    """
    if not isinstance(value, Mapping) or not value:
        raise problem(
            "C501",
            value,
            expected="a mapping such as `{scar.age: below 12 months}`",
            help_="write a fact and what it has to be, such as `{scar.age: below 12 months}`",
        )
    parts = tuple(_clause(Text.at(key, value.key_places[key]), inner, known, answers) for key, inner in value.items())
    return parts[0] if len(parts) == 1 else All(parts)


def _clause(key: Text, value: object, known: Facts[str, Kind[object]], answers: bool) -> Condition:
    """One clause. The key knows where it was written, for questions that are not there."""
    if key in ("all", "any"):
        if not isinstance(value, Listing) or not value:
            raise problem(
                "C501",
                value,
                expected="a list",
                help_=f"write `{key}: [{{scar.itch: yes}}, ...]`",
                says=f"`{key}` needs a list of conditions",
            )
        parts = tuple(read_condition(item, known, answers) for item in value)
        return All(parts) if key == "all" else Any_(parts)
    if key == "not":
        return Not(read_condition(value, known, answers))
    kind = YesNo(clears=("yes", "no")) if answers and key.startswith(ANSWER) else known.get(key)
    if kind is None:
        listed = [*known, *([f"{ANSWER}<question>"] if answers else [])]
        raise problem(
            "C502",
            key,
            expected="a known fact",
            help_=did_you_mean(nearest(key, [*known, "all", "any", "not"]), f"write one of {', '.join(listed)}"),
            says=f"`{key}` is not a fact that rules know",
        )
    if not isinstance(kind, _COMPARED):
        assert isinstance(kind, Choice | YesNo)
        items = value if isinstance(value, Listing) and value else [value]
        return OneOf(key, tuple(kind.read(_single(kind, item)) for item in items))
    text = _single(kind, value)
    relation = next((r for r in _RELATIONS if text.startswith(r + " ")), None)
    if relation is None:
        raise problem(
            "C503",
            text,
            expected="`below`, `at most`, `above` or `at least`",
            help_=f"write `below {kind.example.text}`",
        )
    return Compare(key, relation, kind.read(Text.at(text[len(relation) + 1 :], text.place)))


def _single(kind: Kind[object], value: object) -> Text:
    if isinstance(value, Text):
        return value
    raise problem("C501", value, expected=kind.takes, help_=f"write {kind.example}")
