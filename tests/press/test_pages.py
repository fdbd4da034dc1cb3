"""The generated pages: every record on its page, in both systems, escaped, linked; the whole schema described."""

from __future__ import annotations

import dataclasses
import datetime
import html
import posixpath
import re
from collections import Counter
from functools import cache
from pathlib import Path

import pytest
from pydantic import BaseModel, TypeAdapter

from generator.diagnostic_codes import CODES
from generator.planning.plan import plan
from generator.press.formulas.examples import TakenFrom
from generator.press.formulas.pages import formula_pages
from generator.press.pages import Gathered, generated_pages
from generator.press.sheet.contents import sheet_of
from generator.press.sheet.stamp import stamp_of
from generator.press.sheet.summary import JobSummary, summary_of
from generator.press.words.addresses import NO_SOURCE, PAGE_OF, anchor
from generator.press.writing.as_yaml import as_yaml, fullest
from generator.press.writing.examples import job_with_everything, smallest_job
from generator.press.writing.pages import INDEX, page_of
from generator.press.writing.schema import fields_of, nested_records
from generator.quantities import Quantity
from generator.records.families import ALL, JOBS, LISTED, STUDIO, Family, Records
from generator.records.located import Text, read_located
from generator.records.reading import read_job, read_records
from tests.planning.demo import CONTENT, RECORDS, demo
from tests.planning.demo import JOBS as JOB_IDS

AS_OF = datetime.date(2027, 5, 1)
KNOWN = read_records(CONTENT).known


@cache
def summaries() -> list[JobSummary]:
    """A summary of each demo job."""
    return [summary_of(RECORDS, plan, stamp_of(sheet_of(RECORDS, plan))) for plan in map(demo, JOB_IDS)]


SHOWN = demo("keepers-lantern")


@cache
def pages_made() -> dict[str, str]:
    """All pages of the demo studio."""
    return generated_pages(RECORDS, AS_OF, Gathered(summaries(), SHOWN))


_HREF = re.compile(r'href="([^"]*)"')
_IDS = re.compile(r' id="([^"]*)"|\{ #(\S+) \}')


def plain(page: str) -> str:
    """The words of a page, without its markup."""
    return html.unescape(re.sub(r"<[^>]+>", " ", re.sub(r"</?a\b[^>]*>", "", page)))


def row(page: str, at: str) -> str:
    found = re.search(rf'<tr id="{re.escape(at)}">.*?</tr>', page, re.DOTALL)
    assert found, at
    return plain(found[0])


def ids_of(page: str) -> list[str]:
    return [one or other for one, other in _IDS.findall(page)]


# The demo studio works with single-use things only.
EMPTY = {"loads"}


@pytest.mark.parametrize("family", [family.name for family in LISTED])
def test_every_record_stands_on_its_page(family: str) -> None:
    entries = RECORDS.family(family)
    # Loads have a page of their own where anything is sterilized, and tests of their own in test_sterilizer_page.
    assert entries or family == "loads"
    for entry_id, entry in entries.items():
        if family == "client-page":  # A section is a heading with its lines in a table below it.
            assert f"{{ #{anchor(family, entry_id)} }}" in pages_made()[PAGE_OF[family]]
            continue
        shown = row(pages_made()[PAGE_OF[family]], anchor(family, entry_id))
        named = getattr(entry, "name", None) or getattr(entry, "label", None)
        if named and family != "calibrations":
            assert named in shown
        page = plain(pages_made()[PAGE_OF[family]])
        for field, value in entry:
            # Words are shown in full; ids, swatches and the like have a form of their own.
            if type(value) is str and field not in ("kind", "drive", "when") and value:
                assert value in page, (entry_id, field)


def test_the_studio_stands_on_its_page_and_local_rules_come_first() -> None:
    page = pages_made()["reference/studio.md"]
    assert page.index("Local rules to confirm") < page.index(RECORDS.studio.name)
    for rule in RECORDS.studio.local_rules:
        assert html.escape(rule.ask) in page or rule.ask in plain(page)
    for key in type(RECORDS.studio.limits).model_fields:
        assert row(page, anchor("studio", "limits", key))
    assert RECORDS.studio.numbing in plain(page)


@pytest.mark.parametrize(
    ("page", "at", "words"),
    [
        ("reference/machines.md", "machines-kettle", "3.5\u00a0mm; 4\u00a0mm"),
        ("reference/machines.md", "machines-kettle", "168\u00a0g (5.9\u00a0oz)"),
        ("reference/machines.md", "machines-metronome", "1.7\u00a0m/s²"),
        ("reference/machines.md", "calibrations-lathe-three-points-0", "5\u00a0V 70\u00a0Hz"),
        ("reference/groupings.md", "groupings-1207RL", "round liner (RL)"),
        ("reference/groupings.md", "groupings-1207RL", "1.1\u00a0mm 0.70\u00a0mm"),
        ("reference/groupings.md", "groupings-1005RS", "not measured – measure it"),
        ("reference/needle-diameters.md", "wire-12", "0.35\u00a0mm standard"),
        ("reference/needle-diameters.md", "bundle-7", "3.000"),
        ("reference/disinfectants.md", "disinfectants-chlorine-liquid", "143\u00a0mL (4.9\u00a0fl oz) of product"),
        ("reference/disinfectants.md", "disinfectants-chlorine-powder", "14.3\u00a0g of powder"),
        ("reference/disinfectants.md", "disinfectants-hand-rub", "ready to use"),
        ("reference/scar-rules.md", "scar-rules-scar-young", "age below 12 months"),
        ("reference/sources.md", "sources-common-practice", NO_SOURCE),
        ("reference/sources.md", "sources-common-practice", "techniques: Lining"),
        ("reference/studio.md", "studio-limits-mole-clearance", "8\u00a0mm (5/16\u00a0in)"),
        ("reference/inks.md", "inks-black-line", "#14120f"),
    ],
)
def test_values_are_shown_as_the_trade_reads_them(page: str, at: str, words: str) -> None:
    assert words in re.sub(" +", " ", row(pages_made()[page], at))


def test_each_machine_has_its_dial_in_its_own_setting() -> None:
    lining = row(pages_made()["reference/speeds.md"], "techniques-lining-dials-1")
    assert "100\u00a0Hz (90–120\u00a0Hz)" in lining
    assert re.search(r"with a stroke of 3\.5.mm: 7\.2.V \(6\.5–8\.6.V\)", lining)
    fine = row(pages_made()["reference/speeds.md"], "techniques-fine-detail-dials-0")
    assert "the rest of the range is not measured – measure it" in fine


def test_a_dial_that_nobody_measured_says_so() -> None:
    records = dataclasses.replace(RECORDS, calibrations={})
    page = generated_pages(records, AS_OF)["reference/speeds.md"]
    assert "not measured – measure it" in row(page, "techniques-lining-dials-1")
    assert not re.search(r"\d\u00a0V", row(page, "techniques-lining-dials-1"))


def test_inks_past_their_day_say_so_first() -> None:
    late = generated_pages(RECORDS, datetime.date(2030, 1, 1))["reference/inks.md"]
    assert "LB-7031: do not use, past 2028-02-15" in row(late, "inks-black-line")
    assert "LB-7031: good until 2028-02-15 (opened 2027-02-15)" in row(
        pages_made()["reference/inks.md"], "inks-black-line"
    )
    on_the_day = generated_pages(RECORDS, datetime.date(2028, 2, 15))["reference/inks.md"]
    assert "LB-7031: good until 2028-02-15" in plain(on_the_day)


def test_a_mixed_wash_has_no_opened_life_and_is_thrown_away_after_the_client() -> None:
    for ink in RECORDS.inks.values():
        shown = row(pages_made()["reference/inks.md"], anchor("inks", ink.id))
        life = ink.opened_life.text.replace(" ", "\u00a0")
        if ink.mixed is None:
            assert life in shown
        else:
            assert shown.count("thrown away after the client") == 2 and life not in shown


def test_imperial_comes_first_where_the_studio_says_so() -> None:
    imperial = dataclasses.replace(RECORDS, studio=RECORDS.studio.model_copy(update={"units": "imperial"}))
    pages = generated_pages(imperial, AS_OF)
    assert "5/16\u00a0in (8\u00a0mm)" in pages["reference/studio.md"]
    assert "5.9\u00a0oz (168\u00a0g)" in pages["reference/machines.md"]


def test_text_of_records_never_becomes_markup() -> None:
    nasty = "<script>alert('x')</script> & a | b *c* {{ d }}\n\n# e"
    records = _with_words(RECORDS, nasty)
    jobs = [dataclasses.replace(summaries()[0], title=nasty, place=nasty)]
    for name, page in generated_pages(records, AS_OF, Gathered(jobs)).items():
        # The look-up of stamps has two scripts of its own, by address.
        assert "<script" not in page.replace('<script src="assets/stamp', ""), name
        assert "\n# e" not in page.removeprefix("# "), name


_FREE = {
    "name",
    "care",
    "title",
    "good_for",
    "stop",
    "passes",
    "stretch",
    "pose",
    "cautions",
    "consequence",
    "clears",
    "ask",
    "do",
    "caution",
    "used_on",
    "instead",
    "counted_in",
    "cartridge",
    "where",
    "body",
}


def _with_words(records: Records, words: str) -> Records:
    """The same records with every free text of every entry replaced."""
    changed = {}
    for family in LISTED:
        changed[family.name.replace("-", "_")] = {
            entry_id: entry.model_copy(
                update={name: words for name, value in entry if type(value) is str and name in _FREE}
            )
            for entry_id, entry in records.family(family.name).items()
        }
    studio = records.studio.model_copy(update={"name": words, "numbing": words, "stop_signs": (words,)})
    return dataclasses.replace(records, studio=studio, **changed)


def test_every_link_leads_to_a_row() -> None:
    for name, page in pages_made().items():
        for address in _HREF.findall(page):
            path, _, at = address.partition("#")
            elsewhere = ("sheets/", "for-the-client/", "jobs/", "lots/", "sign-off/", "procedures/")
            if path.removeprefix("../").startswith(elsewhere) or path.endswith(".ics"):
                continue
            there = posixpath.normpath(posixpath.join(posixpath.dirname(name), path)) if path else name
            there = there.removesuffix(".html") + ".md" if path else there
            assert there in pages_made(), (name, address)
            assert not at or at in ids_of(pages_made()[there]), (name, address)


def test_no_id_stands_twice_on_a_page() -> None:
    for name, page in pages_made().items():
        assert [i for i, times in Counter(ids_of(page)).items() if times > 1] == [], name


def test_every_table_has_a_caption_headings_and_a_frame() -> None:
    for page in pages_made().values():
        tables = page.count("<table")
        assert tables == page.count("<caption>") == page.count('<div class="wide" role="region" aria-label="')
        assert page.count('<th scope="col">') >= tables
        assert page.count("<tr id=") == page.count('<th scope="row"') == page.count('<a class="here"')


def test_the_same_records_give_the_same_pages() -> None:
    assert generated_pages(RECORDS, AS_OF, Gathered(summaries(), SHOWN)) == pages_made()


def test_a_summary_says_what_the_plan_says() -> None:
    summary = next(s for s in summaries() if s.id == "orrery")
    assert (summary.artist, summary.place) != ("", "")
    assert summary.goes_ahead == (summary.state != "not yet")


def test_every_code_is_listed() -> None:
    for code in CODES:
        assert row(pages_made()["reference/diagnostics.md"], code)


def test_every_formula_room_is_a_page() -> None:
    assert set(formula_pages(TakenFrom(RECORDS, None, AS_OF))) <= set(pages_made())
    assert "data-search-exclude" in pages_made()["formulas/motion.md"]


@pytest.mark.parametrize("family", ALL, ids=[family.name for family in ALL])
def test_every_field_of_the_schema_is_described(family: Family) -> None:
    page = pages_made()[page_of(family)]
    described = set()
    for path, model in [("", family.model), *nested_records(family.model)]:
        if model in described:  # A record that stands in two places is described at the first.
            continue
        described.add(model)
        for field in fields_of(model):
            names = [*path.split("."), field.key] if path else [field.key]
            shown = row(page, anchor("field", family.name, *names))
            assert ("may be left out" in shown) != field.required
            assert field.shape.takes.replace("`", "")[:20] in " ".join(shown.split()).replace(" ,", ",")
    assert family.name in pages_made()[INDEX]


@pytest.mark.parametrize("family", LISTED, ids=[family.name for family in LISTED])
def test_the_example_of_a_family_reads_back_as_the_record(family: Family) -> None:
    adapter = TypeAdapter(family.model)
    entries = RECORDS.family(family.name)
    shown = fullest(entries.values())
    if shown is None:
        assert family.name == "loads"  # its example is tried in test_sterilizer_page
        return
    assert html.escape(as_yaml(shown, True).split("\n")[0]) in pages_made()[page_of(family)]
    for entry in entries.values():
        located = read_located(as_yaml(entry, True), "example.yml")
        assert located.report == ()
        assert isinstance(located.node, list)
        assert _values(adapter.validate_python(located.node[0])) == _values(entry)


def test_the_example_of_the_studio_reads_back_as_the_record() -> None:
    located = read_located(as_yaml(RECORDS.studio, False), "studio.yml")
    assert located.report == ()
    assert _values(TypeAdapter(STUDIO.model).validate_python(located.node)) == _values(RECORDS.studio)


def _values(value: object) -> object:
    """A record as plain values, so that places and spellings do not count."""
    if isinstance(value, BaseModel):
        return {name: _values(inner) for name, inner in value}
    if isinstance(value, tuple):
        return [_values(item) for item in value]
    if isinstance(value, Quantity):
        return (value.low, value.high, value.kind)
    return " ".join(value.split()) if isinstance(value, Text | str) else value


@pytest.mark.parametrize("text", [smallest_job(RECORDS), job_with_everything(RECORDS)], ids=["smallest", "everything"])
def test_the_example_jobs_read_and_plan(text: str, tmp_path: Path) -> None:
    job_id = text.split("\n")[0].removeprefix("id: ")
    (tmp_path / f"{job_id}.yml").write_text(text, "utf-8")
    reading = read_job(tmp_path / f"{job_id}.yml", KNOWN)
    assert reading.report == ()
    assert reading.job is not None
    # The one with everything names a numbing product, and goes ahead where a studio works on numbed skin.
    allowing = dataclasses.replace(RECORDS, studio=RECORDS.studio.model_copy(update={"numbing_allowed": "yes"}))
    made, report = plan(allowing, reading.job)
    assert report == ()
    assert made is not None
    assert made.verdict.goes_ahead
    assert html.escape(text.split("\n")[2]) in pages_made()[page_of(JOBS)]


def test_the_full_example_leaves_no_field_out() -> None:
    text = job_with_everything(RECORDS)
    lacking = {"draft", "not_worked"}  # it is finished, and so neither
    for _, model in [("", JOBS.model), *nested_records(JOBS.model)]:
        for field in fields_of(model):
            assert re.search(rf"\b{field.key}:", text) or field.key in lacking, field.key
