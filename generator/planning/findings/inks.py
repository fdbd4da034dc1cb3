"""Inks that are not in date, and pigments that may not be used.

A barred pigment waits, because no working steps are printed with an ink that may not be used. What an ink that is only
out of date means is a rule of the studio's: a new bottle mends it.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterator

from generator.planning.findings.lapsed import level_when_over
from generator.planning.findings.verdict import About, Finding
from generator.planning.supplies.tray import Tray, bottle_of
from generator.records.families import Records


def ink_findings(records: Records, tray: Tray) -> Iterator[Finding]:
    """An ink of which no bottle is in date on the day; a wash is poured from the bottle it is mixed of."""
    level = level_when_over(records.studio.expires.opened_inks)
    for bottle, lots in {bottle_of(records, poured.ink).id: poured.lots for poured in tray.inks}.items():
        ink = records.inks[bottle]
        about = About(ink, ink.origin_at("lots"))
        if not lots:
            reason = f"No bottle of {ink.name} is in date on the day."
            yield about.at(level, reason, "Open a new one and enter its lot.")
        if unknown := [str(lot.lot) for lot in lots if not lot.known]:
            yield about.look_up_unless_care(
                level,
                f"{ink.name}, {', '.join(unknown)}: the day it was opened is not on file.",
                "Look for it on the bottle and write it down, or write that it is sealed; otherwise open a new bottle.",
            )


def barred_findings(records: Records, tray: Tray, on: datetime.date) -> Iterator[Finding]:
    """An ink with a pigment that may not be used in the studio's region on the day; a wash has its bottle's too."""
    poured = {ink.id: ink for each in tray.inks for ink in (bottle_of(records, each.ink), each.ink)}
    for ink in poured.values():
        for barred in records.barred_pigments.values():
            if barred.region == records.studio.region and barred.pigment in ink.pigments and barred.since <= on:
                yield About(ink, barred.origin).wait(
                    f"{ink.name} holds {barred.name}, barred here since {barred.since.isoformat()}.",
                    "Choose another ink.",
                )
