"""The authored pages of procedures: their text, their head, and how they fit their records."""

from __future__ import annotations

import datetime
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.press.manual.procedure_head import roles, with_head
from generator.press.manual.procedures import (
    ProcedurePage,
    minutes_to_read,
    page_findings,
    procedure_page,
    read_procedures,
    text_hash,
)
from generator.press.words.estimates import in_hours
from generator.records.families import Records
from generator.records.located import Text
from tests.planning.demo import RECORDS, with_entry, with_limits

HANDBOOK = Path(__file__).parents[3] / "handbook"
LAST = RECORDS.procedures["lining"].revisions[-1].text
AS_OF = datetime.date(2026, 11, 25)
WHOLE = """# Lining

**Purpose.** Lines.

**Who.** Those who may.

**What you need.** A needle.

## Steps

1. Pull {{ studio.limits.spacing }} on.

## When to stop

- In time.

## What to write down

- Lots.

## Cautions

- Some.
"""


def listed(text: str, **changes: object) -> Records:
    """The demo records in which the text is the last one that lining lists."""
    revisions = RECORDS.procedures["lining"].revisions
    last = revisions[-1].model_copy(update={"text": Text.at(text_hash(text), LAST.place)})
    return with_entry("procedures", "lining", revisions=(*revisions[:-1], last), **changes)


def head(records: Records, text: str = WHOLE) -> str:
    return with_head(text, records.procedures["lining"], procedure_page(text, "lining.md", "lining"), records, AS_OF)


class TestTheHash:
    def test_line_breaks_and_quoted_values_do_not_count(self) -> None:
        assert text_hash("one two\n three {{ a.b }}\r\n") == text_hash("one  two three\n\n{{ a.b }}")

    @pytest.mark.parametrize("other", ["one two", "one two three.", "One two three", "one twothree", "{{ a.c }}"])
    def test_words_do(self, other: str) -> None:
        assert text_hash("one two three") != text_hash(other)

    @given(st.text())
    def test_it_has_the_form_that_records_take(self, text: str) -> None:
        assert len(text_hash(text)) == 6 and set(text_hash(text)) <= set("0123456789abcdef")


class TestWords:
    @pytest.mark.parametrize(
        ("text", "words"),
        [
            ("# Two words", 2),
            ("one – two", 2),
            ("see [the page](a/very/long-address.md)", 3),
            ("{{ studio.limits.spacing }} apart", 2),
            ("a <b>bold</b> word", 3),
            ("```\nno words\n```\nfour", 1),
            ("- [x] done", 2),
            ("## Head { #at }", 1),
        ],
    )
    def test_are_counted_as_they_are_read(self, text: str, words: int) -> None:
        assert procedure_page(text, "x.md", "x").words == words

    @pytest.mark.parametrize(("words", "expected"), [(0, 0), (1, 1), (100, 1), (101, 2), (199, 2), (201, 3)])
    def test_minutes_are_rounded_up_at_the_studios_own_speed(self, words: int, expected: int) -> None:
        page = ProcedurePage("x.md", "X", "000000", words)
        assert minutes_to_read(page, with_limits(words_a_minute=100)) == expected


def test_every_procedure_of_the_demo_has_a_page_and_every_page_a_record() -> None:
    assert list(read_procedures(HANDBOOK)) == sorted(RECORDS.procedures)
    assert [f.code for f in page_findings(RECORDS, read_procedures(HANDBOOK), AS_OF) if f.level == "error"] == []


class TestFindings:
    def found(self, text: str, records: Records) -> list[str]:
        pages = {"lining": procedure_page(text, "lining.md", "lining")}
        return [f"{d.code} {d.help}" for d in page_findings(records, pages, AS_OF) if d.code != "H712"]

    def test_a_whole_page_with_its_listed_text_has_none(self) -> None:
        assert self.found(WHOLE, listed(WHOLE)) == []

    @pytest.mark.parametrize(
        ("line", "written"),
        [
            ("**Purpose.**", "`**Purpose.**`"),
            ("**Who.**", "`**Who.**`"),
            ("**What you need.**", "`**What you need.**`"),
            ("## Steps", "`## Steps`"),
            ("## When to stop", "`## When to stop`"),
            ("## What to write down", "`## What to write down`"),
            ("## Cautions", "`## Cautions`"),
        ],
    )
    def test_each_section_is_missed(self, line: str, written: str) -> None:
        text = WHOLE.replace(line, "Something else:")
        assert self.found(text, listed(text)) == [f"H713 write {written}"]

    def test_a_page_that_is_about_a_section_has_it_as_its_title(self) -> None:
        text = WHOLE.replace("# Lining", "# When to stop", 1).replace("## When to stop", "## Signs")
        assert self.found(text, listed(text)) == []

    def test_a_section_inside_code_is_none(self) -> None:
        text = WHOLE.replace("## Cautions", "```\n## Cautions\n```")
        assert self.found(text, listed(text)) == ["H713 write `## Cautions`"]

    def test_a_changed_text_is_told_with_the_line_to_add(self) -> None:
        text = WHOLE.replace("- Some.", "- Some more.")
        (said,) = self.found(text, listed(WHOLE))
        assert said.startswith("H722 add `- {text: ")
        values = 'what: what changed, quotes: "0.03–0.15 mm", wording_only: no'
        assert f"{{text: {text_hash(text)}, date: 2026-11-25, {values}}}" in said
        assert "`lining`" in said

    def test_a_text_that_was_listed_before_the_last_one_has_changed_too(self) -> None:
        revisions = RECORDS.procedures["lining"].revisions
        first = revisions[0].model_copy(update={"text": Text.at(text_hash(WHOLE), LAST.place)})
        records = with_entry("procedures", "lining", revisions=(first, revisions[-1]))
        assert [said[:4] for said in self.found(WHOLE, records)] == ["H722"]


class TestTheHead:
    def test_it_stands_between_the_title_and_the_text(self) -> None:
        shown = head(listed(WHOLE))
        assert shown.startswith('# Lining\n\n<p class="looked-after">')
        assert shown.index("Owner") < shown.index("**Purpose.**")
        assert shown.replace(" ", "").endswith(WHOLE.partition("# Lining\n")[2].replace(" ", ""))

    def test_it_says_who_when_how_long_and_for_whom(self) -> None:
        shown = head(listed(WHOLE))
        for words in (
            "Quill",
            "Reviewed 2026-11-20",
            "2027-11-20</a>",
            "1\u00a0min to read",
            "artists and apprentices",
            text_hash(WHOLE),
        ):
            assert words in shown
        assert "framed" not in shown

    @pytest.mark.parametrize(("day", "late"), [("2026-11-24", True), ("2026-11-25", False), ("2026-11-26", False)])
    def test_an_overdue_review_is_a_banner_from_the_day_after(self, day: str, late: bool) -> None:
        due = datetime.date.fromisoformat(day)
        shown = head(listed(WHOLE, reviewed=due.replace(year=due.year - 1)))
        assert ("The review was due on" in shown) is late

    def test_a_text_that_is_not_listed_says_so(self) -> None:
        assert "The text has changed" in head(RECORDS)

    def test_a_page_without_a_title_has_its_head_first(self) -> None:
        text = WHOLE.replace("# Lining\n", "", 1)
        assert head(listed(text), text).startswith('<p class="looked-after">')


@pytest.mark.parametrize(
    ("count", "said"), [(0, "0 min"), (7, "7 min"), (60, "1 h"), (61, "1 h 1 min"), (185, "3 h 5 min")]
)
def test_long_times_are_said_in_hours(count: int, said: str) -> None:
    assert in_hours(count).replace("\u00a0", " ") == said


def test_roles_in_words() -> None:
    assert roles(("artist",)) == "artists"
    assert roles(("artist", "apprentice", "assistant")) == "artists, apprentices and assistants"
