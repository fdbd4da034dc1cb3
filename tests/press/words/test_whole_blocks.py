"""Blocks that are held back from Markdown come out as Markdown would have left them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import markdown
import yaml

from generator.press.words.markup import bullets, code_block, folded, note, page, paragraph, table_of, terms
from generator.press.words.whole_blocks import anchors_in, held_back, put_back
from generator.shipped import SETTINGS

_ROWS = (
    ("one", {"A": "*a*", "B": "b | `c`", "C": "[d](e.md)"}),
    ("two", {"A": "<b>", "B": "&amp;", "C": "# f"}),
)
_PAGES = {
    "tables": page("A *title*", table_of("All {of} them", _ROWS), paragraph("_said_ & done")),
    "between Markdown": page("T", "## Part", "*said* <b>x</b>", table_of("One", _ROWS), "- a\n- b", "_end_"),
    "folds": page("T", folded("More", bullets(("*a*", "b"))), note("Mind", "`c`"), terms(("d", "e")), "text"),
    "lines to copy": page("T", code_block("a: 1\n\n  *b*: 2", "Lines"), folded("How", code_block("x\n\ny", "Lines"))),
    "a tab": page("T", paragraph("a\tb"), paragraph("c")),
}


def _converter() -> markdown.Markdown:
    settings = yaml.safe_load(SETTINGS.read_text("utf-8"))["markdown_extensions"]
    named: list[tuple[str, Mapping[str, Any]]] = [
        next(iter(one.items())) if isinstance(one, dict) else (one, {}) for one in settings
    ]
    return markdown.Markdown(extensions=[name for name, _ in named], extension_configs=dict(named))


def _body(text: str) -> str:
    return text.split("---\n\n", 1)[-1]


def test_a_page_is_what_markdown_makes_of_all_of_it() -> None:
    found, held = {}, 0
    for name, text in _PAGES.items():
        left, blocks = held_back(_body(text))
        held += len(blocks)
        found[name] = put_back(_converter().convert(left), blocks)
    assert found == {name: _converter().convert(_body(text)) for name, text in _PAGES.items()}
    assert held >= 7


def test_what_a_block_can_be_linked_by_is_known() -> None:
    _, blocks = held_back(_PAGES["tables"])
    assert anchors_in(blocks) == {"one", "two"}
    assert anchors_in([str(paragraph('id="x"'))]) == set()
