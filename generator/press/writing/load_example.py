"""A load of the sterilizer to copy."""

from __future__ import annotations

from generator.records.families import Records


def load_example(records: Records) -> str:
    """A load to copy, by the first cycle and person on file."""
    cycle, who = next(iter(records.cycles), "cycles"), next(iter(records.people), "people")
    return f"""\
- id: load-2027-03-01
  cycle: {cycle}
  date: 2027-03-01
  samples:
    - [2 min, 115 °C]
    - [31 min, 121.8 °C]
  chemical_passed: yes
  biological: waiting
  who: {who}
"""
