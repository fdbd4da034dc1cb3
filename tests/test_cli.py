"""The command line as a person calls it, and as a program does."""

from __future__ import annotations

import datetime
import io
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import redirect_stderr, redirect_stdout
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from generator import cli
from generator.cli import main
from generator.commands import sheet as sheet_command
from generator.dates import AsOf
from generator.planning.as_json import plan_as_data
from generator.planning.each_job import plan_jobs
from generator.planning.plan import JobPlan
from generator.press.sheet.contents import sheet_of
from generator.press.sheet.plan_text import plan_text
from generator.press.sheet.view import Sheet
from generator.records.families import Records
from generator.records.reading import read_records
from tests.conftest import THREE_JOBS, copy_content, copy_project
from tests.learned import learn_from

ROOT = Path(__file__).parents[1]
CONTENT = ROOT / "content"
JOBS = sorted(path.stem for path in (CONTENT / "jobs").glob("*.yml"))
HERE = ["--content", str(CONTENT)]


class Done(NamedTuple):
    """How a command ended, and what it said."""

    returncode: int | str | None
    stdout: str
    stderr: str


def run(*arguments: str, cwd: Path = ROOT, code: str = "ascii") -> Done:
    """A command as it is called in a folder, redirected where a code page holds; in this process.

    A start of its own takes longer than most commands.
    """
    out, err = (io.TextIOWrapper(io.BytesIO(), code) for _ in range(2))
    with pytest.MonkeyPatch.context() as patched, redirect_stdout(out), redirect_stderr(err):
        patched.chdir(cwd)
        patched.setenv("SOURCE_DATE_EPOCH", "1810080000")
        try:
            status: int | str | None = main(arguments)
        except SystemExit as left:
            status = left.code
    said = [stream.detach() for stream in (out, err) if stream.flush() is None]
    assert all(isinstance(stream, io.BytesIO) for stream in said)
    return Done(status, *(stream.getvalue().decode() for stream in said if isinstance(stream, io.BytesIO)))


def started(*arguments: str, cwd: Path = ROOT) -> subprocess.CompletedProcess[str]:
    """The same in a process of its own."""
    environment = {**os.environ, "PYTHONPATH": str(ROOT), "PYTHONUTF8": "1", "SOURCE_DATE_EPOCH": "1810080000"}
    return subprocess.run(
        [sys.executable, "-m", "generator", *arguments],
        cwd=cwd,
        env=environment,
        capture_output=True,
        text=True,
        encoding="utf-8",
        timeout=120,
        check=False,
    )


@pytest.fixture(scope="module")
def small(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A studio of a few jobs; nobody may change it."""
    return copy_project(tmp_path_factory.mktemp("small"), {*THREE_JOBS, "orrery"})


@pytest.fixture
def broken(tmp_path: Path) -> Path:
    content = copy_content(tmp_path, {*THREE_JOBS, "orrery"}).rename(tmp_path / "broken")
    file = content / "jobs" / "tide-table.yml"
    file.write_text(file.read_text("utf-8").replace("start: 11:00", "start: 25:00"), "utf-8")
    return content


def test_check_from_the_studios_own_folder(small: Path) -> None:
    done = started("check", cwd=small)
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.split("\n")[-2].startswith("0 errors, 0 warnings, ")


def test_check_tells_what_is_overdue_and_exits_with_nought() -> None:
    done = run("check")
    assert "reminder H721: the review of `stencil` was due on 2027-04-27" in done.stdout
    assert done.returncode == 0


def test_check_reads_the_pages_beside_the_records_or_where_it_is_told(tmp_path: Path) -> None:
    project = copy_project(tmp_path, THREE_JOBS)
    page = project / "handbook" / "reading.md"
    page.write_text("# Reading\n\nKeep {{ studio.limits.mole_clearanse }} away.\n", "utf-8")
    done = run("check", cwd=project)
    assert done.returncode == 1
    assert f"{Path('handbook/reading.md')}:3:6: error H701: " in done.stdout
    assert run("check", "--handbook", str(ROOT / "handbook"), cwd=project).returncode == 0


def test_check_says_when_there_are_no_pages_to_check(tmp_path: Path) -> None:
    copy_content(tmp_path, THREE_JOBS)
    done = run("check", cwd=tmp_path)
    assert "handbook:1:1: reminder F805: there is no handbook here" in done.stdout
    assert done.returncode == 0


def test_check_shows_mistakes_and_exits_with_one(broken: Path) -> None:
    done = run("check", "--content", str(broken))
    assert done.returncode == 1
    first, _, rest = done.stdout.partition("\n")
    assert first == "This is as of 12 May 2027, not today. SOURCE_DATE_EPOCH sets it."
    assert f"\n{broken / 'jobs' / 'tide-table.yml'}:7:8: error R312: " in rest
    assert re.search(r"\n1 error, 0 warnings, \d+ reminders\n$", done.stdout)
    assert done.stderr == ""


def test_check_says_how_many_jobs_a_mistake_in_another_record_keeps_from_being_planned(
    broken: Path, tmp_path: Path
) -> None:
    assert "not planned" not in run("check", "--content", str(broken)).stdout
    people = broken / "people.yml"
    people.write_text(people.read_text("utf-8").replace("role: artist", "role: artiste", 1), "utf-8")
    said = run("check", "--content", str(broken)).stdout
    # What is wrong inside a job is found all the same.
    assert "error R307" in said and "error R312" in said
    assert "\n4 jobs were not planned, because of mistakes in the other records" in said
    for file in sorted((broken / "jobs").glob("*.yml"))[1:]:
        file.unlink()
    assert "\n1 job was not planned" in run("check", "--content", str(broken)).stdout
    shutil.rmtree(broken / "jobs")
    assert "not planned" not in run("check", "--content", str(broken)).stdout


def test_check_says_the_same_as_json(small: Path, broken: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", "--format", "json", "--content", str(small / "content")]) == 0
    assert {d["level"] for d in json.loads(capsys.readouterr().out)} == {"reminder"}
    assert main(["check", "--format", "json", "--content", str(broken)]) == 1
    found = [d for d in json.loads(capsys.readouterr().out) if d["level"] == "error"]
    assert [(d["code"], d["line"], d["column"]) for d in found] == [("R312", 7, 8)]


@pytest.mark.parametrize("command", [["check"], ["plan", "orrery"], ["sheet", "orrery"]])
def test_a_content_folder_that_is_not_there(command: list[str], tmp_path: Path) -> None:
    done = run(*command, cwd=tmp_path)
    assert done.returncode == 1
    assert "content:1:1: error F801: the content folder is not there" in done.stdout + done.stderr
    assert "Traceback" not in done.stderr


@pytest.mark.parametrize("command", ["plan", "sheet"])
def test_an_unknown_job_is_named_with_those_that_are_there(command: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main([command, "nowhere", *HERE]) == 1
    said = capsys.readouterr()
    assert said.out == ""
    assert "error F803: there is no job `nowhere`" in said.err
    assert ", ".join(JOBS) in said.err


def test_a_job_is_a_name_and_never_a_path(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["plan", "../people", *HERE]) == 1
    assert "F803" in capsys.readouterr().err


@pytest.mark.parametrize("command", ["plan", "sheet"])
def test_a_job_with_a_mistake_has_no_plan(command: str, broken: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main([command, "tide-table", "--content", str(broken)]) == 1
    said = capsys.readouterr()
    assert said.out == ""
    assert "R312" in said.err
    # A mistake in one job does not stand in the way of another.
    assert main([command, "orrery", "--content", str(broken)]) == 0


@pytest.mark.parametrize("arguments", [[], ["chek"], ["plan"], ["check", "--format", "xml"], ["sheet", "a", "b"]])
def test_a_wrong_call_exits_with_two(arguments: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as left:
        main(arguments)
    assert left.value.code == 2
    assert "usage:" in capsys.readouterr().err


@cache
def plans() -> dict[str, tuple[Records, JobPlan]]:
    """The plan of each demo job as the command makes it, with what finished jobs have taught."""
    reading = read_records(CONTENT)
    made = {}
    for planned in plan_jobs(CONTENT, reading, learn_from(CONTENT, reading)[0]):
        assert reading.records is not None and planned.job is not None and planned.plan is not None
        made[str(planned.job.id)] = reading.records, planned.plan
    assert list(made) == JOBS
    return made


def test_a_plan_says_its_verdict_as_text() -> None:
    without = [
        job
        for job, (records, plan) in plans().items()
        if plan.verdict.heading.upper() not in plan_text(records, plan).upper()
    ]
    assert without == []


@pytest.mark.parametrize("job", THREE_JOBS)
def test_a_plan_is_printed_as_text_and_as_json(job: str, capsys: pytest.CaptureFixture[str]) -> None:
    records, plan = plans()[job]
    assert main(["plan", job, *HERE]) == 0
    assert capsys.readouterr().out.rstrip() == plan_text(records, plan).rstrip()
    assert main(["plan", job, "--json", *HERE]) == 0
    assert json.loads(capsys.readouterr().out) == _as_data(plan)


def _as_data(plan: JobPlan) -> dict[str, Any]:
    """A plan as a program reads it."""
    data: dict[str, Any] = json.loads(json.dumps(plan_as_data(plan)))
    return data


# Numbers that count rather than measure; everything else has to say where it comes from.
COUNTS = {"number", "breaks_after", "breaks_within", "sitting", "questions", "step"}


def _unexplained(data: Any, path: str = "") -> Iterator[str]:
    """Paths of numbers that do not say their unit, and their record or formula with inputs."""
    if isinstance(data, bool) or data is None or isinstance(data, str):
        return
    if isinstance(data, int | float):
        if path.split(".")[-1] not in COUNTS:
            yield path
    elif isinstance(data, list):
        for item in data:
            yield from _unexplained(item, path)
    elif "value" in data or "low" in data:
        yield from _half_explained(data, path)
    else:
        for key, inner in data.items():
            yield from _unexplained(inner, f"{path}.{key}")


def _half_explained(number: dict[str, Any], path: str) -> Iterator[str]:
    spoken = isinstance(number.get("value"), str)  # a name or a list of points among the inputs of a formula
    if "source" not in number or (not spoken and "unit" not in number):
        yield path
    if "formula" in number:
        if not (number["formula"] and number.get("answers") and number.get("inputs")):
            yield path
        for name, inner in number.get("inputs", {}).items():
            if isinstance(inner, dict) and ("value" in inner or "low" in inner):
                yield from _half_explained(inner, f"{path}.{name}")
            else:
                yield f"{path}.{name}"
    elif not number.get("record"):
        yield path


def test_every_number_of_a_plan_says_where_it_comes_from() -> None:
    wrong = []
    for job, (_, plan) in plans().items():
        data = _as_data(plan)
        wrong += [f"{job}{path}" for path in _unexplained(data)]
        if (data["work"] is not None) != data["verdict"]["goes_ahead"]:
            wrong.append(f"{job}: work and verdict")
    assert wrong == []


def test_a_number_without_an_origin_would_be_seen() -> None:
    assert list(_unexplained({"a": {"b": 3}})) == [".a.b"]
    assert list(_unexplained({"a": {"value": 3, "unit": "mm", "source": ""}})) == [".a"]
    assert list(_unexplained({"a": {"value": 3, "unit": "mm", "record": "r", "source": "", "formula": ""}})) != []


@pytest.mark.parametrize("job", THREE_JOBS)
def test_a_sheet_is_one_document_printed_or_written(
    job: str, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1810080000")
    assert main(["sheet", job, *HERE]) == 0
    printed = capsys.readouterr().out
    assert printed.lower().startswith("<!doctype html>")
    assert printed.rstrip().endswith("</html>")
    output = tmp_path / "sheet.html"
    assert main(["sheet", job, "-o", str(output), *HERE]) == 0
    assert capsys.readouterr().out == ""
    assert output.read_text("utf-8").rstrip() == printed.rstrip()


def test_a_sheet_in_one_system_of_units_is_made_once(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    made: list[bool] = []

    def counted(records: Records, plan: JobPlan, both_units: bool = False) -> Sheet:
        made.append(both_units)
        return sheet_of(records, plan, both_units)

    monkeypatch.setattr(sheet_command, "sheet_of", counted)
    assert main(["sheet", "tide-table", "--explain", *HERE]) == 0
    assert "belongs to the sheet with stamp" in capsys.readouterr().out
    assert made == [False]


def test_the_other_units_stand_beside_only_on_request(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["sheet", "tide-table", *HERE]) == 0
    alone = capsys.readouterr().out
    assert main(["sheet", "tide-table", "--both-units", *HERE]) == 0
    both = capsys.readouterr().out
    assert "\u00a0in)" not in alone
    assert "\u00a0in)" in both
    # Both are the same sheet to whoever looks its stamp up.
    (one,), (other,) = (set(re.findall(r"· stamp ([0-9a-f]{8})", html)) for html in (alone, both))
    assert one == other


@pytest.mark.parametrize("place", ["no/such/folder/sheet.html", "."])
def test_an_output_that_cannot_be_written(place: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    output = tmp_path / place
    assert main(["sheet", "orrery", "-o", str(output), *HERE]) == 1
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.startswith(f"error: {output}: ")
    assert "choose a place that can be written" in said.err


# What takes long to load, by the module that stands for it; each is loaded where something is made with it.
SLOW_TO_LOAD = {"coloraide", "jinja2", "latex2mathml", "mkdocs", "numpy", "segno", "shapely"}


@pytest.mark.parametrize(
    ("arguments", "besides"),
    [
        (["--help"], {"pydantic", "yaml"}),
        (["clear-kept", "--content", "nowhere/content"], {"pydantic", "yaml"}),
        (["plan", "no-such-job", "--content", str(CONTENT)], set()),
    ],
)
def test_a_command_loads_nothing_slow_that_it_does_not_need(arguments: list[str], besides: set[str]) -> None:
    """besides: what it must not load either."""
    run = f"try:\n    main({arguments})\nexcept SystemExit:\n    pass"
    told = f"import sys\nfrom generator.cli import main\n{run}\nprint(*sys.modules, file=sys.stderr)"
    done = subprocess.run([sys.executable, "-c", told], capture_output=True, text=True, cwd=ROOT, check=True)
    modules = set(done.stderr.split())
    assert "generator.cli" in modules
    assert sorted(modules & (SLOW_TO_LOAD | besides)) == []


def test_every_command_has_its_module_and_every_module_its_command() -> None:
    helped = subprocess.run([sys.executable, "-m", "generator", "--help"], capture_output=True, text=True, check=True)
    commands = set(re.findall(r"(?m)^    ([a-z-]+)(?= |$)", helped.stdout)) - {"command"}
    modules = {
        path for path in (ROOT / "generator" / "commands").glob("*.py") if "\ndef run(" in path.read_text("utf-8")
    }
    assert {path.stem for path in modules} == {command.replace("-", "_") for command in commands}


def test_a_reader_that_has_seen_enough_is_no_mistake() -> None:
    arguments = [sys.executable, "-m", "generator", "plan", "tide-table", "--json"]
    with subprocess.Popen(arguments, cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as process:
        assert process.stdout is not None and process.stderr is not None
        process.stdout.close()
        said = process.stderr.read()
        assert said.count(b"\n") == 1 and said.startswith(b"This is as of 12 May 2027, not today.")
        assert process.wait(60) == 0


def test_a_fault_of_the_program_is_called_one_and_written_down(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))

    def fails(*_: object) -> None:
        raise ZeroDivisionError("on purpose")

    monkeypatch.setattr("generator.site.read_records", fails)
    with pytest.raises(SystemExit) as left:
        main(["check", *HERE])
    assert left.value.code == 3
    said = capsys.readouterr().err
    assert said.startswith("internal error: ZeroDivisionError: on purpose\n") and "Traceback" not in said
    (written,) = tmp_path.iterdir()
    assert f" is written in {written};" in said
    assert written.read_text("utf-8").startswith("Traceback (most recent call last)")
    assert 'raise ZeroDivisionError("on purpose")' in written.read_text("utf-8")
    assert written.stat().st_mode & 0o077 == 0


def test_a_fault_is_told_although_nothing_can_be_written(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    def fails(*_: object) -> None:
        raise ZeroDivisionError("on purpose")

    monkeypatch.setattr("generator.site.read_records", fails)
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path / "gone"))
    with pytest.raises(SystemExit) as left:
        main(["check", *HERE])
    assert left.value.code == 3
    assert "could not be written to a file: No such file" in capsys.readouterr().err


MOST = 10_000
MANY: dict[str, tuple[str, Callable[[str], str]]] = {
    "keys": ("people.yml", lambda text: text + "".join(f"  key{n}: x\n" for n in range(MOST))),
    "entries": (
        "jobs/tide-table.yml",
        lambda text: text.replace("allergies: none", f"allergies: [{', '.join(f'a{n}' for n in range(MOST))}]"),
    ),
    "words": (
        "techniques.yml",
        lambda text: text.replace("usual_for: [wash]", f"usual_for: [{', '.join(f'w{n}' for n in range(MOST))}]"),
    ),
}


@pytest.mark.parametrize("kind", MANY)
def test_ten_thousand_mistakes_are_a_short_text_soon(kind: str, tmp_path: Path) -> None:
    copy_content(tmp_path, THREE_JOBS)
    name, worse = MANY[kind]
    file = tmp_path / "content" / name
    file.write_text(worse(file.read_text("utf-8")), "utf-8")
    began = time.process_time()
    done = run("check", cwd=tmp_path)
    assert time.process_time() - began < 10, "ten times as many would take a hundred times as long"
    assert done.returncode == 1
    assert done.stdout.count(": error ") == 100
    assert re.search(r"\n… and 99\d\d more, not shown here", done.stdout)
    assert len(done.stdout) < 150_000


@pytest.mark.parametrize(
    "command", [["check"], ["plan", "orrery"], ["sheet", "orrery"], ["restock"], ["plan", "no–such–job"], ["chek–"]]
)
def test_redirected_output_is_utf8_whatever_the_code_page(command: list[str], small: Path) -> None:
    done = run(*command, code="ascii", cwd=small)
    expected = {"no–such–job": 1, "chek–": 2}.get(command[-1], 0)
    assert (done.returncode, "internal error" in done.stderr) == (expected, False)
    assert done == run(*command, code="utf-8", cwd=small)
    assert not done.stdout.isascii() or not done.stderr.isascii() or command == ["check"]


@pytest.mark.parametrize(
    "code", [{"PYTHONIOENCODING": "cp1252"}, {"PYTHONIOENCODING": "ascii"}, {"LC_ALL": "C", "PYTHONCOERCECLOCALE": "0"}]
)
def test_a_process_that_is_redirected_writes_utf8(code: dict[str, str], tmp_path: Path) -> None:
    command = ["sheet", "orrery"] if "LC_ALL" in code else ["plan", "no–such–job"]
    environment = {k: v for k, v in os.environ.items() if k not in ("PYTHONIOENCODING", "LC_ALL", "LANG")}
    environment = {**environment, "PYTHONUTF8": "0", "SOURCE_DATE_EPOCH": "1810080000", **code}
    with (tmp_path / "out").open("wb") as out, (tmp_path / "err").open("wb") as err:
        arguments = [sys.executable, "-m", "generator", *command]
        left = subprocess.run(arguments, cwd=ROOT, env=environment, stdout=out, stderr=err, timeout=120, check=False)
    said, erred = ((tmp_path / name).read_text("utf-8") for name in ("out", "err"))
    here = run(*command)
    assert (left.returncode, "internal error" in erred) == (here.returncode, False)
    assert said == here.stdout


def test_a_file_whose_name_is_no_text_is_named_all_the_same(tmp_path: Path) -> None:
    copy_content(tmp_path, THREE_JOBS)
    (tmp_path / "content" / "jobs" / os.fsdecode(b"odd\xff.txt")).write_text("", "utf-8")
    done = run("check", cwd=tmp_path)
    assert done.returncode == 1 and "error F802" in done.stdout and "odd\\udcff.txt" in done.stdout


FAR = ("0000-00-00", "0001-01-01", "1899-12-31", "2200-01-01", "9999-12-31", "10000-01-01", "-1", "2027-02-30", "today")


@pytest.mark.parametrize("day", FAR)
@pytest.mark.parametrize("option", ["--from", "--to"])
def test_a_day_that_no_record_may_have_is_a_wrong_call(
    option: str, day: str, capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit) as left:
        main(["restock", f"{option}={day}", *HERE])
    assert left.value.code == 2
    said = capsys.readouterr().err
    assert f"argument {option}: expected a date" in said and f"found “{day}”" in said and "internal error" not in said


@pytest.mark.parametrize(
    "days", [("1900-01-01", "1900-01-01"), ("2199-12-31", "2199-12-31"), ("1900-01-01", "2199-12-31")]
)
def test_what_to_order_is_told_to_both_ends_of_the_calendar(
    days: tuple[str, str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["restock", "--from", days[0], "--to", days[1], *HERE]) == 0
    assert days[1] in capsys.readouterr().out
    assert main(["restock", "--from", days[1], *HERE]) == 0


@pytest.mark.parametrize("epoch", ["99999999999", "999999999999", "-1", "soon"])
def test_any_date_of_the_build_is_taken(
    epoch: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", epoch)
    content = str(copy_content(tmp_path, THREE_JOBS))
    assert [main([command, "--content", content]) for command in ("check", "restock")] == [0, 0]


def test_on_the_first_day_of_all_nothing_had_been_done(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "0")
    assert [main([command, *HERE]) for command in ("check", "restock")] == [1, 1]
    said = capsys.readouterr().out
    assert said.startswith("This is as of 1 January 1970, not today. SOURCE_DATE_EPOCH sets it.\n")
    assert "still to come" in said and "expected: a day up to 1970-01-01, which SOURCE_DATE_EPOCH sets as today" in said


@pytest.mark.parametrize("command", [["check"], ["plan", "tide-table"], ["sheet", "tide-table"], ["restock"]])
def test_a_run_over_midnight_is_of_one_day(
    command: list[str], monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    asked = []

    def midnight(told: datetime.date | None) -> AsOf:
        asked.append(1)
        day = datetime.date(2027, 5, 11 + len(asked))
        return AsOf.of(day, "midnight", day)

    monkeypatch.setattr(cli, "as_of", midnight)
    assert main([*command, "--content", str(copy_content(tmp_path, THREE_JOBS))]) == 0
    assert capsys.readouterr().out and len(asked) == 1
