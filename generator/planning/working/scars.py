"""What the studio's rules say of each scar: which hold, which are undecided, and what they mean for each row of work.

The scar scale is no question: most scars were never scored, so a missing score is asked about only where a rule looks
at it. Passes and slower work belong to the share of a row that lies over the scar or within its margin, and each row is
judged by its own needle: a broad line beside a fine one is not held back by it.
"""

from __future__ import annotations

import datetime
import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from generator.planning.computed import Computed, Recorded, compute, named, recorded
from generator.planning.working.pieces import NoSetting, Piece
from generator.planning.working.shapes import shape_key, shape_of
from generator.planning.working.technique import technique_for
from generator.planning.working.widths import width_of
from generator.quantities import Quantity
from generator.records.conditions import ANSWER, Value, facts_named, holds
from generator.records.families import Records
from generator.records.jobs import Job
from generator.records.parts import DETAILS, Lines, Part
from generator.records.rules import ScarRule
from generator.records.skin import Scar
from generator.trade import labels, scars, shapes

# The fields of a scar that rules look at as they are written.
_LOOKED_AT = ("width", "height", "type", "after", "colour", "feel", "itch", "pain", "growth", "wish")


def rests_on_an_answer(rule: ScarRule) -> bool:
    """Whether a rule looks at what caused a scar or at an answer, and not only at what anybody sees and feels."""
    return any(map(_is_private, facts_named(rule.when)))


def _is_private(fact: str) -> bool:
    return fact == "scar.after" or fact.startswith(ANSWER)


@dataclass(frozen=True, slots=True)
class ScarReading:
    """One scar of a job with the rules that hold for it, and those that an open question leaves undecided."""

    scar: Scar
    age: Computed | None
    crossed_by: tuple[str, ...]
    facts: Mapping[str, Value]
    held: tuple[ScarRule, ...]
    undecided: tuple[ScarRule, ...]
    scale: Computed | None = None


@dataclass(frozen=True, slots=True)
class OverScar:
    """What a scar means for one row of work: the share that lies over it, passes at most there, added time there."""

    scar: str
    share: Computed
    passes: Recorded | None
    slower: Recorded | None


def strip_of(scar: Scar) -> shapes.Strip:
    """The scar's strip at its widest."""
    ends = tuple((end[0].low, end[1].low) for end in (scar.from_, scar.to))
    return shapes.Strip(ends, scar.width.high)


def read_scars(records: Records, job: Job) -> tuple[ScarReading, ...]:
    """Every scar by the rules. A wound after the sitting is the caller's to report before this."""
    return tuple(_read_scar(records, job, scar) for scar in job.scars or ())


def _read_scar(records: Records, job: Job, scar: Scar) -> ScarReading:
    crossing = [part for part in job.parts if shapes.overlap(shape_of(part), strip_of(scar)) > 0]
    age, scale = _age(scar, job), _scale(scar)
    facts = _of_the_scar(scar, age) | _over(records, job, crossing, [(p, work) for p in crossing for work in p.lines])
    # Most scars were never scored: a rule that looks at the score then asks.
    facts["scar.scale"] = None if scale is None else scale.low
    if job.screening is not None:
        for question, answer in (job.screening.answers or {}).items():
            facts[f"answer.{question}"] = bool(answer) if answer is not None else None
        if job.screening.answers is None:
            facts |= {
                f"answer.{q.id}": q.clear == "yes" for q in records.screening.values() if q.added <= job.screening.asked
            }
    found = {rule.id: holds(rule.when, facts) for rule in records.scar_rules.values()}
    return ScarReading(
        scar,
        age,
        tuple(part.id for part in crossing),
        facts,
        tuple(rule for rule in records.scar_rules.values() if found[rule.id]),
        tuple(rule for rule in records.scar_rules.values() if found[rule.id] is None),
        scale,
    )


def over_scars(records: Records, job: Job, piece: Piece, readings: tuple[ScarReading, ...]) -> tuple[OverScar, ...]:
    """What every scar means for one row of work. Where scars lie on each other, the slowest counts."""
    part = piece.part
    margin, shape = records.studio.limits.scar_margin, shape_of(part)
    near = [read for read in readings if shapes.share_near(shape, strip_of(read.scar), margin.low) > 0]
    limits = [(read, *_limits(records, job, piece, read)) for read in near]
    limits.sort(key=lambda found: -(found[2].high if found[2] is not None else 0))
    made: list[OverScar] = []
    before: tuple[shapes.Strip, ...] = ()
    for read, passes, slower in limits:
        strip, name = strip_of(read.scar), str(read.scar.id)
        share = compute(
            shapes.share_near,
            "number",
            shape=named(shape, part.origin_at(shape_key(part)), f"{part.id} as it lies on the map"),
            thing=named(strip, read.scar.origin, f"scar {name} as it lies on the map"),
            margin=recorded(margin),
            besides=named(before, read.scar.origin, ", ".join(over.scar for over in made) or "none"),
        )
        if part.id in read.crossed_by or passes is not None or slower is not None:
            made.append(OverScar(name, share, passes, slower))
            before = (*before, strip)
    order = [str(read.scar.id) for read in readings]
    return tuple(sorted(made, key=lambda over: order.index(over.scar)))


def _limits(records: Records, job: Job, piece: Piece, read: ScarReading) -> tuple[Recorded | None, Recorded | None]:
    """Passes at most and added time of a row over one scar. A rule that cannot be decided counts as if it held.

    So does one that looks at a cause or an answer: times and passes would tell it, on the list of a day too.
    """
    crossing = [piece.part] if piece.part.id in read.crossed_by else []
    lines = [(part, piece.work) for part in crossing if isinstance(piece.work, Lines)]
    seen = {fact: value for fact, value in read.facts.items() if not _is_private(fact)}
    facts = {**seen, **_over(records, job, crossing, lines)}
    rules = [rule for rule in records.scar_rules.values() if holds(rule.when, facts) is not False]
    passes = [_limit(rule, recorded(rule.passes), records) for rule in rules if rule.passes is not None]
    slower = [_limit(rule, recorded(rule.slower), records) for rule in rules if rule.slower is not None]
    return (
        min(passes, key=lambda limit: limit.low, default=None),
        max(slower, key=lambda share: share.high, default=None),
    )


def _limit(rule: ScarRule, limit: Recorded, records: Records) -> Recorded:
    """What a rule limits. One that looks at an answer is not told apart from the others, nor by its source."""
    if not rests_on_an_answer(rule):
        return limit
    return replace(limit, origin=rule.origin.family.resting_on(str(records.studio.source)))


def _age(scar: Scar, job: Job) -> Computed | None:
    if scar.wound is None:
        return None
    return compute(
        scars.maturity_months,
        "months",
        wound=named(wound_of(scar, job.date), scar.wound, ("by " if scar.wound.open else "") + str(scar.wound.day)),
        on=named(job.date, job.date),
    )


def _scale(scar: Scar) -> Computed | None:
    """The total of a clinician's score. The record keeps each item within the bounds of the scale."""
    if scar.scale is None:
        return None
    return compute(
        scars.scar_scale_total,
        "number",
        **{item: recorded(score) for item, score in scar.scale},
    )


def wound_of(scar: Scar, on: datetime.date) -> datetime.date:
    """The last day on which the wound can have happened, which is never after the sitting."""
    assert scar.wound is not None
    return min(scar.wound.day, on)


def focal_parts(job: Job) -> set[str]:
    """The parts on which the eye rests; the main ones where the job marks none."""
    marked = {str(part.id) for part in job.parts if part.focal}
    return marked or {str(part.id) for part in job.parts if part.role == "main"}


def _of_the_scar(scar: Scar, age: Computed | None) -> dict[str, Value]:
    months: Value = None
    if age is not None and scar.wound is not None:
        # Of a wound that happened before some day only the least age is known.
        months = Quantity(age.low, math.inf, "months") if scar.wound.open else age.low
    return {"scar.age": months, **{f"scar.{field}": getattr(scar, field) for field in _LOOKED_AT}}


def _over(records: Records, job: Job, crossing: list[Part], lines: list[tuple[Part, Lines]]) -> dict[str, Value]:
    """What crosses: parts, and the lines of theirs that are judged. Where no line crosses, none is thin."""
    focal = focal_parts(job)
    finest = max((DETAILS.index(part.detail) for part in crossing), default=0)
    needles, widths = [math.inf], [math.inf]
    for count, width in (_fineness(records, part, work) for part, work in lines):
        needles.append(count)
        widths.append(width)
    return {
        "over.crosses": bool(crossing),
        "over.focal": any(part.id in focal for part in crossing),
        "over.detail": DETAILS[finest],
        "over.needles": min(needles),
        "over.line": min(widths),
    }


def _fineness(records: Records, part: Part, work: Lines) -> tuple[float, float]:
    """Needles and width in mm of a line, by the grouping it is run with; as fine as can be where none can be set up."""
    try:
        grouping = records.groupings[work.needle or technique_for(records, part, work).usual_grouping]
    except NoSetting:
        return 0, 0
    return labels.read_label(grouping.label).count, width_of(grouping).low
