"""A value that changed: who should read again, what the check says to write, and that another name is no change."""

from __future__ import annotations

import dataclasses
import datetime
from pathlib import Path
from typing import Any

import pytest

from generator.diagnostics import Place
from generator.press.lists.changed_rules import changed_rules_page
from generator.press.manual.changed_values import matters, unlisted_values, value_findings
from generator.press.manual.procedures import is_listed, procedure_page, read_procedures, text_hash
from generator.press.manual.training import ReadText, readings_of_all
from generator.press.words.addresses import PAGE_OF
from generator.quantities import written as quantity
from generator.records.decided import COMFORT, SAFETY, Change
from generator.records.families import Records
from generator.records.located import Text
from generator.records.people import Signed
from tests.planning.demo import CONTENT, RECORDS, with_entry
from tests.press.page_at import page_at

HANDBOOK = Path(CONTENT).parent / "handbook"
PAGES = read_procedures(HANDBOOK)
TODAY = "2027-05-12"
GLOVES = "values.glove-wear.is"


def _shorter(**changes: Any) -> Records:
    """The records in which gloves are worn for less time than was signed for."""
    return with_entry("values", "glove-wear", is_=quantity("45 min"), **changes)


def _change(of: str, was: str, now: str, on: str, gone: bool = False) -> Change:
    place = Place("changes.yml", 1, 1, 2)
    return Change.model_construct(
        id=Text.at(f"{of}-{on}", place),
        of=Text.at(of, place),
        on=datetime.date.fromisoformat(on),
        from_=was,
        to=now,
        by=RECORDS.changes["gloves-shorter"].by,
        why="It was tried",
        gone=gone,
    )


def _with(records: Records, *changes: Change) -> Records:
    return dataclasses.replace(records, changes={**records.changes, **{str(one.id): one for one in changes}})


def _gloves(records: Records, person: str = "quill") -> ReadText:
    found = readings_of_all(records, PAGES, datetime.date.fromisoformat(TODAY))[person]
    return next(one for one in found if one.procedure.id == "hands-and-gloves")


def _codes(records: Records) -> list[str]:
    return [d.code for d in value_findings(records, PAGES, TODAY)]


def test_every_listed_text_of_the_demo_has_its_values_and_none_has_changed_in_silence() -> None:
    assert _codes(RECORDS) == []
    assert [p.id for p in RECORDS.procedures.values() if p.revisions[-1].quotes is None and PAGES[p.id].quotes] == []


def test_another_name_of_what_is_quoted_is_no_other_text_and_no_change() -> None:
    text = (HANDBOOK / "procedures" / "hands-and-gloves.md").read_text("utf-8")
    assert "values.glove-wear.is" in text
    renamed = procedure_page(text.replace("values.glove-wear.is", "values.glove-time.is"), "x.md", "hands-and-gloves")
    assert renamed.text == PAGES["hands-and-gloves"].text and renamed.before != PAGES["hands-and-gloves"].before
    values = {("glove-time" if key == "glove-wear" else key): value for key, value in RECORDS.values.items()}
    changes = {
        key: change.model_copy(update={"of": Text.at("values.glove-time.is", change.of.place)})
        if change.of == GLOVES
        else change
        for key, change in RECORDS.changes.items()
    }
    records = dataclasses.replace(RECORDS, values=values, changes=changes)
    pages = {**PAGES, "hands-and-gloves": renamed}
    assert list(value_findings(records, pages, TODAY)) == []
    assert is_listed(records.procedures["hands-and-gloves"], renamed)
    # Another value behind the quote is told of, and what is typed in a quote is words of the text.
    other = procedure_page(text.replace("values.glove-wear.is", "values.eye-rinse.is"), "x.md", "hands-and-gloves")
    told = unlisted_values(RECORDS, {**PAGES, "hands-and-gloves": other})
    assert [(one.path, one.was, one.now) for one in told] == [("values.eye-rinse.is", "60 min", "15 min")]
    assert text_hash("{{ typed: 4, because it is }}") != text_hash("{{ typed: 5, because it is }}")


def test_a_text_that_was_listed_with_the_names_in_its_hash_is_still_listed() -> None:
    page = PAGES["hands-and-gloves"]
    procedure = RECORDS.procedures["hands-and-gloves"]
    old = procedure.revisions[-1].model_copy(update={"text": page.before})
    assert is_listed(procedure.model_copy(update={"revisions": (old,)}), page)


def test_the_check_says_the_line_to_add_and_is_silent_once_it_is_there() -> None:
    (told,) = value_findings(_shorter(), PAGES, TODAY)
    assert (told.code, told.level) == ("H742", "reminder")
    assert f"of: {GLOVES}, on: {TODAY}, from: 60 min, to: 45 min, by: WHO, why: WHY}}` to changes.yml" in told.help
    assert "`hands-and-gloves`" in told.help and "reads it again" in told.help
    assert _codes(_with(_shorter(), _change(GLOVES, "60 min", "45 min", TODAY))) == []
    # The same time in another unit is no change.
    assert _codes(with_entry("values", "glove-wear", is_=quantity("1 h"))) == []


def test_who_signed_before_a_value_of_safety_changed_reads_again_until_it_is_signed_anew() -> None:
    before = _with(dataclasses.replace(RECORDS, changes={}), _change(GLOVES, "90 min", "60 min", "2026-10-01"))
    assert _gloves(before).state == "read"
    later = _with(
        dataclasses.replace(_shorter(), changes=before.changes), _change(GLOVES, "60 min", "45 min", "2027-05-01")
    )
    assert _gloves(later).state == "read again" and [one.to for one in _gloves(later).values] == ["45 min"]
    comfort = dataclasses.replace(_shorter(matters=COMFORT), changes=later.changes)
    assert _gloves(comfort).state == "read" and len(_gloves(comfort).values) == 1
    hash_now = PAGES["hands-and-gloves"].text
    anew = Signed.model_construct(
        procedure=Text("hands-and-gloves"), text=hash_now, on=datetime.date(2027, 5, 1), by="mo"
    )
    people = {**later.people}
    people["quill"] = people["quill"].model_copy(update={"signed": (*people["quill"].signed, anew)})
    assert _gloves(dataclasses.replace(later, people=people)).state == "read"


def test_a_value_that_changed_in_silence_is_read_again_too() -> None:
    silent = dataclasses.replace(_shorter(), changes={})
    assert _gloves(silent).state == "read again" and _gloves(silent).not_said
    assert not _gloves(dataclasses.replace(_shorter(matters=COMFORT), changes={})).not_said


def test_a_draft_that_nobody_signed_changes_as_it_is_written() -> None:
    people = {name: person.model_copy(update={"signed": ()}) for name, person in RECORDS.people.items()}
    values = {**RECORDS.values, "eye-rinse": RECORDS.values["eye-rinse"].model_copy(update={"is_": quantity("9 min")})}
    assert _codes(dataclasses.replace(RECORDS, values=values)) == ["H742"]
    assert _codes(dataclasses.replace(RECORDS, values=values, people=people)) == []


def test_a_signed_text_without_its_values_is_told_of_with_the_line_to_add() -> None:
    procedure = RECORDS.procedures["hands-and-gloves"]
    bare = procedure.revisions[-1].model_copy(update={"quotes": None})
    records = with_entry("procedures", "hands-and-gloves", revisions=(*procedure.revisions[:-1], bare))
    (told,) = value_findings(records, PAGES, TODAY)
    assert told.code == "H743" and procedure.revisions[-1].quotes in told.help


@pytest.mark.parametrize(
    ("path", "flag"),
    [
        (GLOVES, SAFETY),
        ("studio.limits.break_length", COMFORT),
        ("studio.limits.sitting", SAFETY),
        ("roles.bleach.contact", SAFETY),
        ("values.no-more.is", SAFETY),
    ],
)
def test_what_nobody_flagged_is_safety(path: str, flag: str) -> None:
    assert matters(path, RECORDS) == flag


def test_a_change_of_nothing_is_an_error_but_for_what_is_gone() -> None:
    (told,) = value_findings(_with(RECORDS, _change("values.no-more.is", "1 h", "2 h", TODAY)), PAGES, TODAY)
    assert (told.code, told.level) == ("H744", "error")
    assert _codes(_with(RECORDS, _change("values.no-more.is", "1 h", "2 h", TODAY, gone=True))) == []


def test_the_page_says_what_from_to_who_why_and_who_reads_again() -> None:
    records = _with(RECORDS, _change("values.no-more.is", "1 h", "2 h", TODAY, gone=True))
    shown = changed_rules_page(page_at(PAGE_OF["changes"], records, procedures=PAGES))
    rows = [line for line in shown.split("<tr") if "2027-03-15" in line]
    assert len(rows) == 1
    for words in ("90 min", "60 min", "safety", "Tilde", "torn in the second hour", "Hands and gloves", "Quill"):
        assert words in rows[0], words
    assert shown.index(TODAY) < shown.index("2027-04-19") < shown.index("2027-03-15")
    assert "there no more" in shown
    assert "Nobody has written down why" not in shown
    silent = changed_rules_page(page_at(PAGE_OF["changes"], _shorter(), procedures=PAGES))
    assert "Nobody has written down why" in silent
