"""The sittings of a piece, in each of which no cartridge is opened for too little work while an open one fits.

First the piece is split, then the rows of each sitting are looked at alone. That is done once: a needle changes no
time, and rows that become one are printed with no more minutes than before, so that no sitting becomes too long.
"""

from __future__ import annotations

import math
from dataclasses import replace

from generator.planning.timing.learning import Learned, at_their_pace
from generator.planning.timing.rounding import minutes_up
from generator.planning.timing.sittings import Sitting, Stint, split_into_sittings
from generator.planning.working.open_needles import in_one_row
from generator.planning.working.pieces import Piece
from generator.planning.working.steps import LaidOut, Step, open_for, steps_of
from generator.records.jobs import Job


def in_sittings(laid: LaidOut, job: Job, learned: Learned) -> tuple[tuple[Step, ...], tuple[Sitting, ...]]:
    """The steps of a piece at the pace that was learned, and how they are worked."""
    records, steps = laid.records, at_their_pace(job, laid.steps, learned)
    split = split_into_sittings(records, job, steps)
    if len(split) == 1 or records.studio.limits.cartridge is None:
        return steps, split
    pieces: list[Piece] = []
    numbers: dict[int, int] = {}
    sittings: list[Sitting] = []
    for sitting in split:
        here = [steps[stint.number - 1] for stint in sitting.stints]
        # A step that no sitting holds keeps its needle, which is open in each of them.
        slow = [
            step.booked.high if stint.share == 1 else math.inf for step, stint in zip(here, sitting.stints, strict=True)
        ]
        chosen = open_for(records, job, [step.piece for step in here], slow)
        stints: list[Stint] = []
        before = math.inf
        for stint, piece, minutes in zip(sitting.stints, chosen, slow, strict=True):
            both = list(in_one_row((pieces[-1], piece))) if stints and math.isfinite(before + minutes) else []
            if len(both) == 1 and minutes_up(before + minutes) <= minutes_up(before) + minutes_up(minutes):
                pieces[-1] = both[0]
                before += minutes
                continue
            if stint.number not in numbers:
                pieces.append(piece)
                numbers[stint.number] = len(pieces)
            stints.append(replace(stint, number=numbers[stint.number]))
            before = minutes
        sittings.append(replace(sitting, stints=tuple(stints)))
    made, refused = steps_of(records, job, pieces, laid.scars)
    if refused or pieces == [step.piece for step in steps]:
        return steps, split
    return at_their_pace(job, tuple(made), learned), tuple(sittings)
