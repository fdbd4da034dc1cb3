"""Everything that counts only for a time, by its last day: what is over on a day, and what is soon.

What nobody wrote down until when it counts, and what was never given, counts as over. A patch test belongs to one
client: it stands on that job's sheet and in the check, and in no list.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from typing import NamedTuple, get_args

from generator.diagnostics import Diagnostic, Place
from generator.grouped import grouped
from generator.planning.supplies.tray import good_until
from generator.quantities import as_written
from generator.records.days import Date
from generator.records.ended import is_over
from generator.records.expires import Expires, Expiry, ExpiryAfter
from generator.records.families import Records
from generator.records.jobs import Job
from generator.records.located import Text
from generator.records.people import TRAINING, Person, RequiredTraining
from generator.records.values import Value
from generator.trade import dates

OVER, SOON, GOOD = "over", "soon", "good"


class Expiring(NamedTuple):
    """One thing that counts only for a time.

    kind: the field of `expires` in studio.yml that it falls under; family, entry: where it is written. since: what was
    done on which day, in words. until: the last day on which it counts; None where nobody knows. renew: what to do.
    reminder: what the check says of it once it is over, where that is more than of others.
    """

    kind: str
    what: str
    family: str
    entry: str
    since: str
    until: datetime.date | None
    place: Place
    renew: str
    rule: Expiry | None
    reminder: Diagnostic | None = None

    def state(self, on: datetime.date) -> str:
        """Over, soon or good on this day; without a rule nobody is reminded before."""
        if self.until is None or self.until < on:
            return OVER
        ahead = datetime.timedelta(days=int(self.rule.remind.low) if self.rule else 0)
        return SOON if self.until - on < ahead else GOOD


def last_good_day(start: datetime.date, counts_for: Value | None) -> datetime.date | None:
    """The last day on which it counts; None where the age is not one of days or months, so that nobody knows."""
    age = None if counts_for is None else counts_for.is_
    if age is not None and age.kind == "months":
        return dates.add_months(start, int(age.low))
    return start + datetime.timedelta(days=int(age.low)) if age is not None and age.kind == "days" else None


def counts(start: datetime.date | None, counts_for: Value | None, on: datetime.date) -> bool:
    """Whether what was done on `start` still counts on this day; what is done later does not count yet."""
    end = None if start is None else last_good_day(start, counts_for)
    return start is not None and end is not None and start <= on <= end


def said(age: Value | None) -> str:
    return "a time that is not on file" if age is None else as_written(age.is_.text)


def age_by(records: Records, rule: ExpiryAfter | None) -> Value | None:
    """The value that says for how long something counts; None where there is no rule or no such value."""
    return None if rule is None else records.values.get(rule.again)


def calibration_age(records: Records) -> Value | None:
    return records.values.get(records.studio.limits.calibration_age)


def needed_by(records: Records, person: Person) -> Iterator[RequiredTraining]:
    return (needed for needed in records.required_training.values() if person.role in needed.roles)


def rule_of(records: Records, needed: RequiredTraining) -> Expiry | None:
    """The rule under which a training or a check falls."""
    rules = records.studio.expires
    return rules.training if needed.kind == TRAINING else rules.checks


def last_trained(person: Person, needed: RequiredTraining, on: datetime.date) -> Date | None:
    """The latest day, until this one, of what counts as a training or a check."""
    return max((had.on for had in person.training if had.counts_as == needed.id and had.on <= on), default=None)


def why_over(last: datetime.date | None, age: Value | None) -> str:
    return "not on file" if last is None else f"last on {last.isoformat()}, which counts for {said(age)}"


def expiring(records: Records, on: datetime.date) -> list[Expiring]:
    """Everything that is here on this day and counts only for a time, the first to end first."""
    found = [
        *_inks(records, on),
        *_packs(records, on),
        *spore_tests(records, on),
        *_dials(records, on),
        *_people(records, on),
        *local_rules(records, on),
    ]
    return sorted(found, key=lambda each: (each.until or datetime.date.min, each.kind, each.what))


def _inks(records: Records, on: datetime.date) -> Iterator[Expiring]:
    """Each bottle that is neither used up nor recalled, of an ink that is still here."""
    rule = records.studio.expires.opened_inks
    for ink in records.inks.values():
        for lot in ink.lots:
            if is_over(ink.until, on) or is_over(lot.until, on):
                continue
            since = "sealed" if lot.sealed else "day of opening not on file"
            if lot.opened is not None:
                since = f"opened {lot.opened.isoformat()}"
            until = good_until(ink, lot) if lot.known else None
            renew = "open a new bottle and enter its lot, and write `until` behind this one"
            if until is None:
                renew = "look on the bottle, and write `opened`, or `sealed: yes`"
            what = f"{ink.name}, {lot.lot}"
            yield Expiring("opened_inks", what, "inks", ink.id, since, until, lot.lot.place, renew, rule)


def _packs(records: Records, on: datetime.date) -> Iterator[Expiring]:
    """What has a printed date: groupings that stand on the shelf, and articles with a date on file."""
    rule = records.studio.expires.sterile_packs
    renew = "look at every pack, throw away what is past its date, and write the earliest date that is left"
    for grouping in records.groupings.values():
        if grouping.shelf is None or is_over(grouping.until, on):
            continue
        first = grouping.shelf.first_expires
        since = "date not on file" if first is None else "earliest date on a pack"
        what = f"Packs of {grouping.label}"
        yield Expiring("sterile_packs", what, "groupings", grouping.id, since, first, grouping.id.place, renew, rule)
    for supply in records.supplies.values():
        if supply.first_expires is None or is_over(supply.until, on):
            continue
        place, first = supply.first_expires.place, supply.first_expires
        since = "earliest date on one"
        yield Expiring("sterile_packs", supply.name, "supplies", supply.id, since, first, place, renew, rule)


def spore_tests(records: Records, on: datetime.date) -> Iterator[Expiring]:
    """The last spore test that passed; nothing where nothing is sterilized."""
    if not records.studio.reprocessing:
        return
    rule = records.studio.expires.spore_tests
    passed = [load for load in records.loads.values() if load.biological == "passed" and load.date <= on]
    entry, since, until, place = "", "none has passed", None, Place(f"{records.folder}/loads.yml", 1, 1, 2)
    if passed:
        last = max(passed, key=lambda load: load.date)
        entry, since, place = last.id, f"passed {last.date.isoformat()}", last.id.place
        until = last_good_day(last.date, age_by(records, rule))
    what, renew = "Spore test of the sterilizer", "run a load with a spore test, and write down what it showed"
    yield Expiring("spore_tests", what, "loads", entry, since, until, place, renew, rule)


def _dials(records: Records, on: datetime.date) -> Iterator[Expiring]:
    """The newest measured points of each setting of a machine that is here."""
    here = (one for one in records.calibrations.values() if not is_over(records.machines[one.machine].until, on))
    settings = grouped(((one.machine, one.stroke.low, one.cartridge), one) for one in here)
    age, renew = calibration_age(records), "measure it again, and write the points and the day down"
    for measured in (max(same, key=lambda one: one.measured) for same in settings.values()):
        day = measured.measured.isoformat()
        yield Expiring(
            "calibrations",
            f"Dial of {records.machines[measured.machine].name} at {measured.stroke.text}",
            "calibrations",
            measured.id,
            f"measured {day}",
            last_good_day(measured.measured, age),
            measured.measured.place,
            renew,
            records.studio.expires.calibrations,
            Diagnostic(
                "H724",
                measured.measured.place,
                found=f"“{day}”",
                expected=f"a day not longer ago than {said(age)}",
                help=f"{renew}; until then its sheets say so",
                says=f"the dial of `{measured.machine}` was last measured on {day}",
            ),
        )


def _people(records: Records, on: datetime.date) -> Iterator[Expiring]:
    """What the role of each person who is here needs, by its latest day."""
    for person in records.people.values():
        for needed in needed_by(records, person) if not is_over(person.until, on) else ():
            last, again = last_trained(person, needed, on), records.values.get(needed.again)
            renew = f"repeat it, and add `{{what: {needed.name}, on: {on.isoformat()}, counts_as: {needed.id}}}`"
            yield Expiring(
                "training" if needed.kind == TRAINING else "checks",
                f"{person.name}, {needed.name}",
                "people",
                person.id,
                "not on file" if last is None else f"last on {last.isoformat()}",
                None if last is None else last_good_day(last, again),
                person.id.place if last is None else last.place,
                renew,
                rule_of(records, needed),
                Diagnostic(
                    "H725",
                    person.id.place,
                    found="nothing that counts",
                    expected=f"a {needed.kind} that counts as `{needed.id}`, not longer ago than {said(again)}",
                    help=renew,
                    says=f"`{person.id}`, {needed.name.lower()}: {why_over(last, again)}",
                ),
            )


def local_rules(records: Records, on: datetime.date) -> Iterator[Expiring]:
    """Each local rule; one that nobody has confirmed is over."""
    rule = records.studio.expires.local_rules
    age = age_by(records, rule)
    for local in records.studio.local_rules:
        since = "not confirmed"
        if local.confirmed:
            since = "confirmed, day not on file" if local.on is None else f"confirmed {local.on.isoformat()}"
        yield Expiring(
            "local_rules",
            f"Local rule: {local.topic}",
            "studio",
            "local-rules",
            since,
            None if local.on is None else last_good_day(local.on, age),
            local.topic.place if isinstance(local.topic, Text) else Place(f"{records.folder}/studio.yml", 1, 1, 2),
            f"ask what its `ask` says, and write `confirmed: yes` and `on: {on.isoformat()}`",
            rule,
        )


def expiry_reminders(records: Records, on: datetime.date) -> Iterator[Diagnostic]:
    """What is over on this day, what soon will be, and what no rule says anything about. They stop nothing."""
    found = expiring(records, on)
    kinds = {each.kind for each in found}
    for kind, info in Expires.model_fields.items():
        if kind in kinds and getattr(records.studio.expires, kind) is None:
            yield _no_rule(records, kind, ExpiryAfter in get_args(info.annotation))
    for each in found:
        state = each.state(on)
        if state == OVER:
            yield each.reminder or _over(each)
        elif state == SOON:
            assert each.until is not None
            yield Diagnostic(
                "H741",
                each.place,
                found=each.since,
                expected=f"something that counts beyond {each.until.isoformat()}",
                help=each.renew,
                says=f"{each.what}: counts until {each.until.isoformat()}",
            )


def _no_rule(records: Records, kind: str, has_age: bool) -> Diagnostic:
    again = "again: VALUE, " if has_age else ""
    return Diagnostic(
        "H727",
        records.studio.source.place._replace(line=1, column=1, end=2),
        expected=f"`{kind}` under `expires`",
        help=f"write `{kind}: {{{again}remind: DAYS, on_the_day: care}}` there"
        + (", with the value of values.yml that says for how long it counts" if has_age else "")
        + "; until then a job waits for it",
        says=f"no rule says what follows when {kind.replace('_', ' ')} are over",
    )


def patch_reminders(records: Records, job: Job, on: datetime.date) -> Iterator[Diagnostic]:
    """A patch test of a job that is still to come, and that will not count on its day. What it showed is not said."""
    if job.finished is not None:
        return
    rule = records.studio.expires.patch_tests
    what, renew = f"a patch test of `{job.id}`", "make it again, or move the job; its sheet says what follows"
    for test in job.patch_tests:
        since, until = f"made {test.on.isoformat()}", last_good_day(test.on, age_by(records, rule))
        made = Expiring("patch_tests", what, "jobs", job.id, since, until, test.on.place, renew, rule)
        if made.state(max(job.date, on) if job.has_a_day else on) == OVER:
            yield _over(made)


def _over(each: Expiring) -> Diagnostic:
    until = "nobody knows until when it counts" if each.until is None else f"counted until {each.until.isoformat()}"
    return Diagnostic(
        "H727",
        each.place,
        found=each.since,
        expected="something that still counts",
        help=each.renew,
        says=f"{each.what}: {until}",
    )
