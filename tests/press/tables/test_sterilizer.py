"""The page about loads: there where anything is sterilized, and nowhere else."""

from __future__ import annotations

import html
import re
import shutil
from pathlib import Path

import pytest

from generator.press.pages import generated_pages
from generator.press.tables.sterilizer import CYCLES, LOADS
from generator.press.writing.examples import load_example
from generator.records.families import LISTED
from generator.records.reading import read_family, read_records
from tests.conftest import THREE_JOBS, copy_project, mkdocs
from tests.planning.demo import RECORDS
from tests.planning.supplies.test_sterilizer import load, studio
from tests.press.lists.test_learning import AS_OF, row


def pages(folder: Path, *loads: str) -> dict[str, str]:
    reading = read_records(studio(folder, *loads))
    assert reading.records is not None, reading.report
    return generated_pages(reading.records, AS_OF)


def test_single_use_has_no_page_about_loads() -> None:
    made = generated_pages(RECORDS, AS_OF)
    assert LOADS not in made
    assert "Nothing is sterilized here" in made[CYCLES]
    assert not any("sterilizer.html" in text for text in made.values())


def test_a_load_with_its_hold_and_f0_at_the_reference_that_is_printed(tmp_path: Path) -> None:
    page = pages(tmp_path, load("one", "[[30 min, 121.1 °C]]"))[LOADS]
    shown = row(page, "loads-one")
    assert "nothing on file against it" in shown
    assert "F0 at 121.1 °C" in page and "30 min at 121.1 °C" in shown
    assert "30 min at 121 °C" in shown  # what the cycle asks for
    assert "how-loads-one-f0" in page and "how-loads-one-hold" in page


@pytest.mark.parametrize(
    "samples", ["[[29 min, 121.1 °C]]", "[[30 min, 121.1 °C], [1 min, 125 °C]]"], ids=["short", "above"]
)
def test_a_load_that_is_out_says_do_not_use(samples: str, tmp_path: Path) -> None:
    assert "one out: do not use" in row(pages(tmp_path, load("one", samples))[LOADS], "loads-one")


def test_indicators_that_failed(tmp_path: Path) -> None:
    page = pages(
        tmp_path,
        load("one", day="2027-03-01"),
        load("two", chemical="no", day="2027-03-02"),
        load("three", day="2027-03-03", more=", biological: failed"),
    )[LOADS]
    assert all("out: do not use" in row(page, f"loads-{name}") for name in ("one", "two", "three"))
    assert "recalled: the biological indicator of load three failed" in row(page, "loads-one")
    assert "Out of service at once" in page


def test_the_page_never_says_sterile(tmp_path: Path) -> None:
    page = pages(tmp_path, load("one"), load("two", chemical="no"))[LOADS]
    words = html.unescape(re.sub(r"<[^>]+>", " ", page))
    assert not re.search(r"\bsterile\b|\breleased?\b", words, re.IGNORECASE)


def test_the_cycles_and_the_record_reference_lead_to_it(tmp_path: Path) -> None:
    made = pages(tmp_path, load("one"))
    assert 'href="sterilizer.html"' in made[CYCLES]
    assert "../sterilizer.html" in made["reference/records/loads.md"]


def test_the_example_of_a_load_reads(tmp_path: Path) -> None:
    (tmp_path / "loads.yml").write_text(load_example(RECORDS), "utf-8")
    read = read_family(tmp_path / "loads.yml", next(family for family in LISTED if family.name == "loads"))
    assert read.report == [] and len(read.entries) == 1
    assert (
        html.escape(load_example(RECORDS).split("\n")[1])
        in generated_pages(RECORDS, AS_OF)["reference/records/loads.md"]
    )


# The page is made by the tests above; at night with the whole site round it.
@pytest.mark.nightly
def test_the_site_of_a_studio_that_sterilizes_builds_in_strict_mode(tmp_path: Path) -> None:
    project = tmp_path / "project"
    project.mkdir()
    copy_project(project, THREE_JOBS)
    content = studio(tmp_path / "other", load("one"))
    shutil.rmtree(project / "content")
    shutil.copytree(content, project / "content")
    built = mkdocs(project, "build", "--strict")
    assert built.returncode == 0, built.stderr
    assert (project / "site" / "reference" / "sterilizer.html").is_file()
