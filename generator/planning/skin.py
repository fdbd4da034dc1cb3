"""What lies in the skin: scars by the studio's rules, moles by the distance to keep."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from generator.planning.drawn import shape_of
from generator.planning.private import private_finding, rests_on_an_answer
from generator.planning.reckoning import Named, Reckoned, Recorded, plain, reckon, recorded
from generator.planning.verdict import RANK, Finding, Level
from generator.quantities import shown
from generator.records.conditions import Value, facts_named, holds
from generator.records.families import Records
from generator.records.jobs import Job, Part, Scar
from generator.records.rules import ScarRule
from generator.records.scar_words import DETAILS
from generator.records.studio import Studio
from generator.trade import scars, shapes

# What is asked about every scar: the key in the job, the fact in the rules, the question.
ITEMS = (
    ("type", "scar.type", "what form it has"),
    ("height", "scar.height", "how far it stands up"),
    ("after", "scar.after", "what it came from"),
    ("wound", "scar.age", "when the wound happened"),
    ("colour", "scar.colour", "its colour"),
    ("feel", "scar.feel", "how it feels"),
    ("itch", "scar.itch", "whether it itches"),
    ("pain", "scar.pain", "whether it hurts"),
    ("growth", "scar.growth", "whether it still changes"),
    ("wish", "scar.wish", "what the client wants for it"),
)


@dataclass(frozen=True, slots=True)
class ScarReading:
    """One scar of a job with what the rules say of it."""

    scar: Scar
    age: Reckoned | None
    crossed_by: tuple[str, ...]
    findings: tuple[Finding, ...]
    times_over: Recorded | None
    slower: Recorded | None
    scale: Reckoned | None = None


def strip_of(scar: Scar) -> shapes.Strip:
    """The scar's strip at its widest."""
    ends = tuple((end[0].low, end[1].low) for end in (scar.from_, scar.to))
    return shapes.Strip(ends, scar.width.high)


def read_scars(records: Records, job: Job) -> tuple[ScarReading, ...]:
    """Every scar by the rules. A wound after the sitting is the caller's to report before this."""
    return tuple(_read_scar(records, job, scar) for scar in job.scars or ())


def no_scars_on_file(records: Records, job: Job) -> Iterator[Finding]:
    """Silence about scars and moles is a question, not a no."""
    if job.scars is None:
        worst = max((rule.verdict for rule in records.scar_rules.values()), key=lambda v: RANK[v], default="wait")
        yield Finding(
            _as_level(worst),
            "Scars in the area are not on file.",
            "Look, ask, and write `none` or what is there.",
            "scars",
            "scar-rules",
            records.studio.source,
            asks=True,
        )
    if job.moles is None:
        yield Finding(
            "wait",
            "Moles and lesions in the area are not on file.",
            "Look, and write `none` or where they are.",
            "moles",
            "studio.limits.mole_clearance",
            records.studio.source,
            asks=True,
        )


def mole_findings(records: Records, job: Job) -> Iterator[Finding]:
    """A part that comes nearer to a mole than the distance to keep, and a distance below the studio's own."""
    house, source, units = records.studio.limits.mole_clearance, records.studio.source, records.studio.units
    for number, mole in enumerate(job.moles or (), 1):
        keep = (mole.keep or house).low
        said = shown(keep, keep, "length", units)
        if keep < house.low:
            yield Finding(
                "care",
                f"Only {said} are kept from mole {number}; here it is {house.text}.",
                "Keep the studio's distance, or know why not.",
                f"moles.{number}",
                "studio.limits.mole_clearance",
                source,
            )
        spot = shapes.Spot(mole.at[0].low, mole.at[1].low, keep)
        for part in job.parts:
            if shapes.mole_clearance(shape_of(part), spot) < 0:
                yield Finding(
                    "wait",
                    f"Part {part.id} comes nearer than {said} to mole {number}.",
                    "Move or cut the part; a changed mole is shown to a doctor.",
                    f"moles.{number}",
                    "studio.limits.mole_clearance",
                    source,
                )


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
    findings: list[Finding] = []
    undecided: list[ScarRule] = []
    steps: list[Recorded] = []
    slower: list[Recorded] = []
    for rule in records.scar_rules.values():
        held = holds(rule.when, facts)
        if held is None:
            undecided.append(rule)
        if held is False:
            continue
        if held:
            findings.append(_from_rule(rule, scar, job, records.studio))
        # A rule that cannot be decided yet counts as if it held.
        named, source = f"scar-rules.{rule.id}", rule.source
        if rests_on_an_answer(rule):
            named, source = "scar-rules", records.studio.source
        if rule.times_over is not None:
            steps.append(plain(rule.times_over, f"{named}.times_over", source))
        if rule.slower is not None:
            slower.append(recorded(rule.slower, f"{named}.slower", source))
    findings += _open_questions(records, scar, facts, undecided)
    return ScarReading(
        scar,
        age,
        tuple(part.id for part in crossing),
        tuple(findings),
        min(steps, key=lambda limit: limit.low, default=None),
        max(slower, key=lambda share: share.high, default=None),
        scale,
    )


def _age(scar: Scar, job: Job) -> Reckoned | None:
    if scar.wound is None:
        return None
    where = f"jobs.{job.id}.scars.{scar.id}.wound"
    return reckon(
        scars.maturity_months,
        "months",
        wound=Named(_wound(scar, job.date), scar.wound.day.isoformat(), where),
        on=Named(job.date, job.date.isoformat(), f"jobs.{job.id}.date"),
    )


def _scale(scar: Scar, job: Job) -> Reckoned | None:
    """The total of a clinician's score. The record keeps each item within the bounds of the scale."""
    if scar.scale is None:
        return None
    where = f"jobs.{job.id}.scars.{scar.id}.scale"
    return reckon(
        scars.scar_scale_total,
        "number",
        **{item: plain(score, f"{where}.{item}") for item, score in scar.scale},
    )


def _wound(scar: Scar, on: datetime.date) -> scars.Wound:
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


def _from_rule(rule: ScarRule, scar: Scar, job: Job, studio: Studio) -> Finding:
    until: datetime.date | None = None
    if rule.wait_until_age is not None and scar.wound is not None:
        old_enough = scars.earliest_date_by_age(_wound(scar, job.date), int(rule.wait_until_age.high))
        # Where the rule holds for another reason, the age is behind it: no day to wait for is known.
        until = old_enough if old_enough > job.date else None
    if rests_on_an_answer(rule):
        level = _as_level(rule.verdict)
        return private_finding(level, f"scars.{scar.id}", f"scar-rules.{rule.id}", studio, until)
    return Finding(
        _as_level(rule.verdict),
        f"Scar {scar.id}: {rule.consequence}",
        rule.clears or "",
        f"scars.{scar.id}",
        f"scar-rules.{rule.id}",
        rule.source,
        until=until,
    )


def _open_questions(
    records: Records, scar: Scar, facts: Mapping[str, Value], undecided: list[ScarRule]
) -> Iterator[Finding]:
    """One finding for each item nobody answered, as bad as the worst rule that hangs on it."""
    asked: set[str] = set()
    for key, fact, question in ITEMS:
        if facts[fact] is not None:
            continue
        hanging = [rule for rule in undecided if fact in facts_named(rule.when)]
        asked |= {rule.id for rule in hanging}
        worst = max((rule.verdict for rule in hanging), key=lambda v: RANK[v], default="wait")
        yield Finding(
            _as_level(worst if RANK[worst] >= RANK["wait"] else "wait"),
            f"Scar {scar.id}: not on file {question}.",
            f"Look, ask, and write `{key}` into the job.",
            f"scars.{scar.id}.{key}",
            f"scar-rules.{hanging[0].id}" if hanging else "scar-rules",
            records.studio.source,
            asks=True,
        )
    for rule in undecided:
        if rule.id in asked:
            continue
        if rests_on_an_answer(rule):
            yield private_finding(
                _as_level(rule.verdict), f"scars.{scar.id}", f"scar-rules.{rule.id}", records.studio, asks=True
            )
        else:
            yield Finding(
                _as_level(rule.verdict),
                f"Scar {scar.id}: it is not known yet whether this holds: {rule.consequence}",
                "Measure again and write one value, or answer what is open.",
                f"scars.{scar.id}",
                f"scar-rules.{rule.id}",
                rule.source,
                asks=True,
            )


def _as_level(verdict: str) -> Level:
    return verdict  # type: ignore[return-value]
