"""A value of the house is a suggestion until somebody who is here on that day has decided it."""

from __future__ import annotations

import dataclasses
import re
from pathlib import Path
from typing import Any

import pytest

from generator.cli import main
from generator.dates import as_of
from generator.planning.plan import plan
from generator.press.manual.quotes import quoted
from generator.press.manual.reviews import NEVER_REVIEWED, next_review, review_findings, reviewed_in_words
from generator.press.pages import generated_pages
from generator.press.sheet.contents import count_undecided, sheet_of
from generator.press.words.formatted import NOT_DECIDED
from generator.press.words.undecided import shown_undecided, with_undecided
from generator.records.decisions import STOPS, undecided
from generator.records.families import Records
from generator.records.located import Text
from tests.checked import check_all
from tests.conftest import copy_content
from tests.planning.demo import RECORDS, demo, job_of, planned, simple, with_entry, written
from tests.press.minimal import minimal

STOPPED = "Not decided here yet: "


def _without(records: Records, family: str, *ids: str) -> Records:
    """The records with the decisions of some entries of a family taken away, of all where none is named."""
    entries = {
        key: entry.model_copy(update={"decided": None}) if key in ids or not ids else entry
        for key, entry in records.family(family).items()
    }
    return dataclasses.replace(records, **{family.replace("-", "_"): entries})


def _own(records: Records = RECORDS, *more: str) -> Records:
    """The records as a new studio has them: not one decision in them. more: what it adds to what stops its sheets."""
    for family in ("sources", "reviews", "values", "screening"):
        records = _without(records, family)
    added = tuple(Text.at(name, records.studio.source.place) for name in more)
    return dataclasses.replace(records, studio=records.studio.model_copy(update={"must_be_decided": added}))


UNDECIDED = _own()


def _reasons(records: Records, job: Any = None) -> list[str]:
    return [f.reason for f in planned(job or simple(), records).findings if f.reason.startswith(STOPPED)]


class TestWhatIsDecided:
    def test_the_demo_has_decided_all_and_without_its_decisions_nothing_of_the_house(self) -> None:
        assert undecided(RECORDS) == ()
        found = {(each.family, each.id) for each in undecided(UNDECIDED)}
        house = {str(s.id) for s in RECORDS.sources.values() if s.kind == "house"}
        assert len(house) > 10
        rest = {
            (name, entry.id)
            for name in ("hygiene", "values", "supplies", "inks", "machines", "groupings", "techniques")
            for entry in RECORDS.family(name).values()
            if entry.source in house  # type: ignore[attr-defined]
        }
        assert rest <= found
        assert {
            (name, e) for name in ("screening", "scar-rules", "disinfectants") for e in RECORDS.family(name)
        } <= found
        # What is published or common practice is nobody's decision, unless it stops the sheets.
        published = ("values", "glove-aql"), ("values", "needle-depth"), ("barred-pigments", "pigment-blue-15-3")
        assert not found & set(published)

    def test_one_entry_one_source_or_one_file_is_decided_at_a_time(self) -> None:
        decided = RECORDS.reviews["screening"].decided
        whole = set(undecided(UNDECIDED))
        for family, entry in (("values", "minimum-age"), ("hygiene", "day-basin"), ("disinfectants", "hand-rub")):
            entries = dict(UNDECIDED.family(family))
            entries[entry] = entries[entry].model_copy(update={"decided": decided})
            now = dataclasses.replace(UNDECIDED, **{family: entries})
            assert {(e.family, e.id) for e in whole - set(undecided(now))} == {(family, entry)}
        reviews = dict(UNDECIDED.reviews)
        reviews["scar-rules"] = reviews["scar-rules"].model_copy(update={"decided": decided})
        gone = whole - set(undecided(dataclasses.replace(UNDECIDED, reviews=reviews)))
        assert {(e.family, e.id) for e in gone} == {("scar-rules", rule) for rule in RECORDS.scar_rules}
        sources = dict(UNDECIDED.sources)
        sources["house-machines"] = sources["house-machines"].model_copy(update={"decided": decided})
        gone = whole - set(undecided(dataclasses.replace(UNDECIDED, sources=sources)))
        assert {("machines", machine) for machine in ("kettle", "metronome", "lathe")} <= {
            (e.family, e.id) for e in gone
        }

    def test_a_question_that_came_after_its_file_was_decided_is_decided_by_itself(self) -> None:
        assert RECORDS.screening["changed-mole"].added is not None
        found = undecided(with_entry("screening", "changed-mole", decided=None))
        assert [(each.family, each.id) for each in found] == [("screening", "changed-mole")]

    def test_what_stops_the_sheets_is_decided_here_whatever_it_rests_on(self) -> None:
        """The label of hand rub is published and the youngest age is a law: the studio answers for keeping both."""
        kinds = {
            RECORDS.sources[RECORDS.family(f)[e].source].kind
            for f, e in (  # type: ignore[attr-defined]
                ("disinfectants", "hand-rub"),
                ("values", "minimum-age"),
            )
        }
        assert kinds == {"published"}
        assert {"hand-rub", "minimum-age"} <= {each.id for each in undecided(UNDECIDED) if each.stops}


class TestWhatItStops:
    def test_no_steps_before_contact_times_screening_scar_rules_and_the_age_are_decided(self) -> None:
        plan_ = planned(simple(), UNDECIDED)
        assert plan_.work is None and plan_.verdict.level == "wait"
        said = " ".join(_reasons(UNDECIDED))
        assert all(called in said for called, _ in STOPS.values())
        assert len(_reasons(UNDECIDED)) == len(STOPS) and _reasons(RECORDS) == []

    @pytest.mark.parametrize("name", STOPS, ids="-".join)
    def test_each_of_them_stops_alone_also_where_it_is_not_on_file_at_all(self, name: tuple[str, str]) -> None:
        family, entry = name
        records = _without(RECORDS, "reviews", family)
        undone = _without(records, family, *filter(None, [entry]))
        if family == "scar-rules":  # its house source is another way of deciding it
            undone = _without(undone, "sources")
        assert f"{STOPPED}{STOPS[name][0]}" in " ".join(_reasons(undone))
        kept = {key: value for key, value in records.family(family).items() if entry and key != entry}
        lacking = dataclasses.replace(records, **{family.replace("-", "_"): kept})
        assert STOPS[name][0] in {each.stops for each in undecided(lacking)}

    def test_a_studio_adds_to_the_list_and_takes_nothing_away(self) -> None:
        more = _own(RECORDS, "techniques", "values.glove-wear", "screening")
        assert len(_reasons(more)) == len(STOPS) + 2
        assert f"{STOPPED}values: glove wear (1)." in _reasons(more)

    def test_what_is_finished_is_a_record_and_waits_for_nothing(self) -> None:
        assert _reasons(UNDECIDED, written("diving-bell")) == []

    def test_a_first_sheet_needs_few_decisions(self) -> None:
        """Thirty at most, file by file and entry by entry; here those of the stops, each file once."""
        decided = RECORDS.screening["changed-mole"].decided  # after the last question was added
        first = {
            each.family if each.family != "values" else f"values.{each.id}"
            for each in undecided(UNDECIDED)
            if each.stops
        }
        assert len(first) <= 30
        records = UNDECIDED
        for name in first:
            family, _, entry = name.partition(".")
            there = dict(records.family(family if entry else "reviews"))
            key = entry or family
            there[key] = there[key].model_copy(update={"decided": decided})
            records = dataclasses.replace(records, **{family if entry else "reviews": there})
        assert planned(simple(), records).work is not None


class TestHowItIsShown:
    def test_the_list_has_what_matters_first_with_place_reason_and_words(
        self, tmp_path: Path, capsys: pytest.CaptureFixture[str]
    ) -> None:
        content = copy_content(tmp_path, ["tide-table"])
        for file in ("sources.yml", "reviews.yml", "values.yml"):
            text = (content / file).read_text("utf-8")
            (content / file).write_text(re.sub(r",?\s+decided: \{[^}]*\}", "", text), "utf-8")
        assert main(["check", "--undecided", "--content", str(content)]) == 0
        told = capsys.readouterr().out
        heads = re.findall(r"^(\S+?)\.yml:\d+:\d+: reminder H726: (.*)$", told, re.MULTILINE)
        families = [Path(file).name for file, _ in heads]
        assert families[: len(RECORDS.disinfectants)] == ["disinfectants"] * len(RECORDS.disinfectants)
        runs = [family for family, before in zip(families, ["", *families], strict=False) if family != before]
        assert runs[:4] == ["disinfectants", "screening", "scar-rules", "values"] and runs[4] == "hygiene"
        blocks = [block for block in told.split("\n\n") if "H726" in block]
        assert all("decided: {by: ID, on: 2027-05-12}" in b and "note: " in b and "quill, mo" in b for b in blocks)
        assert all(
            f"no sheet has working steps without it ({STOPS['screening', ''][0]})" in b
            for b in blocks
            if "screening.yml" in b
        )
        # Without the option one line says how many there are.
        assert main(["check", "--content", str(content)]) == 0
        assert capsys.readouterr().out.count(f"{len(heads)} values are not decided here yet") == 1

    def test_pages_count_what_they_show_and_quote(self) -> None:
        pages = generated_pages(UNDECIDED, as_of())
        said = {here: re.search(r"<strong>(\d+) values? not yet decided here", text) for here, text in pages.items()}
        assert said["reference/disinfectants.md"] and int(said["reference/disinfectants.md"][1]) >= len(
            RECORDS.disinfectants
        )
        shows = {"speeds", "machines", "scar-rules", "screening", "hygiene", "supplies", "values", "inks", "groupings"}
        assert [here for here in shows if said[f"reference/{here}.md"] is None] == []
        assert said["reference/diagnostics.md"] is None
        text = quoted("# A page\n\n{{ values.glove-wear.is }}, {{ values.glove-aql.is }}\n", "a.md", UNDECIDED)[0]
        assert shown_undecided(text, UNDECIDED) == {("values", "glove-wear")}
        assert with_undecided(text, UNDECIDED).count("1 value not yet decided here.") == 1
        assert with_undecided(text, RECORDS) == text

    def test_a_sheet_says_in_one_line_how_many_of_its_values_are_suggestions(self) -> None:
        records = _without(RECORDS, "sources", "house-machines", "house-supplies")
        plan_ = planned(simple(), records)
        number = count_undecided(records, plan_)
        assert number > 3 and plan_.work is not None
        sheet = sheet_of(records, plan_)
        assert [n.reason for n in sheet.notes if "not yet decided" in n.reason] == [
            f"{number} values not yet decided here."
        ]
        assert not any("not yet decided" in n.reason for n in sheet_of(RECORDS, planned(simple())).notes)
        stopped = sheet_of(UNDECIDED, planned(simple(), UNDECIDED))
        assert any("not yet decided here" in r.reason for r in stopped.reasons)
        assert not any("House decision" in source for source in stopped.sources) and NOT_DECIDED in stopped.sources


class TestWhoWasHere:
    @pytest.mark.parametrize(
        ("file", "was", "becomes", "code"),
        [
            ("reviews.yml", "decided: {by: tilde, on: 2026-11-05}", "decided: {by: tilda, on: 2026-11-05}", "L401"),
            ("reviews.yml", "decided: {by: tilde, on: 2026-11-05}", "decided: {by: tilde, on: 2024-01-07}", "L408"),
            ("sources.yml", "decided: {by: mo, on: 2026-11-26}", "decided: {by: bram, on: 2026-11-08}", "L408"),
            ("values.yml", "decided: {by: quill, on: 2026-11-02}", "decided: {by: bram, on: 2026-11-02}", "L408"),
            ("studio.yml", "source: house-limits", "source: house-limits\ndecided: {by: mo, on: 2020-01-01}", "L408"),
            ("reviews.yml", "2026-11-05}", "2026-11-05}\n   ", ""),
            ("people.yml", "came: 2026-11-09", "came: 2026-11-10", "L408"),
            ("people.yml", "came: 2021-03-01", "came: 2021-03-01\n  until: {on: 2026-11-01, why: left}", "L408"),
            ("people.yml", "  came: 2024-01-08\n", "", "R316"),
            ("studio.yml", "source: house-limits", "source: house-limits\nmust_be_decided: [tecniques]", "L402"),
            ("studio.yml", "source: house-limits", "source: house-limits\nmust_be_decided: [values.glove]", "L402"),
        ],
    )
    def test_a_decision_review_or_signature_is_by_somebody_of_that_day(
        self, file: str, was: str, becomes: str, code: str, tmp_path: Path
    ) -> None:
        content = copy_content(tmp_path, ["tide-table"])
        text = (content / file).read_text("utf-8")
        assert was in text
        (content / file).write_text(text.replace(was, becomes, 1), "utf-8")
        assert {d.code for d in check_all(content, as_of())} - {"L410"} == ({code} if code else set())


class TestReviews:
    def test_what_nobody_has_read_through_here_says_so(self) -> None:
        records = with_entry("procedures", "lining", reviewed=None, reviewed_by=None)
        entry = records.procedures["lining"]
        assert (reviewed_in_words(entry, records), next_review(entry)) == (NEVER_REVIEWED, None)
        found = [d for d in review_findings(records, as_of()) if "`lining`" in d.message]
        assert len(found) == 1 and "never been done here" in found[0].message
        assert NEVER_REVIEWED in generated_pages(records, as_of())["reference/reviews.md"]

    def test_a_new_owner_does_not_inherit_a_review(self) -> None:
        old = RECORDS.procedures["lining"]
        new = next(p for p in RECORDS.people.values() if p.id != old.owner)
        owner = type(old.owner).to(new.id, "people", old.owner.place)
        records = with_entry("procedures", "lining", owner=owner)
        assert next_review(old) is not None and next_review(records.procedures["lining"]) is None
        found = [d for d in review_findings(records, as_of()) if "`lining`" in d.message]
        assert f"was done by `{old.owner}`, and `{new.id}` has not done it yet" in found[0].message


def test_an_empty_studio_has_nothing_decided_that_stops_its_sheets() -> None:
    assert {each.stops for each in undecided(minimal()) if each.stops} == {called for called, _ in STOPS.values()}
    assert demo("tide-table").work is not None and plan(RECORDS, job_of(simple()))[0] is not None
