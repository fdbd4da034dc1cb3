"""How many separate published values the checks of this folder rest on, counted from their own source."""

from __future__ import annotations

import ast
from pathlib import Path

from tests.published.mutate import EXEMPT, TRADE, changes

HERE = Path(__file__).parent
# Circle packing and colour have long tables; they may not stand for the rest.
LONG_TABLES = {"test_needles.py", "test_colour.py", "test_palette.py"}


def separate_values(path: Path) -> set[tuple[str, str]]:
    """Every `Printed("literal", source, ...)` of a module, alike ones once. Values of a list count when written out."""
    found = set()
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if not (isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Printed"):
            continue
        literal, source = node.args[0], node.args[1]
        if isinstance(literal, ast.Constant):
            assert isinstance(literal.value, str), f"{path.name}:{node.lineno}: a literal is text, exactly as printed"
            found.add((literal.value, ast.dump(source)))
    return found


def test_there_are_eighty_separate_values_of_many_kinds() -> None:
    counted = {path.name: len(separate_values(path)) for path in sorted(HERE.glob("test_*.py"))}
    tables = sum(counted[name] for name in LONG_TABLES)
    others = sum(number for name, number in counted.items() if name not in LONG_TABLES)
    assert others + min(tables, 40) >= 80, counted
    # Even without the long tables the rest carries the whole.
    assert others >= 80, counted
    assert sum(1 for number in counted.values() if number) >= 12, counted


def test_what_the_mutation_run_exempts_is_still_there() -> None:
    tried = {(change.module, change.within, change.was) for path in TRADE.glob("*.py") for change in changes(path.stem)}
    assert set(EXEMPT) <= tried
    assert all(len(reason.split()) > 5 for reason in EXEMPT.values())
