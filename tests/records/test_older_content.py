"""Content from before the format had a number: the check says line by line what to change, with the text to write.

Writing just that, and nothing else, leads to records without a mistake and to the same plans.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from generator.dates import as_of
from generator.diagnostics import Diagnostic
from generator.records.reading import read_records
from tests.checked import check_all
from tests.conftest import ROOT, copy_content
from tests.planning.demo import RECORDS
from tests.records.older import as_before, mend


def _errors(content: Path) -> list[Diagnostic]:
    # Capitals stand for an id that only the studio knows.
    found = [d for d in check_all(content, as_of()) if d.level == "error"]
    return [replace(d, help=d.help.replace("SOURCE", "house-limits")) for d in found]


def test_what_the_check_says_of_older_content_is_enough_to_mend_it(tmp_path: Path) -> None:
    content = copy_content(tmp_path, ("tide-table", "stairwell"))
    assert as_before(content) > 120
    rounds = []
    while found := _errors(content):
        rounds.append(len(found))
        # Each of them has its own line, and a text to write, to add or to take away.
        assert all((d.place.line > 0 and "`" in d.help) or "take this line away" in d.help for d in found)
        assert mend(found) == len(found), [f"{d.place} {d.message}: {d.help}" for d in found]
        assert len(rounds) < 4, rounds
    assert rounds[0] > 100
    after = read_records(content, as_of()).records
    assert after is not None
    # A renamed key holds what it held, and the text to write for a lost one is a value that the field takes.
    assert after.techniques == RECORDS.techniques and after.cycles == RECORDS.cycles
    assert after.scar_rules == RECORDS.scar_rules and after.hygiene == RECORDS.hygiene
    assert {p.id: p.owner for p in after.procedures.values()} == {
        p.id: p.reviewed_by for p in after.procedures.values() if p.reviewed
    }
    assert all(person.came for person in after.people.values())


def test_an_older_decision_is_one_key_with_both_of_its_values(tmp_path: Path) -> None:
    content = copy_content(tmp_path, ("tide-table",))
    file = content / "sources.yml"
    text = file.read_text("utf-8")
    was, then = "  decided: {by: tilde, on: 2026-11-06}\n", "  decided_by: Tilde\n  decided_on: 2026-11-06\n"
    assert was in text
    file.write_text(text.replace(was, then, 1), "utf-8")
    by, on = _errors(content)
    assert by.help == "write `decided: {by: tilde, on: 2026-11-06}` in its place, and take `decided_on` away"
    assert on.help.startswith("take this line away: what it says is in `decided` then")
    file.write_text(text.replace(was, "  decided_by: Tilde B.\n", 1), "utf-8")
    (alone,) = _errors(content)
    assert alone.help == "write `decided: {by: tilde-b, on: DECIDED_ON}` in its place"


def test_a_key_without_use_and_a_word_that_is_another_say_what_to_do(tmp_path: Path) -> None:
    content = copy_content(tmp_path, ("tide-table",))
    for name, old, new in (
        ("studio.yml", "  cap: 1 mL\n", "  cap: 1 mL\n  glove_pairs: 9\n"),
        ("supplies.yml", "per: bottle", "per: ink"),
    ):
        text = (content / name).read_text("utf-8")
        assert old in text
        (content / name).write_text(text.replace(old, new, 1), "utf-8")
    gloves, bottle = sorted(_errors(content), key=lambda d: d.place.file)
    assert (gloves.code, gloves.message) == ("R333", "`glove_pairs` is there no more")
    assert (
        gloves.help == "take this line away: pairs of gloves are counted from `new_gloves` of the steps in hygiene.yml"
    )
    assert (bottle.code, bottle.help) == ("R333", "write `bottle` in its place")


def test_whoever_has_no_first_day_is_told_the_latest_that_it_can_be(tmp_path: Path) -> None:
    """Also where reviews do not say who made them, because that is mended in the same round."""
    content = copy_content(tmp_path, ("tide-table",))
    as_before(content)
    came = {d.message.split("`")[1]: d.help.split("`")[1] for d in _errors(content) if "since when" in d.message}
    assert set(came) == {"quill", "mo", "bram", "tilde"}
    earliest = min(p.reviewed for p in RECORDS.procedures.values() if p.owner == "tilde" and p.reviewed)
    assert came["tilde"] <= f"came: {earliest.isoformat()}"
    assert (ROOT / "content" / "people.yml").read_text("utf-8").count("  came: ") == len(came)
