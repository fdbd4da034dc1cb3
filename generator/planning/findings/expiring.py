"""Everything that counts only for a time, by its last day; what is over on the day of a job, and what is soon.

What nobody wrote down until when it counts, counts as over. A patch test belongs to one client: it stands on that
job's sheet and in the check, and in no list.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from typing import NamedTuple, get_args

from generator.diagnostics import Diagnostic, Place
from generator.origins import Origin
from generator.planning.findings.lapsed import (
    age_of,
    calibration_age,
    counts,
    last_good_day,
    level_when_over,
    needed_by,
    newest_calibrations,
    rule_of,
    said,
)
from generator.planning.findings.private import private_finding
from generator.planning.findings.verdict import Finding
from generator.planning.supplies.tray import Tray, good_until
from generator.quantities import Quantity
from generator.records.ended import is_over
from generator.records.expires import Expires, Expiry, ExpiryAfter
from generator.records.families import Records
from generator.records.jobs import Job
from generator.records.located import Text
from generator.records.people import TRAINING

OVER, SOON, GOOD = "over", "soon", "good"


class Expiring(NamedTuple):
    """One thing that counts only for a time.

    kind: the field of `expires` in studio.yml that it falls under; family, entry: where it is written. since: what was
    done on which day, in words. until: the last day on which it counts; None where nobody knows. renew: what to do.
    told: whether the check has a reminder of its own for it once it is over.
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
    told: bool = False

    def state(self, on: datetime.date) -> str:
        """Over, soon or good on this day; without a rule nobody is reminded before."""
        if self.until is None or self.until < on:
            return OVER
        ahead = datetime.timedelta(days=int(self.rule.remind.low) if self.rule else 0)
        return SOON if self.until - on < ahead else GOOD


def expiring(records: Records, on: datetime.date) -> list[Expiring]:
    """Everything that is here on this day and counts only for a time, the first to end first."""
    found = [
        *_inks(records, on),
        *_packs(records, on),
        *_spores(records, on),
        *_dials(records, on),
        *_people(records, on),
        *_local_rules(records, on),
    ]
    return sorted(found, key=lambda each: (each.until or datetime.date.min, each.kind, each.what))


def _inks(records: Records, on: datetime.date) -> Iterator[Expiring]:
    """Each bottle that is neither used up nor recalled, of an ink that is still here."""
    for ink in records.inks.values():
        for lot in ink.lots if not is_over(ink.until, on) else ():
            if lot.until is not None and lot.until.is_over(on):
                continue
            if lot.opened is not None:
                since = f"opened {lot.opened.isoformat()}"
            else:
                since = "sealed" if lot.sealed else "day of opening not on file"
            until = good_until(ink, lot) if lot.known else None
            renew = "open a new bottle and enter its lot, and write `until` behind this one"
            if until is None:
                renew = "look on the bottle, and write `opened`, or `sealed: yes`"
            what = f"{ink.name}, {lot.lot}"
            yield Expiring(
                "opened_inks",
                what,
                "inks",
                ink.id,
                since,
                until,
                lot.lot.place,
                renew,
                records.studio.expires.opened_inks,
            )


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


def _spores(records: Records, on: datetime.date) -> Iterator[Expiring]:
    """The last spore test that passed; nothing where nothing is sterilized."""
    if not records.studio.reprocessing:
        return
    rule = records.studio.expires.spore_tests
    passed = [load for load in records.loads.values() if load.biological == "passed" and load.date <= on]
    last = max(passed, key=lambda load: load.date, default=None)
    place = Place(f"{records.folder}/loads.yml", 1, 1, 2) if last is None else last.id.place
    yield Expiring(
        "spore_tests",
        "Spore test of the sterilizer",
        "loads",
        "" if last is None else last.id,
        "none has passed" if last is None else f"passed {last.date.isoformat()}",
        None if last is None else last_good_day(last.date, _age(records, rule)),
        place,
        "run a load with a spore test, and write down what it showed",
        rule,
    )


def _dials(records: Records, on: datetime.date) -> Iterator[Expiring]:
    """The newest measured points of each setting of a machine that is here."""
    age = age_of(calibration_age(records))
    for measured in newest_calibrations(records, on):
        machine = records.machines[measured.machine]
        yield Expiring(
            "calibrations",
            f"Dial of {machine.name} at {measured.stroke.text}",
            "calibrations",
            measured.id,
            f"measured {measured.measured.isoformat()}",
            last_good_day(measured.measured, age),
            measured.measured.place,
            "measure it again, and write the points and the day down",
            records.studio.expires.calibrations,
            told=True,
        )


def _people(records: Records, on: datetime.date) -> Iterator[Expiring]:
    """What the role of each person who is here needs, by its latest day."""
    for person in records.people.values():
        for needed in needed_by(records, person) if not is_over(person.until, on) else ():
            days = [had.on for had in person.training if had.counts_as == needed.id and had.on <= on]
            last = max(days, default=None)
            yield Expiring(
                "training" if needed.kind == TRAINING else "checks",
                f"{person.name}, {needed.name}",
                "people",
                person.id,
                "not on file" if last is None else f"last on {last.isoformat()}",
                None if last is None else last_good_day(last, age_of(records.values.get(needed.again))),
                person.id.place if last is None else last.place,
                f"repeat it, and add `{{what: {needed.name}, on: {on.isoformat()}, counts_as: {needed.id}}}`",
                rule_of(records, needed),
                told=True,
            )


def _local_rules(records: Records, on: datetime.date) -> Iterator[Expiring]:
    """Each local rule; one that nobody has confirmed is over."""
    rule = records.studio.expires.local_rules
    age = _age(records, rule)
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


def _age(records: Records, rule: ExpiryAfter | None) -> Quantity | None:
    return None if rule is None else age_of(records.values.get(rule.again))


def pack_findings(records: Records, tray: Tray, on: datetime.date) -> Iterator[Finding]:
    """Packs on the tray of which one on the shelf is past its date on the day, or of which nobody has looked."""
    rule = records.studio.expires.sterile_packs
    level = level_when_over(rule)
    remedy = "Look at the date of every pack before it is opened, throw away what is past it, and write down the next."
    dated: list[tuple[str, Origin, Origin, datetime.date]] = []
    unknown = []
    for name in tray.groupings:
        grouping = records.groupings[name]
        if grouping.shelf is not None and grouping.shelf.first_expires is None:
            unknown.append(grouping)
        elif grouping.shelf is not None and grouping.shelf.first_expires is not None:
            by = grouping.origin_at("shelf").resting_on(records.studio.source)
            dated.append((f"Packs of {grouping.label}", grouping.origin, by, grouping.shelf.first_expires))
    for counted in tray.supplies:
        for one in (counted, *([counted.or_else] if counted.or_else else [])):
            if not one.instead and one.supply.first_expires is not None:
                supply = one.supply
                dated.append((supply.name, supply.origin, supply.origin_at("first_expires"), one.supply.first_expires))
    for what, about, by, first in dated:
        if first < on:
            reason = f"{what}: the earliest on the shelf was good until {first.isoformat()}."
            yield Finding(level, reason, remedy, about.path, by)
    if unknown:
        yield Finding(
            level,
            f"No expiry on file for packs of {', '.join(grouping.label for grouping in unknown)}.",
            remedy,
            "groupings",
            unknown[0].origin_at("shelf").resting_on(records.studio.source),
            asks=level != "care",
            looked_up=level != "care",
        )


def spore_findings(records: Records, on: datetime.date) -> Iterator[Finding]:
    """The last spore test that passed, too long before the day of the job; nothing where all is single-use."""
    for test in _spores(records, on):
        if test.state(on) == OVER:
            by = records.studio.origin_at("expires").resting_on(records.studio.source)
            yield Finding(
                level_when_over(test.rule),
                f"Spore test of the sterilizer: {test.since}"
                + ("." if test.until is None else f", which counts until {test.until.isoformat()}."),
                "Take single-use for this job, or wait until a load with a spore test has passed.",
                "loads",
                by,
            )


def patch_findings(records: Records, job: Job) -> Iterator[Finding]:
    """A patch test of this client that showed something, which tells its level alone, or that is too old."""
    rule = records.studio.expires.patch_tests
    for test in job.patch_tests:
        if not test.nothing_seen:
            yield private_finding("wait", "patch_tests", test.origin_at("nothing_seen"), records.studio)
        elif not counts(test.on, _age(records, rule), job.date):
            yield Finding(
                level_when_over(rule),
                f"A patch test was made on {test.on.isoformat()}. {_counts_for(records, rule)}",
                "Make it again and look at it in time, or choose another day. It proves no ink safe.",
                "patch_tests",
                test.origin_at("on").resting_on(records.studio.source),
            )


def _counts_for(records: Records, rule: ExpiryAfter | None) -> str:
    if rule is None:
        return "Nobody decided for how long it counts."
    return f"That counts for {said(records.values.get(rule.again))}."


def local_rule_findings(records: Records, on: datetime.date) -> Iterator[Finding]:
    """The local rules that nobody has confirmed, or too long ago, in one sentence."""
    over = [local for local in _local_rules(records, on) if local.state(on) == OVER]
    if over:
        names = ", ".join(local.what.removeprefix("Local rule: ").lower() for local in over)
        number = "1 local rule is" if len(over) == 1 else f"{len(over)} local rules are"
        yield Finding(
            level_when_over(records.studio.expires.local_rules),
            f"{number} not confirmed, or too long ago: {names}.",
            "Ask who decides it here, and write down that it is confirmed, and when.",
            "local_rules",
            records.studio.origin_at("local_rules").resting_on(records.studio.source),
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
        if state == GOOD or (state == OVER and each.told):
            continue
        if state == SOON:
            assert each.until is not None
            yield Diagnostic(
                "H741",
                each.place,
                found=each.since,
                expected=f"something that counts beyond {each.until.isoformat()}",
                help=each.renew,
                says=f"{each.what}: counts until {each.until.isoformat()}",
            )
        else:
            yield _over(each.place, each.what, each.since, each.until, each.renew)


def _no_rule(records: Records, kind: str, has_age: bool) -> Diagnostic:
    again = "again: VALUE, " if has_age else ""
    return Diagnostic(
        "H727",
        records.studio.source.place._replace(line=1, column=1, end=2),
        found="nothing",
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
    age = _age(records, rule)
    for test in job.patch_tests:
        until = last_good_day(test.on, age)
        if until is None or until < (max(job.date, on) if job.has_a_day else on):
            renew = "make it again, or move the job; its sheet says what follows"
            yield _over(test.on.place, f"a patch test of `{job.id}`", f"made {test.on.isoformat()}", until, renew)


def _over(place: Place, what: str, since: str, until: datetime.date | None, renew: str) -> Diagnostic:
    return Diagnostic(
        "H727",
        place,
        found=since,
        expected="something that still counts",
        help=renew,
        says=f"{what}: "
        + ("nobody knows until when it counts" if until is None else f"counted until {until.isoformat()}"),
    )
