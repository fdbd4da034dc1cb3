"""Lines are counted as a browser breaks them: in DejaVu Sans, in two cuts, at spaces, hyphens and dashes."""

from __future__ import annotations

from typing import Any

import pytest

from generator.press.words.markup import with_whole_dates
from generator.press.words.text_width import POINT, Text, lines_of, width_of

SIZE = 10.5
TEXTS: tuple[Text, ...] = (
    "Stencil on the arc template, printed at 100\u00a0% of its size",
    "a-part-with-a-name-as-long-as-a-column-is-wide, and what is behind it",
    "between 2027-07-14 and 2027-08-11, or 0.5–0.9 mL of it; “so it is”",
    (("Existing tattoo o1:", False), (" covered by lantern, rocks and moth", True)),
    (("C gauge", True), (" Packing, narrow places", False), (", ", False), ("over\u00a0s1\u00a0once", True)),
    (("Wraps", False), (" 126° above, 171° below", True)),
    (("W" * 40, True),),
)


def test_a_text_has_as_many_lines_as_a_browser_sets(page: Any) -> None:
    rooms = (24, 31, 38, 45, 58, 76, 120)
    asked = [(text, room) for text in TEXTS for room in rooms]
    boxes = "".join(f'<p style="width: {room}mm">{_marked(text)}</p>' for text, room in asked)
    style = f'p {{ font: {SIZE}pt/2 "DejaVu Sans"; font-variant-ligatures: none; overflow-wrap: anywhere; margin: 0 }}'
    page.set_content(f"<style>{style} b {{ font-weight: 700 }} .whole {{ white-space: nowrap }}</style>{boxes}")
    tall = page.evaluate("[...document.querySelectorAll('p')].map(e => e.getBoundingClientRect().height / 96 * 25.4)")
    lines = [round(height / (2 * SIZE * POINT)) for height in tall]
    wrong = [
        (text, room, counted, seen)
        for (text, room), seen in zip(asked, lines, strict=True)
        if (counted := lines_of(text, room, SIZE)) != seen
    ]
    assert wrong == []


def test_a_text_in_two_cuts_is_as_wide_as_both() -> None:
    both = (("label ", False), ("value", True))
    assert width_of(both, 10) == pytest.approx(width_of("label ", 10) + width_of("value", 10, bold=True))
    assert lines_of((("one", False), ("word", True)), width_of("oneword", 10), 10) == 2
    assert lines_of("", 10, 10) == 1


def _marked(text: Text) -> str:
    runs = ((text, False),) if isinstance(text, str) else text
    return "".join(f"<b>{with_whole_dates(run)}</b>" if bold else with_whole_dates(run) for run, bold in runs)
