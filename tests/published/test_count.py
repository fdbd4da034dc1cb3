"""How many published values the checks of this folder rest on, counted from the values themselves."""

from __future__ import annotations

import importlib
from collections.abc import Iterator
from pathlib import Path
from types import FunctionType

from tests.published.mutate import EXEMPT, changes, every_module
from tests.published.printed import Document, Printed, counted, honest, named

HERE = Path(__file__).parent
# What is reached; it may only go up.
LEAST = 159


def values_in(thing: object) -> Iterator[Printed]:
    """The published values in a constant of a module, or in what a test is given."""
    if isinstance(thing, Printed):
        yield thing
    elif isinstance(thing, dict):
        for pair in thing.items():
            yield from values_in(pair)
    elif isinstance(thing, list | tuple | set | frozenset):
        for each in thing:
            yield from values_in(each)


def names_used(function: FunctionType) -> set[str]:
    """The names that a function looks up, in its comprehensions too."""
    codes, names = [function.__code__], set()
    while codes:
        code = codes.pop()
        names |= set(code.co_names)
        codes += [constant for constant in code.co_consts if hasattr(constant, "co_names")]
    return names


def checked_values(module: object) -> list[Printed]:
    """The values that a test of the module is given, or that it looks up by their name."""
    space = vars(module)
    functions = [f for f in space.values() if isinstance(f, FunctionType) and f.__module__ == space["__name__"]]
    marks = [mark.args for f in functions for mark in getattr(f, "pytestmark", [])]
    used: set[str] = set().union(*map(names_used, functions))
    found = [value for args in marks for value in values_in(args)]
    return found + [value for name in used & set(space) for value in values_in(space[name])]


def every_value() -> dict[str, list[Printed]]:
    paths = sorted(HERE.glob("test_*.py"))
    return {p.stem: checked_values(importlib.import_module(f"tests.published.{p.stem}")) for p in paths}


def test_at_least_150_values_are_published_and_each_is_checked() -> None:
    by_place = honest(value for found in every_value().values() for value in found)
    reached = sum(by_place.values())
    listed = "\n".join(f"{n:3} {d.title}, {d.body}, {d.year}: {where}" for (d, where), n in sorted(by_place.items()))
    assert reached >= LEAST >= 150, f"{reached} values\n{listed}"
    assert len({document for document, _ in by_place}) >= 40, listed


def test_every_check_of_this_folder_rests_on_a_document() -> None:
    """A check without one is a check of the program against itself, and belongs to its room's own tests."""
    without = [name for name, found in every_value().items() if not found and name != "test_count"]
    assert not without
    assert not {value.sure for found in every_value().values() for value in found} - {"A", "B"}


BOOK = Document("A book of tables", "An institute", 2001)


def test_what_counts_and_what_does_not() -> None:
    one, row = BOOK.at("page 1"), BOOK.table("Table 1")
    cases: list[tuple[list[Printed], int]] = [
        ([one("1"), one("2")], 2),
        ([one("1"), one("1")], 1),  # the same digits at the same place
        ([one("1"), BOOK.at("page 2")("1")], 2),
        ([row(str(n)) for n in range(3)], 1),  # a table counts once for ten of its values
        ([row(str(n)) for n in range(34)], 4),
        ([one(str(n)) for n in range(10)], 10),
        ([one(str(n)) for n in range(11)], 2),  # more than ten of one place are a table, whatever they are called
        ([BOOK._replace(year=None).at("page 1")("1")], 0),
        ([BOOK._replace(title="").at("page 1")("1")], 0),
        ([BOOK._replace(body=" ").at("page 1")("1")], 0),
        ([BOOK._replace(title="Teaching page").at("page 1")("1")], 0),
        ([BOOK._replace(body="Common practice of the trade").at("page 1")("1")], 0),
        ([BOOK.at("page 1", "M")("1"), BOOK.at("page 1", "P")("2"), BOOK.at("page 1", "C")("3")], 0),
    ]
    assert [sum(honest(values).values()) for values, _ in cases] == [expected for _, expected in cases]
    assert [counted(n, table=True) for n in (1, 10, 11, 34)] == [1, 1, 2, 4]
    assert named(BOOK) and not named(BOOK._replace(year=17))


def test_a_value_that_no_test_looks_up_is_not_counted() -> None:
    page = BOOK.at("page 1")
    space = {"__name__": "made", "LOOKED_UP": page("1"), "IDLE": page("2"), "NESTED": {"a": [page("3")]}}
    exec("def test_it():\n    return LOOKED_UP, [value for value in NESTED]", space)
    made = type("Made", (), {})()
    made.__dict__.update(space)
    assert {value.literal for value in checked_values(made)} == {"1", "3"}


def test_what_the_mutation_run_exempts_is_still_there() -> None:
    tried = {(change.module, change.within, change.was) for name in every_module() for change in changes(name)}
    assert set(EXEMPT) <= tried
    assert all(len(reason.split()) > 5 for reason in EXEMPT.values())
