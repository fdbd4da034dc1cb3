"""What counts only for a time: what it means on the day of a job, and what is named a year later."""

from __future__ import annotations

import dataclasses
import datetime
from typing import Any

import pytest
from dateutil.relativedelta import relativedelta

from generator.diagnostics import Place
from generator.planning.findings.expiring import (
    GOOD,
    OVER,
    SOON,
    expiring,
    expiry_reminders,
    patch_reminders,
)
from generator.planning.for_lists import lots_of
from generator.planning.plan import JobPlan
from generator.planning.supplies.tracing import traces
from generator.records.ended import RECALLED, Ended
from generator.records.expires import Expires
from generator.records.families import Records
from generator.records.located import Text
from generator.records.people import Training
from generator.records.sterilizer import Load
from tests.planning.demo import JOBS, RECORDS, demo, job_of, part, planned, read, simple, try_plan, with_entry, written

DAY = datetime.date(2027, 5, 12)
LATER = DAY + relativedelta(years=1)
KINDS = tuple(Expires.model_fields)


def _studio(records: Records = RECORDS, **changes: Any) -> Records:
    return dataclasses.replace(records, studio=records.studio.model_copy(update=changes))


def _with_rule(records: Records, kind: str, on_the_day: str | None) -> Records:
    """The records in which this kind of thing is a care, or waits, or has no rule."""
    rules = records.studio.expires
    rule = None if on_the_day is None else getattr(rules, kind).model_copy(update={"on_the_day": on_the_day})
    return _studio(records, expires=rules.model_copy(update={kind: rule}))


def _load(day: datetime.date, biological: str) -> Load:
    return Load.model_construct(
        id=Text.at("load", Place("loads.yml", 1, 1, 2)), cycle="gravity", date=day, samples=(), biological=biological
    )


def _over() -> dict[str, tuple[Records, dict[str, Any], str]]:
    """For each kind: records and a job in which something of it is over on 2027-05-12, and words of what is found."""
    ink = RECORDS.inks["black-line"]
    old = tuple(lot.model_copy(update={"opened": datetime.date(2026, 5, 1), "sealed": False}) for lot in ink.lots)
    shelf = RECORDS.groupings["1207RL"].shelf
    assert shelf is not None
    past = shelf.model_copy(update={"first_expires": datetime.date(2027, 5, 11)})
    dial = RECORDS.calibrations["lathe-three"]
    rules = RECORDS.studio.local_rules
    long_ago = datetime.date(2020, 1, 1)
    trained = {name: Training(what="x", on=DAY, counts_as=name) for name in RECORDS.required_training}

    def quill(lapsed: str) -> Records:
        had = [one.model_copy(update={"on": long_ago}) if name == lapsed else one for name, one in trained.items()]
        return with_entry("people", "quill", training=tuple(had))

    volts = [{"needle": "1207RL", "length": "300 mm", "machine": "lathe"}]
    measured = dataclasses.replace(
        RECORDS,
        calibrations={
            name: one.model_copy(update={"measured": long_ago if one.machine == dial.machine else DAY})
            for name, one in RECORDS.calibrations.items()
        },
    )
    return {
        "opened_inks": (with_entry("inks", "black-line", lots=old), simple(), "No bottle of Line black"),
        "sterile_packs": (with_entry("groupings", "1207RL", shelf=past), simple(), "Packs of 1207RL"),
        "spore_tests": (
            dataclasses.replace(_studio(reprocessing=True), loads={"load": _load(datetime.date(2027, 5, 4), "passed")}),
            simple(),
            "Spore test of the sterilizer: passed 2027-05-04",
        ),
        "patch_tests": (
            RECORDS,
            simple(patch_tests=[{"ink": "signal-red", "on": "2026-11-11", "nothing_seen": "yes"}]),
            "A patch test was made on 2026-11-11.",
        ),
        "calibrations": (measured, simple(parts=[_lined(volts)]), "was last measured on 2020-01-01"),
        "training": (quill("first-aid"), simple(), "Quill, First aid: last on 2020-01-01"),
        "checks": (quill("hepatitis-b"), simple(), "Quill, Hepatitis B papers looked at: last on 2020-01-01"),
        "local_rules": (
            _studio(local_rules=(rules[0].model_copy(update={"on": datetime.date(2026, 5, 11)}), *rules[1:])),
            simple(),
            "not confirmed, or too long ago: licence and registration",
        ),
    }


def _lined(lines: list[dict[str, str]]) -> dict[str, Any]:
    return {**simple()["parts"][0], "lines": lines}


CASES = _over()


def test_nothing_is_over_in_the_demo_and_its_simple_piece_is_clear() -> None:
    assert set(CASES) == set(KINDS)
    assert planned(simple()).verdict.level == "clear"


@pytest.mark.parametrize("kind", KINDS)
def test_what_is_over_on_the_day_is_a_care_or_waits_by_the_rule_on_file(kind: str) -> None:
    records, job, words = CASES[kind]
    # Without a rule nobody said that a care is enough.
    for rule, level in (("care", "care"), ("wait", "wait"), (None, "wait")):
        found = [f for f in planned(job, _with_rule(records, kind, rule)).findings if f.level != "note"]
        told = [f for f in found if words in f.reason or (kind == "patch_tests" and "patch test" in f.reason)]
        assert [f.level for f in told] == [level], (rule, [f.reason for f in found])
        assert told[0].remedy


def test_what_nobody_wrote_down_counts_as_over() -> None:
    shelf = RECORDS.groupings["1207RL"].shelf
    assert shelf is not None
    unknown = {
        "No expiry on file for packs of 1207RL.": with_entry(
            "groupings", "1207RL", shelf=shelf.model_copy(update={"first_expires": None})
        ),
        "Spore test of the sterilizer: none has passed.": dataclasses.replace(_studio(reprocessing=True), loads={}),
        "8 local rules are not confirmed": _studio(
            local_rules=tuple(r.model_copy(update={"on": None, "confirmed": False}) for r in RECORDS.studio.local_rules)
        ),
        "Quill, Hepatitis B papers looked at: not on file.": with_entry(
            "people",
            "quill",
            training=tuple(had for had in RECORDS.people["quill"].training if had.counts_as != "hepatitis-b"),
        ),
    }
    missing = {
        words: [f.reason for f in planned(simple(), records).findings]
        for words, records in unknown.items()
        if not any(words in f.reason for f in planned(simple(), records).findings)
    }
    assert missing == {}


def test_a_spore_test_that_failed_or_waits_is_none_and_single_use_needs_none() -> None:
    for showed in ("failed", "waiting"):
        loads = {"load": _load(DAY, showed)}
        made = planned(simple(), dataclasses.replace(_studio(reprocessing=True), loads=loads))
        assert made.verdict.level == "wait"
    assert not any("Spore" in f.reason for f in planned(simple()).findings)


def test_what_a_patch_test_showed_is_said_nowhere_but_by_its_level() -> None:
    showed = simple(patch_tests=[{"ink": "signal-red", "on": "2027-05-01", "nothing_seen": "no"}])
    made = planned(showed)
    assert made.verdict.level == "wait"
    assert [f.reason for f in made.findings if f.about == "patch_tests"] == ["Not on this day."]
    old = simple(patch_tests=[{"ink": "signal-red", "on": "2026-10-01", "nothing_seen": "no"}], date="2027-05-20")
    (told,) = patch_reminders(RECORDS, job_of(old), DAY)
    assert (told.code, told.message) == ("H727", "a patch test of `signal-lamp`: counted until 2027-04-01")
    assert not any("patch" in each.what for each in expiring(RECORDS, DAY))
    assert list(patch_reminders(RECORDS, job_of(showed), DAY)) == []


def test_the_ink_of_a_patch_test_has_to_be_on_file() -> None:
    told = read(simple(patch_tests=[{"ink": "no-ink", "on": "2027-05-01", "nothing_seen": "yes"}]))[1]
    assert [d.code for d in told] == ["L401"]


def test_the_check_reminds_before_as_long_as_the_rule_says() -> None:
    rule = RECORDS.studio.expires.opened_inks
    assert rule is not None
    first = RECORDS.inks["black-line"].lots[0]  # opened 2027-02-15, and twelve months of life
    last = datetime.date(2028, 2, 15)
    ahead = datetime.timedelta(days=int(rule.remind.low))

    def state(on: datetime.date) -> str:
        return next(each for each in expiring(RECORDS, on) if each.what == f"Line black, {first.lot}").state(on)

    days = (last - ahead, last - ahead + datetime.timedelta(days=1), last, last + datetime.timedelta(days=1))
    assert [state(day) for day in days] == [GOOD, SOON, SOON, OVER]
    told = [d for d in expiry_reminders(RECORDS, last) if first.lot in d.message]
    assert [(d.code, d.level, d.place.file.rpartition("/")[2]) for d in told] == [("H741", "reminder", "inks.yml")]
    # Without a rule nobody is reminded before; over it is either way.
    without = _with_rule(RECORDS, "opened_inks", None)
    assert [each.state(last) for each in expiring(without, last) if first.lot in each.what] == [GOOD]
    (told,) = [d for d in expiry_reminders(without, DAY) if "no rule" in d.message]
    assert told.place.file.endswith("studio.yml") and "`opened_inks: {remind: DAYS, on_the_day: care}`" in told.help
    none = _studio(expires=Expires())
    said = [d.message for d in expiry_reminders(none, DAY) if "no rule" in d.message]
    # Nothing is sterilized in the demo, and a patch test is told of beside its job.
    assert said == [
        f"no rule says what follows when {kind.replace('_', ' ')} are over"
        for kind in KINDS
        if kind not in ("spore_tests", "patch_tests")
    ]


def _a_year_later() -> Records:
    """Somebody has left, a lot was recalled, a machine was replaced; nobody looked at anything else."""
    ended = datetime.date(2027, 9, 1)
    recalled = tuple(
        lot.model_copy(update={"until": Ended(on=ended, why=RECALLED)}) for lot in RECORDS.inks["brass"].lots
    )
    records = with_entry("inks", "brass", lots=recalled)
    people = {**records.people}
    people["mo"] = people["mo"].model_copy(update={"until": Ended(on=ended, why="left")})
    old = records.machines["lathe"].model_copy(update={"until": Ended(on=ended, why="retired")})
    new = records.machines["lathe"].model_copy(update={"id": "new-lathe", "name": "New lathe"})
    return dataclasses.replace(records, people=people, machines={**records.machines, "lathe": old, "new-lathe": new})


def test_a_year_later_everything_that_is_over_is_named() -> None:
    records = _a_year_later()
    said = {d.message for d in expiry_reminders(records, LATER)}
    bottles = {
        f"{ink.name}, {lot.lot}": min([lot.expires, *([lot.opened + relativedelta(months=12)] if lot.opened else [])])
        for ink in RECORDS.inks.values()
        for lot in ink.lots
        if ink.id != "brass" and lot.until is None and ink.until is None
    }
    packs = {
        f"Packs of {grouping.label}": grouping.shelf.first_expires
        for grouping in RECORDS.groupings.values()
        if grouping.shelf is not None
    }
    rules = {
        f"Local rule: {rule.topic}": rule.on and rule.on + relativedelta(months=12)
        for rule in RECORDS.studio.local_rules
    }
    over = {what: last for what, last in {**bottles, **packs, **rules}.items() if last and last < LATER}
    assert len(over) > 20
    assert {f"{what}: counted until {last}" for what, last in over.items()} <= said
    # Infection control is repeated within a year by everybody, first aid within two.
    people = {line for line in said if line.startswith("`")}
    assert {line.partition(":")[0] for line in people} == {
        "`quill`, infection control",
        "`bram`, infection control",
        "`tilde`, infection control",
    } | {line.partition(":")[0] for line in people if "first aid" in line}
    # Nobody is told of what is not here any more.
    gone = [line for line in said if "BR-" in line or "`mo`" in line or "`lathe`" in line or "Mo," in line]
    assert gone == []


def _worked(made: JobPlan) -> list[tuple[str, str, str]] | None:
    if made.work is None:
        return None
    return [(s.part.id, s.setting.machine.id, s.ink.id) for s in made.work.steps]


def test_a_year_later_no_old_job_is_falsified() -> None:
    records = _a_year_later()
    finished = [name for name in JOBS if "finished" in written(name)]
    assert finished
    for name in finished:
        before, after = demo(name), planned(written(name), records)
        worked = [
            [(s.part.id, s.setting.machine.id, s.ink.id) for s in p.work.steps] for p in (before, after) if p.work
        ]
        assert (before.work is None) == (after.work is None) and (not worked or worked[0] == worked[1]), name
    # A recalled lot is still traced to the jobs that had it.
    left = [lots_of(records, planned(written(name), records)) for name in finished]
    traced = {str(job.job) for trace in traces(records, left) if trace.thing.entry == "brass" for job in trace.used}
    assert traced == {
        str(job.job)
        for trace in traces(RECORDS, [lots_of(RECORDS, demo(name)) for name in finished])
        if trace.thing.entry == "brass"
        for job in trace.used
    }
    # New work is not laid out with it, nor given to who has left.
    colours = planned(simple(date="2028-05-20", parts=[part("lamp", focal="yes", colours=["brass"])]), records)
    assert any(f.reason == "No bottle of Brass is in date on the day." for f in colours.findings)
    assert [d.code for d in try_plan(simple(date="2028-05-20", artist="mo"), records)[1]] == ["J623"]
