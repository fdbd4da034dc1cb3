"""Page text as the search index reads it: with a space wherever a reader sees two words.

The search plugin takes the tags out of a page and keeps the text between them, so that two cells of a row become one
word that nobody can find. It looks at everything around each tag, which takes most of the time of a page that is a
table; so the tags that it would drop are taken out before.
"""

from __future__ import annotations

import re

# What runs on inside a line: a word may go on across these tags. Every other tag ends it.
_INLINE = "a|abbr|b|bdi|bdo|cite|code|data|del|dfn|em|i|ins|kbd|mark|q|s|samp|small|span|strong|sub|sup|time|u|var|wbr"
# Tags that the index writes into its text, and those that it reads in a way of their own.
_STAY = "p|pre|code|li|ol|ul|sub|sup|h[1-6]|script|style|object"
# The rest of a tag behind its name. A `>` may stand inside the value of an attribute.
_REST = r"""\b(?:[^<>"']++|"[^"]*"|'[^']*')*+>"""
# An element that is taken as it is, else one tag that ends a line.
_PIECE = re.compile(
    rf"<(?P<whole>pre|script|style)\b.*?</(?P=whole)\s*>|</?(?!(?:{_INLINE})\b)[a-z][a-z0-9:-]*{_REST}",
    re.DOTALL | re.IGNORECASE,
)
_DROPPED_INLINE = re.compile(rf"</?(?!(?:{_STAY})\b)(?:{_INLINE}){_REST}", re.IGNORECASE)
_DROPPED = re.compile(rf"(?:\s*</?(?!(?:{_STAY})\b)[a-z][a-z0-9:-]*{_REST}\s*)+", re.IGNORECASE)

# A table or list that the search passes over (`markup.not_searched`); an archive's are long, and would be read for
# nothing. A heading's link to itself says nothing either.
_PASSED_OVER = re.compile(
    r'<div data-search-exclude>.*?(?:</table></div>|</ul>)</div>|<a class="headerlink"[^<>]*>.*?</a>', re.DOTALL
)
# The tags of what the search leaves out by its attributes have to be there when it reads the page.
_LEFT_OUT = re.compile(r"data-search-|linenodiv")


def words_apart(page: str) -> str:
    """The same page with a space on both sides of every tag that is not part of a running line.

    Lines to copy keep their white space. This text is only for the index: in a page the spaces could be seen. Nothing
    is put before the first tag, because the index takes that for a section above the title.
    """
    return _PIECE.sub(r" \g<0> ", _PASSED_OVER.sub(" ", page)).lstrip()


def index_text(page: str) -> str:
    """The words of `words_apart` in the same sections, without the tags that the index would drop."""
    apart = words_apart(page)
    if _LEFT_OUT.search(apart):
        return apart
    # A page without a word is found by its title, as long as there is anything on it.
    return _DROPPED.sub(" ", _DROPPED_INLINE.sub("", apart)).lstrip() or apart
