"""How a studio of the United States reads its dates, hours, spelling and lengths."""

from __future__ import annotations

import dataclasses
import datetime
import re
from collections.abc import Callable

import pytest

from generator.press.sheet.contents import sheet_of
from generator.press.sheet.plan_text import plan_text
from generator.press.sheet.printing import sheet_html
from generator.press.words.regional import in_region
from generator.records.families import Records
from generator.records.studio import OwnUnits
from generator.units import SYSTEMS
from tests.planning.demo import RECORDS, planned, written

AS_OF = datetime.date(2027, 5, 1)
AMERICAN = dataclasses.replace(RECORDS, studio=RECORDS.studio.model_copy(update={"units": "imperial", "region": "US"}))
SAID: Callable[[str], str] = in_region(AMERICAN)


@pytest.mark.parametrize(
    ("there", "here"),
    [
        ("not before 2027-06-16", "not before 06/16/2027"),
        ("2027-06-16, 13:30", "06/16/2027, 1:30 PM"),
        ("This is as of 12 May 2027, a date", "This is as of May 12, 2027, a date"),
        ('<style>a { content: "12 May 2027" }</style>', '<style>a { content: "May 12, 2027" }</style>'),
        ("Give it 12 in May", "Give it 12 in May"),
        ("00:05", "12:05 AM"),
        ("10:00–10:15", "10:00–10:15 AM"),
        ("11:50–12:10", "11:50 AM–12:10 PM"),
        ("The colour of a grey centre, centred.", "The color of a gray center, centered."),
        ("Coloured with 3 millilitres, a centimetre away", "Colored with 3 milliliters, a centimeter away"),
        ("Discoloured, labelled, sterilised", "Discolored, labeled, sterilized"),
        ("Fulfil, fulfils, fulfilled, skilful", "Fulfill, fulfills, fulfilled, skillful"),
        ("COLOUR", "COLOR"),
        ("diarrhoea, anaesthetics and oedema", "diarrhea, anesthetics and edema"),
        # What looks alike and is something else.
        ("parameter, metrics, programmed", "parameter, metrics, programmed"),
        ("one in 10:300, 2027-06-16-a, LB-2027-06", "one in 10:300, 2027-06-16-a, LB-2027-06"),
        (
            '<td data-day="2027-06-16" title="on 2027-06-16">x</td>',
            '<td data-day="2027-06-16" title="on 06/16/2027">x</td>',
        ),
        ("<code>colour: 2027-06-16</code> colour", "<code>colour: 2027-06-16</code> color"),
        ("<style>.colour { top: 10:00 }</style>", "<style>.colour { top: 10:00 }</style>"),
    ],
)
def test_a_page_is_written_as_in_the_united_states(there: str, here: str) -> None:
    """Common usage there: month, day, year; twice twelve hours; the spelling of its dictionaries."""
    assert SAID(there).replace("\u00a0", " ") == here
    assert SAID(SAID(there)) == SAID(there)


def test_a_label_stays_as_it_is_on_the_bottle() -> None:
    ink = next(iter(RECORDS.inks.values())).model_copy(update={"name": "Harbour grey & white"})
    said = in_region(dataclasses.replace(AMERICAN, inks={str(ink.id): ink}))
    assert said("Harbour grey &amp; white, a grey") == "Harbour grey &amp; white, a gray"


def test_other_regions_write_as_the_records_do() -> None:
    assert in_region(RECORDS)("2027-06-16, 13:30, colour") == "2027-06-16, 13:30, colour"


_CLOCK = re.compile(r"(?<![\d:])(?:1[3-9]|2[0-3]|0\d):[0-5]\d")
_BRITISH = re.compile(r"colour|grey|centre\b|millimetre|litre|licence|diarrhoea|\d{4}-\d{2}-\d{2}", re.IGNORECASE)
_TAGS = re.compile(r"<style.*?</style>|<script.*?</script>|<[^>]+>", re.DOTALL)


def _sheet(records: Records, job: str) -> tuple[str, str]:
    plan = planned(written(job), records)
    said = in_region(records)
    return said(sheet_html(sheet_of(records, plan), AS_OF)), said(plan_text(records, plan))


def test_the_sheets_of_an_american_studio() -> None:
    """A needle, a stroke and a hang-out are in millimetres; the piece is in inches; no hour is beyond twelve."""
    for job in ("tide-table", "stairwell"):
        for page in _sheet(AMERICAN, job):
            words = _TAGS.sub(" ", page)
            assert _CLOCK.findall(words) == _BRITISH.findall(words) == []
    sheet = _TAGS.sub(" ", _sheet(AMERICAN, "tide-table")[0]).replace("\u00a0", " ")
    assert re.search(r"\d (?:AM|PM)", sheet) and re.search(r"\d/\d+ in\b", sheet)
    assert re.search(r"1210RL[^<]{0,40}3 mm", sheet)
    assert "0.12 in" not in sheet and "100 mm: measure" in sheet and "4 in" in sheet


def test_a_studio_shows_some_kinds_in_units_of_its_own() -> None:
    own = {"body": "cm", "temperatures": "°C", "volumes": None}
    studio = AMERICAN.studio.model_copy(update={"units_by_kind": OwnUnits.model_construct(**own)})
    assert {kind: unit for kind, unit in studio.shows.items() if unit != SYSTEMS["imperial"][kind]} == {
        "length": "cm",
        "temperature": "°C",
        "temperature difference": "°C",
    }
    assert AMERICAN.studio.shows == SYSTEMS["imperial"] and RECORDS.studio.shows == SYSTEMS["metric"]
