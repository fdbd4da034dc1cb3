"""What live examples are taken from: the studio's records, one planned job, and the day of the build."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Mapping
from typing import NamedTuple

from generator.planning.computed import Operand
from generator.planning.plan import JobPlan
from generator.records.families import Records


class TakenFrom(NamedTuple):
    """`plan` is that of one job which goes ahead; None while the studio has none."""

    records: Records
    plan: JobPlan | None
    as_of: datetime.date


# The inputs of a formula by name, and perhaps others beside them; None where nothing on file fits.
Inputs = Mapping[str, Operand] | None
Taking = Callable[[TakenFrom], Inputs]


def shows_more(plan: JobPlan, best: JobPlan | None) -> bool:
    """Whether a plan shows more formulas than the best one so far; of two alike the first one stays."""
    return plan.work is not None and (best is None or _shows(plan) > _shows(best))


def _shows(plan: JobPlan) -> int:
    job = plan.job
    return (
        3 * (plan.placement.wrap is not None)
        + 2 * bool(job.moles)
        + bool(job.scars)
        + any(part.gap for part in job.parts)
        + min(len(job.parts), 3)
    )
