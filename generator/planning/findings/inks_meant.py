"""Which inks of a piece an allergy may mean: by words of their name and caution, and by the family of their hue."""

from __future__ import annotations

import re
from collections.abc import Iterator

from generator.planning.findings.weight import strong_of
from generator.records.families import Records
from generator.records.inks import Ink
from generator.records.jobs import Job
from generator.trade import colour

# Words that say that an ink is meant, and not which.
_ANY = frozenset(("ink", "tattoo", "pigment", "dye", "colour", "color"))


def inks_meant(records: Records, job: Job, allergen: str) -> Iterator[Ink]:
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
