"""What counts only for a time and is over on the day of a job, by the rule of the studio for each kind of thing.

Dials, training, packs, spore tests, patch tests and local rules; inks are in `inks`. What was never given counts as
over.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterator

from generator.how_many import how_many
from generator.planning.findings.expiring import (
    OVER,
    age_by,
    calibration_age,
    counts,
    last_good_day,
    last_trained,
    local_rules,
    needed_by,
    rule_of,
    said,
    spore_tests,
    why_over,
)
from generator.planning.findings.private import private_finding
from generator.planning.findings.verdict import About, Finding, Level, level_of
from generator.planning.supplies.tray import Tray
from generator.planning.working.calibration import calibration_for, cartridge_of
from generator.planning.working.steps import Step
from generator.records.ended import is_over
from generator.records.expires import Expiry
from generator.records.families import Records
from generator.records.jobs import Job
from generator.records.people import Person, RequiredTraining
from generator.records.procedures import changed_since


def level_when_over(rule: Expiry | None) -> Level:
    """What follows on the day of the job when something is over; without a rule it waits."""
    return "wait" if rule is None else level_of(rule.on_the_day)


def lapsed_findings(records: Records, job: Job, steps: tuple[Step, ...], tray: Tray) -> Iterator[Finding]:
    """All that is over, or not on file, of what a job needs."""
    yield from _training(records, job)
    yield from _dials(records, job, steps)
    yield from _packs(records, tray, job.date)
    yield from _spore_tests(records, job.date)
    yield from _patch_tests(records, job)
    yield from _local_rules(records, job.date)


def _dials(records: Records, job: Job, steps: tuple[Step, ...]) -> Iterator[Finding]:
    """A dial in volts that was last measured too long before the day of the job."""
    age = calibration_age(records)
    in_volts = (step.setting for step in steps if step.setting.machine.dial == "volts")
    used = [calibration_for(records, s.machine, s.stroke.low, cartridge_of(s.grouping)) for s in in_volts]
    for measured in {one.id: one for one in used if one is not None}.values():
        end = last_good_day(measured.measured, age)
        if end is None or end < job.date:
            name, day = records.machines[measured.machine].name, measured.measured.isoformat()
            by = records.studio.limits.calibration_age if age is None else age
            yield About(measured, by).at(
                level_when_over(records.studio.expires.calibrations),
                f"{name} was last measured on {day}. That counts for {said(age)}.",
                "Measure the dial again before the day, and write the points down.",
            )


def _training(records: Records, job: Job) -> Iterator[Finding]:
    """A training or check that the artist's role needs, and that is not on file or too long ago on the day of the job.

    Of a check its name and day are said, as they stand under training; what was found stands nowhere.
    """
    person = records.people[job.artist]
    for needed in needed_by(records, person):
        last, again = last_trained(person, needed, job.date), records.values.get(needed.again)
        if not counts(last, again, job.date):
            yield About("artist", needed).at(
                level_when_over(rule_of(records, needed)),
                f"{person.name}, {needed.name}: {why_over(last, again)}.",
                "Repeat it before the day, and write its date down.",
            )
        if unsigned := _unsigned(records, person, needed, job.date):
            yield About("artist", needed.origin_at("texts")).care(
                f"{person.name}, {needed.name}: not signed in the text that counts: {', '.join(unsigned)}.",
                "Read it, show it done, and have it signed before the day.",
            )


def _unsigned(records: Records, person: Person, needed: RequiredTraining, on: datetime.date) -> list[str]:
    """The procedures of a training that nobody signed by this day, or signed before they changed in meaning."""
    return [
        f"{procedure.id.replace('-', ' ')} ({'changed since' if signed else 'never'})"
        for procedure in (
            records.procedures[text] for text in needed.texts if not is_over(records.procedures[text].until, on)
        )
        for signed in [[s for s in person.signed if s.procedure == procedure.id and s.on <= on]]
        if not any(all(later.date > on for later in changed_since(procedure, s.text)) for s in signed)
    ]


def _packs(records: Records, tray: Tray, on: datetime.date) -> Iterator[Finding]:
    """Packs on the tray of which one on the shelf is past its date on the day, or of which nobody has looked."""
    level = level_when_over(records.studio.expires.sterile_packs)
    remedy = "Look at the date of every pack before it is opened, throw away what is past it, and write down the next."
    on_shelf = [(one, one.shelf) for one in map(records.groupings.__getitem__, tray.groupings) if one.shelf is not None]
    dated = [
        (f"Packs of {one.label}", About(one, one.origin_at("shelf"), records.studio), shelf.first_expires)
        for one, shelf in on_shelf
    ]
    dated += [
        (one.supply.name, About(one.supply, one.supply.first_expires), one.supply.first_expires)
        for counted in tray.supplies
        for one in (counted, counted.or_else)
        if one is not None and not one.instead
    ]
    for what, about, first in dated:
        if first is not None and first < on:
            yield about.at(level, f"{what}: the earliest on the shelf was good until {first.isoformat()}.", remedy)
    if unknown := [grouping for grouping, shelf in on_shelf if shelf.first_expires is None]:
        about = About("groupings", unknown[0].origin_at("shelf"), records.studio)
        labels = ", ".join(grouping.label for grouping in unknown)
        yield about.look_up_unless_care(level, f"No expiry on file for packs of {labels}.", remedy)


def _spore_tests(records: Records, on: datetime.date) -> Iterator[Finding]:
    """The last spore test that passed, too long before the day of the job; nothing where all is single-use."""
    for test in spore_tests(records, on):
        if test.state(on) == OVER:
            counted = "" if test.until is None else f", which counts until {test.until.isoformat()}"
            yield About("loads", records.studio.origin_at("expires"), records.studio).at(
                level_when_over(test.rule),
                f"{test.what}: {test.since}{counted}.",
                "Take single-use for this job, or wait until a load with a spore test has passed.",
            )


def _patch_tests(records: Records, job: Job) -> Iterator[Finding]:
    """A patch test of this client that showed something, which tells its level alone, or that is too old."""
    rule = records.studio.expires.patch_tests
    age = age_by(records, rule)
    counted = "Nobody decided for how long it counts." if rule is None else f"That counts for {said(age)}."
    for test in job.patch_tests:
        if not test.nothing_seen:
            yield private_finding(About("patch_tests", test.origin_at("nothing_seen"), records.studio), "wait")
        elif not counts(test.on, age, job.date):
            yield About("patch_tests", test.origin_at("on"), records.studio).at(
                level_when_over(rule),
                f"A patch test was made on {test.on.isoformat()}. {counted}",
                "Make it again and look at it in time, or choose another day. It proves no ink safe.",
            )


def _local_rules(records: Records, on: datetime.date) -> Iterator[Finding]:
    """The local rules that nobody has confirmed, or too long ago, in one sentence."""
    each = zip(records.studio.local_rules, local_rules(records, on), strict=True)
    over = [rule.topic for rule, local in each if local.state(on) == OVER]
    if over:
        names = ", ".join(over).lower()
        yield About("local_rules", records.studio.origin_at("local_rules"), records.studio).at(
            level_when_over(records.studio.expires.local_rules),
            f"{how_many(len(over), 'local rule is', 'local rules are')} not confirmed, or too long ago: {names}.",
            "Ask who decides it here, and write down that it is confirmed, and when.",
        )
