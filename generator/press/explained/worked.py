"""A formula that was applied: what went in with the record it came from, and what came out, in words.

The inputs are in a table below the value, folded away, because a link and a fold work with keyboard, phone and screen
reader, and a hover with none of them.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import NamedTuple, cast

from markupsafe import Markup, escape

from generator.planning.computed import (
    Answered,
    Computed,
    Named,
    Operand,
    compute,
    formula_name,
    sources_of,
    text_of,
    values_of,
)
from generator.press.explained.docstrings import documented, formulas
from generator.press.explained.origin import told
from generator.press.explained.results import in_words, kind_of, number_in_words
from generator.press.words.addresses import address, to_source
from generator.press.words.estimates import ends_shown
from generator.press.words.formatted import calculated, spelled
from generator.press.words.markup import Cells, bullets, folded, link, not_searched, table_of
from generator.quantities import shown
from generator.records.families import Records


class WorkedOut(NamedTuple):
    """A formula with its inputs by parameter name, and its answer in words."""

    function: Callable[..., object]
    inputs: tuple[tuple[str, Operand], ...]
    words: str


def worked(function: Callable[..., object], records: Records, **inputs: Operand) -> WorkedOut:
    """Apply a formula of the trade; ranges go in at their corners where it answers with a number.

    Raises what the formula raises.
    """
    unit = documented(function).gives.unit
    answer = function(**values_of(inputs))
    if isinstance(answer, int | float) and not isinstance(answer, bool):
        made = compute(cast("Callable[..., float]", function), kind_of(unit), **inputs)
        return WorkedOut(function, made.inputs, number_in_words(*ends_shown(made), unit, records))
    return WorkedOut(function, tuple(inputs.items()), in_words(answer, unit, records))


def as_worked(value: Computed | Answered[object], records: Records) -> WorkedOut:
    """A value that planning calculated."""
    if isinstance(value, Answered):
        words = in_words(value.answer, documented(value.function).gives.unit, records)
    else:
        words = value_in_words(value, records)
    return WorkedOut(value.function, value.inputs, words)


def value_in_words(value: Operand, records: Records, unit: str = "-", alone: bool = False) -> str:
    """An input or a result as it is shown; `unit` is for plain numbers that have one in their formula.

    alone: in the studio's first system, without the other beside it.
    """
    if isinstance(value, Named):
        return value.said
    if value.kind == "number":
        return number_in_words(value.low, value.high, unit, records)
    if alone:
        return shown(*ends_shown(value), value.kind, records.studio.shows, text_of(value))
    return calculated(*ends_shown(value), value.kind, records, text_of(value))


def answers(function: Callable[..., object]) -> str:
    """What a formula answers, in one plain sentence."""
    return (function.__doc__ or "").strip().partition("\n")[0]


def to_formula(here: str, function: Callable[..., object], text: str = "") -> Markup:
    """A link to a formula's heading; the small sums of planning have no page and stand for themselves."""
    words = text or answers(function)
    if function not in formulas():
        return words if isinstance(words, Markup) else escape(words)
    room = function.__module__.rpartition(".")[2]
    return link(address(here, f"formulas/{room}.md", function.__name__), words)


def inputs_of(done: WorkedOut, records: Records, here: str, deep: int = 2) -> Iterator[Markup]:
    """Every input as a line: name, value, record; what was computed itself says from what, `deep` steps down."""
    units = {}
    if done.function in formulas():
        units = {symbol.name: symbol.unit for symbol in documented(done.function).symbols}
    for name, operand in done.inputs:
        said = value_in_words(operand, records, units.get(name, "-"))
        yield Markup("{}: {}{}").format(spelled(name), said, _from(operand, records, here, deep))


def _from(operand: Operand, records: Records, here: str, deep: int) -> Markup:
    if not isinstance(operand, Computed):
        return Markup(", {}").format(told(operand, records, here)) if operand.origin.keys else Markup("")
    name = to_formula(here, operand.function)
    if deep == 0:
        return Markup(", computed: {}").format(name)
    inner = bullets(inputs_of(as_worked(operand, records), records, here, deep - 1))
    return Markup(", computed: {}{}").format(name, inner)


def how_computed(about: str, rows: Iterable[tuple[str, str, WorkedOut]], records: Records, here: str) -> Markup:
    """The foot of a table: for each computed value its formula, inputs and sources, folded away until asked for.

    rows: the id of the row, what the value belongs to, and how it came about.
    """
    lines: list[tuple[str, Cells]] = [
        (
            f"how-{at}",
            {
                "Value of": of,
                "Value": done.words,
                "Formula": to_formula(here, done.function),
                "Inputs and their records": bullets(inputs_of(done, records, here)),
                "Source": _cited(done, records, here),
            },
        )
        for at, of, done in rows
    ]
    if not lines:
        return Markup("")
    said = f"How these were computed: {about}"
    return folded(said, not_searched(table_of(said, lines)))


def _cited(done: WorkedOut, records: Records, here: str) -> Markup:
    ids = set().union(*(sources_of(operand) for _, operand in done.inputs))
    cited = [to_source(here, source, records) for source in sorted(ids) if source in records.sources]
    if done.function in formulas():
        cited.insert(0, escape(f"formula: {documented(done.function).source}"))
    return bullets(cited) or escape(formula_name(done.function))
