"""The records as they are on the day of a job: what is over by then is chosen by no default, and laid out nowhere."""

from __future__ import annotations

import dataclasses
import datetime

from generator.records.ended import is_over
from generator.records.families import Records
from generator.records.ids import Reference
from generator.records.needles import Technique
from generator.records.people import Person


def records_on(records: Records, day: datetime.date) -> Records:
    """Defaults without what is over on this day. What alone could be taken stays, so that it is found and told of."""
    ended = {
        (family, str(entry.id))
        for family, entries in (
            ("machines", records.machines),
            ("groupings", records.groupings),
            ("inks", records.inks),
        )
        for entry in entries.values()
        if is_over(entry.until, day)
    }
    gone = {key for key, supply in records.supplies.items() if is_over(supply.until, day)}
    if not ended and not gone:
        return records
    return dataclasses.replace(
        records,
        techniques={key: _technique(technique, ended) for key, technique in records.techniques.items()},
        people={key: _person(person, ended) for key, person in records.people.items()},
        # Those that are here first, because the first one that fits is taken.
        inks=dict(sorted(records.inks.items(), key=lambda item: ("inks", item[0]) in ended)),
        supplies={key: supply for key, supply in records.supplies.items() if key not in gone},
    )


def with_procedures_in_use(records: Records, day: datetime.date) -> Records:
    """Without the procedures that nobody has to read any more on this day."""
    kept = {key: one for key, one in records.procedures.items() if not is_over(one.until, day)}
    return records if len(kept) == len(records.procedures) else dataclasses.replace(records, procedures=kept)


def _technique(technique: Technique, ended: set[tuple[str, str]]) -> Technique:
    here = {"machines": _here(technique.machines, ended), "rounds": _here(technique.rounds, ended)}
    return technique.model_copy(update=here)


def _here(names: tuple[Reference, ...], ended: set[tuple[str, str]]) -> tuple[Reference, ...]:
    return tuple(name for name in names if (name.family, str(name)) not in ended) or names


def _person(person: Person, ended: set[tuple[str, str]]) -> Person:
    """A habit with a machine that is gone is none."""
    own = tuple(one for one in person.own_settings if ("machines", str(one.machine)) not in ended)
    return person.model_copy(update={"own_settings": own})
