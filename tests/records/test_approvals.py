"""Where the studio asks for a second person, each rule that it decided and each new text needs one; nowhere oneself."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from generator.cli import main
from generator.dates import as_of
from generator.records.acts import not_approved
from generator.records.families import Records
from generator.records.reading import read_records
from tests.checked import check_all
from tests.conftest import copy_content
from tests.planning.demo import RECORDS

AS_OF = RECORDS.studio.as_of or as_of()
ASKING = replace(RECORDS, studio=RECORDS.studio.model_copy(update={"approval": "second person"}))


def _lacking(records: Records) -> set[str]:
    return {d.says.split("`")[1] for d in not_approved(records, AS_OF) if d.says.startswith("`")}


def test_nothing_is_asked_for_where_the_studio_does_not() -> None:
    assert list(not_approved(RECORDS, AS_OF)) == []


def test_rules_that_somebody_here_decided_need_a_second_person_and_a_file_is_approved_at_once() -> None:
    lacking = _lacking(ASKING)
    assert set(RECORDS.scar_rules) <= lacking and set(RECORDS.disinfectants) <= lacking
    of_their_own = {key for key, question in RECORDS.screening.items() if question.decided is not None}
    assert set(RECORDS.screening) & lacking == of_their_own, "reviews.yml approves what was decided with the whole file"
    # What is published is decided by nobody here.
    published = [step for step in RECORDS.hygiene.values() if RECORDS.sources[step.source].kind == "published"]
    assert published and not {str(step.id) for step in published if step.decided is None} & lacking
    without = {**RECORDS.reviews, "screening": RECORDS.reviews["screening"].model_copy(update={"approved": None})}
    assert set(RECORDS.screening) <= _lacking(replace(ASKING, reviews=without))


def test_a_text_that_changed_in_meaning_is_approved_anew_and_one_in_other_words_is_not() -> None:
    approved = RECORDS.reviews["screening"].approved
    assert approved is not None and approved.by == "tilde"
    enquiry = RECORDS.procedures["enquiry"]
    first, wording = enquiry.revisions[0], enquiry.revisions[-1]
    assert enquiry.owner == "quill" and wording.wording_only and not first.wording_only

    def lacks(*texts: object) -> bool:
        procedures = {"enquiry": enquiry.model_copy(update={"revisions": texts})}
        return any("`enquiry`" in d.says for d in not_approved(replace(ASKING, procedures=procedures), AS_OF))

    good = first.model_copy(update={"approved": approved})
    assert lacks(first) and lacks(first, wording) and not lacks(good) and not lacks(good, wording)
    anew = wording.model_copy(update={"wording_only": False})
    assert lacks(good, anew) and lacks(good, anew, wording)
    assert lacks(first.model_copy(update={"approved": approved.model_copy(update={"by": "quill"})}))


@pytest.mark.parametrize(
    ("file", "old", "new", "codes"),
    [
        ("reviews.yml", "approved: {by: tilde, on: 2026-11-03}", "approved: {by: quill, on: 2026-11-03}", {"L411"}),
        ("reviews.yml", "approved: {by: tilde, on: 2026-11-03}", "approved: {by: tilde, on: 2026-11-01}", {"L411"}),
        ("reviews.yml", "approved: {by: tilde, on: 2026-11-03}", "approved: {by: nobody, on: 2026-11-03}", {"L401"}),
        ("reviews.yml", "approved: {by: tilde, on: 2026-11-03}", "approved: {by: tilde, on: 2027-11-03}", {"R328"}),
        ("reviews.yml", "approved: {by: tilde, on: 2026-11-03}", "approved: yes", {"R303"}),
        ("reviews.yml", "approved: {by: tilde, on: 2026-11-03}", "approved: {by: bram, on: 2026-11-03}", {"L408"}),
        ("procedures.yml", 'what: "First text.", wording_only: no}', 'what: "First text.", wording_only: no, '
         "approved: {by: quill, on: 2026-12-01}}", {"L411"}),
        ("studio.yml", "format: 2\n", "format: 2\napproval: second persons\n", {"R307"}),
    ],
)  # fmt: skip
def test_an_approval_that_is_none_is_an_error_whether_it_is_asked_for_or_not(
    file: str, old: str, new: str, codes: set[str], tmp_path: Path
) -> None:
    path = copy_content(tmp_path, ("tide-table",)) / file
    path.write_text(path.read_text("utf-8").replace(old, new, 1), "utf-8")
    found = read_records(path.parent, as_of()).report
    assert {d.code for d in found if d.level == "error"} == codes


def test_the_check_says_them_together_with_the_words_to_write(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    content = copy_content(tmp_path, ("tide-table",))
    (tmp_path / "handbook").mkdir()
    (tmp_path / "handbook" / "index.md").write_text("# Ours\n", "utf-8")
    studio = content / "studio.yml"
    studio.write_text(studio.read_text("utf-8").replace("format: 2\n", "format: 2\napproval: second person\n"), "utf-8")
    assert not [d for d in check_all(content, as_of()) if d.level == "error"]
    main(["check", "--content", str(content)])
    said = capsys.readouterr().out
    assert said.count("reminder H728: not approved by a second person: ") == 1
    assert "write `approved: {by: ID, on: 2027-05-12}` at the entry, or once for the file at `scar-rules`" in said
