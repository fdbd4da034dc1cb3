"""What is cited on a page, by number."""

from __future__ import annotations


class Numbered(dict[str, int]):
    """Texts with their numbers, from 1, in the order in which they are first used."""

    def number(self, text: str) -> int:
        return self.setdefault(text, len(self) + 1)
