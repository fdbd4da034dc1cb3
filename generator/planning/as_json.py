"""A plan as data: every number with value, unit, formula, inputs and source.

One walk over the values of the plan: a field becomes a key, a record its id, a number its explanation. What the walk
leaves out, and what it says otherwise, stands in two tables.
"""

from __future__ import annotations

import dataclasses
import datetime
from collections.abc import Callable
from typing import Any

from generator.planning.computed import (
    Answered,
    Computed,
    Data,
    Named,
    Recorded,
    counted,
    explained,
    explained_by,
    recorded,
)
from generator.planning.findings.verdict import Finding, Verdict
from generator.planning.plan import AtHand, JobPlan, Work
from generator.planning.timing.learning import LearningRow, Lesson, learning_rows
from generator.planning.timing.sittings import Sitting
from generator.planning.working.scars import ScarReading
from generator.planning.working.settings import Outside, Setting
from generator.planning.working.steps import Step
from generator.records.afterwards import ReallySet
from generator.records.inks import Lot
from generator.records.jobs import Job
from generator.records.record import Record


def plan_as_data(plan: JobPlan) -> dict[str, Data]:
    """The plan for `plan --json`; numbers are explained all the way down to their records."""
    return _fields(plan)


def as_data(value: object) -> Data:
    """Any value of a plan, as JSON can hold it."""
    match value:
        case Recorded() | Named() | Computed():
            return explained(value)
        case Answered():
            return {"value": as_data(value.answer), **explained_by(value)}
        case datetime.datetime():
            return value.isoformat(timespec="minutes")
        case datetime.date():
            return value.isoformat()
        case Lot():
            return str(value.lot)
        case Record():
            return str(value.model_dump(include={"id"})["id"])
        case str() | int() | float() | None:
            return value
        case tuple() | list() if not hasattr(value, "_fields"):
            return [as_data(inner) for inner in value]
        case _:
            return _fields(value)


def _fields(value: object) -> dict[str, Data]:
    cls: Any = type(value)
    names = [f.name for f in dataclasses.fields(cls)] if dataclasses.is_dataclass(cls) else cls._fields
    said = _SAID[cls](value) if cls in _SAID else {}
    left_out = _LEFT_OUT.get(cls, frozenset())
    walked = {name: as_data(getattr(value, name)) for name in names if name not in left_out and name not in said}
    return {**walked, **said}


# What a client answered, and the rules that tell it, are on no paper and in no data.
_LEFT_OUT: dict[type, frozenset[str]] = {
    JobPlan: frozenset(("steps",)),
    ScarReading: frozenset(("facts", "held", "undecided", "passes", "slower")),
    Setting: frozenset(("passes",)),
    Outside: frozenset(("by",)),
    Step: frozenset(("piece",)),
    Lesson: frozenset(("jobs", "rate_in_doubt")),
    Sitting: frozenset(("rested", "longest")),
    Finding: frozenset(("by",)),
}


def _plan(plan: JobPlan) -> dict[str, Data]:
    job = plan.job
    return {
        "title": job.title,
        "client": job.client,
        "date": as_data(job.date),
        "state": plan.state.value,
        "afterwards": _afterwards(job),
    }


def _verdict(verdict: Verdict) -> dict[str, Data]:
    return {"goes_ahead": verdict.goes_ahead, "heading": verdict.heading, "meaning": verdict.meaning}


def _finding(finding: Finding) -> dict[str, Data]:
    return {"rule": finding.rule, "source": finding.source}


def _work(work: Work) -> dict[str, Data]:
    coming = work.next_sitting
    return {
        "steps": [{"number": number, **_fields(step)} for number, step in enumerate(work.steps, 1)],
        "next_sitting": None if coming is None else as_data(coming.earliest),
        # Only a piece that is finished has a touch-up.
        "touch_up": None if coming else as_data(work.touch_up.answer),
    }


def _sitting(sitting: Sitting) -> dict[str, Data]:
    """The share of a step is counted in the longest sitting."""
    return {
        "stints": [
            {"number": stint.number, "share": explained(counted(stint.share, sitting.longest))}
            for stint in sitting.stints
        ]
    }


def _at_hand(today: AtHand) -> dict[str, Data]:
    """Steps are numbered through the whole piece."""
    return {
        "sitting": today.sitting.number,
        "steps": [{"number": stint.number, **_fields(step)} for stint, step in today.numbered],
        "timetable": as_data(today.timetable),
    }


def _really_set(step: ReallySet) -> dict[str, Data]:
    """What one step was worked with; what is left out was as planned."""
    numbers = {"dial": step.dial, "passes": step.passes}
    return {
        "step": step.number,
        **step.model_dump(include={"needle", "machine", "ink"}, exclude_none=True),
        **{name: explained(recorded(number)) for name, number in numbers.items() if number is not None},
    }


def _afterwards(job: Job) -> dict[str, Data] | None:
    done = job.finished
    if done is None:
        return None
    return {
        **done.model_dump(mode="json", include={"on", "lots", "stopped", "ended", "dressing", "cartridges"}),
        "steps": [_really_set(step) for step in done.as_corrected.steps],
        "corrections": [one.model_dump(mode="json", exclude_none=True) for one in done.corrections],
        "took": explained(recorded(done.took)),
        "worked": [
            {"technique": str(worked.technique), "took": explained(recorded(worked.took))} for worked in done.worked
        ],
    }


# What is said otherwise than by the fields, or besides them.
_SAID: dict[type, Callable[[Any], dict[str, Data]]] = {
    JobPlan: _plan,
    Finding: _finding,
    Verdict: _verdict,
    Work: _work,
    AtHand: _at_hand,
    Sitting: _sitting,
    Step: lambda step: {"booked": as_data(step.booked)},
    Setting: lambda setting: {"stretch": setting.technique.stretch},
    # A factor down to the jobs that it rests on.
    Lesson: lambda lesson: {"rests_on": as_data(learning_rows(lesson))},
    LearningRow: lambda row: {"timed": {"job": row.timed.job, "on": as_data(row.timed.on)}},
}
