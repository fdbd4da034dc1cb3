"""What plans and pages have calculated: every application of a formula that they carry, with its inputs."""

from __future__ import annotations

import contextlib
import inspect
from collections.abc import Callable, Iterator, Mapping
from types import ModuleType
from typing import NamedTuple

from generator.planning.computed import Answered, Computed, Operand
from generator.planning.plan import JobPlan
from generator.planning.supplies.mixes import Measured, measured_mixes
from generator.planning.supplies.sterilizer import read_loads
from generator.planning.working.swapping import hand_speed_kept, misleading_speed, swap_to_show
from generator.planning.working.widths import computed_width
from generator.press.explained.docstrings import rooms
from generator.press.explained.everything_in import everything_in
from generator.records.families import Records
from generator.trade.refusal import Refusal


class Applied(NamedTuple):
    """A formula and what it is applied to, by parameter name; other names may stand beside those it takes."""

    function: Callable[..., object]
    inputs: Mapping[str, Operand]


def applied_to(inputs: Mapping[str, Operand], *formulas: ModuleType | Callable[..., object]) -> Iterator[Applied]:
    """Formulas with the same inputs. A room of the trade stands for all its formulas for which these are enough."""
    for one in formulas:
        if isinstance(one, ModuleType):
            of_room = rooms()[one.__name__.rpartition(".")[2]][1]
            yield from (Applied(function, inputs) for function in of_room if set(_needed(function)) <= inputs.keys())
        else:
            yield Applied(one, inputs)


def _needed(function: Callable[..., object]) -> Iterator[str]:
    """The parameters that have no value of their own: what a published standard fixes is the formula's default."""
    parameters = inspect.signature(function).parameters.values()
    return (one.name for one in parameters if one.default is inspect.Parameter.empty)


def applied_in(found: object) -> Iterator[Applied]:
    """Every value that a formula gave, in whatever planning made, and in the inputs of such values; each once."""
    for value in everything_in(found, set()):
        if isinstance(value, Computed | Answered | Measured):
            yield Applied(value.function, dict(value.inputs))


def calculated(records: Records) -> Iterator[object]:
    """What the tables of the reference calculate from the records alone."""
    for grouping in records.groupings.values():
        # What cannot be computed says so in its row of the table.
        with contextlib.suppress(Refusal):
            yield computed_width(grouping)
    swap = swap_to_show(records)
    if swap is not None:
        yield hand_speed_kept(*swap), misleading_speed(swap)
    for product in records.disinfectants.values():
        if product.batch is not None:
            yield measured_mixes(product, product.batch, records)
    yield read_loads(records)


def shows(plan: JobPlan) -> int:
    """How much a plan shows of the formulas: the more the better; below 0 where it shows nothing."""
    job = plan.job
    if plan.work is None:
        return -1
    return (
        3 * (plan.placement.wrap is not None)
        + 2 * bool(job.moles)
        + bool(job.scars)
        + any(part.gap for part in job.parts)
        + min(len(job.parts), 3)
    )
