"""The block `finished` of a job, filled in with what was planned, for the artist to correct."""

from __future__ import annotations

import math
from collections.abc import Iterator

from generator.planning.computed import total
from generator.planning.plan import JobPlan, Work
from generator.planning.supplies.tray import bottle_of, in_date
from generator.press.drawings.map_words import part_letters
from generator.press.sheet.afterwards import by_technique, steps_set
from generator.records.families import Records


def finished_block(records: Records, plan: JobPlan) -> str:
    """The lines of the block, from its key on; what is planned as a range is filled in with its middle."""
    assert plan.work is not None
    return "\n".join(_lines(records, plan, plan.work)) + "\n"


def _lines(records: Records, plan: JobPlan, work: Work) -> Iterator[str]:
    today = work.at_hand
    worked: dict[str, int] = {}
    for technique, steps in by_technique(records, today.steps):
        whole = total([step.booked for step in steps], "duration")
        worked[technique] = max(1, round((whole.low + whole.high) / 2))
    visit = today.timetable.whole
    took = max(math.ceil((visit.low + visit.high) / 2), sum(worked.values()))
    yield ""
    yield "# Filled in from the plan: correct every line that was otherwise."
    yield "finished:"
    yield f"  on: {plan.job.date.isoformat()}"
    yield f"  took: {took} min  # from seat to door"
    yield "  worked:  # minutes by the clock"
    yield from (f"    - {{technique: {technique}, took: {time} min}}" for technique, time in worked.items())
    yield "  steps:  # what was really set; a line that was as planned may stay or go"
    letters = part_letters(plan.job)
    for step, (_, planned) in zip(steps_set(records, today), today.numbered, strict=True):
        dial = planned.setting.dial
        set_to = {
            "step": str(step.number),
            "needle": step.grouping,
            "machine": step.machine,
            **({"dial": step.dial.replace("\u00a0", " ")} if dial.low == dial.high else {}),
            "ink": step.ink,
            **({"passes": step.passes} if planned.passes.low % 1 == 0 else {}),
        }
        said = ", ".join(f"{key}: {value}" for key, value in set_to.items())
        yield f"    - {{{said}}}  # {letters[step.part]} {step.part}"
    yield "  lots:  # of each ink the bottle that was poured from"
    yield from (f"    - {line}" for line in _lots(records, plan, work))
    yield "  # cartridges:  # lot and expiry are on the box; take the # away where they are written in"
    yield from (f"  #   - {{grouping: {grouping}, lot: , expires: }}" for grouping in today.tray.groupings)
    yield "  stopped: done  # done, time, skin, tap-out or unwell"
    yield "  # dressing:"
    yield "  ended: Done as planned.  # why it stopped, and where it was left"


def _lots(records: Records, plan: JobPlan, work: Work) -> Iterator[str]:
    """Every bottle in date, each once: a recall is to ask one client too many and never one too few."""
    bottles = {bottle.id: bottle for bottle in (bottle_of(records, poured.ink) for poured in work.at_hand.tray.inks)}
    dated = [(each, dict.fromkeys(str(lot.lot) for lot in in_date(each, plan.job.date))) for each in bottles.values()]
    for bottle, lots in dated:
        which = "; one of these was poured: take the others away" if len(lots) > 1 else ""
        yield from (f"{_typed(lot)}  # {bottle.name}{which}" for lot in lots)
    if not any(lots for _, lots in dated):
        yield "unknown  # no bottle on file is in date: write the lot on the label"


def _typed(lot: str) -> str:
    """A lot as it is typed, in quotes where it is no plain word."""
    plain = lot.replace("-", "").replace(" ", "").isalnum() and lot[0].isalnum() and not lot.isdigit()
    return lot if plain else "'" + lot.replace("'", "''") + "'"
