"""One studio and one job make one plan.

A plan answers in this order: may it go ahead, and why; where it sits; with what settings, in which order; how
long; what lies on the tray; when to come back. One that may not go ahead has reasons and what would clear
them, and no working steps.
"""

from __future__ import annotations

import datetime
import math
from collections.abc import Iterator
from dataclasses import dataclass

from generator.diagnostics import Diagnostic, Place, Report
from generator.planning.learning import NOTHING, Learned, Lesson, at_their_pace, lessons_for
from generator.planning.reckoning import Named, Reckoned, ReckonedDay, Recorded, reckon, recorded, rectangle
from generator.planning.screening import allergy_findings, screening_findings
from generator.planning.skin import ScarReading, mole_findings, no_scars_on_file, read_scars
from generator.planning.spacing import spacing_findings
from generator.planning.timetable import Timetable, timetable_of
from generator.planning.tray import Tray, barred_findings, ink_findings, tray_of
from generator.planning.verdict import RANK, Finding, Verdict, verdict_of
from generator.planning.work import Order, Step, order_of_work
from generator.quantities import significant
from generator.records.families import Records
from generator.records.fields import When
from generator.records.jobs import Job
from generator.records.people import Person
from generator.records.sites import Site
from generator.trade import body, colour, dates, palette
from generator.trade.refusal import Refusal


@dataclass(frozen=True, slots=True)
class Placement:
    """Where it sits. The wrap and what is seen at once need a taped girth."""

    width: Recorded
    height: Recorded
    area: Reckoned
    wrap: Reckoned | None
    seen: Reckoned | None


@dataclass(frozen=True, slots=True)
class Work:
    """Everything a piece needs that may go ahead. `lessons` are what its learned times rest on."""

    steps: tuple[Step, ...]
    timetable: Timetable
    tray: Tray
    touch_up: tuple[datetime.date, datetime.date]
    lessons: tuple[Lesson, ...] = ()


@dataclass(frozen=True, slots=True)
class JobPlan:
    """The plan of one job. `work` is None when it may not go ahead.

    kept_until: the last day on which the record of a finished job is kept at least.
    """

    job: Job
    artist: Person
    site: Site
    verdict: Verdict
    findings: tuple[Finding, ...]
    scars: tuple[ScarReading, ...]
    placement: Placement
    work: Work | None
    kept_until: ReckonedDay | None = None


def plan(records: Records, job: Job, learned: Learned = NOTHING) -> tuple[JobPlan | None, Report]:
    """The plan, or None and what has to be mended in the job first. `learned` only adds times, and changes none."""
    report = tuple(_contradictions(job))
    if report:
        return None, report
    scars = read_scars(records, job)
    order = order_of_work(records, job, scars)
    placement, refused = _placement(job)
    if order.report or refused:
        return None, (*order.report, *refused)
    steps = at_their_pace(job, order.steps, learned)
    timetable = timetable_of(records, job, steps)
    tray = tray_of(records, job, steps, timetable)
    findings = tuple(
        sorted(
            [
                *screening_findings(records, job),
                *allergy_findings(records, job),
                *no_scars_on_file(records, job),
                *(finding for scar in scars for finding in scar.findings),
                *mole_findings(records, job),
                *_people_findings(records, job, order),
                *_piece_findings(records, job, timetable),
                *ink_findings(records, tray),
                *spacing_findings(records, order.steps),
                *barred_findings(records, tray, job.date),
                *_taste(records, job),
            ],
            key=lambda f: -RANK[f.level],
        )
    )
    verdict = verdict_of(findings)
    work = None
    if verdict.goes_ahead:
        work = Work(steps, timetable, tray, _touch_up(records, job, scars), lessons_for(job, steps, learned))
    made = JobPlan(
        job, records.people[job.artist], records.sites[job.place], verdict, findings, scars, placement, work,
        _kept_until(records, job),
    )  # fmt: skip
    return made, ()


def _kept_until(records: Records, job: Job) -> ReckonedDay | None:
    if job.finished is None:
        return None
    limits, ended = records.studio.limits, job.finished.on
    years = limits.retention_years
    inputs = (
        ("last_entry", Named(ended, ended.isoformat(), f"jobs.{job.id}.finished.on")),
        ("years", Recorded(years, years, "number", "studio.limits.retention", limits.retention_source)),
    )
    return ReckonedDay(dates.retention_end(ended, years), dates.retention_end, inputs)


def _contradictions(job: Job) -> Iterator[Diagnostic]:
    """What the job says against itself."""
    width, height = job.size
    for part in job.parts:
        x, y, across, down = part.box
        if significant(x.low + across.low) > width.low or significant(y.low + down.low) > height.low:
            place = x.place or part.id.place
            yield Diagnostic(
                "J611", place, f"part {part.id} reaches beyond the piece",
                f"{x.low + across.low:g} mm across, {y.low + down.low:g} mm down",
                f"at most {width.low:g} mm across, {height.low:g} mm down", "mend its box, or the size of the piece",
            )  # fmt: skip
    for scar in job.scars or ():
        if scar.wound is not None and earliest_day(scar.wound) > job.date:
            yield _late(scar.wound.place or scar.id.place, f"the wound of scar {scar.id}", scar.wound.day, job.date)
    if job.screening is not None and job.screening.asked > job.date:
        yield _late(job.screening.asked.place, "the screening", job.screening.asked, job.date)


def earliest_day(wound: When) -> datetime.date:
    """The first day on which the wound can have happened."""
    return wound.day if wound.exact else wound.day.replace(day=1)


def _late(place: Place, what: str, when: datetime.date, on: datetime.date) -> Diagnostic:
    return Diagnostic(
        "J612", place, f"{what} is dated after the sitting", str(when), f"a day up to {on}",
        "mend one of the two dates",
    )  # fmt: skip


def _placement(job: Job) -> tuple[Placement, Report]:
    where = f"jobs.{job.id}"
    width, height = (recorded(side, f"{where}.size") for side in job.size)
    area = reckon(rectangle, "area", width=width, height=height)
    if job.girth is None:
        return Placement(width, height, area, None, None), ()
    # The narrower end of the limb is the one that wraps farthest.
    narrow = min(job.girth.top, job.girth.bottom, key=lambda girth: girth.low)
    girth = recorded(narrow, f"{where}.girth")
    try:
        wrap = reckon(body.wrap_angle, "angle", width=width, girth=girth)
        seen = reckon(body.share_seen, "number", width=width, girth=girth)
    except Refusal as refusal:
        mistake = Diagnostic(
            "A902", narrow.place or job.id.place, f"found {refusal.found}, expected {refusal.expected}", refusal.found,
            refusal.expected, refusal.remedy,
        )  # fmt: skip
        return Placement(width, height, area, None, None), (mistake,)
    return Placement(width, height, area, wrap, seen), ()


def _people_findings(records: Records, job: Job, order: Order) -> Iterator[Finding]:
    person, site = records.people[job.artist], records.sites[job.place]
    barred = sorted({s.setting.technique.id for s in order.steps} - set(person.may))
    if barred:
        yield Finding(
            "wait", f"{person.name} is not cleared for {', '.join(barred)}.", "Give the piece to someone who is.",
            "artist", f"people.{person.id}.may", records.studio.source,
        )  # fmt: skip
    if person.role != "artist":
        for rule, where, says in (
            ("studio.limits.apprentice_pieces", "a client's piece", records.studio.limits.apprentice_pieces),
            (f"sites.{site.id}.apprentice", site.name, site.apprentice),
        ):
            supervised = says == "supervised"
            yield Finding(
                "care" if supervised else "wait",
                f"{person.name} is an {person.role}; for {where} the studio says: {says}.",
                "An artist stands beside the whole time." if supervised else "An artist decides, or does the piece.",
                "artist", rule, site.source if rule.startswith("sites") else records.studio.source,
            )  # fmt: skip
        alone = sorted({s.setting.technique.id for s in order.steps if not s.setting.technique.may_apprentice})
        if alone:
            yield Finding(
                "wait", f"{', '.join(alone)} is not for an apprentice.", "An artist does these steps.", "artist",
                f"techniques.{alone[0]}.may_apprentice", records.studio.source,
            )  # fmt: skip


def _piece_findings(records: Records, job: Job, timetable: Timetable) -> Iterator[Finding]:
    limits, source = records.studio.limits, records.studio.source
    if job.girth is None and records.sites[job.place].limb:
        yield Finding(
            "care", "The girth is not taped.", "Tape it standing and relaxed, and write it into the job.", "girth",
            f"sites.{job.place}.limb", source, asks=True,
        )  # fmt: skip
    if timetable.sittings.high > 1:
        fewest, most = timetable.sittings.low, timetable.sittings.high
        planned = f"{fewest:g}" if fewest == most else f"{fewest:g} to {most:g}"
        yield Finding(
            "care", f"Longer than one sitting of {limits.sitting.text}: plan {planned}.",
            f"Agree where to stop; the same skin again after {limits.same_skin_again.text} at the earliest.", "parts",
            "studio.limits.sitting", source,
        )  # fmt: skip
    elif timetable.learned is not None and timetable.learned.sittings.high > 1:
        yield Finding(
            "care", f"At the pace of {records.people[job.artist].name}’s finished jobs longer than one sitting of "
            f"{limits.sitting.text}.", "Agree beforehand where to stop if it takes that long.", "parts",
            "studio.limits.sitting", source,
        )  # fmt: skip
    for number in timetable.breaks_within:
        yield Finding(
            "care", f"Step {number} is longer than the {limits.break_after.text} from break to break.",
            f"Break off within it, {limits.break_after.text} after the last break at the latest.", "parts",
            "studio.limits.break_after", source,
        )  # fmt: skip
    for part in job.parts:
        if part.gap is not None and part.gap.low < limits.line_gap.low:
            yield Finding(
                "care", f"Part {part.id}: a gap of {part.gap.text} will close.",
                f"Open it to {limits.line_gap.text} or leave lines out.", f"parts.{part.id}.gap",
                "studio.limits.line_gap", source,
            )  # fmt: skip


def _taste(records: Records, job: Job) -> Iterator[Finding]:
    """Notes, never more."""
    limits, source = records.studio.limits, records.studio.source
    used = {str(c.ink) for part in job.parts for c in part.colours}
    labs = {ink: colour.lab(records.inks[ink].swatch) for ink in used if records.inks[ink].kind == "colour"}
    strong = palette.strong_colours(labs, limits.strong_chroma)
    families = palette.hue_families({ink: labs[ink] for ink in strong}, limits.strong_chroma)
    if len(families) > limits.strong_colours:
        yield Finding(
            "note", f"{len(families)} strong colours: {', '.join(sorted(strong))}.",
            f"{limits.strong_colours} commonly carry a piece and the rest steps back.", "parts",
            "studio.limits.strong_colours", source,
        )  # fmt: skip
    if not any(part.focal for part in job.parts):
        yield Finding(
            "note", "No part is marked as the focal point.",
            "Say which one the eye rests on; until then the main part counts as it over a scar.", "parts",
            "parts.focal", source,
        )  # fmt: skip


def _touch_up(records: Records, job: Job, scars: tuple[ScarReading, ...]) -> tuple[datetime.date, datetime.date]:
    """Earliest and latest touch-up; later where scars are crossed or strong colours were packed."""
    limits = records.studio.limits
    slow = any(scar.crossed_by for scar in scars) or any(
        palette.strong_colours({c.ink: colour.lab(records.inks[c.ink].swatch)}, limits.strong_chroma)
        for part in job.parts for c in part.colours if records.inks[c.ink].kind == "colour"
    )  # fmt: skip
    days = limits.touch_up_slow if slow else limits.touch_up
    # Whole weeks, rounded to the later day: nobody is asked back too early.
    window = dates.touch_up_window(job.date, math.ceil(days.low / 7), math.ceil(days.high / 7))
    return window.opens, window.closes
