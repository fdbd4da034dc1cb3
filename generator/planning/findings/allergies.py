"""What a client's allergies mean: what stays off the tray, and which inks may be meant.

An allergy that no record knows waits, and so does a near miss, although its remedy says “did you mean”: only whoever
asked the client knows. Inks are found by words of their name and caution, and by the family of their hue.
"""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator

from generator.near_miss import nearest
from generator.planning.findings.verdict import About, Finding
from generator.planning.findings.weight import strong_of
from generator.records.client import Allergy
from generator.records.families import Records
from generator.records.inks import Ink
from generator.records.jobs import Job
from generator.trade import colour

# Words that say that an ink is meant, and not which.
_ANY = frozenset(("ink", "tattoo", "pigment", "dye", "colour", "color"))


def allergy_findings(records: Records, job: Job) -> Iterator[Finding]:
    """Whether allergies are on file, and whether something on the tray is among them."""
    if job.allergies is None:
        yield About("allergies", job.origin_at("allergies"), records.studio).ask(
            "Allergies are not on file.", "Ask, and write “none” or what it is."
        )
        return
    valid = records.studio.limits.screening_valid
    # Taken over from an earlier job and not asked about since: there may be another by now.
    told = min((allergy.told for allergy in job.allergies if allergy.told is not None), default=None)
    if told is not None and job.date - told > datetime.timedelta(days=valid.low):
        yield About("allergies", valid).ask(
            f"Allergies were asked about on {told}, too long before the sitting.",
            "Ask again, write down what there is now, and take `told` away or write the new day.",
        )
    for supply in records.supplies.values():
        if supply.contains is None and job.allergies:
            yield About(supply, supply.origin_at("contains")).look_up(
                f"Nobody has read what {supply.name} contains.", "Read the label, and write it into the record."
            )
    for allergy in {allergy.to: allergy for allergy in job.allergies}.values():
        yield from _allergy(records, job, allergy)


def _allergy(records: Records, job: Job, allergy: Allergy) -> Iterator[Finding]:
    """What contains it stays off the tray. With nothing on file to take instead, somebody makes sure of it first."""
    word, about, checked = allergy.to, f"allergies.{allergy.to}", allergy.checked
    valid, seen = records.studio.limits.screening_valid, None
    if checked is not None and not checked.not_on_tray:
        yield About(about, word, records.studio).wait(
            f"Allergy to {word}: something on the tray contains it.",
            "Take it off the tray, find something instead, and check all labels again.",
        )
    if checked is not None and not 0 <= (job.date - checked.on).days <= valid.low:
        yield About(about, valid).look_up(
            f"Allergy to {word}: the tray was checked on {checked.on}, "
            f"{'after' if checked.on > job.date else 'too long before'} the sitting.",
            "Read the labels again, and write the day down.",
        )
    elif checked is not None and checked.not_on_tray:
        who = records.people[checked.by].name
        seen = f"{who} read the labels of this tray on {checked.on}. Read what is added to it."
    holders = [supply for supply in records.supplies.values() if word in (supply.contains or ())]
    for supply in holders:
        yield About(about, supply).at(
            "care" if supply.instead or seen else "wait",
            f"Allergy to {word}: {supply.name} must stay off the tray.",
            supply.instead or seen or "Nothing is on file to take instead: find something before the day.",
        )
    for ink in _inks_meant(records, job, word):
        yield About(about, ink).at(
            "care" if seen else "wait",
            f"Allergy to {word}: {ink.name} may be meant, and it is planned.",
            seen or "Plan another ink, or find out which one it was and read what this one holds.",
            asks=seen is None,
            looked_up=True,
        )
    if not holders:
        near = nearest(word, sorted({word for supply in records.supplies.values() for word in supply.contains or ()}))
        meant = f"Did you mean “{near}”? If not: " if near else ""
        read = "read the labels of all that touches the client before it goes on the tray."
        yield About(about, word, records.studio).at(
            "care" if seen else "wait",
            f"Allergy to {word}: no record says what contains it.",
            meant + (seen or (read if near else read.capitalize())),
            asks=seen is None,
            looked_up=True,
        )


def _inks_meant(records: Records, job: Job, allergen: str) -> Iterator[Ink]:
    """The inks that are planned and that the words may mean; all of them where they say no more than that it is one."""
    said = {_singular(word) for word in re.findall(r"[a-z]+", allergen)}
    meant = said - _ANY
    planned = {ink.id: ink for ink in _planned(records, job)}
    hues = strong_of(records, {name: colour.lab(ink.swatch) for name, ink in planned.items() if ink.kind == "colour"})
    for name, ink in planned.items():
        told = f"{ink.name} {ink.kind} {ink.caution or ''}".lower()
        known = {_singular(word) for word in re.findall(r"[a-z]+", told)}
        known |= {hue for hue, inks in hues.items() if name in inks}
        if meant & known or (not meant and said):
            yield ink


def _singular(word: str) -> str:
    return word.removesuffix("s")


def _planned(records: Records, job: Job) -> Iterator[Ink]:
    """What is laid, what lines are run with where it is named, and what washes are mixed of."""
    lines = [work for part in job.parts for work in part.lines]
    named = [job.line_ink or records.studio.line_ink] if lines else []
    named += [work.ink for work in lines]
    named += [work.ink for part in job.parts for work in part.colours]
    for name in dict.fromkeys(filter(None, named)):
        ink = records.inks[name]
        yield ink
        if ink.mixed is not None:
            yield records.inks[ink.mixed.of]
