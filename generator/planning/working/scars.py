"""What the studio's rules say of each scar before anything is worked: which hold, which are undecided, what slows.

The scar scale is no question: most scars were never scored, so a missing score is asked about only where a rule looks
at it.
"""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import dataclass, replace

from generator.planning.computed import Computed, Recorded, compute, named, recorded
from generator.planning.working.shapes import shape_of
from generator.records.conditions import ANSWER, Value, facts_named, holds
from generator.records.families import Records
from generator.records.jobs import Job
from generator.records.parts import Part
from generator.records.rules import ScarRule
from generator.records.scar_words import DETAILS
from generator.records.skin import Scar
from generator.trade import scars, shapes


def rests_on_an_answer(rule: ScarRule) -> bool:
    """Whether a rule looks at what caused a scar or at an answer, and not only at what anybody sees and feels."""
    return any(fact == "scar.after" or fact.startswith(ANSWER) for fact in facts_named(rule.when))


@dataclass(frozen=True, slots=True)
class ScarReading:
    """One scar of a job with the rules that hold for it, and those that an open question leaves undecided."""

    scar: Scar
    age: Computed | None
    crossed_by: tuple[str, ...]
    facts: Mapping[str, Value]
    held: tuple[ScarRule, ...]
    undecided: tuple[ScarRule, ...]
    passes: Recorded | None
    slower: Recorded | None
    scale: Computed | None = None


def strip_of(scar: Scar) -> shapes.Strip:
    """The scar's strip at its widest."""
    ends = tuple((end[0].low, end[1].low) for end in (scar.from_, scar.to))
    return shapes.Strip(ends, scar.width.high)


def read_scars(records: Records, job: Job) -> tuple[ScarReading, ...]:
    """Every scar by the rules. A wound after the sitting is the caller's to report before this."""
    return tuple(_read_scar(records, job, scar) for scar in job.scars or ())


def _read_scar(records: Records, job: Job, scar: Scar) -> ScarReading:
    crossing = [part for part in job.parts if shapes.overlap(shape_of(part), strip_of(scar)) > 0]
    age, scale = _age(scar, job), _scale(scar, job)
    facts = _facts(scar, None if age is None else age.low, crossing, _focal(job))
    # Most scars were never scored: a rule that looks at the score then asks.
    facts["scar.scale"] = None if scale is None else scale.low
    if job.screening is not None:
        for question, answer in (job.screening.answers or {}).items():
            facts[f"answer.{question}"] = bool(answer) if answer is not None else None
        if job.screening.answers is None:
            facts |= {
                f"answer.{q.id}": q.clear == "yes" for q in records.screening.values() if q.added <= job.screening.asked
            }
    held: list[ScarRule] = []
    undecided: list[ScarRule] = []
    steps: list[Recorded] = []
    slower: list[Recorded] = []
    for rule in records.scar_rules.values():
        found = holds(rule.when, facts)
        if found is False:
            continue
        (undecided if found is None else held).append(rule)
        # A rule that cannot be decided yet counts as if it held.
        if rule.passes is not None:
            steps.append(_limit(rule, recorded(rule.passes), records))
        if rule.slower is not None:
            slower.append(_limit(rule, recorded(rule.slower), records))
    return ScarReading(
        scar,
        age,
        tuple(part.id for part in crossing),
        facts,
        tuple(held),
        tuple(undecided),
        min(steps, key=lambda limit: limit.low, default=None),
        max(slower, key=lambda share: share.high, default=None),
        scale,
    )


def _limit(rule: ScarRule, limit: Recorded, records: Records) -> Recorded:
    """What a rule limits. One that looks at an answer is not told apart from the others, nor by its source."""
    if not rests_on_an_answer(rule):
        return limit
    return replace(limit, where=rule.origin.family.path, source=str(records.studio.source))


def _age(scar: Scar, job: Job) -> Computed | None:
    if scar.wound is None:
        return None
    return compute(
        scars.maturity_months,
        "months",
        wound=named(wound_of(scar, job.date), scar.wound, scar.wound.day.isoformat()),
        on=named(job.date, job.date),
    )


def _scale(scar: Scar, job: Job) -> Computed | None:
    """The total of a clinician's score. The record keeps each item within the bounds of the scale."""
    if scar.scale is None:
        return None
    return compute(
        scars.scar_scale_total,
        "number",
        **{item: recorded(score) for item, score in scar.scale},
    )


def wound_of(scar: Scar, on: datetime.date) -> scars.Wound:
    """The last day on which the wound can have happened, which is never after the sitting."""
    assert scar.wound is not None
    day = min(scar.wound.day, on)
    return scars.Wound(day.year, day.month, day.day)


def _focal(job: Job) -> set[str]:
    """The parts on which the eye rests; the main ones where the job marks none."""
    marked = {str(part.id) for part in job.parts if part.focal}
    return marked or {str(part.id) for part in job.parts if part.role == "main"}


def _facts(scar: Scar, months: float | None, crossing: list[Part], focal: set[str]) -> dict[str, Value]:
    finest = max((DETAILS.index(part.detail) for part in crossing), default=0)
    return {
        "scar.age": months,
        "scar.width": scar.width,
        "scar.height": scar.height,
        "scar.type": scar.type,
        "scar.after": scar.after,
        "scar.colour": scar.colour,
        "scar.feel": scar.feel,
        "scar.itch": scar.itch,
        "scar.pain": scar.pain,
        "scar.growth": scar.growth,
        "scar.wish": scar.wish,
        "over.crosses": bool(crossing),
        "over.focal": any(part.id in focal for part in crossing),
        "over.detail": DETAILS[finest],
    }
