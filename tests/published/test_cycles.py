"""The published cycles on file, as printed; the retention of records. Held against the records, not the code."""

from __future__ import annotations

import pytest

from generator.quantities import written
from generator.records.sterilizer import Cycle
from tests.planning.demo import RECORDS

# CDC, Guideline for Disinfection and Sterilization in Healthcare Facilities (2008, updated 2019), Table 7.
# How sure: A, read in the issuing body's own text. Air leaves by, item, temperature, hold, drying.
TABLE_7 = [
    ("gravity", "wrapped instruments", "121 °C", "30 min", "15–30 min"),
    ("gravity", "wrapped instruments", "132 °C", "15 min", "15–30 min"),
    ("gravity", "textile packs", "121 °C", "30 min", "15 min"),
    ("gravity", "textile packs", "132 °C", "25 min", "15 min"),
    ("gravity", "wrapped utensils", "121 °C", "30 min", "15–30 min"),
    ("gravity", "wrapped utensils", "132 °C", "15 min", "15–30 min"),
    ("dynamic air removal", "wrapped instruments", "132 °C", "4 min", "20–30 min"),
    ("dynamic air removal", "textile packs", "132 °C", "4 min", "5–20 min"),
    ("dynamic air removal", "wrapped utensils", "132 °C", "4 min", "20 min"),
]


def row(cycle: Cycle) -> tuple[str, str, object, object, object]:
    return cycle.method, cycle.good_for.lower().rstrip("."), cycle.temperature, cycle.holding_time, cycle.dry


@pytest.mark.parametrize(("method", "item", "temperature", "hold", "dry"), TABLE_7)
def test_a_cycle_of_table_7_is_on_file(method: str, item: str, temperature: str, hold: str, dry: str) -> None:
    wanted = (method, item, written(temperature), written(hold), written(dry))
    found = [cycle for cycle in RECORDS.cycles.values() if row(cycle) == wanted]
    assert len(found) == 1 and found[0].source == "cdc-disinfection"


def test_no_other_cycle_is_on_file() -> None:
    # Table 7 says of dynamic air removal at 121 °C: not applicable.
    assert len(RECORDS.cycles) == len(TABLE_7)
    assert not any(c.method == "dynamic air removal" and c.temperature.low == 121 for c in RECORDS.cycles.values())
    source = RECORDS.sources["cdc-disinfection"]
    assert source.year == 2008 and source.where is not None and "7" in source.where


def test_records_are_kept_as_long_as_the_model_code_asks() -> None:
    # NEHA Body Art Model Code 2024, section 6.5: client records 3 years. How sure: A.
    assert RECORDS.studio.limits.retention == written("3 years")
    assert RECORDS.sources[RECORDS.studio.limits.retention_source].year == 2024
