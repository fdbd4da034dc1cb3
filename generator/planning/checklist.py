"""The boxes of the pause points for one job: what always counts, and what this piece asks.

A step of hygiene says in its record which jobs have its box, for which things of a job it is printed once each, and
how it stands where a pause point has more boxes than it holds. What cannot be known has its box. Facts and quotes
hold neither an answer of the screening nor the cause of a scar.
"""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from generator.planning.computed import value_shown
from generator.planning.supplies.tray import Tray
from generator.planning.working.bands import template_of
from generator.planning.working.scars import ScarReading, rests_on_an_answer
from generator.planning.working.shapes import shape_of
from generator.planning.working.steps import Step
from generator.records.checklist import JOB, NEVER_YIELDS, QUOTE
from generator.records.conditions import Value, holds
from generator.records.families import Records
from generator.records.hygiene import MOST_AT_A_PAUSE, PAUSES, HygieneStep
from generator.records.inks import Ink
from generator.records.jobs import Job
from generator.records.rules import ScarRule
from generator.trade import shapes

# As `findings.private` does for a reason: what it is about is in the consent file.
_PRIVATE = "as the consent file says"

Facts = Mapping[str, Value]
Quotes = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class TickBox:
    """One box: the step that it is ticked for, the thing of the job that it is for, and its words."""

    step: HygieneStep
    of: str
    text: str


@dataclass(frozen=True, slots=True)
class PausePoint:
    """The boxes of one pause point, in the order of the record; `more` are those that it does not hold."""

    pause: str
    boxes: tuple[TickBox, ...]
    more: tuple[TickBox, ...] = ()


@dataclass(frozen=True, slots=True)
class _One:
    """The job, or one of the things that it has several of: what conditions look at, and what texts quote."""

    name: str
    facts: Facts
    quotes: Quotes


class WorkOfDay(NamedTuple):
    """What is worked in a sitting: its steps, its tray, whether it has a stencil, whether the piece is finished in it.

    again: the first day of the touch-up, or of the next sitting.
    """

    steps: tuple[Step, ...]
    tray: Tray
    stencil: bool
    last: bool
    again: datetime.date | None


def checklist_of(records: Records, job: Job, scars: tuple[ScarReading, ...], day: WorkOfDay) -> tuple[PausePoint, ...]:
    """The pause points of a sitting."""
    steps, tray = day.steps, day.tray
    the_job = _job(records, job, day)
    things = {
        "scar": [_scar(scar, steps) for scar in scars],
        "mole": list(_moles(records, job)),
        "tattoo": list(_tattoos(job, steps)),
        "allergy": list(_allergies(records, job)),
        "swap": list(_swaps(tray)),
        "mix": list(_mixes(records, tray)),
        "ink": [_ink(poured.ink) for poured in tray.inks],
        "machine": list(_machines(records, steps)),
    }
    found: dict[str, list[TickBox]] = {pause: [] for pause in PAUSES}
    for step in records.hygiene.values():
        if step.pause is not None:
            found[step.pause] += _boxes(step, the_job, things)
    return tuple(_divided(pause, tuple(dict.fromkeys(boxes))) for pause, boxes in found.items())


def _boxes(step: HygieneStep, the_job: _One, things: Mapping[str, list[_One]]) -> Iterator[TickBox]:
    for thing in (the_job,) if step.for_each is None else things[step.for_each]:
        facts = {**the_job.facts, **thing.facts}
        if step.when is None or holds(step.when, facts) is not False:
            yield TickBox(
                step, "" if thing is the_job else thing.name, _filled(step, {**the_job.quotes, **thing.quotes})
            )


def _filled(step: HygieneStep, quotes: Quotes) -> str:
    def said(quote: re.Match[str]) -> str:
        return quotes[quote["path"].strip()]

    text = QUOTE.sub(said, step.tick or "").strip()
    return text[:1].upper() + text[1:]


def _divided(pause: str, boxes: tuple[TickBox, ...]) -> PausePoint:
    """What a pause point holds; of one standing those that come first."""
    ranked = sorted(boxes, key=_rank)[:MOST_AT_A_PAUSE]
    return PausePoint(
        pause, tuple(box for box in boxes if box in ranked), tuple(box for box in boxes if box not in ranked)
    )


def _rank(box: TickBox) -> int:
    standing = box.step.standing
    return 0 if standing in NEVER_YIELDS else 1 if standing == "this job" else 2


def _job(records: Records, job: Job, day: WorkOfDay) -> _One:
    artist, site = records.people[job.artist], records.sites[job.place]
    bands = ", ".join(str(part.id) for part in job.parts if part.band)
    aged = list(_aged(records, job))
    asked = job.screening.asked.isoformat() if job.screening is not None else "no day"
    return _One(
        JOB,
        {
            "job.hand": str(artist.hand),
            "job.supervised": job.supervisor not in (None, job.artist),
            "job.arc": template_of(records, job) is not None,
            "job.aged": bool(aged),
            "job.limb": bool(site.limb),
            "job.mixes": any(poured.ink.mixed is not None for poured in day.tray.inks),
            "job.swaps": any(counted.instead for counted in day.tray.supplies),
            "job.stencil": day.stencil,
            "job.last-sitting": day.last,
            "job.worked-before": job.worked_before,
        },
        {
            "job.artist": artist.name,
            "job.pose": _inside(job.pose or site.pose),
            "job.bands": bands or "no band",
            "job.supervisor": records.people[job.supervisor].name if job.supervisor is not None else "nobody",
            "job.asked": asked,
            "job.aged": ", ".join(aged) or "nothing",
            "job.again": "a day on file" if day.again is None else day.again.isoformat(),
        },
    )


def _aged(records: Records, job: Job) -> Iterator[str]:
    """The questions whose answers are older than they count. By the days alone: what was answered plays no part."""
    if job.screening is not None:
        old = job.date - job.screening.asked
        for question in records.screening.values():
            counts_for = question.counts_for
            if counts_for is not None and question.about and old > datetime.timedelta(days=counts_for.low):
                yield question.about


def _scar(reading: ScarReading, steps: Iterable[Step]) -> _One:
    """A scar by what rules say of it; what rests on a cause or on an answer says its level and no more."""
    scar = reading.scar
    today = {str(step.part.id) for step in steps}
    parts = [part for part in reading.crossed_by if part in today]
    look = [str(word) for word in (scar.type, scar.colour, scar.feel) if word is not None]
    rules = [*reading.held, *reading.undecided]
    facts = {fact: value for fact, value in reading.facts.items() if fact.startswith("scar.")}
    return _One(
        str(scar.id),
        {**facts, "scar.crossed": bool(parts)},
        {
            "scar.name": str(scar.id),
            "scar.look": ", ".join(look) or "not described",
            "scar.parts": ", ".join(parts) or "no part",
            "scar.today": "; ".join(dict.fromkeys(map(_today, rules))) or "looked at after each pass",
        },
    )


def _today(rule: ScarRule) -> str:
    if rests_on_an_answer(rule):
        return _PRIVATE
    return _inside(rule.today or rule.consequence)


def _moles(records: Records, job: Job) -> Iterator[_One]:
    """Moles by their place, which stays when another is taken off the list."""
    for number, mole in enumerate(job.moles or (), 1):
        keep = mole.keep or records.studio.limits.mole_clearance
        right, down, free = (value_shown(length, records.studio.shows) for length in (*mole.at, keep))
        yield _One(
            f"{right}, {down}",
            {"mole.keep": keep},
            {"mole.name": f"m{number}", "mole.right": right, "mole.down": down, "mole.keep": free},
        )


def _tattoos(job: Job, steps: Iterable[Step]) -> Iterator[_One]:
    """The tattoos that are there already, by what covers them today."""
    today = {str(step.part.id) for step in steps}
    for old in job.existing_tattoos or ():
        over = [part for part in job.parts if shapes.overlap(shape_of(part), shape_of(old)) > 0]
        parts = [str(part.id) for part in over if str(part.id) in today]
        yield _One(
            str(old.id),
            {"tattoo.covered": bool(parts), "tattoo.darkness": old.darkness},
            {"tattoo.name": str(old.id), "tattoo.parts": ", ".join(parts) or "no part"},
        )


def _allergies(records: Records, job: Job) -> Iterator[_One]:
    for word in dict.fromkeys(str(allergy.to) for allergy in job.allergies or ()):
        holders = [supply for supply in records.supplies.values() if word in (supply.contains or ())]
        swapped = bool(holders) and all(supply.instead for supply in holders)
        yield _One(word, {"allergy.swapped": swapped}, {"allergy.name": word})


def _swaps(tray: Tray) -> Iterator[_One]:
    for counted in tray.supplies:
        if counted.instead:
            name = counted.supply.name
            yield _One(
                name,
                {"swap.replaced": counted.supply.instead is not None},
                {"swap.supply": _inside(name), "swap.instead": _inside(counted.instead)},
            )


def _mixes(records: Records, tray: Tray) -> Iterator[_One]:
    for poured in tray.inks:
        if (mix := poured.ink.mixed) is not None:
            name = poured.ink.name
            yield _One(
                name,
                {},
                {
                    "mix.name": name,
                    "mix.of": records.inks[mix.of].name,
                    "mix.ink": f"{mix.parts_ink}",
                    "mix.water": f"{mix.parts_water}",
                },
            )


def _ink(ink: Ink) -> _One:
    return _One(
        ink.name,
        {"ink.kind": str(ink.kind), "ink.mixed": ink.mixed is not None, "ink.caution": ink.caution is not None},
        {"ink.name": ink.name, "ink.caution": _inside(ink.caution or "none")},
    )


def _machines(records: Records, steps: tuple[Step, ...]) -> Iterator[_One]:
    """Each machine as it is set for the first row that is worked with it."""
    first = {step.setting.machine.id: step.setting for step in reversed(steps)}
    for machine_id in dict.fromkeys(step.setting.machine.id for step in steps):
        setting = first[machine_id]
        stroke, dial = (value_shown(value, records.studio.shows) for value in (setting.stroke, setting.dial))
        yield _One(
            setting.machine.name,
            {"machine.dial": str(setting.machine.dial)},
            {"machine.name": setting.machine.name, "machine.stroke": stroke, "machine.dial": dial},
        )


def _inside(sentence: str) -> str:
    """A sentence of a record inside another: no full stop, and no capital unless the word is one of capitals."""
    text = sentence.strip().rstrip(".")
    return text if text[1:2].isupper() else text[:1].lower() + text[1:]
