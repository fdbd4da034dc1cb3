"""One studio and one job make one plan.

A plan answers in this order: may it go ahead, and why; where it sits; with what settings, in which order; how
long; what lies on the tray; when to come back. One that may not go ahead has reasons and what would clear
them, and no working steps. Heavy colour, which heals for longer, is an area (`limits.heavy_colour`) and not the
presence of a strong ink.
"""

from __future__ import annotations

import datetime
from dataclasses import dataclass, replace
from typing import NamedTuple

from generator.diagnostics import Diagnostic, Report
from generator.planning.checklist import PausePoint, WorkOfDay, checklist_of
from generator.planning.computed import Answered, Computed
from generator.planning.findings.allergies import allergy_findings
from generator.planning.findings.at_once import clash_findings, clash_reminders
from generator.planning.findings.bands import band_findings
from generator.planning.findings.composition import composition_findings
from generator.planning.findings.contradictions import contradictions
from generator.planning.findings.decisions import decision_findings
from generator.planning.findings.ended import ended_by_default, ended_in_job
from generator.planning.findings.existing_tattoos import existing_tattoo_findings
from generator.planning.findings.inks import barred_findings, ink_findings
from generator.planning.findings.lapsed import lapsed_findings
from generator.planning.findings.on_the_day import (
    healing_findings,
    mix_findings,
    numbing_findings,
    pose_findings,
    vibration_findings,
)
from generator.planning.findings.people import people_findings, where_all_is_clear
from generator.planning.findings.piece import piece_findings
from generator.planning.findings.private import is_private
from generator.planning.findings.screening import screening_findings
from generator.planning.findings.skin import skin_findings
from generator.planning.findings.states import State
from generator.planning.findings.tone import Tone, tone_of
from generator.planning.findings.unusual_settings import unusual_settings
from generator.planning.findings.verdict import RANK, Finding, Verdict, verdict_of
from generator.planning.supplies.cost import Cost, cost_of
from generator.planning.supplies.tray import Tray, tray_of, trays_together
from generator.planning.timing.booked import Booked, booked_in
from generator.planning.timing.clashes import Clash
from generator.planning.timing.coming_back import kept_until, touch_up
from generator.planning.timing.learning import NOTHING, Learned, Lesson, Timed, lessons_for, times_of
from generator.planning.timing.open_in_sittings import in_sittings
from generator.planning.timing.sittings import Sitting, Stint, visit_of
from generator.planning.timing.timetable import Timetable, timetable_of, timetable_of_sitting
from generator.planning.timing.zones import ZoneStep, zones_of
from generator.planning.working.bands import ClosedBand, closed_bands
from generator.planning.working.placement import Placement, placement_of
from generator.planning.working.scars import ScarReading
from generator.planning.working.steps import COLOURS, Chosen, LaidOut, Step, changes_of, order_of_work
from generator.planning.working.still_here import records_on
from generator.records.families import Records
from generator.records.ids import Reference
from generator.records.jobs import Job
from generator.records.people import Person
from generator.records.sites import Site
from generator.trade import dates


@dataclass(frozen=True, slots=True)
class Enquiry:
    """What an enquiry is answered with before its client was asked anything. It promises no day and sets nothing.

    whole: minutes from seat to door, of all sittings; each: those of each sitting, as they would be booked.
    questions: what the client is asked before the first sitting. cost: None where no price is on file.
    """

    whole: Computed
    each: tuple[Computed, ...]
    sittings: tuple[Sitting, ...]
    questions: tuple[str, ...]
    cost: Cost | None


@dataclass(frozen=True, slots=True)
class AtHand:
    """The sitting on the day of the job: its steps with what is worked of them today, its times, its tray."""

    sitting: Sitting
    steps: tuple[Step, ...]
    timetable: Timetable
    tray: Tray
    zones: tuple[ZoneStep, ...]

    @property
    def numbered(self) -> tuple[tuple[Stint, Step], ...]:
        """Each step of today with its number in the piece and the share of it that is worked."""
        return tuple(zip(self.sitting.stints, self.steps, strict=True))


@dataclass(frozen=True, slots=True)
class Work:
    """Everything a piece needs that may go ahead. Steps, timetable and tray are those of the whole piece.

    order: by part or by ink, and what is changed in either. sittings: how it is split; at_hand: what is worked of it
    on the day of the job, with its own times and tray. lessons: what its learned times rest on. checklist: the boxes
    of the pause points of this sitting.
    """

    steps: tuple[Step, ...]
    order: Chosen
    timetable: Timetable
    tray: Tray
    touch_up: Answered[dates.Window]
    sittings: tuple[Sitting, ...]
    at_hand: AtHand
    lessons: tuple[Lesson, ...] = ()
    checklist: tuple[PausePoint, ...] = ()

    @property
    def next_sitting(self) -> Sitting | None:
        """The sitting after the one at hand; None when the piece is finished in it."""
        return next(iter(self.sittings[self.at_hand.sitting.number :]), None)


@dataclass(frozen=True, slots=True)
class JobPlan:
    """The plan of one job. `work` is None when it may not go ahead.

    steps: those of the piece, whether it may go ahead or not. kept_until: the last day on which the record of a
    finished job is kept at least. enquiry: what a client who was asked nothing yet is told of time, sittings and cost.
    """

    job: Job
    artist: Person
    site: Site
    verdict: Verdict
    findings: tuple[Finding, ...]
    scars: tuple[ScarReading, ...]
    placement: Placement
    steps: tuple[Step, ...]
    work: Work | None
    kept_until: Answered[datetime.date] | None = None
    tone: Tone | None = None
    bands: tuple[ClosedBand, ...] = ()
    enquiry: Enquiry | None = None

    @property
    def state(self) -> State:
        """What is finished is no plan any more, whatever would be found today."""
        return State.FINISHED if self.job.finished is not None else self.verdict.state


@dataclass(frozen=True, slots=True)
class PlanBasis:
    """All that the verdict of a plan rests on: the steps with what was learned, times, trays, and what was found.

    visits: each sitting with its times and tray; today: the one on the day of the job. findings: all but those that
    only a job has which is not finished.
    """

    laid: LaidOut
    placement: Placement
    steps: tuple[Step, ...]
    timetable: Timetable
    sittings: tuple[Sitting, ...]
    visits: tuple[AtHand, ...]
    today: AtHand
    tray: Tray
    tone: Tone | None
    findings: tuple[Finding, ...]


class Planned(NamedTuple):
    """A plan, or what is in the way of one; and what it rests on."""

    plan: JobPlan | None
    report: Report
    found: PlanBasis | None = None


def booked_of(records: Records, job: Job, learned: Learned = NOTHING, laid: LaidOut | None = None) -> Booked | None:
    """What the sitting of a job takes of its day, whether it may go ahead or not; None for one that has a mistake.

    What is finished counts as it was planned. laid: its steps, None where it may not be worked as it is written.
    """
    before = not_finished(job)
    if laid is None and not any(contradictions(records, before)):
        laid, _ = order_of_work(records, before, records_on(records, before.date))
    return None if laid is None else booked_in(laid, before, learned)


def plan(
    records: Records, job: Job, learned: Learned = NOTHING, clashes: tuple[Clash, ...] = ()
) -> tuple[JobPlan | None, Report]:
    """The plan, or None and what has to be mended in the job first. What is `learned` sets the time that is booked.

    clashes: what the sitting wants at once with others of its day; the plan comes with a reminder of each.
    """
    job, nobody = with_an_artist(records, job)
    laid, report = (None, nobody) if nobody else lay_out(records, job)
    if laid is None:
        return None, report
    made = plan_laid(laid, job, learned, clashes)
    return made.plan, made.report


def plan_laid(laid: LaidOut, job: Job, learned: Learned = NOTHING, clashes: tuple[Clash, ...] = ()) -> Planned:
    """The plan of a job that is laid out."""
    learned = learned if job.has_an_artist else NOTHING
    found = work_out(laid, job, learned, clashes)
    reminders = () if job.finished is not None else tuple(clash_reminders(laid.records, job, clashes))
    return Planned(plan_of(found, job, learned), reminders, found)


def before_work(found: PlanBasis, job: Job, learned: Learned, clashes: tuple[Clash, ...] = ()) -> JobPlan:
    """The plan of a finished job as it was before its work, when so much was `learned`.

    found: what was worked out for the finished one, which is the same where nothing was learned.
    """
    before, learned = not_finished(job), learned if job.has_an_artist else NOTHING
    if any(lesson.factor is not None for lesson in lessons_for(before, found.steps, learned)):
        found = work_out(found.laid, before, learned, clashes)
    return plan_of(found, before, learned)


def times_planned(found: PlanBasis, job: Job) -> tuple[Timed, ...] | None:
    """What a finished job teaches, by the steps of its plan.

    None where that was laid out without what is over by its day: a pace is measured by all that is on file.
    """
    if found.laid.records is not found.laid.everything:
        return None
    return tuple(times_of(found.laid.records, job, found.today.steps if job.sitting <= len(found.sittings) else ()))


def not_finished(job: Job) -> Job:
    """A job as it was before its work."""
    return job.model_copy(update={"finished": None})


def lay_out(records: Records, job: Job) -> tuple[LaidOut | None, Report]:
    """The steps of a job with an artist, or None and what has to be mended first."""
    off = job.not_worked is not None
    if report := (*contradictions(records, job), *(() if off else ended_in_job(records, job))):
        return None, report
    laid, report = order_of_work(records, job, records_on(records, job.date))
    _, refused = placement_of(job)
    if laid is None or refused:
        return None, (*report, *refused)
    if not off and (ended := tuple(ended_by_default(records, job, laid.steps))):
        return None, ended
    return laid, ()


def work_out(laid: LaidOut, job: Job, learned: Learned = NOTHING, clashes: tuple[Clash, ...] = ()) -> PlanBasis:
    """Times, trays and findings of what is laid out."""
    records, scars = laid.records, laid.scars
    placement, _ = placement_of(job)
    steps, sittings = in_sittings(laid, job, learned)
    timetable = timetable_of(records, job, steps, sittings)
    visits = tuple(_at_hand(records, job, steps, timetable, sitting, len(sittings)) for sitting in sittings)
    today = visits[min(job.sitting, len(sittings)) - 1]
    tray = trays_together([visit.tray for visit in visits])
    tone = tone_of(records, job)
    findings = (
        *screening_findings(records, job),
        *allergy_findings(records, job),
        *skin_findings(records, job, scars),
        *existing_tattoo_findings(records, job),
        *healing_findings(records, job, slow=any(scar.crossed_by for scar in scars)),
        *numbing_findings(records, job),
        *people_findings(records, job, steps),
        *lapsed_findings(records, job, steps, tray),
        *pose_findings(records, job),
        *band_findings(records, job),
        *piece_findings(records, job, steps, timetable, sittings),
        *ink_findings(records, tray),
        *unusual_settings(records, steps),
        *barred_findings(records, tray, job.date),
        *mix_findings(records, job, today.timetable),
        *vibration_findings(records, today.steps),
        *clash_findings(records, job, clashes),
        *composition_findings(records, job, steps, placement.ends, tone),
    )
    findings = (*findings, *where_all_is_clear(records, job, findings))
    return PlanBasis(laid, placement, steps, timetable, sittings, visits, today, tray, tone, findings)


def plan_of(found: PlanBasis, job: Job, learned: Learned = NOTHING) -> JobPlan:
    """The plan that follows from what was worked out."""
    records, scars = found.laid.records, found.laid.scars
    steps, sittings, today = found.steps, found.sittings, found.today
    findings = tuple(
        sorted(
            (*decision_findings(found.laid.everything, job), *found.findings),
            # Private ones first among equals: its place says nothing of where it came from.
            key=lambda f: (-RANK[f.level], not is_private(f)),
        )
    )
    off = "" if job.not_worked is None else str(job.not_worked)
    verdict = verdict_of(findings, asked=job.screening is not None)
    if off:
        # Of a sitting that is not held nothing has to be cleared, and nothing of the client has to be said.
        verdict, findings = replace(verdict, not_worked=off), ()
    work = enquiry = None
    if verdict.state is State.NOT_ASKED:
        each = tuple(visit.timetable.whole for visit in found.visits)
        questions = tuple(question.ask for question in records.screening.values())
        enquiry = Enquiry(found.timetable.whole, each, sittings, questions, cost_of(records, found.tray))
    if verdict.goes_ahead:
        # Later where scars are crossed or much colour is packed.
        packed = sum(step.amount.high for step in steps if step.section == COLOURS)
        slow = any(scar.crossed_by for scar in scars) or packed >= records.studio.limits.heavy_colour.low
        back = touch_up(records, job, slow)
        coming = next(iter(sittings[today.sitting.number :]), None)
        again = back.answer.opens if coming is None else coming.earliest
        on_the_day = WorkOfDay(today.steps, today.tray, today.timetable.stencil is not None, coming is None, again)
        boxes = checklist_of(records, job, scars, on_the_day)
        lessons = lessons_for(job, steps, learned)
        order = replace(found.laid.order, changes=changes_of(job, steps))
        work = Work(steps, order, found.timetable, found.tray, back, sittings, today, lessons, boxes)
    return JobPlan(
        job,
        records.people[job.artist],
        records.sites[job.place],
        verdict,
        findings,
        scars,
        found.placement,
        steps,
        work,
        kept_until(records, job),
        found.tone,
        closed_bands(records, job),
        enquiry,
    )


def with_an_artist(records: Records, job: Job) -> tuple[Job, Report]:
    """A job; an enquiry that names nobody goes to the first artist on file, and keeps saying that nobody was named."""
    if job.has_an_artist:
        return job, ()
    artists = (person for person in records.people.values() if person.role == "artist" and person.until is None)
    first = next(artists, None)
    if first is None:
        return job, (
            Diagnostic(
                "R302",
                job.id.place,
                expected="`artist`",
                help="write an artist into people.yml, and who works into the job",
                says="the key `artist` is missing, and people.yml has no artist",
            ),
        )
    artist = Reference.to(str(first.id), "people", job.id.place)
    artist.origin = replace(job.origin_at("artist"), default=True)
    return job.model_copy(update={"artist": artist}), ()


def _at_hand(
    records: Records, job: Job, steps: tuple[Step, ...], timetable: Timetable, sitting: Sitting, number: int
) -> AtHand:
    """One sitting of so many. Where the piece takes one alone, it is the whole piece."""
    visit, times = visit_of(steps, sitting), timetable
    if number > 1:
        times = timetable_of_sitting(records, job, visit)
    # What else interrupts is expected for the day of the job, and not for every sitting of its piece.
    on_the_day = sitting.number == min(job.sitting, number)
    tray = tray_of(records, job, visit, times, on_the_day)
    return AtHand(sitting, visit.steps, times, tray, zones_of(records, visit))
