"""Which pages the handbook has and which places are in them, read from the text of the pages."""

from __future__ import annotations

import html
import re
from collections.abc import Callable, Mapping
from functools import cached_property, partial
from types import MappingProxyType

from generator.press.manual.authored import prose_lines

_HEADING = re.compile(r"(#{1,6}) +(.*?)(?: *\{ ?#([\w-]+) ?\})?\s*")
_SOURCE = re.compile(r"\{\{ *sources\.([\w-]+)\.")
_ID = re.compile(r'\sid="([^"]+)"')


class PageRead:
    """A page by its text, which is made and read when it is first asked for: of an archive's pages few are."""

    def __init__(self, text: Callable[[], str]) -> None:
        self._made = text

    @cached_property
    def _text(self) -> str:
        return self._made()

    @cached_property
    def sources(self) -> frozenset[str]:
        """The ids of those that it quotes."""
        return frozenset(_SOURCE.findall(self._text))

    @cached_property
    def title(self) -> str:
        return next((words for level, words, _ in self._headings if level == 1), "")

    @cached_property
    def at(self) -> dict[str, str]:
        """The places in it with the words of the heading; a row of a table has none."""
        from markdown.extensions.toc import slugify, unique

        # A name that somebody gave is taken before any that Markdown makes, wherever it is on the page.
        taken = {anchor for _, _, anchor in self._headings if anchor}
        at = {anchor or unique(slugify(words, "-"), taken): words for _, words, anchor in self._headings}
        return {**dict.fromkeys(_ID.findall(self._text), ""), **at}

    @cached_property
    def _headings(self) -> list[tuple[int, str, str]]:
        """Level, words and given name; the words are taken to be plain text."""
        found = (_HEADING.fullmatch(line) for _, line in prose_lines(self._text))
        return [(len(one[1]), html.unescape(one[2]), one[3]) for one in found if one]


def places(pages: Mapping[str, str], beside: Mapping[str, PageRead] = MappingProxyType({})) -> dict[str, PageRead]:
    """Every page by its address, as Markdown will publish it.

    beside: pages that were read before, of which these may take the place.
    """
    return {**beside, **{address: PageRead(partial(pages.__getitem__, address)) for address in pages}}
