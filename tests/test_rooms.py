"""Who may import whom, read from the source itself."""

from __future__ import annotations

import ast
import re
import sys
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from generator.records.families import ALL
from tests.source import SOURCE, nodes, tree

MODULES = {
    ".".join(path.relative_to(SOURCE.parent).with_suffix("").parts).removesuffix(".__init__"): path
    for path in sorted(SOURCE.rglob("*.py"))
}

# A room, or a module outside of the rooms, and what of the project it may import. A room may import itself.
BASE = {"diagnostics", "grouped", "how_many", "near_miss", "origins", "quantities", "units"}
MAY: dict[str, set[str]] = {
    "trade": set(),
    "units": set(),
    "origins": set(),
    "diagnostic_codes": set(),
    "grouped": set(),
    "how_many": set(),
    "diagnostics": {"diagnostic_codes", "grouped", "how_many"},
    "near_miss": set(),
    "quantities": {"diagnostics", "near_miss", "origins", "units"},
    "dates": set(),
    "faults": set(),
    "exchange": set(),
    "inherit": set(),
    "shipped": set(),
    "whole_files": set(),
    "records": BASE | {"trade", "dates"},
    "planning": BASE | {"trade", "records"},
    "press": BASE | {"trade", "records", "planning", "diagnostic_codes", "dates"},
    "deleting": {"records", "published"},
    "progress": set(),
    "kept": BASE | {"records", "planning", "press", "dates", "progress"},
    "finishing": BASE | {"records", "planning", "press", "kept", "whole_files"},
    "site": BASE | {"records", "planning", "press", "dates", "kept"},
    "cli": {"commands", "dates", "diagnostics", "faults", "records"},
    "commands": BASE
    | {
        "records",
        "planning",
        "press",
        "dates",
        "shipped",
        "whole_files",
        "finishing",
        "deleting",
        "site",
        "dry_build",
        "impact",
        "published",
        "publishing",
        "site_build",
        "kept",
    },
    "hooks": {"diagnostics"},
    "plugin": BASE
    | {
        "hooks",
        "trade",
        "records",
        "planning",
        "press",
        "dates",
        "faults",
        "exchange",
        "inherit",
        "shipped",
        "site",
        "kept",
        "published",
    },
    "published": {"records", "whole_files"},
    "publishing": {"published"},
    "impact": BASE | {"records", "planning", "press", "kept", "dates", "published", "site"},
    "site_build": {"dates", "dry_build", "plugin"},
    "dry_build": BASE | {"faults", "hooks", "kept", "press", "records", "exchange", "plugin", "site", "dates"},
    "__main__": {"cli"},
    "": set(),
}
# The rooms within `press` and `planning`, and modules that stand beside them, lowest first: what of their own package
# they import. The table says what is, so that its arrows can be counted.
WITHIN: dict[str, dict[str, set[str]]] = {
    "planning": {
        "computed": set(),
        "working": {"computed"},
        "timing": {"computed", "working"},
        "supplies": {"computed", "working", "timing"},
        "findings": {"computed", "working", "timing", "supplies"},
        "checklist": {"computed", "working", "supplies"},
        "plan": {"computed", "working", "timing", "supplies", "findings", "checklist"},
        "each_job": {"working", "timing", "plan"},
        "as_json": {"computed", "working", "timing", "findings", "plan"},
        "for_lists": {"computed", "supplies", "plan"},
    },
    "press": {
        "words": set(),
        "explained": {"words"},
        "drawings": {"words"},
        "manual": {"words"},
        "writing": {"words", "manual"},
        "sheet": {"words", "explained", "drawings"},
        "formulas": {"words", "explained"},
        "lists": {"words", "explained", "drawings", "manual", "sheet"},
        "tables": {"words", "explained", "drawings", "lists"},
        "pages": {"words", "manual", "writing", "sheet", "formulas", "lists", "tables"},
    },
}
MOST_ROOMS, MOST_ARROWS = 12, 30
# What comes from outside and belongs into one place only.
ONLY_IN = {
    "mkdocs": {"generator.plugin", "generator.dry_build", "generator.site_build"},
    "filelock": {"generator.exchange"},
    "yaml": {"generator.records.located"},
}
TRADE_MAY = {"dateutil", "coloraide", "shapely"}


def _tree(module: str) -> ast.Module:
    return tree(MODULES[module])


def _nodes(module: str) -> tuple[ast.AST, ...]:
    return nodes(MODULES[module])


def _room(module: str) -> str:
    parts = module.split(".")
    return parts[1] if len(parts) > 1 else ""


@cache
def _imports(module: str) -> tuple[str, ...]:
    """Every module that is imported, by its full name; `from package import module` names the module."""
    return tuple(_imported(module))


def _imported(module: str) -> Iterator[str]:
    for node in _nodes(module):
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
    assert "generator.trade.motion" in set(_imports("generator.planning.working.settings"))


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


def _inner(module: str, package: str) -> str:
    """The room of a module within its package, or the module itself where it stands beside the rooms."""
    parts = module.split(".")
    return parts[2] if len(parts) > 2 and parts[1] == package else ""


def _arrows(package: str) -> set[tuple[str, str]]:
    found = {(_inner(m, package), _inner(n, package)) for m in MODULES for n in _imports(m)}
    return {(one, other) for one, other in found if one and other and one != other}


@pytest.mark.parametrize("package", WITHIN)
def test_the_inner_rooms_are_those_of_the_table(package: str) -> None:
    assert {_inner(m, package) for m in MODULES} - {""} == set(WITHIN[package])


@pytest.mark.parametrize("package", WITHIN)
def test_inner_rooms_import_what_the_table_says_and_nothing_else(package: str) -> None:
    assert _arrows(package) == {(room, other) for room, others in WITHIN[package].items() for other in others}


def test_developers_read_the_same_table() -> None:
    """Who may import all, or all but a few, is told in words, and so are the two modules of diagnostics."""
    in_words = {"commands", "plugin", "diagnostics", "diagnostic_codes", "__main__", ""}
    table = (SOURCE.parent / "DEVELOPERS.md").read_text("utf-8").partition("## Rooms")[2].partition("\n## ")[0]
    table = table.replace("nothing of the project", "–")
    rows = re.findall(r"(?m)^\| `generator/([\w/]+?)(?:/|\.py)` \|.*\| ([^|]*) \|$", table)
    read = {room: set(re.findall(r"\w+", may)) for room, may in rows if room not in in_words}
    rooms = {room: may - BASE if may >= BASE else may for room, may in MAY.items() if room not in in_words}
    for package, inner in WITHIN.items():
        rooms |= {f"{package}/{room}": may for room, may in inner.items()}
    assert read == rooms


@pytest.mark.parametrize("package", WITHIN)
def test_no_inner_room_imports_upward(package: str) -> None:
    rooms = list(WITHIN[package])
    assert [(a, b) for a, b in _arrows(package) if rooms.index(b) >= rooms.index(a)] == []


@pytest.mark.parametrize("package", WITHIN)
def test_inner_rooms_do_not_import_each_other_in_a_circle(package: str) -> None:
    graph = {room: {b for a, b in _arrows(package) if a == room} for room in WITHIN[package]}
    assert _circle(graph) == []


@pytest.mark.parametrize("package", WITHIN)
def test_inner_rooms_and_their_arrows_are_few(package: str) -> None:
    assert len(WITHIN[package]) <= MOST_ROOMS
    assert len(_arrows(package)) <= MOST_ARROWS


@pytest.mark.parametrize("package", WITHIN)
def test_tests_and_templates_stand_beside_their_rooms(package: str) -> None:
    tests = Path(__file__).parent / package
    folders = {path.relative_to(tests).parts[0] for path in tests.rglob("*.py") if path.parent != tests}
    templates = {path.relative_to(SOURCE / package).parts[:-1] for path in (SOURCE / package).rglob("*.j2")}
    assert folders <= set(WITHIN[package])
    assert {parts[1:] for parts in templates} <= {("templates",)}


def test_a_name_is_imported_from_where_it_is_defined() -> None:
    """No module hands on what it has imported itself: `from fields import Day` where `Day` is defined in `days`."""
    taken = {m: {alias.asname or alias.name for node in _tree(m).body for alias in _aliases(node)} for m in MODULES}
    handed_on = {
        (m, alias.name)
        for m in MODULES
        for node in _nodes(m)
        for alias in _aliases(node)
        if alias.asname == alias.name or alias.name in taken.get(getattr(node, "module", None) or "", ())
    }
    assert handed_on == set()


def _aliases(node: ast.AST) -> list[ast.alias]:
    return node.names if isinstance(node, ast.Import | ast.ImportFrom) else []


def test_no_line_of_a_template_is_longer_than_a_line_of_code() -> None:
    long = [
        f"{path.name}:{number}"
        for path in sorted(SOURCE.rglob("*.j2"))
        for number, line in enumerate(path.read_text("utf-8").splitlines(), 1)
        if len(line) > 120
    ]
    assert long == []


def test_the_day_that_counts_as_today_is_read_once_a_run() -> None:
    calls = [
        m
        for m in MODULES
        for node in _nodes(m)
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "as_of"
    ]
    assert calls == ["generator.cli", "generator.plugin"]
    without_it = [
        m
        for m in MODULES
        for node in _nodes(m)
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "read_records"
        if len(node.args) + len(node.keywords) < 2
    ]
    assert without_it == [], "who reads records without the day reads the clock once more"


def test_what_the_developers_are_led_to_is_there() -> None:
    """A name without a folder is in the folder of the one before it."""
    table = (SOURCE.parent / "DEVELOPERS.md").read_text("utf-8").partition("## Where to look")[2].partition("\n## ")[0]
    gone, folder = [], SOURCE
    led = re.findall(r"`([^`:]+)(?:: ([^`]+))?`", table)
    for path, names in led:
        file = next((at for at in (SOURCE / path, SOURCE.parent / path, folder / path) if at.exists()), None)
        folder = folder if file is None else file if file.is_dir() else file.parent
        defined = "" if file is None or file.is_dir() else file.read_text("utf-8")
        gone += [path] if file is None else []
        gone += [
            name for name in names.split(", ") if name and not re.search(rf"(?m)^ *(?:def|class) {name}\b", defined)
        ]
    assert gone == [] and len(led) > 20


# Where `Any` may stand, each with its reason; everything else says what it takes.
ANY_IN = {
    "plugin": "settings of MkDocs, as YAML gives them",
    "impact": "a field that is taken by its name",
    "planning.as_json": "what is said of a value, by its class",
    "press.sheet.stored": "how JSON is read into a view, by its class",
    "records.jobs": "who asks first for a piece has no person and no day yet, which planning never sees",
    "records.noted": "a value in the place of which stands one that carries its origin",
    "records.quoting": "the families by their names",
    "records.reading": "what stands in a file of YAML, by the record of its family",
}


def test_any_stands_only_where_values_come_from_outside() -> None:
    using = {
        m.removeprefix("generator.")
        for m in MODULES
        for node in _nodes(m)
        if isinstance(node, ast.ImportFrom) and node.module == "typing" and "Any" in {a.name for a in node.names}
    }
    assert sorted(using - set(ANY_IN)) == [] and sorted(set(ANY_IN) - using) == []


MOST_PARAMETERS = 6


def test_a_function_takes_few_parameters() -> None:
    """What always comes together is a value with a name, and not one parameter more."""
    long = set()
    for module in MODULES:
        for node in _nodes(module):
            if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
                taken = [*node.args.posonlyargs, *node.args.args, *node.args.kwonlyargs]
                if len([one for one in taken if one.arg not in ("self", "cls")]) > MOST_PARAMETERS:
                    long.add(f"{module.rpartition('.')[2]}.{node.name}")
    assert long == set()


def test_a_class_name_stands_once() -> None:
    names = [
        node.name for m in MODULES for node in _tree(m).body if isinstance(node, ast.ClassDef) and node.name[0] != "_"
    ]
    assert sorted({name for name in names if names.count(name) > 1}) == []


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


# What looks like the path of a field and says something else than where a value comes from.
NO_ORIGIN = {
    "techniques.dials": "a key that has another name now is told by where it was written",
    "studio.limits": "a key that is there no more is told by where it was written",
    "supplies.per": "a word that is another one now is told by where it was written",
    "values.glove-wear": "an example of how a record is named",
    "values.glove-wear.is": "an example of how a value is quoted",
}
_PATH = re.compile(rf"({'|'.join(family.name for family in ALL)})\.(?!md$|html$|yml)[a-z{{]")


def _typed_paths(module: str) -> Iterator[str]:
    """Texts of code that begin like the path of a field, such as `jobs.` or f"techniques.{id}.pace"."""
    for node in _nodes(module):
        parts = node.values if isinstance(node, ast.JoinedStr) else [node]
        text = "".join(str(part.value) if isinstance(part, ast.Constant) else "{" for part in parts)
        if _PATH.match(text):
            yield text


def test_no_module_types_where_a_value_is_written() -> None:
    """A value knows its field and its source from reading on: `origin_of(value)`, `record.origin_at("field")`."""
    typed = {(path, module) for module in MODULES for path in _typed_paths(module)}
    assert {(path, module) for path, module in typed if path not in NO_ORIGIN} == set()
    assert set(NO_ORIGIN) <= {path for path, _ in typed}, "an exception that is needed no more"


# Printed otherwise than by its place in the list: a mole by its number, counted from 1.
ABOUT_TYPED = {"moles.{", "moles.{.keep"}


def test_a_finding_is_about_a_record_or_a_field_that_knows_its_own_path() -> None:
    typed = {
        "".join(str(part.value) if isinstance(part, ast.Constant) else "{" for part in node.args[0].values)
        for m in MODULES
        for node in _nodes(m)
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "About"
        if isinstance(node.args[0], ast.JoinedStr)
    }
    assert typed == ABOUT_TYPED


def test_an_origin_is_made_only_where_records_are_read() -> None:
    makers = {"Origin", "Recorded", "Named"}
    made = {
        m
        for m in MODULES
        for node in _nodes(m)
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in makers
    }
    makers_of = ("origins", "planning.computed", "records.noted", "records.record")
    assert made == {f"generator.{m}" for m in makers_of}


def _catches_all(module: str) -> Iterator[ast.ExceptHandler]:
    for node in _nodes(module):
        if isinstance(node, ast.ExceptHandler):
            caught = node.type.elts if isinstance(node.type, ast.Tuple) else [node.type]
            names = {c.id for c in caught if isinstance(c, ast.Name)}
            if node.type is None or names & {"Exception", "BaseException"}:
                yield node


_KINDS = {"ConditionField", "Number", "Pattern", "Ref", "TickWords", "Words"}


def test_an_example_of_a_field_is_no_text_between_backticks() -> None:
    """Annotations are no types that mypy looks into: `Pattern(form, says, Example("R-0100"))`."""
    plain = [
        f"{m}:{node.lineno}"
        for m in MODULES
        if m.startswith("generator.records.")
        for node in _nodes(m)
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in _KINDS
        for given in node.args
        if isinstance(given, ast.Constant) and isinstance(given.value, str) and re.fullmatch(r"`[^`]*`", given.value)
    ]
    assert plain == []


_READING = {"startswith", "endswith", "strip", "lstrip", "rstrip", "removeprefix", "removesuffix", "find", "index"}


def test_no_code_tells_by_backticks_what_a_text_is() -> None:
    """They are for who reads a sentence; what is typed as it stands is an `Example` that says so."""
    reading = {
        f"{m}:{node.lineno}"
        for m in MODULES
        for node in _nodes(m)
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr in _READING
        if any(isinstance(given, ast.Constant) and given.value == "`" for given in node.args)
    }
    assert reading == set()


# Who reads a text by words that are typed in code, and who wrote that text: a person, a file or another program.
READS = {
    "deleting": "names of files",
    "dry_build": "what the builder says",
    "hooks": "where Python found a module",
    "inherit": "pages that settings name",
    "planning.computed": "the name of a module",
    "planning.findings.allergies": "a word of a record, in the plural or not",
    "planning.checklist": "a fact, as a condition of a record names it",
    "plugin": "the file of a page",
    "press.lists.look_up": "the address of a page",
    "press.manual.changed_values": "the path of a value, as a change of a record names it",
    "press.manual.number_words": "a list of number words",
    "press.manual.quotes": "a quote of a page",
    "press.pages": "the file of an example",
    "press.sheet.contents": "a word of a record, for its plural",
    "press.words.addresses": "the address of a page",
    "press.words.markup": "a page that somebody wrote, of which an emergency comes first",
    "press.words.page_day": "the end of a finished page",
    "press.words.print_line": "the end of a finished page",
    "press.words.regional": "a finished page, of which styles are left as they are",
    "press.writing.new_job": "room for a key, which is taken away again",
    "press.writing.new_studio": "the keys of the demo's records",
    "records.checklist": "a fact, as a condition of a record names it",
    "records.fields": "a size, as a person wrote it",
    "records.located": "what the reader of YAML says",
    "records.parts": "a size, as a person wrote it",
    "records.personal": "a quote of a job",
    "records.quoting": "a quote of a record",
    "records.reading": "names of files",
}
_PARTING = {"partition", "rpartition", "split", "rsplit", "find", "rfind", "index"}


def _words_read(module: str) -> Iterator[str]:
    """Words by which a text is told apart or cut; what is looked for with `in` and has a space is of a sentence."""
    for node in _nodes(module):
        looked_for: list[ast.AST] = []
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
            looked_for = [*node.args] if node.func.attr in _READING - {"strip", "lstrip", "rstrip"} | _PARTING else []
        looked_for = [each for arg in looked_for for each in (arg.elts if isinstance(arg, ast.Tuple) else [arg])]
        words = [each.value for each in looked_for if isinstance(each, ast.Constant)]
        if isinstance(node, ast.Compare) and isinstance(node.ops[0], ast.In) and isinstance(node.left, ast.Constant):
            words += [node.left.value] if " " in str(node.left.value) else []
        yield from (word for word in words if isinstance(word, str) and any(map(str.isalpha, word)))


def test_no_code_decides_by_reading_a_sentence_of_its_own() -> None:
    """What is known where a text is made is a value beside it, and is not looked for in the text."""
    found = {m.removeprefix("generator."): sorted(set(_words_read(m))) for m in MODULES}
    assert {m: words for m, words in found.items() if words and m not in READS} == {}
    assert [m for m in READS if not found[m]] == [], "an exception that is needed no more"


def test_everything_is_caught_in_one_place_only() -> None:
    assert [m for m in MODULES for _ in _catches_all(m)] == ["generator.faults"]
