"""What is printed of a finding that rests on a client's answer or on the cause of a scar.

A sheet lies open on a bench. One sentence for each level says what it means for the day and nothing of what it is
about, so that no answer can be recognized by its words, its source or its place among the findings.

Equal sentences are printed once, and open questions are only counted: even “the heart doctor” in a remedy says what
the answer was. Type and look of a scar are printed, because they are seen on the skin.
"""

from __future__ import annotations

import datetime

from generator.planning.findings.verdict import About, Finding, Level, Said

# What a record's own texts say is on the reference pages, which belong to no client.
_WHERE = "Read in the consent file what it is about, and what would clear it."

SAID: dict[Level, Said] = {
    "care": Said("Care is needed.", "Read the consent file before the client sits down; it says what to do."),
    "wait": Said("Not on this day.", _WHERE),
    "doctor": Said("A doctor's written answer is missing.", _WHERE),
    "not here": Said("Not done here.", _WHERE),
}


def private_finding(about: About, level: Level, until: datetime.date | None = None, asks: bool = False) -> Finding:
    """A finding that tells its level alone. Its source is the studio's own, since a telling source tells as much."""
    assert about.here is not None
    return about.at(level, *SAID[level], until, asks)


def is_private(finding: Finding) -> bool:
    """Whether it says no more than its level."""
    return (finding.reason, finding.remedy) == SAID.get(finding.level)
