"""Records of an older format: every old key is answered with its new name, and the number of the format is checked."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from generator.dates import as_of
from generator.diagnostics import Diagnostic
from generator.press.manual.quotes import quoted
from generator.press.writing.changes import changes_page
from generator.press.writing.schema import nested_records
from generator.records.families import ALL
from generator.records.format import FORMAT, RENAMED, REWORDED, TAKEN_AWAY, Renamed
from generator.records.mistakes import by_key
from tests.checked import check_all
from tests.conftest import THREE_JOBS, copy_content
from tests.planning.demo import RECORDS

ENTRIES = pytest.mark.parametrize("entry", RENAMED, ids=lambda entry: f"{entry.record}.{entry.old}")
MODELS = {
    ".".join([family.name, *path]): by_key(model)
    for family in ALL
    for path, model in (((), family.model), *((tuple(p.split(".")), m) for p, m in nested_records(family.model)))
}


def _file(content: Path, entry: Renamed) -> Path:
    family = entry.record.split(".")[0]
    return content / "jobs" / "tide-table.yml" if family == "jobs" else content / f"{family}.yml"


def _key(name: str) -> re.Pattern[str]:
    return re.compile(rf"(?<![\w-]){name}(?=: )")


def _with(content: Path, entry: Renamed, text: str) -> list[Diagnostic]:
    """What is found when the first place of the new key reads so."""
    file = _file(content, entry)
    before = file.read_text("utf-8")
    file.write_text(_key(entry.new).sub(text, before, count=1), "utf-8")
    assert file.read_text("utf-8") != before
    return list(check_all(content, as_of()))


@ENTRIES
def test_the_table_speaks_of_keys_that_are_there_and_of_keys_that_are_not(entry: Renamed) -> None:
    assert entry.new in MODELS[entry.record]
    assert entry.old not in MODELS[entry.record]
    assert 1 < entry.since <= FORMAT


@ENTRIES
def test_an_old_key_is_one_mistake_at_its_place_that_says_the_new_one(entry: Renamed, tmp_path: Path) -> None:
    found = _with(copy_content(tmp_path, THREE_JOBS), entry, entry.old)
    assert [d.code for d in found] == ["R333"]
    wrong = found[0]
    line = Path(wrong.place.file).read_text("utf-8").split("\n")[wrong.place.line - 1]
    assert line[wrong.place.column - 1 :].startswith(f"{entry.old}: ")
    assert wrong.message == f"`{entry.old}` is now `{entry.new}`"
    assert wrong.help.startswith(f"write `{entry.new}:") or "take this line away" in wrong.help


@ENTRIES
def test_an_old_key_beside_its_new_one_goes(entry: Renamed, tmp_path: Path) -> None:
    content = copy_content(tmp_path, THREE_JOBS)
    before = _key(entry.new).split(_file(content, entry).read_text("utf-8"), maxsplit=1)[0]
    in_braces = before.count("{") > before.count("}")
    between = ", " if in_braces else "\n" + before.rsplit("\n", 1)[1]
    found = _with(content, entry, f"{entry.old}: 1{between}{entry.new}")
    assert [d.code for d in found] == ["R333"]
    assert f"take `{entry.old}` away" in found[0].help


def test_many_old_keys_are_one_mistake_each(tmp_path: Path) -> None:
    content = copy_content(tmp_path, THREE_JOBS)
    file = content / "techniques.yml"
    text, swaps = file.read_text("utf-8"), 0
    for entry in RENAMED:
        if entry.record.startswith("techniques"):
            text, number = _key(entry.new).subn(f"@{entry.old}", text)
            swaps += number
    file.write_text(text.replace("@", ""), "utf-8")
    assert swaps > 10
    assert [d.code for d in check_all(content, as_of())] == ["R333"] * swaps


@pytest.mark.parametrize(
    ("written", "code", "mended"),
    [
        ("", "R334", f"write `format: {FORMAT}`"),
        ("format: 1\n", "R335", f"then write `format: {FORMAT}`"),
        (f"format: {FORMAT + 1}\n", "R336", f"the version of the program that format {FORMAT + 1} came with"),
        ("format: two\n", "R309", f"write `{FORMAT}`"),
        ("format: 0\n", "R309", f"write `{FORMAT}`"),
        ("format: 2.0\n", "R309", f"write `{FORMAT}`"),
        ("format:\n", "R304", f"write `{FORMAT}`"),
    ],
)
def test_the_number_of_the_format_is_checked(written: str, code: str, mended: str, tmp_path: Path) -> None:
    content = copy_content(tmp_path, THREE_JOBS)
    head = content / "studio.yml"
    head.write_text(head.read_text("utf-8").replace(f"format: {FORMAT}\n", written), "utf-8")
    found = check_all(content, as_of())
    assert [d.code for d in found] == [code]
    assert mended in found[0].help
    assert found[0].place.line == 2  # where it is written, and where it would be


def test_records_of_format_1_say_what_to_do_with_both_the_number_and_the_keys(tmp_path: Path) -> None:
    content = copy_content(tmp_path, THREE_JOBS)
    head = content / "studio.yml"
    head.write_text(head.read_text("utf-8").replace(f"format: {FORMAT}\n", ""), "utf-8")
    found = _with(content, next(entry for entry in RENAMED if entry.record == "jobs"), "old_work")
    assert {d.code for d in found} == {"R334", "R333"}


@pytest.mark.parametrize(
    ("quote", "now"),
    [
        ("techniques.packing.clock_rate", "techniques.packing.pace"),
        ("techniques.packing.dials.0.times_over", "techniques.packing.dials.0.passes"),
        ("techniques.packing.passes", "techniques.packing.movement"),
        ("scar-rules.scar-young.times_over", "scar-rules.scar-young.passes"),
        ("cycles.gravity-instruments-121.hold", "cycles.gravity-instruments-121.holding_time"),
        ("hygiene.day-mix.product", "hygiene.day-mix.disinfectant"),
    ],
)
def test_a_quote_of_an_old_key_is_answered_with_the_new_one(quote: str, now: str) -> None:
    found = quoted(f"about {{{{ {quote} }}}}", "page.md", RECORDS)[1]
    assert [d.code for d in found] == ["H701"]
    assert found[0].help == f"write `{now}`"
    assert f"is now `{now.rsplit('.', 1)[1]}`" in found[0].message


def test_the_page_of_changes_has_every_key() -> None:
    text = changes_page()
    assert text.count("<tr id=") == len(RENAMED) + len(REWORDED) + len(TAKEN_AWAY)
    for word in (*(entry.old for entry in REWORDED), *(entry.old for entry in TAKEN_AWAY)):
        assert f"<code>{word}</code>" in text
    for entry in RENAMED:
        assert f"<code>{entry.old}</code>" in text and f"<code>{entry.new}</code>" in text
        assert re.sub(r"`(.+?)`", r"<code>\1</code>", entry.why) in text
