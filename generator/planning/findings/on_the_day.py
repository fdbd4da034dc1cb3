"""What may change on the day or since the last one: healing, numbing, the pose, mixes, the artist's hand.

Numbing against the studio's policy is a care, because the answer is known; the screening question decides whether it
waits.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterator

from generator.grouped import grouped
from generator.planning.findings.verdict import About, Finding
from generator.planning.timing.coming_back import weeks_later
from generator.planning.timing.rounding import ends_printed
from generator.planning.timing.timetable import Timetable
from generator.planning.working.steps import Step
from generator.planning.working.vibration import over_a_day
from generator.quantities import shown
from generator.records.families import Records
from generator.records.jobs import Job
from generator.trade import disinfection, vibration


def healing_findings(records: Records, job: Job, slow: bool = False) -> Iterator[Finding]:
    """Skin that was worked rests before it is worked again: from sitting to sitting, and longer before a touch-up."""
    limits = records.studio.limits
    rest, days = limits.same_skin_again, limits.same_skin_again.high
    if job.touch_up:
        rest = limits.touch_up_slow if slow else limits.touch_up
        days = rest.low
    if job.worked_before and job.last_worked is None:
        yield About("last_worked", rest).look_up(
            "Not on file when this skin was last worked.", "Look it up, and write the day into the job."
        )
    if job.last_worked is not None and (again := weeks_later(job.last_worked, days)) > job.date:
        yield About("last_worked", rest).wait(
            f"A touch-up is {rest.text} after the work."
            if job.touch_up
            else f"The same skin rests {rest.text} from sitting to sitting.",
            "Look at the skin again on that day; a date alone clears nothing.",
            until=again,
        )


def numbing_findings(records: Records, job: Job) -> Iterator[Finding]:
    """Numbing against the studio's policy. What was put on is written in the job and is not repeated here."""
    about, allowed = About("numbing", records.studio.origin_at("numbing_allowed")), records.studio.numbing_allowed
    if job.numbing is None:
        yield about.ask("Not on file whether a numbing product was put on.", "Ask, and write “none” or what it is.")
    elif job.numbing and allowed == "ask":
        yield about.ask(
            "A numbing product is named, and the studio decides that on the day.",
            "Ask before the first line whether it may stay.",
            "care",
        )
    elif job.numbing and allowed != "yes":
        yield about.wait(
            "A numbing product is named, and the studio does not work with one.", "Find another day without it."
        )


def pose_findings(records: Records, job: Job) -> Iterator[Finding]:
    """A limb that is thicker or thinner in the pose than standing and relaxed."""
    girth, limit = job.girth, records.studio.limits.girth_change
    if girth is None or girth.in_pose is None:
        return
    pairs = ((girth.top, girth.in_pose.top), (girth.bottom, girth.in_pose.bottom))
    change = max(abs(posed.low - taped.low) / taped.low * 100 for taped, posed in pairs)
    if change > limit.high:
        yield About(girth.in_pose, limit).care(
            f"The girth changes by {change:.0f}\u00a0% in the pose.",
            "Place the stencil standing, and look how it lies in the pose before the first line.",
        )


def mix_findings(records: Records, job: Job, day: Timetable) -> Iterator[Finding]:
    """A disinfectant that is mixed when the station is set up, and goes off before the client leaves."""
    begins = datetime.datetime.combine(job.date, job.start)
    for product in records.disinfectants.values():
        if product.mix_life is None:
            continue
        ends = disinfection.mix_expires(begins, product.mix_life.low)
        if ends < day.done_between[1]:
            yield About(product, product.origin_at("mix_life")).care(
                f"{product.name} is good for {product.mix_life.text}: until {ends:%H:%M}.",
                "Mix it anew then, and write the time on the bottle.",
            )


def vibration_findings(records: Records, steps: tuple[Step, ...]) -> Iterator[Finding]:
    """The hand's exposure at the action value by this job alone. Without the maker's figure it is not assessed."""
    machines = {step.setting.machine.id: step.setting.machine for step in steps}
    # As its rows are printed, and as the page of the day counts them.
    minutes = grouped((step.setting.machine.id, ends_printed(step.booked)[1]) for step in steps)
    for machine in machines.values():
        if machine.vibration is None:
            yield About(machine, machine.origin_at("vibration")).care(
                f"{machine.name}: vibration not assessed, the maker’s figure is not on file.",
                "Ask the maker for it. Rest the hand at every break; stop when it tingles or goes numb.",
            )
    assessed = [(one.vibration, sum(minutes[one.id])) for one in machines.values() if one.vibration is not None]
    reached = over_a_day(assessed) if assessed else 0.0
    if reached >= vibration.ACTION_VALUE:
        said = shown(reached, reached, "acceleration", records.studio.shows)
        machine = next(machine for machine in machines.values() if machine.vibration is not None)
        yield About("artist", machine.origin_at("vibration")).care(
            f"The hand takes {said} over this day, which is at the action value or above.",
            "Change to a calmer machine, share the day, or stop earlier; numbness comes before any table.",
        )
