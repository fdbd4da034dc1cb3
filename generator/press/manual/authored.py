"""Authored pages as text: what in them is prose, and what is code or a page's settings and left alone."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from generator.diagnostics import Diagnostic
from generator.records.text_file import read_text

_FENCE = re.compile(r"\s*(`{3,}|~{3,})")
CODE = r"(?<!`)(?P<ticks>`+)(?!`).*?(?<!`)(?P=ticks)(?!`)"


def authored_pages(handbook: Path) -> Iterator[tuple[Path, str]]:
    """Every page that somebody wrote and that can be read, with its text, by name."""
    for path in sorted(handbook.rglob("*.md")):
        text, _ = read_text(path)
        if text is not None:
            yield path, text


def not_read(handbook: Path) -> Iterator[Diagnostic]:
    """What keeps pages from being read."""
    for path in sorted(handbook.rglob("*.md")):
        yield from read_text(path)[1]


def prose_lines(text: str) -> Iterator[tuple[int, str]]:
    """The lines that are no settings and no fenced code, with their index from 0."""
    lines = text.split("\n")
    fence = ""
    front = _front_matter(lines)
    for at, line in enumerate(lines):
        if at < front:
            continue
        mark = _FENCE.match(line)
        if fence:
            if mark and mark[1].startswith(fence) and not line.strip().strip(fence[0]):
                fence = ""
        elif mark:
            fence = mark[1]
        else:
            yield at, line


def _front_matter(lines: list[str]) -> int:
    """How many lines at the top are settings of the page, not text."""
    if lines[0].strip() != "---":
        return 0
    return next((n + 1 for n, line in enumerate(lines) if n and line.strip() in ("---", "...")), 0)
