"""What a record does not say, and what is past its age, never reads as clear."""

from __future__ import annotations

import dataclasses
import datetime
from collections.abc import Iterator
from typing import Any

import pytest
from pydantic import BaseModel
from pydantic_core import PydanticCustomError

from generator.diagnostics import Diagnostic
from generator.planning.findings.expiring import expiry_reminders, last_good_day
from generator.planning.plan import JobPlan, plan
from generator.quantities import written as quantity
from generator.records.families import Records
from generator.records.machines import Machine
from generator.records.people import Training
from generator.records.record import described
from tests.planning.demo import JOBS, RECORDS, Written, part, planned, simple, with_entry, written
from tests.planning.permissive import more_permissive

FAMILIES = ("machines", "inks", "supplies", "people", "sites")
# Beside the demo's own jobs: one with every allergy for which something is taken instead, one on a dial in volts, and
# one that an apprentice is to work.
INSTEAD = [supply for supply in RECORDS.supplies.values() if supply.contains and supply.instead]
PIECES = {
    "allergic": simple(
        allergies=sorted({word for supply in INSTEAD for word in supply.contains or ()}),
        parts=[part("lamp", focal="yes", colours=["wash-mid", "brass", "ochre", "moss"])],
    ),
    "volts": simple(
        parts=[part("lamp", focal="yes", lines=[{"needle": "1207RL", "length": "300 mm", "machine": "lathe"}])]
    ),
    "apprentice": simple(artist="bram"),
    **{name: written(name) for name in JOBS},
}
# Pieces that are planned again for one field; of inks and supplies there are many.
AT_MOST = {"inks": 1, "supplies": 1}


def _strained() -> Records:
    """The same records with something to be careful about in each: old bottles, strong vibration, training of old."""
    long_ago = datetime.date(2020, 1, 1)
    inks = {
        name: ink.model_copy(
            update={
                "lots": tuple(
                    lot.model_copy(update={"opened": long_ago, "sealed": False, "expires": datetime.date(2029, 1, 1)})
                    for lot in ink.lots
                )
            }
        )
        for name, ink in RECORDS.inks.items()
    }
    machines = {
        name: machine.model_copy(update={"vibration": quantity("20 m/s²")})
        for name, machine in RECORDS.machines.items()
    }
    people = {
        name: person.model_copy(
            update={"training": tuple(one.model_copy(update={"on": long_ago}) for one in person.training)}
        )
        for name, person in RECORDS.people.items()
    }
    return dataclasses.replace(RECORDS, inks=inks, machines=machines, people=people)


STUDIOS = {"the demo studio": RECORDS, "a studio with cares": _strained()}


def _can_be_read(record: BaseModel) -> bool:
    """Whether its keys belong together, as reading asks of them."""
    for decorator in type(record).__pydantic_decorators__.model_validators.values():
        if decorator.info.mode == "after":
            try:
                decorator.func(record)
            except PydanticCustomError:
                return False
    return True


def _without(value: BaseModel) -> Iterator[tuple[str, BaseModel]]:
    """The record without each field that may be absent, also those of the records inside it, and without each item of
    a list that may be empty."""
    for name, info in described(type(value)).items():
        now = getattr(value, name)
        if not info.is_required() and now != info.default:
            yield name, value.model_copy(update={name: info.default})
        if isinstance(now, BaseModel):
            yield from ((f"{name}.{at}", value.model_copy(update={name: less})) for at, less in _without(now))
        elif isinstance(now, tuple) and "may be empty" in (info.description or ""):
            yield name, value.model_copy(update={name: ()})
            for number, item in enumerate(now):
                inner = _without(item) if isinstance(item, BaseModel) else ()
                changed = [(f".{at}", (less,)) for at, less in inner]
                for at, instead in (("", ()), *changed):
                    yield (
                        f"{name}.{number}{at}",
                        value.model_copy(update={name: (*now[:number], *instead, *now[number + 1 :])}),
                    )
        if name == "contains" and now is not None:  # `unknown`, while nobody has read the label
            yield name, value.model_copy(update={name: None})


def _used(made: JobPlan, family: str) -> set[str]:
    """The entries that a plan rests on; of one without working steps those that its job names."""
    job, steps, supplies = made.job, (), ()
    if made.work is not None:
        steps, supplies = made.work.steps, made.work.tray.supplies
    named = {str(laid.ink) for each in job.parts for laid in each.colours} | {str(step.ink.id) for step in steps}
    mixed = {str(ink.mixed.of) for ink in (RECORDS.inks[one] for one in named) if ink.mixed is not None}
    return {
        "machines": {str(step.setting.machine.id) for step in steps},
        "inks": named | mixed,
        "supplies": {str(counted.supply.id) for counted in supplies},
        "people": {str(job.artist)},
        "sites": {str(job.place)},
    }[family]


@pytest.mark.parametrize("studio", STUDIOS)
def test_taking_a_field_away_never_allows_more_and_loses_no_care(studio: str) -> None:
    """Each field of each record that a piece uses: verdict, findings, minutes and tray. A care gives way to worse."""
    records = STUDIOS[studio]
    pieces = [planned(job, records) for job in PIECES.values()]
    pieces.sort(key=lambda made: made.work is None)
    tried: set[str] = set()
    wrong = []
    for family in FAMILIES:
        used = [(made, _used(made, family)) for made in pieces]
        for entry_id in set().union(*(entries for _, entries in used)):
            using = [made for made, entries in used if entry_id in entries][: AT_MOST.get(family, 2)]
            for field, less in _without(records.family(family)[entry_id]):
                if not _can_be_read(less):
                    continue
                tried.add(f"{family}.{field}")
                for whole in using:
                    after, report = plan(_with(records, family, entry_id, less), whole.job)
                    assert after is not None or report
                    more = more_permissive(whole, after)
                    if field == "mixed":  # it needs a bottle of its own then, and that is told apart so
                        of = records.inks[entry_id].mixed.of
                        more = [one for one in more if not one.startswith(("no longer said: No bottle of", f"{of}, "))]
                    wrong += [(f"{family}.{entry_id} without {field}", str(whole.job.id), one) for one in more]
    assert wrong == []
    assert {"people.training", "people.training.0.counts_as", "inks.lots.0.opened", "machines.vibration"} <= tried
    assert {"supplies.contains", "supplies.instead", "people.may.0", "inks.lots", "sites.thickness"} <= tried


def _with(records: Records, family: str, entry_id: str, entry: Any) -> Records:
    entries = {**records.family(family), entry_id: entry}
    return dataclasses.replace(records, **{family.replace("-", "_"): entries})


def _cares(made: JobPlan) -> list[str]:
    return [f.reason for f in made.findings if f.level == "care"]


def _volts() -> Written:
    return PIECES["volts"]


class TestVibration:
    def test_a_machine_without_a_figure_is_not_assessed(self) -> None:
        assert planned(simple()).verdict.level == "clear"
        made = planned(simple(), with_entry("machines", "kettle", vibration=None))
        assert made.verdict.level == "care"
        assert _cares(made) == ["Kettle: vibration not assessed, the maker’s figure is not on file."]

    def test_each_machine_of_the_day_by_itself(self) -> None:
        machines: dict[str, Machine] = {
            name: machine.model_copy(update={"vibration": None}) for name, machine in RECORDS.machines.items()
        }
        made = planned(written("tide-table"), dataclasses.replace(RECORDS, machines=machines))
        said = [care for care in _cares(made) if "not assessed" in care]
        assert made.work is not None
        assert len(said) == len({step.setting.machine.id for step in made.work.steps}) > 1


class TestCalibration:
    """The demo's dial in volts was measured on 2026-11-20, and that counts for 6 months."""

    @pytest.mark.parametrize(("day", "past"), [("2027-05-20", False), ("2027-05-21", True), ("2028-01-10", True)])
    def test_the_last_day_still_counts(self, day: str, past: bool) -> None:
        job = {**_volts(), "date": day, "screening": {"asked": day, "answers": "all clear"}}
        said = [care for care in _cares(planned(job)) if "last measured" in care]
        assert said == (["Lathe was last measured on 2026-11-20. That counts for 6\u00a0months."] if past else [])

    def test_a_newer_measurement_counts(self) -> None:
        newer = {
            name: found.model_copy(update={"measured": datetime.date(2027, 4, 1)})
            for name, found in RECORDS.calibrations.items()
        }
        made = planned(_volts(), dataclasses.replace(RECORDS, calibrations=newer))
        assert not [care for care in _cares(made) if "last measured" in care]

    def test_a_dial_in_hz_has_no_points_to_grow_old(self) -> None:
        assert not [care for care in _cares(planned(simple())) if "measured" in care]

    def test_an_age_that_is_none_counts_as_past(self) -> None:
        def last(start: datetime.date, age: str) -> datetime.date | None:
            return last_good_day(start, RECORDS.values["calibration-age"].model_copy(update={"is_": quantity(age)}))

        assert last(datetime.date(2027, 1, 1), "5 mm") is None
        assert last(datetime.date(2027, 1, 31), "1 months") == datetime.date(2027, 2, 28)
        assert last(datetime.date(2027, 1, 1), "2 weeks") == datetime.date(2027, 1, 15)
        odd = with_entry("values", "calibration-age", is_=quantity("5 mm"))
        job = {**_volts(), "date": "2026-12-01", "screening": {"asked": "2026-12-01", "answers": "all clear"}}
        assert [care for care in _cares(planned(job, odd)) if "last measured" in care]


class TestTraining:
    @pytest.mark.parametrize(
        ("training", "said"),
        [
            ((), "Quill, Infection control: not on file."),
            (
                (Training(what="Infection control", on=datetime.date(2026, 5, 11), counts_as="infection-control"),),
                "Quill, Infection control: last on 2026-05-11, which counts for 1\u00a0year.",
            ),
            (  # what lies after the day of the job has not been given yet
                (Training(what="Infection control", on=datetime.date(2027, 5, 13), counts_as="infection-control"),),
                "Quill, Infection control: not on file.",
            ),
            (
                (Training(what="Infection control", on=datetime.date(2027, 5, 1)),),
                "Quill, Infection control: not on file.",
            ),
        ],
    )
    def test_past_its_age_or_never_given_is_a_care(self, training: tuple[Training, ...], said: str) -> None:
        first_aid = Training(what="First aid", on=datetime.date(2027, 1, 1), counts_as="first-aid")
        looked_at = Training(what="Hepatitis B", on=datetime.date(2027, 1, 1), counts_as="hepatitis-b")
        made = planned(simple(), with_entry("people", "quill", training=(first_aid, looked_at, *training)))
        assert (made.verdict.level, _cares(made)) == ("care", [said])

    def test_the_anniversary_still_counts(self) -> None:
        given = (
            Training(what="Infection control", on=datetime.date(2026, 5, 12), counts_as="infection-control"),
            Training(what="First aid", on=datetime.date(2025, 5, 12), counts_as="first-aid"),
            Training(what="Hepatitis B", on=datetime.date(2024, 5, 12), counts_as="hepatitis-b"),
        )
        assert planned(simple(), with_entry("people", "quill", training=given)).verdict.level == "clear"


class TestLots:
    def test_a_bottle_of_which_nobody_knows_when_it_was_opened(self) -> None:
        lots = RECORDS.inks["black-line"].lots
        unknown = (lots[0].model_copy(update={"opened": None}), *lots[1:])
        made = planned(simple(), with_entry("inks", "black-line", lots=unknown))
        assert _cares(made) == ["Line black, LB-7031: the day it was opened is not on file."]

    def test_a_wash_is_looked_at_for_its_own_pigments_too(self) -> None:
        wash = RECORDS.inks["wash-mid"]
        barred = with_entry("inks", "wash-mid", pigments=(*wash.pigments, "C.I. 74160"))
        made = planned(simple(parts=[part("lamp", focal="yes", colours=["wash-mid"])]), barred)
        assert made.verdict.level == "wait"


def _reminders(records: Records, on: datetime.date) -> list[Diagnostic]:
    """Dials to measure again, and trainings to repeat."""
    return [d for d in expiry_reminders(records, on) if d.code in ("H724", "H725")]


class TestReminders:
    def test_nothing_is_due_on_the_day_of_the_last_training(self) -> None:
        assert list(_reminders(RECORDS, datetime.date(2026, 11, 26))) == []

    def test_what_is_past_its_age_is_named_with_its_place(self) -> None:
        found = list(_reminders(RECORDS, datetime.date(2027, 11, 10)))
        assert {d.level for d in found} == {"reminder"}
        dials = [d for d in found if d.code == "H724"]
        assert len(dials) == len(RECORDS.calibrations)
        assert all(d.place.file.endswith("calibrations.yml") for d in dials)
        people = sorted(d.message.partition(",")[0] for d in found if d.code == "H725")
        assert people == ["`bram`", "`mo`", "`quill`", "`tilde`"]

    def test_only_the_newest_measurement_of_a_setting_is_asked_for(self) -> None:
        old = RECORDS.calibrations["lathe-three"].model_copy(update={"measured": datetime.date(2020, 1, 1)})
        records = dataclasses.replace(RECORDS, calibrations={"older": old, **RECORDS.calibrations})
        assert list(_reminders(records, datetime.date(2026, 11, 26))) == []
