"""The words that paper shows of a page, in one line.

Pages are read with one expression, because an archive has thousands of them; what that does not know for certain is
read with Python's own parser, which gives the same words and takes ten times as long.
"""

from __future__ import annotations

import html
import re
from functools import lru_cache
from html.parser import HTMLParser
from typing import NamedTuple

# Elements without an end tag open nothing that could be left again.
_VOID = frozenset(
    ("area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "param", "source", "track", "wbr")
)
_UNSEEN = frozenset(("script", "style", "template", "head"))
# What paper does not show, and what changes with the day of the build alone.
_NOT_PRINTED = frozenset(("screen", "screen-only", "headerlink", "here", "swatch", "links", "back", "unstamped"))
# Text up to a tag, a comment or a declaration, and that itself.
_TOKEN = re.compile(
    r"([^<]*)<(?:(/?)([a-zA-Z][a-zA-Z0-9-]*)((?:\s+[a-zA-Z_:@][\w:.-]*(?:=(?:\"[^\"]*\"|[\w.-]+))?)*\s*/?)>"
    r"|!--(?!-?>)(?:(?!-->).)*-->|![a-zA-Z][^<>\[\]]*>)",
    re.DOTALL,
)
_ATTRIBUTE = re.compile(r"\s([a-zA-Z_:@][\w:.-]*)(?:=(?:\"([^\"]*)\"|([\w.-]+)))?")
_CODE = ("script", "style")
# What parsers of other years read as text up to its end; only without a tag inside do all of them read the same.
_PLAIN = ("textarea", "title", "iframe", "noembed", "noframes", "noscript", "plaintext", "xmp")
_END_OF_CODE = {name: re.compile(rf"</{name}>", re.IGNORECASE) for name in (*_CODE, *_PLAIN)}


def printed_words(page: str) -> str:
    """The words of a page, with the words that stand for its pictures, without what is not printed."""
    words = read_at_once(page)
    return " ".join(" ".join(read_by_the_parser(page) if words is None else words).split())


class _Opened(NamedTuple):
    """What a start tag says: whether something is open from here on, whether it is left out, and a picture's words."""

    opens: bool
    left_out: bool
    alt: str | None


@lru_cache(maxsize=4096)
def _opened(name: str, rest: str) -> _Opened:
    said = {key.lower(): quoted or plain for key, quoted, plain in _ATTRIBUTE.findall(rest)}
    classes = html.unescape(said.get("class", "")).split()
    left_out = name in _UNSEEN or not _NOT_PRINTED.isdisjoint(classes)
    alt = html.unescape(said.get("alt", "")) if name == "img" else None
    return _Opened(name not in _VOID and not rest.endswith("/"), left_out, alt)


def read_at_once(page: str) -> list[str] | None:
    """The words of well-formed pages; None where a sign is in the way of being certain."""
    words: list[str] = []
    opened: list[tuple[str, bool]] = []
    unseen, at, end = 0, 0, len(page)
    while found := _TOKEN.match(page, at):
        text, closes, name, rest = found.groups()
        if text and not unseen:
            words.append(html.unescape(text) if "&" in text else text)
        at = found.end()
        if name is None:
            continue
        name = name.lower()
        if closes:
            if rest.strip():
                return None
            for place in range(len(opened) - 1, -1, -1):
                if opened[place][0] == name:
                    unseen -= sum(left_out for _, left_out in opened[place:])
                    del opened[place:]
                    break
            continue
        made = _opened(name, rest)
        if made.alt is not None and not unseen:
            words.append(made.alt)
        if made.opens:
            opened.append((name, made.left_out))
            unseen += made.left_out
        if name in _END_OF_CODE and not rest.endswith("/"):
            closing = _END_OF_CODE[name].search(page, at)
            if closing is None or ("<" in page[at : closing.start()] if name in _PLAIN else False):
                return None
            if name in _CODE:
                # All of it is left out, with its end.
                unseen -= opened.pop()[1]
                at = closing.end()
    if page.find("<", at) >= 0:
        return None
    if at < end and not unseen:
        words.append(html.unescape(page[at:]))
    return words


def read_by_the_parser(page: str) -> list[str]:
    reader = _Words()
    reader.feed(page)
    reader.close()
    return reader.words


class _Words(HTMLParser):
    """Collects the words of a page, and leaves out what is not printed."""

    def __init__(self) -> None:
        super().__init__()
        self.words: list[str] = []
        self._open: list[tuple[str, bool]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        named = dict(attrs)
        if tag == "img" and not self._left_out():
            self.words.append(named.get("alt") or "")
        if tag not in _VOID:
            classes = (named.get("class") or "").split()
            self._open.append((tag, tag in _UNSEEN or not _NOT_PRINTED.isdisjoint(classes)))

    def handle_endtag(self, tag: str) -> None:
        # An end that was left out ends with the element around it.
        for at in range(len(self._open) - 1, -1, -1):
            if self._open[at][0] == tag:
                del self._open[at:]
                return

    def handle_data(self, data: str) -> None:
        if not self._left_out():
            self.words.append(data)

    def _left_out(self) -> bool:
        return any(left_out for _, left_out in self._open)
