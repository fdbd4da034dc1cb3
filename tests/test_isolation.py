"""A number that changes in its record changes every page that shows it, and no other file of the site."""

from __future__ import annotations

import html
from pathlib import Path

import pytest

from generator.planning.working.technique import dial_row
from tests.conftest import THREE_JOBS, copy_project, mkdocs, started
from tests.planning.demo import RECORDS, demo
from tests.press.sheet.test_print_line import LINE

pytestmark = pytest.mark.long

# Spans that no other record has, so that a page which shows them shows this record.
TECHNIQUE, PLACE = "lining", 1
ROWS = {"one": ("93–117 Hz", "103 Hz"), "range": ("94–116 Hz", "103 Hz"), "usual": ("93–117 Hz", "104 Hz")}
# Jobs that are worked at that speed, and jobs that are not.
WITH = (*THREE_JOBS, "keepers-lantern", "gear-band", "orrery")
# What is made of all pages together: the search, and the stamps by which a print is looked up.
OF_EVERYTHING = {"search/search_index.json", "search/search_index.js", "assets/stamps.js", "stamp.html"}

Site = dict[str, bytes]


@pytest.fixture(scope="module")
def sites(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Site]:
    """The demo studio's site with one row of speeds as it is, with another range, and with another usual speed.

    The second is built on another day of the system, with the day told in mkdocs.yml: pages that show none of it have
    the same bytes on any day, and whatever set the date.
    """
    row = RECORDS.techniques[TECHNIQUE].dials[PLACE]
    was = f"speed: {row.speed.text}, usual: {row.usual.text}"
    folders = {}
    with pytest.MonkeyPatch.context() as day:
        for name, (speed, usual) in ROWS.items():
            folder = folders[name] = copy_project(tmp_path_factory.mktemp(name), WITH)
            if name == "range":
                tell_the_day(folder / "mkdocs.yml")
            file = folder / "content" / "techniques.yml"
            head, rest = file.read_text("utf-8").split(f"- id: {TECHNIQUE}\n")
            at = [n for n in range(len(rest)) if rest.startswith("speed: ", n)][PLACE]
            assert rest.startswith(was, at)
            mended = f"{rest[:at]}speed: {speed}, usual: {usual}{rest[at + len(was) :]}"
            file.write_text(f"{head}- id: {TECHNIQUE}\n{mended}", "utf-8")
            day.setenv("SOURCE_DATE_EPOCH", "2000000000" if name == "range" else "1810080000")
            # A process of its own puts what has no order in another one.
            done = (started if name == "range" else mkdocs)(folder, "build", "-q")
            assert done.returncode == 0, done.stderr
    return {
        name: {p.relative_to(f / "site").as_posix(): p.read_bytes() for p in (f / "site").rglob("*") if p.is_file()}
        for name, f in folders.items()
    }


def tell_the_day(config: Path) -> None:
    plain, told = "  - studio-handbook\n", f"  - studio-handbook:\n      as_of: {RECORDS.studio.as_of}\n"
    text = config.read_text("utf-8")
    assert plain in text
    config.write_text(text.replace(plain, told), "utf-8")


def changed(one: Site, other: Site) -> set[str]:
    assert one.keys() == other.keys()
    return {name for name in one if one[name] != other[name]}


def is_table(name: str) -> bool:
    return name.endswith(".html") and name.startswith(("reference/", "procedures/"))


def showing(site: Site, words: str) -> set[str]:
    """The pages that show some words, whichever space stands in them."""
    return {
        name
        for name, text in site.items()
        if name.endswith(".html") and words in html.unescape(text.decode()).replace("\u00a0", " ")
    }


def test_another_range_changes_the_pages_that_show_it_and_no_others(sites: dict[str, Site]) -> None:
    shown = showing(sites["one"], ROWS["one"][0])
    assert {"reference/dials.html", "reference/speeds.html"} < shown
    assert changed(sites["one"], sites["range"]) - OF_EVERYTHING == shown
    assert showing(sites["range"], ROWS["range"][0]) == shown
    assert showing(sites["range"], ROWS["one"][0]) == set()
    # What was printed before is told from today's: these pages have another stamp, and no others.
    lines = [{name: LINE.findall(text.decode()) for name, text in sites[one].items() if is_table(name)} for one in ROWS]
    stamped = {name for name in lines[0] if lines[0][name] != lines[1][name]}
    assert stamped == {name for name in shown if is_table(name)} and all(lines[0].values())


def test_another_usual_speed_changes_the_sheets_that_are_set_by_it_and_no_others(sites: dict[str, Site]) -> None:
    technique = RECORDS.techniques[TECHNIQUE]
    row = technique.dials[PLACE]
    # A sheet shows the sitting at hand, not the whole piece.
    plans = {name: demo(name) for name in WITH}
    # What is finished stays as it was worked, and its page of today says what would be otherwise.
    finished = {name for name, plan in plans.items() if plan.job.finished is not None}
    at_hand = {
        name: plan.work.at_hand.steps for name, plan in plans.items() if plan.work is not None and name not in finished
    }
    set_by_it = {
        name
        for name, steps in at_hand.items()
        if any(s.setting.technique is technique and dial_row(technique, s.setting.grouping) is row for s in steps)
    }
    found = changed(sites["one"], sites["usual"])
    sheets = {name.removeprefix("sheets/").removesuffix(".html") for name in found if name.startswith("sheets/")}
    assert {name for name in sheets if "--" not in name} == set_by_it
    assert 0 < len(set_by_it) < len(WITH)
    assert {f"jobs/{name}--today.html" for name in finished} <= found
    assert not {f"jobs/{name}.html" for name in finished} & found
    assert showing(sites["one"], ROWS["one"][1]) <= found
    assert showing(sites["usual"], ROWS["one"][1]) == set()
