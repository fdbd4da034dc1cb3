"""What the code imports is declared: a package that only comes along with another one may stay away tomorrow."""

from __future__ import annotations

import ast
import re
import sys
import tomllib
from collections.abc import Iterable
from importlib.metadata import packages_distributions
from pathlib import Path

from tests.conftest import ROOT
from tests.source import nodes

PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
CONSTRAINTS = (ROOT / ".ci" / "constraints.txt").read_text("utf-8").splitlines()
OURS = {"generator", "tests"}
# Nothing imports them: commands, their plugins, what builds a wheel, and what keeps MkDocs off faulty click.
NOT_IMPORTED = {"click", "pytest-xdist", "setuptools", "ruff", "mypy"}


def normal(name: str) -> str:
    """The name of a distribution as the packaging standard compares it: https://peps.python.org/pep-0503/"""
    return re.sub(r"[-_.]+", "-", name).lower()


def named(requirements: Iterable[str]) -> set[str]:
    return {normal(re.split(r"[^\w.-]", line, maxsplit=1)[0]) for line in requirements}


DECLARED = named(PROJECT["dependencies"])
FOR_TESTS = named(PROJECT["optional-dependencies"]["test"])


def imported(nodes_of_a_module: Iterable[ast.AST]) -> set[str]:
    """The packages outside the standard library and this project that a module imports, wherever in it."""
    found: set[str] = set()
    for node in nodes_of_a_module:
        if isinstance(node, ast.Import):
            found |= {alias.name.split(".")[0] for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.level == 0 and node.module:
            found.add(node.module.split(".")[0])
    return found - OURS - set(sys.stdlib_module_names)


def undeclared(folder: Path, declared: set[str]) -> list[str]:
    distributions = packages_distributions()
    return [
        f"{path.relative_to(ROOT)} imports {package}"
        for path in sorted(folder.rglob("*.py"))
        for package in sorted(imported(nodes(path)))
        if declared.isdisjoint(normal(name) for name in distributions.get(package, [package]))
    ]


def test_the_reader_of_imports_finds_them_wherever_they_stand() -> None:
    text = "import os, numpy.linalg\ndef late():\n    from yaml import safe_load\nfrom . import near\nimport tests.x"
    assert imported(ast.walk(ast.parse(text))) == {"numpy", "yaml"}


def test_what_the_program_imports_is_declared() -> None:
    assert undeclared(ROOT / "generator", DECLARED) == []


def test_what_the_tests_import_is_declared() -> None:
    assert undeclared(ROOT / "tests", DECLARED | FOR_TESTS) == []


def test_what_is_declared_is_used() -> None:
    distributions = packages_distributions()
    used = {
        normal(name)
        for folder in OURS
        for path in (ROOT / folder).rglob("*.py")
        for package in imported(nodes(path))
        for name in distributions.get(package, [package])
    }
    types = {name for name in FOR_TESTS if name.startswith("types-")}
    assert sorted((DECLARED | FOR_TESTS) - used - types - NOT_IMPORTED) == []


def test_what_is_declared_is_declared_once_with_its_lowest_version() -> None:
    assert DECLARED.isdisjoint(FOR_TESTS)
    wanted = PROJECT["dependencies"] + PROJECT["optional-dependencies"]["test"]
    assert [line for line in wanted if ">=" not in line and not line.startswith("types-")] == []


def test_the_gate_pins_all_that_is_declared() -> None:
    pinned = [line for line in CONSTRAINTS if not line.startswith("#")]
    assert [line for line in pinned if not re.fullmatch(r"[\w.-]+==[\w.+!-]+", line)] == []
    assert sorted((DECLARED | FOR_TESTS) - named(pinned)) == []
    gate = (ROOT / ".ci" / "run").read_text("utf-8")
    assert gate.index("PIP_CONSTRAINT") < gate.index("README.md)")


def test_every_package_of_the_program_goes_into_the_wheel() -> None:
    """Each folder with a module is named; what the wheel holds besides lies where `package-dir` says."""
    setuptools = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["tool"]["setuptools"]
    folders = {path.parent.relative_to(ROOT) for path in (ROOT / "generator").rglob("*.py")}
    packages = set(setuptools["packages"]) - set(setuptools["package-dir"])
    assert packages == {".".join(folder.parts) for folder in folders}
