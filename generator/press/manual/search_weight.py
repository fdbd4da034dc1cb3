"""How near the top the search shows a page: what is done at the chair before what explains or describes it."""

from __future__ import annotations

from collections.abc import Mapping

from generator.press.manual.procedures import FOLDER, INDEX
from generator.press.words.addresses import LOTS

_PROCEDURES, _STATION, _REST, _BACKGROUND = 2.0, 1.5, 1.0, 0.2
_STATION_TABLES = frozenset(
    (
        "reference/dials.md",
        "reference/swapping.md",
        "reference/needle-diameters.md",
        "reference/disinfectants.md",
        "reference/conversions.md",
        "reference/scar-rules.md",
        "reference/sites.md",
        "reference/cycles.md",
        "reference/groupings.md",
        LOTS,
    )
)
_BEHIND: Mapping[str, float] = {
    "formulas/": _BACKGROUND,
    "reference/records": _BACKGROUND,
    "reference/diagnostics.md": _BACKGROUND,
    "reference/sources.md": _BACKGROUND,
}


def search_weight(page: str) -> float:
    """What the search multiplies its score of a page with; `page` is its address in the handbook."""
    if page in _STATION_TABLES:
        return _STATION
    if page.startswith(f"{FOLDER}/"):
        return _REST if page == INDEX else _PROCEDURES
    return next((weight for begins, weight in _BEHIND.items() if page.startswith(begins)), _REST)
