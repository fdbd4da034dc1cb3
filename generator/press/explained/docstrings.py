"""The docstring of a trade formula, read into its parts, for the pages that show how a number came about."""

from __future__ import annotations

import importlib
import inspect
import pkgutil
import re
from collections.abc import Callable
from functools import cache
from typing import NamedTuple

from generator import trade

_SECTIONS = ("Formula", "Where", "Valid", "Source", "Does not know")
_SECTION = re.compile(rf"^({'|'.join(_SECTIONS)}):[ ]*$")


class Symbol(NamedTuple):
    """One line of `Where`: the parameter's name, its symbol as LaTeX, its unit, its meaning."""

    name: str
    symbol: str
    unit: str
    meaning: str


class Documented(NamedTuple):
    """What a formula says about itself. `formulas` is LaTeX, one formula an entry."""

    answers: str
    formulas: tuple[str, ...]
    symbols: tuple[Symbol, ...]
    gives: Symbol
    valid: str
    source: str
    does_not_know: str


@cache
def documented(function: Callable[..., object]) -> Documented:
    """The parts of one formula's docstring, which has the form that its neighbours have and a test looks at."""
    lines = (inspect.getdoc(function) or "").split("\n")
    sections: dict[str, list[str]] = {}
    current: list[str] = []
    for line in lines[1:]:
        if opened := _SECTION.match(line):
            current = sections.setdefault(opened[1], [])
        elif line.strip():
            current.append(line.strip())
    symbols = [_symbol(line) for line in sections["Where"]]
    return Documented(
        answers=lines[0],
        formulas=tuple(sections["Formula"]),
        symbols=tuple(symbols[:-1]),
        gives=symbols[-1],
        valid=" ".join(sections["Valid"]),
        source=" ".join(sections["Source"]),
        does_not_know=" ".join(sections["Does not know"]),
    )


def _symbol(line: str) -> Symbol:
    """A line such as `volume: V, mL, what is poured`."""
    name, _, rest = line.partition(": ")
    symbol, unit, meaning = rest.split(", ", 2)
    return Symbol(name, symbol, unit, meaning)


@cache
def rooms() -> dict[str, tuple[str, tuple[Callable[..., object], ...]]]:
    """Every module of the trade with its first line and its public formulas, in the order they are written."""
    found: dict[str, tuple[str, tuple[Callable[..., object], ...]]] = {}
    for module in pkgutil.iter_modules(trade.__path__):
        if module.name.startswith("_"):
            continue
        loaded = importlib.import_module(f"{trade.__name__}.{module.name}")
        own = [
            function
            for name, function in inspect.getmembers(loaded, inspect.isfunction)
            if function.__module__ == loaded.__name__ and not name.startswith("_")
        ]
        if own:
            about = (inspect.getdoc(loaded) or "").split("\n\n")[0].replace("\n", " ")
            found[module.name] = (about, tuple(sorted(own, key=lambda f: f.__code__.co_firstlineno)))
    return found


@cache
def formulas() -> frozenset[Callable[..., object]]:
    """Every formula of the trade: those that have a page."""
    return frozenset(function for _, functions in rooms().values() for function in functions)
