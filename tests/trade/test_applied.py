"""A formula stands here because plans or pages apply it, not to have a page of its own."""

from __future__ import annotations

import ast
from pathlib import Path

from generator.press.explained.docstrings import rooms

GENERATOR = Path(__file__).parents[2] / "generator"
FORMULAS = {(room, function.__name__) for room, (_, functions) in rooms().items() for function in functions}
# What comes next applies these: the drawing in an app, washed loads.
WAITING = {
    ("paper", "canvas_pixels"),
    ("paper", "dots_per_mm"),
    ("sterilization", "a0"),
}


def _names(node: ast.AST, imported: dict[str, tuple[str, ...]]) -> set[tuple[str, str]]:
    """The names of the trade that a piece of code uses, each with its room."""
    found = set()
    for part in ast.walk(node):
        if isinstance(part, ast.Attribute) and isinstance(part.value, ast.Name):
            match imported.get(part.value.id):
                case (room,):
                    found.add((room, part.attr))
        elif isinstance(part, ast.Name):
            match imported.get(part.id):
                case (room, name):
                    found.add((room, name))
    return found


def _imported(tree: ast.Module) -> dict[str, tuple[str, ...]]:
    """What a module calls a room of the trade, or a name of it."""
    found: dict[str, tuple[str, ...]] = {}
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("generator.trade"):
            room = (node.module or "").removeprefix("generator.trade").strip(".")
            for alias in node.names:
                found[alias.asname or alias.name] = (room, alias.name) if room else (alias.name,)
    return found


def test_every_formula_is_applied_by_a_plan_or_a_page() -> None:
    applied: set[tuple[str, str]] = set()
    inside: dict[tuple[str, str], set[tuple[str, str]]] = {}
    for path in GENERATOR.rglob("*.py"):
        tree = ast.parse(path.read_text("utf-8"))
        imported = _imported(tree)
        if path.parent.name != "trade":
            applied |= set() if path.parent.name == "formulas" else _names(tree, imported)
            continue
        own = {node.name for node in tree.body if isinstance(node, ast.FunctionDef)}
        imported |= {name: (path.stem, name) for name in own}
        for node in tree.body:
            if isinstance(node, ast.FunctionDef):
                inside[path.stem, node.name] = _names(node, imported)
    waiting = list(applied)
    while waiting:
        new = inside.get(waiting.pop(), set()) - applied
        applied |= new
        waiting += new
    assert sorted(FORMULAS - applied) == sorted(WAITING)
