"""The record that a value came from, in words and as a link to where the handbook shows it."""

from __future__ import annotations

from collections.abc import Sequence

from markupsafe import Markup, escape

from generator.origins import Origin
from generator.planning.computed import Named, Recorded
from generator.press.words.addresses import PAGE_OF, address, anchor
from generator.press.words.formatted import spelled
from generator.press.words.markup import link
from generator.records.families import Records
from generator.records.quoting import name_of


def told(value: Recorded | Named, records: Records, here: str) -> Markup:
    """The record that an operand came from as people say it, with a link from the page `here`.

    A value that is not written there says that it is the default.
    """
    words, there, at = _place(value.origin, records)
    linked = link(address(here, there, at), words) if there else escape(words)
    return linked + ", default" if value.origin.default else linked


def _place(origin: Origin, records: Records) -> tuple[str, str, str]:
    """Words, page and row; no page for what is on none."""
    family = str(origin.keys[0]) if origin.keys else ""
    keys = origin.keys[1:]
    names = [str(key) for key in keys]
    if family == "studio":
        depth = 2 if names[:1] == ["limits"] else 1
        return f"the studio’s {_said(keys[-1:] or ('own',))}", PAGE_OF[family], anchor(family, *names[:depth])
    if family == "jobs":
        return f"job {_said(keys)}", f"sheets/{names[0]}.html", ""
    if family not in PAGE_OF:
        return _said((family, *keys)), "", ""
    entry = records.family(family).get(names[0]) if names else None
    if entry is None:
        return _said((family, *keys)), PAGE_OF[family], ""
    row = anchor(family, names[0])
    return f"{name_of(entry)}: {_said(keys[1:]) or family}", PAGE_OF[family], row


def _said(keys: Sequence[str | int]) -> str:
    """Keys in words; an item of a list that has no id by its number, from 1."""
    words: list[str] = []
    for key in keys:
        if isinstance(key, int) and words:
            words[-1] = f"{words[-1]} {key + 1}"
        else:
            words.append(spelled(str(key)))
    return ", ".join(words)
