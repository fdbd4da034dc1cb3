"""What the artist has to know is printed where it belongs; drawing and photos go by their codes alone."""

from __future__ import annotations

from generator.planning.plan import JobPlan
from generator.press.drawings.map_words import part_letters
from generator.press.sheet.contents import sheet_of
from generator.press.sheet.plan_text import plan_text
from generator.press.sheet.printing import sheet_html
from generator.press.sheet.stamp import stamp_of
from tests.planning.demo import RECORDS, Written, part, planned, read, simple

HEAD, AT_PART = "Look at the photo of the lamp together.", "The glass stays skin."
PARTS = [
    part("lamp", focal="yes", note=AT_PART, colours=["black-shade"]),
    part("post", (60, 60, 30, 30), role="filler", colours=["black-shade"]),
]


def noted(**changes: object) -> JobPlan:
    made: Written = simple(parts=PARTS, note=HEAD, drawing={"code": "D-0900", "version": "3"}, **changes)
    return planned({**made, "photos": ["F-0900-1", "F-0900-2"]})


def test_a_note_is_at_the_head_and_that_of_a_part_in_its_first_row() -> None:
    made = noted()
    sheet = sheet_of(RECORDS, made)
    said = {pair.label: pair.value for pair in sheet.head}
    assert (said["Note"], said["Drawing"], said["Photos"]) == (HEAD, "D-0900, version 3", "F-0900-1, F-0900-2")
    lamp = f"{part_letters(made.job)['lamp']} lamp"
    assert [row.part for row in sheet.rows if row.note] == [lamp]
    assert next(row for row in sheet.rows if row.part == lamp).note == AT_PART
    html = sheet_html(sheet, made.job.date)
    for text in (HEAD, "D-0900, version 3", "F-0900-2", AT_PART):
        assert text in html and text in plan_text(RECORDS, made)


def test_a_note_is_printed_and_so_it_changes_the_stamp() -> None:
    before = stamp_of(sheet_of(RECORDS, noted()))
    for other in ({"note": "Another."}, {"parts": [{**PARTS[0], "note": "Another."}, PARTS[1]]}):
        assert stamp_of(sheet_of(RECORDS, planned({**simple(parts=PARTS, note=HEAD), **other}))) != before


def test_a_sheet_that_may_not_go_ahead_has_the_note_of_the_job() -> None:
    made = noted(screening="unknown")
    assert made.work is None and HEAD in plan_text(RECORDS, made)


def test_names_days_and_files_are_no_codes() -> None:
    taken = []
    for code in ("anna", "Anna-12", "F-20270512", "photos/F-0900-1.jpg", "F-0900-1.jpg", "F-12-3-4-5", "0900"):
        for key, value in (("photos", [code]), ("drawing", {"code": code, "version": "1"})):
            job, report = read(simple(**{key: value}))
            if job is not None or [d.code for d in report] != ["R314"]:
                taken.append((key, code))
    assert taken == []
