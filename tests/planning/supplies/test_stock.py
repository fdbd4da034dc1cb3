"""What stands on the shelf and may not be used, and what nobody has read."""

from __future__ import annotations

import dataclasses
import datetime

from generator.planning.plan import plan
from tests.planning.demo import RECORDS, job_of, part, simple


def findings(records: object, **changes: object) -> list[tuple[str, str, bool]]:
    made, report = plan(records, job_of(simple(**changes)))  # type: ignore[arg-type]
    assert made is not None, report
    return [(f.level, f.rule, f.asks) for f in made.findings]


def test_a_barred_pigment_makes_the_piece_wait() -> None:
    """C.I. 74160 may not be used in the EU since 4 January 2023 (Reg. (EU) 2020/2081, read where it is quoted)."""
    barred = [i.id for i in RECORDS.inks.values() if "C.I. 74160" in i.pigments]
    assert barred
    found = findings(RECORDS, parts=[part("lamp", focal="yes", colours=[barred[0]])])
    assert ("wait", "barred-pigments.blue-15-3-eu", False) in found


def test_it_is_no_finding_elsewhere_or_before_its_day() -> None:
    barred = next(i.id for i in RECORDS.inks.values() if "C.I. 74160" in i.pigments)
    parts = [part("lamp", focal="yes", colours=[barred])]
    elsewhere = dataclasses.replace(RECORDS, studio=RECORDS.studio.model_copy(update={"region": "other"}))
    assert not [f for f in findings(elsewhere, parts=parts) if f[1].startswith("barred")]
    later = {
        key: entry.model_copy(update={"since": datetime.date(2030, 1, 1)})
        for key, entry in RECORDS.barred_pigments.items()
    }
    soon = dataclasses.replace(RECORDS, barred_pigments=later)
    assert not [f for f in findings(soon, parts=parts) if f[1].startswith("barred")]


def test_contents_that_nobody_has_read_are_asked_about_for_a_client_with_an_allergy() -> None:
    unread = {**RECORDS.supplies, "pad": RECORDS.supplies["pad"].model_copy(update={"contains": None})}
    records = dataclasses.replace(RECORDS, supplies=unread)
    assert ("wait", "supplies.pad.contains", True) in findings(records, allergies=["latex"])
    assert not [f for f in findings(records) if f[1] == "supplies.pad.contains"]


def test_lines_outside_the_studios_spacing_are_a_care() -> None:
    limits = RECORDS.studio.limits.model_copy(
        update={"spacing": dataclasses.replace(RECORDS.studio.limits.spacing, low=0.001, high=0.002)}
    )
    studio = RECORDS.studio.model_copy(update={"limits": limits})
    records = dataclasses.replace(RECORDS, studio=studio)
    assert ("care", "studio.limits.spacing", False) in findings(records)
    assert not [f for f in findings(RECORDS) if f[1] == "studio.limits.spacing"]
