"""What a client reacts to: what holds it stays off the tray, and what no record knows is asked and can be answered."""

from __future__ import annotations

import datetime
from typing import Any

import pytest

from generator.cli import main
from generator.dates import as_of
from generator.planning.plan import JobPlan
from generator.press.sheet.plan_text import plan_text
from tests.checked import check_all
from tests.conftest import copy_content
from tests.planning.demo import RECORDS, part, planned, read, simple, try_plan, with_entry

SITTING = datetime.date(2027, 5, 12)  # the day of `simple`
VALID = int(RECORDS.studio.limits.screening_valid.low)


def checked(to: str, on: datetime.date = SITTING, **changes: str) -> dict[str, Any]:
    return {"to": to, "checked": {"not_on_tray": "yes", "by": "tilde", "on": on.isoformat(), **changes}}


def about(made: JobPlan, word: str) -> list[tuple[str, str, bool]]:
    return [(f.level, f.rule, f.asks) for f in made.findings if f.about == f"allergies.{word}"]


@pytest.mark.parametrize("word", ["propolis", "chlorhexidine", "colophony"])
def test_an_allergen_that_no_record_knows_waits_until_somebody_has_read_the_labels(word: str) -> None:
    open_one = planned(simple(allergies=[word]))
    assert about(open_one, word) == [("wait", "jobs.signal-lamp.allergies.0", True)] and not open_one.verdict.goes_ahead
    answered = planned(simple(allergies=[checked(word)]))
    assert about(answered, word) == [("care", "jobs.signal-lamp.allergies.0.to", False)]
    assert answered.verdict.level == "care" and answered.verdict.settled
    assert f"Tilde read the labels of this tray on {SITTING}." in plan_text(RECORDS, answered)


@pytest.mark.parametrize("supply", [s for s in RECORDS.supplies.values() if s.contains and not s.instead])
def test_what_is_on_file_without_a_replacement_waits_and_can_be_answered_too(supply: Any) -> None:
    word = supply.contains[0]
    assert {level for level, *_ in about(planned(simple(allergies=[word])), word)} == {"wait"}
    made = planned(simple(allergies=[checked(word)]))
    assert {level for level, *_ in about(made, word)} == {"care"}
    # A check clears no record: what holds it stays off the tray.
    assert made.work is not None
    assert all(c.instead for c in made.work.tray.supplies if word in (c.supply.contains or ()))


def test_a_tray_that_holds_it_waits_and_asks_nothing() -> None:
    for word in ("propolis", "latex"):
        made = planned(simple(allergies=[checked(word, not_on_tray="no")]))
        assert ("wait", "jobs.signal-lamp.allergies.0.to", False) in about(made, word)
        assert made.verdict.level == "wait"


@pytest.mark.parametrize(("days", "level"), [(0, "care"), (-VALID, "care"), (-VALID - 1, "wait"), (1, "wait")], ids=str)
def test_a_check_counts_as_long_as_the_screening_and_never_before_it_was_made(days: int, level: str) -> None:
    made = planned(simple(allergies=[checked("propolis", SITTING + datetime.timedelta(days=days))]))
    assert made.verdict.level == level
    assert made.verdict.settled == (level == "care")


def test_a_word_that_is_nearly_one_of_a_label_is_still_asked_about_when_checked() -> None:
    made = planned(simple(allergies=[checked("laytex")]))
    (finding,) = [f for f in made.findings if f.about == "allergies.laytex"]
    assert finding.level == "care" and finding.remedy.startswith("Did you mean “latex”?")


def test_each_allergy_is_answered_by_itself() -> None:
    made = planned(simple(allergies=[checked("propolis"), "colophony", "latex"]))
    assert [level for level, *_ in about(made, "propolis")] == ["care"]
    assert [level for level, *_ in about(made, "colophony")] == ["wait"]
    assert {level for level, *_ in about(made, "latex")} == {"care"}
    assert made.verdict.level == "wait"


def test_a_supply_whose_label_nobody_read_still_waits() -> None:
    records = with_entry("supplies", "pad", contains=None)
    made = planned(simple(allergies=[checked("propolis")]), records)
    assert made.verdict.level == "wait" and not made.verdict.settled


@pytest.mark.parametrize("key", ["not_on_tray", "by", "on"])
def test_who_when_and_what_are_all_written(key: str) -> None:
    written = checked("propolis")
    del written["checked"][key]
    job, report = read(simple(allergies=[written]))
    assert job is None and report


def test_only_a_person_of_the_studio_has_checked() -> None:
    job, report = read(simple(allergies=[checked("propolis", by="somebody")]))
    assert job is None and [d.found for d in report] == ["“somebody”"]


def test_the_command_and_the_check_know_the_day(tmp_path: Any, monkeypatch: pytest.MonkeyPatch, capsys: Any) -> None:
    content = copy_content(tmp_path, ["tin-telegraph"])
    job = content / "jobs" / "tin-telegraph.yml"
    day = datetime.date(2027, 5, 11)
    written = "allergies: [latex, {to: propolis, checked: {not_on_tray: yes, by: tilde, on: 2027-05-11}}]"
    job.write_text(job.read_text("utf-8").replace("allergies: [latex, fragrance]", written), "utf-8")
    for until, codes, status in ((day, [], 0), (day - datetime.timedelta(days=1), ["R328"], 1)):
        midnight = datetime.datetime.combine(until, datetime.time(12), datetime.UTC)
        monkeypatch.setenv("SOURCE_DATE_EPOCH", str(int(midnight.timestamp())))
        assert [d.code for d in check_all(content, as_of())] == codes
        for command in ("plan", "sheet"):
            assert main([command, "tin-telegraph", "--content", str(content)]) == status
    assert "still to come" in capsys.readouterr().err


# What is on the tray, by what common supplies are made of.


@pytest.mark.parametrize(
    ("word", "supplies"),
    [
        ("nitrile", {"gloves"}),
        ("rubber accelerators", {"gloves"}),
        ("nickel", {"cartridges", "razor"}),
        ("latex", {"grip-wrap"}),
        ("acrylate", {"barrier-film", "dressing-film"}),
        ("adhesive", {"barrier-film", "dressing-film"}),
        ("gentian violet", {"stencil-paper"}),
        ("propylene glycol", {"stencil-fluid"}),
        ("lanolin", {"glide"}),
    ],
)
def test_the_supplies_say_what_they_are_made_of(word: str, supplies: set[str]) -> None:
    made, report = try_plan(simple(allergies=[word]))
    assert made is not None and not report
    assert {rule.removeprefix("supplies.") for _, rule, _ in about(made, word)} == supplies


def test_a_supply_named_after_a_material_contains_it() -> None:
    known = {word for supply in RECORDS.supplies.values() for word in supply.contains or ()}
    for supply in RECORDS.supplies.values():
        named = {word for word in known if word in supply.name.lower()}
        assert named <= set(supply.contains or ()), supply.id


@pytest.mark.parametrize(
    ("allergen", "named"),
    [
        ("red ink", {"Signal red", "Oxide red"}),
        ("reds", {"Signal red", "Oxide red"}),
        ("signal red", {"Signal red", "Oxide red"}),
        ("blue pigment", {"Deep blue"}),
        ("black tattoo ink", {"Line black", "Shading black"}),
        ("tattoo ink", {"Signal red", "Oxide red", "Deep blue", "Line black", "Shading black", "Middle wash"}),
        ("latex", set()),
        ("propolis", set()),
    ],
)
def test_an_allergy_to_an_ink_names_the_planned_inks_that_may_be_meant(allergen: str, named: set[str]) -> None:
    inks = ["signal-red", "oxide-red", "deep-blue", "wash-mid"]
    block = part("block", (0, 0, 90, 90), focal="yes", colours=[{"ink": ink, "area": "2 cm²"} for ink in inks])
    found = [
        (finding, ink.name)
        for allergies in ([allergen], [checked(allergen)])
        for finding in planned(simple(parts=[block], allergies=allergies)).findings
        for ink in RECORDS.inks.values()
        if f": {ink.name} may be meant" in finding.reason
    ]
    assert {name for _, name in found} == named
    # It waits until somebody has read the labels, and is then a care that is said of each.
    assert [finding.level for finding, _ in found] == ["wait"] * len(named) + ["care"] * len(named)
