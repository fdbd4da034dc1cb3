"""Training bound to the text that was read: what counts as read, and what is read again."""

from __future__ import annotations

import dataclasses
import datetime
import re
from collections.abc import Sequence

import pytest

from generator.press.lists.start_here import procedures_page, start_page, to_sign
from generator.press.lists.training import START, TRAINING, training_page
from generator.press.manual.procedures import INDEX, ProcedurePage
from generator.press.manual.training import ReadText, reading, readings_of_all
from generator.records.located import Text
from generator.records.people import Person, Signed
from generator.records.procedures import ROLES, Procedure, Revision, changed_since
from tests.planning.demo import RECORDS
from tests.press.minimal import minimal
from tests.press.page_at import page_at

LINING = RECORDS.procedures["lining"]
PAGES = {
    each.id: ProcedurePage(f"{each.id}.md", each.id.capitalize(), each.revisions[-1].text, 400)
    for each in RECORDS.procedures.values()
}
DAY = datetime.date(2026, 11, 9)


def readings(person: Person) -> list[ReadText]:
    """Of one person in place of the one of that id."""
    records = dataclasses.replace(RECORDS, people={**RECORDS.people, person.id: person})
    return readings_of_all(records, PAGES, DAY)[person.id]


def procedure(*texts: str) -> Procedure:
    """Lining with these texts; one that ends with `~` changed the wording only."""
    revisions = tuple(
        Revision.model_construct(text=text.rstrip("~"), date=DAY, what=f"It became {text}.", wording_only="~" in text)
        for text in texts
    )
    return LINING.model_copy(update={"revisions": revisions})


def signed(*texts: str) -> Sequence[Signed]:
    return [
        Signed.model_construct(procedure=Text("lining"), text=text, on=DAY + datetime.timedelta(days=n), by="quill")
        for n, text in enumerate(texts)
    ]


def page(text: str) -> ProcedurePage:
    return ProcedurePage("lining.md", "Lining", text, 400)


@pytest.mark.parametrize(
    ("texts", "read", "now", "state"),
    [
        (["a"], [], "a", "not yet"),
        (["a"], ["a"], "a", "read"),
        (["a", "b~"], ["a"], "b", "read"),
        (["a", "b"], ["a"], "b", "read again"),
        (["a", "b", "c~"], ["a"], "c", "read again"),
        (["a", "b~", "c"], ["a"], "c", "read again"),
        (["a", "b~", "c~"], ["a"], "c", "read"),
        (["a", "b", "c~"], ["b"], "c", "read"),
        (["a", "b"], ["a", "b"], "b", "read"),
        (["a", "b"], ["b", "a"], "b", "read"),
        # A text that came back was read as it is now.
        (["a", "b", "a"], ["a"], "a", "read"),
        (["a", "b", "a"], ["b"], "a", "read again"),
        # Nobody has listed what the page reads now, so nobody can say that its meaning is the same.
        (["a"], ["a"], "x", "read again"),
        (["a", "b~"], ["a"], "x", "read again"),
        # The page was turned back to a text that is listed, and was read.
        (["a", "b"], ["a"], "a", "read"),
    ],
)
def test_what_counts_as_read(texts: list[str], read: list[str], now: str, state: str) -> None:
    assert reading(procedure(*texts), signed(*read), page(now)).state == state


def test_without_the_page_the_listed_text_counts() -> None:
    assert reading(procedure("a", "b~"), signed("a"), None).state == "read"
    assert reading(procedure("a", "b"), signed("a"), None).state == "read again"


def test_the_latest_signature_that_still_counts_is_the_one_shown() -> None:
    shown = reading(procedure("a", "b~"), signed("a", "b", "a"), page("b"))
    assert shown.signed is not None and shown.signed.text == "b"
    again = reading(procedure("a", "b", "c"), signed("b", "a"), page("c"))
    assert again.signed is not None and again.signed.text == "b"
    assert [change.text for change in again.since] == ["c"]


def test_only_changes_in_meaning_are_told() -> None:
    assert [change.text for change in changed_since(procedure("a", "b~", "c", "d~", "e"), "a")] == ["c", "e"]


def test_a_person_reads_what_the_role_reads_and_keeps_what_was_signed_beyond_it() -> None:
    bram = RECORDS.people["bram"]
    roles = {one.procedure.id for one in readings(bram)}
    assert roles == {each.id for each in RECORDS.procedures.values() if "apprentice" in each.read_by}
    more = Signed.model_construct(
        procedure=Text("stock"), text=RECORDS.procedures["stock"].revisions[0].text, on=DAY, by=Text("tilde")
    )
    assert "stock" not in roles
    beyond = readings(bram.model_copy(update={"signed": (more,)}))
    assert {one.procedure.id for one in beyond} == roles | {"stock"}


class TestTheDemo:
    def test_the_apprentice_has_read_some_and_reads_again_what_is_done_otherwise_now(self) -> None:
        for one in readings(RECORDS.people["bram"]):
            revisions = one.procedure.revisions
            if one.signed is None:
                assert one.state == "not yet"
                continue
            known = [each.text for each in revisions].index(one.signed.text)
            changed = any(not each.wording_only for each in revisions[known + 1 :])
            assert one.state == ("read again" if changed else "read"), one.procedure.id
        states = [one.state for one in readings(RECORDS.people["bram"])]
        assert min(states.count("read again"), states.count("read"), states.count("not yet")) >= 3

    def test_a_change_of_wording_alone_is_not_read_again(self) -> None:
        found = {one.procedure.id: one for one in readings(RECORDS.people["bram"])}
        machine = found["machine-set-up"]
        assert machine.state == "read" and machine.signed is not None
        assert machine.signed.text != RECORDS.procedures["machine-set-up"].revisions[-1].text

    def test_the_page_shows_what_has_changed_first(self) -> None:
        shown = training_page(page_at(TRAINING, RECORDS, datetime.date.min, PAGES))
        bram = shown[shown.index("{ #training-bram }") :]
        first = re.search(r'<tr id="training-bram-[^"]*">.*?</tr>', bram)
        assert first is not None and "read again" in first[0]
        assert "Hands, spill and needlestick have procedures of their own." in first[0]

    def test_the_page_counts(self) -> None:
        shown = training_page(page_at(TRAINING, RECORDS, datetime.date.min, PAGES))
        for person in RECORDS.people.values():
            found = readings_of_all(RECORDS, PAGES, datetime.date.min)[person.id]
            row = re.search(rf'<tr id="glance-{person.id}">.*?</tr>', shown)
            assert row is not None
            counted = [int(cell) for cell in re.findall(r"<td[^>]*>(\d+)</td>", row[0])]
            assert sum(counted) == len(found)


@pytest.mark.parametrize("role", ROLES)
def test_start_here_has_each_role_with_its_list_and_sheet(role: str) -> None:
    shown = start_page(page_at(START, procedures=PAGES))
    part = shown[shown.index(f"{{ #{role} }}") :]
    part = part[: part.index("</table>")]
    expected = [each for each in RECORDS.procedures.values() if role in each.read_by]
    assert re.findall(rf'<tr id="{role}-([^"]+)">', part) == [each.id for each in expected]
    assert all(each.then_can in part.replace("&#39;", "'") for each in expected)
    assert f"sign-off/{role}.html" in part
    # 400 words are read in three minutes at 180 words a minute.
    assert RECORDS.studio.limits.words_a_minute == 180
    hours, rest = divmod(3 * len(expected), 60)
    assert (f"{hours}\u00a0h {rest}\u00a0min" if hours else f"{rest}\u00a0min") in part


@pytest.mark.parametrize("role", ROLES)
def test_the_sheet_to_sign_has_every_procedure_with_the_text_as_it_is(role: str) -> None:
    lines = to_sign(role, RECORDS, PAGES)
    expected = [each for each in RECORDS.procedures.values() if role in each.read_by]
    assert [text for _, text in lines] == [PAGES[each.id].text for each in expected]


def test_all_procedures_stand_in_their_groups_in_the_order_of_the_day() -> None:
    shown = procedures_page(page_at(INDEX, procedures=PAGES))
    assert re.findall(r'<tr id="procedure-([^"]+)">', shown) == list(RECORDS.procedures)
    groups = re.findall(r"^## (.+?) \{", shown, re.MULTILINE)
    assert groups == list(dict.fromkeys(each.group for each in RECORDS.procedures.values()))


def test_a_studio_without_procedures_has_pages_all_the_same() -> None:
    assert "0 procedures" in start_page(page_at(START, minimal()))
    assert "# Procedures" in procedures_page(page_at(INDEX, minimal()))
    assert "Nothing is on file yet." in training_page(page_at(TRAINING, minimal()))
