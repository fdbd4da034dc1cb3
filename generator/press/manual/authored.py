"""Authored pages as text: what in them is prose, and what is code or a page's settings and left alone."""

from __future__ import annotations

import os
import re
from collections.abc import Iterator
from pathlib import Path

from generator.diagnostics import Diagnostic
from generator.records.text_file import cannot_be_read, read_text, see_a_file

_PAGE = ".md"
_FENCE = re.compile(r"\s*(`{3,}|~{3,})")
CODE = r"(?<!`)(?P<ticks>`+)(?!`).*?(?<!`)(?P=ticks)(?!`)"


def authored_pages(handbook: Path) -> Iterator[tuple[Path, str]]:
    """Every page that somebody wrote and that can be read, with its text, by name."""
    for path in _files(handbook):
        text, _ = read_text(path) if path.suffix == _PAGE else (None, ())
        if text is not None:
            yield path, text


def not_read(handbook: Path) -> Iterator[Diagnostic]:
    """What keeps pages from being read, and pictures and other files from being copied."""
    for path in _files(handbook):
        if path.suffix == _PAGE:
            yield from read_text(path)[1]
            continue
        try:
            see_a_file(path)
        except OSError as error:
            yield cannot_be_read(path, error)


def _files(handbook: Path) -> list[Path]:
    """All files that the builder finds, in linked folders too; nothing hidden, and a folder only where it is named like
    a page.
    """
    found: list[Path] = []
    for folder, inside, names in os.walk(handbook, followlinks=True):
        inside[:] = [name for name in inside if not name.startswith(".")]
        shown = [name for name in names if not name.startswith(".")]
        found += [Path(folder, name) for name in (*shown, *(name for name in inside if name.endswith(_PAGE)))]
    return sorted(found)


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
