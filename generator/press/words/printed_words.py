"""The words that paper shows of a page, in one line.

Pages are read with a few expressions, because an archive has thousands of them; what those do not know for certain is
read with Python's own parser, which gives the same words and takes eight times as long.
"""

from __future__ import annotations

import html
import re
from html.parser import HTMLParser

# Elements without an end tag open nothing that could be left again.
_VOID = frozenset(
    ("area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "param", "source", "track", "wbr")
)
_UNSEEN = frozenset(("script", "style", "template", "head"))
# What paper does not show, and what changes with the day of the build alone.
_NOT_PRINTED = frozenset(("screen", "screen-only", "headerlink", "here", "swatch", "links", "back", "unstamped"))
_CODE = ("script", "style")
# What parsers of other years read as text up to its end; only without a tag inside do all of them read the same.
_PLAIN = ("textarea", "title", "iframe", "noembed", "noframes", "noscript", "plaintext", "xmp")
_END_OF_CODE = {name: re.compile(rf"</{name}>", re.IGNORECASE) for name in (*_CODE, *_PLAIN)}

_NAME, _KEY, _VALUE = r"[a-zA-Z][a-zA-Z0-9-]*", r"[a-zA-Z_:@][\w:.-]*", r"=(?:\"[^\"]*\"|[\w.-]+)"
_COMMENT = r"<!(?:--(?!-?>)(?:(?!--)[^<>])*--|[a-zA-Z][^<>\[\]]*)>"
# Text, comments and declarations up to a tag, and that itself.
_UP_TO_TAG = re.compile(rf"(?:[^<]++|{_COMMENT})*+<(/?)({_NAME})((?:\s+{_KEY}(?:{_VALUE})?)*\s*/?)>")
_ATTRIBUTE = re.compile(rf"\s({_KEY})(?:=(?:\"([^\"]*)\"|([\w.-]+)))?")
# What is printed, as far as that shows at a glance: text, comments, end tags, and start tags in which nothing has to be
# looked at. None of them has a “>” but at its end.
_LOOKED_AT = rf"(?i:{'|'.join((*_UNSEEN, *_PLAIN, 'img'))})[\s/>]"
_SEEN_CLASS = rf"class=\"(?![^\"]*(?:{'|'.join(sorted(_NOT_PRINTED))}))[^\"&>]*\""
_SEEN_TAG = (
    rf"<(?!{_LOOKED_AT}){_NAME}(?:\s+(?:{_SEEN_CLASS}|(?!(?i:class)=){_KEY}(?:=(?:\"[^\">]*\"|[\w.-]+))?))*+\s*/?>"
)
_SEEN = re.compile(rf"(?:[^<]++|{_SEEN_TAG}|</{_NAME}\s*>|{_COMMENT})*+")
_TEXT = re.compile(r">([^<]+)")


def printed_words(page: str) -> str:
    """The words of a page, with the words that stand for its pictures, without what is not printed."""
    words = read_at_once(page)
    return " ".join(" ".join(read_by_the_parser(page) if words is None else words).split())


def read_at_once(page: str) -> list[str] | None:
    """The words of well-formed pages; None where a sign is in the way of being certain."""
    words: list[str] = []
    at: int | None = 0
    while at is not None and (seen := _SEEN.match(page, at)):
        words.append(html.unescape(" ".join(_TEXT.findall(">" + seen[0]))))
        if seen.end() == len(page):
            return words
        tag = _UP_TO_TAG.match(page, seen.end())
        if tag is None or tag[1]:
            return None
        said = {key.lower(): html.unescape(quoted or plain) for key, quoted, plain in _ATTRIBUTE.findall(tag[3])}
        name = tag[2].lower()
        if name == "img":
            words.append(said.get("alt", ""))
        left_out = name in _UNSEEN or not _NOT_PRINTED.isdisjoint(said.get("class", "").split())
        at = _after_element(page, tag) if left_out else _after_start(page, tag)
    return None


def _after_start(page: str, tag: re.Match[str]) -> int | None:
    """Where to read on after a start tag, with its text where that is code; None for what is not certain."""
    name = tag[2].lower()
    if name not in _END_OF_CODE or tag[3].endswith("/"):
        return tag.end()
    closing = _END_OF_CODE[name].search(page, tag.end())
    if closing is None or (name in _PLAIN and "<" in page[tag.end() : closing.start()]):
        return None
    return closing.end() if name in _CODE else tag.end()


def _after_element(page: str, begins: re.Match[str]) -> int | None:
    """Where to read on after an element; None for what is not certain, such as an end of what is around it."""
    opened: list[str] = []
    tag: re.Match[str] | None = begins
    while tag is not None:
        name = tag[2].lower()
        if tag[1]:
            if tag[3].strip() or name not in opened:
                return None
            while opened.pop() != name:
                pass
        elif not (name in _VOID or name in _CODE or tag[3].endswith("/")):
            opened.append(name)
        after = tag.end() if tag[1] else _after_start(page, tag)
        if after is None or not opened:
            return after
        tag = _UP_TO_TAG.match(page, after)
    return None


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
