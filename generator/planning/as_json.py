"""A plan as data: every number with value, unit, formula, inputs and source."""

from __future__ import annotations

import datetime
import inspect

from generator.planning.computed import Answered, Data, counted, explained, formula_name, recorded, sources_of
from generator.planning.plan import AtHand, JobPlan, Work
from generator.planning.supplies.tray import Tray
from generator.planning.timing.learning import Lesson, learning_rows
from generator.planning.timing.timetable import Timetable
from generator.planning.working.steps import Step
from generator.records.jobs import Job


def plan_as_data(plan: JobPlan) -> dict[str, Data]:
    """The plan for `plan --json`; numbers are explained all the way down to their records."""
    verdict, place = plan.verdict, plan.placement
    return {
        "job": str(plan.job.id),
        "title": plan.job.title,
        "client": plan.job.client,
        "artist": str(plan.artist.id),
        "date": plan.job.date.isoformat(),
        "verdict": {
            "level": verdict.level,
            "settled": verdict.settled,
            "until": _day(verdict.until),
            "goes_ahead": verdict.goes_ahead,
            "heading": verdict.heading,
            "meaning": verdict.meaning,
        },
        "findings": [
            {
                "level": f.level,
                "reason": f.reason,
                "remedy": f.remedy,
                "about": f.about,
                "rule": f.rule,
                "source": f.source,
                "asks": f.asks,
                "until": _day(f.until),
            }
            for f in plan.findings
        ],
        "placement": {
            name: explained(value)
            for name, value in (
                ("width", place.width),
                ("height", place.height),
                ("area", place.area),
                ("wrap", place.wrap),
                ("seen at once", place.seen),
            )
            if value is not None
        },
        "scars": [
            {
                "id": str(s.scar.id),
                "crossed_by": list(s.crossed_by),
                "age": None if s.age is None else explained(s.age),
                "scale": None if s.scale is None else explained(s.scale),
            }
            for s in plan.scars
        ],
        "skin": None
        if plan.tone is None
        else {
            "tone": plan.tone.word,
            "swatch": plan.tone.swatch,
            "angle": None if plan.tone.angle is None else explained(plan.tone.angle),
            "class": plan.tone.measured_class or None,
        },
        "work": None if plan.work is None else _work(plan.work),
        "afterwards": _afterwards(plan.job),
        "kept_until": None if plan.kept_until is None else explained_day(plan.kept_until),
    }


def _work(work: Work) -> dict[str, Data]:
    table = work.timetable
    return {
        "order": [_step(number, step) for number, step in enumerate(work.steps, 1)],
        "timetable": _times(table),
        "timetable_plain": None
        if table.plain is None
        else {
            name: explained(value)
            for name, value in (
                ("working", table.plain.working),
                ("breaks", table.plain.breaks),
                ("number of breaks", table.plain.break_count),
                ("in the chair", table.plain.chair),
                ("whole", table.plain.whole),
                ("sittings", table.plain.sittings),
            )
        },
        "learned": [_lesson(lesson) for lesson in work.lessons],
        "breaks_after_step": list(table.breaks_after),
        "breaks_within_step": list(table.breaks_within),
        "done_between": [t.isoformat(timespec="minutes") for t in table.done_between],
        "tray": _tray(work.tray),
        "sittings": [
            {
                "sitting": sitting.number,
                "earliest": _day(sitting.earliest),
                "steps": [
                    {
                        "step": stint.number,
                        "share": explained(counted(stint.share, sitting.longest)),
                    }
                    for stint in sitting.stints
                ],
            }
            for sitting in work.sittings
        ],
        "today": {
            "sitting": work.at_hand.sitting.number,
            "order": [_step(stint.number, step) for stint, step in work.at_hand.numbered],
            "breaks_after_step": _in_the_piece(work.at_hand, work.at_hand.timetable.breaks_after),
            "breaks_within_step": _in_the_piece(work.at_hand, work.at_hand.timetable.breaks_within),
            "timetable": _times(work.at_hand.timetable),
            "done_between": [t.isoformat(timespec="minutes") for t in work.at_hand.timetable.done_between],
            "tray": _tray(work.at_hand.tray),
        },
        "next_sitting": _day(work.next_sitting.earliest if work.next_sitting else None),
        # Only a piece that is finished has a touch-up.
        "touch_up": None
        if work.next_sitting
        else {"from": work.touch_up.answer.opens.isoformat(), "to": work.touch_up.answer.closes.isoformat()},
    }


def _afterwards(job: Job) -> dict[str, Data] | None:
    done = job.finished
    if done is None:
        return None
    return {
        "on": done.on.isoformat(),
        "took": explained(recorded(done.took)),
        "worked": [
            {"technique": str(worked.technique), "took": explained(recorded(worked.took))} for worked in done.worked
        ],
        "lots": list(done.lots),
        "cartridges": [
            {
                "grouping": str(used.grouping),
                "lot": used.lot,
                "expires": None if used.expires is None else used.expires.isoformat(),
            }
            for used in done.cartridges
        ],
        "stopped": done.stopped,
        "ended": done.ended,
        "dressing": done.dressing,
    }


def _step(number: int, step: Step) -> dict[str, Data]:
    return {
        "step": number,
        "section": step.section,
        "part": str(step.part.id),
        "technique": str(step.setting.technique.id),
        "grouping": str(step.setting.grouping.id),
        "machine": str(step.setting.machine.id),
        "ink": str(step.ink.id),
        "stretch": step.setting.technique.stretch,
        "dial": explained(step.setting.dial),
        "speed": explained(step.setting.speed),
        "stroke": explained(step.setting.stroke),
        "hang_out": explained(step.setting.hang_out),
        "spacing": explained(step.setting.spacing),
        "width": explained(step.setting.width),
        "amount": explained(step.amount),
        "minutes": explained(step.minutes),
        "minutes_booked": explained(step.booked),
        "minutes_learned": None if step.minutes_learned is None else explained(step.minutes_learned),
        "passes_at_most": explained(step.passes),
    }


def _in_the_piece(today: AtHand, places: tuple[int, ...]) -> list[int]:
    """Steps are numbered through the whole piece."""
    return [today.sitting.stints[place - 1].number for place in places]


def _day(day: datetime.date | None) -> str | None:
    return day.isoformat() if day else None


def _times(table: Timetable) -> dict[str, Data]:
    return {
        name: explained(value)
        for name, value in (
            ("set up", table.set_up),
            ("stencil", table.stencil),
            ("drying", table.dry),
            ("working", table.working),
            ("breaks", table.breaks),
            ("number of breaks", table.break_count),
            ("clean and wrap", table.wrap),
            ("in the chair", table.chair),
            ("whole", table.whole),
            ("sittings", table.sittings),
        )
    }


def _tray(tray: Tray) -> dict[str, Data]:
    return {
        "inks": [
            {
                "ink": str(p.ink.id),
                "millilitres": explained(p.millilitres),
                "caps": explained(p.caps),
                "lots": [lot.lot for lot in p.lots],
            }
            for p in tray.inks
        ],
        "groupings": [str(g) for g in tray.groupings],
        "supplies": [
            {"supply": str(c.supply.id), "number": explained(c.number), "instead": c.instead or None}
            for c in tray.supplies
        ],
    }


def _lesson(lesson: Lesson) -> dict[str, Data]:
    """A factor down to the jobs that it rests on, or why there is none."""
    return {
        "artist": lesson.artist,
        "technique": lesson.technique,
        "factor": None if lesson.factor is None else explained(lesson.factor),
        "why_not": lesson.why_not or None,
        "rests_on": [
            {
                "job": row.timed.job,
                "finished": row.timed.on.isoformat(),
                "estimate": explained(row.estimate),
                "actual": explained(row.actual),
                "ratio": explained(row.ratio),
            }
            for row in learning_rows(lesson)
        ],
    }


def explained_day(day: Answered[datetime.date]) -> dict[str, Data]:
    """A day that was calculated, explained as numbers are."""
    inputs = dict(day.inputs)
    return {
        "value": day.answer.isoformat(),
        "formula": formula_name(day.function),
        "answers": (inspect.getdoc(day.function) or "").partition("\n")[0],
        "inputs": {name: explained(operand) for name, operand in inputs.items()},
        "source": sorted(set().union(*(sources_of(operand) for operand in inputs.values()))),
    }
