"""Page text as the search index reads it: with a space wherever a reader sees two words.

The search plugin takes the tags out of a page and keeps the text between them, so that two cells of a row become one
word that nobody can find.
"""

from __future__ import annotations

import re

# What runs on inside a line: a word may go on across these tags. Every other tag ends it.
_INLINE = frozenset(
    (
        *("a", "abbr", "b", "bdi", "bdo", "cite", "code", "data", "del", "dfn", "em", "i", "ins", "kbd", "mark", "q"),
        *("s", "samp", "small", "span", "strong", "sub", "sup", "time", "u", "var", "wbr"),
    )
)
# An element that is taken as it is, else one tag. A `>` may stand inside the value of an attribute.
_PIECE = re.compile(
    r"""<(?P<whole>pre|script|style)\b.*?</(?P=whole)\s*>|</?(?P<tag>[a-z][a-z0-9:-]*)(?:[^<>"']|"[^"]*"|'[^']*')*>""",
    re.DOTALL | re.IGNORECASE,
)

# A table that the search passes over (`markup.not_searched`); an archive's are long, and would be read for nothing.
_PASSED_OVER = re.compile(r"<div data-search-exclude>.*?</table></div></div>", re.DOTALL)


def words_apart(html: str) -> str:
    """The same page with a space on both sides of every tag that is not part of a running line.

    Lines to copy keep their white space. This text is only for the index: in a page the spaces could be seen. Nothing
    is put before the first tag, because the index takes that for a section above the title.
    """
    return _PIECE.sub(_apart, _PASSED_OVER.sub(" ", html)).lstrip()


def _apart(piece: re.Match[str]) -> str:
    name = piece["tag"]
    return piece[0] if name is not None and name.lower() in _INLINE else f" {piece[0]} "
