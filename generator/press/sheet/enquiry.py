"""The answer to an enquiry in words, for the plan and the job's page; the sheet of such a job says only what it is."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from generator.planning.plan import Enquiry, JobPlan
from generator.planning.supplies.cost import Cost
from generator.press.sheet.number_links import Labelled
from generator.press.words.estimates import ends_by_the_clock, in_hours
from generator.records.families import Records


class AnswerToEnquiry(NamedTuple):
    """Time, sittings and cost, and what the client is asked before the first sitting."""

    told: tuple[Labelled, ...]
    questions: tuple[str, ...]


def answer_to_enquiry(records: Records, plan: JobPlan) -> AnswerToEnquiry | None:
    """The answer; None for a job whose client was asked."""
    enquiry = plan.enquiry
    if enquiry is None:
        return None
    return AnswerToEnquiry(tuple(_told(records, enquiry)), enquiry.questions)


def _told(records: Records, enquiry: Enquiry) -> Iterator[Labelled]:
    count = len(enquiry.each)
    sittings = "in one sitting" if count == 1 else f"in {count} sittings"
    each = [ends_by_the_clock(whole) for whole in enquiry.each]
    low, high = map(sum, zip(*each, strict=True))
    yield Labelled("Time from seat to door", f"{_hours(low, high)}, {sittings}")
    if count > 1:
        for number, ends in enumerate(each, 1):
            yield Labelled(f"Sitting {number}", _hours(*ends))
        rest = records.studio.limits.same_skin_again
        yield Labelled("Between two sittings", f"{rest.text} at least on the same skin")
    if enquiry.cost is not None:
        yield Labelled("Consumables", _cost(enquiry.cost))


def _hours(*ends: float) -> str:
    return " to ".join(dict.fromkeys(in_hours(end).replace(" ", "\u00a0") for end in ends))


def _cost(cost: Cost) -> str:
    low, high = (f"{end:.2f}" for end in (cost.amount.low, cost.amount.high))
    said = f"{low if low == high else f'{low}–{high}'}\u00a0{cost.currency}"
    if cost.without_price:
        said += f"; no price on file for {', '.join(cost.without_price)}"
    return said
