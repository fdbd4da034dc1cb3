"""Change each number of the arithmetic a little and see whether a check notices: `python -m tests.published.mutate`,
or with names of modules, such as `motion tray`.

A float is changed by 1 % up and down, a whole number by 1. The numbers of a swatch are changed by 1 % of full
scale. Outside `generator/trade`, where formulas are short and numbers few, each comparison and each sum, difference,
product and quotient is turned into its neighbour as well. Not collected by pytest: it runs the checks several hundred
times.
"""

from __future__ import annotations

import ast
import contextlib
import copy
import importlib
import importlib.abc
import importlib.util
import io
import multiprocessing
import multiprocessing.connection
import os
import re
import resource
import signal
import sys
from collections.abc import Callable, Iterator, Sequence
from importlib.machinery import ModuleSpec
from multiprocessing.context import ForkProcess
from pathlib import Path
from types import ModuleType
from typing import NamedTuple, NoReturn, TypeVar

import pytest

T = TypeVar("T")

HERE = Path(__file__).parent
ROOT = HERE.parents[1]
TRADE = ROOT / "generator" / "trade"
OWN = ROOT / "tests" / "trade"
# What is calculated outside the trade: module -> the tests of its room that have to notice.
ROOMS: dict[str, tuple[str, ...]] = {
    "units": ("published/test_units.py", "test_quantities.py"),
    "quantities": ("test_quantities.py",),
    "planning.supplies.tray": ("planning/supplies/test_tray.py",),
    "planning.timing.breaks": ("planning/timing/test_breaks.py",),
    "planning.timing.rests": ("planning/timing/test_zones.py",),
    "planning.timing.sittings": ("planning/timing/test_sittings.py", "planning/timing/test_timetable.py"),
    "planning.timing.timetable": ("planning/timing/test_timetable.py", "planning/timing/test_worked_by_hand.py"),
}
_SWATCH = re.compile(r"#[0-9a-f]{6}")
# Loaded once, before the processes part: no change is in them.
_LIBRARIES = ("coloraide", "hypothesis", "jinja2", "pint", "pydantic", "shapely", "yaml")
# No random search: it may notice one night and not the next, and is slow to say so.
_DETERMINED = "not nightly and not hypothesis"
_MOST = 2 * 2**30  # bytes of memory for the checks of one change; a list that grows for ever comes to it first
_YES = 3  # no status that Python leaves with by itself
_LONGEST = 60  # seconds at work, not by the clock, for the checks of one change
_CHANNEL_STEP = 3  # 1 % of 255, rounded up

_DIGITS = "nine digits keep the last bits of a float from deciding; any number near nine does the same"
_CACHE = "how many results are remembered; the answer is the same"
_HAIR = "a hair of room for rounding at the ends of a scale; no published value lies inside it"
_PRINT = "what this program leaves free on its own print: nothing outside of it says so"
_WORDS = "only words: which reading of a log the refusal names, counted from 1"
_LOOSE = "the loose needle in the tightest round of twenty: it has room to move, so its place is free"
# Module, function or name at the top that the number stands in, number as written -> why no published check notices.
EXEMPT: dict[tuple[str, str, str], str] = {
    ("_counts", "whole_up", "9"): _DIGITS,
    ("layout", "lining_order", "9"): _DIGITS,
    ("sterilization", "hold_against_cycle", "9"): _DIGITS,
    ("shapes", "nearest_shift", "9"): _DIGITS,
    ("shapes", "_NOTHING", "1e-06"): _HAIR,
    ("colour", "_swatch", "4096"): _CACHE,
    ("colour", "_lab", "4096"): _CACHE,
    ("labels", "_read_label", "1024"): _CACHE,
    ("skin_tone", "_seen_through", "4096"): _CACHE,
    ("paper", "", "184.0"): _PRINT,
    ("paper", "", "200.0"): _PRINT,
    ("paper", "EDGE", "3.0"): _PRINT,
    ("shapes", "share_near", "1.0"): "a share of an area is above 1 by the last bits of a float at most",
    ("shapes", "_geometry", "4096"): _CACHE,
    ("colour", "_checked", "1e-06"): _HAIR,
    ("palette", "laying_order", "1e-06"): _HAIR,
    ("sterilization", "_check_log", "1"): _WORDS,
    ("packings", "PACKED", "0.221714229363"): _LOOSE,
    ("packings", "PACKED", "0.027210267099"): _LOOSE,
    ("shapes", "_QUARTER_BITS", "48"): "how finely a circle is drawn: one bit more or less changes its area by less "
    "than the 0.02 % that are promised",
    ("palette", "LAYERS", "3"): "only the order of the layers counts: white stays last with a 4 too",
    ("layout", "light_before_dark", "1"): "a part is never lighter than itself, so looking at it too finds nothing",
    ("needles", "tightest_bundle", "1"): "the table has refused a count below one before",
    ("needle_positions", "_unit_bundle", "10"): "ten stand in the table and never come so far",
    ("needle_positions", "stacked_positions", "1"): "both rows are centred by themselves",
    ("tray", "_up", "9"): _DIGITS,
    ("quantities", "within", "LtE"): "the first pair only saves time: an end that is typed is found again as that end",
    ("quantities", "_units_written", "4096"): _CACHE,
    ("quantities", "_parsed", "4096"): _CACHE,
    ("quantities", "shown_in", "4096"): _CACHE,
    ("rests", "course", "256"): _CACHE,
    ("quantities", "_decimals_of", "10.0"): "two numbers of nine digits differ by more than this, or not at all",
    ("tray", "_needles", "Eq"): "white and all else change places, and there are as many pairs of them as before",
    ("tray", "_on_the_arc", "GtE"): "a side that is just as long as the arc is as long either way",
}


_TURNED: dict[type[ast.AST], type[ast.AST]] = {
    **{ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq},
    **{ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult},
}


class Change(NamedTuple):
    """One number made another one, or one sign: where it stands, what it was, what it is now.

    node: its place among all nodes of the module. sign: which of the signs of a comparison, from 0.
    """

    module: str
    within: str
    line: int
    node: int
    was: str
    now: str
    sign: int = 0


def file_of(module: str) -> Path:
    """Where a module stands, which is named as on the command line."""
    return ROOT / "generator" / f"{whole_name(module).replace('.', '/')}.py"


def whole_name(module: str) -> str:
    """The name of a module within the program, such as `trade.clock` for `clock`."""
    return next((name for name in ROOMS if module == name.rpartition(".")[2]), f"trade.{module}")


def every_module() -> list[str]:
    """All modules that are changed, by the names that stand on the command line."""
    trade = sorted(path.stem for path in TRADE.glob("*.py") if path.stem != "__init__")
    return trade + [name.rpartition(".")[2] for name in ROOMS]


def changes(module: str) -> Iterator[Change]:
    """Every change of a module that is tried."""
    tree = ast.parse(file_of(module).read_text("utf-8"))
    places = {id(node): place for place, node in enumerate(ast.walk(tree))}
    for within, node in _numbers_and_signs(tree):
        here = module, within, getattr(node, "lineno", 0), places[id(node)]
        if isinstance(node, ast.Constant):
            for now in _nearby(node.value):
                if repr(node.value) != repr(now):
                    yield Change(*here, repr(node.value), repr(now))
        elif not whole_name(module).startswith("trade."):
            for place, sign in enumerate(_signs(node)):
                if type(sign) in _TURNED:
                    yield Change(*here, type(sign).__name__, _TURNED[type(sign)].__name__, place)


def _signs(node: ast.AST) -> list[ast.AST]:
    return list(node.ops) if isinstance(node, ast.Compare) else [node.op] if isinstance(node, ast.BinOp) else []


def _numbers_and_signs(tree: ast.Module) -> Iterator[tuple[str, ast.AST]]:
    """Constants, comparisons and sums of a module, each with the function or the name at the top that it stands in."""
    for top in tree.body:
        if isinstance(top, ast.FunctionDef | ast.ClassDef):
            within = top.name
        elif isinstance(top, ast.Assign | ast.AnnAssign):
            target = top.targets[0] if isinstance(top, ast.Assign) else top.target
            within = target.id if isinstance(target, ast.Name) else ""
        else:
            within = ""
        docstrings = {id(node.value) for node in ast.walk(top) if isinstance(node, ast.Expr)}
        for node in ast.walk(top):
            if isinstance(node, ast.Constant | ast.Compare | ast.BinOp) and id(node) not in docstrings:
                yield within, node


def _nearby(value: object) -> list[object]:
    # 1 % of nothing is nothing: a nought is a beginning, such as of a list or of a scale, and no measure.
    if isinstance(value, bool) or value == 0:
        return []
    if isinstance(value, int):
        return [value - 1, value + 1]
    if isinstance(value, float):
        return [value * 0.99, value * 1.01]
    if isinstance(value, str) and _SWATCH.fullmatch(value):
        return [_moved(value, at) for at in (1, 3, 5)]
    return []


def _moved(swatch: str, at: int) -> str:
    channel = int(swatch[at : at + 2], 16)
    moved = channel - _CHANNEL_STEP if channel > 127 else channel + _CHANNEL_STEP
    return f"{swatch[:at]}{moved:02x}{swatch[at + 2 :]}"


def checks_of(module: str) -> list[str]:
    """The checks that have to notice.

    Of the trade: the published ones that use the module, by itself or through another one, and its own test.
    """
    if (name := whole_name(module)) in ROOMS:
        return [str(ROOT / "tests" / test) for test in ROOMS[name]]
    users = {module}
    grown = True
    while grown:
        more = {path.stem for path in TRADE.glob("*.py") if users & _uses(path)}
        grown = not more <= users
        users |= more
    published = sorted(str(path) for path in HERE.glob("test_*.py") if users & _uses(path))
    own = (OWN / f"test_{name}.py" for name in (module, "ends", "geometry", "practice"))
    return published + [str(path) for path in own if path.exists() and module in _uses(path)]


def _uses(path: Path) -> set[str]:
    """The modules of the trade that a file imports."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module == "generator.trade":
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and (node.module or "").startswith("generator.trade."):
            found.add((node.module or "").rpartition(".")[2])
    return found


class _Changed(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    """Loads one module with one number or sign changed."""

    def __init__(self, change: Change) -> None:
        self.change = change
        self.name = f"generator.{whole_name(change.module)}"

    def find_spec(self, fullname: str, path: object, target: object = None) -> ModuleSpec | None:
        return importlib.util.spec_from_loader(fullname, self) if fullname == self.name else None

    def exec_module(self, module: ModuleType) -> None:
        file = file_of(self.change.module)
        tree = copy.deepcopy(ast.parse(file.read_text("utf-8")))
        node = list(ast.walk(tree))[self.change.node]
        if isinstance(node, ast.Constant):
            node.value = ast.literal_eval(self.change.now)
        elif isinstance(node, ast.Compare):
            node.ops[self.change.sign] = getattr(ast, self.change.now)()
        elif isinstance(node, ast.BinOp):
            node.op = getattr(ast, self.change.now)()
        exec(compile(tree, str(file), "exec"), module.__dict__)


def survives(change: Change) -> bool:
    """Whether no check notices; for a process of its own, because the changed module stays loaded."""
    checks = checks_of(change.module)
    if not checks:
        return True
    sys.meta_path.insert(0, _Changed(change))
    return _pass(checks)


def each_alone(says: Callable[[T], bool], things: Sequence[T]) -> list[bool]:
    """What is said of each thing, in a process of its own; one that dies says no, whatever it died of."""
    fork, said = multiprocessing.get_context("fork"), [False] * len(things)
    running: dict[int, tuple[int, ForkProcess]] = {}
    waiting = list(enumerate(things))[::-1]
    while waiting or running:
        while waiting and len(running) < (os.cpu_count() or 1):
            place, thing = waiting.pop()
            process = fork.Process(target=_leave_with, args=(says, thing))
            process.start()
            running[process.sentinel] = place, process
        for ended in multiprocessing.connection.wait(list(running)):
            assert isinstance(ended, int)
            place, process = running.pop(ended)
            process.join()
            said[place] = process.exitcode == _YES
    return said


def _leave_with(says: Callable[[T], bool], thing: T) -> None:
    os._exit(_YES if says(thing) else 1)


def sound(module: str) -> bool:
    """Whether the checks of a module pass while nothing is changed; else every change would seem to be noticed."""
    checks = checks_of(module)
    return not checks or _pass(checks)


def _pass(checks: list[str]) -> bool:
    # A check that never ends has noticed; a process that the signal ended would leave the others waiting. Only time at
    # work counts: on a machine that is busy with other things a check that is slow has noticed nothing.
    resource.setrlimit(resource.RLIMIT_AS, (_MOST, _MOST))
    signal.signal(signal.SIGPROF, _too_long)
    signal.setitimer(signal.ITIMER_PROF, _LONGEST)
    with contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(io.StringIO()):
        status = pytest.main(
            ["-x", "-q", "-o", "addopts=", "-p", "no:cacheprovider", "-p", "no:xdist", "-m", _DETERMINED, *checks]
        )
    return status == pytest.ExitCode.OK


def _too_long(number: int, frame: object) -> NoReturn:
    raise TimeoutError


def main(names: Sequence[str]) -> int:
    """Try every change of the modules; the exit status is 1 when one survives that no reason exempts."""
    modules = list(names) or every_module()
    tried = [change for module in modules for change in changes(module)]
    exempt = {(change.module, change.within, change.was) for change in tried} & set(EXEMPT)
    wanted = [change for change in tried if (change.module, change.within, change.was) not in EXEMPT]
    for library in _LIBRARIES:
        importlib.import_module(library)
    if not all(each_alone(sound, modules)):
        sys.stdout.write("a check fails although nothing was changed: mend that first\n")
        return 2
    outcomes = each_alone(survives, wanted)
    left = [change for change, survived in zip(wanted, outcomes, strict=True) if survived]
    for change in left:
        sys.stdout.write(f"{change.module}.py:{change.line}: in {change.within}: {change.was} as {change.now}\n")
    sys.stdout.write(
        f"{len(wanted)} changes tried, {len(wanted) - len(left)} noticed, {len(left)} not noticed; "
        f"{len(exempt)} numbers exempt\n"
    )
    return 1 if left else 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
