"""The templates of rooms: HTML files that need nothing else."""

from __future__ import annotations

import functools
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from jinja2 import Environment


# How wide the line is that every print carries at the left edge of the paper, in mm.
STRIP = 5


@functools.cache
def templates_of(*rooms: str) -> Environment:
    """The templates of rooms of `press`, such as `sheet`. They include one another by name, the first room's first."""
    from jinja2 import ChoiceLoader, Environment, PackageLoader, StrictUndefined

    made = Environment(
        loader=ChoiceLoader([PackageLoader(f"generator.press.{room}") for room in rooms]),
        autoescape=True,
        auto_reload=False,  # what was made with a template is kept under the hash of the one that a run began with
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.globals["strip"] = STRIP
    return made
