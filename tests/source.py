"""The program's source and that of its tests, parsed once for all tests that read it."""

from __future__ import annotations

import ast
from functools import cache
from pathlib import Path

import generator

SOURCE = Path(generator.__file__).parent


@cache
def tree(path: Path) -> ast.Module:
    """A module as it is parsed; nobody may change it."""
    return ast.parse(path.read_text("utf-8"))


@cache
def nodes(path: Path) -> tuple[ast.AST, ...]:
    """Everything in a module, from the outside inwards."""
    return tuple(ast.walk(tree(path)))
