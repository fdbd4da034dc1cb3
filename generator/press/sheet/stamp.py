"""The stamp of a sheet, eight characters in its foot and its code, that differs from the stamp of a later one.

The stamp leaves out the day of the build, swatches (print hides them), how the map is drawn (its numbers are in
`Sheet.geometry`) and the second system of units: both forms are the same sheet, and a look-up must not call one of
them outdated.
"""

from __future__ import annotations

import functools
import hashlib
import json
from dataclasses import fields, is_dataclass, replace

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
    printed = json.dumps(_printed(sheet), ensure_ascii=False, sort_keys=True)
    return hashlib.sha256(printed.encode()).hexdigest()[:8]


def stamped(sheet: Sheet) -> Sheet:
    """The sheet with its stamp, so that it is made once and not for each of its pages."""
    return replace(sheet, stamp=stamp_of(sheet))


def _printed(value: object) -> object:
    if is_dataclass(value):
        view: type = type(value)
        return {name: _printed(getattr(value, name)) for name in _printed_fields(view)}
    return [_printed(inner) for inner in value] if isinstance(value, tuple | list) else value


@functools.cache
def _printed_fields(view: type) -> tuple[str, ...]:
    return tuple(field.name for field in fields(view) if field.name not in _NOT_PRINTED)
