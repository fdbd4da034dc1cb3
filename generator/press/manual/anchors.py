"""Which pages the handbook has and which places are in them, read from the text of the pages."""

from __future__ import annotations

import html
import re
from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import NamedTuple

from generator.press.manual.authored import prose_lines

_HEADING = re.compile(r"(#{1,6}) +(.*?)(?: *\{ ?#([\w-]+) ?\})?\s*")
_SOURCE = re.compile(r"\{\{ *sources\.([\w-]+)\.")
_ID = re.compile(r'\sid="([^"]+)"')


class PageRead(NamedTuple):
    """A page: its title, and the places in it with the words of the heading; a row of a table has none.

    sources: the ids of those that it quotes.
    """

    title: str
    at: dict[str, str]
    sources: frozenset[str] = frozenset()


class Places(Mapping[str, PageRead]):
    """Pages by their addresses, each read when it is first asked for: of an archive's few are."""

    def __init__(self, pages: Mapping[str, str], beside: Mapping[str, PageRead]) -> None:
        self._pages, self._beside = pages, beside
        self._read: dict[str, PageRead] = {}

    def __getitem__(self, address: str) -> PageRead:
        if address not in self._read:
            text = self._pages.get(address)
            self._read[address] = self._beside[address] if text is None else _page(text)
        return self._read[address]

    def __iter__(self) -> Iterator[str]:
        yield from self._beside
        yield from (address for address in self._pages if address not in self._beside)

    def __len__(self) -> int:
        return len(self._beside.keys() | self._pages.keys())


def places(pages: Mapping[str, str], beside: Mapping[str, PageRead] = MappingProxyType({})) -> Places:
    """Every page by its address, as Markdown will publish it. Headings are taken to be plain text.

    beside: pages that were read before, of which these may take the place.
    """
    return Places(pages, beside)


def _page(text: str) -> PageRead:
    from markdown.extensions.toc import slugify, unique

    headings = list(_headings(text))
    title = next((words for level, words, _ in headings if level == 1), "")
    # A name that somebody gave is taken before any that Markdown makes, wherever it is on the page.
    taken = {anchor for _, _, anchor in headings if anchor}
    at = {anchor or unique(slugify(words, "-"), taken): words for _, words, anchor in headings}
    return PageRead(title, {**dict.fromkeys(_ID.findall(text), ""), **at}, frozenset(_SOURCE.findall(text)))


def _headings(text: str) -> Iterator[tuple[int, str, str | None]]:
    for _, line in prose_lines(text):
        heading = _HEADING.fullmatch(line)
        if heading:
            yield len(heading[1]), html.unescape(heading[2]), heading[3]
