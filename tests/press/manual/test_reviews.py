"""Reviews: what is due, what is overdue, and the calendar file by RFC 5545."""

from __future__ import annotations

import dataclasses
import datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st
from icalendar import Calendar

from generator.press.lists.reviews import reviews_page
from generator.press.manual.calendar import calendar_file
from generator.press.manual.procedures import ProcedurePage
from generator.press.manual.reviews import Due, not_reviewed, review_findings, reviews_due
from generator.press.words.addresses import PAGE_OF
from generator.records.families import REVIEWED, Records
from tests.planning.demo import RECORDS, with_entry
from tests.press.minimal import minimal
from tests.press.page_at import page_at

AS_OF = datetime.date(2027, 5, 12)
REVIEWS = PAGE_OF["reviews"]
PAGES = {each: ProcedurePage(f"{each}.md", each.capitalize(), "000000", 10) for each in RECORDS.procedures}


def calendar(records: Records = RECORDS, as_of: datetime.date = AS_OF) -> str:
    return calendar_file(records, reviews_due(records, as_of), PAGES, as_of)


class TestDue:
    def test_the_earliest_comes_first_and_everything_is_there(self) -> None:
        due = reviews_due(RECORDS, AS_OF)
        assert [each.day for each in due] == sorted(each.day for each in due)
        assert len(due) == len(RECORDS.procedures) + len(RECORDS.reviews)

    def test_two_procedures_are_overdue_in_the_demo_and_a_few_within_a_month(self) -> None:
        due = reviews_due(RECORDS, AS_OF)
        assert [each.entry.id for each in due if each.overdue] == ["stencil", "waste-and-sharps"]
        soon = [each for each in due if AS_OF <= each.day <= AS_OF + datetime.timedelta(days=31)]
        assert 2 <= len(soon) <= 8

    @pytest.mark.parametrize(
        ("reviewed", "months", "day"),
        [
            ("2026-08-31", 6, "2027-02-28"),
            ("2028-02-29", 12, "2029-02-28"),
            ("2026-11-25", 1, "2026-12-25"),
        ],
    )
    def test_months_are_those_of_the_calendar(self, reviewed: str, months: int, day: str) -> None:
        interval = RECORDS.procedures["lining"].interval
        changed = dataclasses.replace(interval, low=float(months), high=float(months))
        records = with_entry("procedures", "lining", reviewed=datetime.date.fromisoformat(reviewed), interval=changed)
        (lining,) = [each for each in reviews_due(records, AS_OF) if each.entry.id == "lining"]
        assert lining.day.isoformat() == day

    def test_each_family_is_reviewed_in_the_demo_and_one_that_is_not_is_told(self) -> None:
        assert not_reviewed(RECORDS) == []
        found = {d.code: d for d in review_findings(minimal(), AS_OF)}
        assert set(found) == {"H723"}
        assert len(not_reviewed(minimal())) == len(REVIEWED)

    def test_what_is_overdue_is_told_with_what_to_write(self) -> None:
        found = [d for d in review_findings(RECORDS, AS_OF) if d.code == "H721"]
        assert [d.place for d in found] == [
            RECORDS.procedures[each].reviewed.place for each in ("stencil", "waste-and-sharps")
        ]
        assert all("`reviewed: 2027-05-12`" in d.help for d in found)


class TestThePage:
    def test_overdue_ones_come_first_and_are_named(self) -> None:
        page = reviews_page(page_at(REVIEWS, procedures=PAGES))
        assert "Stencil</a>: Quill was to read it through by 2027-04-27" in page
        assert page.index("Overdue") < page.index("Reviews by the day")
        assert page.index('id="procedures-stencil"') < page.index('id="procedures-waste-and-sharps"')
        assert page.count("<strong>overdue</strong>") == 2

    def test_a_day_earlier_none_is(self) -> None:
        assert "No review is overdue." in reviews_page(page_at(REVIEWS, RECORDS, datetime.date(2026, 11, 10), PAGES))

    def test_a_family_that_nobody_reviews_is_named(self) -> None:
        some = {name: review for name, review in RECORDS.reviews.items() if name != "inks"}
        page = reviews_page(page_at(REVIEWS, dataclasses.replace(RECORDS, reviews=some), AS_OF, PAGES))
        assert "<ul><li>inks</li></ul>" in page


class TestTheCalendar:
    def test_a_library_reads_it_back(self) -> None:
        read = Calendar.from_ical(calendar())
        due = reviews_due(RECORDS, AS_OF)
        events = read.walk("VEVENT")
        assert read["VERSION"] == "2.0" and read["PRODID"]
        assert [event["DTSTART"].dt for event in events] == [each.day for each in due]
        assert all(type(event["DTSTART"].dt) is datetime.date for event in events)
        assert {event["DTSTAMP"].dt for event in events} == {datetime.datetime(2027, 5, 12, tzinfo=datetime.UTC)}
        assert "Stencil" in events[0]["SUMMARY"] and "Quill" in events[0]["SUMMARY"]
        assert not any(event.errors for event in events)

    def test_identifiers_are_all_different_and_the_same_on_another_day(self) -> None:
        found = [
            [str(event["UID"]) for event in Calendar.from_ical(text).walk("VEVENT")]
            for text in (calendar(), calendar(as_of=datetime.date(2027, 5, 1)))
        ]
        assert found[0] == found[1]
        assert len(set(found[0])) == len(found[0])

    @given(st.text(st.characters(exclude_categories=("Cc", "Cs", "Zl", "Zp"), include_characters="\n"), max_size=300))
    def test_any_title_is_folded_at_75_octets_and_comes_back_whole(self, title: str) -> None:
        lining = RECORDS.procedures["lining"]
        pages = {"lining": ProcedurePage("lining.md", title, "000000", 1)}
        made = calendar_file(RECORDS, [Due("procedures", lining, AS_OF, False)], pages, AS_OF)
        lines = made.encode().split(b"\r\n")
        assert lines.pop() == b""
        assert all(len(line) <= 75 and b"\n" not in line and b"\r" not in line for line in lines)
        assert all(line.decode() for line in lines)  # no character was cut in two
        (event,) = Calendar.from_ical(made).walk("VEVENT")
        assert str(event["SUMMARY"]) == f"Review the procedure: {title} (Quill)"
