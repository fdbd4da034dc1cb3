"""What counts only for a time: what a dial was measured to do, and training. What was never given counts as past it."""

from __future__ import annotations

import datetime
from collections.abc import Iterator

from generator.diagnostics import Diagnostic
from generator.origins import origin_of
from generator.planning.findings.verdict import Finding, Level
from generator.planning.working.calibration import calibration_for, cartridge_of
from generator.planning.working.steps import Step
from generator.quantities import Quantity, as_written
from generator.records.ended import is_over
from generator.records.expires import Expiry
from generator.records.families import Records
from generator.records.jobs import Job
from generator.records.machines import Calibration
from generator.records.people import CHECK, Person, RequiredTraining, Training
from generator.records.procedures import changed_since
from generator.records.values import Value
from generator.trade import dates


def last_good_day(start: datetime.date, counts_for: Quantity | None) -> datetime.date | None:
    """The last day on which it counts; None where the age is not one of days or months, so that nobody knows."""
    if counts_for is None:
        return None
    if counts_for.kind == "months":
        return dates.add_months(start, int(counts_for.low))
    if counts_for.kind == "days":
        return start + datetime.timedelta(days=int(counts_for.low))
    return None


def counts(start: datetime.date, counts_for: Quantity | None, on: datetime.date) -> bool:
    """Whether what was done on `start` still counts on this day; what is done later does not count yet."""
    end = last_good_day(start, counts_for)
    return end is not None and start <= on <= end


def level_when_over(rule: Expiry | None) -> Level:
    """What follows on the day of the job when something is over; without a rule it waits."""
    return "wait" if rule is None else rule.on_the_day  # type: ignore[return-value]


def rule_of(records: Records, needed: RequiredTraining) -> Expiry | None:
    """The rule under which a training or a check falls."""
    rules = records.studio.expires
    return rules.checks if needed.kind == CHECK else rules.training


def calibration_findings(records: Records, job: Job, steps: tuple[Step, ...]) -> Iterator[Finding]:
    """A dial in volts that was last measured too long before the day of the job."""
    age = calibration_age(records)
    used: dict[str, Calibration] = {}
    for step in steps:
        setting = step.setting
        if setting.machine.dial == "volts":
            found = calibration_for(records, setting.machine, setting.stroke.low, cartridge_of(setting.grouping))
            if found is not None:
                used.setdefault(found.id, found)
    for measured in used.values():
        end = last_good_day(measured.measured, age_of(age))
        if end is None or end < job.date:
            machine = records.machines[measured.machine]
            yield Finding(
                level_when_over(records.studio.expires.calibrations),
                f"{machine.name} was last measured on {measured.measured.isoformat()}. That counts for {said(age)}.",
                "Measure the dial again before the day, and write the points down.",
                measured.origin.path,
                origin_of(records.studio.limits.calibration_age) if age is None else age.origin,
            )


def training_findings(records: Records, job: Job) -> Iterator[Finding]:
    """A training or check that the artist's role needs, and that is not on file or too long ago on the day of the job.

    Of a check its name and day are said, as they stand under training; what was found stands nowhere.
    """
    person = records.people[job.artist]
    for needed in needed_by(records, person):
        if (gap := lacking(records, person, needed, job.date)) is not None:
            yield Finding(
                level_when_over(rule_of(records, needed)),
                f"{person.name}, {needed.name}: {gap}.",
                "Repeat it before the day, and write its date down.",
                "artist",
                needed.origin,
            )
        if unsigned := _unsigned(records, person, needed, job.date):
            yield Finding(
                "care",
                f"{person.name}, {needed.name}: not signed in the text that counts: {', '.join(unsigned)}.",
                "Read it, show it done, and have it signed before the day.",
                "artist",
                needed.origin_at("texts"),
            )


def newest_calibrations(records: Records, on: datetime.date) -> list[Calibration]:
    """The last measured points of each setting, of machines that are here on this day."""
    newest: dict[tuple[str, float, str], Calibration] = {}
    for measured in records.calibrations.values():
        if is_over(records.machines[measured.machine].until, on):
            continue
        key = (measured.machine, measured.stroke.low, measured.cartridge)
        newest[key] = max(newest.get(key, measured), measured, key=lambda one: one.measured)
    return list(newest.values())


def age_reminders(records: Records, on: datetime.date) -> Iterator[Diagnostic]:
    """Dials to measure again, and trainings to repeat, on this day. They stop nothing."""
    age = calibration_age(records)
    for measured in newest_calibrations(records, on):
        end = last_good_day(measured.measured, age_of(age))
        if end is None or end < on:
            yield Diagnostic(
                "H724",
                measured.measured.place,
                found=f"“{measured.measured.isoformat()}”",
                expected=f"a day not longer ago than {said(age)}",
                help="measure it again, and write the points and the day down; until then its sheets say so",
                says=f"the dial of `{measured.machine}` was last measured on {measured.measured.isoformat()}",
            )
    for person in (one for one in records.people.values() if not is_over(one.until, on)):
        for needed in needed_by(records, person):
            if (gap := lacking(records, person, needed, on)) is not None:
                yield Diagnostic(
                    "H725",
                    person.id.place,
                    found="nothing that counts",
                    expected=(
                        f"a {needed.kind} that counts as `{needed.id}`, not longer ago than "
                        f"{said(records.values.get(needed.again))}"
                    ),
                    help=f"repeat it, and add `{{what: {needed.name}, on: {on.isoformat()}, counts_as: {needed.id}}}`",
                    says=f"`{person.id}`, {needed.name.lower()}: {gap}",
                )


def calibration_age(records: Records) -> Value | None:
    return records.values.get(records.studio.limits.calibration_age)


def needed_by(records: Records, person: Person) -> Iterator[RequiredTraining]:
    return (needed for needed in records.required_training.values() if person.role in needed.roles)


def lacking(records: Records, person: Person, needed: RequiredTraining, on: datetime.date) -> str | None:
    """Why the training does not count on this day; None where it does."""
    had: list[Training] = [t for t in person.training if t.counts_as == needed.id and t.on <= on]
    if not had:
        return "not on file"
    again, last = records.values.get(needed.again), max(t.on for t in had)
    if counts(last, age_of(again), on):
        return None
    return f"last on {last.isoformat()}, which counts for {said(again)}"


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


def age_of(value: Value | None) -> Quantity | None:
    return None if value is None else value.is_


def said(age: Value | None) -> str:
    return "a time that is not on file" if age is None else as_written(age.is_.text)
