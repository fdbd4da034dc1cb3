"""Blocks of HTML on a generated page, which Markdown would read tag by tag and then leave as they are.

Nine tenths of such a page are tables. They are held back while the rest is converted, and put in their places after it.
"""

from __future__ import annotations

import html
import re
from collections.abc import Sequence

# One element on a line of its own, between empty lines (`markup.page`). Markdown exchanges a tab for spaces, and marks
# its own places with the two others; where one stands, the block is left to it.
_BLOCK = re.compile(
    r"(?<=\n\n)<(?P<tag>div|p|ul|dl|details|figure)\b[^\n\r\t\x02\x03]*</(?P=tag)>(?=\n\n|\n?\Z)",
)
_HELD = '<div data-held="{}"></div>'
_PLACE = re.compile(r'<div data-held="(\d+)"></div>')
_ANCHOR = re.compile(r'<[^<>]*? id="([^"]*)"')


def held_back(markdown: str) -> tuple[str, list[str]]:
    """The page of a record or of jobs with a sign in the place of each block, and the blocks."""
    blocks: list[str] = []

    def sign(block: re.Match[str]) -> str:
        blocks.append(block[0])
        return _HELD.format(len(blocks) - 1)

    return _BLOCK.sub(sign, markdown), blocks


def put_back(converted: str, blocks: Sequence[str]) -> str:
    """What Markdown made of the page, with each block in its place."""
    return _PLACE.sub(lambda place: blocks[int(place[1])], converted)


def anchors_in(blocks: Sequence[str]) -> set[str]:
    """What can be linked to inside of blocks."""
    return {html.unescape(anchor) for block in blocks for anchor in _ANCHOR.findall(block)}
