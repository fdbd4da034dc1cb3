"""Who may import whom, read from the source itself."""

from __future__ import annotations

import ast
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

import generator

SOURCE = Path(generator.__file__).parent
MODULES = {
    ".".join(path.relative_to(SOURCE.parent).with_suffix("").parts).removesuffix(".__init__"): path
    for path in sorted(SOURCE.rglob("*.py"))
}

# A room, or a module outside of the rooms, and what of the project it may import. A room may import itself.
BASE = {"diagnostics", "quantities", "units"}
MAY: dict[str, set[str]] = {
    "trade": set(),
    "units": set(),
    "diagnostic_code": set(),
    "record_codes": {"diagnostic_code"},
    "diagnostic_codes": {"diagnostic_code", "record_codes"},
    "diagnostics": {"diagnostic_code", "diagnostic_codes"},
    "quantities": {"diagnostics", "units"},
    "dates": set(),
    "faults": set(),
    "exchange": set(),
    "writing": set(),
    "records": BASE | {"trade"},
    "planning": BASE | {"trade", "records"},
    "press": BASE | {"trade", "records", "planning", "diagnostic_codes"},
    "cli": BASE | {"trade", "records", "planning", "press", "dates", "faults", "writing"},
    "plugin": BASE | {"trade", "records", "planning", "press", "dates", "faults", "exchange", "writing"},
    "__main__": {"cli"},
    "": set(),
}
# What comes from outside and belongs into one place only.
ONLY_IN = {
    "pint": {"generator.quantities"},
    "mkdocs": {"generator.plugin"},
    "filelock": {"generator.exchange"},
    "yaml": {"generator.records.located"},
}
TRADE_MAY = {"dateutil", "coloraide", "shapely"}


def _tree(module: str) -> ast.Module:
    return ast.parse(MODULES[module].read_text("utf-8"))


def _room(module: str) -> str:
    parts = module.split(".")
    return parts[1] if len(parts) > 1 else ""


def _imports(module: str) -> Iterator[str]:
    """Every module that is imported, by its full name; `from package import module` names the module."""
    for node in ast.walk(_tree(module)):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{module}: imports are written in full"
            assert node.module
            for alias in node.names:
                inner = f"{node.module}.{alias.name}"
                yield inner if inner in MODULES else node.module


def test_the_rooms_are_found() -> None:
    assert {_room(m) for m in MODULES} == set(MAY)
    assert "generator.trade.motion" in set(_imports("generator.planning.settings"))


def test_a_module_imports_only_what_its_room_may() -> None:
    wrong = {}
    for module in MODULES:
        room = _room(module)
        seen = {_room(name) for name in _imports(module) if name.split(".")[0] == "generator"}
        if more := seen - {room} - MAY[room]:
            wrong[module] = more
    assert wrong == {}


def test_the_trade_needs_little_from_outside() -> None:
    wrong = {}
    for module in (m for m in MODULES if _room(m) == "trade"):
        outside = {name.split(".")[0] for name in _imports(module)} - {"generator"} - set(sys.stdlib_module_names)
        if more := outside - TRADE_MAY:
            wrong[module] = more
    assert wrong == {}


@pytest.mark.parametrize("package", ONLY_IN)
def test_some_packages_are_imported_in_one_place(package: str) -> None:
    assert {m for m in MODULES if package in {name.split(".")[0] for name in _imports(m)}} == ONLY_IN[package]


def test_rooms_do_not_import_each_other_in_a_circle() -> None:
    graph: dict[str, set[str]] = {}
    for module in MODULES:
        graph.setdefault(_room(module), set()).update(
            _room(name) for name in _imports(module) if name.split(".")[0] == "generator"
        )
    assert _circle({room: others - {room} for room, others in graph.items()}) == []


def test_modules_do_not_import_each_other_in_a_circle() -> None:
    assert _circle({m: {n for n in _imports(m) if n in MODULES and n != m} for m in MODULES}) == []


def _circle(graph: dict[str, set[str]]) -> list[str]:
    """What is left when everything that leads nowhere is taken away."""
    left = dict(graph)
    while free := [name for name, others in left.items() if not others & set(left)]:
        for name in free:
            del left[name]
    return sorted(left)


def test_a_circle_would_be_seen() -> None:
    assert _circle({"a": {"b"}, "b": {"c"}, "c": {"b"}, "d": set()}) == ["a", "b", "c"]


def _catches_all(module: str) -> Iterator[ast.ExceptHandler]:
    for node in ast.walk(_tree(module)):
        if isinstance(node, ast.ExceptHandler):
            caught = node.type.elts if isinstance(node.type, ast.Tuple) else [node.type]
            names = {c.id for c in caught if isinstance(c, ast.Name)}
            if node.type is None or names & {"Exception", "BaseException"}:
                yield node


def test_everything_is_caught_in_one_place_only() -> None:
    assert [m for m in MODULES for _ in _catches_all(m)] == ["generator.faults"]
