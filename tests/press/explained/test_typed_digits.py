"""What a record says is shown with every digit that was typed: in the record's own units nothing is rounded away."""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Iterator

import pytest
from pydantic import BaseModel

from generator.planning.computed import recorded
from generator.press.explained.worked import value_in_words
from generator.press.words.formatted import measured
from generator.quantities import Quantity, from_canonical, parse, shown
from generator.records.families import LISTED
from generator.records.jobs import Job
from generator.units import DECIMALS, IMPERIAL, KINDS, SYSTEMS, bands
from tests.planning.demo import JOBS, RECORDS, job_of, written


def _inside(value: object, where: str) -> Iterator[tuple[str, Quantity]]:
    if isinstance(value, Quantity):
        yield where, value
    elif isinstance(value, BaseModel):
        for name in type(value).model_fields:
            yield from _inside(getattr(value, name), f"{where}.{name}")
    elif isinstance(value, tuple):
        for number, item in enumerate(value):
            yield from _inside(item, f"{where}.{number}")
    elif dataclasses.is_dataclass(value):
        for field in dataclasses.fields(value):
            yield from _inside(getattr(value, field.name), f"{where}.{field.name}")


def _every_quantity() -> list[tuple[str, Quantity]]:
    found = list(_inside(RECORDS.studio, "studio"))
    for family in LISTED:
        for entry in RECORDS.family(family.name).values():
            found += _inside(entry, f"{family.name}.{entry.id}")
    jobs: list[Job] = [job_of(written(name)) for name in JOBS]
    for job in jobs:
        found += _inside(job, f"jobs.{job.id}")
    return [(where, quantity) for where, quantity in found if quantity.text]


QUANTITIES = _every_quantity()


def _numbers(words: str) -> list[float]:
    return [float(number) for number in re.findall(r"[−-]?\d+(?:\.\d+)?", words.replace("−", "-"))]


def _value_shown(words: str, kind: str) -> Quantity:
    """The first value of a cell, without the other system in brackets, read back as the program reads records."""
    first = words.partition(" (")[0].replace("\u00a0", " ").replace("−", "-")
    first = re.sub(r"^1 (day|week|month|year)$", r"1 \1s", re.sub(r"(\d)°$", r"\1 °", first))
    read = parse(first, (kind,), None, spans=True)
    assert isinstance(read, Quantity), (words, read)
    return read


def test_there_is_something_to_look_at() -> None:
    assert len(QUANTITIES) > 400
    assert len({quantity.kind for _, quantity in QUANTITIES}) >= 16


def test_every_quantity_of_the_demo_is_shown_as_it_was_typed() -> None:
    """In every place where a recorded value is put into words: on pages, in explanations, and on the sheet."""
    lost = []
    for where, quantity in QUANTITIES:
        said = {
            measured(quantity, RECORDS),
            value_in_words(recorded(quantity), RECORDS),
        }
        if quantity.kind not in KINDS:  # a score has no unit, and is shown as it is
            lost += [(where, quantity.text, words) for words in said if words != quantity.text]
            continue
        for words in {*said, shown(quantity.low, quantity.high, quantity.kind, "metric", quantity.text)}:
            back = _value_shown(words, quantity.kind)
            if (back.low, back.high) != (quantity.low, quantity.high):
                lost.append((where, quantity.text, words))
    assert lost == []


@pytest.mark.parametrize("system", ["metric", "imperial"])
def test_a_digit_more_than_usual_is_kept_for_every_kind(system: str) -> None:
    """Each kind with a value that has one decimal more than the trade shows, typed in the unit that is shown."""
    for kind in KINDS:
        unit = bands(kind, SYSTEMS[system])[-1][1]
        for below, decimals in DECIMALS[unit]:
            number = 0.05 if below < 1 else (0.5 if below == 1 else below * 0.75 if below < 1000 else 95)
            text = f"{number + 10.0 ** -(decimals + 1):.{decimals + 1}f} {unit}"
            read = parse(text, (kind,), None, spans=False)
            assert isinstance(read, Quantity)
            words = shown(read.low, read.high, kind, system, text)
            assert _numbers(words) == [pytest.approx(from_canonical(read.low, unit), rel=1e-8)], (text, words)
            assert (unit in IMPERIAL) == (bands(kind, SYSTEMS["metric"]) != bands(kind, SYSTEMS[system]))


def test_the_reference_of_f0_keeps_its_tenth_and_z_is_a_difference() -> None:
    limits = RECORDS.studio.limits
    assert measured(limits.f0_reference, RECORDS).replace("\u00a0", " ") == "121.1 °C (250 °F)"
    assert measured(limits.f0_z, RECORDS).replace("\u00a0", " ") == "10 °C (18 °F)"
