"""The templates of rooms: HTML files that need nothing else."""

from __future__ import annotations

import functools

from jinja2 import ChoiceLoader, Environment, PackageLoader, StrictUndefined

from generator.press.words.print_line import STRIP


@functools.cache
def templates_of(*rooms: str) -> Environment:
    """The templates of rooms of `press`, such as `sheet`. They include one another by name, the first room's first."""
    made = Environment(
        loader=ChoiceLoader([PackageLoader(f"generator.press.{room}") for room in rooms]),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.globals["strip"] = STRIP
    return made
