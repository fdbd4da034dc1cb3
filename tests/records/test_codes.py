"""Every code is listed, and its example earns it: that code alone, at the line that was changed."""

from __future__ import annotations

import contextlib
import datetime
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

import generator
from generator.cli import main
from generator.dates import as_of
from generator.diagnostic_codes import CODES, Code
from generator.diagnostics import Diagnostic
from generator.dry_build import dry_build
from generator.press.manual.check import handbook_report
from generator.press.manual.procedures import read_procedures
from generator.press.manual.quotes import quoted
from generator.records.reading import read_records
from tests.checked import check_all
from tests.conftest import THREE_JOBS, copy_content, copy_project, leave_jobs, put_back

CONTENT = Path(__file__).parents[2] / "content"
SOURCE = Path(generator.__file__).parent


# What is done with an example to see its code; elsewhere `right` is replaced, once, by `wrong`.
DONE: dict[str, tuple[str, ...]] = {
    "replaced everywhere": ("J610", "J632"),
    "renamed": ("J630", "F801", "F802", "F809"),
    "copied": ("F807",),
    "asked for": ("F803",),
    "begun": ("F804",),
    "finished": ("F810",),
    "told": ("F811",),
    "written over": ("F806",),
    "a studio begun": ("F820",),
    "an older schema": ("F821",),
    "quoted": ("H701", "H702", "H703"),
    "in the handbook": (
        *("H704", "H705", "H713", "H721", "H722", "H723", "H724", "H725", "H726", "H727", "H728"),
        *("H741", "H742", "H743", "H744"),
    ),
    "renamed page": ("F805", "H711", "H712", "H716"),
    "emptied page": ("H714",),
    "in the site": ("F831", "F832", "H731", "H732", "H733"),
    "put there": ("F833", "H715"),
    "hooked": ("F834",),
}
HOW = {code: how for how, codes in DONE.items() for code in codes}
# The file in which the mistake then shows, where it is another one.
SEEN_IN = {
    "R337": "hygiene.yml",
    "L410": "supplies.yml",
    "J601": "jobs",
    "J608": "jobs/stairwell.yml",
    "J610": "jobs",
    "J623": "jobs",
    "J632": "jobs",
    "J650": "jobs",
}
# A line of studio.yml that settles what the mistake is about, so that the code is earned only without it.
WITHOUT = {"J610": "line_ink: black-line\n"}


def _of(how: str) -> list[str]:
    return [code for code in CODES if HOW.get(code, "replaced") == how]


# What they have taught is held against the records.
FINISHED = {file.stem for file in (CONTENT / "jobs").glob("*.yml") if "\nfinished:" in file.read_text("utf-8")}
# The jobs that an example is about, beside those that every small copy has.
FILES = (*(code.file for code in CODES.values()), *SEEN_IN.values())
SHOWN = {Path(name).stem for name in FILES if "jobs/" in name}


@pytest.fixture(scope="module")
def one_content(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return copy_content(tmp_path_factory.mktemp("codes"), {*THREE_JOBS, *SHOWN, *FINISHED, "clock-tower"})


@pytest.fixture
def content(one_content: Path) -> Iterator[Path]:
    with put_back(one_content.parent):
        yield one_content


@pytest.fixture(scope="module")
def one_project(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, set[Diagnostic]]:
    """A project of three jobs, and what is said about its handbook before anything is changed."""
    folder = copy_project(tmp_path_factory.mktemp("handbook"), THREE_JOBS)
    return folder, _about_the_handbook(folder)


@pytest.fixture
def project(one_project: tuple[Path, set[Diagnostic]]) -> Iterator[Path]:
    with put_back(one_project[0]):
        yield one_project[0]


@pytest.fixture
def before(one_project: tuple[Path, set[Diagnostic]]) -> set[Diagnostic]:
    return one_project[1]


def test_the_list_holds_exactly_the_codes_that_the_program_uses() -> None:
    used = {
        code
        for path in SOURCE.rglob("*.py")
        if path.name != "diagnostic_codes.py"
        for code in re.findall(r'"([A-Z]\d{3})"', path.read_text("utf-8"))
    }
    assert used == set(CODES)
    assert HOW.keys() | SEEN_IN.keys() | WITHOUT.keys() <= CODES.keys()
    assert len(HOW) == sum(map(len, DONE.values()))


def test_a_code_says_what_it_means_in_one_sentence() -> None:
    one_sentence = re.compile(r"[A-Z“][^.]*( [^.]*)*\.")
    assert [code for code, known in CODES.items() if not one_sentence.fullmatch(known.means)] == []
    assert [code for code, known in CODES.items() if known.right == known.wrong] == []


@pytest.mark.parametrize("code", [*_of("replaced"), *_of("replaced everywhere")])
def test_the_example_earns_this_code_alone_at_its_line(code: str, content: Path) -> None:
    known, seen_in, without = CODES[code], SEEN_IN.get(code, ""), WITHOUT.get(code)
    file = content / known.file
    if file.parent.name == "jobs":
        leave_jobs(content, {*THREE_JOBS, *(Path(name).name.split(".")[0] for name in (known.file, seen_in))})
    before = file.read_text("utf-8")
    assert before.count(known.right) == 1 or HOW.get(code) == "replaced everywhere", (
        f"the example of {code} stands {before.count(known.right)} times"
    )
    file.write_text(before.replace(known.right, known.wrong), "utf-8")
    if without:
        studio = content / "studio.yml"
        said = studio.read_text("utf-8")
        assert said.count(without) == 1 and not check_all(content, as_of())
        studio.write_text(said.replace(without, ""), "utf-8")
    found = check_all(content, as_of())
    assert {d.code for d in found} == {code}
    if seen_in:
        assert all(d.place.file.startswith(str(content / seen_in)) for d in found)
        return
    assert len(found) == 1
    assert found[0].place.file == str(file)
    assert found[0].place.line in _lines(before, known)


def _lines(before: str, known: Code) -> range:
    """The lines that the example covers; an entry stands for a line that was taken out of it."""
    first = before[: before.index(known.right)].count("\n") + 1
    if not known.wrong:
        first -= (
            before[: before.index(known.right)]
            .split("\n")[::-1]
            .index(
                next(line for line in before[: before.index(known.right)].split("\n")[::-1] if line.startswith("- "))
            )
        )
        return range(first, first + 1)
    return range(first, first + known.wrong.rstrip("\n").count("\n") + 1)


@pytest.mark.parametrize("code", _of("renamed"))
def test_a_renamed_file_earns_this_code_alone(code: str, content: Path) -> None:
    (content / CODES[code].right).rename(content / CODES[code].wrong)
    found = check_all(content, as_of())
    assert [d.code for d in found] == [code]
    shown = CODES[code].wrong if code == "F802" else CODES[code].right
    assert found[0].place.file == str(content / shown)


@pytest.mark.parametrize("code", _of("copied"))
def test_a_copied_file_earns_this_code_alone(code: str, content: Path) -> None:
    right, wrong = content / CODES[code].right, content / CODES[code].wrong
    wrong.write_text(right.read_text("utf-8").replace(f"id: {right.stem}\n", f"id: {wrong.stem}\n"), "utf-8")
    found = check_all(content, as_of())
    assert [d.code for d in found] == [code]
    assert found[0].place.file in (str(right), str(wrong))


@pytest.mark.parametrize("code", _of("asked for"))
def test_a_job_that_is_not_there(code: str, content: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["plan", CODES[code].right, "--content", str(content)]) == 0
    capsys.readouterr()
    assert main(["plan", CODES[code].wrong, "--content", str(content)]) == 1
    assert re.findall(r"error ([A-Z]\d{3})", capsys.readouterr().err) == [code]


@pytest.mark.parametrize("code", _of("begun"))
def test_a_job_that_is_there_already(code: str, content: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["new-job", CODES[code].right, "--content", str(content)]) == 0
    capsys.readouterr()
    before = (content / CODES[code].file).read_text("utf-8")
    assert main(["new-job", CODES[code].wrong, "--content", str(content)]) == 1
    assert re.findall(r"error ([A-Z]\d{3})", capsys.readouterr().err) == [code]
    assert (content / CODES[code].file).read_text("utf-8") == before


@pytest.mark.parametrize("code", _of("finished"))
def test_a_job_that_cannot_be_finished(code: str, content: Path, capsys: pytest.CaptureFixture[str]) -> None:
    # Once to write what was planned, and once more when somebody has gone through it.
    for _ in range(2):
        assert main(["finish", CODES[code].right, "--stamp", "none", "--content", str(content)]) == 0
    capsys.readouterr()
    before = {file: file.read_bytes() for file in (content / "jobs").iterdir()}
    for refused in (CODES[code].wrong, CODES[code].right, "clock-tower"):
        assert main(["finish", refused, "--stamp", "none", "--content", str(content)]) == 1
        assert re.findall(r"error ([A-Z]\d{3})", capsys.readouterr().err) == [code]
    assert {file: file.read_bytes() for file in (content / "jobs").iterdir()} == before


@pytest.mark.parametrize("code", _of("told"))
def test_a_file_that_tells_nothing(code: str, content: Path, capsys: pytest.CaptureFixture[str]) -> None:
    told = content.parent / "told.txt"
    block = "{}\n  on: 2027-05-12\n  took: 200 min\n  lots: [LB-7031]\n  ended: Done as drawn.\n"
    command = ["finish", "tide-table", "--stamp", "none", "--from", str(told), "--content", str(content)]
    told.write_text(block.format(CODES[code].wrong), "utf-8")
    assert main(command) == 1
    assert re.findall(r"error ([A-Z]\d{3})", capsys.readouterr().err) == [code]
    told.write_text(block.format(CODES[code].right), "utf-8")
    assert main(command) == 0


@pytest.mark.parametrize("code", _of("written over"))
def test_a_sheet_over_a_record(
    code: str, content: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(content.parent)
    before = (content / CODES[code].file).read_bytes()
    assert main(["sheet", "tide-table", "-o", CODES[code].right]) == 0
    capsys.readouterr()
    assert main(["sheet", "tide-table", "-o", CODES[code].wrong]) == 1
    assert re.findall(r"error ([A-Z]\d{3})", capsys.readouterr().err) == [code]
    assert (content / CODES[code].file).read_bytes() == before


@pytest.mark.parametrize("code", _of("a studio begun"))
def test_a_studio_over_another(
    code: str, content: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(content.parent)
    before = {path: path.read_bytes() for path in content.rglob("*.yml")}
    assert main(["new-studio", CODES[code].right, "--region", "UK"]) == 0
    capsys.readouterr()
    assert main(["new-studio", CODES[code].wrong, "--region", "UK"]) == 1
    assert re.findall(r"error ([A-Z]\d{3})", capsys.readouterr().err) == [code]
    assert before == {path: path.read_bytes() for path in content.rglob("*.yml")}


@pytest.mark.parametrize("code", _of("an older schema"))
def test_a_schema_of_another_program_is_told_and_renewed(
    code: str, content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    def told() -> list[str]:
        assert main(["check", "--content", str(content)]) == 0
        return [line for line in capsys.readouterr().out.splitlines() if re.search(rf"reminder {code}\b", line)]

    assert told() == []  # a folder without schemas lacks none
    assert main(["schema", "--content", str(content)]) == 0
    assert told() == []
    file = content.parent / CODES[code].file
    new = file.read_text("utf-8")
    records = {path: path.read_bytes() for path in content.rglob("*") if path.is_file()}
    for old in (new.replace(CODES[code].right, CODES[code].wrong), ""):
        file.write_text(old, "utf-8")
        assert len(told()) == 1
    file.unlink()
    assert len(told()) == 1
    assert main(["schema", "--content", str(content)]) == 0
    capsys.readouterr()
    assert told() == []
    assert file.read_text("utf-8") == new
    assert records == {path: path.read_bytes() for path in content.rglob("*") if path.is_file()}


@pytest.mark.parametrize("code", _of("quoted"))
def test_a_quote_on_a_page(code: str) -> None:
    records = read_records(CONTENT).records
    assert records is not None
    assert quoted(f"It takes {CODES[code].right} here.", "page.md", records)[1] == ()
    found = quoted(f"First line.\n\nIt takes {CODES[code].wrong} here.", "page.md", records)[1]
    assert [(d.code, d.place.line, d.place.column) for d in found] == [(code, 3, 10)]


def _about_the_handbook(project: Path) -> set[Diagnostic]:
    reading = read_records(project / "content")
    assert reading.records is not None, reading.report
    pages = read_procedures(project / "handbook")
    return set(handbook_report(project / "handbook", reading.records, datetime.date(2027, 5, 12), pages))


@pytest.mark.parametrize("code", _of("in the handbook"))
def test_a_change_that_only_the_handbook_shows(code: str, project: Path, before: set[Diagnostic]) -> None:
    known = CODES[code]
    file = project / known.file if known.file.startswith("handbook/") else project / "content" / known.file
    text = file.read_text("utf-8")
    assert text.count(known.right) == 1
    file.write_text(text.replace(known.right, known.wrong), "utf-8")
    assert check_all(project / "content", as_of()) == ()
    # A page with another word in it is another text as well.
    found = [d for d in _about_the_handbook(project) - before if d.code == code or d.code != "H722"]
    assert {d.code for d in found} == {code} and (len(found) == 1 or found[0].cause)
    assert found[0].level == known.level


@pytest.mark.parametrize("code", _of("renamed page"))
def test_a_renamed_page_earns_this_code_alone(code: str, project: Path, before: set[Diagnostic]) -> None:
    (project / CODES[code].right).rename(project / CODES[code].wrong)
    assert {d.code for d in _about_the_handbook(project)} - {d.code for d in before} == {code}


@pytest.mark.parametrize("code", _of("emptied page"))
def test_an_emptied_page_earns_this_code_alone(code: str, project: Path, before: set[Diagnostic]) -> None:
    (project / CODES[code].right).write_text("", "utf-8")
    after = _about_the_handbook(project) - before
    assert {d.code for d in after if d.code != "H705"} == {code}


def _about_the_site(project: Path) -> list[Diagnostic]:
    known = {"H721", "H722", "H724", "H727", "H741"}  # what the demo studio is reminded of
    report = dry_build(project / "mkdocs.yml", project / "content", None, as_of()).report
    return [d for d in report if d.code not in known]


def test_what_is_wrong_with_the_site_earns_its_codes_alone(tmp_path: Path) -> None:
    """A page that nobody can make comes last, because nothing is looked at behind it."""
    project = copy_project(tmp_path, THREE_JOBS)
    expected = {}
    for code in _of("in the site"):
        file, known = project / CODES[code].file, CODES[code]
        text = file.read_text("utf-8")
        assert text.count(known.right) == 1
        if known.file.startswith("handbook/"):
            file = file.with_name(f"{code}.md")
        expected[str(file.relative_to(project)), code] = known.level
        if code != "F831":
            file.write_text(text.replace(known.right, known.wrong), "utf-8")
    with contextlib.chdir(project):
        found = _about_the_site(Path())
        settings = Path("mkdocs.yml")
        settings.write_text(settings.read_text("utf-8").replace(CODES["F831"].right, CODES["F831"].wrong), "utf-8")
        found += [d for d in _about_the_site(Path()) if d.code == "F831"]
    assert {(d.place.file, d.code): d.level for d in found} == expected
    assert all(d.place.line > 1 or d.code == "H733" for d in found)


def test_what_is_put_there_earns_its_codes_alone(tmp_path: Path) -> None:
    project = copy_project(tmp_path, THREE_JOBS)
    for code in _of("put there"):
        (project / CODES[code].file).parent.mkdir(exist_ok=True)
        (project / CODES[code].file).write_text("# Nothing\n", "utf-8")
    assert {d.code for d in _about_the_site(project)} == set(_of("put there"))


def test_a_hook_that_fails_earns_its_code_alone(tmp_path: Path) -> None:
    project = copy_project(tmp_path, THREE_JOBS)
    (code,) = _of("hooked")
    (project / CODES[code].file).write_text(CODES[code].wrong, "utf-8")
    with (project / "mkdocs.yml").open("a", encoding="utf-8") as settings:
        settings.write(f"\nhooks: [{CODES[code].file}]\n")
    with contextlib.chdir(project):
        (found,) = _about_the_site(Path())
    assert (found.code, found.place.file, found.place.line) == (code, CODES[code].file, 1)
