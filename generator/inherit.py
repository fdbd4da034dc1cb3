"""A studio's few settings laid over those of the program, and the menu that comes of it.

Settings are plain data here, as YAML reads them: mappings, lists and single values.
"""

from __future__ import annotations

import html
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence

Settings = Mapping[str, object]
# What a studio's settings call its site until the studio writes another name: the pages then have the studio's own.
UNNAMED = "Studio handbook"
_OWN_PAGES = "Pages of this studio"


def laid_over(inherited: Settings, own: Settings) -> dict[str, object]:
    """The program's settings with the studio's: mappings key by key, names added to lists, the rest exchanged.

    What a list names twice is there once, with the studio's options. Neither argument is changed.
    """
    made: dict[str, object] = {**inherited}
    for key, value in own.items():
        before = made.get(key)
        if isinstance(before, Mapping) and isinstance(value, Mapping):
            made[key] = laid_over(before, value)
        elif isinstance(before, list) and isinstance(value, list | Mapping) and _by_name(before + _listed(value)):
            made[key] = _added(before, _listed(value))
        elif isinstance(before, str) and isinstance(value, str) and "\n" in before:
            made[key] = before + value  # one pattern a line
        elif value is not None or before is None:
            made[key] = value
    return made


def _listed(value: Sequence[object] | Settings) -> list[object]:
    """Extensions and plugins may be written as a mapping from name to options."""
    return [{name: options} for name, options in value.items()] if isinstance(value, Mapping) else list(value)


def _by_name(entries: Iterable[object]) -> bool:
    """Whether these are names, with or without options; a list of anything else is exchanged as a whole."""
    return all(isinstance(entry, str) or (isinstance(entry, Mapping) and len(entry) == 1) for entry in entries)


def name_of(entry: object) -> str:
    """The name in a list of names, with or without options."""
    return str(next(iter(entry), "")) if isinstance(entry, Mapping) else str(entry)


def _added(before: list[object], own: list[object]) -> list[object]:
    """What is new is behind what was there. Sections of one title, as a menu has them, become one."""
    made = {name_of(entry): entry for entry in before}
    for entry in own:
        name = name_of(entry)
        there, new = _options(made.get(name)), _options(entry)
        both = new or there
        if isinstance(there, Mapping) and isinstance(new, Mapping):
            both = laid_over(there, new)
        elif isinstance(there, list) and isinstance(new, list) and _by_name(there + new):
            both = _added(there, new)
        made[name] = {name: both} if both else name
    return list(made.values())


def _options(entry: object) -> object:
    return next(iter(entry.values()), None) if isinstance(entry, Mapping) else None


def menu(
    nav: Sequence[object], procedures: Sequence[tuple[str, Sequence[str]]], pages: Collection[str], own: Collection[str]
) -> list[object]:
    """The menu of a site that has these pages, of which the studio wrote its own.

    nav: as in the settings. procedures: the pages of each group in the order of a day; they come behind the index of
    procedures. What the menu names and this site does not have is left out, and what the studio wrote and nobody
    named stands at its end.
    """
    named = set(_pages(nav))
    # A theme prints the titles of a menu as markup; a group's name is text of a record.
    groups = [
        {html.escape(group): [page for page in listed if page in pages and page not in named]}
        for group, listed in procedures
    ]
    made = list(_kept(nav, [group for group in groups if next(iter(group.values()))], pages))
    behind = sorted(set(own) - set(_pages(made)))
    return [*made, {_OWN_PAGES: behind}] if behind else made


def leads_to_no_page(nav: Sequence[object], pages: Collection[str]) -> list[str]:
    """What a studio's own menu names and this site does not have."""
    return [page for page in _pages(nav) if page.endswith(".md") and page not in pages]


PROCEDURES = "procedures/index.md"


def _kept(nav: Iterable[object], groups: list[dict[str, list[str]]], pages: Collection[str]) -> Iterator[object]:
    for entry in nav:
        title, inner = (name_of(entry), _options(entry)) if isinstance(entry, Mapping) else ("", entry)
        if isinstance(inner, list):
            kept = list(_kept(inner, groups, pages))
            if kept:
                yield {title: kept}
        elif not str(inner).endswith(".md") or inner in pages:
            yield entry
            if inner == PROCEDURES:
                yield from groups


def _pages(nav: Iterable[object]) -> Iterator[str]:
    for entry in nav:
        inner = _options(entry) if isinstance(entry, Mapping) else entry
        if isinstance(inner, list):
            yield from _pages(inner)
        else:
            yield str(inner)
