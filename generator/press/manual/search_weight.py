"""How near the top the search shows a page: what is done at the chair before what explains or describes it."""

from __future__ import annotations

from collections.abc import Mapping

from generator.press.manual.procedures import FOLDER, INDEX
from generator.press.words.addresses import LOTS

# By how the address of a page begins, the first that fits; any other page has the weight 1.
_WEIGHTS: Mapping[str, float] = {
    INDEX: 1.0,
    f"{FOLDER}/": 2.0,
    LOTS: 1.5,
    "reference/dials.md": 1.5,
    "reference/swapping.md": 1.5,
    "reference/needle-diameters.md": 1.5,
    "reference/disinfectants.md": 1.5,
    "reference/conversions.md": 1.5,
    "reference/scar-rules.md": 1.5,
    "reference/sites.md": 1.5,
    "reference/cycles.md": 1.5,
    "reference/groupings.md": 1.5,
    "formulas/": 0.2,
    "reference/records": 0.2,
    "reference/diagnostics.md": 0.2,
    "reference/sources.md": 0.2,
}


def search_weight(page: str) -> float:
    """What the search multiplies its score of a page with; `page` is its address in the handbook."""
    return next((weight for begins, weight in _WEIGHTS.items() if page.startswith(begins)), 1.0)
