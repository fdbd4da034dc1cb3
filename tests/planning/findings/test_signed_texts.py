"""A text of a required training that its artist has not signed is a care on the sheet, with who and which text."""

from __future__ import annotations

import dataclasses
import datetime
from typing import Any

from generator.press.sheet.contents import sheet_of
from generator.records.located import Text
from generator.records.people import Signed
from tests.planning.demo import RECORDS, planned, simple, with_entry

QUILL = RECORDS.people["quill"]
SPILL = RECORDS.procedures["spill"]
BEFORE, LAST = SPILL.revisions[0], SPILL.revisions[-1]
OTHERS = tuple(signed for signed in QUILL.signed if signed.procedure != "spill")
SITTING = datetime.date(2027, 5, 12)


def signed(text: Any, on: datetime.date) -> Signed:
    return Signed.model_construct(procedure=Text("spill"), text=text, on=on, by=Text("mo"))


def said(*signatures: Signed) -> list[str]:
    made = planned(simple(), with_entry("people", "quill", signed=(*OTHERS, *signatures)))
    assert all(f.level == "care" and f.about == "artist" for f in made.findings)
    assert made.verdict.level == ("care" if made.findings else "clear")
    return [f.reason for f in made.findings]


def test_one_that_is_missing_changed_or_signed_too_late_is_named() -> None:
    begins = "Quill, Infection control: not signed in the text that counts: spill "
    assert said() == [f"{begins}(never)."]
    assert said(signed(BEFORE.text, BEFORE.date)) == [f"{begins}(changed since)."]
    assert said(signed(LAST.text, SITTING + datetime.timedelta(days=1))) == [f"{begins}(never)."]
    assert said(signed(LAST.text, SITTING)) == []


def test_a_text_that_changed_after_the_sitting_asks_nothing_of_it() -> None:
    changes = tuple(
        one if one is BEFORE else one.model_copy(update={"date": SITTING + datetime.timedelta(days=1)})
        for one in SPILL.revisions
    )
    records = with_entry("people", "quill", signed=(*OTHERS, signed(BEFORE.text, BEFORE.date)))
    assert [f.level for f in planned(simple(), records).findings] == ["care"]
    procedures = {**records.procedures, "spill": SPILL.model_copy(update={"revisions": changes})}
    assert planned(simple(), dataclasses.replace(records, procedures=procedures)).findings == ()


def test_the_sheet_says_it_in_its_reasons() -> None:
    records = with_entry("people", "quill", signed=OTHERS)
    (reason,) = sheet_of(records, planned(simple(), records)).reasons
    assert reason.level == "with care" and "spill (never)" in reason.reason
    assert reason.remedy == "Read it, show it done, and have it signed before the day."
