"""What somebody may have meant by a word that is not known: one rule for every such suggestion."""

from __future__ import annotations

import difflib
from collections.abc import Collection, Iterable

# difflib's own measure: twice the letters that both words share in order, over the letters of both. Below it two
# words have too little in common for a suggestion, and what is known is listed instead.
ALIKE = 0.6


def nearest(found: str, known: Iterable[str], never: Collection[str] = ()) -> str:
    """The known word that is most like the one that was found; empty where none is like it.

    never: words that clear something, which are not suggested. Where the nearest is one of them nothing is suggested
    in its place: whoever mistyped it looks or asks again.
    """
    near = next(iter(difflib.get_close_matches(found, known, n=1, cutoff=ALIKE)), "")
    return "" if near in never else near


def did_you_mean(near: str, otherwise: str) -> str:
    """The suggestion as a question; where there is none, what is said otherwise."""
    return f"did you mean `{near}`?" if near else otherwise


def likeness(one: str, other: str) -> float:
    """How much two words have in common, from 0 to 1."""
    return difflib.SequenceMatcher(None, one, other).ratio()
