"""Every formula of the trade is documented in the one form that the formula pages are made from."""

from __future__ import annotations

import datetime
import inspect
from collections.abc import Callable
from functools import cache
from typing import Any

import pytest

from generator.press.explained.docstrings import documented, rooms
from generator.press.formulas.examples import TakenFrom
from generator.press.formulas.pages import formula_pages, mathml, page_of
from generator.trade import motion
from tests.planning.demo import RECORDS, demo


@cache
def pages_made() -> dict[str, str]:
    """The formula pages of the demo studio."""
    return formula_pages(TakenFrom(RECORDS, demo("keepers-lantern"), datetime.date(2027, 5, 1)))


FORMULAS = [(room, function) for room, (_, functions) in rooms().items() for function in functions]


def form_of(function: Callable[..., Any]) -> str:
    """What is not in the one form in the docstring of a formula; nothing where all is."""
    try:
        parts = documented(function)
    except KeyError as lacking:
        return f"no {lacking}"
    except ValueError as mistake:
        return f"a line of Where is not `name: symbol, unit, meaning`: {mistake}"
    if lacking_parts := [name for name, said in parts._asdict().items() if not said and name != "symbols"]:
        return f"nothing in {lacking_parts}"
    if not all(all(symbol) for symbol in (*parts.symbols, parts.gives)):
        return "an empty field in Where"
    names = [symbol.name for symbol in (*parts.symbols, parts.gives)]
    expected = [*inspect.signature(function).parameters, "return"]
    return "" if names == expected else f"Where names {names}, the formula takes {expected}"


def test_every_formula_is_documented_and_typesets() -> None:
    wrong = []
    for room, function in FORMULAS:
        at = f"{room}.{function.__name__}"
        if mistake := form_of(function):
            wrong.append((at, mistake))
            continue
        parts = documented(function)
        for latex in (*parts.formulas, *(symbol.symbol for symbol in (*parts.symbols, parts.gives))):
            if not mathml(latex, "block").startswith("<math "):
                wrong.append((at, latex))
        if f"{{ #{function.__name__} }}" not in pages_made()[page_of(room)]:
            wrong.append((at, "not on its page"))
    assert wrong == [] and len(FORMULAS) > 80


def test_the_parts_are_those_of_the_docstring() -> None:
    parts = documented(motion.spacing)
    assert parts.answers == "How far apart do the punctures lie along a line?"
    assert parts.formulas == (r"s = \frac{v}{f}",)
    assert parts.symbols[0] == ("hand_speed", "v", "mm/s", "how fast the hand moves along the line")
    assert parts.gives.unit == "mm"
    assert (parts.valid, parts.source) == ("hand speed from 0; frequency above 0", "geometry")
    assert parts.does_not_know == "how far the skin is dragged along by the needle"


def test_every_room_with_formulas_is_listed() -> None:
    assert {"needles", "motion", "calibration", "disinfection", "scars", "clock"} <= set(rooms())
    assert all(about for about, _ in rooms().values())


def _without_source(stroke: float) -> float:
    """What is it?

    Formula:
        x = y
    Where:
        stroke: s, mm, a stroke
        return: x, mm, itself
    Valid:
        always
    Does not know:
        anything
    """
    return stroke


def _other_names(stroke: float) -> float:
    """What is it?

    Formula:
        x = y
    Where:
        hang_out: s, mm, a stroke
        return: x, mm, itself
    Valid:
        always
    Source:
        arithmetic
    Does not know:
        anything
    """
    return stroke


def _two_fields(stroke: float) -> float:
    """What is it?

    Formula:
        x = y
    Where:
        stroke: s, mm
        return: x, mm, itself
    Valid:
        always
    Source:
        arithmetic
    Does not know:
        anything
    """
    return stroke


@pytest.mark.parametrize(
    ("function", "says"),
    [(_without_source, "no 'Source'"), (_other_names, "hang_out"), (_two_fields, "symbol, unit, meaning")],
)
def test_another_form_is_found(function: Callable[..., Any], says: str) -> None:
    assert says in form_of(function)
