"""A new studio in one command: it checks and builds, and nothing in it is another studio's."""

from __future__ import annotations

import datetime
import inspect
import re
from pathlib import Path

import pytest
import yaml

from generator.cli import main
from generator.press.writing import pages
from generator.press.writing.examples import TEMPLATES
from generator.press.writing.new_studio import SHELVES, starting, studio_file
from generator.records import days
from generator.records.families import ALL, JOBS, LISTED
from generator.records.procedures import Review
from generator.records.reading import read_records
from generator.records.regions import CUSTOMS
from tests.conftest import ROOT, build_site
from tests.planning.demo import RECORDS
from tests.second_studio import NAME, second_studio

pytestmark = pytest.mark.long


@pytest.fixture(scope="module")
def fresh(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder as the command leaves it; nobody may change it."""
    folder = tmp_path_factory.mktemp("fresh") / "salt-flat"
    assert main(["new-studio", str(folder), "--region", "US"]) == 0
    return folder


@pytest.fixture(scope="module")
def second(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return second_studio(tmp_path_factory.mktemp("second"))


def test_it_checks_without_a_mistake_and_is_called_after_its_folder(
    fresh: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["check", "--content", str(fresh / "content")]) == 0
    assert "0 errors, 0 warnings" in capsys.readouterr().out
    records = read_records(fresh / "content").records
    assert records is not None and records.studio.name == "Salt flat"
    for shelf in ("machines", "calibrations", "inks", "loads"):
        assert records.family(shelf) == {}, shelf


def test_the_region_sets_units_and_paper_and_the_two_flags_go_over_it() -> None:
    """Letter paper and inches in the United States; A4 and metric elsewhere (ISO 216, ASME Y14.1)."""
    day = datetime.date(2027, 3, 1)
    usual, over = {}, {}
    for region in CUSTOMS:
        for found, units, paper in ((usual, None, None), (over, "metric", "Letter")):
            start = starting("A studio", region, units, paper, day)
            said = yaml.load(studio_file(ROOT / "content", start), Loader=yaml.CBaseLoader)
            assert (said["region"], said["name"]) == (region, "A studio")
            found[region] = (said["units"], said["paper"])
    metric = ("metric", "A4")
    assert usual == {"EU": metric, "UK": metric, "US": ("imperial", "Letter"), "other": metric}
    assert set(over.values()) == {("metric", "Letter")}
    customs = CUSTOMS["US"]
    assert (customs.clock, customs.spelling, customs.dates) == ("12 h", "American", "month first")


def test_nothing_is_paid_in_the_demos_prices_and_measures_are_those_of_the_place(fresh: Path) -> None:
    records = read_records(fresh / "content").records
    assert records is not None and records.studio.currency is None
    assert [supply.id for supply in records.supplies.values() if supply.price is not None] == []
    assert {tuple(side.text for side in s.sheet) for s in records.supplies.values() if s.sheet is not None} == {
        ("8.5 in", "11 in")
    }
    assert [str(volume.text) for volume in records.studio.mix_volumes] == ["8 fl oz", "16 fl oz", "32 fl oz", "1 gal"]


def test_the_words_that_decide_a_whole_file_can_be_copied(fresh: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Where reviews.yml names no file yet, the whole entry is given, with every key that it needs."""
    assert main(["check", "--undecided", "--content", str(fresh / "content")]) == 0
    told = set(re.findall(r"as an entry of reviews.yml, `(- \{id: .*?\}\})`", capsys.readouterr().out))
    entries = [yaml.load(line, Loader=yaml.CBaseLoader)[0] for line in told]
    assert {entry["id"] for entry in entries} >= {"disinfectants", "screening", "scar-rules", "values"}
    needed = {name for name, field in Review.model_fields.items() if field.is_required()}
    assert all(needed | {"decided"} == set(entry) for entry in entries)


def test_a_theme_without_its_name_is_told_what_to_write(
    fresh: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    settings = fresh / "mkdocs.yml"
    written = settings.read_text("utf-8")
    assert "theme: {name: material, logo:" in written
    try:
        settings.write_text(written + "theme:\n  favicon: assets/mark.svg\n", "utf-8")
        assert main(["check", "--content", str(fresh / "content")]) == 1
    finally:
        settings.write_text(written, "utf-8")
    told = capsys.readouterr().out
    line = len(written.splitlines()) + 1
    assert f"mkdocs.yml:{line}:1: error F831" in told and "write `name: material`" in told


def test_what_is_published_or_common_stays_and_what_the_demo_decided_is_a_suggestion(fresh: Path) -> None:
    records = read_records(fresh / "content").records
    assert records is not None
    for family in LISTED:
        for entry_id, entry in records.family(family.name).items():
            source = getattr(entry, "source", None)
            if source is None:
                continue
            was = RECORDS.family(family.name)[entry_id].source
            kept = RECORDS.sources[was].kind != "house"
            assert source == (was if kept else "suggestion"), (family.name, entry_id)
    assert [s.id for s in records.sources.values() if s.kind == "house"] == ["suggestion"]
    assert not re.search(r"^ *decided:|[{ ]decided:", "".join(_texts(fresh / "content").values()), re.MULTILINE)


def test_procedures_are_drafts_that_nobody_has_reviewed(fresh: Path) -> None:
    records = read_records(fresh / "content").records
    assert records is not None
    assert records.procedures.keys() == RECORDS.procedures.keys()
    assert {p.reviewed for p in records.procedures.values()} == {None}
    assert {len(p.revisions) for p in records.procedures.values()} == {1}


def test_the_commented_examples_are_records_that_the_check_takes(
    fresh: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = tmp_path / "one"
    assert main(["new-studio", str(folder), "--region", "UK"]) == 0
    for family in SHELVES:
        file = folder / "content" / f"{family}.yml"
        lines = file.read_text("utf-8").split("\n")
        at = next(n for n, line in enumerate(lines) if line.startswith("# - id:"))
        end = next(n for n in range(at, len(lines)) if not lines[n].startswith("# "))
        example = [line.removeprefix("# ") for line in lines[at:end]]
        file.write_text("\n".join([*lines[:at], *example, *(line for line in lines[end:] if line != "[]")]), "utf-8")
    studio = folder / "content" / "studio.yml"
    studio.write_text(studio.read_text("utf-8").replace("reprocessing: no", "reprocessing: yes"), "utf-8")
    capsys.readouterr()
    main(["check", "--content", str(folder / "content")])
    said = capsys.readouterr().out
    assert "0 errors, 0 warnings" in said, said


def test_it_is_not_written_over_anything(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "notes.txt").write_text("mine", "utf-8")
    assert main(["new-studio", str(tmp_path), "--region", "EU"]) == 1
    assert "error F820" in capsys.readouterr().err
    assert [path.name for path in tmp_path.iterdir()] == ["notes.txt"]


def test_its_settings_are_the_form_that_the_demo_uses(fresh: Path) -> None:
    own, demo = (yaml.safe_load((at / "mkdocs.yml").read_text("utf-8")) for at in (fresh, ROOT))
    assert own == demo
    assert set(own) == {"site_name", "docs_dir", "strict", "plugins"}


def test_each_file_names_the_schema_of_its_family(fresh: Path) -> None:
    for family in ALL:
        assert (fresh / "schema" / f"{family.name}.json").is_file()
        if family is not JOBS:
            first = (fresh / "content" / family.file).read_text("utf-8").split("\n")[0]
            assert first == f"# yaml-language-server: $schema=../schema/{family.name}.json"


def _texts(folder: Path) -> dict[str, str]:
    return {
        str(path.relative_to(folder)): path.read_text("utf-8", errors="replace")
        for path in folder.rglob("*")
        if path.is_file() and path.suffix in (".html", ".json", ".js", ".yml", ".md", ".ics", ".xml")
    }


def _of_the_demo() -> list[str]:
    """Names, machines, labels, decisions and dates that only the demo studio has."""
    named = [
        RECORDS.studio.name,
        *(person.name for person in RECORDS.people.values() if len(person.name) > 2),
        *(machine.name for machine in RECORDS.machines.values()),
        *(lot.lot for ink in RECORDS.inks.values() for lot in ink.lots),
        *(source.id for source in RECORDS.sources.values() if source.kind == "house"),
        *(path.stem for path in (ROOT / "content" / "jobs").glob("*.yml")),
    ]
    dates = {found for path in (ROOT / "content").glob("*.yml") for found in _DATE.findall(path.read_text("utf-8"))}
    return [*named, *sorted(dates - _PUBLISHED - _EXAMPLE)]


_DATE = re.compile(r"\b\d{4}-\d\d-\d\d\b")
# Since when pigments are barred is a date of the law.
_PUBLISHED = set(_DATE.findall((ROOT / "content" / "barred-pigments.yml").read_text("utf-8")))
# How a date is written, in the reference of fields: examples of the program, and nobody's dates.
_SAID = (*map(inspect.getsource, (days, pages)), *(path.read_text("utf-8") for path in TEMPLATES.iterdir()))
_EXAMPLE = set(_DATE.findall("".join(_SAID)))


def test_nothing_in_a_fresh_folder_is_of_the_demo_studio(fresh: Path) -> None:
    texts = _texts(fresh)
    lowered = {at: text.lower() for at, text in texts.items()}
    today = set(_DATE.findall(texts["content/screening.yml"]))
    for wrong in set(_of_the_demo()) - today:
        said = re.compile(rf"(?<![\w-]){re.escape(wrong)}(?![\w-])", re.IGNORECASE)
        holding = [at for at, text in lowered.items() if wrong.lower() in text]
        assert [at for at in holding if said.search(texts[at])] == [], wrong


def test_the_second_studio_builds_strictly_in_volts_and_its_site_has_nothing_of_the_first(second: Path) -> None:
    assert build_site(second) == ""
    site = _texts(second / "site")
    for page in ("index.html", "reference/inks.html"):  # in the head of each page
        assert f"{NAME.capitalize()}</title>" in site[page]
    assert re.search(r"\d(\.\d)?.V\b", site["reference/speeds.html"])
    own = set(_DATE.findall("".join(_texts(second / "content").values())))
    assets = re.compile(r"^(assets|search/lunr)")
    lowered = {at: (text, text.lower()) for at, text in site.items() if not assets.match(at)}
    wrong = {
        (name, at)
        for name in set(_of_the_demo()) - own
        for at, (text, low) in lowered.items()
        if name.lower() in low and re.search(rf"(?<![\w-]){re.escape(name)}(?![\w-])", text, re.IGNORECASE)
    }
    assert wrong == set()
