"""All drawings are written by the same few helpers, which escape everything."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from pathlib import Path

from generator.press import drawings
from generator.press.drawings.svg import element, n, words

_OWN = re.compile(
    r"<(svg|path|rect|circle|text|g|ellipse|polygon|pattern|clipPath|defs)\b|def _?(svg|path|text|n)\((?!self)"
)


def test_what_a_record_says_is_escaped_in_attributes_and_inside() -> None:
    said = "<b> & \"two\" 'three'"
    drawn = element("g", words(1, 2, said), element("path", d=said), said, class_=said, aria_label=said)
    read = ET.fromstring(str(drawn))
    assert (read.get("class"), read.get("aria-label")) == (said, said)
    assert [child.tag for child in read] == ["text", "path"]
    assert read[0].text == said and read[1].get("d") == said and read[1].tail == said


def test_numbers_are_short_and_a_nought_has_no_sign() -> None:
    assert [n(value) for value in (10.0, 0.1 + 0.2, 1.005, -0.001, 1200.0)] == ["10", "0.3", "1", "0", "1200"]
    assert n(0.1234, 3) == "0.123" and n(0.06, 1) == "0.1"
    assert element("path", stroke_width=0.30000000000000004) == '<path stroke-width="0.3"/>'


def test_no_drawing_has_helpers_of_its_own() -> None:
    modules = [path for path in Path(drawings.__path__[0]).glob("*.py") if path.name != "svg.py"]
    found = [f"{path.name}: {line}" for path in modules for line in path.read_text("utf-8").split("\n")]
    assert len(modules) > 8 and [line for line in found if _OWN.search(line)] == []
