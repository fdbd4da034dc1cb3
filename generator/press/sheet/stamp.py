"""The stamp of a sheet, eight characters in its foot and its code, that differs from the stamp of a later one.

The stamp leaves out the day of the build, swatches (print hides them), how the map is drawn (its numbers are in
`Sheet.geometry`) and the second system of units: both forms are the same sheet, and a look-up must not call one of
them outdated.
"""

from __future__ import annotations

import hashlib
import json
from dataclasses import replace

from generator.planning.computed import Data
from generator.press.sheet.stored import to_stored
from generator.press.sheet.view import Sheet

# A drawing is code; the numbers that it shows stand in `geometry`. Swatches are for screens.
_NOT_PRINTED = (
    "stamp",
    "map",
    "map_wide",
    "map_tall",
    "map_over",
    "map_on_phone",
    "swatch",
    "day",
    "line",
    "once",
    "place",
    "in_hand",
    "technique_id",
    "technique_name",
    "may_tell",
)


def stamp_of(sheet: Sheet) -> str:
    """Eight characters that change when any word or number that is printed changes, and not with how it is drawn.

    A sheet that is kept as it was worked keeps the stamp of its paper.
    """
    if sheet.stamp:
        return sheet.stamp
    printed = json.dumps(_printed(to_stored(sheet)), ensure_ascii=False, sort_keys=True)
    return hashlib.sha256(printed.encode()).hexdigest()[:8]


def stamped(sheet: Sheet) -> Sheet:
    """The sheet with its stamp, so that it is made once and not for each of its pages."""
    return replace(sheet, stamp=stamp_of(sheet))


def _printed(stored: Data) -> Data:
    if isinstance(stored, dict):
        return {name: _printed(inner) for name, inner in stored.items() if name not in _NOT_PRINTED}
    return [_printed(inner) for inner in stored] if isinstance(stored, list) else stored
