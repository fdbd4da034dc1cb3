"""The groupings as they look from the skin: every needle as a circle, all groupings at one scale."""

from __future__ import annotations

from functools import lru_cache

from markupsafe import Markup

from generator.how_many import how_many
from generator.planning.working.widths import computed_width
from generator.press.drawings.svg import element, n
from generator.press.words.formatted import calculated
from generator.records.families import Records
from generator.records.needles import Grouping
from generator.trade import labels, needle_positions
from generator.trade.refusal import Refusal

# Millimetres of skin are drawn this many times larger: at 96 px to the inch a needle of 0.30 mm has 14 px.
_PIXELS_A_MILLIMETRE = 48
_MARGIN = 0.12
_BAR = 1.0  # mm
_DIGITS = 3  # of a millimetre: needles differ by hundredths


def cross_sections(records: Records) -> Markup:
    """All groupings on the shelf, side by side. One whose needles cannot be placed is left out; its row says why."""
    figures = Markup("").join(cross_section(grouping, records) for grouping in records.groupings.values())
    return Markup('<div class="needles">{}</div>').format(figures) if figures else Markup("")


def cross_section(grouping: Grouping, records: Records) -> Markup:
    """One grouping with its label and width; nothing where its needles cannot be placed."""
    label = labels.read_label(grouping.label)
    try:
        places = needle_positions.needle_positions(
            label.configuration, label.count, label.needle_diameter, grouping.spread, grouping.packed == "hollow"
        )
        width = computed_width(grouping)
    except Refusal:
        return Markup("")
    across = calculated(width.low, width.high, "needle length", records)
    alone = labels.CONFIGURATIONS[label.configuration]
    needles = how_many(label.count, "needle")
    one = calculated(label.needle_diameter, label.needle_diameter, "needle length", records)
    said = f"{grouping.label}, {alone}, {grouping.packed}: {needles} of {one}, {across} across. The bar is 1 mm long."
    return Markup("<figure>{}<figcaption>{}, {}</figcaption></figure>").format(
        drawn(places, label.needle_diameter, said), grouping.label, across
    )


@lru_cache(maxsize=256)
def drawn(places: tuple[tuple[float, float], ...], needle_diameter: float, said: str) -> Markup:
    """Needles at their places with a bar of one millimetre; lengths are mm, `said` is the text alternative."""
    radius = needle_diameter / 2
    left, right = (end(x for x, _ in places) for end in (min, max))
    low, high = (end(y for _, y in places) for end in (min, max))
    # A single fine needle is narrower than the bar.
    half = max(right - left + needle_diameter, _BAR) / 2 + _MARGIN
    middle, top = (left + right) / 2, -high - radius - _MARGIN
    bar = -low + radius + 2 * _MARGIN
    height = bar + _MARGIN - top
    # The trade's y grows upwards, the picture's downwards.
    circles = (element("circle", cx=_fine(x), cy=_fine(-y), r=_fine(radius)) for x, y in places)
    ends = f"M{_fine(middle - _BAR / 2)} {_fine(bar - 0.05)}v0.1m0 -0.05h{_fine(_BAR)}m0 -0.05v0.1"
    return element(
        "svg",
        *circles,
        element("path", d=ends),
        viewBox=f"{_fine(middle - half)} {_fine(top)} {_fine(2 * half)} {_fine(height)}",
        width=_fine(2 * half * _PIXELS_A_MILLIMETRE),
        height=_fine(height * _PIXELS_A_MILLIMETRE),
        role="img",
        aria_label=said,
    )


def _fine(value: float) -> str:
    return n(value, _DIGITS)
