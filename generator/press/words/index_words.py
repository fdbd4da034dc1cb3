"""Page text as the search index reads it: with a space wherever a reader sees two words.

The search plugin takes the tags out of a page and keeps the text between them, so that two cells of a row become one
word that nobody can find.
"""

from __future__ import annotations

import html
import re
from collections.abc import Sequence

# What runs on inside a line: a word may go on across these tags. Every other tag ends it.
_INLINE = frozenset(
    (
        *("a", "abbr", "b", "bdi", "bdo", "cite", "code", "data", "del", "dfn", "em", "i", "ins", "kbd", "mark", "q"),
        *("s", "samp", "small", "span", "strong", "sub", "sup", "time", "u", "var", "wbr"),
    )
)
# An element that is taken as it is, else one tag. A `>` may stand inside the value of an attribute.
_PIECE = re.compile(
    r"""<(?P<whole>pre|script|style)\b.*?</(?P=whole)\s*>|</?(?P<tag>[a-z][a-z0-9:-]*)(?:[^<>"']++|"[^"]*"|'[^']*')*+>""",
    re.DOTALL | re.IGNORECASE,
)

# A table that the search passes over (`markup.not_searched`); an archive's are long, and would be read for nothing.
_PASSED_OVER = re.compile(r"<div data-search-exclude>.*?</table></div></div>", re.DOTALL)


# Tags that the index writes into its text, and those that it reads in a way of their own. It drops all others, each
# after looking at everything around it, which takes most of the time of a page that is a table.
_WRITTEN = frozenset(("p", "code", "li", "ol", "ul", "sub", "sup"))
_HEADINGS = frozenset(f"h{level}" for level in range(1, 7))
_STAY = _WRITTEN | _HEADINGS
_VOID = frozenset(
    ("area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "param", "source", "track", "wbr")
)
_READ_OTHERWISE = re.compile(
    r"<!|</?[A-Z]|(?i:</?(?:object|textarea|iframe|noembed|noframes|noscript|plaintext|xmp)\b|data-search-|linenodiv)"
)
# A formula, which the search passes over as well.
_LEFT_OUT = re.compile(
    r"<span\b[^<>]* data-search-exclude[^<>]*>(?P<inline>.*?)</span>"
    r"|<div\b[^<>]* data-search-exclude[^<>]*><div>(?P<line>.*?)</div>(?P<more>(?:<div>.*?</div>)*?)</div>",
    re.DOTALL,
)
_TAG = re.compile(r"<[^<>]*>")
# Between two texts that are to stay two.
_APART = "<b></b>"


def words_apart(page: str) -> str:
    """The same page with a space on both sides of every tag that is not part of a running line.

    Lines to copy keep their white space. This text is only for the index: in a page the spaces could be seen. Nothing
    is put before the first tag, because the index takes that for a section above the title.
    """
    return _PIECE.sub(_apart, _PASSED_OVER.sub(" ", page)).lstrip()


def _apart(piece: re.Match[str]) -> str:
    name = piece["tag"]
    return piece[0] if name is not None and name.lower() in _INLINE else f" {piece[0]} "


def index_text(page: str) -> str:
    """What the index makes the same of as of `words_apart`, without the tags that it would drop.

    A page that is not well formed, or has a heading inside of another element, keeps all its tags.
    """
    made = _Index().read(_without_formulas(_PASSED_OVER.sub(" ", page)))
    return words_apart(page) if made is None else made.lstrip()


def _without_formulas(page: str) -> str:
    """The page with an empty tag in the place of each; the first tag stays, because it begins a section."""
    first = page.find("<")

    def empty(found: re.Match[str]) -> str:
        if found.start() == first or "<span" in (found["inline"] or "") or "<div" in (found["line"] or ""):
            return found[0]
        # The index takes a formula as ended where its first line ends.
        return "<wbr>" if found["line"] is None else f"<br>{found['more']}<br>"

    return _LEFT_OUT.sub(empty, page)


class _Index:
    """A page as far as it is written.

    open: the elements that are open, with a `<` before one whose tags stay; heading: the tag of the heading that is
    open; section: the tags that stayed in this section; said: whether there was a word since the last of them; apart:
    whether what was written last may be white space.
    """

    def __init__(self) -> None:
        self._written: list[str] = []
        self._texts: list[str] = []
        self._open: list[str] = []
        self._section: set[str] = set()
        self._heading, self._said, self._apart = "", True, True

    def read(self, page: str) -> str | None:
        """The page without the tags that are dropped; None where it cannot be told which those are."""
        if _READ_OTHERWISE.search(page):
            return None
        at, space, opened = 0, "", self._open
        for piece in _PIECE.finditer(page):
            start, name = piece.start(), piece[2]
            between = "" if name in _INLINE else " "
            text = f"{space}{page[at:start]}{between}"
            if "<" in text:
                return None
            if text:
                self._texts.append(text)
            at, space = piece.end(), between
            if name is None or name in _STAY or self._heading or not self._written:
                if not self._take(piece):
                    return None
            elif page[start + 1] == "/":
                if not opened or opened.pop() != name:
                    return None
            elif name not in _VOID and page[at - 2] != "/":
                opened.append(name)
        self._texts.append(f"{space}{page[at:]}")
        self._write("", looks_back=False)
        return None if opened or "<" in page[at:] else "".join(self._written)

    def _take(self, piece: re.Match[str]) -> bool:
        """Take a tag that stays, or an element that is taken as it is; whether the page can be read like this."""
        tag, name = piece[0], piece[2] or piece[1].lower()
        if tag.startswith("</"):
            return self._end(tag, name)
        if piece[2] is None:
            if name == "pre":
                self._write(tag, looks_back=False)
                self._said, self._apart = True, False
            return not _is_space(_TAG.sub("", tag)) if name == "pre" else bool(self._written) and not self._heading
        if name in _HEADINGS and self._open:
            return False
        self._write(tag, looks_back=name not in _WRITTEN and not _begins_a_section(tag, name))
        self._said, self._apart = name in self._section, name not in _WRITTEN
        self._section.add(name)
        if name in _HEADINGS:
            self._heading = tag
            self._section.clear()
        if name not in _VOID and not tag.endswith("/>"):
            self._open.append(f"<{name}")
        return True

    def _end(self, tag: str, name: str) -> bool:
        if not self._open or self._open.pop() != f"<{name}":
            return False
        self._write(tag, looks_back=name not in _WRITTEN)
        self._apart = name not in _WRITTEN and not _begins_a_section(self._heading, name)
        if name in _HEADINGS:
            self._heading = ""
            self._section.clear()
        # The first of its kind in a section that has no words is taken out again, with a look at what stood before it.
        return self._said or name not in _WRITTEN

    def _write(self, tag: str, looks_back: bool) -> None:
        """Write the texts since the last tag that stayed, as the index would join them, and the tag."""
        self._written += _joined(self._texts, self._apart, looks_back)
        self._said = self._said or not all(map(_is_space, self._texts))
        self._texts.clear()
        self._written.append(tag)


def _begins_a_section(tag: str, name: str) -> bool:
    return name in _HEADINGS and ' id="' in tag


def _joined(texts: Sequence[str], apart: bool, looks_back: bool) -> list[str]:
    """Texts between which there were tags: white space alone is one space, and none after white space alone.

    apart: white space at their begin stays by itself, because the index drops it behind white space; looks_back: so
    does white space at their end, because the index looks at it for what follows.
    """
    if len(texts) < 2:
        return list(texts)
    joined: list[str] = []
    for text in texts:
        if not _is_space(text):
            joined.append(text)
        elif not joined or joined[-1] != " ":
            joined.append(" ")
    if len(joined) > 1 and looks_back and joined[-1] == " ":
        joined.insert(-1, _APART)
    if len(joined) > 1 and apart and joined[0] == " ":
        joined.insert(1, _APART)
    return joined


def _is_space(text: str) -> bool:
    return text.isspace() or ("&" in text and html.unescape(text).isspace())
