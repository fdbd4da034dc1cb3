"""Conversions for the wall: round numbers in one unit and the same in the other, as far as the records reach."""

from __future__ import annotations

import math

from markupsafe import Markup

from generator.press.lists.here import Here
from generator.press.tables.needles import NEEDLE_DIAMETERS
from generator.press.words.addresses import anchor
from generator.press.words.markup import Cells, heading, page, paragraph, table_of, valued
from generator.quantities import Quantity, from_canonical, to_canonical
from generator.records.families import LISTED, Records
from generator.records.record import singles
from generator.trade import labels
from generator.units import KINDS, READ_AS

CONVERSIONS = "reference/conversions.md"


# By kind of quantity the two units that people at the station change between.
_PAIRS = {
    "length": ("Lengths", "mm", "in"),
    "frequency": ("Machine speeds", "Hz", "strokes/min"),
    "temperature": ("Temperatures", "°C", "°F"),
    "volume": ("Volumes", "mL", "fl oz"),
    "weight": ("Weights", "g", "oz"),
    "hand speed": ("Hand speeds", "mm/s", "in/s"),
}
# Only how the tables are laid out: how many rows are looked through at a glance, and which numbers are round.
_ROWS = 30
_DECADE = (1, 1.5, 2, 2.5, 3, 4, 5, 6, 8)
_ROUND_STEPS = (1, 2, 2.5, 5)


def conversions_page(here: Here) -> str:
    """For each pair of units both ways, from the smallest to the largest value that any record names."""
    spans = spans_of(here.records)
    blocks: list[str] = [heading("Needle diameters", "wire-codes"), _wire(here)]
    for kind, (title, first, second) in _PAIRS.items():
        if kind in spans:
            blocks.append(heading(title, anchor("convert", kind.replace(" ", "-"))))
            for one, other in ((first, second), (second, first)):
                numbers = round_numbers(*(from_canonical(end, one) for end in spans[kind]))
                rows = (_both(kind, number, one, other) for number in numbers)
                blocks.append(table_of(f"{title}: {one} to {other}", rows))
    return page(
        "Conversions",
        paragraph(
            "Round numbers between the smallest and the largest value on file for the station, to four digits. "
            "A machine makes strokes, not revolutions. One fluid ounce is that of the United States."
        ),
        *blocks,
    )


def _wire(here: Here) -> Markup:
    rows = (
        (
            f"code-{code}",
            {"Code": f"#{code}", "mm": valued(f"{mm:.2f}", mm), "in": valued(_plain(_in(mm, "mm", "in")), mm)},
        )
        for code, mm in labels.WIRE_DIAMETERS.items()
    )
    more = here.to(NEEDLE_DIAMETERS, "needle diameters")
    return Markup("{}{}").format(
        table_of("Needle diameters by wire code", rows),
        paragraph(Markup("More about them, and codes that disagree: {}.").format(more)),
    )


def _both(kind: str, number: float, one: str, other: str) -> tuple[str, Cells]:
    there = _in(number, one, other)
    return anchor(kind.replace(" ", "-"), _safe(one), _safe(_plain(number))), {
        one: valued(f"{_plain(number)}\u00a0{one}", number),
        other: valued(f"{_plain(there)}\u00a0{other}", there),
    }


def _in(number: float, one: str, other: str) -> float:
    return from_canonical(to_canonical(number, one), other)


def _plain(number: float) -> str:
    """Four digits, and never an exponent."""
    return f"{number:.4g}" if abs(number) < 1e4 else f"{number:.0f}"


def _safe(text: str) -> str:
    return text.replace("°", "deg-").replace("/", "-per-").replace(" ", "-").replace(".", "-").lower()


def round_numbers(low: float, high: float) -> list[float]:
    """Round numbers from `low` to `high`, both enclosed: evenly apart in a short span, by decades in a long one."""
    if low > 0 and high / low > 10:
        decades = range(math.floor(math.log10(low)), math.floor(math.log10(high)) + 2)
        ladder = [float(f"{m * 10.0**decade:.9g}") for decade in decades for m in _DECADE]
        first = max(number for number in ladder if number <= low)
        last = min(number for number in ladder if number >= high)
        return [number for number in ladder if first <= number <= last]
    step = _step((high - low) or 1)
    first, last = math.floor(round(low / step, 9)), math.ceil(round(high / step, 9))
    return [float(f"{n * step:.9g}") for n in range(first, last + 1)]


def _step(span: float) -> float:
    """The smallest round step that divides a span into no more rows than are looked through at a glance."""
    decade = math.floor(math.log10(span / _ROWS))
    steps = (m * 10.0**d for d in (decade, decade + 1) for m in _ROUND_STEPS)
    return next(step for step in steps if span / step <= _ROWS)


def spans_of(records: Records) -> dict[str, tuple[float, float]]:
    """For each kind of quantity the smallest and the largest value on file for the station, in the canonical unit."""
    # Numbers that only procedures quote, such as a step or the warmth of a room, would stretch every table.
    listed = (family.name for family in LISTED if family.name != "values")
    entries = (entry for name in listed for entry in records.family(name).values())
    found: dict[str, tuple[float, float]] = {}
    for value in (one for entry in (records.studio, *entries) for one in singles(entry)):
        if isinstance(value, Quantity) and value.kind in KINDS and value.high > 0:
            kind = READ_AS.get(value.kind, value.kind)
            low, high = found.get(kind, (math.inf, -math.inf))
            # Nothing is converted from nought; the other end of such a range still counts.
            found[kind] = (min(low, value.low or value.high), max(high, value.high))
    return found
