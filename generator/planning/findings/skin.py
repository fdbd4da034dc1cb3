"""What lies in the skin: scars by the studio's rules, moles by the distance to keep."""

from __future__ import annotations

from collections.abc import Iterator

from generator.planning.findings.clear_of import clears_by_moving
from generator.planning.findings.private import private_finding
from generator.planning.findings.verdict import RANK, About, Finding, level_of, worst_of
from generator.planning.working.scars import ScarReading, focal_parts, rests_on_an_answer, wound_of
from generator.planning.working.shapes import shape_of
from generator.quantities import shown
from generator.records.conditions import facts_named
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


def skin_findings(records: Records, job: Job, readings: tuple[ScarReading, ...]) -> Iterator[Finding]:
    """All about scars and moles. Silence about them is a question, not a no."""
    if job.scars is None:
        worst = worst_of(rule.verdict for rule in records.scar_rules.values())
        yield About("scars", job.origin_at("scars"), records.studio).ask(
            "Scars in the area are not on file.", "Look, ask, and write “none” or what is there.", worst
        )
    if job.moles is None:
        yield About("moles", records.studio.limits.mole_clearance).ask(
            "Moles and lesions in the area are not on file.", "Look, and write “none” or where they are."
        )
    for reading in readings:
        yield from scar_findings(records, job, reading)
    yield from _moles(records, job)


def _moles(records: Records, job: Job) -> Iterator[Finding]:
    """A part that comes nearer to a mole than the distance to keep, and a distance below the studio's own.

    Where no distance is written the studio's own is drawn and held; the one to keep may be larger, so it is asked for.
    """
    house = records.studio.limits.mole_clearance
    for number, mole in enumerate(job.moles or (), 1):
        kept = mole.keep or house
        keep, said = kept.low, shown(kept.low, kept.low, "length", records.studio.shows, kept.text)
        about = About(f"moles.{number}", house)
        if mole.keep is None:
            yield About(f"moles.{number}.keep", house).ask(
                f"Mole {number}: not on file how far to keep from it.",
                f"Look at it, and write down how far: {said} or more.",
            )
        if keep < house.low:
            yield about.care(
                f"Only {said} are kept from mole {number}; here it is {house.text}.",
                "Keep the studio's distance, or know why not.",
            )
        spot = shapes.Spot(mole.at[0].low, mole.at[1].low, keep)
        for part in job.parts:
            if shapes.mole_clearance(shape_of(part), spot) < 0:
                yield about.wait(
                    f"Part {part.id} comes nearer than {said} to mole {number}.",
                    "Move or cut the part. Send the client to a doctor with a mole that has changed. "
                    + clears_by_moving(records, job, [part]),
                )


def scar_findings(records: Records, job: Job, reading: ScarReading) -> Iterator[Finding]:
    """What the rules say of a scar, then what nobody answered about it."""
    yield from (_from_rule(records, job, reading, rule) for rule in reading.held)
    yield from _open_questions(records, reading)


def _from_rule(records: Records, job: Job, reading: ScarReading, rule: ScarRule) -> Finding:
    scar, until = reading.scar, None
    if rule.wait_until_age is not None and scar.wound is not None:
        old_enough = scars.earliest_date_by_age(wound_of(scar, job.date), int(rule.wait_until_age.high))
        # Where the rule holds for another reason, the age is behind it: no day to wait for is known.
        until = old_enough if old_enough > job.date else None
    if rests_on_an_answer(rule):
        return private_finding(About(scar, rule, records.studio), level_of(rule.verdict), until)
    remedy = " ".join(filter(None, (rule.clears, _moved(records, job, reading, rule))))
    return About(scar, rule).at(level_of(rule.verdict), f"Scar {scar.id}: {rule.consequence}", remedy, until)


def _moved(records: Records, job: Job, reading: ScarReading, rule: ScarRule) -> str:
    """The nearest shift of the parts that a rule keeps off a scar; nothing where it asks for no other drawing."""
    named = set(facts_named(rule.when))
    if RANK[rule.verdict] < RANK["wait"] or "over.crosses" not in named:
        return ""
    focal = focal_parts(job) if "over.focal" in named else {str(part.id) for part in job.parts}
    return clears_by_moving(records, job, [p for p in job.parts if p.id in reading.crossed_by and p.id in focal])


def _open_questions(records: Records, reading: ScarReading) -> Iterator[Finding]:
    """One finding for each item nobody answered, as bad as the worst rule that hangs on it."""
    scar, asked = reading.scar, set[str]()
    for key, fact, question in ITEMS:
        if reading.facts[fact] is not None:
            continue
        hanging = [rule for rule in reading.undecided if fact in facts_named(rule.when)]
        asked |= {rule.id for rule in hanging}
        by = hanging[0] if hanging else scar.origin_at(key)
        yield About(scar.origin_at(key), by, records.studio).ask(
            f"Scar {scar.id}: not on file {question}.",
            "Look, ask, and write it into the job.",
            worst_of(("wait", *(rule.verdict for rule in hanging))),
        )
    for rule in (rule for rule in reading.undecided if rule.id not in asked):
        if rests_on_an_answer(rule):
            yield private_finding(About(scar, rule, records.studio), level_of(rule.verdict), asks=True)
        else:
            yield About(scar, rule).ask(
                f"Scar {scar.id}: it is not known yet whether this holds: {rule.consequence}",
                _settled_by(rule, scar),
                level_of(rule.verdict),
            )


def _settled_by(rule: ScarRule, scar: Scar) -> str:
    if "scar.age" in facts_named(rule.when) and scar.wound is not None and scar.wound.open:
        return "Ask in which year the wound happened; until then it counts as young."
    return "Measure again and write one value, or answer what is open."
