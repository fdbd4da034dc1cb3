"""Answers to what is asked in writing that name a page or a place which the handbook does not have.

`check` looks at what leads to procedures; what leads to generated pages is looked at in the build, which makes them
before anything is written. MkDocs looks for places in Markdown links only, never in the HTML of generated pages.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from generator.diagnostics import Diagnostic
from generator.near_miss import did_you_mean, nearest
from generator.press.manual.anchors import PageRead
from generator.press.manual.procedures import FOLDER, INDEX
from generator.records.families import Records
from generator.records.located import Text


def leads_nowhere(records: Records, pages: Mapping[str, PageRead], *, procedures: bool) -> Iterator[Diagnostic]:
    """Answers that name a page, or a place in a page, which the handbook does not have.

    procedures: whether those among the procedures are looked at, which are known at once, or all others.
    """
    for item in records.asked.values():
        for answer in item.answered_in:
            name, _, at = answer.partition("#")
            if (name.startswith(f"{FOLDER}/") and name != INDEX) is not procedures:
                continue
            if name not in pages:
                yield _nowhere(answer, f"there is no page `{name}` in the handbook", name, list(pages), "")
            elif at and at not in pages[name].at:
                there = list(pages[name].at)
                yield _nowhere(answer, f"the page `{name}` has no place `{at}`", at, there, f"{name}#")


def _nowhere(answer: Text, message: str, found: str, known: list[str], before: str) -> Diagnostic:
    near = nearest(found, known)
    listed = ", ".join(f"`{name}`" for name in sorted(known)[:20]) + (", …" if len(known) > 20 else "")
    return Diagnostic(
        "H705",
        answer.place,
        found=f"“{answer}”",
        expected="a page of the handbook, and a place in it",
        help=did_you_mean(near and before + near, f"known there: {listed or 'nothing'}"),
        says=message,
    )
