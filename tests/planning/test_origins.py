"""Where the numbers of a plan come from, held against the records as they are written."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from typing import Any

import pytest
import yaml

from generator.planning.as_json import plan_as_data
from generator.planning.computed import Recorded, explained, recorded
from generator.records.families import JOBS as JOB_FAMILY
from generator.records.families import STUDIO
from tests.planning.demo import CONTENT, JOBS, RECORDS, demo, job_of, part, simple, steps_of


@cache
def written(file: str) -> Any:
    """A file of records as it was typed: every scalar is text."""
    return yaml.load((CONTENT / file).read_text("utf-8"), Loader=yaml.CBaseLoader)


def _entry(found: Any, key: str) -> Any:
    if isinstance(found, list):
        by_id = [item for item in found if isinstance(item, dict) and item.get("id") == key]
        return by_id[0] if by_id else found[int(key)]
    return found[key]


def at(path: str) -> Any:
    """What stands at a path, such as `jobs.tide-table.parts.dial.lines.0.length`. Raises where there is nothing."""
    family, *keys = path.split(".")
    if family == JOB_FAMILY.name:
        file, keys = f"jobs/{keys[0]}.yml", keys[1:]
    else:
        file = f"{family}.yml"
    found = written(file)
    for key in keys:
        found = _entry(found, key)
    return found


def recorded_in(value: object) -> Iterator[dict[str, Any]]:
    """Every operand of a plan that names a record, all the way down."""
    if isinstance(value, dict):
        if "record" in value:
            yield value
        for inner in value.values():
            yield from recorded_in(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from recorded_in(inner)


def nearest_source(path: str) -> str:
    """The source of the record round a field: its own, or that of the nearest record round it."""
    family, *keys = path.split(".")
    depths = range(len(keys), 0 if family != STUDIO.name else -1, -1)
    for depth in depths:
        inside, key = ".".join([family, *keys[:depth]]), keys[depth] if depth < len(keys) else ""
        here = at(inside)
        if isinstance(here, dict):
            if f"{key}_source" in here:
                return str(here[f"{key}_source"])
            if "source" in here:
                return str(here["source"])
    return ""


def trouble(number: dict[str, Any]) -> str:
    """What is wrong with the record that a number names; nothing for one that is right."""
    path = number["record"]
    inside, _, key = path.rpartition(".")
    try:
        round_it = at(inside) if inside else {path: written(f"{path}.yml")}
    except (KeyError, IndexError, ValueError, FileNotFoundError):
        return "not written"
    if number.get("default"):
        return "is written, and called a default" if key in round_it else ""
    try:
        at(path)
    except (KeyError, IndexError, ValueError, FileNotFoundError):
        return "not written, and not called a default"
    return ""


@pytest.mark.parametrize("job", JOBS)
def test_every_record_of_a_plan_is_a_field_as_it_is_written(job: str) -> None:
    found = list(recorded_in(plan_as_data(demo(job))))
    assert found
    assert {(one["record"], wrong) for one in found if (wrong := trouble(one))} == set()


@pytest.mark.parametrize("job", JOBS)
def test_a_number_is_the_one_that_stands_there(job: str) -> None:
    """What a plan says it has read as a number without a unit is what is typed there."""
    wrong = []
    for one in recorded_in(plan_as_data(demo(job))):
        typed = None if one.get("default") or "." not in one["record"] else at(one["record"])
        if one.get("unit") == "" and isinstance(typed, str) and typed.replace(".", "").isdigit():
            wrong += [] if float(typed) == one["value"] else [(one, typed)]
    assert wrong == []


@pytest.mark.parametrize("job", JOBS)
def test_a_source_is_that_of_the_nearest_record(job: str) -> None:
    house = at("studio.source")
    wrong = set()
    for one in recorded_in(plan_as_data(demo(job))):
        if one.get("default") or "." not in one["record"]:
            continue
        expected = house if ".shelf." in one["record"] else nearest_source(one["record"])
        if one["source"] != expected:
            wrong.add((one["record"], one["source"], expected))
    assert wrong == set()


def test_a_default_says_that_it_is_one() -> None:
    found = [one for job in JOBS for one in recorded_in(plan_as_data(demo(job)))]
    assert {one["record"].rpartition(".")[2] for one in found if one.get("default")} >= {"spread"}
    round_ = next(g for g in RECORDS.groupings.values() if g.spread is None)
    assert round_.origin_at("spread").default and not round_.origin_at("label").default


def test_a_field_that_is_left_out_is_called_a_default_and_one_that_is_written_is_not() -> None:
    written_out, left_out = simple(interruptions="2"), simple(interruptions=None)
    for job, default in ((written_out, False), (left_out, True)):
        made = recorded(job_of(job).interruptions)
        assert (made.origin.path, made.origin.default) == ("jobs.signal-lamp.interruptions", default)
        assert explained(made).get("default", False) is default


def test_what_a_job_chooses_for_one_piece_of_work_is_found_where_it_is_written() -> None:
    ground = part("ground", lines=[{"needle": "1209RL", "length": "9 cm"}, {"needle": "1209RL", "length": "9 cm"}])
    ground["lines"][1]["hang_out"] = "3 mm"
    chosen = steps_of(simple(parts=[ground]))[1].setting.hang_out
    assert isinstance(chosen, Recorded) and chosen.origin.path == "jobs.signal-lamp.parts.ground.lines.1.hang_out"


def test_an_ink_named_by_its_id_alone_knows_where_it_stands() -> None:
    ground = part("ground", detail="broad", lines=None, colours=["wash-mid", {"ink": "deep-blue"}])
    colours = job_of(simple(parts=[ground])).parts[0].colours
    assert [c.ink.origin.path for c in colours] == [
        "jobs.signal-lamp.parts.ground.colours.0",
        "jobs.signal-lamp.parts.ground.colours.1.ink",
    ]


def test_what_limits_a_scar_by_an_answer_names_neither_rule_nor_source() -> None:
    rule = next(r for r in RECORDS.scar_rules.values() if r.passes is not None)
    assert recorded(rule.passes or 0).origin.path == f"scar-rules.{rule.id}.passes"
    assert rule.origin.family.path == "scar-rules" and rule.origin.family.source == ""


def test_the_shelf_rests_on_the_studio_and_its_pack_on_nothing_else() -> None:
    shelves = [g.shelf for g in RECORDS.groupings.values() if g.shelf] + [
        i.shelf for i in RECORDS.inks.values() if i.shelf
    ]
    assert shelves and {recorded(shelf.stock).origin.source for shelf in shelves} == {RECORDS.studio.source}
    assert {recorded(g.hang_out).origin.source for g in RECORDS.groupings.values()} != {RECORDS.studio.source}
