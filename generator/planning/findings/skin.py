"""What lies in the skin: scars by the studio's rules, moles by the distance to keep."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping

from generator.origins import origin_of
from generator.planning.findings.clear_of import clears_by_moving
from generator.planning.findings.private import private_finding
from generator.planning.findings.verdict import RANK, Finding, Level
from generator.planning.working.scars import ScarReading, focal_parts, rests_on_an_answer, wound_of
from generator.planning.working.shapes import shape_of
from generator.quantities import shown
from generator.records.conditions import Value, facts_named
from generator.records.families import Records
from generator.records.jobs import Job
from generator.records.rules import ScarRule
from generator.records.skin import Scar
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


def no_scars_on_file(records: Records, job: Job) -> Iterator[Finding]:
    """Silence about scars and moles is a question, not a no."""
    if job.scars is None:
        worst = max((rule.verdict for rule in records.scar_rules.values()), key=lambda v: RANK[v], default="wait")
        yield Finding(
            _as_level(worst),
            "Scars in the area are not on file.",
            "Look, ask, and write “none” or what is there.",
            "scars",
            job.origin_at("scars").resting_on(records.studio.source),
            asks=True,
        )
    if job.moles is None:
        yield Finding(
            "wait",
            "Moles and lesions in the area are not on file.",
            "Look, and write “none” or where they are.",
            "moles",
            origin_of(records.studio.limits.mole_clearance),
            asks=True,
        )


def mole_findings(records: Records, job: Job) -> Iterator[Finding]:
    """A part that comes nearer to a mole than the distance to keep, and a distance below the studio's own.

    Where no distance is written the studio's own is drawn and held; the one to keep may be larger, so it is asked for.
    """
    house, units = records.studio.limits.mole_clearance, records.studio.shows
    for number, mole in enumerate(job.moles or (), 1):
        kept = mole.keep or house
        keep, said = kept.low, shown(kept.low, kept.low, "length", units, kept.text)
        if mole.keep is None:
            yield Finding(
                "wait",
                f"Mole {number}: not on file how far to keep from it.",
                f"Look at it, and write down how far: {said} or more.",
                f"moles.{number}.keep",
                house.origin,
                asks=True,
            )
        if keep < house.low:
            yield Finding(
                "care",
                f"Only {said} are kept from mole {number}; here it is {house.text}.",
                "Keep the studio's distance, or know why not.",
                f"moles.{number}",
                house.origin,
            )
        spot = shapes.Spot(mole.at[0].low, mole.at[1].low, keep)
        for part in job.parts:
            if shapes.mole_clearance(shape_of(part), spot) < 0:
                yield Finding(
                    "wait",
                    f"Part {part.id} comes nearer than {said} to mole {number}.",
                    "Move or cut the part. Send the client to a doctor with a mole that has changed. "
                    + clears_by_moving(records, job, [part]),
                    f"moles.{number}",
                    house.origin,
                )


def scar_findings(records: Records, job: Job, reading: ScarReading) -> Iterator[Finding]:
    """What the rules say of a scar, then what nobody answered about it."""
    yield from (_from_rule(rule, reading, job, records) for rule in reading.held)
    yield from _open_questions(records, reading.scar, reading.facts, reading.undecided)


def _from_rule(rule: ScarRule, reading: ScarReading, job: Job, records: Records) -> Finding:
    scar, studio = reading.scar, records.studio
    until: datetime.date | None = None
    if rule.wait_until_age is not None and scar.wound is not None:
        old_enough = scars.earliest_date_by_age(wound_of(scar, job.date), int(rule.wait_until_age.high))
        # Where the rule holds for another reason, the age is behind it: no day to wait for is known.
        until = old_enough if old_enough > job.date else None
    if rests_on_an_answer(rule):
        level = _as_level(rule.verdict)
        return private_finding(level, f"scars.{scar.id}", rule.origin, studio, until)
    return Finding(
        _as_level(rule.verdict),
        f"Scar {scar.id}: {rule.consequence}",
        " ".join(filter(None, (rule.clears, _moved(rule, reading, job, records)))),
        f"scars.{scar.id}",
        rule.origin,
        until=until,
    )


def _moved(rule: ScarRule, reading: ScarReading, job: Job, records: Records) -> str:
    """The nearest shift of the parts that a rule keeps off a scar; nothing where it asks for no other drawing."""
    named = set(facts_named(rule.when))
    if RANK[rule.verdict] < RANK["wait"] or "over.crosses" not in named:
        return ""
    focal = focal_parts(job) if "over.focal" in named else {str(part.id) for part in job.parts}
    return clears_by_moving(records, job, [p for p in job.parts if p.id in reading.crossed_by and p.id in focal])


def _open_questions(
    records: Records, scar: Scar, facts: Mapping[str, Value], undecided: tuple[ScarRule, ...]
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
            "Look, ask, and write it into the job.",
            f"scars.{scar.id}.{key}",
            (hanging[0].origin if hanging else scar.origin_at(key)).resting_on(records.studio.source),
            asks=True,
        )
    for rule in undecided:
        if rule.id in asked:
            continue
        if rests_on_an_answer(rule):
            yield private_finding(_as_level(rule.verdict), f"scars.{scar.id}", rule.origin, records.studio, asks=True)
        else:
            yield Finding(
                _as_level(rule.verdict),
                f"Scar {scar.id}: it is not known yet whether this holds: {rule.consequence}",
                _settled_by(rule, scar),
                f"scars.{scar.id}",
                rule.origin,
                asks=True,
            )


def _settled_by(rule: ScarRule, scar: Scar) -> str:
    if "scar.age" in facts_named(rule.when) and scar.wound is not None and scar.wound.open:
        return "Ask in which year the wound happened; until then it counts as young."
    return "Measure again and write one value, or answer what is open."


def _as_level(verdict: str) -> Level:
    return verdict  # type: ignore[return-value]
