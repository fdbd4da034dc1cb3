"""The formula pages: every formula of the trade, from its own docstring, typeset without the network."""

from __future__ import annotations

import inspect
import itertools
from collections.abc import Callable

from markupsafe import Markup

from generator.press.explained.docstrings import Documented, Symbol, documented, rooms
from generator.press.explained.worked import WorkedOut, inputs_of
from generator.press.formulas.examples import WITHOUT, TakenFrom, examples
from generator.press.words.addresses import address
from generator.press.words.formatted import spelled
from generator.press.words.markup import Cells, bullets, code, heading, link, note, page, paragraph, table_of, terms
from generator.records.families import Records

INDEX = "formulas/index.md"


def formula_pages(taken_from: TakenFrom) -> dict[str, str]:
    """The list of all formulas, and a page for each room of the trade with examples from the studio's own shelf."""
    found, shown = rooms(), examples(taken_from)
    pages = {}
    for room, (about, functions) in found.items():
        here = page_of(room)
        formulas = (_formula(function, here, shown.get(function), taken_from.records) for function in functions)
        pages[here] = page(f"Formulas: {room.replace('_', ' ')}", paragraph(about), *itertools.chain(*formulas))
    rows = (
        (f"{room}-{function.__name__}".replace("_", "-"), _listed(room, function))
        for room, (_, functions) in found.items()
        for function in functions
    )
    index = page(
        "Formulas",
        paragraph(
            "Every number that a plan computes comes from one of these. Each says where it holds, where it comes from, "
            "and what it does not know."
        ),
        table_of("All formulas", rows),
    )
    return {INDEX: index, **pages}


def _listed(room: str, function: Callable[..., object]) -> Cells:
    return {
        "Formula": link(address(INDEX, page_of(room), function.__name__), function.__name__.replace("_", " ")),
        "What it answers": documented(function).answers,
        "About": room.replace("_", " "),
    }


def page_of(room: str) -> str:
    """The page of a room of formulas."""
    return f"formulas/{room}.md"


def _formula(function: Callable[..., object], here: str, shown: WorkedOut | None, records: Records) -> list[str]:
    parts = documented(function)
    name = function.__name__
    call = f"{name}({', '.join(inspect.signature(function).parameters)})"
    symbols = ((f"{name}-{symbol.name}", _symbol(symbol)) for symbol in (*parts.symbols, parts.gives))
    return [
        heading(parts.answers, name),
        paragraph(Markup("Formula {}").format(code(call))),
        _typeset(parts, name.replace("_", " ")),
        table_of(f"Symbols of {name.replace('_', ' ')}", symbols),
        _example(function, parts, here, shown, records),
        terms(("Holds for", parts.valid), ("Source", parts.source), ("Does not know", parts.does_not_know)),
    ]


def _example(
    function: Callable[..., object], parts: Documented, here: str, shown: WorkedOut | None, records: Records
) -> Markup:
    if function in WITHOUT:
        return note("No example", f"{WITHOUT[function][0].upper()}{WITHOUT[function][1:]}.")
    if shown is None:
        return note("No example", "No record to show it with.")
    result = Markup("{}: <strong>{}</strong>").format(parts.gives.meaning, shown.words)
    return note("With this studio’s numbers", bullets(inputs_of(shown, records, here)), result)


def _typeset(parts: Documented, name: str) -> Markup:
    # No line has a frame of its own: what the search leaves out ends with the first one of the same kind inside.
    lines = Markup("").join(mathml(formula, "block") for formula in parts.formulas)
    # The letters of a formula one by one are of no use to the search. A long formula scrolls on a phone.
    return Markup(
        '<div class="formula" data-search-exclude role="region" aria-label="Formula of {}" tabindex="0">{}</div>'
    ).format(name, lines)


def _symbol(symbol: Symbol) -> Cells:
    return {
        "Name": "result" if symbol.name == "return" else spelled(symbol.name),
        "Symbol": Markup("<span data-search-exclude>{}</span>").format(mathml(symbol.symbol, "inline")),
        "Unit": "none" if symbol.unit == "-" else symbol.unit,
        "Meaning": symbol.meaning,
    }


def mathml(latex: str, display: str) -> Markup:
    """LaTeX as MathML, on one line so that Markdown keeps it whole."""
    from latex2mathml.converter import convert

    return Markup(" ".join(convert(latex, display=display).split("\n")))
