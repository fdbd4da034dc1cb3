"""What published lists ask for is answered in the handbook, item by item, and every answer leads somewhere."""

from __future__ import annotations

import dataclasses
import datetime
import functools
import re

import pytest

from generator.diagnostics import Diagnostic
from generator.press.manual.anchors import PageRead, places
from generator.press.manual.answers import leads_nowhere
from generator.press.pages import Gathered, generated_pages
from generator.press.words.addresses import PAGE_OF, anchor
from generator.records.families import ALL, Records
from generator.records.reading import read_family
from tests.conftest import ROOT
from tests.planning.demo import RECORDS

AS_OF = datetime.date(2027, 5, 1)
ASKED = RECORDS.asked
FAMILY = next(family for family in ALL if family.name == "asked")

# The lists as others quote them; the texts themselves were not read. Item as published, and our id of it.
PUBLISHED = {
    # EN 17169:2020, Tattooing, safe and hygienic practice: list of contents.
    "en-17169": {
        "training": "en-training",
        "first aid and needlestick": "en-first-aid",
        "vaccination": "en-vaccination",
        "premises": "en-premises",
        "tattooing area": "en-area",
        "waste and sharps": "en-waste",
        "cleaning": "en-cleaning",
        "disinfection": "en-disinfection",
        "sterilization": "en-sterilization",
        "client interaction": "en-client",
        "suitability": "en-suitability",
        "aftercare information": "en-aftercare",
        "hand hygiene": "en-hands",
        "protective equipment": "en-protection",
    },
    # CIEH, Tattooing and body piercing guidance toolkit, 2013: what its list of contents has beyond those.
    "uk-toolkit": {
        "blood spill": "uk-spill",
        "consent": "uk-consent",
        "aftercare record": "uk-aftercare",
        "autoclave daily record": "uk-autoclave",
    },
    # NEHA Body Art Model Code, 2024: section 7 (job record), 6.5 (retention), 8.11 (positive spore test).
    "neha-code": {
        "site": "neha-site",
        "design": "neha-design",
        "instrument lot and expiry matched to the sterilization log": "neha-instruments",
        "ink lot and expiry": "neha-inks",
        "date and time": "neha-time",
        "complications": "neha-complications",
        "client records": "neha-retention",
        "positive spore test": "neha-positive",
    },
    # Its annex of 2025, section 6.4.
    "neha-annex": {"sterilization records": "neha-sterilization"},
}


def authored() -> dict[str, str]:
    """The pages written by hand, by their address."""
    docs = ROOT / "handbook"
    return {page.relative_to(docs).as_posix(): page.read_text("utf-8") for page in sorted(docs.rglob("*.md"))}


@functools.cache
def pages() -> dict[str, str]:
    """Every page of the handbook before it is built."""
    return {**authored(), **generated_pages(RECORDS, AS_OF, Gathered(authored=places(authored())))}


def handbook() -> dict[str, PageRead]:
    """Every page, with the places in it."""
    return places(pages())


@pytest.mark.parametrize("source", PUBLISHED)
def test_the_items_are_those_of_the_published_list(source: str) -> None:
    assert {item.id for item in ASKED.values() if item.source == source} == set(PUBLISHED[source].values())


@pytest.mark.parametrize("item", [item for items in PUBLISHED.values() for item in items.values()])
def test_every_published_item_is_answered_somewhere(item: str) -> None:
    assert ASKED[item].answered_in


def test_the_clauses_are_those_that_were_read() -> None:
    clauses = {item.id: item.clause for item in ASKED.values()}
    assert clauses["neha-inks"] == "section 7"
    assert clauses["neha-retention"] == "section 6.5"
    assert clauses["neha-positive"] == "section 8.11"
    assert clauses["neha-sterilization"] == "section 6.4"
    # Of the two lists of contents nobody here has read a clause.
    assert {clauses[item] for source in ("en-17169", "uk-toolkit") for item in PUBLISHED[source].values()} == {None}


def test_what_rests_on_a_sterilizer_says_that_there_is_none() -> None:
    assert not RECORDS.studio.reprocessing
    for item in ("en-sterilization", "uk-autoclave", "neha-instruments", "neha-positive", "neha-sterilization"):
        assert "othing is sterilized" in (ASKED[item].gap or ""), item


def test_every_answer_leads_to_a_page_with_something_on_it() -> None:
    assert _nowhere(RECORDS) == []
    for item in ASKED.values():
        for answer in item.answered_in:
            page = pages()[answer.partition("#")[0]]
            assert len(page.split()) > 50 and "is being written" not in page, answer


def test_the_page_shows_every_item_with_its_answers_by_title() -> None:
    page = pages()[PAGE_OF["asked"]]
    for item in ASKED.values():
        (row,) = re.findall(rf'<tr id="{anchor("asked", item.id)}">.*?</tr>', page)
        assert row.count("<li><a ") == len(item.answered_in)
    assert '<a href="../procedures/spill.html#where-it-fell">Spill: Where it fell</a>' in page
    assert '<a href="disinfectants.html">Contact times and mixes</a>' in page


def test_an_item_without_answer_says_what_is_missing(tmp_path_factory: pytest.TempPathFactory) -> None:
    file = tmp_path_factory.mktemp("asked") / "asked.yml"
    item = '- {id: x, source: en-17169, what: "A thing.", answered_in: []'
    file.write_text(item + "}\n", "utf-8")
    assert [d.code for d in read_family(file, FAMILY).report] == ["R316"]
    file.write_text(item + ', gap: "Not here: ask."}\n', "utf-8")
    assert not read_family(file, FAMILY).report


@pytest.mark.parametrize(
    ("written", "code", "instead"),
    [
        ("procedures/spil.md#steps", "H705", "procedures/spill.md"),
        ("procedures/spill.md#stepps", "H705", "procedures/spill.md#steps"),
        ("reference/disinfectant.md", "H705", "reference/disinfectants.md"),
        ("reference/studio.md#studio-limit", "H705", "reference/studio.md#studio-limits"),
        ("spill", "R314", ""),
        ("procedures/spill.html", "R314", ""),
        ("../procedures/spill.md", "R314", ""),
        ("/procedures/spill.md", "R314", ""),
    ],
)
def test_a_wrong_answer_is_found_where_it_is_written(
    written: str, code: str, instead: str, tmp_path_factory: pytest.TempPathFactory
) -> None:
    file = tmp_path_factory.mktemp("asked") / "asked.yml"
    file.write_text(f'- id: x\n  source: en-17169\n  what: A thing.\n  answered_in: ["{written}"]\n', "utf-8")
    read = read_family(file, FAMILY)
    records = dataclasses.replace(RECORDS, asked=read.entries)
    found = [*read.report, *_nowhere(records)]
    assert [(d.code, d.place.line, d.place.column) for d in found] == [(code, 4, 17)]
    if instead:
        assert found[0].help == f"did you mean `{instead}`?"


def _nowhere(records: Records) -> list[Diagnostic]:
    return [d for procedures in (True, False) for d in leads_nowhere(records, handbook(), procedures=procedures)]


class TestPlaces:
    def test_headings_are_named_as_markdown_names_them(self) -> None:
        read = places({"a.md": "# Say “when”\n\n## What, when, with what\n\n## Steps\n\n### Steps\n"})["a.md"]
        assert read.title == "Say “when”"
        assert list(read.at) == ["say-when", "what-when-with-what", "steps", "steps_1"]

    def test_a_name_that_is_given_and_a_row_of_a_table(self) -> None:
        text = '# T\n\n## Steps &#43; more { #own-name }\n\n<tr id="row-1"><th>x</th></tr>\n'
        assert places({"a.md": text})["a.md"].at == {"t": "T", "own-name": "Steps + more", "row-1": ""}

    def test_a_name_that_is_given_is_taken_first(self) -> None:
        text = "# When to stop\n\n## When to stop { #when-to-stop }\n"
        assert list(places({"a.md": text})["a.md"].at) == ["when-to-stop_1", "when-to-stop"]

    def test_code_has_no_headings(self) -> None:
        assert list(places({"a.md": "# T\n\n```\n# not one\n```\n"})["a.md"].at) == ["t"]
