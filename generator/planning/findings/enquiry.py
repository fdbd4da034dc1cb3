"""What an enquiry is answered with before a client was asked anything: time, sittings, open questions, cost.

It promises no day and sets nothing: the questions come first. Times are those that would be booked.
"""

from __future__ import annotations

from dataclasses import dataclass

from generator.planning.computed import Computed
from generator.planning.supplies.cost import Cost
from generator.planning.timing.sittings import Sitting


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
