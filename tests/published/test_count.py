"""How many separate published values the checks of this folder rest on, counted from their own source."""

from __future__ import annotations

import ast
import importlib
import re
from pathlib import Path

from tests.published.mutate import EXEMPT, TRADE, changes

HERE = Path(__file__).parent
# What is there now; it only goes up.
LEAST = 42


NAMELESS = ("arithmetic", "geometry", "common practice", "teaching page", "public image library", "by hand")


def honest_values(path: Path) -> dict[str, int]:
    """By document: separate values that were read (A) or quoted (B) from one named with its year.

    A document with more than ten values is a table: every ten of its values, or a part of ten, count once.
    """
    module = vars(importlib.import_module(f"tests.published.{path.stem}"))
    found: dict[str, set[str]] = {}
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if not (isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Printed"):
            continue
        literal, source, sure = node.args
        if not (isinstance(literal, ast.Constant) and isinstance(sure, ast.Constant) and sure.value in ("A", "B")):
            continue
        try:
            document = str(eval(compile(ast.Expression(source), str(path), "eval"), dict(module)))
        except NameError:  # named in a list; written out nowhere, so not counted
            continue
        if re.search(r"\b(19|20)\d\d\b", document) and not any(word in document for word in NAMELESS):
            found.setdefault(document, set()).add(str(literal.value))
    # A table whose values are written as data and checked one by one names its document and its length itself.
    written: dict[str, int] = {document: len(values) for document, values in found.items()}
    for document, number in module.get("TABLES", {}).items():
        written[document] = max(number, written.get(document, 0))
    return {document: counted(number) for document, number in written.items()}


def counted(values: int) -> int:
    """Ten at most count by themselves; of a longer table every ten, or a part of ten, count once."""
    return values if values <= 10 else -(-values // 10)


def test_a_table_counts_once_for_ten_of_its_values() -> None:
    assert [counted(number) for number in (1, 10, 11, 20, 34)] == [1, 10, 2, 2, 4]


def test_what_is_published_is_counted_from_documents_with_a_name_and_a_year() -> None:
    by_module = {path.name: honest_values(path) for path in sorted(HERE.glob("test_*.py"))}
    documents = {document for found in by_module.values() for document in found}
    assert not [document for document in documents if any(word in document for word in NAMELESS)]
    whole = sum(sum(found.values()) for found in by_module.values())
    assert whole >= LEAST, by_module
    assert sum(1 for found in by_module.values() if found) >= 8, by_module


def test_what_the_mutation_run_exempts_is_still_there() -> None:
    tried = {(change.module, change.within, change.was) for path in TRADE.glob("*.py") for change in changes(path.stem)}
    assert set(EXEMPT) <= tried
    assert all(len(reason.split()) > 5 for reason in EXEMPT.values())
