"""A new job: every place that is left to write is one diagnostic, and filled in as its comments say it plans."""

from __future__ import annotations

import re
import shutil
from pathlib import Path
from typing import Annotated

import pytest

from generator.cli import main
from generator.diagnostics import Report
from generator.planning.plan import JobPlan, plan
from generator.press.writing.new_job import new_job
from generator.press.writing.schema import fields_of
from generator.records.afterwards import Finished
from generator.records.fields import Choice, OrUnknown, Words
from generator.records.jobs import Job
from generator.records.parts import Part
from generator.records.reading import JobReading, read_job, read_records
from generator.records.record import Record, described
from tests.planning.demo import CONTENT, RECORDS

KNOWN = read_records(CONTENT).known
TEXT = new_job(RECORDS, "lamp-glass")
CAPITALS = re.compile(r"\b[A-Z]{2,}\b")


def _read(text: str, folder: Path) -> JobReading:
    path = folder / "lamp-glass.yml"
    path.write_text(text, "utf-8")
    return read_job(path, KNOWN)


def _left(text: str) -> list[tuple[int, int, str]]:
    """The capitals in the values of a file, with line and column."""
    found = []
    for number, line in enumerate(text.split("\n"), 1):
        value = line.partition("#")[0]
        found += [(number, at.start() + 1, at.group()) for at in CAPITALS.finditer(value)]
    return found


def _planned(text: str, folder: Path) -> JobPlan:
    read = _read(text, folder)
    assert read.report == () and read.job is not None
    made, report = plan(RECORDS, read.job)
    assert made is not None and report == ()
    return made


def test_each_place_that_is_left_is_one_diagnostic(tmp_path: Path) -> None:
    left = _left(TEXT)
    assert len(left) > 12
    report = _read(TEXT, tmp_path).report
    assert sorted((d.place.line, d.place.column, d.found.strip("“”")) for d in report) == left
    assert all(d.help for d in report)


def _fill(text: str, report: Report) -> str:
    """Write at each place the first thing that its diagnostic says to write."""
    lines = text.split("\n")
    for d in sorted(report, key=lambda d: -d.place.column):
        said = re.search(r"`([^`]+)`", d.help) or re.search(r"ids there: ([^,]+)", d.help)
        assert said, d.help
        line = lines[d.place.line - 1]
        lines[d.place.line - 1] = line[: d.place.column - 1] + said[1] + line[d.place.end - 1 :]
    return "\n".join(lines)


def test_filled_in_as_the_check_says_it_plans_and_asks_for_the_rest(tmp_path: Path) -> None:
    made = _planned(_fill(TEXT, _read(TEXT, tmp_path).report), tmp_path)
    assert not made.verdict.settled and made.work is None
    asked = {f.about.split(".")[0] for f in made.findings if f.asks}
    assert {"screening", "allergies", "scars", "moles"} <= asked
    assert len([f for f in made.findings if f.about.startswith("screening.")]) == len(RECORDS.screening)


def _as_its_comments_say(text: str) -> str:
    """Write in place of capitals and of `unknown` what the comment beside or above it names first."""
    lines: list[str] = []
    above = ""
    for line in text.split("\n"):
        written, _, comment = line.partition("# ")
        if written.strip() and not line.lstrip().startswith("#"):
            says, above = f"{above} {comment}", ""
            if "[RIGHT, DOWN, WIDTH, HEIGHT]" in written:
                written = written.replace("[RIGHT, DOWN, WIDTH, HEIGHT]", "[10 mm, 10 mm, 60 mm, 60 mm]")
            for capitals in dict.fromkeys(at.group() for at in CAPITALS.finditer(written)):
                key = re.search(rf"(\w+): \[?{capitals}", written)
                assert key, line
                written = written.replace(capitals, _first_named(says, key[1]))
            if re.search(r": unknown *$", written):
                example = re.search(r"such as (\d\S* \S+)", says)
                instead = "none" if "none, or" in says else example[1] if example else "unknown"
                written = written.replace("unknown", instead)
        elif comment:
            above += f" {comment.strip()}"
        lines.append(written.rstrip() if written.strip() else line)
    return re.sub(r"answers: \{[^}]*\}", "answers: all clear", "\n".join(lines))


def _first_named(says: str, key: str) -> str:
    part = re.search(rf"; {'ink' if key == 'colours' else key}: (.*?)(?:; [a-z_]+: |$)", says)
    own = part[1] if part else says
    example = re.search(r"such as (.+?)(?:;|$)", own) or re.search(r".*?: ([^,]+)", own)
    assert example, says
    return example[1].strip()


def test_filled_in_as_the_comments_say_it_may_go_ahead(tmp_path: Path) -> None:
    made = _planned(_as_its_comments_say(TEXT), tmp_path)
    assert made.verdict.goes_ahead and made.verdict.settled
    assert made.work is not None and made.work.steps


def _one(key: str, text: str) -> str:
    """The entry that stands in the comments under a key, taken out of them."""
    head, _, rest = text.partition(f"{key}: unknown")
    block = re.match(r"[^\n]*\n((?:#   .*\n)+)", rest)
    assert block
    entry = block[1].replace("\n#   ", "\n  ").replace("#   ", "  ", 1)
    return f"{head}{key}:\n{entry}{rest[block.end() :]}"


@pytest.mark.parametrize(
    ("key", "places", "asks"),
    [("scars", 5, True), ("moles", 2, True), ("existing_tattoos", 4, True), ("numbing", 3, False)],
)
def test_an_entry_in_the_comments_can_be_taken_out_of_them(key: str, places: int, asks: bool, tmp_path: Path) -> None:
    text = _one(key, TEXT)
    left = _left(text)
    assert len(left) == len(_left(TEXT)) + places
    report = _read(text, tmp_path).report
    assert sorted((d.place.line, d.place.column, d.found.strip("“”")) for d in report) == left
    made = _planned(_fill(text, report), tmp_path)
    assert not asks or [f for f in made.findings if f.asks and re.match(rf"{key}\.\w+", f.about)]


def test_every_key_of_a_job_and_of_a_part_is_spoken_of() -> None:
    for model in (Job, Part):
        for field in fields_of(model):
            assert re.search(rf"^[# -]*{field.key}:", TEXT, re.MULTILINE), field.key
            assert " ".join(field.about.replace("`", "").split()[:4]) in TEXT, field.about


def test_a_barred_ink_and_somebody_who_may_not_work_are_not_offered() -> None:
    offered = set(re.findall(r"[a-z]+(?:-[a-z]+)*", TEXT))
    assert "black-line" in offered and "old-turquoise" not in offered
    assert "quill" in offered and not {"bram", "tilde"} & offered


def test_no_line_is_too_long_and_the_job_itself_is_short() -> None:
    assert max(map(len, TEXT.split("\n"))) <= 110
    assert len([line for line in TEXT.split("\n") if line.partition("#")[0].strip()]) < 40


def test_the_command_writes_the_file_and_says_so(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    content = tmp_path / "content"
    content.mkdir()
    for path in CONTENT.glob("*.yml"):
        (content / path.name).write_bytes(path.read_bytes())
    assert main(["new-job", "lamp-glass", "--content", str(content)]) == 0
    path = content / "jobs" / "lamp-glass.yml"
    assert path.read_text("utf-8") == TEXT
    assert str(path) in capsys.readouterr().out


@pytest.mark.parametrize("job_id", ["lamp glass", "../people", "lamp--glass", "", "l" * 61])
def test_a_bad_id_is_refused_and_nothing_is_written(job_id: str, capsys: pytest.CaptureFixture[str]) -> None:
    before = sorted((CONTENT / "jobs").iterdir()), (CONTENT / "people.yml").read_bytes()
    assert main(["new-job", job_id, "--content", str(CONTENT)]) == 1
    said = capsys.readouterr()
    assert said.out == "" and "error R306: " in said.err and "help: write `" in said.err
    assert (sorted((CONTENT / "jobs").iterdir()), (CONTENT / "people.yml").read_bytes()) == before


def test_what_happened_has_its_keys_with_a_word_on_each() -> None:
    text = new_job(RECORDS, "tin-whistle")
    block = text[text.index("#   finished:") : text.index("#   in a part:")]
    for key, field in described(Finished).items():
        assert f"#     {key}: {field.description}" in " ".join(block.split("\n")), key
    assert "each as {technique: TECHNIQUE, took: TOOK}" in block and "done, time, skin, tap-out, unwell" in block


# Microsoft, “Naming Files, Paths, and Namespaces”.
DEVICES = ["CON", "PRN", "AUX", "NUL", "COM1", "COM9", "LPT1", "LPT9", "con", "aux", "Nul"]
ODD = ["a.", "a ", " a", "aux.yml", "a/b", "..", "a\\b", "a:b", "-a", "a--b", "ä", "", "a" * 61]


@pytest.mark.parametrize("job_id", [*DEVICES, *ODD])
def test_no_job_has_a_name_that_another_system_cannot_hold(
    job_id: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    content = tmp_path / "content"
    shutil.copytree(CONTENT, content)
    before = sorted(content.rglob("*"))
    assert main(["new-job", "--content", str(content), "--", job_id]) == 1
    assert re.search(r"error R3(06|26|04)", capsys.readouterr().err)
    assert sorted(content.rglob("*")) == before


@pytest.mark.parametrize("job_id", ["Tide-Table", "TIDE-TABLE", "tide-Table"])
def test_no_job_is_begun_beside_one_that_differs_only_in_capitals(
    job_id: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    content = tmp_path / "content"
    shutil.copytree(CONTENT, content)
    assert main(["new-job", job_id, "--content", str(content)]) == 1
    assert "tide-table.yml:1:1: error F804" in capsys.readouterr().err
    assert not (content / "jobs" / f"{job_id}.yml").exists()


class _Oddly(Record):
    """A record whose kinds say what they take in words that sound like others."""

    one: Annotated[str, Words(takes="one of the sayings of the house")]
    two: Annotated[str | None, OrUnknown(Choice(("high", "low")))]
    three: Annotated[str, Words(takes="text, or `unknown` as a name")]


def test_what_may_be_chosen_is_known_by_the_kind_and_not_by_its_words() -> None:
    assert [(f.shape.choose, f.shape.unknown) for f in fields_of(_Oddly)] == [
        ("", False),
        ("`high`, `low`", True),
        ("", False),
    ]
