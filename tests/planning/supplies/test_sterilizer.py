"""Loads against their cycles, in a temporary studio that sterilizes its own things; never called sterile."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.dates import as_of
from generator.planning.computed import explained
from generator.planning.supplies.sterilizer import LoadReading, read_loads
from generator.records.families import LISTED
from generator.records.reading import dangling, read_family, read_records
from generator.trade import sterilization
from tests.checked import check_all
from tests.conftest import THREE_JOBS, copy_content
from tests.records.scalars import replaced, scalars

_BAND = "{id: house-121, name: House cycle, method: gravity, temperature: 121 °C, holding_time: 30 min, upper: 124 °C,"
CYCLE = f"- {_BAND} dry: 15 min, good_for: Wrapped instruments., source: house-hygiene}}\n"
LOADS = next(family for family in LISTED if family.name == "loads")
GOOD = "[[3 min, 112 °C], [30 min, 121.6 °C]]"


def load(
    name: str,
    samples: str = GOOD,
    day: str = "2027-03-01",
    cycle: str = "house-121",
    more: str = "",
    chemical: str = "yes",
) -> str:
    return (
        f"- {{id: {name}, cycle: {cycle}, date: {day}, samples: {samples}, chemical_passed: {chemical}, who: tilde"
        f"{more}}}\n"
    )


def studio(folder: Path, *loads: str, reprocessing: str = "yes") -> Path:
    content = folder / "content"
    copy_content(folder, THREE_JOBS)
    head = content / "studio.yml"
    head.write_text(head.read_text("utf-8").replace("reprocessing: no", f"reprocessing: {reprocessing}"), "utf-8")
    cycles = content / "cycles.yml"
    cycles.write_text(cycles.read_text("utf-8") + CYCLE, "utf-8")
    (content / "loads.yml").write_text("".join(loads) or "[]\n", "utf-8")
    return content


def read(folder: Path, *loads: str) -> dict[str, LoadReading]:
    reading = read_records(studio(folder, *loads))
    assert reading.records is not None, reading.report
    return {str(r.load.id): r for r in read_loads(reading.records)}


@pytest.mark.parametrize(
    ("samples", "chemical", "more", "standing", "says"),
    [
        (GOOD, "yes", "", "nothing against it", ""),
        (GOOD, "yes", ", biological: passed", "nothing against it", ""),
        (GOOD, "no", "", "out", "chemical indicator"),
        ("[[29.9 min, 121.6 °C]]", "yes", "", "out", "held too short"),
        ("[[20 min, 121.6 °C], [1 min, 120.9 °C], [20 min, 121.6 °C]]", "yes", "", "out", "held too short"),
        ("[[30 min, 121 °C]]", "yes", "", "nothing against it", ""),
        ("[[30 min, 124 °C]]", "yes", "", "nothing against it", ""),
        ("[[30 min, 122 °C], [1 min, 124.1 °C]]", "yes", "", "out", "ask the maker"),
        (GOOD, "yes", ", biological: waiting", "wait", "not read yet"),
        (GOOD, "no", ", biological: waiting", "out", "chemical indicator"),
        (GOOD, "yes", ", biological: failed", "out", "out of service"),
    ],
)
def test_one_load(samples: str, chemical: str, more: str, standing: str, says: str, tmp_path: Path) -> None:
    found = read(tmp_path, load("one", samples, chemical=chemical, more=more))["one"]
    assert found.standing == standing
    assert says in (found.found[0][1] if found.found else "")


def test_a_cycle_without_a_band_is_asked_about(tmp_path: Path) -> None:
    # The published cycles name no upper limit of the band.
    found = read(tmp_path, load("one", "[[4 min, 139 °C]]", cycle="dynamic-instruments-132"))["one"]
    assert found.standing == "ask" and found.held.low == 4
    short = read(tmp_path / "more", load("one", "[[3 min, 139 °C]]", cycle="dynamic-instruments-132"))["one"]
    assert short.standing == "out"


def test_the_numbers_carry_their_formula_and_the_reference(tmp_path: Path) -> None:
    found = read(tmp_path, load("one", "[[30 min, 121.1 °C]]"))["one"]
    # At the reference temperature every minute is a minute (teaching page: 121.1 °C 30 min, Tref 121.1 is 30).
    assert found.lethality.low == 30
    data = explained(found.lethality)
    assert data["formula"] == "trade.sterilization.f0"
    assert data["inputs"]["reference"] == {
        "value": 121.1,
        "unit": "°C",
        "record": "studio.limits.f0_reference",
        "source": "house-limits",
    }
    assert dict(found.held.inputs)["upper_limit"].origin.path == "cycles.house-121.upper"
    again = sterilization.hold_against_cycle([sterilization.Sample(30, 121.1)], 121, 30, 124)
    assert found.held.low == again.minutes


class TestBiologicalIndicators:
    def loads(self, folder: Path, *results: str) -> list[str]:
        rows = [
            load(f"n{n}", day=f"2027-03-{n:02}", more=f", biological: {result}" if result else "")
            for n, result in enumerate(results, 1)
        ]
        return [r.standing for r in read(folder, *rows).values()]

    def test_a_failed_one_recalls_everything_since_the_last_negative_one(self, tmp_path: Path) -> None:
        # NEHA Body Art Model Code 8.11: out of service, recall to the last negative, retest.
        standings = self.loads(tmp_path, "", "passed", "", "", "failed", "", "passed", "")
        good = "nothing against it"
        assert standings == [good, good, "out", "out", "out", "out", good, good]

    def test_without_a_negative_one_everything_is_recalled(self, tmp_path: Path) -> None:
        assert self.loads(tmp_path, "", "", "failed") == ["out"] * 3

    def test_a_waiting_one_answers_nothing(self, tmp_path: Path) -> None:
        assert self.loads(tmp_path, "passed", "failed", "waiting") == ["nothing against it", "out", "out"]

    def test_the_days_decide_and_not_the_order_of_the_file(self, tmp_path: Path) -> None:
        late, early = load("late", day="2027-03-05", more=", biological: failed"), load("early", day="2027-03-02")
        assert read(tmp_path, late, early)["early"].standing == "out"


def test_no_load_is_ever_called_sterile(tmp_path: Path) -> None:
    for reading in read(tmp_path, load("one"), load("two", chemical="no")).values():
        assert "sterile" not in reading.standing + " ".join(reason for _, reason in reading.found)


def test_a_load_where_nothing_is_sterilized_is_a_mistake_at_its_id(tmp_path: Path) -> None:
    content = studio(tmp_path, load("one"), load("two"), reprocessing="no")
    found = check_all(content, as_of())
    assert [(d.code, d.place.line, d.place.column) for d in found] == [("R331", 1, 8), ("R331", 2, 8)]
    assert all(d.place.file == str(content / "loads.yml") for d in found)


def test_cycles_may_stand_as_knowledge_where_nothing_is_sterilized(tmp_path: Path) -> None:
    assert check_all(studio(tmp_path, reprocessing="no"), as_of()) == ()


@pytest.mark.parametrize(
    ("wrong", "code"),
    [
        (load("one", samples="[]"), "R303"),
        (load("one", samples="[[3 min]]"), "R303"),
        (load("one", samples="[[3 min, 121 s]]"), "Q203"),
        (load("one", samples="[[0 min, 121 °C]]"), "Q208"),
        (load("one", more=", biological: negative"), "R307"),
        (load("one", chemical="unknown"), "R308"),
        (load("one", cycle="house-122"), "L401"),
    ],
)
def test_a_mistake_in_a_load_is_one_diagnostic(wrong: str, code: str, tmp_path: Path) -> None:
    assert [d.code for d in check_all(studio(tmp_path, wrong), as_of())] == [code]


def test_a_band_that_lies_below_its_cycle(tmp_path: Path) -> None:
    content = studio(tmp_path)
    file = content / "cycles.yml"
    file.write_text(file.read_text("utf-8").replace("upper: 124 °C", "upper: 121 °C"), "utf-8")
    assert [d.code for d in check_all(content, as_of())] == ["Q208"]


@pytest.mark.parametrize("junk", ['"%%junk%%"', "''", "-1", "[]", "{}", "none"])
def test_junk_in_a_load_is_one_diagnostic_where_it_stands(junk: str, tmp_path: Path) -> None:
    text = load("one", more=", biological: passed, source: house-hygiene")
    content = studio(tmp_path, text)
    reading, file = read_records(content), content / "loads.yml"
    assert reading.report == ()
    known, wrong = reading.known, []
    for scalar in scalars(text):
        file.write_text(replaced(text, scalar, junk), "utf-8")
        one = read_family(file, LOADS)
        found = [*one.report, *dangling(one.references, known)]
        valid = not scalar.key and scalar.path[-1] == "id" and not found
        if not valid and [(d.place.line, d.place.column) for d in found] != [(scalar.line, scalar.column)]:
            wrong.append((scalar, [f"{d.place} {d.code} {d.message}" for d in found]))
    assert wrong == []
