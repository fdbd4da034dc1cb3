"""What an enquiry is answered with before a client was asked anything: time, sittings, open questions, cost.

It promises no day and sets nothing: the questions come first. Times are those that would be booked.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from generator.planning.computed import Computed
from generator.planning.supplies.cost import Cost
from generator.planning.timing.sittings import Sitting
from generator.planning.timing.timetable import Timetable
from generator.records.families import Records


@dataclass(frozen=True, slots=True)
class Enquiry:
    """The answer. whole: minutes from seat to door, of all sittings; each: those of each sitting.

    questions: what the client is asked before the first sitting. cost: None where no price is on file.
    """

    whole: Computed
    each: tuple[Computed, ...]
    sittings: tuple[Sitting, ...]
    questions: tuple[str, ...]
    cost: Cost | None


def enquiry_of(
    records: Records,
    timetable: Timetable,
    days: Iterable[tuple[Sitting, Timetable]],
    cost: Cost | None,
) -> Enquiry:
    """The answer to an enquiry whose piece is planned. days: the sittings with their own times."""
    visits = tuple(days)
    asked = tuple(question.ask for question in records.screening.values())
    return Enquiry(
        timetable.whole,
        tuple(times.whole for _, times in visits),
        tuple(sitting for sitting, _ in visits),
        asked,
        cost,
    )
