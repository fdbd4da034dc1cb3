"""The demo studio with markup, script, template and Markdown in every free text of its records."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from pathlib import Path

from generator.records.families import ALL, JOBS, STUDIO
from tests.records.scalars import is_free_text, longest_text, scalars

# Each calls `pwned`, or injects an element, wherever it is taken for more than words.
ATTACKS = (
    "<img src=x onerror=pwned()>",
    "</title><script>pwned()</script>",
    '"><svg onload=pwned()><b>x',
    "{{ 7*7 }}{% raw %}{# x #}",
    "**b** [x](javascript:pwned()) `c` <u>",
    "]]>--></style></script><script>pwned()</script>",
    "&lt;img src=x onerror=pwned()&gt;",
    "' onmouseover=pwned() autofocus onfocus=pwned() x='",
    '![x](x"onerror="pwned()) | ~~s~~ | # h',
    "<iframe srcdoc='<script>parent.pwned()</script>'>",
    "\\\\;BEGIN:VALARM, x\\n",
    "{: onclick=pwned() } *[x]: y",
)

_COUNTED = re.compile(r"\{\{ after\.\w+ \}\}")


_LETTERS = str.maketrans("0123456789", "abcdefghij")
_DIGITS = str.maketrans("abcdefghij", "0123456789")


def word_of(number: int) -> str:
    """The word that begins a text: letters, as a thousand numbers confuse the library of the search."""
    return "zq" + f"{number:04d}".translate(_LETTERS)


def number_of(word: str) -> int:
    """The number of the text that begins with this word."""
    return int(word.removeprefix("zq").translate(_DIGITS))


def hostile_text(number: int, most: int) -> str:
    """One of the attacks that fit, with a word by which it is found again."""
    fitting = [text for text in (f"{word_of(number)} {attack}" for attack in ATTACKS) if len(text) <= most]
    return fitting[number % len(fitting)]


def made_hostile(content: Path, text_of: Callable[[int, int], str] = hostile_text) -> dict[int, str]:
    """Write a hostile text into every free text, in place; the texts by their number."""
    written: dict[int, str] = {}
    for family in ALL:
        for path in sorted((content / "jobs").glob("*.yml")) if family is JOBS else [content / family.file]:
            text = path.read_text("utf-8")
            # A correction names a lot as it is written in the same file.
            named = {one.text for one in scalars(text) if "corrections" in one.path and one.path[-1] == "lot"}
            for scalar in reversed(scalars(text)):
                where = scalar.path if family in (STUDIO, JOBS) else scalar.path[1:]
                if scalar.key or not is_free_text(family.model, where):
                    continue
                if scalar.text in named:
                    continue
                number = len(written)
                # A line whose day is counted has to quote it.
                quotes = "".join(f" {quote}" for quote in _COUNTED.findall(scalar.text))
                written[number] = text_of(number, longest_text(family.model, where) - len(quotes))
                end = "\n" if text[scalar.start : scalar.end].endswith("\n") else ""
                text = text[: scalar.start] + json.dumps(written[number] + quotes) + end + text[scalar.end :]
            path.write_text(text, "utf-8")
    return written
