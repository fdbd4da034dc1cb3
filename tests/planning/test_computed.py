"""Numbers that know how they came about, down to the records and their sources."""

from __future__ import annotations

import ast
import importlib
import inspect
import itertools
import math
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.origins import NOWHERE, Origin
from generator.planning.as_json import plan_as_data
from generator.planning.computed import Named, Recorded, compute, counted, explained, rectangle, sources_of, total
from generator.planning.computed import with_added_share as added
from generator.planning.supplies import cost, tray
from generator.planning.timing.timetable import break_minutes, breaks_taken, sittings_planned
from generator.planning.working import reach, settings
from generator.planning.working import steps as work
from generator.quantities import significant
from generator.trade import body, clock, motion, supplies
from generator.units import KINDS
from tests.planning.demo import JOBS, RECORDS, demo, part, planned, scar, simple
from tests.planning.test_permissiveness import often

UNITS = {unit for _, unit in KINDS.values()} | {""}
FAMILIES = {
    "studio",
    "techniques",
    "groupings",
    "hygiene",
    "machines",
    "calibrations",
    "people",
    "supplies",
    "inks",
    "scar-rules",
    "jobs",
}


def plans() -> Iterator[dict[str, Any]]:
    for name in JOBS:
        yield plan_as_data(demo(name))
    over = scar(**{"from": ["30 mm", "40 mm"], "to": ["50 mm", "40 mm"]})
    ground = part("ground", role="filler", detail="broad", colours=["wash-mid", "deep-blue", "white"])
    lamp = part("lamp", (60, 60, 30, 30), focal="yes", lines=[{"needle": "1209RL", "length": "9 cm", "dial": "7 V"}])
    yield plan_as_data(planned(simple(parts=[ground, lamp], scars=[over], interruptions="2")))


def numbers(value: object) -> Iterator[dict[str, Any]]:
    """Every explained number, and what went into it."""
    if isinstance(value, dict):
        if "unit" in value or "record" in value:
            yield value
        for inner in value.values():
            yield from numbers(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from numbers(inner)


def nine_digits(number: float) -> bool:
    return math.isfinite(number) and significant(number) == number


def test_every_number_says_what_it_is_and_where_it_comes_from() -> None:
    seen = 0
    for data in plans():
        for number in numbers(data):
            seen += 1
            if "unit" in number:
                assert number["unit"] in UNITS
                assert ("value" in number) != ("low" in number and "high" in number)
                ends = [number[key] for key in ("value", "low", "high") if key in number]
                assert all(isinstance(end, int | float) and nine_digits(end) for end in ends), number
                assert ends == sorted(ends) and len(set(ends)) == len(ends)
            assert ("record" in number) != ("formula" in number and "inputs" in number and bool(number["inputs"]))
    assert seen > 1000


def test_inputs_lead_down_to_records_that_exist() -> None:
    for data in plans():
        for number in numbers(data):
            if "record" not in number:
                continue
            family, _, rest = number["record"].partition(".")
            assert family in FAMILIES and rest, number["record"]
            if family == "jobs":
                assert rest.split(".")[0] == data["job"]
            elif family == "studio":
                assert hasattr(RECORDS.studio.limits, rest.removeprefix("limits."))
            else:
                entry, _, field = rest.partition(".")
                found = RECORDS.family(family)[entry]
                assert not field or field.split(".")[0] in type(found).model_fields, number["record"]


def test_sources_exist_and_are_those_of_the_inputs() -> None:
    for data in plans():
        for number in numbers(data):
            named = number["source"] if isinstance(number["source"], list) else [number["source"]]
            assert all(source in RECORDS.sources for source in named if source), number
            if "inputs" in number:
                below = [inner["source"] for inner in number["inputs"].values()]
                flat = {s for one in below for s in (one if isinstance(one, list) else [one]) if s}
                assert set(named) == flat and named == sorted(named)
        for finding in data["findings"]:
            assert finding["source"] in RECORDS.sources


def test_records_other_than_the_job_name_their_source() -> None:
    for data in plans():
        for number in numbers(data):
            if "record" in number and not number["record"].startswith("jobs."):
                assert number["source"], number["record"]


def function(name: str) -> Callable[..., Any]:
    module, _, called = name.rpartition(".")
    found: Callable[..., Any] = getattr(importlib.import_module(f"generator.{module}"), called)
    return found


def test_formulas_exist_take_these_inputs_and_say_what_they_answer() -> None:
    for data in plans():
        for number in numbers(data):
            if "formula" in number:
                called = function(number["formula"])
                assert number["answers"] and number["answers"] == (inspect.getdoc(called) or "").splitlines()[0]
                parameters = inspect.signature(called).parameters
                if not any(p.kind is p.VAR_POSITIONAL for p in parameters.values()):
                    assert list(number["inputs"]) and set(number["inputs"]) <= set(parameters)


def test_numbers_can_be_computed_again_from_their_inputs() -> None:
    """Whoever has the printed inputs and the formula comes to the printed value."""
    again = 0
    for data in plans():
        for number in numbers(data):
            if "formula" not in number or any("unit" not in inner for inner in number["inputs"].values()):
                continue  # a name or a list of points went in
            called = function(number["formula"])
            corners = itertools.product(
                *(
                    {inner.get("value", inner.get("low")), inner.get("value", inner.get("high"))}
                    for inner in number["inputs"].values()
                )
            )
            takes_names = not number["formula"].endswith("computed.add")
            names = list(number["inputs"])
            results = [
                called(**dict(zip(names, corner, strict=True))) if takes_names else called(*corner)
                for corner in itertools.islice(corners, 70000)
            ]
            low, high = number.get("value", number.get("low")), number.get("value", number.get("high"))
            assert min(results) == pytest.approx(low, rel=1e-8) and max(results) == pytest.approx(high, rel=1e-8)
            again += 1
    assert again > 300


# A range is taken at the corners of its inputs, because every formula is monotone in each of them. Where in the
# box the extremes lie is searched by trying points inside.
_positive = st.floats(0.1, 500)
FORMULAS: list[tuple[Callable[..., Any], str, tuple[str, ...]]] = [
    (clock.line_minutes, "duration", ("length", "pace")),
    (motion.spacing, "length", ("hand_speed", "frequency")),
    (clock.breaks_needed, "number", ("working_minutes", "between")),
    (clock.sittings, "number", ("total_minutes", "longest_sitting")),
    (break_minutes, "duration", ("number", "length")),
    (supplies.ink_millilitres, "volume", ("area", "house_rate")),
    (tray.caps_for, "number", ("millilitres", "cap")),
    (tray.strip_area, "area", ("length", "width")),
    (breaks_taken, "number", ("needed", "placed")),
    (sittings_planned, "number", ("needed", "split")),
    (tray.interruptions, "number", ("breaks", "others", "procedures")),
    (tray.ink_in_wash, "volume", ("millilitres", "parts_ink", "parts_water")),
    (tray.pieces, "number", ("number", "each")),
    (tray.pieces_by_time, "number", ("minutes", "an_hour")),
    (tray.pieces_by_area, "number", ("area", "served", "amount")),
    (cost.part_of_a_pack, "number", ("used", "pack", "price")),
    (cost.part_of_a_bottle, "number", ("poured", "bottle", "price")),
    (work.share_of_part, "area", ("part", "share", "inks")),
    (reach.share_of_area, "area", ("area", "share")),
    (added, "duration", ("value", "share")),
    (rectangle, "area", ("width", "height")),
]


@pytest.mark.parametrize(("formula", "kind", "names"), FORMULAS, ids=lambda value: getattr(value, "__name__", ""))
def test_corners_enclose_everything_inside(formula: Callable[..., Any], kind: str, names: tuple[str, ...]) -> None:
    @often
    @given(st.data())
    def tried(data: st.DataObject) -> None:
        ends = {name: sorted((data.draw(_positive), data.draw(_positive))) for name in names}
        given_ = {name: Recorded(low, high, "number", Origin((name,))) for name, (low, high) in ends.items()}
        made = compute(formula, kind, **given_)
        for _ in range(12):
            shares = {name: data.draw(st.floats(0, 1)) for name in names}
            point = {name: low + (high - low) * shares[name] for name, (low, high) in ends.items()}
            inside = formula(**point)
            assert made.low - 1e-6 * abs(made.low) <= inside <= made.high + 1e-6 * abs(made.high)

    tried()


def test_every_formula_that_a_plan_uses_with_a_range_is_tried_above() -> None:
    tried = {formula.__name__ for formula, _, _ in FORMULAS} | {"add", "area_minutes"}
    for data in plans():
        for number in numbers(data):
            if "formula" in number and any("low" in inner for inner in number["inputs"].values()):
                assert number["formula"].rpartition(".")[2] in tried, number["formula"]


def test_area_minutes_at_the_corners() -> None:
    # `passes` is at least 1.
    made = compute(
        clock.area_minutes,
        "duration",
        area=Recorded(100, 300, "area", NOWHERE),
        pace=Recorded(50, 120, "area rate", NOWHERE),
        passes=counted(1, 1),
    )
    assert (made.low, made.high) == (significant(100 / 120), 6)


def test_single_values_stay_single() -> None:
    made = compute(body.wrap_angle, "angle", width=counted(100, Origin(("w",))), girth=counted(400, Origin(("g",))))
    assert made.low == made.high == pytest.approx(90)


def test_sums_and_their_sources() -> None:
    one, two = Origin(("a",), "one"), Origin(("b",), "two")
    parts = [Recorded(1, 2, "duration", one), Recorded(3, 5, "duration", two), counted(1, Origin(("c",)))]
    made = total(list(parts), "duration")
    assert (made.low, made.high, sources_of(made)) == (5, 8, {"one", "two"})
    assert explained(made)["source"] == ["one", "two"]
    assert list(explained(made)["inputs"]) == ["part 1", "part 2", "part 3"]


def test_names_are_told_as_they_are_said() -> None:
    assert explained(Named((1, 2), "1–2 mm", Origin(("groupings", "x", "hang_out"), "house"))) == {
        "value": "1–2 mm",
        "record": "groupings.x.hang_out",
        "source": "house",
    }


def test_no_number_of_the_trade_is_typed_in_planning() -> None:
    """Values of the trade stand in records. What is left in the code is arithmetic: halves, percents, weeks."""
    allowed = {0, 0.5, 1, 2, 7, 9, 60, 100}
    folder = Path(inspect.getfile(settings)).parent
    for path in folder.glob("*.py"):
        tree = ast.parse(path.read_text("utf-8"))
        ranks = {id(n) for d in ast.walk(tree) if isinstance(d, ast.Dict) for n in d.values}
        for node in ast.walk(tree):
            if isinstance(node, ast.Constant) and isinstance(node.value, int | float) and id(node) not in ranks:
                assert isinstance(node.value, bool) or node.value in allowed, (path.name, node.lineno, node.value)
